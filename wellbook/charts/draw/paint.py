"""Painting a chart that has its layout."""

from collections.abc import Iterable
from datetime import timedelta
from typing import TYPE_CHECKING, Any

from wellbook.charts.layout.key import SAMPLE, Placed
from wellbook.charts.layout.paper import pens, write
from wellbook.charts.layout.plot import height_of
from wellbook.charts.layout.sheet import Sheet
from wellbook.charts.layout.theme import Theme
from wellbook.charts.model.parts import (
    Chart,
    Fan,
    LimitLine,
    Mark,
    Scale,
    Series,
    Shape,
    Sort,
    TrendLine,
)
from wellbook.support.translation import _
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import HEALTH_KINDS, LimitKind

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_DASHES: dict[LimitKind, Any] = {
    LimitKind.HEALTH: "solid",
    LimitKind.ACTION: (0, (6, 1.5)),
    LimitKind.ADVISORY: (0, (4, 2)),
    LimitKind.AESTHETIC: (0, (2, 1.5)),
    LimitKind.OPERATIONAL: (0, (5, 1.5, 1, 1.5)),
}
_TREND_DASHES: dict[bool, Any] = {False: (0, (8, 3)), True: (0, (3, 1.5, 1, 1.5, 1, 1.5))}
# Forms of a figure by its sort of water, at the first point and at the second.
_FORMS: dict[Sort, tuple[Any, Any]] = {
    Sort.ALIKE: ("o", "s"),
    Sort.TOTAL: ("o", "s"),
    Sort.FIRST: ("o", "s"),
    Sort.FLUSHED: ("v", ">"),
    Sort.UNTOLD: ((4, 1, 0), (4, 1, 45)),  # stars of four points
    Sort.DISSOLVED: ("d", (4, 0, 45)),
}
_WIDTHS = {LimitKind.HEALTH: 2.4, LimitKind.ACTION: 2.0}  # of lines, in points; others are thin
_THIN = 1.4
_SIZES: dict[Any, float] = {"s": 0.85, "D": 0.95}
_LARGER: tuple[Any, ...] = ("^", "v", ">", "d", (4, 1, 0), (4, 1, 45))
_FAN_DASH = (0, (1.5, 2))
_PIECES = 40
_STROKE = 0.04  # inches
_MANY = 120  # marks, from which they are drawn small and not joined
_DAY = timedelta(days=1)


def paint(sheet: Sheet, figure: "Figure", theme: Theme) -> None:
    """Draw everything of a sheet on an empty figure."""
    box = sheet.plot.box
    axes = figure.add_axes(
        (
            box.left / sheet.width,
            box.bottom / sheet.height,
            sheet.plot.width / sheet.width,
            sheet.plot.height / sheet.height,
        ),
        facecolor=theme.paper,
    )
    _frame(axes, sheet, theme)
    _over(axes, sheet.chart, theme)
    _shades(axes, sheet, theme)
    _lines(axes, sheet.chart, theme)
    for series in sheet.chart.series:
        _marks(axes, series, sheet.chart, theme, small=sheet.small)
    _posts(axes, figure, sheet, theme)
    _words(figure, sheet, theme)
    for placed in sheet.key:
        _entry(figure, placed, sheet, theme)


def _reach(axes: "Axes", chart: Chart) -> None:
    """Set how far the axes go."""
    if chart.scale is Scale.LOG:
        axes.set_yscale("log")
    axes.set_xlim(chart.first.toordinal(), chart.last.toordinal())
    axes.set_ylim(chart.low, chart.high)


def _lines(axes: "Axes", chart: Chart, theme: Theme) -> None:
    """Draw limits and trend."""
    for line in chart.limits:
        if line.in_view:
            _limit(axes, line, theme)
    if chart.fan:
        _fan(axes, chart.fan, chart, theme)
    for trend in chart.trends:
        days, values = _trend(trend)
        dash = _TREND_DASHES[trend.second]
        axes.plot(days, values, color=theme.ink, linewidth=1.2, linestyle=dash, zorder=5)


