"""The layout of one chart on its figure: what stands where, before anything is drawn."""

from dataclasses import dataclass
from datetime import date, timedelta
from statistics import median

from wellbook.charts.layout import key, labels, plot
from wellbook.charts.layout.paper import Box, Pen, pens
from wellbook.charts.layout.theme import Theme
from wellbook.charts.model.parts import Chart, Scale, Shade, Shape, mark_words
from wellbook.support.translation import _
from wellbook.wording import facts as words
from wellbook.wording import verdicts

_SMALL = (4.6, 2.6)  # inches; below that only the essential is written
_PAD = 0.1
_TICK_GAP = 0.4
_KEY_SHARE = 0.3
_NARROWEST = 2.5 / 72  # inches; seasons thinner than that are not shaded


@dataclass(frozen=True, slots=True)
class Sheet:
    """A chart with its places in inches."""

    chart: Chart
    width: float
    height: float
    small: bool
    plot: plot.Plot
    heading: str
    lines: tuple[str, ...]
    notes: tuple[str, ...]
    figure_ticks: list[tuple[float, str]]
    day_ticks: list[tuple[date, str]]
    flags: labels.Flags
    tags: list[labels.Tag]
    key: list[key.Placed]
    shades: tuple[Shade, ...]
    ruler: float
    season_names: dict[str, str]
    key_top: float


def lay_out(chart: Chart, size: tuple[float, float], theme: Theme, *, with_words: bool) -> Sheet:
    """Give everything on a figure of that size (inches) its place."""
    width, height = size
    small = width < _SMALL[0] or height < _SMALL[1]
    title, text, fine = pens(theme, small=small)
    room = width - 2 * _PAD
    lines = tuple(text.wrapped(chart.sentence, room)) if with_words else ()
    notes = _notes(chart, fine, room) if with_words else ()

    ticks = plot.figure_ticks(chart, max(2, int(height * 0.6 / _TICK_GAP)))
    left = _PAD + max((text.width(words) for _unused, words in ticks), default=0) + 0.07
    across = plot.Plot(Box(left, 0.0, width - _PAD, 1.0), chart)
    flags = labels.place_events(chart.events, across, fine, numbers_only=small)
    shades, names = _seasons(chart, across, fine)
    ruler = fine.line if names and not small else 0.0

    entries = [] if small else key.items(chart, flags.listed)
    placed = key.flow(entries, fine, room, int(height * _KEY_SHARE / fine.line))
    key_rows = 1 + max((p.row for p in placed), default=-1)

    key_top = _PAD * 0.6 + (len(notes) + key_rows) * fine.line
    foot = key_top + (0.06 if key_rows else 0.0) + text.line + 0.05 + ruler
    top = height - _PAD - title.line - len(lines) * text.line - 0.07
    top -= flags.rows * fine.line + (0.03 if flags.rows else 0.0)
    area = plot.Plot(Box(left, foot, width - _PAD, max(top, foot + 0.2)), chart)
    heading = title.shortened(chart.title, room - text.width(chart.unit) - 0.1)
    return Sheet(
        chart=chart,
        width=width,
        height=height,
        small=small,
        plot=area,
        heading=heading,
        lines=lines,
        notes=notes,
        figure_ticks=plot.figure_ticks(chart, max(2, int(area.height / _TICK_GAP))),
        day_ticks=_day_ticks(area, text),
        flags=flags,
        tags=_with_passing(area, fine, _tags(area, fine, small=small), small=small),
        key=placed,
        shades=shades,
        ruler=ruler,
        season_names=names,
        key_top=key_top,
    )


def _notes(chart: Chart, pen: Pen, room: float) -> tuple[str, ...]:
    limits = [f"{line.name}: {line.text}." for line in chart.limits if not line.lower]
    return tuple(line for note in (*chart.notes, *limits) for line in pen.wrapped(note, room))


def _day_ticks(area: plot.Plot, pen: Pen) -> list[tuple[date, str]]:
    """Ticks whose words fit beside one another and between the edges."""
    widest = pen.width("Mar 2000") * 1.25 if _months(area.chart) else pen.width("2000") * 1.6
    ticks = plot.day_ticks(area.chart, max(1, int(area.width / widest)))
    right = area.box.right + _PAD * 0.7
    return [
        (day, words)
        for day, words in ticks
        if area.x(day) + pen.width(words) / 2 <= right
        and area.x(day) - pen.width(words) / 2 >= area.box.left - 0.3
    ]


def _months(chart: Chart) -> bool:
    return any(words != str(day.year) for day, words in plot.day_ticks(chart, 2))


def _tags(area: plot.Plot, pen: Pen, *, small: bool) -> list[labels.Tag]:
    """A label for each figure that a limit had; on a small chart only for the first in force."""
    if area.chart.scale is Scale.STRIP:
        return []
    wanted: list[labels.Wanted] = []
    for line in area.chart.limits:
        if not line.in_view or not line.steps:
            continue
        last = line.steps[-1]
        name = _("limit") if small else verdicts.level(line.kind)
        figure = words.figure(last.value) if small else line.label
        text = f"{name} {figure}"
        text = _("{limit} (lower end)").format(limit=text) if line.lower else text
        wanted.append(labels.Wanted(line, last.value, text))
        until = {step.value: step.last for step in line.steps if step.value != last.value}
        wanted += [
            labels.Wanted(line, value, words.until(words.figure(value), words.day(day)))
            for value, day in until.items()
        ]
    return labels.place_limits(area, wanted[:1] if small else wanted, pen)


def _with_passing(
    area: plot.Plot, pen: Pen, tags: list[labels.Tag], *, small: bool
) -> list[labels.Tag]:
    """The labels with the one that names the first result outside a limit."""
    first = area.chart.passing
    if first is None or small or not area.chart.first <= first.day <= area.chart.last:
        return tags
    said = words.figure(first.value) if first.shape is Shape.VALUE else mark_words(first)
    text = _("{figure} on {day}: first outside a limit").format(
        figure=said, day=words.day(first.day)
    )
    placed = labels.place_passing(area, first, text, pen, tags)
    return [*tags, placed] if placed else tags


def _seasons(chart: Chart, across: plot.Plot, pen: Pen) -> tuple[tuple[Shade, ...], dict[str, str]]:
    """Seasons to shade, and the longest names that fit under them; nothing where too thin."""
    widths = [
        across.x(shade.last + timedelta(days=1)) - across.x(shade.first) for shade in chart.shades
    ]
    usual = median(widths[1:-1] or widths or [0.0])
    if usual < _NARROWEST:
        return (), {}
    for cut, only_shaded in ((None, False), (6, False), (3, False), (2, False), (1, True)):
        named = dict.fromkeys(s.name for s in chart.shades if s.tone or not only_shaded)
        short = {name: name[:cut].capitalize() if cut else name for name in named}
        fits = max(map(pen.width, short.values()), default=0.0) + 0.02 <= usual
        if fits and len(set(short.values())) == len(short):
            return chart.shades, short
    return chart.shades, {}
