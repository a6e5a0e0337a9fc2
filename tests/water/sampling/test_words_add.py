"""Words in an event add tests and never take one away; what is denied does not count.

Which event asks for which test: EPA, CDC and state health departments; sources in triggers.csv.
"""

from datetime import date

import pytest
from way_to_the_lab import way

from wellbook.support.paths import resources
from wellbook.water.sampling.dated_events import happening
from wellbook.water.sampling.due import Outlook
from wellbook.water.sampling.followups import Tap, follow_ups, taps_at
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.seasons import NORTHERN, SOUTHERN
from wellbook.water.values.triggers import asked_by

CATALOGUE = read_catalogue(resources())
KINDS = sorted({row.kind for row in CATALOGUE.triggers})
WORDS = sorted({phrase for row in CATALOGUE.triggers for phrase in row.words})


def keys(kind, text):
    return {row.key for row in asked_by(kind, text, CATALOGUE.triggers)}


def parameters(kind, text):
    return {key for row in asked_by(kind, text, CATALOGUE.triggers) for key in row.core}


@pytest.mark.parametrize("kind", KINDS)
def test_no_word_at_all_takes_a_test_away(kind):
    plain = keys(kind, "")
    for phrase in WORDS:
        assert plain <= keys(kind, phrase.replace("*", ""))


@pytest.mark.parametrize(
    ("text", "has_fuel"),
    [
        ("Creek stood over the wellhead", False),
        ("…, somebody's heating oil drum drifted past", True),
        ("Creek over the wellhead, no oil smelt", False),
        ("no fuel or oil seen", False),
        ("without any smell of diesel", False),
        ("sin combustible a la vista", False),
        ("no se vio aceite", False),
        ("el agua olía a gasóleo", True),
        ("no power for a week, oil on the water", True),
        ("not sure whether oil came with it", True),
        ("no doubt oil came with it", True),
        ("no oil at first, but oil in the evening", True),
    ],
)
def test_fuel_in_a_flood_is_asked_after_unless_it_is_denied(text, has_fuel):
    assert {"flood", "flood_again"} <= keys("flood", text)
    assert ("flood_fuel" in keys("flood", text)) is has_fuel


@pytest.mark.parametrize(
    ("kind", "text", "wanted"),
    [
        ("illness", "vomiting in the house, given rehydration salts", {"e_coli", "nitrate"}),
        ("illness", "the doctor wants a low sodium diet", {"sodium", "e_coli"}),
        ("birth", "twins", {"lead", "arsenic", "manganese", "nitrate", "e_coli"}),
        ("pregnancy", "", {"lead", "arsenic", "manganese", "nitrate", "e_coli"}),
        ("sale", "", {"nitrite", "nitrate", "lead", "e_coli"}),
        ("repair", "new kitchen faucet and copper pipes", {"lead", "copper", "total_coliform"}),
        ("owner", "we bought it", {"arsenic", "uranium", "manganese", "ph", "e_coli"}),
        ("new well", "", {"arsenic", "uranium", "lead", "e_coli"}),
        ("fire nearby", "the plastic pipe melted", {"benzene", "arsenic", "lead", "e_coli"}),
        ("taste", "the tap spits and catches fire", {"methane"}),
        ("taste", "se prende con una llama", {"methane"}),
        ("taste", "a rainbow sheen on the water", {"benzene"}),
        ("taste", "huele a tierra y a moho", {"e_coli"}),
        ("taste", "smells of manure", {"e_coli", "nitrate", "ammonia"}),
        ("spill", "slurry and diesel lost from a tanker", {"nitrate", "e_coli", "benzene"}),
    ],
)
def test_what_is_told_in_english_or_spanish_asks_for_what_belongs_to_it(kind, text, wanted):
    assert wanted <= parameters(kind, text)


@pytest.mark.parametrize(("scheme", "month"), [(NORTHERN, 4), (SOUTHERN, 10)])
def test_the_months_of_an_event_turn_with_the_hemisphere(scheme, month):
    """Manure and sprays come in spring: April in the north, October in the south."""
    cause = happening("event 1", "farming nearby", "2026-08-10")
    tap = Tap(1, treated=False, place=1, days={})
    ahead = Outlook(date(2026, 8, 11), scheme, way(), CATALOGUE)
    (due,) = follow_ups([cause], [tap], ahead, {})[1]
    assert due.due.month == month


def test_a_year_of_a_unit_asks_for_the_tap_between_two_tanks_too():
    taps = [Tap(1, False, 1, {}), Tap(2, True, 2, {}), Tap(3, True, 3, {})]  # noqa: FBT003
    assert [tap.point for tap in taps_at("all", taps)] == [1, 2, 3]
    assert [tap.point for tap in taps_at("between", taps)] == [2]
    assert taps_at("between", taps[:1] + taps[2:]) == []


def test_drilling_nearby_is_watched_for_years():
    cause = happening("event 1", "drilling nearby", "2024-03-01")
    days = {key: [date(2025, 6, 1)] for key in ("methane", "chloride", "sodium", "barium")}
    days["strontium"] = [date(2025, 6, 1)]
    tap = Tap(1, treated=False, place=1, days=days)
    ahead = Outlook(date(2026, 7, 1), NORTHERN, way(), CATALOGUE)
    found = follow_ups([cause], [tap], ahead, {})[1]
    assert [due.due for due in found] == [date(2026, 6, 1)]
