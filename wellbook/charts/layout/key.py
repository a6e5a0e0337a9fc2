"""The key under a chart: every mark and line that occurs, in words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.charts.layout.paper import Pen
from wellbook.charts.model.parts import ROWS, Chart, LimitLine, Mark, Scale, Series, Shape
from wellbook.support.translation import N_, _
from wellbook.water.values.limits import LimitKind
from wellbook.wording import verdicts

SAMPLE = 0.26  # inches for the little picture before the words
_GAP = 0.12


@dataclass(frozen=True, slots=True)
class Item:
    """One entry: a little picture and its words.

    Attributes:
        picture: `mark`, `limit`, `trend`, `fan`, `tone`, or empty for words alone.
        second: For a mark, whether it is of the second series.
        tone: For a season.
    """

    picture: str
    text: str
    mark: Mark | None = None
    second: bool = False
    limit: LimitKind | None = None
    tone: int = 0


@dataclass(frozen=True, slots=True)
class Placed:
    """An entry in its place: row 0 is the uppermost, `left` counts from the key's left edge."""

    item: Item
    row: int
    left: float


def items(chart: Chart, listed: Sequence[str]) -> list[Item]:
    """Every entry that this chart needs; `listed` are the events that are only numbered in it."""
    found: list[Item] = []
    for series in chart.series:
        found += _marks(series, named=len(chart.series) > 1)
    found += [_limit(line, chart.scale) for line in chart.limits if line.in_view and not line.lower]
    if chart.trend:
        found.append(Item("trend", _("trend")))
    if chart.fan:
        found.append(Item("fan", _("if it goes on like this, with its 90 % interval")))
    tones = {shade.tone: shade.name for shade in chart.shades if shade.tone}
    found += [Item("tone", name, tone=tone) for tone, name in sorted(tones.items())]
    found += [Item("", text) for text in listed]
    return found


def flow(entries: Iterable[Item], pen: Pen, room: float, most: int) -> list[Placed]:
    """The entries in rows; what needs more rows than that is left out."""
    placed: list[Placed] = []
    row, left = 0, 0.0
    for item in entries:
        picture = SAMPLE if item.picture else 0.0
        text = pen.shortened(item.text, room - picture)
        width = picture + pen.width(text)
        if left and left + width > room:
            row, left = row + 1, 0.0
        if row >= most:
            break
        placed.append(Placed(replace(item, text=text), row, left))
        left += width + _GAP
    return placed


_WORDS = {
    Shape.VALUE: N_("measured"),
    Shape.BELOW: N_("not detected, drawn at the lab’s limit"),
    Shape.ABOVE: N_("above the lab’s scale"),
    **ROWS,
}


def _marks(series: Series, *, named: bool) -> Iterable[Item]:
    first = dict.fromkeys(mark.shape for mark in series.marks)
    after = f", {series.name}" if named and series.name else ""
    for shape, text in _WORDS.items():
        if shape in first:
            yield Item("mark", _(text) + after, _example(shape), series.second)
    if any(mark.estimated for mark in series.marks):
        estimated = _example(Shape.VALUE, estimated=True)
        yield Item("mark", _("estimated") + after, estimated, series.second)
    if any(mark.late for mark in series.marks):
        late = _example(Shape.VALUE if Shape.VALUE in first else next(iter(first)), late=True)
        text = _("held too long before the test")
        yield Item("mark", text + after, late, series.second)


def _example(shape: Shape, *, estimated: bool = False, late: bool = False) -> Mark:
    return Mark(date.min, 0.0, shape, "", estimated, late)


def _limit(line: LimitLine, scale: Scale) -> Item:
    text = f"{verdicts.level(line.kind)}: {line.label} ({line.name})"
    return Item("" if scale is Scale.STRIP else "limit", text, limit=line.kind)
