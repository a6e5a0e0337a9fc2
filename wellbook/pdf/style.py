"""Fonts, colours and text styles of the printed page."""

from functools import lru_cache
from pathlib import Path
from typing import Any

from reportlab import rl_config
from reportlab.lib.colors import HexColor
from reportlab.lib.pagesizes import A4, letter
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFError, TTFont
from reportlab.platypus import TableStyle

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.verdicts.judge import Verdict

rl_config.useA85 = 0  # packed streams as they are: in letters they take a quarter more, and longer

FONT, BOLD = "WellbookText", "WellbookBold"
PAPERS: dict[str, tuple[float, float]] = {"letter": letter, "a4": A4}
SIDE, TOP, BOTTOM = 50.0, 66.0, 56.0
FIRST_TOP = 44.0  # page one has no running head

INK = HexColor("#201f1c")
GREY = HexColor("#5b574f")  # 7.1 : 1 on white
RULE = HexColor("#c4beb2")
ACCENT = HexColor("#1f5c55")  # 7.7 : 1 on white

# A shape for each verdict, the same as on screen, in colours of the Okabe-Ito palette (Okabe and
# Ito 2008, Color Universal Design) that reach 3 : 1 on white.
SHAPES = {
    Verdict.OUTSIDE: ("◆", HexColor("#d55e00")),
    Verdict.ADOPTED: ("◇", HexColor("#d55e00")),
    Verdict.NEAR: ("◐", HexColor("#0072b2")),
    Verdict.WITHIN: ("●", HexColor("#0072b2")),
    Verdict.UNDETECTED: ("○", HexColor("#0072b2")),
    Verdict.UNDECIDABLE: ("⊡", INK),
    Verdict.NO_LIMIT: ("–", GREY),
}


def _style(name: str, size: float, lead: float, **more: Any) -> ParagraphStyle:
    settings = {"fontName": FONT, "bulletFontName": FONT, "textColor": INK, **more}
    return ParagraphStyle(name, fontSize=size, leading=lead, **settings)


BODY = _style("body", 9, 13, spaceAfter=5)
LEAD = _style("lead", 10.5, 15.5, spaceAfter=7)
WARNING = _style(
    "warning", 10.5, 15.5, fontName=BOLD, spaceAfter=15,
    borderColor=INK, borderWidth=0.8, borderPadding=(6, 7, 7, 7), leftIndent=7, rightIndent=7,
)  # fmt: skip
SMALL = _style("small", 7.6, 10.6, textColor=GREY, spaceAfter=2)
CAPTION = _style("caption", 8.2, 11, spaceAfter=2)
CELL = _style("cell", 7.6, 9.8)
HEAD_CELL = _style("head cell", 7.2, 9.2, textColor=GREY)
INDENTED = _style("indented", 9, 13, leftIndent=18, spaceAfter=2)
TITLE = _style("title", 27, 33, spaceAfter=4)
SUBTITLE = _style("subtitle", 12, 17, textColor=GREY, spaceAfter=14)
H1 = _style("h1", 15, 19, textColor=ACCENT, spaceBefore=14, spaceAfter=5, keepWithNext=1)
H2 = _style("h2", 10.5, 14, fontName=BOLD, spaceBefore=9, spaceAfter=3, keepWithNext=1)
LOOSE = H2.clone("h2 over a long table", keepWithNext=0)
H3 = _style("h3", 9, 12, fontName=BOLD, spaceBefore=5, spaceAfter=2, keepWithNext=1)


# Without a font of ours a table sets even its empty cells in one that is not embedded.
PLAIN = TableStyle(
    [
        ("FONT", (0, 0), (-1, -1), FONT, CELL.fontSize, CELL.leading),
        ("TEXTCOLOR", (0, 0), (-1, -1), INK),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ]
)


@lru_cache(maxsize=1)
def register_fonts(folder: Path) -> None:
    """Make the two text fonts known to reportlab; they are read once.

    Raises:
        Fault: They are missing or damaged.
    """
    for name, file in ((FONT, "DejaVuSans.ttf"), (BOLD, "DejaVuSans-Bold.ttf")):
        try:
            pdfmetrics.registerFont(TTFont(name, str(folder / file)))
        except (OSError, TTFError) as error:
            raise Fault(
                _("The font {folder} is missing or damaged; install Wellbook again.").format(
                    folder=folder / file
                )
            ) from error
    pdfmetrics.registerFontFamily(FONT, normal=FONT, bold=BOLD, italic=FONT, boldItalic=BOLD)
