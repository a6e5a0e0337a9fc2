"""What changed since the test before, as a person reads it."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from scipy import stats

from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.latest_change import Crossed, Step, latest_change
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording.latest_change import latest_test, paragraph

CATALOGUE = read_catalogue(paths.resources())
TODAY = date(2026, 1, 1)
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}


def result(word, year, key="nitrate", **more):
    parameter = CATALOGUE.parameters[key]
    if word in {"present", "absent"}:
        reading = Reading(word, Kind.PRESENT if word == "present" else Kind.ABSENT)
    else:
        number = Decimal(word.strip("<>"))
        kind = KINDS.get(word[0], Kind.NUMBER)
        reading = Reading(word, kind, number, parameter.unit, parameter.basis)
    day = LocalTime(date(year, 5, 4))
    return Result(year, year, key, parameter.name, reading, day, 1, **more)


def change(results, key="nitrate", sets=("us-epa-primary",)):
    record = PointRecord.of(results)
    return latest_change(record, CATALOGUE.parameters[key], CATALOGUE, sets, TODAY)


def of(words, key="nitrate"):
    return change([result(word, 2000 + k, key) for k, word in enumerate(words.split())], key)


@pytest.mark.parametrize(
    ("words", "step"),
    [
        ("1", Step.FIRST),
        ("1 2", Step.UP),
        ("2 1", Step.DOWN),
        ("2 2.0", Step.SAME),
        ("<1 <2 3", Step.NEW),
        ("3 <1 2", Step.DETECTED),
        ("3 <1", Step.GONE),
        ("<2 <1", Step.NOT_DETECTED),
        ("<5 3", Step.OPEN),
        ("3 <5", Step.OPEN),
        (">10 3", Step.DOWN),
        ("3 >10", Step.UP),
    ],
)
def test_the_step_is_said_only_where_it_is_certain(words, step):
    assert of(words).step is step


@pytest.mark.parametrize(
    ("words", "step"),
    [
        ("absent present", Step.NEW),
        ("present absent present", Step.DETECTED),
        ("present absent", Step.GONE),
        ("absent absent", Step.NOT_DETECTED),
        ("present present", Step.SAME),
    ],
)
def test_bacteria_are_found_gone_or_as_before(words, step):
    assert of(words, "e_coli").step is step


def test_a_step_is_unusual_beside_the_steps_of_this_well():
    assert of("5.0 5.2 5.1 5.3 5.2 6.4").unusual is True
    assert of("5.0 6.2 5.1 6.3 5.2 6.4").unusual is False
    assert of("5.0 5.2 5.1 6.4").unusual is None


def test_the_bound_of_the_usual_leaves_one_step_in_ten():
    """Quantiles of the normal curve, by scipy."""
    assert stats.norm.ppf(0.95) / stats.norm.ppf(0.75) == pytest.approx(2.44, abs=0.01)


def test_a_step_of_the_last_printed_digit_is_never_unusual():
    found = of("5 5 5 5 5 5 6")
    assert (found.rounding, found.unusual) == (True, False)
    assert "no more than the last printed digit" in paragraph(found)


@pytest.mark.parametrize(
    ("words", "crossed"),
    [
        ("8 9 11", Crossed.FIRST_OVER),
        ("11 9 12", Crossed.OVER_AGAIN),
        ("11 12 9", Crossed.FIRST_UNDER),
        ("9 12 9", Crossed.UNDER_AGAIN),
        ("11 12", Crossed.NO),
        ("11", Crossed.NO),
    ],
)
def test_crossing_a_limit_is_said_first_and_again(words, crossed):
    assert of(words).crossed is crossed


@pytest.mark.parametrize("last", ["11", "20", "45", "300"])
def test_worse_water_never_loses_its_crossing(last):
    assert of(f"8 9 {last}").crossed is Crossed.FIRST_OVER


def test_another_lab_method_and_reporting_limit_are_said():
    old = result("5", 2020, lab="Ash", method="EPA 300.0", reporting_limit="0.50")
    same = replace(result("5", 2021), lab="Ash", method="EPA 300.0", reporting_limit="0.5")
    assert (change([old, same]).lab, change([old, same]).reporting_limit) == (None, None)
    new = replace(result("5", 2021), lab="Birch", method="SM 4500", reporting_limit="0.1")
    said = paragraph(change([old, new]))
    assert "Another lab: Birch, before Ash." in said
    assert "Another method: SM 4500, before EPA 300.0." in said
    assert "Another reporting limit: 0.1 mg/L as N, before 0.5 mg/L as N." in said


def test_another_spelling_is_no_other_method_and_another_unit_no_other_limit():
    old = result("7", 2020, "arsenic", method="SM 9223 B", reporting_limit="0.001")
    micro = Reading("7", Kind.NUMBER, Decimal(7), "µg/L", "")
    milli = replace(old, reading=replace(micro, number=Decimal("0.007"), unit="mg/L"))
    new = replace(result("7", 2021, "arsenic"), reading=micro, method="SM9223b")
    found = change([milli, replace(new, reporting_limit="1")], "arsenic")
    assert (found.method, found.reporting_limit) == (None, None)
    found = change([milli, replace(new, reporting_limit="5")], "arsenic")
    assert found.reporting_limit == ("1 µg/L", "5 µg/L")


def test_a_limit_that_moved_between_the_tests_is_said():
    """Arsenic, 40 CFR 141.62: 50 until 22 January 2006, 10 µg/L from the day after."""
    found = change([result("8", 2004, "arsenic"), result("8", 2008, "arsenic")], "arsenic")
    assert found.limit is not None
    assert "The limit moved from" in paragraph(found)


def test_the_paragraph_gives_size_unit_day_and_measure():
    said = paragraph(of("5.0 5.2 5.1 5.3 5.2 6.4"), ("flood, Jun 2004",))
    assert said == (
        "Up by 1.2 mg/L as N since 4 May 2004, more than usual: the middle of 4 earlier steps is "
        "0.15. Between the two: flood, Jun 2004."
    )


def test_the_first_test_says_so():
    assert paragraph(of("5")) == "This is the first test of it."


def test_without_a_test_nothing_changed():
    assert change([]) is None


def test_the_latest_test_of_a_point_tells_what_is_notable_and_what_crossed_first():
    changes = [
        of("5.0 5.2 5.1 5.3 5.2 5.3", "chloride"),
        of("<1 <1 <1 <1 <1 2", "lead"),
        of("8 9 8 9 9 12"),
        None,
    ]
    assert latest_test(changes).splitlines() == [
        "New in the latest test, 4 May 2005",
        (
            "Nitrate: Up by 3 mg/L as N since 4 May 2004, more than usual: the middle of 4 earlier "
            "steps is 1. Outside a limit for the first time."
        ),
        "Lead: Found for the first time; not detected on 4 May 2004 and before.",
    ]


def test_what_a_test_shares_is_said_once_for_all_its_parameters():
    def moved(key, words, **more):
        old = [result(word, 2000 + k, key, lab="Ash") for k, word in enumerate(words.split())]
        return change([*old[:-1], replace(old[-1], lab="Birch", **more)], key)

    lead, iron = moved("lead", "<1 <1 2"), moved("iron", "0.1 0.1 0.1", reporting_limit="0.05")
    assert latest_test([lead, iron]).splitlines() == [
        "New in the latest test, 4 May 2002",
        "Lead: Found for the first time; not detected on 4 May 2001 and before.",
        "Another lab: Birch, before Ash.",
    ]
    same = of("8 8 8", "chloride")
    assert latest_test([iron, same]).splitlines()[1:] == ["Iron: Another lab: Birch, before Ash."]


def test_another_method_and_reporting_limit_are_said_of_what_is_not_notable():
    def with_limit(key, limit, method):
        return result("5", 2000 + (limit != "1"), key, reporting_limit=limit, method=method)

    changes = [
        change([with_limit(key, "1", "EPA 300.0"), with_limit(key, "2", "SM 4110")], key)
        for key in ("chloride", "sulfate")
    ]
    assert latest_test(changes).splitlines() == [
        "New in the latest test, 4 May 2001",
        "Another method: Chloride, Sulfate.",
        "Another reporting limit: Chloride, Sulfate.",
    ]


def test_nothing_notable_is_not_said_because_it_would_sound_like_an_all_clear():
    assert latest_test([of("15 15 16 15 15 16")]) == ""
    assert latest_test([]) == ""
