"""A font with one letter that ours lack, a solid square one em wide, as if the computer had it."""

from contextlib import contextmanager

from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from matplotlib.font_manager import fontManager

from wellbook.charts.layout import backend
from wellbook.pdf import letters
from wellbook.support import fonts

WELL = "井"  # a well, in the writing of some households
FAMILY = "Squares"


@contextmanager
def installed(folder):
    """The font is known to matplotlib for a while."""
    file = folder / "Squares.ttf"
    _make(file)
    before = list(fontManager.ttflist)
    fontManager.addfont(file)
    forget()
    try:
        yield
    finally:
        fontManager.ttflist[:] = before
        forget()


def forget():
    """Look for letters anew."""
    for found in (
        fonts.drawn, fonts.other_font, backend.text_width, backend.face, letters._font_for,
        letters._registered, fontManager._findfont_cached,
    ):  # fmt: skip
        found.cache_clear()


def _make(file):
    made = FontBuilder(1000, isTTF=True)
    made.setupGlyphOrder([".notdef", "well"])
    made.setupCharacterMap({ord(WELL): "well"})
    made.setupGlyf({".notdef": TTGlyphPen(None).glyph(), "well": _square()})
    made.setupHorizontalMetrics({".notdef": (500, 0), "well": (1000, 0)})
    made.setupHorizontalHeader(ascent=1000, descent=-200)
    made.setupNameTable({"familyName": FAMILY, "styleName": "Regular", "psName": FAMILY})
    made.setupOS2(sTypoAscender=1000, sTypoDescender=-200, usWeightClass=400)
    made.setupPost()
    made.save(file)


def _square():
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    for place in ((0, 1000), (1000, 1000), (1000, 0)):
        pen.lineTo(place)
    pen.closePath()
    return pen.glyph()