def _over(axes: "Axes", chart: Chart, theme: Theme) -> None:
    """What lies above the weightiest limit about health, faintly tinted under all else."""
    lines = (line for line in chart.limits if line.in_view and line.steps and not line.lower)
    line = next((line for line in lines if line.kind in HEALTH_KINDS), None)
    for step in line.steps if line else ():
        days = [step.first.toordinal(), step.last.toordinal() + 1]
        axes.fill_between(
            days, step.value, chart.high, facecolor=theme.over, linewidth=0, zorder=-0.5
        )


def _fan(axes: "Axes", fan: Fan, chart: Chart, theme: Theme) -> None:
    """The line ahead, dotted, in a solid band whose edges also show in grey."""
    days = [day.toordinal() for day in fan.days]
    lows, highs = (
        [min(max(figure, chart.low), chart.high) for figure in figures]
        for figures in (fan.lows, fan.highs)
    )
    axes.fill_between(days, lows, highs, facecolor=theme.fan, linewidth=0, zorder=1.5)
    for edge in (lows, highs):
        axes.plot(days, edge, color=theme.soft, linewidth=0.6, zorder=1.6)
    axes.plot(days, fan.middles, color=theme.ink, linewidth=1.2, linestyle=_FAN_DASH, zorder=5)


def _trend(line: TrendLine) -> tuple[list[float], list[float]]:
    """A straight line in enough pieces that it also runs right on a logarithmic scale."""
    first, last = line.first.toordinal(), line.last.toordinal()
    shares = [piece / _PIECES for piece in range(_PIECES + 1)]
    return (
        [first + (last - first) * share for share in shares],
        [line.start + (line.end - line.start) * share for share in shares],
    )


def _marks(axes: "Axes", series: Series, chart: Chart, theme: Theme, *, small: bool) -> None:
    """Draw the marks of a series, like with like, and its light joins."""
    colour = theme.of_series(second=series.second)
    many = len(series.marks) > _MANY
    for first, last in () if many or chart.scale is Scale.STRIP else series.runs:
        run = series.marks[first : last + 1]
        axes.plot(*_places(chart, run), color=theme.faint(colour), linewidth=0.9, zorder=3)
    bounds = [mark for mark in series.marks if mark.shape is Shape.BELOW]
    if bounds:
        days, values = _places(chart, bounds)
        axes.vlines(days, chart.low, values, colors=colour, linewidth=0.7, zorder=3)
    groups: dict[tuple[Shape, bool, bool, Verdict | None], list[Mark]] = {}
    for mark in series.marks:
        looks = (mark.shape, mark.estimated, mark.late, mark.verdict)
        groups.setdefault(looks, []).append(mark)
    size = 3.6 if small or many else 6.0
    for marks in groups.values():
        for style in _styles(marks[0], theme, size, second=series.second):
            axes.plot(*_places(chart, marks), linestyle="none", zorder=4, **style)


def _places(chart: Chart, marks: Iterable[Mark]) -> tuple[list[int], list[float]]:
    pairs = [(m.day.toordinal(), height_of(chart, m.value, m.shape)) for m in marks]
    return [x for x, _unused in pairs], [y for _unused, y in pairs]


def _styles(mark: Mark, theme: Theme, size: float, *, second: bool) -> Iterable[dict[str, Any]]:
    """How a mark looks: its form tells the water, its filling the verdict, as in a table.

    Outside a limit is a full diamond, or where the form tells another sort of water a diamond
    around it; over a limit to come an open one; close to a limit is half full.
    """
    colour = theme.of_series(second=second)
    open_ = mark.shape in {Shape.BELOW, Shape.ABOVE, Shape.ABSENT, Shape.UNCLEAR}
    form = {Shape.ABOVE: "^", Shape.UNCLEAR: "D"}.get(mark.shape, _FORMS[mark.sort][second])
    is_passed = mark.verdict in {Verdict.OUTSIDE, Verdict.ADOPTED}
    if is_passed and form in {"o", "s"}:
        form, open_ = "D", mark.verdict is Verdict.ADOPTED
    fill = theme.limit if is_passed else colour
    yield {
        "marker": form,
        "markersize": size * _SIZES.get(form, 1.2 if form in _LARGER else 1.0),
        "markeredgecolor": fill if is_passed and not second else colour,
        "markeredgewidth": 1.1,
        "markerfacecolor": theme.paper if open_ else fill,
        "markerfacecoloralt": theme.paper,
        "fillstyle": "left" if mark.verdict is Verdict.NEAR and not open_ else "full",
    }
    over = {"markeredgecolor": theme.ink, "markeredgewidth": 1.0, "markerfacecolor": "none"}
    if is_passed and form != "D":
        ring = {"marker": "D", "markersize": size * 1.7, "markeredgecolor": theme.limit}
        yield over | ring
    if mark.verdict is Verdict.UNDECIDABLE:
        yield over | {"marker": ".", "markersize": size * 0.5, "markerfacecolor": theme.ink}
    if mark.estimated:
        yield over | {"marker": "_", "markersize": size * 2.0}
    if mark.late:
        yield over | {"marker": "x", "markersize": size * 1.5}


