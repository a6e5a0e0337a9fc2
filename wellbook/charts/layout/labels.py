"""Where labels go, so that none lies on another: events above the plot, limits beside their line.

Pure geometry in inches; nothing is drawn here.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wellbook.charts.layout.paper import Box, Pen
from wellbook.charts.layout.plot import Plot, height_of
from wellbook.charts.model.parts import EventMark, LimitLine, Mark, Scale, Shape, TrendLine
from wellbook.wording import facts

_ROWS = 3
_AIR = 0.1
_CLOSE = 0.15  # inches within which events may share a label
_SHORT = 1.1  # inches to which event labels are cut before numbers take their place
_RADIUS = 0.06
_STROKE = 0.015
_PIECES = 16


@dataclass(frozen=True, slots=True)
class Flag:
    """A label above the plot on the line of one or more events; row 0 is the lowest."""

    x: float
    left: float
    row: int
    text: str


@dataclass(frozen=True, slots=True)
class Flags:
    """The labels of all events, and a list of them where numbers stand in their place."""

    flags: tuple[Flag, ...]
    rows: int
    listed: tuple[str, ...] = ()


def place_events(events: Sequence[EventMark], plot: Plot, pen: Pen, *, numbers_only: bool) -> Flags:
    """Labels in up to three rows; numbers and a list where there are too many for words.

    Events that stand close share one label, which is never cut; a single one's is, if need be.
    """
    if not events:
        return Flags((), 0)
    xs = [plot.x(event.day) for event in events]
    alone, close = [[place] for place in range(len(xs))], _groups(xs, _CLOSE)
    half = plot.width / 2
    for groups, room in () if numbers_only else ((alone, half), (close, half), (close, _SHORT)):
        labels = [_shared([events[n].label for n in group], pen, room) for group in groups]
        wanted = [(xs[group[0]], text) for group, text in zip(groups, labels, strict=True)]
        placed = _stagger(wanted, plot, pen) if all(labels) else None
        if placed is not None:
            return Flags(placed, 1 + max(flag.row for flag in placed))
    groups = _groups(xs, pen.width("00–00") + _AIR)
    numbered = _stagger([(xs[group[0]], _numbers(group)) for group in groups], plot, pen) or ()
    listed = tuple(
        f"{n} {event.label.removesuffix('.')}, {facts.day(event.day)}"
        for n, event in enumerate(events, 1)
    )
    return Flags(numbered, 1 + max((flag.row for flag in numbered), default=0), listed)


def _groups(xs: Sequence[float], near: float) -> list[list[int]]:
    """Places of events, those together that stand nearer than that to the first of them."""
    groups: list[list[int]] = []
    for place, x in enumerate(xs):
        if groups and x - xs[groups[-1][0]] < near:
            groups[-1].append(place)
        else:
            groups.append([place])
    return groups


def _shared(labels: Sequence[str], pen: Pen, room: float) -> str:
    """One label for several events, empty if it needs more room than there is."""
    if len(labels) == 1:
        return pen.shortened(labels[0], room)
    text = ", ".join(dict.fromkeys(labels))
    return text if pen.width(text) <= room else ""


def _numbers(group: Sequence[int]) -> str:
    first, last = group[0] + 1, group[-1] + 1
    return f"{first}" if first == last else f"{first}–{last}"


def _stagger(wanted: Sequence[tuple[float, str]], plot: Plot, pen: Pen) -> tuple[Flag, ...] | None:
    """Rows for labels, from the right; a line never crosses a label. None if three don't do."""
    placed: list[tuple[Flag, float]] = []
    for x, text in reversed(wanted):
        width = pen.width(text)
        left = x + _AIR / 2 if x + width <= plot.box.right else x - width - _AIR / 2
        left = max(plot.box.left, left)
        row = next((r for r in range(_ROWS) if _free(Flag(x, left, r, text), width, placed)), None)
        if row is None:
            return None
        placed.append((Flag(x, left, row, text), width))
    return tuple(flag for flag, _ in reversed(placed))


def _free(flag: Flag, width: float, placed: Iterable[tuple[Flag, float]]) -> bool:
    right = flag.left + width
    for other, other_width in placed:
        other_right = other.left + other_width
        if other.row == flag.row and flag.left < other_right + _AIR and other.left < right + _AIR:
            return False
        if other.row >= flag.row and flag.left < other.x < right:
            return False  # the other's line would run through this label
        if other.row < flag.row and other.left < flag.x < other_right:
            return False  # this line would run through the other's label
    return True


@dataclass(frozen=True, slots=True)
class Wanted:
    """A label that one figure of a limit should get."""

    line: LimitLine
    value: float
    text: str


@dataclass(frozen=True, slots=True)
class Tag:
    """A limit's label in its place."""

    box: Box
    text: str


