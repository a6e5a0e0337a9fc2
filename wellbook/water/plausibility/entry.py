"""Slips of copying: a wrong column, a lost sign, an impossible date, a report entered twice."""

from collections.abc import Iterator, Sequence
from datetime import date
from heapq import nlargest

from wellbook.support.translation import N_, _
from wellbook.water.plausibility.usual_range import History
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding
from wellbook.water.values.limits import Rule
from wellbook.water.values.local_time import Moment
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

# So many figures equal to another column, and at least half of all, are a wrong column.
_LEAST_EQUAL = 3
_LAST_MONTH = 12
_REPORTING = N_(
    "{n} of {total} figures are exactly their reporting limit ({names} …). Was the wrong column "
    "copied?"
)
_LEGAL = N_(
    "{n} of {total} figures are exactly their legal limit ({names} …). Was the wrong column copied?"
)
# Zero is a sound figure for these.
_ZERO_FAMILIES = frozenset({"bacteria"})
_ZERO_KEYS = frozenset(
    {"temperature", "odor", "color", "redox_potential", "hardness_noncarbonate", "carbonate"}
)


def dates(
    results: Sequence[Result], today: date | None, received: Moment | None
) -> Iterator[Finding]:
    """Dates of one sample that can't be."""
    if not results:
        return
    collected = results[0].collected
    swapped = _swapped(collected.day, today, received)
    if today and collected.day > today:
        text = _("The sample is dated {day}, which is still to come.").format(day=collected.day)
        yield Finding("future_date", f"{text} {swapped}".strip())
    if received and _later(collected, received):
        text = _(
            "The sample is dated {drawn} but came to the lab on {received}. Was the day of the "
            "report or of the analysis taken?"
        ).format(
            drawn=collected.iso(),
            received=received.iso(),
        )
        yield Finding("after_receipt", f"{text} {swapped}".strip())
    early = [r for r in results if r.analysed and _later(collected, r.analysed)]
    if early and early[0].analysed:
        yield Finding(
            "analysed_before_collected",
            _(
                "{n} of {total} results were analysed before the sample was drawn ({name}: "
                "{analysed}, drawn {drawn}). Is the day of sampling right?"
            ).format(
                n=len(early),
                total=len(results),
                name=early[0].name,
                analysed=early[0].analysed.iso(),
                drawn=collected.iso(),
            ),
            results=tuple(r.id for r in early),
        )


def columns(results: Sequence[Result], catalogue: Catalogue) -> Iterator[Finding]:
    """Figures that are those of another column: the reporting limit or a legal limit."""
    numbers = [r for r in results if r.reading.kind is Kind.NUMBER and r.reading.number]
    reporting = [r for r in numbers if r.reporting_limit.strip() == r.reading.text.strip()]
    legal = [r for r in numbers if _is_a_limit(r, catalogue)]
    for found, text in ((reporting, _REPORTING), (legal, _LEGAL)):
        if len(found) >= max(_LEAST_EQUAL, len(numbers) / 2):
            yield Finding(
                "wrong_column",
                _(text).format(
                    n=len(found),
                    total=len(numbers),
                    names=", ".join(r.name for r in found[:3]),
                ),
                results=tuple(r.id for r in found),
            )


def signs(results: Sequence[Result], catalogue: Catalogue, history: History) -> Iterator[Finding]:
    """A `<` that was lost, and a zero where a lab would have printed one."""
    for result in results:
        reading, parameter = result.reading, catalogue.parameters.get(result.parameter)
        if parameter is None or reading.kind is not Kind.NUMBER:
            continue
        zero_is_sound = parameter.family in _ZERO_FAMILIES or parameter.key in _ZERO_KEYS
        if reading.number == 0 and not zero_is_sound:
            yield Finding(
                "zero",
                _(
                    "{parameter} is reported as 0. Labs mostly print a reporting limit, such as "
                    "<0.5: if the sheet has one, enter it so."
                ).format(
                    parameter=parameter.name,
                ),
                severity="note",
                results=(result.id,),
            )
        elif reading.number and _was_limit(result, history):
            yield Finding(
                "lost_sign",
                _(
                    "{parameter} {figure} {unit} is exactly the reporting limit of earlier "
                    "non-detects. Is there a < before it on the sheet?"
                ).format(
                    parameter=parameter.name,
                    figure=reading.text,
                    unit=reading.unit,
                ),
                results=(result.id,),
            )


def again(results: Sequence[Result], history: History) -> Iterator[Finding]:
    """The same report a second time: same day, same readings."""
    if not results:
        return
    day = results[0].collected.day
    there = {
        _print(one)
        for key in {result.parameter for result in results}
        for one in history.get(key, ())
        if one.collected.day == day
    }
    if len(results) >= _LEAST_EQUAL and all(_print(r) in there for r in results):
        yield Finding(
            "entered_before",
            _(
                "All {n} readings of {day} are already in the record. Is it the same report a "
                "second time?"
            ).format(
                n=len(results),
                day=day,
            ),
        )


def _print(result: Result) -> tuple[str, str, str]:
    return result.parameter or result.name, result.reading.text.strip(), result.reading.unit


def _later(one: Moment, other: Moment) -> bool:
    """Whether a moment is certainly later, by the day where a time is lacking."""
    if one.day != other.day or one.at is None or other.at is None:
        return one.day > other.day
    return one.at > other.at and one.offset == other.offset


def _swapped(day: date, today: date | None, received: Moment | None) -> str:
    """The question whether day and month changed places, if that would put it right."""
    end = min(filter(None, (today, received.day if received else None)), default=None)
    if end is None or day.day > _LAST_MONTH or day.day == day.month:
        return ""
    other = date(day.year, day.day, day.month)
    return _("Were day and month swapped ({other})?").format(other=other) if other <= end else ""


def _is_a_limit(result: Result, catalogue: Catalogue) -> bool:
    reading = result.reading
    return any(
        limit.rule is Rule.MAX and limit.high == reading.number and limit.unit == reading.unit
        for limit in catalogue.limits_of(result.parameter)
    )


def _was_limit(result: Result, history: History) -> bool:
    """Whether the last two results were non-detects at exactly this figure."""
    last = nlargest(2, history.get(result.parameter, ()), key=lambda one: one.collected.order())
    return len(last) > 1 and all(
        one.reading.kind is Kind.BELOW
        and (one.reading.number, one.reading.unit) == (result.reading.number, result.reading.unit)
        for one in last
    )
