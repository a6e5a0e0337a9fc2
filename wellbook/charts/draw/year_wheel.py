"""Drawing a year wheel on a figure, in inches from its lower left corner."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wellbook.charts.layout import backend
from wellbook.charts.layout.paper import Box, Pen, pens, write
from wellbook.charts.layout.theme import Theme
from wellbook.charts.model.year_wheel import Arc, Wheel
from wellbook.support.translation import _, ngettext
from wellbook.water.values.seasons import YEAR
from wellbook.wording import facts

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_PAD = 0.08
_PICTURE = 0.26
_INCH = 72
_LEAST_SPOT, _MOST_SPOT = 4.0, 6.5  # points across
_WIDE = 1.3  # times as wide as high, from which the key stands beside the wheel
_ARC_WIDTH = 2.6
_HUB, _LARGEST_HUB = 0.26, 0.42  # of the radius
_HALF_LETTER = 0.4 / _INCH  # of the size of a letter in points, in inches
_SPOT = _LEAST_SPOT / 2 / _INCH  # half a dot on a narrow ring, in inches
_SMALL = 2.6  # inches
_MOST_LABELS = 5
_MOST_RINGS = 15
_STEEP = (0, 1, 11, 6, 5, 7)  # spokes on which a year stands above the next, the top one first
_STEPS = (1, 2, 5, 10, 20, 50)
_GAP_DASH = (0, (1.5, 1))
_ARC_PIECES = 90


@dataclass(frozen=True, slots=True)
class Face:
    """The wheel's geometry.

    Attributes:
        x: Centre.
        y: Centre.
        radius: Of the outermost ring's edge.
        rim: Width of the season band around it.
        rings: Number of years.
        hub: Radius of the middle, where no ring is.
        said: What is written there, a line each.
    """

    x: float
    y: float
    radius: float
    rim: float
    rings: int
    hub: float
    said: tuple[str, ...]

    def at(self, turn: float, radius: float) -> tuple[float, float]:
        """A point at a share of the year, January at the top, clockwise."""
        angle = math.tau * turn
        return self.x + radius * math.sin(angle), self.y + radius * math.cos(angle)

    @property
    def ring_width(self) -> float:
        """Inches from one year to the next."""
        return (self.radius - self.hub) / self.rings

    def ring(self, place: float) -> float:
        """Radius of a year's ring; halves lie between years."""
        return self.hub + self.ring_width * (place + 0.5)


def draw_wheel(wheel: Wheel, figure: "Figure", theme: Theme) -> None:
    """Draw a year wheel on a figure, which is cleared first.

    The key stands under the wheel, or beside it on a wide figure; a small one has none. Places
    are worked out for the figure's present size, so draw again after it was resized.
    """
    with backend.settings():
        figure.clear()
        figure.set_facecolor(theme.paper)
        width, height = map(float, figure.get_size_inches())
        small = min(width, height) < _SMALL
        title, _unused, fine = pens(theme, small=small)
        wide = not small and width > _WIDE * height
        column = width - height if wide else width
        entries = [] if small else _entries(wheel, fine, column - 2 * _PAD - _PICTURE)
        rows = sum(len(lines) for _unused, lines in entries)
        heading = title.shortened(wheel.title, column - 2 * _PAD)
        head = _PAD + (title.line if heading else 0.0)
        foot = _PAD + rows * fine.line
        area = Box(column, 0.0, width, height) if wide else Box(0.0, foot, width, height - head)
        face = _face(area, wheel, fine, small=small)
        if heading:
            write(figure, heading, (_PAD, height - _PAD - title.line * 0.78), title, theme.ink)
        _seasons(figure, wheel, face, theme, None if small else fine)
        _grid(figure, wheel, face, theme, fine)
        _months(figure, face, theme, fine, small=small)
        _arcs(figure, wheel, face, theme)
        _dots(figure, wheel, face, theme)
        _hub(figure, face, theme, fine)
        top = height - head - 0.1 if wide else foot
        _key(figure, entries, top, theme, fine)


def _face(area: Box, wheel: Wheel, pen: Pen, *, small: bool) -> Face:
    """The largest wheel, with its rim and the names of the months, that an area holds."""
    rim = 0.06 if small else pen.line * 1.25
    months = pen.line * 1.2 if small else max(pen.line, pen.width("May") * 1.1)
    width, height = area.right - area.left, area.top - area.bottom
    radius = min(width / 2 - _PAD, height / 2 - _PAD / 2) - months - rim
    middle = (area.left + width / 2, area.bottom + height / 2)
    radius = max(radius, 0.2)
    hub, said = _middle(len(wheel.dots), pen, radius)
    return Face(*middle, radius, rim, len(wheel.years), hub, said)


