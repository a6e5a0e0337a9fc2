"""Slips of copying: a wrong column, a lost sign, an impossible date, a report entered twice."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal, InvalidOperation

from wellbook.water.plausibility.usual_range import History
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Check, Oddity, Severity
from wellbook.water.values.limits import Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

# So many figures equal to another column, and at least half of all, are a wrong column.
_LEAST_EQUAL = 3
_LAST_MONTH = 12
_LEAST_ALIKE = 2
_LATELY = 4  # results in which a reporting limit is looked for
Undetected = dict[tuple[Decimal | None, str], list[str]]  # parameters by figure and unit
# Zero is a sound figure for these.
_ZERO_FAMILIES = frozenset({"bacteria"})
_ZERO_KEYS = frozenset(
    {"temperature", "odor", "color", "redox_potential", "hardness_noncarbonate", "carbonate"}
)


def dates(
    results: Sequence[Result], today: date | None, received: LocalTime | None
) -> Iterator[Oddity]:
    """Dates of one sample that can't be."""
    if not results:
        return
    collected = results[0].collected
    swapped = _swapped(collected.day, today, received)
    if today and collected.day > today:
        yield Oddity(Check.FUTURE_DATE, {"day": collected.day, "swapped": swapped})
    if received and _later(collected, received):
        facts = {"drawn": collected, "received": received, "swapped": swapped}
        yield Oddity(Check.AFTER_RECEIPT, facts)
    early = [r for r in results if r.analysed and _later(collected, r.analysed)]
    if early and early[0].analysed:
        yield Oddity(
            Check.ANALYSED_FIRST,
            {
                "n": len(early),
                "total": len(results),
                "name": early[0].name,
                "analysed": early[0].analysed,
                "drawn": collected,
            },
            results=tuple(r.id for r in early),
        )


def columns(results: Sequence[Result], catalogue: Catalogue) -> Iterator[Oddity]:
    """Figures that are those of another column: the reporting limit or a legal limit."""
    number = Kind.NUMBER
    numbers = [r for r in results if r.reading.kind is number and r.reading.number]
    reporting = [
        r
        for r in numbers
        if (r.reporting_limit and r.reporting_limit.strip() == r.reading.text.strip())
    ]
    highest = _highest(catalogue)
    legal = [r for r in numbers if (r.parameter, r.reading.number, r.reading.unit) in highest]
    for found, is_legal in ((reporting, False), (legal, True)):
        if len(found) >= max(_LEAST_EQUAL, len(numbers) / 2):
            yield Oddity(
                Check.WRONG_COLUMN,
                {
                    "n": len(found),
                    "total": len(numbers),
                    "names": tuple(result.name for result in found[:3]),
                    "legal": is_legal,
                },
                results=tuple(r.id for r in found),
            )


def signs(results: Sequence[Result], catalogue: Catalogue, history: History) -> Iterator[Oddity]:
    """A `<` that was lost, and a zero where a lab would have printed one."""
    number, below = Kind.NUMBER, Kind.BELOW
    undetected: Undetected = {}
    for one in results:
        if one.reading.kind is below:
            at = one.reading.number, one.reading.unit
            undetected.setdefault(at, []).append(one.parameter)
    for result in results:
        reading = result.reading
        parameter = catalogue.parameters.get(result.parameter)
        if parameter is None or reading.kind is not number:
            continue
        zero_is_sound = parameter.family in _ZERO_FAMILIES or parameter.key in _ZERO_KEYS
        if reading.number == 0 and not zero_is_sound:
            yield Oddity(
                Check.ZERO,
                {"parameter": parameter.name},
                severity=Severity.NOTE,
                results=(result.id,),
            )
        elif reading.number and (whose := _whose_limit(result, results, undetected, history)):
            facts = {"figure": reading.text, "unit": reading.unit, "whose": whose}
            yield Oddity(
                Check.LOST_SIGN, {"parameter": parameter.name, **facts}, results=(result.id,)
            )


