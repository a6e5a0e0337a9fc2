"""Drawing the two diagrams of main ions on a figure, in inches from its lower left corner."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from wellbook.charts.layout import backend
from wellbook.charts.layout.paper import Pen, pens, write
from wellbook.charts.layout.theme import Theme
from wellbook.charts.model.piper import GAP, HEIGHT, HIGH, WIDE, Piper, Spot, diamond_spot
from wellbook.charts.model.stiff import ROWS, Shape, Stiff
from wellbook.support.translation import N_, _

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_FIFTHS = (0.2, 0.4, 0.6, 0.8)
_RIGHT = 1 + GAP  # where the right triangle starts
_ROW = 0.34  # inches between the rows of a shape
_LEAST = 1.9  # inches that a shape is wide
_SIDE = 0.75  # of that, for the names of the ions on both sides
_WEST, _SOUTH = diamond_spot((0, 0), (_RIGHT, 0)), diamond_spot((1, 0), (_RIGHT, 0))
_NORTH, _EAST = diamond_spot((0, 0), (_RIGHT + 1, 0)), diamond_spot((1, 0), (_RIGHT + 1, 0))
_SIDES = ((False, N_("before treatment")), (True, N_("after treatment")))
_SIZES = ((True, N_("latest of a point, with its test")), (False, N_("earlier")))
_FIELDS = (
    ((0.0, 0.0), (1.0, 0.0), (0.5, HEIGHT)),
    ((_RIGHT, 0.0), (_RIGHT + 1, 0.0), (_RIGHT + 0.5, HEIGHT)),
    (_WEST, _SOUTH, _EAST, _NORTH),
)


def draw_piper(piper: Piper, figure: "Figure", theme: Theme) -> None:
    """Draw the three fields and the samples on a figure, which is cleared first."""
    with backend.settings():
        figure.clear()
        figure.set_facecolor(theme.paper)
        width, height = map(float, figure.get_size_inches())
        _unused, _unused2, fine = pens(theme, small=False)
        edge = 2.4 * fine.line
        side = min((width - 2 * edge) / WIDE, (height - 2 * edge) / HIGH)
        left = (width - side * WIDE) / 2

        def at(spot: Spot) -> Spot:
            return left + spot[0] * side, edge + spot[1] * side

        for line in _grid():
            _line(figure, [at(spot) for spot in line], theme.rule, 0.6)
        for field in _FIELDS:
            _line(figure, [at(spot) for spot in (*field, field[0])], theme.soft, 0.9)
        _names(figure, at, fine, theme)
        _samples(figure, at, piper, theme)
        _key(figure, piper, (0.1, height - 0.1), fine, theme)


def _grid() -> list[tuple[Spot, Spot]]:
    """A line at every fifth, along each side of each field."""
    lines = []
    for share in _FIFTHS:
        for a, b, c in _FIELDS[:2]:
            lines += [
                (_between(a, c, share), _between(b, c, share)),
                (_between(a, b, share), _between(c, b, share)),
                (_between(b, a, share), _between(c, a, share)),
            ]
        lines += [
            (_between(_WEST, _SOUTH, share), _between(_NORTH, _EAST, share)),
            (_between(_WEST, _NORTH, share), _between(_SOUTH, _EAST, share)),
        ]
    return lines


def _between(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _line(figure: "Figure", places: Sequence[Spot], colour: str, width: float) -> None:
    from matplotlib.lines import Line2D

    xs, ys = zip(*places, strict=True)
    figure.add_artist(
        Line2D(xs, ys, transform=figure.dpi_scale_trans, color=colour, linewidth=width)
    )


def _names(figure: "Figure", at: Any, pen: Pen, theme: Theme) -> None:
    """What each side counts, along it; the end of a side where it is all of the sum."""
    gap = pen.line / 1.6
    for text, start, end, up in (
        ("Ca", (1.0, 0.0), (0.0, 0.0), -1),
        ("Cl", (_RIGHT, 0.0), (_RIGHT + 1, 0.0), -1),
        ("Mg", (0.0, 0.0), (0.5, HEIGHT), 1),
        ("Na + K", (0.5, HEIGHT), (1.0, 0.0), 1),
        ("HCO₃ + CO₃", (_RIGHT + 0.5, HEIGHT), (_RIGHT, 0.0), 1),
        ("SO₄", (_RIGHT + 1, 0.0), (_RIGHT + 0.5, HEIGHT), 1),
        ("SO₄ + Cl", _WEST, _NORTH, 1),
        ("Ca + Mg", _EAST, _NORTH, 1),
    ):
        (x, y), (further, above) = at(start), at(end)
        turn = math.degrees(math.atan2(above - y, further - x))
        turn += 180 if abs(turn) > 90 else 0  # noqa: PLR2004  never upside down
        middle = ((x + further) / 2, (y + above) / 2)
        slant = math.radians(turn)
        place = (middle[0] - up * gap * math.sin(slant), middle[1] + up * gap * math.cos(slant))
        forward = further > x or (further == x and above > y)
        said = f"{text}, % →" if forward else f"← {text}, %"
        write(
            figure, said, place, pen, theme.soft,
            ha="center", va="center", rotation=turn, rotation_mode="anchor",
        )  # fmt: skip


def _samples(figure: "Figure", at: Any, piper: Piper, theme: Theme) -> None:
    """Every sample in each field; the latest of a point large and with its number."""
    _unused, _unused2, fine = pens(theme, small=False)
    for one in sorted(piper.placed, key=lambda one: one.latest):
        for spot in (one.cation, one.anion, one.both):
            _mark(figure, at(spot), theme, treated=one.treated, large=one.latest)
            if one.latest:
                x, y = at(spot)
                shift = -0.15 if one.treated else 0.06  # raw and treated of a day lie close
                write(figure, one.label, (x + 0.07, y + shift), fine, theme.ink)


def _mark(figure: "Figure", place: Spot, theme: Theme, *, treated: bool, large: bool) -> None:
    from matplotlib.lines import Line2D

    colour = theme.of_series(second=treated)
    spot = Line2D([place[0]], [place[1]], transform=figure.dpi_scale_trans, linestyle="none")
    spot.set(
        marker="s" if treated else "o",
        markersize=6.0 if large else 3.6,
        markeredgecolor=colour,
        markerfacecolor=colour if large else theme.paper,
        zorder=5 if large else 4,
    )
    figure.add_artist(spot)


def _key(figure: "Figure", piper: Piper, corner: Spot, pen: Pen, theme: Theme) -> None:
    foot = corner[1]
    for treated, side in _SIDES:
        if not any(one.treated is treated for one in piper.placed):
            continue
        for large, more in _SIZES:
            if any(one.latest is large and one.treated is treated for one in piper.placed):
                foot -= pen.line
                middle = (corner[0] + 0.06, foot + pen.line * 0.3)
                _mark(figure, middle, theme, treated=treated, large=large)
                place = (corner[0] + 0.18, foot)
                write(figure, f"{_(side)}: {_(more)}", place, pen, theme.ink)
    place = (corner[0], foot - pen.line)
    write(figure, _("a line at every fifth (20 %)"), place, pen, theme.soft)


def draw_stiff(stiff: Stiff, figure: "Figure", theme: Theme) -> None:
    """Draw the shapes side by side, as many in a row as there is room for."""
    with backend.settings():
        figure.clear()
        figure.set_facecolor(theme.paper)
        width, height = map(float, figure.get_size_inches())
        _unused, _unused2, fine = pens(theme, small=False)
        across = min(stiff_columns(width), max(len(stiff.shapes), 1))
        room, tall = width / across, stiff_height(1, width)
        for place, shape in enumerate(stiff.shapes):
            row, column = divmod(place, across)
            middle = (room * (column + 0.5), height - tall * (row + 1) + 2.2 * fine.line)
            _shape(figure, shape, stiff.reach, (*middle, room), theme)


def stiff_columns(width: float) -> int:
    """How many shapes stand in a row of that many inches."""
    return max(1, int(width / _LEAST))


def stiff_height(shapes: int, width: float) -> float:
    """Inches that so many shapes need."""
    rows = math.ceil(shapes / stiff_columns(width))
    return rows * (2 * _ROW + 0.86)


def _shape(
    figure: "Figure", shape: Shape, reach: float, place: tuple[float, float, float], theme: Theme
) -> None:
    from matplotlib.patches import Polygon

    x, foot, room = place
    _unused, text, fine = pens(theme, small=False)
    half = (room - _SIDE - 0.2) / 2
    corners = [(x + value / reach * half, foot + row * _ROW) for value, row in shape.corners]
    outline = Polygon(corners, closed=True, transform=figure.dpi_scale_trans)
    outline.set(facecolor=theme.faint(theme.first), edgecolor=theme.first, linewidth=1.2)
    for row in range(3):
        _line(
            figure,
            [(x - half, foot + row * _ROW), (x + half, foot + row * _ROW)],
            theme.rule,
            0.6,
        )
    figure.add_artist(outline)
    _line(figure, [(x, foot - 0.05), (x, foot + 2 * _ROW + 0.05)], theme.soft, 0.8)
    for row, (left, right) in enumerate(ROWS):
        y = foot + (2 - row) * _ROW
        write(figure, left, (x - half - 0.05, y), fine, theme.ink, ha="right", va="center_baseline")
        write(figure, right, (x + half + 0.05, y), fine, theme.ink, va="center_baseline")
    scale = ((-half, f"{reach:g}"), (0.0, "0"), (half, f"{reach:g}"))
    for shift, figure_said in scale:
        write(figure, figure_said, (x + shift, foot - fine.line), fine, theme.soft, ha="center")
    write(figure, "meq/L", (x, foot - 1.9 * fine.line), fine, theme.soft, ha="center")
    top = foot + 2 * _ROW + 0.1
    where = fine.shortened(shape.where, room - 0.1)
    write(figure, where, (x, top), fine, theme.soft, ha="center")
    write(figure, shape.title, (x, top + fine.line), text, theme.ink, ha="center")
