"""From results to marks: what is drawn where, and what can't be drawn."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from itertools import pairwise
from statistics import median

from wellbook.charts.model.parts import ROWS, Mark, Shape, Sort
from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.series import FROM_PIPES
from wellbook.water.units import conversion
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Fraction, Kind, Reading
from wellbook.water.values.results import Draw, Result
from wellbook.water.verdicts.hold_time import is_late
from wellbook.water.verdicts.interpretations import NOTHING_GREW
from wellbook.wording import facts
from wellbook.wording.dates import month_of
from wellbook.wording.reasons import assumed

_SHAPES = {Kind.NUMBER: Shape.VALUE, Kind.BELOW: Shape.BELOW, Kind.ABOVE: Shape.ABOVE}
_REJECTED, _NOT_ANALYSED = "rejected", "not analysed"
_NO_FIGURE, _NO_UNIT = "no figure", "no unit"
_DRAWS: dict[str, Sort] = {Draw.FIRST: Sort.FIRST, Draw.FLUSHED: Sort.FLUSHED}
_LEAST_RUN = 3
_WIDEST_GAP = 2  # times the usual interval


@dataclass(frozen=True, slots=True)
class Reached:
    """The marks of a history, and in words what was left out or assumed."""

    marks: tuple[Mark, ...]
    notes: tuple[str, ...]


def read_marks(history: Sequence[Result], parameter: Parameter) -> Reached:
    """Marks in order of time; a result that has no place on the chart becomes a note."""
    marks: list[Mark] = []
    left: dict[str, int] = {}  # how many for each reason
    assumed: dict[str, None] = {}
    sort_of = _sorts(history, parameter)
    for result in sorted(history, key=lambda r: (*r.collected.order(), r.id)):
        mark, why = _mark(result, parameter)
        if mark is None:
            left[why] = left.get(why, 0) + 1
            continue
        marks.append(replace(mark, sort=sort_of(result)))
        if why:
            assumed[why] = None
    notes = [_not_drawn(why, n) for why, n in left.items()]
    return Reached(tuple(marks), (*notes, *assumed, *_fractions(history)))


def sorted_apart(marks: Sequence[Mark]) -> list[tuple[Mark, ...]]:
    """The marks of each sort of water, each in order of time."""
    return [
        tuple(mark for mark in marks if mark.sort is sort)
        for sort in Sort
        if any(mark.sort is sort for mark in marks)
    ]


def _sorts(history: Sequence[Result], parameter: Parameter) -> Callable[[Result], Sort]:
    """What tells which water a result is of, where the history or the metal asks for it."""
    dissolved = [result.reading.fraction == Fraction.DISSOLVED for result in history]
    mixed = any(dissolved) and not all(dissolved)
    drawn = parameter.key in FROM_PIPES and any(result.draw for result in history)

    def sort(result: Result) -> Sort:
        if mixed and result.reading.fraction == Fraction.DISSOLVED:
            return Sort.DISSOLVED
        if drawn:
            return _DRAWS.get(result.draw, Sort.UNTOLD)
        return Sort.TOTAL if mixed else Sort.ALIKE

    return sort


def runs(marks: Sequence[Mark]) -> tuple[tuple[int, int], ...]:
    """Neighbouring figures that lie no further apart than twice the usual interval.

    A bound is not a figure and breaks a run; fewer than three figures are not joined at all.
    """
    days = sorted({mark.day for mark in marks})
    gaps = [later - earlier for earlier, later in pairwise(days)]
    figures = [place for place, mark in enumerate(marks) if mark.shape is Shape.VALUE]
    if len(figures) < _LEAST_RUN or not gaps:
        return ()
    widest = _WIDEST_GAP * median(gap / timedelta(days=1) for gap in gaps)
    found: list[tuple[int, int]] = []
    start = figures[0]
    for here, following in zip(figures, [*figures[1:], None], strict=True):
        near = following == here + 1 and (marks[here + 1].day - marks[here].day).days <= widest
        if not near:
            if here > start:
                found.append((start, here))
            start = following if following is not None else start
    return tuple(found)


def _mark(result: Result, parameter: Parameter) -> tuple[Mark | None, str]:
    """The mark and what was assumed for it, or no mark and why."""
    reading = result.reading
    if Flag.REJECTED in reading.flags:
        return None, _REJECTED
    if reading.kind is Kind.NONE:
        return None, _NOT_ANALYSED
    if parameter.scale == "presence":
        return replace(_placed(result, _row(reading), 0.0), late=is_late(result)), ""
    shape = _SHAPES.get(reading.kind)
    if shape is None or reading.number is None:
        return None, _NO_FIGURE
    try:
        figure = conversion.convert(
            reading.number, reading.unit, reading.basis, *parameter.shown_in, parameter
        )
    except conversion.NoConversion:
        return None, _NO_UNIT
    return _placed(result, shape, float(figure.number)), assumed(figure)


def _not_drawn(why: str, n: int) -> str:
    """How many results are left out for a reason."""
    if why == _REJECTED:
        return ngettext(
            "{n:,} result rejected by the lab is not drawn.",
            "{n:,} results rejected by the lab are not drawn.",
            n,
        ).format(n=n)
    if why == _NOT_ANALYSED:
        return ngettext(
            "{n:,} result not analysed is not drawn.",
            "{n:,} results not analysed are not drawn.",
            n,
        ).format(n=n)
    if why == _NO_FIGURE:
        return ngettext(
            "{n:,} result without a figure is not drawn.",
            "{n:,} results without a figure are not drawn.",
            n,
        ).format(n=n)
    return ngettext(
        "{n:,} result without a usable unit or basis is not drawn.",
        "{n:,} results without a usable unit or basis are not drawn.",
        n,
    ).format(n=n)


def _placed(result: Result, shape: Shape, value: float) -> Mark:
    flags = result.reading.flags
    said = ", ".join(sorted(flags))
    return Mark(
        day=result.collected.day,
        value=value,
        shape=shape,
        label=f"{facts.reported(result.reading)}{f' ({said})' if said else ''}",
        estimated=Flag.ESTIMATED in flags,
        late=Flag.HELD_TOO_LONG in flags,
        result=result.id,
        sample=result.sample,
    )


def _row(reading: Reading) -> Shape:
    """The row of a strip; `<10`, in a diluted sample, leaves it open."""
    if reading.kind is Kind.PRESENT:
        return Shape.PRESENT
    if reading.kind is Kind.ABSENT:
        return Shape.ABSENT
    if reading.number is None:
        return Shape.UNCLEAR
    if reading.kind is Kind.BELOW:
        return Shape.ABSENT if reading.number <= NOTHING_GREW else Shape.UNCLEAR
    if reading.kind in {Kind.NUMBER, Kind.ABOVE}:
        found = reading.number > 0 or reading.kind is Kind.ABOVE
        return Shape.PRESENT if found else Shape.ABSENT
    return Shape.UNCLEAR


def _fractions(history: Sequence[Result]) -> list[str]:
    said = [result.reading.fraction for result in history]
    dissolved = said.count(Fraction.DISSOLVED)
    if not dissolved or dissolved == len(said):
        return []
    return [
        ngettext(
            "{n} of {total} results is of the dissolved (filtered) part only.",
            "{n} of {total} results are of the dissolved (filtered) part only.",
            dissolved,
        ).format(
            n=dissolved,
            total=len(said),
        )
    ]


def rows(marks: Sequence[Mark]) -> str:
    """How many results of a strip are in each row, and when."""
    if not marks:
        return ""
    shapes = [mark.shape for mark in marks]
    counts = ((shape, shapes.count(shape)) for shape in ROWS)
    return ngettext(
        "{n:,} test, {span}: {rows}.", "{n:,} tests, {span}: {rows}.", len(marks)
    ).format(
        n=len(marks),
        span=facts.span(month_of(marks[0].day), month_of(marks[-1].day)),
        rows=", ".join(
            _("{row} in {n}").format(row=_(ROWS[shape]), n=n) for shape, n in counts if n
        ),
    )
