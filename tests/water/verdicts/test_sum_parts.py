"""The parts of a sum: what counts, what is left out, and what is said of it."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.sum_status import stand_sums
from wellbook.water.verdicts.sums import judge_sum, judge_sums, sums
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
US = ("us-epa-primary",)
RADIUM = CATALOGUE.limits_of("radium_combined")[-1]
INDEX = CATALOGUE.limits_of("pfas_hazard_index")[-1]


def results(unit, *rows):
    when = LocalTime(TODAY)
    return [
        Result(n, 1, key, key, read_reading(text, unit=unit), when, 1)
        for n, (key, text) in enumerate(rows)
    ]


def radium(*rows):
    sample = results("pCi/L", *((f"radium_{nuclide}", text) for nuclide, text in rows))
    (one,) = sums(sample, CATALOGUE)
    return one


def index(*rows):
    """40 CFR 141.61(c)(2): HFPO-DA/10 + PFBS/2000 + PFNA/10 + PFHxS/10 in ng/L, limit 1."""
    made = sums(results("ng/L", *rows), CATALOGUE)
    return next(one for one in made if one.rule.key == "pfas_hazard_index")


def bounds(*rows):
    one = radium(*rows)
    return one.low, one.high, one.found


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        ([("226", "1"), ("228", "2")], (3, 3, 2)),
        ([("226", "<1"), ("228", "2")], (2, 3, 1)),
        ([("226", "-0.5"), ("228", "2")], (2, 2, 1)),
        ([("226", ">1"), ("228", "2")], (3, None, 2)),
        ([("226", "1")], (1, None, 1)),
    ],
)
def test_what_was_not_found_lies_between_nothing_and_its_limit(rows, expected):
    assert bounds(*rows) == expected


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [
        ("<1", "<2", (0, 2, 0)),
        ("<2", "<1", (0, 2, 0)),
        ("<5", "1", (1, 1, 1)),
        ("1", ">1", (1, None, 1)),
        (">1", "1", (1, None, 1)),
        ("absent", "3", (3, 3, 1)),
        ("ND", "3", (3, 3, 1)),
    ],
)
def test_of_duplicates_the_worse_one_counts(first, second, expected):
    assert bounds(("226", first), ("226", second), ("228", "0")) == expected


def test_a_duplicate_in_a_unit_that_does_not_fit_is_passed_over():
    sample = results("NTU", ("radium_226", "1"))
    sample += results("pCi/L", ("radium_226", "3"), ("radium_228", "1"))
    (one,) = sums(sample, CATALOGUE)
    assert (one.low, one.missing) == (4, ())


def test_a_sum_is_in_the_unit_of_its_parts_and_a_sum_of_shares_has_none():
    (nitrogen, ratio) = sums(results("mg/L as N", ("nitrate", "5"), ("nitrite", "0.1")), CATALOGUE)
    assert (nitrogen.unit, nitrogen.basis) == ("mg/L", "as N")
    assert (ratio.unit, ratio.basis) == ("1", "")


def test_an_index_that_needs_two_parts_waits_for_those_not_tested():
    alone = judge_sum(index(("pfna", "5")), INDEX, CATALOGUE)
    assert alone.verdict is Verdict.UNDECIDABLE
    tested = index(("pfna", "5"), ("pfhxs", "<1"), ("pfbs", "<1"), ("hfpo_da", "<1"))
    only_one = judge_sum(tested, INDEX, CATALOGUE)
    assert only_one.verdict is Verdict.NO_LIMIT
    assert why(only_one) == "It counts only where 2 or more of its parts are found."


def test_one_part_alone_is_not_outside_an_index_that_needs_two():
    got = judge_sum(index(("pfna", "50")), INDEX, CATALOGUE)
    assert got.verdict is Verdict.UNDECIDABLE


def test_a_missing_part_is_named():
    got = judge_sum(radium(("226", "1")), RADIUM, CATALOGUE)
    assert why(got) == "Radium-228 has no figure that can be added; the sum can’t be told."
    got = judge_sum(radium(("226", ">1"), ("228", "1")), RADIUM, CATALOGUE)
    assert why(got) == "A part has no figure that can be added; the sum can’t be told."
    (nitrogen, _) = sums(results("mg/L as N", ("nitrate", "5")), CATALOGUE)
    bare = replace(nitrogen, parts=tuple(replace(part, result=None) for part in nitrogen.parts))
    held = CATALOGUE.limits_of("nitrate_nitrite")[-1]
    assert why(judge_sum(bare, held, CATALOGUE)).startswith("Nitrate and Nitrite have no figure")


def test_a_sum_on_both_sides_of_its_limit_tells_its_bounds():
    """Combined radium 5 pCi/L: 40 CFR 141.66(b)."""
    got = judge_sum(radium(("226", "4.5"), ("228", "<1")), RADIUM, CATALOGUE)
    assert got.verdict is Verdict.UNDECIDABLE
    assert why(got) == (
        "Added up from Radium-226 and Radium-228. It lies between 4.5 and 5.5 pCi/L."
    )


def test_a_sum_of_nothing_found_takes_its_highest_bound():
    got = judge_sum(radium(("226", "<1"), ("228", "<1")), RADIUM, CATALOGUE)
    assert (got.verdict, got.value) == (Verdict.UNDETECTED, Decimal(2))


def held_between(start, end):
    """The reference data with one limit on nitrate and nitrite, between two days."""
    limit = replace(CATALOGUE.limits_of("nitrate_nitrite")[-1], set=US[0], start=start, end=end)
    return replace(CATALOGUE, _limits_of={"nitrate_nitrite": (limit,)})


@pytest.mark.parametrize(
    ("start", "end", "then", "now"),
    [
        ("2026-01-01", "", Verdict.NO_LIMIT, Verdict.OUTSIDE),
        ("", "2025-12-31", Verdict.OUTSIDE, Verdict.NO_LIMIT),
        ("", "", Verdict.OUTSIDE, Verdict.OUTSIDE),
    ],
)
def test_a_sum_stands_where_a_limit_held_then_or_holds_now(start, end, then, now):
    nitrogen = results("mg/L as N", ("nitrate", "9.6"), ("nitrite", "0.9"))
    past = [replace(result, collected=LocalTime(date(2024, 5, 1))) for result in nitrogen]
    (one,) = stand_sums(PointRecord.of(past), held_between(start, end), US, TODAY)
    assert (one.then.verdict, one.now.verdict) == (then, now)
    assert (one.sum.low, one.sum.missing) == (Decimal("10.5"), ())
    assert one.day == date(2024, 5, 1)


def test_a_limit_that_does_not_hold_is_not_asked():
    sample = results("mg/L as N", ("nitrate", "9.6"), ("nitrite", "0.9"))
    assert judge_sums(sample, held_between("2027-01-01", ""), US, TODAY) == ()


def test_each_part_of_the_index_is_divided_by_its_own_figure():
    """40 CFR 141.61(c)(2): 10, 2000, 10 and 10 ng/L are each one whole of the index."""
    rows = {"hfpo_da": "10", "pfbs": "2000", "pfna": "10", "pfhxs": "10"}
    assert index(*rows.items()).low == 4
    for key, text in rows.items():
        assert index((key, text)).low == 1


def test_shares_of_nitrate_and_nitrite_are_taken_of_50_and_3():
    """World Health Organization guideline: nitrate over 50 plus nitrite over 3, as ions."""
    sample = [
        Result(0, 1, key, key, read_reading(text, unit=unit), LocalTime(TODAY), 1)
        for key, text, unit in (
            ("nitrate", "25", "mg/L as NO3"),
            ("nitrite", "0.6", "mg/L as NO2"),
        )
    ]
    ratio = next(s for s in sums(sample, CATALOGUE) if s.rule.key == "nitrate_nitrite_ratio")
    assert ratio.low == pytest.approx(Decimal("0.7"))
