"""Hints at where salt and nitrate come from, by the fields of the studies that are named with them.

Davis and others, Ground Water 36 (1998): sewage 300 to 600, dissolved salt 1,000 to 10,000 of
chloride to bromide by mass, shallow groundwater 100 to 200; USGS SIR 2009-5086: above 1,000 with
more than 100 mg/L of chloride; sodium and chloride weigh 22.990 and 35.45 (IUPAC 2021).
"""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.chemistry.salt_sources import Hint, latest_hints, source_hints
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.wording.consulting import salt_sources as words

CATALOGUE = read_catalogue(paths.resources())


def sample(day=date(2025, 5, 3), number=1, **water):
    rows = []
    for key, word in water.items():
        parameter = CATALOGUE.parameters[key]
        text = str(word)
        kind = Kind.BELOW if text[0] == "<" else Kind.NUMBER
        reading = Reading(text, kind, Decimal(text.strip("<")), parameter.unit, parameter.basis)
        rows.append(Result(0, number, key, parameter.name, reading, LocalTime(day), 1))
    return rows


def kinds(**water):
    return {hint.kind for hint in source_hints(sample(**water), CATALOGUE)}


@pytest.mark.parametrize(
    ("chloride", "bromide", "hint"),
    [
        (15, "0.1", Hint.BROMIDE_RAIN),
        (45, "0.1", Hint.BROMIDE_SEWAGE),
        (80, "0.1", Hint.BROMIDE_BETWEEN),
        (60, "0.03", Hint.BROMIDE_SALT),
        (180, "0.09", Hint.BROMIDE_MUCH_SALT),
        (180, "<0.1", Hint.BROMIDE_MUCH_SALT),
    ],
)
def test_chloride_to_bromide_falls_into_its_field(chloride, bromide, hint):
    assert hint in kinds(chloride=chloride, bromide=bromide)


def test_a_bromide_non_detect_that_leaves_the_field_open_says_nothing():
    assert not kinds(chloride=40, bromide="<0.1")
    assert not kinds(chloride="<5", bromide="<0.1")


@pytest.mark.parametrize(
    ("sodium", "hint"),
    [("64.85", Hint.SODIUM_ONE), ("40", Hint.SODIUM_LESS), ("110", Hint.SODIUM_MORE)],
)
def test_sodium_to_chloride_is_counted_by_amount(sodium, hint):
    """64.85 mg/L of sodium is as much as 100 mg/L of chloride: 100 · 22.990 / 35.45."""
    found = source_hints(sample(sodium=sodium, chloride=100), CATALOGUE)
    assert [one.kind for one in found] == [hint]
    if hint is Hint.SODIUM_ONE:
        assert found[0].figures["ratio"].low == pytest.approx(1, abs=0.001)


def test_nitrate_is_told_with_what_stands_beside_it():
    assert kinds(nitrate=8, chloride=40, boron="0.2") == {Hint.NITRATE_BORON}
    assert kinds(nitrate=8, chloride=40) == {Hint.NITRATE_CHLORIDE}
    assert kinds(nitrate=8, chloride=40, boron="<0.02") == {Hint.NITRATE_CHLORIDE}
    assert kinds(nitrate=8, chloride=6) == {Hint.NITRATE_ALONE}
    assert kinds(nitrate=8) == {Hint.NITRATE_ONLY}
    assert kinds(nitrate="2.9", chloride=40) == set()


def test_the_latest_sample_that_could_tell_decides():
    old = sample(date(2019, 5, 3), 1, nitrate=8, chloride=40, bromide="0.1")
    new = sample(date(2025, 5, 3), 2, nitrate="1.2", chloride=20)
    found = latest_hints([old, new], CATALOGUE)
    assert [(day.year, hint.kind) for day, hint in found] == [(2019, Hint.BROMIDE_SEWAGE)]


def test_each_hint_has_its_source_and_the_paragraph_its_caution():
    found = source_hints(
        sample(nitrate=8, chloride=180, boron="0.2", bromide="0.09", sodium=110), CATALOGUE
    )
    said = words.paragraph(found)
    assert len(found) == 3
    assert said.count("Source: ") == 3
    assert said.endswith("can tell more.")
    assert "no proof" in said
    assert words.paragraph(()) == ""
    for kind in Hint:
        assert kind in words._SAID
