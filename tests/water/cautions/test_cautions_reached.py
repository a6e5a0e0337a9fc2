"""Every text of cautions.toml can be reached: beside each the water or event that shows it."""

from itertools import product

import pytest
from waters import CATALOGUE, CAUTIONS, TODAY, USUAL, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.cautions import PEOPLE, happening_situations
from wellbook.water.values.readings import Flag
from wellbook.wording.reference import worded_advice

ALL = tuple(key for key, one in CATALOGUE.sets.items() if one.standing == "in force")
EVERYBODY = frozenset(PEOPLE)
GERM, FLUSHED_OUT = ("e_coli", "present"), frozenset({Flag.OVERGROWN})
# Text by its table: the rows of a sample, and by which sets it is judged.
WATERS = {
    ("e_coli", "over"): ([GERM], USUAL),
    ("e_coli", "undecided"): ([("e_coli", "TNTC")], USUAL),
    ("total_coliform", "over"): (
        [("total_coliform", "present"), ("e_coli", "absent")],
        USUAL,
    ),
    ("total_coliform", "undecided"): ([("total_coliform", "TNTC")], USUAL),
    ("heterotrophic_plate_count", "found"): ([("heterotrophic_plate_count", "900")], ()),
    ("iron_bacteria", "found"): ([("iron_bacteria", "present")], USUAL),
    ("nitrate", "over"): ([("nitrate", "12", "mg/L", "as N")], USUAL),
    ("nitrate", "undecided"): ([("nitrate", "30", "mg/L")], USUAL),
    ("arsenic", "over"): ([("arsenic", "12", "µg/L")], USUAL),
    ("lithium", "found"): ([("lithium", "30", "µg/L")], USUAL),
    ("chromium_vi", "over"): ([("chromium_vi", "20", "µg/L")], ("us-ca",)),
    ("chromium_vi", "found"): ([("chromium_vi", "2", "µg/L")], USUAL),
    ("lead", "over"): ([("lead", "20", "µg/L")], USUAL),
    ("copper", "over"): ([("copper", "2", "mg/L")], USUAL),
    ("manganese", "over"): ([("manganese", "0.5", "mg/L")], USUAL),
    ("fluoride", "over"): ([("fluoride", "3", "mg/L")], USUAL),
    ("uranium", "over"): ([("uranium", "60", "µg/L")], USUAL),
    ("gross_alpha", "over"): ([("gross_alpha", "40", "pCi/L"), ("uranium", "2", "pCi/L")], USUAL),
    ("radon_222", "over"): ([("radon_222", "90000", "pCi/L")], ALL),
    ("radon_222", "found"): ([("radon_222", "900", "pCi/L")], USUAL),
    ("pfoa", "over"): ([("pfoa", "30", "ng/L")], ("us-nj",)),
    ("pfoa", "adopted"): ([("pfoa", "30", "ng/L")], USUAL),
    ("pfoa", "found"): ([("pfoa", "2", "ng/L")], USUAL),
    ("benzene", "over"): ([("benzene", "9", "µg/L")], USUAL),
    ("benzene", "found"): ([("benzene", "1", "µg/L")], USUAL),
    ("atrazine", "over"): ([("atrazine", "9", "µg/L")], USUAL),
    ("tthm", "over"): ([("tthm", "90", "µg/L")], USUAL),
    ("dehp", "over"): ([("dehp", "0.02", "mg/L")], USUAL),
    ("microcystin_lr", "over"): ([("microcystin_lr", "3", "µg/L")], ("eu-dwd",)),
    ("microcystin_lr", "found"): ([("microcystin_lr", "0.3", "µg/L")], USUAL),
    ("barium", "over"): ([("barium", "3", "mg/L")], USUAL),
    ("zinc", "over"): ([("zinc", "3", "mg/L")], USUAL),
    ("methane", "over"): ([("methane", "30", "mg/L")], USUAL),
    ("methane", "found"): ([("methane", "3", "mg/L")], USUAL),
    ("hydrogen_sulfide", "over"): ([("hydrogen_sulfide", "3", "mg/L")], ALL),
    ("hydrogen_sulfide", "found"): ([("hydrogen_sulfide", "1", "mg/L")], ("us-epa-primary",)),
    ("sodium", "over"): ([("sodium", "300", "mg/L")], USUAL),
    ("sulfate", "over"): ([("sulfate", "600", "mg/L")], USUAL),
    ("sulfate", "taste"): ([("sulfate", "300", "mg/L")], ("us-epa-secondary",)),
    ("ph", "low"): ([("ph", "5", "pH units")], USUAL),
    ("ph", "over"): ([("ph", "10", "pH units")], USUAL),
    ("chlorine_residual", "over"): ([("chlorine_residual", "9", "mg/L")], USUAL),
    ("ammonia", "over"): ([("ammonia", "90", "mg/L", "as NH3")], USUAL),
    ("turbidity", "over"): ([("turbidity", "9", "NTU")], ALL),
}
BOILING = {
    "no": [GERM, ("nitrate", "30", "mg/L", "as N")],
    "last": [GERM, ("nitrate", "6", "mg/L", "as N")],
    "lesser": [GERM, ("nitrate", "1", "mg/L", "as N"), ("arsenic", "12", "µg/L")],
    "vented": [GERM, ("nitrate", "1", "mg/L", "as N"), ("radon_222", "900", "pCi/L")],
    "turbid": [GERM, ("nitrate", "1", "mg/L", "as N"), ("turbidity", "9", "NTU")],
    "people": [GERM, ("nitrate", "1", "mg/L", "as N"), ("lead", "2", "µg/L")],
    "nitrate_unknown": [GERM],
}
TEXTS = ("over", "undecided", "adopted", "taste", "low", "found")


