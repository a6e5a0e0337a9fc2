"""Facts as the words that stand on paper; days and counts are worded as on the charts."""

from wellbook.charts.words import day, force, loose_day, reported
from wellbook.water.limits import Limit, Rule
from wellbook.water.moments import Moment
from wellbook.water.readings import Kind, Reading
from wellbook.water.verdicts import Judgement, Verdict

__all__ = [
    "bound",
    "count",
    "day",
    "force",
    "loose_day",
    "moment",
    "open_span",
    "reported",
    "span",
    "unit",
    "verdict",
    "verdict_sentence",
    "with_fraction",
]


def count(n: int, one: str, many: str = "") -> str:
    """`1 test`, `3 tests`."""
    return f"{n:,} {one if n == 1 else many or one + 's'}"


def moment(when: Moment) -> str:
    """A day, with the local time and its offset where they were written down."""
    if when.at is None:
        return day(when.day)
    clock = f"{day(when.day)}, {when.at:%H:%M}"
    if when.offset is None:
        return clock
    sign, minutes = ("−" if when.offset < 0 else "+"), abs(when.offset)
    return f"{clock} (UTC{sign}{minutes // 60}:{minutes % 60:02d})"


def span(start: str, end: str) -> str:
    """Two loose days as a period; an open or unknown end says so."""
    if start and end and start != end:
        return f"{loose_day(start)} – {loose_day(end)}"
    if start or not end:
        return loose_day(start) if start else "not known"
    return f"until {loose_day(end)}"


def open_span(start: str, end: str) -> str:
    """A period that may go on; empty if neither end is known."""
    if start and not end:
        return f"since {loose_day(start)}"
    return span(start, end) if end else ""


def unit(reading: Reading) -> str:
    """Unit, basis and fraction of a reading as they were reported."""
    return " ".join(filter(None, (reading.unit, reading.basis, reading.fraction)))


def with_fraction(said: Reading) -> str:
    """Text, unit, basis and fraction as printed; words stand without a unit."""
    plain_words = said.kind in {Kind.NONE, Kind.TEXT}
    return " ".join(filter(None, (said.text, "" if plain_words else unit(said))))


def verdict(judgement: Judgement) -> str:
    """The word for a verdict in a table: what is outside says in which way."""
    limit = judgement.limit
    if judgement.verdict is Verdict.OUTSIDE and limit is not None:
        return _outside(judgement, limit)
    return {
        Verdict.OUTSIDE: "outside",
        Verdict.NEAR: "close",
        Verdict.WITHIN: "within",
        Verdict.UNDETECTED: "not detected",
        Verdict.UNDECIDABLE: "can’t be told",
        Verdict.NO_LIMIT: "no limit",
    }[judgement.verdict]


def verdict_sentence(judgement: Judgement) -> str:
    """The same as part of a sentence."""
    word = verdict(judgement)
    return {
        "over": "over the limit",
        "present": "present where it must be absent",
        "too low": "below the range",
        "too high": "above the range",
        "outside": "outside the limit",
        "close": "within the limit, but close to it",
        "within": "within the limit",
        "no limit": "no limit to compare with",
    }.get(word, word)


def _outside(judgement: Judgement, limit: Limit) -> str:
    if limit.rule is Rule.ABSENT:
        return "present"
    if limit.rule is Rule.MAX or limit.low is None or judgement.value is None:
        return "over" if limit.rule is Rule.MAX else "outside"
    return "too low" if judgement.value < limit.low else "too high"


def bound(limit: Limit) -> str:
    """What a limit allows, with its unit and basis, as it was published."""
    if limit.rule is Rule.ABSENT:
        return "must be absent"
    unit_words = " ".join(filter(None, (limit.unit if limit.unit != "1" else "", limit.basis)))
    if limit.rule is Rule.RANGE and limit.low is not None:
        if limit.high is None:
            return f"at least {limit.low:f} {unit_words}".strip()
        return f"{limit.low:f} to {limit.high:f} {unit_words}".strip()
    return "no figure" if limit.high is None else f"up to {limit.high:f} {unit_words}".strip()
