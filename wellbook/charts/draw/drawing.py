"""Drawing a described chart on a figure, or into a file."""

import io
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree.ElementTree import Element

from wellbook.charts.draw.embedded import embedded
from wellbook.charts.draw.paint import paint
from wellbook.charts.layout import backend
from wellbook.charts.layout.plot import height_of
from wellbook.charts.layout.sheet import lay_out
from wellbook.charts.layout.theme import LIGHT, PRINT, Theme
from wellbook.charts.model.parts import Chart, Mark
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import write_whole

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_METADATA: dict[str, dict[str, str | None]] = {
    ".png": {"Software": None},
    ".svg": {"Date": None, "Creator": None},
    ".pdf": {"CreationDate": None, "Creator": "Wellbook", "Producer": None},
}


@dataclass(frozen=True, slots=True)
class Drawn:
    """Where things lie on a figure that was drawn, in inches from its lower left corner.

    Attributes:
        left: Left edge of the plot.
        right: Right edge of the plot.
        spots: Every mark with its place, in order of time.
    """

    left: float
    right: float
    spots: tuple[tuple[float, float, Mark], ...]


def draw(
    chart: Chart,
    figure: "Figure",
    theme: Theme,
    *,
    with_words: bool = False,
    left: float = 0.0,
) -> Drawn:
    """Draw a chart on a figure, which is cleared first.

    Places are worked out for the figure's present size, so draw again after it was resized.

    Args:
        chart: What to draw.
        figure: A figure of its own; never one that another thread shows.
        theme: Colours and sizes.
        with_words: Also write the sentence, the limits' dates and the notes on the figure.
        left: Where the plot begins at least, in inches, so that one chart stands above another.
    """
    with backend.settings():
        figure.clear()
        figure.set_facecolor(theme.paper)
        width, height = map(float, figure.get_size_inches())
        sheet = lay_out(chart, (width, height), theme, with_words=with_words, left=left)
        paint(sheet, figure, theme)
    plot = sheet.plot
    spots = [
        (plot.x(mark.day), plot.y(height_of(chart, mark.value, mark.shape)), mark)
        for mark in sorted(chart.marks, key=lambda mark: mark.day)
    ]
    return Drawn(plot.box.left, plot.box.right, tuple(spots))


def svg(chart: Chart, mark: str, said: str, *, size: tuple[float, float] = (9.0, 4.2)) -> Element:
    """A chart as a picture inside a web page, with its words for those who can't see it.

    Args:
        chart: What to draw.
        mark: What its names in the page begin with, so that no two pictures share one.
        said: What the picture shows, in words.
        size: In inches.
    """
    figure = backend.new_figure(*size, PRINT)
    draw(chart, figure, PRINT)
    content = io.BytesIO()
    with backend.settings():
        figure.savefig(content, format="svg", metadata=_METADATA[".svg"])
    return embedded(content.getvalue(), mark, said)


def save(
    chart: Chart, path: Path, *, theme: Theme = LIGHT, size: tuple[float, float] = (9.0, 5.5)
) -> None:
    """Write a chart with its words into a picture; the same chart gives the same bytes.

    Raises:
        Fault: The ending is not .png, .svg or .pdf, or the file can't be written.
    """
    if path.suffix.lower() not in _METADATA:
        raise Fault(
            _(
                "{path}: a chart is written as .png, .svg or .pdf; give it one of these endings."
            ).format(path=path.name)
        )
    write_whole(path, picture(chart, path.suffix.lower(), theme=theme, size=size))


def picture(
    chart: Chart, kind: str, *, theme: Theme = LIGHT, size: tuple[float, float] = (9.0, 5.5)
) -> bytes:
    """A chart with its words as the bytes of a `.png`, `.svg` or `.pdf`."""
    figure = backend.new_figure(*size, theme)
    draw(chart, figure, theme, with_words=True)
    content = io.BytesIO()
    if kind == ".pdf":
        backend.prepare_pdf()
    with backend.settings():
        figure.savefig(
            content,
            format=kind[1:],
            dpi=200,
            facecolor=theme.paper,
            metadata=_METADATA[kind] | ({} if kind == ".png" else {"Title": chart.title}),
        )
    return content.getvalue()
