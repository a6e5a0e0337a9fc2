"""Which of several judgements is named first, and what is said of limits with unsure dates."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Judgement, Verdict, headline, judge_all
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
COPPER = CATALOGUE.limits_of("copper")[0]


def judged(verdict, value, high, kind=LimitKind.HEALTH):
    value, high = (None if figure is None else Decimal(figure) for figure in (value, high))
    return Judgement(verdict, replace(COPPER, kind=kind, high=high), value)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (judged(Verdict.OUTSIDE, "6", "2"), judged(Verdict.OUTSIDE, "15", "10")),
        (judged(Verdict.OUTSIDE, "11", "10"), judged(Verdict.OUTSIDE, None, "10")),
        (judged(Verdict.OUTSIDE, "11", "10"), judged(Verdict.OUTSIDE, "20", None)),
        (judged(Verdict.WITHIN, "5", "10"), judged(Verdict.WITHIN, None, "10")),
        (judged(Verdict.WITHIN, "5", "10"), judged(Verdict.WITHIN, "0", "0")),
    ],
)
def test_of_two_alike_the_one_that_takes_the_larger_share_of_its_limit_is_named(first, second):
    assert headline([first, second]) is first
    assert headline([second, first]) is first


@pytest.mark.parametrize("kind", list(LimitKind))
def test_any_limit_that_is_met_is_named_before_none(kind):
    met = judged(Verdict.WITHIN, "1", "10", kind)
    assert headline([Judgement(Verdict.NO_LIMIT), met]) is met


@pytest.mark.parametrize(
    ("start", "end", "bound"),
    [
        ("2019-06", "", "2019-06"),
        ("2019", "", "2019"),
        ("2010-01-01", "2019-06", "2019-06"),
        ("1977", "2019-06", "2019-06"),  # it surely had begun
    ],
)
def test_a_date_known_to_the_month_or_year_is_told_as_it_is_known(start, end, bound):
    held = replace(COPPER, set="us-epa-primary", start=start, end=end)
    catalogue = replace(CATALOGUE, _limits_of={"copper": (held,)})
    reading = read_reading("1", unit="mg/L")
    one = Result(1, 1, "copper", "Copper", reading, LocalTime.parse("2019-06-10"), 1)
    (got,) = judge_all(one, catalogue, ("us-epa-primary",), date(2019, 6, 10), beside=())
    assert f"known only as {bound}," in why(got)


def test_of_no_judgement_nothing_is_said():
    assert headline([]) == Judgement(Verdict.NO_LIMIT, None, None, ())
