"""Facts as the words that stand on paper; days are worded as on the charts."""

from decimal import Decimal

from wellbook.support.translation import _, pgettext
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.local_time import Moment
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.wording import vocabulary
from wellbook.wording.facts import also, bound_shown, day, force, holds, loose_day, reported, shown

__all__ = [
    "also",
    "bound",
    "bound_shown",
    "day",
    "flags",
    "force",
    "holds",
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
    return ", ".join(_(flag) for flag in sorted(reading.flags))


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
        return loose_day(start) if start else _("not known")
    return _("until {day}").format(day=loose_day(end))


def open_span(start: str, end: str) -> str:
    """A period that may go on; empty if neither end is known."""
    if start and not end:
        return _("since {day}").format(day=loose_day(start))
    return span(start, end) if end else ""


def with_side(point: str, *, treated: bool) -> str:
    """A sampling point with its side of the treatment."""
    if treated:
        return _("{point} (after treatment)").format(point=point)
    return _("{point} (before treatment)").format(point=point)


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
        _OVER: pgettext("verdict", "over"),
        _PRESENT: pgettext("verdict", "present"),
        _TOO_LOW: pgettext("verdict", "too low"),
        _TOO_HIGH: pgettext("verdict", "too high"),
        Verdict.OUTSIDE: pgettext("verdict", "outside"),
        Verdict.ADOPTED: pgettext("verdict", "over a limit to come"),
        Verdict.NEAR: pgettext("verdict", "close"),
        Verdict.WITHIN: pgettext("verdict", "within"),
        Verdict.UNDETECTED: pgettext("verdict", "not detected"),
        Verdict.UNDECIDABLE: pgettext("verdict", "can’t be told"),
        Verdict.NO_LIMIT: pgettext("verdict", "no limit"),
    }[_way(judgement)]


def verdict_sentence(judgement: Judgement) -> str:
    """The same as a sentence."""
    return {
        _OVER: _("Over the limit."),
        _PRESENT: _("Present where it must be absent."),
        _TOO_LOW: _("Below the range."),
        _TOO_HIGH: _("Above the range."),
        Verdict.OUTSIDE: _("Outside the limit."),
        Verdict.ADOPTED: _("Over a limit that is adopted and does not bind yet."),
        Verdict.NEAR: _("Within the limit, but close to it."),
        Verdict.WITHIN: _("Within the limit."),
        Verdict.UNDETECTED: _("Not detected."),
        Verdict.UNDECIDABLE: _("Can’t be told."),
        Verdict.NO_LIMIT: _("No limit to compare with."),
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
        return _("must be absent")
    if limit.rule is Rule.RANGE and limit.low is not None:
        low, high = limit.low, limit.high
        if high is None:
            return _("at least {figure}").format(figure=_with_unit(low, limit))
        return _("{low} to {high}").format(low=f"{low:f}", high=_with_unit(high, limit))
    if limit.high is None:
        return _("no figure")
    return _("up to {figure}").format(figure=_with_unit(limit.high, limit))


def _with_unit(number: Decimal, limit: Limit) -> str:
    unit_words = " ".join(filter(None, (limit.unit if limit.unit != "1" else "", limit.basis)))
    return f"{number:f} {unit_words}".strip()