def _middle(n: int, pen: Pen, radius: float) -> tuple[float, tuple[str, ...]]:
    """How large the middle is and what is written there, clear of the innermost dots."""
    whole = (str(n), ngettext("test day", "test days", n).format(n=n))
    for said in (whole, whole[:1]):
        wide = max(map(pen.width, said)) / 2
        high = (len(said) - 1) / 2 * pen.line + pen.size * _HALF_LETTER
        room = math.hypot(wide, high) + _SPOT
        if room <= radius * _LARGEST_HUB:
            return max(room, radius * _HUB), said
    return radius * _HUB, ()


def _entries(wheel: Wheel, pen: Pen, room: float) -> list[tuple[str, list[str]]]:
    """The key: what each dot and arc is, in lines that fit."""
    found = []
    if wheel.dots:
        found.append(("dot", _("a test; the outer the ring, the later the year")))
    if wheel.gap:
        said = _("longest part of the year never tested: {months}").format(months=wheel.gap.text)
        found.append(("gap", said))
    if wheel.window:
        found.append(("window", _("suggested next: {days}").format(days=wheel.window.text)))
    return [(picture, pen.wrapped(text, room)) for picture, text in found]


def _wedge(face: Face, arc: Arc, inner: float, outer: float, **more: Any) -> Any:
    from matplotlib.patches import Wedge

    # matplotlib counts from three o'clock, against the clock.
    return Wedge(
        (face.x, face.y),
        outer,
        90 - 360 * arc.end,
        90 - 360 * arc.start,
        width=outer - inner,
        linewidth=0,
        **more,
    )


def _seasons(figure: "Figure", wheel: Wheel, face: Face, theme: Theme, pen: Pen | None) -> None:
    inches = figure.dpi_scale_trans
    outer = face.radius + face.rim
    for arc in wheel.sectors:
        tone = theme.tones[arc.tone]
        figure.add_artist(_wedge(face, arc, 0.0, outer, facecolor=tone, transform=inches))
    for radius in (face.radius, outer):
        _circle(figure, face, radius, theme.soft, 0.6)
    if pen is None:
        return
    for arc in wheel.sectors:
        middle = (arc.start + arc.end) / 2 % 1
        below = 0.25 < middle < 0.75  # noqa: PLR2004  the lower half of the wheel
        room = math.tau * (face.radius + face.rim / 2) * (arc.end - arc.start)
        write(
            figure,
            pen.shortened(arc.text, room),
            face.at(middle, face.radius + face.rim / 2),
            pen,
            theme.soft,
            ha="center",
            va="center",
            rotation=-360 * middle + (180 if below else 0),
            rotation_mode="anchor",
        )


def _circle(figure: "Figure", face: Face, radius: float, colour: str, width: float) -> None:
    from matplotlib.patches import Circle

    figure.add_artist(
        Circle(
            (face.x, face.y),
            radius,
            fill=False,
            edgecolor=colour,
            linewidth=width,
            transform=figure.dpi_scale_trans,
        )
    )


def _grid(figure: "Figure", wheel: Wheel, face: Face, theme: Theme, pen: Pen) -> None:
    """Month spokes, year rings, and the years of some rings along a spoke without dots on it."""
    from matplotlib.lines import Line2D

    for month in range(YEAR):
        inner, outer = (face.at(month / YEAR, r) for r in (face.hub, face.radius))
        figure.add_artist(
            Line2D(
                [inner[0], outer[0]],
                [inner[1], outer[1]],
                transform=figure.dpi_scale_trans,
                color=theme.rule,
                linewidth=0.6,
            )
        )
    least = max(pen.line * 1.2 / face.ring_width, len(wheel.years) / _MOST_LABELS)
    step = next((years for years in _STEPS if years >= least), _STEPS[-1])
    labelled = [
        ring for ring, year in enumerate(wheel.years) if year % step == 0 or len(wheel.years) == 1
    ]
    for ring in range(len(wheel.years)):
        if ring in labelled or len(wheel.years) <= _MOST_RINGS:
            _circle(figure, face, face.ring(ring), theme.rule, 0.6)
    turn = _free_spoke(wheel, face, pen, labelled)
    box = {"facecolor": theme.paper, "edgecolor": "none", "pad": 0.6}
    for ring in labelled:
        text, place = str(wheel.years[ring]), face.at(turn, face.ring(ring))
        write(figure, text, place, pen, theme.soft, ha="center", va="center", bbox=box)


