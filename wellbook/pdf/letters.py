"""Plain text for a paragraph; letters that our fonts lack are set in a font of this computer."""

from functools import lru_cache
from itertools import groupby
from xml.sax.saxutils import escape

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from wellbook.support import fonts


def markup(text: str) -> str:
    """The text with nothing in it that a paragraph would take for markup.

    A letter that no font here has is an empty box on paper.
    """
    if text.isascii():
        return escape(text)
    runs = ((name, escape("".join(run))) for name, run in groupby(text, _font_for))
    return "".join(f'<font name="{name}">{run}</font>' if name else run for name, run in runs)


@lru_cache(maxsize=1024)
def _font_for(sign: str) -> str:
    """Name of the registered font that a letter is set in; empty for ours."""
    fonts.prepare()
    if sign.isascii() or fonts.is_ours(sign):
        return ""
    found = fonts.other_font(sign)
    return _registered(found.file) if found else ""


@lru_cache(maxsize=64)
def _registered(file: str) -> str:
    """The name under which a font is known to reportlab; empty if it can't embed it."""
    name = f"Other{len(pdfmetrics.getRegisteredFontNames())}"
    try:
        pdfmetrics.registerFont(TTFont(name, file))
    except (OSError, TTFError):
        return ""
    # Heavier and slanted letters, too: a paragraph asks for them by the family.
    pdfmetrics.registerFontFamily(name, normal=name, bold=name, italic=name, boldItalic=name)
    return name
