"""The plain comparison. That both ends of a limit are allowed: its wording, `shall not exceed`."""

from decimal import Decimal

import pytest

from wellbook.support.message import message
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.water.values.readings import Kind
from wellbook.water.verdicts.compare import Figure, badness, compare
from wellbook.water.verdicts.reasons import Reason
from wellbook.wording.reasons import reason


def limit(high, *, low=None, rule=Rule.MAX, kind=LimitKind.HEALTH, rounds=False):
    low, high = (None if end is None else Decimal(end) for end in (low, high))
    empty = {"basis": "", "fraction": "", "condition": "", "start": "", "end": ""}
    told = {"source": "made up", "where": "", "checked": False, "note": ""}
    return Limit("set", "x", kind, rule, low, high, "mg/L", **empty, **told, rounds=rounds)


def told(kind, value, held, **more):
    figure = Figure(kind, None if value is None else Decimal(value), **more)
    verdict, because = compare(figure, held)
    return verdict, reason(because) if because else ""


@pytest.mark.parametrize(
    ("figure", "text"),
    [
        ("10", "10"),
        ("0.1234", "0.1234"),
        ("1234", "1234"),
        ("12345", "12300"),
        ("10.256", "10.3"),
        ("0.0012345", "0.00123"),
    ],
)
def test_a_figure_is_told_with_up_to_four_digits_and_longer_ones_with_three(figure, text):
    said = reason(message(Reason.BETWEEN, low=Decimal(0), high=Decimal(figure), unit="mg/L"))
    assert said == f"It lies between 0 and {text} mg/L."


def test_verdicts_stand_in_order_from_no_limit_to_outside():
    order = ["no limit", "undetected", "within", "near", "adopted", "undecidable", "outside"]
    assert [badness(Verdict(name)) for name in order] == list(range(7))


@pytest.mark.parametrize(
    ("held", "expected"),
    [
        (limit(None, rule=Rule.ABSENT), Verdict.OUTSIDE),
        (limit("0"), Verdict.OUTSIDE),
        (limit("1"), Verdict.UNDECIDABLE),
        (limit("8.5", low="6.5", rule=Rule.RANGE), Verdict.UNDECIDABLE),
        (limit("0", low="0", rule=Rule.RANGE), Verdict.UNDECIDABLE),
    ],
)
def test_found_without_a_figure_is_outside_only_where_none_is_allowed(held, expected):
    assert told(Kind.PRESENT, None, held)[0] is expected


@pytest.mark.parametrize(
    ("kind", "why"),
    [
        (Kind.BELOW, "no reporting limit"),
        (Kind.ABOVE, "off scale"),
        (Kind.PRESENT, "gives no figure"),
        (Kind.NUMBER, "no figure to compare"),
    ],
)
def test_what_has_no_figure_says_which_one_is_wanting(kind, why):
    verdict, said = told(kind, None, limit("10"))
    assert verdict is Verdict.UNDECIDABLE
    assert why in said


def test_absence_is_a_good_answer_but_not_where_a_range_is_asked_for():
    assert told(Kind.ABSENT, None, limit("10")) == (Verdict.UNDETECTED, "")
    assert told(Kind.ABSENT, None, limit("8.5", rule=Rule.RANGE))[0] is Verdict.UNDECIDABLE


def test_a_maximum_without_its_number_gives_no_verdict():
    assert told(Kind.NUMBER, "5", limit(None)) == (
        Verdict.UNDECIDABLE,
        "The rule gives no number.",
    )


def test_none_where_none_is_allowed_is_within_and_not_near():
    assert told(Kind.NUMBER, "0", limit("0"))[0] is Verdict.WITHIN


@pytest.mark.parametrize(
    ("kind", "value", "expected"),
    [
        (Kind.NUMBER, "0", Verdict.UNDETECTED),
        (Kind.NUMBER, "0.5", Verdict.OUTSIDE),
        (Kind.NUMBER, "1", Verdict.OUTSIDE),
        (Kind.NUMBER, "2", Verdict.OUTSIDE),
        (Kind.ABOVE, "0", Verdict.OUTSIDE),
        (Kind.BELOW, "10", Verdict.UNDECIDABLE),
    ],
)
def test_any_count_is_outside_where_none_may_be_found(kind, value, expected):
    assert told(kind, value, limit("0", rule=Rule.ABSENT))[0] is expected


@pytest.mark.parametrize(
    ("value", "at_least", "expected"),
    [
        ("10", False, Verdict.OUTSIDE),
        ("10", True, Verdict.UNDECIDABLE),
        ("10.1", True, Verdict.OUTSIDE),
        ("9", False, Verdict.UNDECIDABLE),
    ],
)
def test_more_than_the_limit_is_outside_and_at_least_the_limit_is_not_yet(
    value, at_least, expected
):
    assert told(Kind.ABOVE, value, limit("10"), at_least=at_least)[0] is expected


def test_a_figure_beyond_a_bound_is_more_than_it_unless_said_otherwise():
    assert told(Kind.ABOVE, "10", limit("10"))[0] is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("kind", "value", "expected"),
    [
        (Kind.BELOW, "6.5", Verdict.OUTSIDE),
        (Kind.BELOW, "9", Verdict.UNDECIDABLE),
        (Kind.ABOVE, "6", Verdict.UNDECIDABLE),
        (Kind.ABOVE, "8.5", Verdict.OUTSIDE),
        (Kind.NUMBER, "6.5", Verdict.WITHIN),
        (Kind.NUMBER, "8.5", Verdict.WITHIN),
    ],
)
def test_a_bound_is_outside_a_range_only_from_the_end_it_points_away_from(kind, value, expected):
    assert told(kind, value, limit("8.5", low="6.5", rule=Rule.RANGE))[0] is expected


def test_at_least_the_upper_end_of_a_range_may_be_that_end():
    held = limit("8.5", low="6.5", rule=Rule.RANGE)
    assert told(Kind.ABOVE, "8.5", held, at_least=True)[0] is Verdict.UNDECIDABLE


@pytest.mark.parametrize(
    ("low", "high", "value", "expected"),
    [
        ("6.5", None, "6.4", Verdict.OUTSIDE),
        ("6.5", None, "14", Verdict.WITHIN),
        (None, "8.5", "0", Verdict.WITHIN),
        (None, "8.5", "8.6", Verdict.OUTSIDE),
    ],
)
def test_a_range_may_have_one_end_only(low, high, value, expected):
    assert told(Kind.NUMBER, value, limit(high, low=low, rule=Rule.RANGE))[0] is expected


def test_rounding_is_told_where_it_would_matter_and_nothing_is_said_elsewhere():
    rounding = limit("10", rounds=True)
    assert "would be 10," in told(Kind.NUMBER, "10.4", rounding)[1]
    assert told(Kind.NUMBER, "10.5", rounding) == (Verdict.OUTSIDE, "")
    assert told(Kind.NUMBER, "10.4", limit("10"))[1] == ""
    assert told(Kind.NUMBER, "10.4", limit("10", kind=LimitKind.AESTHETIC, rounds=True))[1] == ""
