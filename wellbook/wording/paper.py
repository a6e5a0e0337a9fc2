"""Facts as the words that stand on paper; days are worded as on the charts."""

from decimal import Decimal

from wellbook.support.translation import say, say_as
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.local_time import Moment
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.wording import vocabulary
from wellbook.wording.facts import also, bound_shown, day, force, loose_day, reported, shown

__all__ = [
    "also",
    "bound",
    "bound_shown",
    "day",
    "flags",
    "force",
    "loose_day",
    "moment",
    "open_span",
    "reported",
    "shown",
    "span",
    "unit",
    "verdict",
    "verdict_sentence",
    "with_fraction",
    "with_side",
]

_OVER, _PRESENT, _TOO_LOW, _TOO_HIGH = "over", "present", "too low", "too high"  # ways out


def flags(reading: Reading) -> str:
    """What the lab said beside a figure."""
    return ", ".join(say(flag) for flag in sorted(reading.flags))


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
        return loose_day(start) if start else say("not known")
    return say("until {day}", day=loose_day(end))


def open_span(start: str, end: str) -> str:
    """A period that may go on; empty if neither end is known."""
    if start and not end:
        return say("since {day}", day=loose_day(start))
    return span(start, end) if end else ""


def with_side(point: str, *, treated: bool) -> str:
    """A sampling point with its side of the treatment."""
    if treated:
        return say("{point} (after treatment)", point=point)
    return say("{point} (before treatment)", point=point)


def unit(reading: Reading) -> str:
    """Unit, basis and fraction of a reading as they were reported."""
    return " ".join(
        filter(None, (reading.unit, reading.basis, vocabulary.fraction(reading.fraction)))
    )


def with_fraction(said: Reading) -> str:
    """Text, unit, basis and fraction as printed; words stand without a unit."""
    plain_words = said.kind in {Kind.NONE, Kind.TEXT}
    return " ".join(filter(None, (said.text, "" if plain_words else unit(said))))


def verdict(judgement: Judgement) -> str:
    """The word for a verdict in a table: what is outside says in which way."""
    return {
        _OVER: say_as("verdict", "over"),
        _PRESENT: say_as("verdict", "present"),
        _TOO_LOW: say_as("verdict", "too low"),
        _TOO_HIGH: say_as("verdict", "too high"),
        Verdict.OUTSIDE: say_as("verdict", "outside"),
        Verdict.NEAR: say_as("verdict", "close"),
        Verdict.WITHIN: say_as("verdict", "within"),
        Verdict.UNDETECTED: say_as("verdict", "not detected"),
        Verdict.UNDECIDABLE: say_as("verdict", "can’t be told"),
        Verdict.NO_LIMIT: say_as("verdict", "no limit"),
    }[_way(judgement)]


def verdict_sentence(judgement: Judgement) -> str:
    """The same as a sentence."""
    return {
        _OVER: say("Over the limit."),
        _PRESENT: say("Present where it must be absent."),
        _TOO_LOW: say("Below the range."),
        _TOO_HIGH: say("Above the range."),
        Verdict.OUTSIDE: say("Outside the limit."),
        Verdict.NEAR: say("Within the limit, but close to it."),
        Verdict.WITHIN: say("Within the limit."),
        Verdict.UNDETECTED: say("Not detected."),
        Verdict.UNDECIDABLE: say("Can’t be told."),
        Verdict.NO_LIMIT: say("No limit to compare with."),
    }[_way(judgement)]


def _way(judgement: Judgement) -> str:
    """The verdict, or in which way it is outside where that is known."""
    limit = judgement.limit
    if judgement.verdict is not Verdict.OUTSIDE or limit is None:
        return judgement.verdict
    if limit.rule is Rule.ABSENT:
        return _PRESENT
    if limit.rule is Rule.MAX:
        return _OVER
    if limit.low is None or judgement.value is None:
        return Verdict.OUTSIDE
    return _TOO_LOW if judgement.value < limit.low else _TOO_HIGH


def bound(limit: Limit) -> str:
    """What a limit allows, with its unit and basis, as it was published."""
    if limit.rule is Rule.ABSENT:
        return say("must be absent")
    if limit.rule is Rule.RANGE and limit.low is not None:
        low, high = limit.low, limit.high
        if high is None:
            return say("at least {figure}", figure=_with_unit(low, limit))
        return say("{low} to {high}", low=f"{low:f}", high=_with_unit(high, limit))
    if limit.high is None:
        return say("no figure")
    return say("up to {figure}", figure=_with_unit(limit.high, limit))


def _with_unit(number: Decimal, limit: Limit) -> str:
    unit_words = " ".join(filter(None, (limit.unit if limit.unit != "1" else "", limit.basis)))
    return f"{number:f} {unit_words}".strip()