def place_limits(plot: Plot, wanted: Sequence[Wanted], pen: Pen) -> list[Tag]:
    """A label beside each stretch of a limit line, where it covers the least."""
    marks = _marks(plot)
    lines = _lines(plot, {id(w.line): w.line for w in wanted}.values())
    trend = [*_trend(plot), *_fan(plot)]
    posts = [
        Box(plot.x(e.day) - 0.01, plot.box.bottom, plot.x(e.day) + 0.01, plot.box.top)
        for e in plot.chart.events
    ]
    tags: list[Tag] = []
    for want in wanted:
        over = [tag.box for tag in tags]
        weighed = ((10, over), (5, lines), (4, trend), (3, marks), (1, posts))
        best = _least_covering(tuple(_spots(plot, want, pen.width(want.text), pen.line)), weighed)
        if best is not None:
            tags.append(Tag(best, want.text))
    return tags


def place_passing(plot: Plot, mark: Mark, text: str, pen: Pen, tags: Sequence[Tag]) -> Tag | None:
    """A label near the first result outside a limit; none where it would lie on another one."""
    x, y = plot.x(mark.day), plot.y(height_of(plot.chart, mark.value, mark.shape))
    width, height = pen.width(text), pen.line
    sides = (x - width - _RADIUS * 2, x - width / 2, x + _RADIUS * 2)
    near = _RADIUS * 1.4
    feet = (y + near, y - height - near, y - height / 2, y + height * 1.5, y - height * 2.5)
    spots = [
        Box(left, foot, left + width, foot + height)
        for foot in feet
        for left in (max(plot.box.left, min(side, plot.box.right - width)) for side in sides)
        if plot.box.bottom <= foot and foot + height <= plot.box.top + 0.02
    ]
    spots = [spot for spot in spots if not any(spot.meets(tag.box) for tag in tags)]
    weighed = (
        (6, _marks(plot)),
        (3, [*_trend(plot), *_fan(plot), *_lines(plot, plot.chart.limits)]),
    )
    best = _least_covering(spots, weighed)
    return None if best is None else Tag(best, text)


def _least_covering(
    spots: Sequence[Box], weighed: Iterable[tuple[int, Sequence[Box]]]
) -> Box | None:
    """The first of the places that cover the least of what is weighed; None without a place."""
    if not spots:
        return None
    around = Box(
        min(spot.left for spot in spots),
        min(spot.bottom for spot in spots),
        max(spot.right for spot in spots),
        max(spot.top for spot in spots),
    )
    near = [(n, box) for n, boxes in weighed for box in boxes if around.meets(box)]
    return min(spots, key=lambda spot: sum(n for n, box in near if spot.meets(box)))


def _lines(plot: Plot, lines: Iterable[LimitLine]) -> list[Box]:
    return [
        Box(plot.x(s.first), plot.y(s.value) - 0.01, plot.x(s.last), plot.y(s.value) + 0.01)
        for line in lines
        for s in line.steps
    ]


def _spots(plot: Plot, want: Wanted, width: float, height: float) -> Iterable[Box]:
    """Places for a label above and below its stretch of the line, within the plot."""
    same = [step for step in want.line.steps if step.value == want.value]
    left, right = plot.x(same[0].first), plot.x(same[-1].last)
    y = plot.y(want.value)
    for foot in (y + 0.025, y - height - 0.015):
        if foot < plot.box.bottom or foot + height > plot.box.top + 0.02:
            continue
        for share in (1.0, 0.0, 0.5, 0.75, 0.25, 0.875, 0.125, 0.625, 0.375):
            start = left + _AIR + (right - left - width - 2 * _AIR) * share
            start = max(plot.box.left + _AIR, min(start, plot.box.right - width - _AIR))
            yield Box(start, foot, start + width, foot + height)


def _trend(plot: Plot) -> list[Box]:
    """Each trend's line in short pieces, so that a label may stand in the corner beside it."""
    return [box for line in plot.chart.trends for box in _along(plot, line)]


def _along(plot: Plot, line: TrendLine) -> list[Box]:
    left, right = plot.x(line.first), plot.x(line.last)
    shares = [piece / _PIECES for piece in range(_PIECES + 1)]
    ys = [plot.y(line.start + (line.end - line.start) * share) for share in shares]
    xs = [left + (right - left) * share for share in shares]
    return [
        Box(x, min(y, later) - _STROKE, further, max(y, later) + _STROKE)
        for x, further, y, later in zip(xs, xs[1:], ys, ys[1:], strict=False)
    ]


def _fan(plot: Plot) -> list[Box]:
    """The band that is drawn ahead, in pieces."""
    fan = plot.chart.fan
    if fan is None:
        return []
    xs = [plot.x(day) for day in fan.days]
    return [
        Box(xs[k], plot.y(fan.lows[k]), xs[k + 1], min(plot.y(fan.highs[k + 1]), plot.box.top))
        for k in range(len(xs) - 1)
        if plot.y(fan.lows[k]) < plot.box.top
    ]


def _marks(plot: Plot) -> list[Box]:
    if plot.chart.scale is Scale.STRIP:
        return []
    boxes = []
    for mark in plot.chart.marks:
        x, y = plot.x(mark.day), plot.y(mark.value)
        foot = plot.box.bottom if mark.shape is Shape.BELOW else y - _RADIUS
        boxes.append(Box(x - _RADIUS, foot, x + _RADIUS, y + _RADIUS))
    return boxes
