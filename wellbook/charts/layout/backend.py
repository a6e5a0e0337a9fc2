"""The one door to matplotlib: its cache folder, its settings, our fonts.

matplotlib is imported here and in `drawing`'s helpers inside functions only. pyplot is never used
and no global setting is changed; everything is drawn inside `settings()`.
"""

from contextlib import AbstractContextManager
from functools import lru_cache
from typing import TYPE_CHECKING

from wellbook.charts.layout.theme import Theme
from wellbook.support import paths
from wellbook.support.fonts import drawn, prepare

if TYPE_CHECKING:
    from matplotlib.figure import Figure
    from matplotlib.font_manager import FontProperties

_FILES = {
    "regular": "DejaVuSans.ttf",
    "bold": "DejaVuSans-Bold.ttf",
    "condensed": "DejaVuSansCondensed.ttf",
}
# Names for pictures whose text stays text (SVG); the second has nearly the same widths.
_NAMES = {
    "regular": ["DejaVu Sans", "Verdana", "sans-serif"],
    "bold": ["DejaVu Sans", "Verdana", "sans-serif"],
    "condensed": ["DejaVu Sans Condensed", "Tahoma", "sans-serif"],
}
_SETTINGS = {
    "axes.grid": False,
    "pdf.fonttype": 42,  # whole letters: text in a PDF can be searched and copied
    "svg.fonttype": "none",
    "svg.hashsalt": "wellbook",  # otherwise two runs differ
    "path.simplify": True,
}
# What a font inside a PDF needs no more: its letters have their places. To cut these tables down to
# the letters that are drawn took as long as to draw them.
_NOT_EMBEDDED = ("GDEF", "GPOS", "GSUB", "MATH")
# Measured: at 72 to 200 dots per inch a line of six words and more is up to 1.07 times as wide as
# the outlines say.
_PIXELS = 1.07


def settings() -> AbstractContextManager[None]:
    """The settings under which charts are drawn and saved."""
    prepare()
    import matplotlib as mpl

    return mpl.rc_context(_SETTINGS)  # type: ignore[arg-type]


@lru_cache(maxsize=1)
def prepare_pdf() -> None:
    """Have fonts put into PDFs without the tables that only lay letters out."""
    from fontTools.subset import Options

    Options._drop_tables_default = [*Options._drop_tables_default, *_NOT_EMBEDDED]  # noqa: SLF001  matplotlib gives no way


def new_figure(width: float, height: float, theme: Theme) -> "Figure":
    """An empty figure of a size in inches."""
    prepare()
    from matplotlib.figure import Figure

    return Figure(figsize=(width, height), facecolor=theme.paper)


@lru_cache(maxsize=64)
def face(name: str, size: float, others: tuple[str, ...] = ()) -> "FontProperties":
    """One of our typefaces (`regular`, `bold`, `condensed`) at a size in points.

    Args:
        name: Which.
        size: In points.
        others: Families of this computer that have what ours lack. They are found by name only, so
            ours then is the one that matplotlib brings, which has the same letters.
    """
    prepare()
    from matplotlib.font_manager import FontProperties

    weight = "bold" if name == "bold" else "normal"
    if others:
        return FontProperties(family=["DejaVu Sans", *others], weight=weight, size=size)
    return FontProperties(
        family=_NAMES[name],
        weight=weight,
        size=size,
        fname=paths.resources() / "fonts" / _FILES[name],
    )


@lru_cache(maxsize=4096)
def text_width(text: str, name: str, size: float) -> float:
    """Most width of a line of text in inches; on a screen, letters are moved to whole pixels."""
    prepare()
    from matplotlib.textpath import text_to_path

    shown = drawn(text)
    font = face(name, size, shown.families)
    points = text_to_path.get_text_width_height_descent(shown.text, font, ismath=False)[0]
    return float(points) / 72 * _PIXELS