def again(results: Sequence[Result], history: History) -> Iterator[Oddity]:
    """The same report a second time: same day, same readings."""
    if not results or not history:
        return
    day = results[0].collected.day
    there = {
        _print(one)
        for key in {result.parameter for result in results}
        for one in history.get(key, ())
        if one.collected.day == day
    }
    if len(results) >= _LEAST_EQUAL and all(_print(r) in there for r in results):
        yield Oddity(Check.ENTERED_BEFORE, {"n": len(results), "day": day})


def _print(result: Result) -> tuple[str, str, str]:
    return result.parameter or result.name, result.reading.text.strip(), result.reading.unit


def _later(one: LocalTime, other: LocalTime) -> bool:
    """Whether a moment is certainly later, by the day where a time is lacking."""
    if one.day != other.day or one.at is None or other.at is None:
        return one.day > other.day
    return one.at > other.at and one.offset == other.offset


def _swapped(day: date, today: date | None, received: LocalTime | None) -> date | None:
    """The day if day and month changed places, where that would put it right."""
    end = min(filter(None, (today, received.day if received else None)), default=None)
    if end is None or day.day > _LAST_MONTH or day.day == day.month:
        return None
    other = date(day.year, day.day, day.month)
    return other if other <= end else None


def _highest(catalogue: Catalogue) -> set[tuple[str, Decimal | None, str]]:
    """Parameter, figure and unit of each highest legal limit."""
    return catalogue.once(
        "highest",
        lambda: {
            (one.parameter, one.high, one.unit) for one in catalogue.limits if one.rule is Rule.MAX
        },
    )


def _whose_limit(
    result: Result, results: Sequence[Result], undetected: Undetected, history: History
) -> str:
    """Of what a figure is exactly the reporting limit; empty if of nothing."""
    if history and _was_limit(result, history):
        return "earlier"
    if (
        result.reporting_limit
        and _is_own_limit(result)
        and sum(map(_is_own_limit, results)) < _LEAST_EQUAL
    ):
        return "own"  # of more of them a wrong column is asked
    return "beside" if _is_limit_beside(result, undetected, history) else ""


def _is_own_limit(result: Result) -> bool:
    """Whether the figure is the limit that its row prints."""
    if not result.reporting_limit:
        return False
    try:
        return result.reading.kind is Kind.NUMBER and result.reading.number == Decimal(
            result.reporting_limit
        )
    except InvalidOperation:
        return False


def _is_limit_beside(result: Result, undetected: Undetected, history: History) -> bool:
    """Whether two others of the sample at least were not detected at just this figure.

    Where so low a figure was found before, it tells nothing.
    """
    alike = undetected.get((result.reading.number, result.reading.unit), ())
    if len(alike) < _LEAST_ALIKE or sum(key != result.parameter for key in alike) < _LEAST_ALIKE:
        return False
    return not any(_is_found_at(one, result) for one in history.get(result.parameter, ()))


def _is_undetected_at(one: Result, result: Result) -> bool:
    old, new = one.reading, result.reading
    return old.kind is Kind.BELOW and (old.number, old.unit) == (new.number, new.unit)


def _was_limit(result: Result, history: History) -> bool:
    """Whether at least half of the last results, and two, were non-detects at just this figure.

    Where so low a figure was found before, it tells nothing that it comes again.
    """
    if not history.get(result.parameter):
        return False
    order = sorted(history[result.parameter], key=lambda one: one.collected.order())
    last = order[-_LATELY:]
    if any(_is_found_at(one, result) for one in order):
        return False
    alike = sum(_is_undetected_at(one, result) for one in last)
    return alike >= max(_LEAST_ALIKE, len(last) / 2)


def _is_found_at(one: Result, result: Result) -> bool:
    """Whether an earlier result is a detected figure no higher than this one."""
    old, new = one.reading, result.reading
    if old.kind is not Kind.NUMBER or old.number is None or new.number is None:
        return False
    return old.unit == new.unit and old.number <= new.number