def _limit(axes: "Axes", line: LimitLine, theme: Theme) -> None:
    colour = theme.of_limit(line.kind)
    for certain in (True, False):
        days: list[float] = []
        values: list[float] = []
        for step in line.steps:
            if step.certain is not certain:
                continue
            if days and step.first.toordinal() > days[-1]:
                days.append(days[-1])
                values.append(float("nan"))
            days += [step.first.toordinal(), step.last.toordinal() + 1]
            values += [step.value, step.value]
        if days:
            dash = _DASHES[line.kind] if certain else "dotted"
            width = _WIDTHS.get(line.kind, _THIN)
            axes.plot(days, values, linestyle=dash, color=colour, linewidth=width, zorder=2)


def _frame(axes: "Axes", sheet: Sheet, theme: Theme) -> None:
    """Scale, faint lines at the figures, the foot with a stroke at each day that is named.

    The axes' own ticks are off: ours are two collections, which draws in half the time.
    """
    _reach(axes, sheet.chart)
    axes.set_axis_off()
    first, last = sheet.chart.first.toordinal(), sheet.chart.last.toordinal()
    values = [value for value, _unused in sheet.figure_ticks]
    axes.hlines(values, first, last, colors=theme.rule, linewidth=0.6, zorder=1)
    foot: dict[str, Any] = {
        "transform": axes.get_xaxis_transform(),
        "colors": theme.soft,
        "clip_on": False,
    }
    axes.hlines([0.0], first, last, linewidth=0.8, zorder=2.5, **foot)
    stroke = 0.0 if sheet.ruler else _STROKE / sheet.plot.height
    days = [day.toordinal() for day, _unused in sheet.day_ticks]
    axes.vlines(days, -stroke, 0.0, linewidth=0.6, zorder=2.5, **foot)


def _shades(axes: "Axes", sheet: Sheet, theme: Theme) -> None:
    """Seasons behind the plot and, where there is room for names, in a ruler under it."""
    from matplotlib.collections import PolyCollection

    below = -sheet.ruler / sheet.plot.height
    stretches: dict[int, list[list[tuple[float, float]]]] = {}
    for shade in sheet.shades:
        start = float(shade.first.toordinal())
        end = float(min(shade.last + _DAY, sheet.chart.last).toordinal())
        corners = [(start, below), (end, below), (end, 1.0), (start, 1.0)]
        stretches.setdefault(shade.tone, []).append(corners)
    for tone in stretches.keys() - {0}:
        axes.add_collection(
            PolyCollection(
                stretches[tone],
                transform=axes.get_xaxis_transform(),
                facecolor=theme.tones[tone],
                linewidth=0,
                zorder=0,
                clip_on=False,
            ),
            autolim=False,
        )