def _free_spoke(wheel: Wheel, face: Face, pen: Pen, rings: Sequence[int]) -> float:
    """The spoke nearest to the New Year's on which years cover the fewest dots."""
    wide, high = pen.width("2000") / 2 + _SPOT, pen.line / 2 + _SPOT
    dots = [face.at(dot.turn, face.ring(dot.ring)) for dot in wheel.dots]

    def covered(turn: float) -> int:
        places = [face.at(turn, face.ring(ring)) for ring in rings]
        return sum(
            any(abs(x - left) < wide and abs(y - up) < high for left, up in places) for x, y in dots
        )

    return min((month / YEAR for month in _STEEP), key=covered)


def _months(figure: "Figure", face: Face, theme: Theme, pen: Pen, *, small: bool) -> None:
    for month in range(YEAR):
        turn = (month + 0.5) / YEAR
        place = face.at(turn, face.radius + face.rim + pen.line * 0.75)
        name = facts.short_month(month + 1)
        text = name[:1] if small else name
        write(figure, text, place, pen, theme.ink, ha="center", va="center")


def _arcs(figure: "Figure", wheel: Wheel, face: Face, theme: Theme) -> None:
    from matplotlib.lines import Line2D

    looks = ((wheel.gap, 0.0, theme.ink, _GAP_DASH), (wheel.window, 1.0, theme.accent, "solid"))
    for arc, edge, colour, dash in looks:
        if arc is None:
            continue
        radius = face.radius + face.rim * edge
        pieces = [
            arc.start + (arc.end - arc.start) * n / _ARC_PIECES for n in range(_ARC_PIECES + 1)
        ]
        xs, ys = zip(*(face.at(turn, radius) for turn in pieces), strict=True)
        line = Line2D(xs, ys, transform=figure.dpi_scale_trans, color=colour, linewidth=_ARC_WIDTH)
        line.set(linestyle=dash, dash_capstyle="butt", solid_capstyle="butt")
        figure.add_artist(line)


def _dots(figure: "Figure", wheel: Wheel, face: Face, theme: Theme) -> None:
    from matplotlib.lines import Line2D

    if not wheel.dots:
        return
    places = [face.at(dot.turn, face.ring(dot.ring)) for dot in wheel.dots]
    figure.add_artist(
        Line2D(
            [x for x, _unused in places],
            [y for _unused, y in places],
            transform=figure.dpi_scale_trans,
            linestyle="none",
            marker="o",
            markersize=max(_LEAST_SPOT, min(_MOST_SPOT, face.ring_width * _INCH * 0.8)),
            markerfacecolor=theme.first,
            markeredgecolor=theme.paper,
            markeredgewidth=0.5,
            zorder=4,
        )
    )


def _hub(figure: "Figure", face: Face, theme: Theme, pen: Pen) -> None:
    """The number of dots, in the middle."""
    for row, text in enumerate(face.said):
        place = (face.x, face.y + ((len(face.said) - 1) / 2 - row) * pen.line)
        write(figure, text, place, pen, theme.ink, ha="center", va="center")


def _key(
    figure: "Figure", entries: Sequence[tuple[str, list[str]]], top: float, theme: Theme, pen: Pen
) -> None:
    """Little pictures and their words, downwards from a height."""
    from matplotlib.lines import Line2D

    foot = top
    for picture, lines in entries:
        middle = foot - 0.8 * pen.line + pen.size * 0.36 / 72
        if picture == "dot":
            sample = Line2D([_PAD + 0.1], [middle], marker="o", markersize=5, linestyle="none")
            sample.set(color=theme.first, markeredgewidth=0)
        else:
            gap = picture == "gap"
            sample = Line2D([_PAD, _PAD + 0.2], [middle, middle], linewidth=_ARC_WIDTH)
            sample.set(
                color=theme.ink if gap else theme.accent,
                linestyle=_GAP_DASH if gap else "solid",
                dash_capstyle="butt",
            )
        sample.set_transform(figure.dpi_scale_trans)
        figure.add_artist(sample)
        for line in lines:
            foot -= pen.line
            write(figure, line, (_PAD + _PICTURE, foot + 0.2 * pen.line), pen, theme.ink)
