"""Readings, limits and standings as pages of the window are handed them, made without a book."""

from datetime import date
from decimal import Decimal

from waters import CATALOGUE

from wellbook.water.parsing.printed import read_reading
from wellbook.water.statistics.outcomes import Direction, Trend, TrendTest
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, LimitKind, Rule, SumRule, Term
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.water.verdicts.sums import Part, Sum

DAY = date(2026, 5, 4)
PRIMARY = "us-epa-primary"
BARE = Judgement(Verdict.NO_LIMIT)


def limit(
    key, high="10", kind=LimitKind.HEALTH, *, low=None, rule=Rule.MAX, note="", start="1992-07-30",
    end="", unit="mg/L", source="40 CFR 141.62(b)",
):  # fmt: skip
    """A made-up limit of a published set, on the usual basis."""
    low, high = (None if one is None else Decimal(one) for one in (low, high))
    ends = (low, high, unit, CATALOGUE.parameters[key].basis, "", "")
    rest = (start, end, source, "", True, note)
    return Limit(PRIMARY, key, kind, rule, *ends, *rest)


def result(key, text="2.5", unit="mg/L", *, day=DAY, number=1, fraction="", name="", **more):
    """A reading as a lab printed it, on the usual basis."""
    known = CATALOGUE.parameters[key]
    reading = read_reading(text, unit=unit, basis=known.basis, fraction=fraction)
    printed = name or known.name
    return Result(number, number, key, printed, reading, LocalTime(day), 1, **more)


def trend(says=Direction.FEW, n=3):
    """A history that says one thing."""
    return Trend(says, TrendTest.NONE, n, 0, None, None, None, None, None, "mg/L")


def judged(verdict, against=None, value=None):
    """A verdict with what it rests on."""
    return Judgement(verdict, against, None if value is None else Decimal(value))


def standing(key, verdict=Verdict.WITHIN, against=None, value=None, *, then=None, **more):
    """Where a parameter stands; against a limit of 10 mg/L for health unless told otherwise."""
    against = limit(key) if against is None and verdict is not Verdict.NO_LIMIT else against
    now = judged(verdict, against, value)
    facts = {"n": 3, "latest": result(key), "trend": trend()} | more
    return Standing(CATALOGUE.parameters[key], then=then or now, now=now, **facts)


def nitrogen(verdict=Verdict.OUTSIDE, lows=("9.6", "0.9"), day=DAY):
    """Nitrate and nitrite added up, held against 10 mg/L as N."""
    rule = SumRule(
        "nitrate_nitrite", "sum", "mg/L", "as N", (Term("nitrate"), Term("nitrite")), 0,
        speaks_alone=True, whole=True, source="40 CFR 141.62(b)",
    )  # fmt: skip
    pairs = zip(rule.members, map(Decimal, lows), strict=True)
    parts = (Part(term.parameter, low, low) for term, low in pairs)
    added = Sum(rule, "mg/L", "as N", tuple(parts))
    now = judged(verdict, limit("nitrate_nitrite"), added.low)
    return SumStanding(CATALOGUE.parameters["nitrate_nitrite"], day, added, now, now)
