"""What stands between a plain comparison and a verdict: how the water was drawn, held, filtered.

A reservation may turn a good verdict into `undecidable`. It never makes a verdict better, but for
one: a limit on a part says nothing sure about a figure for the whole that is above it.
"""

from datetime import timedelta

from wellbook.support.translation import N_, _
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Limit, LimitKind
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.hold_time import age_at_test, is_late, may_be_late

_HOUR = timedelta(hours=1)
_PARTS = {
    "dissolved": N_("The limit counts only the dissolved part of what was measured."),
    "free": N_("The limit counts only the free part of what was measured."),
    "inorganic": N_("The limit counts only the inorganic part of what was measured."),
}
_FIRST_DRAW = N_("The figure is meant for a first draw after six hours without use.")
# Conditions that are weighed here or where the figures are made; others are only told.
_WEIGHED = ("first draw", "net of uranium", "at 20 °C", "at 25 °C", *_PARTS)


def unfit(reading: Reading) -> str:
    """Why a reading can't be compared with any limit; empty if it can."""
    if reading.kind is Kind.NONE:
        return _("It was not analysed.")
    if reading.kind is Kind.TEXT:
        return _("The result “{result}” was not understood.").format(result=reading.text.strip())
    if Flag.REJECTED in reading.flags:
        return _("The lab rejected this result.")
    return ""


def reserve(
    verdict: Verdict, result: Result, limit: Limit, parameter: Parameter
) -> tuple[Verdict, str]:
    """Weigh what stands beside the figure; gives the verdict that is left and its reasons."""
    remarks = []
    for weigh in (_overgrown, _held, _ranged, _filtered, _part, _drawn, _told_early, _remarked):
        verdict, remark = weigh(verdict, result, limit, parameter)
        remarks.append(remark)
    return verdict, " ".join(filter(None, remarks))


def _overgrown(
    verdict: Verdict, result: Result, _unused: Limit, parameter: Parameter
) -> tuple[Verdict, str]:
    if Flag.OVERGROWN not in result.reading.flags or parameter.family != "bacteria":
        return verdict, ""
    if verdict is Verdict.OUTSIDE:
        return verdict, ""
    return (
        Verdict.UNDECIDABLE,
        _("Other growth covered the plate and may have hidden it; a new sample is needed."),
    )


def _held(
    verdict: Verdict, result: Result, _unused: Limit, parameter: Parameter
) -> tuple[Verdict, str]:
    if parameter.family != "bacteria":
        if Flag.HELD_TOO_LONG not in result.reading.flags:
            return verdict, ""
        return verdict, _("The lab held the sample longer than its method allows.")
    if not is_late(result):
        return _perhaps_late(verdict) if may_be_late(result) else (verdict, "")
    return (verdict if verdict is Verdict.OUTSIDE else Verdict.UNDECIDABLE), _late(verdict, result)


def _perhaps_late(verdict: Verdict) -> tuple[Verdict, str]:
    if verdict is Verdict.OUTSIDE:
        return verdict, ""
    said = _(
        "By its days alone the sample may have been held longer than 30 hours; bacteria may have "
        "died in it."
    )
    return Verdict.UNDECIDABLE, said


def _late(verdict: Verdict, result: Result) -> str:
    age = age_at_test(result)
    hours = age / _HOUR if age else 0
    if verdict is Verdict.OUTSIDE:
        if not hours:
            return _("The sample was held too long, yet bacteria were found.")
        return _("The sample was held too long ({hours:.0f} h), yet bacteria were found.").format(
            hours=hours
        )
    if not hours:
        return _("The sample was held too long; bacteria may have died in it.")
    return _("The sample was held too long ({hours:.0f} h); bacteria may have died in it.").format(
        hours=hours
    )


def _ranged(verdict: Verdict, result: Result, _unused: Limit, __: Parameter) -> tuple[Verdict, str]:
    reading = result.reading
    if Flag.OVER_RANGE not in reading.flags or verdict is Verdict.OUTSIDE:
        return verdict, ""
    if reading.kind is Kind.BELOW:
        return verdict, ""
    said = _("The lab flags it as above its calibrated range; it may be more.")
    return Verdict.UNDECIDABLE, said


def _filtered(
    verdict: Verdict, result: Result, limit: Limit, _unused: Parameter
) -> tuple[Verdict, str]:
    if limit.fraction != "total" or result.reading.fraction != "dissolved":
        return verdict, ""
    if verdict is Verdict.OUTSIDE:
        return verdict, _("Only the dissolved part was measured; the total can only be more.")
    return (
        Verdict.UNDECIDABLE,
        _("Only the dissolved part was measured; the limit is for the total, which may be more."),
    )


def _part(verdict: Verdict, result: Result, limit: Limit, __: Parameter) -> tuple[Verdict, str]:
    part = limit.condition if limit.condition in _PARTS else limit.fraction
    if part not in _PARTS or result.reading.fraction == part or verdict is not Verdict.OUTSIDE:
        return verdict, ""
    return Verdict.UNDECIDABLE, _(_PARTS[part])


def _drawn(
    verdict: Verdict, result: Result, limit: Limit, _unused: Parameter
) -> tuple[Verdict, str]:
    if "first draw" not in limit.condition or result.draw == "first draw":
        return verdict, ""
    if verdict is Verdict.OUTSIDE:
        if result.draw == "flushed":
            return verdict, _("The figure is meant for a first draw; this sample was flushed.")
        return verdict, _("The figure is meant for a first draw; this sample may not be one.")
    if result.draw == "flushed":
        little = _("A flushed sample says little about the pipes.")
        return Verdict.UNDECIDABLE, f"{_(_FIRST_DRAW)} {little}"
    unsaid = _("The sheet does not say how this sample was drawn.")
    return verdict, f"{_(_FIRST_DRAW)} {unsaid}"


def _told_early(
    verdict: Verdict, result: Result, _unused: Limit, __: Parameter
) -> tuple[Verdict, str]:
    if Flag.PRELIMINARY not in result.reading.flags:
        return verdict, ""
    said = _("Preliminary: the lab told it before its report.")
    return (verdict if verdict is Verdict.OUTSIDE else Verdict.UNDECIDABLE), said


def _remarked(
    verdict: Verdict, result: Result, limit: Limit, _unused: Parameter
) -> tuple[Verdict, str]:
    remarks = []
    if Flag.IN_BLANK in result.reading.flags and result.reading.is_detect:
        remarks.append(_("The lab also found it in its blank."))
    if Flag.ESTIMATED in result.reading.flags and result.reading.kind is Kind.BELOW:
        remarks.append(_("The reporting limit itself is an estimate."))
    if limit.kind is LimitKind.ACTION and verdict is Verdict.OUTSIDE and limit.condition:
        remarks.append(_("An action level for public supplies, not a maximum."))
    if limit.condition and not limit.condition.startswith(_WEIGHED):
        condition = _(limit.condition)
        remarks.append(_("The limit carries a condition: {condition}.").format(condition=condition))
    return verdict, " ".join(remarks)
