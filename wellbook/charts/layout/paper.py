"""Writing on a figure in inches: one line of text, wrapped text, shortened text.

Inches from the lower left corner; widths are measured, so that nothing runs over an edge.
"""

from bisect import bisect
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import Theme
from wellbook.support import fonts
from wellbook.support.fonts import drawn

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_LINE = 1.35
_INCH = 72


@dataclass(frozen=True, slots=True)
class Pen:
    """A typeface at a size."""

    name: str
    size: float

    @property
    def line(self) -> float:
        """Height of a line in inches."""
        return self.size * _LINE / _INCH

    def width(self, text: str) -> float:
        """Width of a line of text in inches."""
        return backend.text_width(text, self.name, self.size)

    def shortened(self, text: str, room: float) -> str:
        """The text, cut with an ellipsis where it is wider than the room."""
        if self.width(text) <= room:
            return text
        lengths = range(len(text))
        fitting = bisect(lengths, room, key=lambda n: self.width(f"{text[:n].rstrip()}…"))
        return f"{text[: fitting - 1].rstrip()}…" if fitting > 1 else ""

    def wrapped(self, text: str, room: float) -> list[str]:
        """The text in lines no wider than the room."""
        lines: list[str] = []
        for word in text.split():
            longer = f"{lines[-1]} {word}" if lines else word
            if lines and self.width(longer) <= room:
                lines[-1] = longer
            else:
                lines.append(self.shortened(word, room))
        return lines


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in inches."""

    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: "Box") -> bool:
        """Whether two rectangles share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.bottom < other.top
            and other.bottom < self.top
        )


def write(
    figure: "Figure", text: str, place: tuple[float, float], pen: Pen, colour: str, **more: Any
) -> None:
    """Put a line of text on a figure; `$` and `_` in people's words stay what they are."""
    fonts.prepare()
    shown = drawn(text)
    figure.text(
        *place,
        shown.text,
        transform=figure.dpi_scale_trans,
        fontproperties=backend.face(pen.name, pen.size, shown.families),
        color=colour,
        parse_math=False,
        **more,
    )


def pens(theme: Theme, *, small: bool) -> tuple[Pen, Pen, Pen]:
    """Title, text and fine print."""
    size = theme.size * (0.85 if small else 1.0)
    return Pen("bold", size * 1.15), Pen("regular", size), Pen("condensed", size * 0.85)
