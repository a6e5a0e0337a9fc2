"""What stands between a plain comparison and a verdict: how the water was drawn, held, filtered.

A reservation may turn a good verdict into `undecidable`. It never makes a verdict better, but for
one: a limit on a part says nothing sure about a figure for the whole that is above it.
"""

from datetime import timedelta

from wellbook.support.message import Message, message
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Limit, LimitKind
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.hold_time import age_at_test, is_late, may_be_late
from wellbook.water.verdicts.reasons import Reason

_HOUR = timedelta(hours=1)
_PARTS = {
    "dissolved": Reason.LIMIT_OF_DISSOLVED,
    "free": Reason.LIMIT_OF_FREE,
    "inorganic": Reason.LIMIT_OF_INORGANIC,
}
# Conditions that are weighed here or where the figures are made; others are only told.
_WEIGHED = ("first draw", "net of uranium", "at 20 °C", "at 25 °C", *_PARTS)


_Weighed = tuple[Verdict, tuple[Message, ...]]


def not_comparable(reading: Reading) -> Message | None:
    """Why a reading can't be compared with any limit; None if it can."""
    if reading.kind is Kind.NONE:
        return message(Reason.NOT_ANALYSED)
    if reading.kind is Kind.TEXT:
        return message(Reason.NOT_UNDERSTOOD, result=reading.text.strip())
    if Flag.REJECTED in reading.flags:
        return message(Reason.REJECTED)
    return None


def apply_caveats(verdict: Verdict, result: Result, limit: Limit, parameter: Parameter) -> _Weighed:
    """Weigh what stands beside the figure; gives the verdict that is left and its reasons."""
    reasons: list[Message] = []
    for weigh in (_overgrown, _held, _ranged, _filtered, _part, _drawn, _told_early, _remarked):
        verdict, more = weigh(verdict, result, limit, parameter)
        reasons += more
    return verdict, tuple(reasons)


def _because(verdict: Verdict, *codes: Reason) -> _Weighed:
    return verdict, tuple(map(Message, codes)) if codes else ()


def _overgrown(verdict: Verdict, result: Result, _unused: Limit, parameter: Parameter) -> _Weighed:
    if Flag.OVERGROWN not in result.reading.flags or parameter.family != "bacteria":
        return _because(verdict)
    if verdict is Verdict.OUTSIDE:
        return _because(verdict)
    return _because(Verdict.UNDECIDABLE, Reason.OVERGROWN)


def _held(verdict: Verdict, result: Result, _unused: Limit, parameter: Parameter) -> _Weighed:
    if parameter.family != "bacteria":
        if Flag.HELD_TOO_LONG not in result.reading.flags:
            return _because(verdict)
        return _because(verdict, Reason.HELD_BEYOND_METHOD)
    if is_late(result):
        return _late(verdict, result)
    if may_be_late(result) and verdict is not Verdict.OUTSIDE:
        return _because(Verdict.UNDECIDABLE, Reason.MAY_BE_LATE)
    return _because(verdict)


def _late(verdict: Verdict, result: Result) -> _Weighed:
    age = age_at_test(result)
    hours = age / _HOUR if age else 0
    if verdict is Verdict.OUTSIDE:
        plain, by_hours = Reason.LATE_YET_FOUND, Reason.LATE_BY_HOURS_YET_FOUND
    else:
        verdict, plain, by_hours = Verdict.UNDECIDABLE, Reason.LATE, Reason.LATE_BY_HOURS
    return verdict, (message(by_hours, hours=hours) if hours else message(plain),)


def _ranged(verdict: Verdict, result: Result, _unused: Limit, __: Parameter) -> _Weighed:
    reading = result.reading
    if Flag.OVER_RANGE not in reading.flags or verdict is Verdict.OUTSIDE:
        return _because(verdict)
    if reading.kind is Kind.BELOW:
        return _because(verdict)
    return _because(Verdict.UNDECIDABLE, Reason.OVER_RANGE)


def _filtered(verdict: Verdict, result: Result, limit: Limit, _unused: Parameter) -> _Weighed:
    if limit.fraction != "total" or result.reading.fraction != "dissolved":
        return _because(verdict)
    if verdict is Verdict.OUTSIDE:
        return _because(verdict, Reason.TOTAL_IS_MORE)
    return _because(Verdict.UNDECIDABLE, Reason.ONLY_DISSOLVED)


def _part(verdict: Verdict, result: Result, limit: Limit, __: Parameter) -> _Weighed:
    part = limit.condition if limit.condition in _PARTS else limit.fraction
    if part not in _PARTS or result.reading.fraction == part or verdict is not Verdict.OUTSIDE:
        return _because(verdict)
    return _because(Verdict.UNDECIDABLE, _PARTS[part])


def _drawn(verdict: Verdict, result: Result, limit: Limit, _unused: Parameter) -> _Weighed:
    if "first draw" not in limit.condition or result.draw == "first draw":
        return _because(verdict)
    is_flushed = result.draw == "flushed"
    if verdict is Verdict.OUTSIDE:
        return _because(verdict, Reason.FLUSHED_NOT_FIRST if is_flushed else Reason.MAYBE_NOT_FIRST)
    if is_flushed:
        little = Reason.FLUSHED_SAYS_LITTLE
        return _because(Verdict.UNDECIDABLE, Reason.FOR_FIRST_DRAW, little)
    return _because(verdict, Reason.FOR_FIRST_DRAW, Reason.DRAW_NOT_SAID)


def _told_early(verdict: Verdict, result: Result, _unused: Limit, __: Parameter) -> _Weighed:
    if Flag.PRELIMINARY not in result.reading.flags:
        return _because(verdict)
    left = verdict if verdict is Verdict.OUTSIDE else Verdict.UNDECIDABLE
    return _because(left, Reason.PRELIMINARY)


def _remarked(verdict: Verdict, result: Result, limit: Limit, _unused: Parameter) -> _Weighed:
    remarks = []
    if Flag.IN_BLANK in result.reading.flags and result.reading.is_detect:
        remarks.append(message(Reason.IN_BLANK))
    if Flag.ESTIMATED in result.reading.flags and result.reading.kind is Kind.BELOW:
        remarks.append(message(Reason.ESTIMATED_LIMIT))
    if limit.kind is LimitKind.ACTION and verdict is Verdict.OUTSIDE and limit.condition:
        remarks.append(message(Reason.ACTION_LEVEL))
    if limit.condition and not limit.condition.startswith(_WEIGHED):
        remarks.append(message(Reason.CONDITION, condition=limit.condition))
    return verdict, tuple(remarks)
