"""Original reports as pages at the end, each stamped with what it is.

Only what a page draws is taken over, as one picture of lines and letters: scripts, links, forms,
remarks and hidden properties of the source stay behind.
"""

import io
from collections.abc import Iterator, Sequence
from itertools import count
from typing import TYPE_CHECKING, cast

from wellbook.pdf import style
from wellbook.pdf.document import AFTER, page_of
from wellbook.pdf.flowables import Places
from wellbook.pdf.stamping_forms import added, page_form
from wellbook.sandbox.originals import Original
from wellbook.support.translation import _

if TYPE_CHECKING:
    from pypdf import PageObject, PdfWriter
    from pypdf.generic import DictionaryObject

_HEAD, _FOOT = 62.0, 24.0
_LINE = 10.0
_NAME = "/Original"


def append(writer: "PdfWriter", found: Sequence[tuple[str, Original]], places: Places) -> None:
    """Add the pages of each original under its name, with a bookmark for each."""
    from pypdf import PdfReader

    size = writer.pages[0].mediabox
    paper = (float(size.width), float(size.height))
    for name, one in found:
        if one.trouble:
            continue
        first = len(writer.pages)
        stamps = PdfReader(io.BytesIO(_stamps(one, name, paper, _numbers(places, first))))
        shown = iter(PdfReader(io.BytesIO(one.clean)).pages if one.clean else ())
        for stamp, why in zip(stamps.pages, one.pages, strict=True):
            made = writer.add_page(stamp)
            if not why:
                _place(writer, made, next(shown), paper)
        _bookmark(writer, name, first)


def _bookmark(writer: "PdfWriter", title: str, page: int) -> None:
    """A bookmark that names its page, like those of the other pages: it does nothing else."""
    from pypdf.generic import ArrayObject, DictionaryObject, NameObject, NullObject

    mark = writer.add_outline_item(title=title, page_number=page).get_object()
    if not isinstance(mark, DictionaryObject):
        raise TypeError(title)
    for key in ("/A", "/%is_open%", "/Count"):
        dict.pop(mark, NameObject(key), None)
    reference = writer.pages[page].indirect_reference or NullObject()
    place = [reference, NameObject("/XYZ"), NullObject(), NullObject(), NullObject()]
    mark[NameObject("/Dest")] = ArrayObject(place)


def _numbers(places: Places, first: int) -> Iterator[str]:
    """The numbers of the pages from one on, as on the pages before them."""
    last = places.pages[AFTER] - 1 + places.after
    for page in count(first + 1):
        yield f"{page_of(places.label(page))} {places.label(last)}"


def _stamps(one: Original, name: str, paper: tuple[float, float], numbers: Iterator[str]) -> bytes:
    """A page with the stamp for each page of an original, and a note where it is left out."""
    from reportlab.pdfgen.canvas import Canvas

    content = io.BytesIO()
    canvas = Canvas(content, paper, invariant=1, initialFontName=style.FONT)
    total = len(one.pages)
    for number, why in enumerate(one.pages, start=1):
        named = _("{original}, page {number} of {total}").format(
            original=name, number=number, total=total
        )
        top = paper[1] - 30
        canvas.setFont(style.FONT, style.SMALL.fontSize)
        canvas.setFillColor(style.INK)
        canvas.drawString(style.SIDE, top, named)
        canvas.setFillColor(style.GREY)
        said = _(
            "Not made with Wellbook; shown without links and forms. SHA-256 of the whole file:"
        )
        canvas.drawString(style.SIDE, top - _LINE, said)
        canvas.drawString(style.SIDE, top - 2 * _LINE, one.document.sha256)
        canvas.setStrokeColor(style.RULE)
        canvas.line(style.SIDE, top - 25, paper[0] - style.SIDE, top - 25)
        if why:
            canvas.setFillColor(style.INK)
            canvas.setFont(style.FONT, style.LEAD.fontSize)
            canvas.drawString(style.SIDE, paper[1] - 150, _("This page is left out:"))
            canvas.drawString(style.SIDE, paper[1] - 168, f"{_(why)}.")
            canvas.drawString(style.SIDE, paper[1] - 186, _("Ask the household for it."))
        canvas.setFillColor(style.GREY)
        canvas.setFont(style.FONT, style.SMALL.fontSize)
        canvas.drawRightString(paper[0] - style.SIDE, 12, next(numbers))
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def _place(
    writer: "PdfWriter", page: "PageObject", source: "PageObject", paper: tuple[float, float]
) -> None:
    """Draw a page of an original between stamp and foot, as large as it fits."""
    from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, NameObject

    resources = cast("DictionaryObject", page["/Resources"].get_object())
    forms = DictionaryObject({NameObject(_NAME): page_form(writer, source)})
    page[NameObject("/Resources")] = DictionaryObject({**resources, NameObject("/XObject"): forms})
    call = DecodedStreamObject()
    matrix = " ".join(f"{number:.4f}" for number in _matrix(source, paper))
    call.set_data(f"q {matrix} cm {_NAME} Do Q".encode())
    # Before the stamp, so that no colour of ours runs into it.
    page[NameObject("/Contents")] = ArrayObject([added(writer, call), page.raw_get("/Contents")])


def _matrix(source: "PageObject", paper: tuple[float, float]) -> tuple[float, ...]:
    """What turns a page upright and moves it between stamp and foot, as large as it fits there."""
    box = source.mediabox
    wide, high = float(box.width), float(box.height)
    turned = source.rotation % 360
    a, b, c, d, x, y = {
        90: (0, -1, 1, 0, 0.0, wide),
        180: (-1, 0, 0, -1, wide, high),
        270: (0, 1, -1, 0, high, 0.0),
    }.get(turned, (1, 0, 0, 1, 0.0, 0.0))
    left, foot = float(box.left), float(box.bottom)
    x, y = x - a * left - c * foot, y - b * left - d * foot
    if turned in {90, 270}:
        wide, high = high, wide
    room = paper[0] - 2 * _FOOT, paper[1] - _HEAD - _FOOT
    scale = min(room[0] / wide, room[1] / high, 1.0)
    right, up = (paper[0] - wide * scale) / 2, _FOOT + room[1] - high * scale
    return (*(scale * one for one in (a, b, c, d)), scale * x + right, scale * y + up)