def words(rows, sets=USUAL, people=EVERYBODY):
    results = [
        result(*row, number=n, flags=FLUSHED_OUT if row[1] == "TNTC" else frozenset())
        for n, row in enumerate(rows, 1)
    ]
    return " ".join(
        worded_advice(one).text
        for one in resolve(judged(*results, sets=sets), CAUTIONS, people, TODAY)
    )


def test_a_water_is_named_for_every_text_of_every_table():
    tables = {one.key: one for one in CAUTIONS.of.values()}
    asked = {(key, name) for key, name in product(tables, TEXTS) if getattr(tables[key], name)}
    assert asked == WATERS.keys()
    assert BOILING.keys() == CAUTIONS.boil.keys()


@pytest.mark.parametrize(("key", "name"), sorted(WATERS))
def test_a_text_is_shown_by_its_water(key, name):
    rows, sets = WATERS[key, name]
    assert getattr(CAUTIONS.of[key], name) in words(rows, sets)


@pytest.mark.parametrize("name", sorted(BOILING))
def test_a_text_on_boiling_is_shown_by_its_water(name):
    start = CAUTIONS.boil[name].partition("{")[0]
    assert start[:60] in words(BOILING[name], ALL if name == "turbid" else USUAL)


@pytest.mark.parametrize("key", sorted({one.key for one in CAUTIONS.of.values() if one.special}))
def test_what_a_table_says_to_people_is_shown_with_it(key):
    rows, sets = WATERS[key, "over"]
    said = words(rows, sets)
    assert all(text in said for text in CAUTIONS.of[key].special.values())


@pytest.mark.parametrize("place", range(len(CAUTIONS.people)))
def test_what_is_said_to_some_people_is_shown_by_one_of_its_parameters(place):
    one = CAUTIONS.people[place]
    key = one.parameters[0]
    known = CATALOGUE.parameters[key]
    if known.scale == "presence":
        rows = [(key, "present")]
    elif one.over:
        rows = WATERS[CAUTIONS.of[key].key, "over"][0]
    else:
        rows = [(key, str((one.start or 1) * 2), one.unit or known.unit, one.basis)]
    assert one.text in words(rows, people=frozenset(one.who[:1]))
    # Of the house alone, but where it would otherwise be called a matter of taste.
    assert (one.text in words(rows, people=frozenset())) is (key == "manganese")


COLIFORM = ("total_coliform", "present")
TOGETHER = {
    "disinfect": [GERM, ("methane", "3", "mg/L")],
    "coliform_with_e_coli": [COLIFORM, GERM],
    "coliform_alone": [COLIFORM],
    "taste_and_near": [("copper", "1.29", "mg/L")],
}


def test_what_is_said_of_several_findings_together_is_shown_by_its_water():
    assert TOGETHER.keys() == CAUTIONS.clashes.keys()
    for name, rows in TOGETHER.items():
        assert CAUTIONS.clashes[name] in words(rows)


def test_the_general_texts_are_shown():
    assert CAUTIONS.taste in words([("aluminum", "0.25", "mg/L")], ("us-epa-secondary",))
    assert CAUTIONS.undecided in words([("arsenic", "12", "drops")])


# Shown by a page of the packet or the field sheet and not by an event.
ON_PAPER = {"bacteria_found", "sample_held_too_long", "first_draw"}


@pytest.mark.parametrize("name", sorted(CAUTIONS.situations))
def test_a_situation_is_shown_by_an_event_or_stands_on_paper(name):
    situation = CAUTIONS.situations[name]
    if name in ON_PAPER:
        return
    assert situation.events
    for kind in situation.events:
        assert situation in happening_situations(CAUTIONS, [(kind, 0)])
    assert situation not in happening_situations(CAUTIONS, [(situation.events[0], 999)])
