"""The key under a chart: every mark and line that occurs, in words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from wellbook.charts.layout.paper import Pen
from wellbook.charts.model.parts import (
    ROWS,
    Chart,
    Fan,
    LimitLine,
    Mark,
    Scale,
    Series,
    Shape,
    sort_words,
)
from wellbook.support.translation import N_, _
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import LimitKind
from wellbook.wording import verdicts

SAMPLE = 0.26  # inches for the little picture before the words
_GAP = 0.12


@dataclass(frozen=True, slots=True)
class Item:
    """One entry: a little picture and its words.

    Attributes:
        picture: `mark`, `limit`, `trend`, `fan`, `tone`, or empty for words alone.
        second: For a mark or a trend, whether it is of the second point.
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
    several = any(series.second for series in chart.series)
    for series in chart.series:
        found += _marks(series, named=several)
    found += [_limit(line, chart.scale) for line in chart.limits if line.in_view and not line.lower]
    found += [
        Item("trend", _named(_("trend"), line.name), second=line.second) for line in chart.trends
    ]
    if chart.fan:
        found.append(
            Item("fan", _named(_ahead(chart.fan), next((line.name for line in chart.trends), "")))
        )
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


# Verdicts that have a mark of their own on a chart.
_TOLD = (Verdict.OUTSIDE, Verdict.ADOPTED, Verdict.UNDECIDABLE, Verdict.NEAR)


def _ahead(fan: Fan) -> str:
    """What the fan is, with how often its interval holds."""
    if fan.is_wide:
        return _("if it goes on like this, with an interval of at least 90 %")
    if fan.is_rough:
        return _("if it goes on like this, with an interval of roughly 90 %")
    return _("if it goes on like this, with its 90 % interval")


def _marks(series: Series, *, named: bool) -> Iterable[Item]:
    first = dict.fromkeys(mark.shape for mark in series.marks)
    if not first:
        return
    sort, name = series.marks[0].sort, series.name if named else ""

    def item(text: str, shape: Shape, **more: Any) -> Item:
        mark = Mark(date.min, 0.0, shape, "", sort=sort, **more)
        return Item("mark", _named(text, sort_words(sort), name), mark, series.second)

    plain = {mark.shape for mark in series.marks if mark.verdict not in _TOLD}
    for shape, text in _WORDS.items():
        if shape in plain:
            yield item(_(text), shape)
    for verdict in _TOLD:
        like = next((mark for mark in series.marks if mark.verdict is verdict), None)
        if like is not None:
            yield item(verdicts.meanings()[verdict].short, like.shape, verdict=verdict)
    if any(mark.estimated for mark in series.marks):
        yield item(_("estimated"), Shape.VALUE, estimated=True)
    if any(mark.late for mark in series.marks):
        shape = Shape.VALUE if Shape.VALUE in first else next(iter(first))
        yield item(_("held too long before the test"), shape, late=True)


def _named(*words: str) -> str:
    """Words with the sort of water and the point that they are about, as far as told."""
    return ", ".join(filter(None, words))


def _limit(line: LimitLine, scale: Scale) -> Item:
    text = f"{verdicts.level(line.kind)}: {line.label} ({line.name})"
    return Item("" if scale is Scale.STRIP else "limit", text, limit=line.kind)