def _posts(axes: "Axes", figure: "Figure", sheet: Sheet, theme: Theme) -> None:
    """A line for each event, up to its label above the plot."""
    from matplotlib.lines import Line2D

    _unused, _unused2, fine = pens(theme, small=sheet.small)
    top = sheet.plot.box.top
    days = [event.day.toordinal() for event in sheet.chart.events]
    axes.vlines(
        days,
        0,
        1,
        transform=axes.get_xaxis_transform(),
        colors=theme.soft,
        linewidth=0.8,
        linestyle="dotted",
    )
    for flag in sheet.flags.flags:
        foot = top + 0.03 + flag.row * fine.line
        figure.add_artist(
            Line2D(
                [flag.x, flag.x],
                [top, foot + fine.line * 0.8],
                transform=figure.dpi_scale_trans,
                color=theme.soft,
                linewidth=0.8,
                linestyle="dotted",
            )
        )
        write(figure, flag.text, (flag.left, foot + fine.line * 0.22), fine, theme.soft)


def _words(figure: "Figure", sheet: Sheet, theme: Theme) -> None:
    title, text, fine = pens(theme, small=sheet.small)
    box, pad = sheet.plot.box, 0.1
    y = sheet.height - pad - title.line * 0.78
    write(figure, sheet.heading, (pad, y), title, theme.ink)
    write(figure, sheet.chart.unit, (pad + title.width(sheet.heading) + 0.1, y), text, theme.soft)
    for line in sheet.lines:
        y -= text.line
        write(figure, line, (pad, y), text, theme.ink)
    for value, words in sheet.figure_ticks:
        place = (box.left - 0.06, sheet.plot.y(value))
        write(figure, words, place, text, theme.ink, ha="right", va="center_baseline")
    _days(figure, sheet, theme)
    for tag in sheet.tags:
        write(figure, tag.text, (tag.box.left, tag.box.bottom + fine.line * 0.22), fine, theme.ink)
    if sheet.chart.series and not sheet.chart.marks:
        middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
        write(figure, _("No result can be drawn."), middle, text, theme.ink, ha="center")
    for row, line in enumerate(reversed(sheet.notes)):
        write(figure, line, (pad, 0.06 + (row + 0.2) * fine.line), fine, theme.soft)


def _days(figure: "Figure", sheet: Sheet, theme: Theme) -> None:
    _unused, text, fine = pens(theme, small=sheet.small)
    foot = sheet.plot.box.bottom
    for day, words in sheet.day_ticks:
        place = (sheet.plot.x(day), foot - sheet.ruler - 0.05 - text.line * 0.72)
        write(figure, words, place, text, theme.ink, ha="center")
    if not sheet.ruler:
        return
    for shade in sheet.shades:
        left, right = sheet.plot.x(shade.first), sheet.plot.x(shade.last + _DAY)
        name = sheet.season_names.get(shade.name, "")
        if fine.width(name) <= right - left:
            place = ((left + right) / 2, foot - sheet.ruler * 0.76)
            write(figure, name, place, fine, theme.soft, ha="center")


def _entry(figure: "Figure", placed: Placed, sheet: Sheet, theme: Theme) -> None:
    """One entry of the key."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Rectangle

    _unused, _unused2, fine = pens(theme, small=sheet.small)
    item, inches = placed.item, figure.dpi_scale_trans
    left = 0.1 + placed.left
    foot = sheet.key_top - (placed.row + 0.8) * fine.line
    middle = foot + fine.size * 0.36 / 72
    if item.mark:
        for style in _styles(item.mark, theme, 5.5, second=item.second):
            spot = Line2D([left + 0.11], [middle], transform=inches, linestyle="none", **style)
            figure.add_artist(spot)
    elif item.picture in {"tone", "fan"}:
        figure.add_artist(
            Rectangle(
                (left, middle - 0.045),
                0.2,
                0.09,
                transform=inches,
                facecolor=theme.fan if item.picture == "fan" else theme.tones[item.tone],
                edgecolor=theme.soft,
                linewidth=0.5,
            )
        )
    elif item.picture:
        colour = theme.of_limit(item.limit) if item.limit else theme.ink
        dash = _DASHES[item.limit] if item.limit else _TREND_DASHES[item.second]
        line = Line2D([left, left + 0.21], [middle] * 2, transform=inches)
        width = _WIDTHS.get(item.limit, _THIN) if item.limit else _THIN
        line.set(color=colour, linestyle=dash, linewidth=width)
        figure.add_artist(line)
    shift = SAMPLE if item.picture else 0.0
    write(figure, item.text, (left + shift, foot), fine, theme.ink)
