"""The finished file: charts stamped on their pages as vectors, files attached, properties set."""

import hashlib
import io
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias, cast

from wellbook import __version__
from wellbook.charts.draw.drawing import draw
from wellbook.charts.draw.ions import draw_piper, draw_stiff
from wellbook.charts.draw.year_wheel import draw_wheel
from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import PRINT
from wellbook.charts.model.parts import Chart
from wellbook.charts.model.piper import Piper
from wellbook.charts.model.stiff import Stiff
from wellbook.charts.model.year_wheel import Wheel
from wellbook.packet import words
from wellbook.packet.appending import append
from wellbook.packet.attachments import Attachment
from wellbook.pdf import style
from wellbook.pdf.flowables import Spot
from wellbook.pdf.own_form import written
from wellbook.pdf.own_writer import collected
from wellbook.pdf.sealing import CODE_FORM, LETTERS, OPEN_SEAL, code_drawing, sealed
from wellbook.pdf.stamping_forms import added, page_form
from wellbook.pdf.xmp import metadata
from wellbook.support import fonts
from wellbook.support.translation import _

if TYPE_CHECKING:
    from pypdf import PageObject, PdfWriter
    from pypdf.generic import DictionaryObject, EmbeddedFile, IndirectObject

    from wellbook.packet.context import PacketContext

Drawing: TypeAlias = Chart | Wheel | Piper | Stiff

_PAINTERS: dict[type, Callable[..., object]] = {
    Chart: draw,
    Wheel: draw_wheel,
    Piper: draw_piper,
    Stiff: draw_stiff,
}
_INCH = 72
_FIXED: dict[str, str | None] = {"CreationDate": None, "Creator": "Wellbook", "Producer": None}


def drawn(drawings: Sequence[Drawing], spots: Sequence[Spot]) -> bytes:
    """All charts as one PDF, a page each in the order of `spots`, so that fonts are kept once."""
    fonts.prepare()
    backend.prepare_pdf()
    from matplotlib.backends.backend_pdf import PdfPages

    content = io.BytesIO()
    with backend.settings(), PdfPages(content, metadata=_FIXED) as pages:
        for spot in spots:
            canvas = backend.new_figure(spot.width / _INCH, spot.height / _INCH, PRINT)
            drawing = drawings[spot.chart]
            _PAINTERS[type(drawing)](drawing, canvas, PRINT)
            pages.savefig(canvas)
    return content.getvalue()


def finish(pages: Path, charts: bytes, context: "PacketContext") -> bytes:
    """The bytes of the packet.

    Args:
        pages: The pages as reportlab wrote them.
        charts: The charts, a page each, in the order of the spots.
        context: Where charts and check code belong, which files and pages to add. The file's
            date is the day that it speaks of, so that bytes repeat.
    """
    from pypdf import PageObject, PdfReader, PdfWriter

    spots, code = context.places, context.places.code
    if code is None:
        raise ValueError("a packet without a place for its check code")
    writer = PdfWriter(clone_from=pages)
    if spots.spots:
        reader = PdfReader(io.BytesIO(charts))
        pages_of: dict[int, dict[Spot, PageObject]] = {}
        for spot, drawing in zip(spots.spots, reader.pages, strict=True):
            pages_of.setdefault(spot.page, {})[spot] = drawing
        for number, found in pages_of.items():
            _stamp(writer, writer.pages[number], found)
    blank = PageObject.create_blank_page(width=code.width, height=code.height)
    _stamp(writer, writer.pages[code.page], {code: blank})
    ours = len(writer.pages)
    append(writer, context.appended, spots)
    for page in writer.pages:
        page.compress_content_streams()
        _bare(page)
    writer.compress_identical_objects(remove_duplicates=True, remove_unreferenced=True)
    for one in sorted(context.attachments, key=lambda one: one.name):
        _attach(writer, one)
    last = _put_code(writer, code)
    _date(writer, context.history.today)
    _describe(writer)
    meaning = _(words.MEANING)
    made = _attach(writer, Attachment(words.NAME, meaning, "text/plain", b"", "Supplement"))
    objects = collected(writer, last)
    open_file = written(*objects, OPEN_SEAL)
    _fill(writer, made, words.words(open_file, len(writer.pages) - ours, objects))
    return sealed(written(*collected(writer, last), OPEN_SEAL))


def _bare(page: "PageObject") -> None:
    """Take off a page what it says without need."""
    page.pop("/Trans", None)
    page.pop("/Rotate", None)
    for link in page.get("/Annots", ()):
        link.get_object().pop("/Contents", None)


def _put_code(writer: "PdfWriter", spot: Spot) -> "IndirectObject":
    """Put the drawing of the check code where it was left blank; the code itself is still open."""
    from pypdf import PdfReader
    from pypdf.generic import (
        ArrayObject,
        DecodedStreamObject,
        DictionaryObject,
        FloatObject,
        NameObject,
    )
    from reportlab.pdfgen.canvas import Canvas

    drawn = io.BytesIO()
    canvas = Canvas(drawn, (spot.width, spot.height), invariant=1, initialFontName=style.FONT)
    canvas.setFont(style.BOLD, style.LEAD.fontSize)
    canvas.drawString(0, 3, f"{LETTERS}-")  # so that the font holds whatever a code can have
    canvas.save()
    resources = cast("DictionaryObject", PdfReader(drawn).pages[0]["/Resources"])
    fonts_of = cast("DictionaryObject", resources["/Font"]).clone(writer)
    font = next(one for name, one in fonts_of.items() if "Bold" in one["/BaseFont"])
    form = DecodedStreamObject()
    form.set_data(code_drawing(style.LEAD.fontSize))
    form[NameObject("/Type")] = NameObject("/XObject")
    form[NameObject("/Subtype")] = NameObject("/Form")
    form[NameObject("/BBox")] = ArrayObject(
        [FloatObject(side) for side in (0, 0, spot.width, spot.height)]
    )
    form[NameObject("/Resources")] = DictionaryObject(
        {NameObject("/Font"): DictionaryObject({NameObject("/F1"): font})}
    )
    last = added(writer, form)
    around = cast("DictionaryObject", writer.pages[spot.page]["/Resources"])
    forms = cast("DictionaryObject", around["/XObject"])
    forms[NameObject(CODE_FORM)] = last
    return last


def _stamp(writer: "PdfWriter", page: "PageObject", drawings: Mapping[Spot, "PageObject"]) -> None:
    """Put drawings under a page's text as forms, so that no stream need be parsed."""
    from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, NameObject

    resources = cast("DictionaryObject", page["/Resources"].get_object())
    forms = cast("DictionaryObject", resources.get("/XObject", DictionaryObject()).get_object())
    drawn_forms = {
        NameObject(_name(spot)): page_form(writer, one) for spot, one in drawings.items()
    }
    page[NameObject("/Resources")] = DictionaryObject(
        {**resources, NameObject("/XObject"): DictionaryObject({**forms, **drawn_forms})}
    )
    calls = DecodedStreamObject()
    calls.set_data(
        "".join(
            f"q 1 0 0 1 {spot.x:.2f} {spot.y:.2f} cm {_name(spot)} Do Q\n" for spot in drawings
        ).encode()
    )
    page[NameObject("/Contents")] = ArrayObject([added(writer, calls), page.raw_get("/Contents")])


def _name(spot: Spot) -> str:
    return CODE_FORM if spot.chart < 0 else f"/Chart{spot.chart}"


def _attach(writer: "PdfWriter", one: Attachment) -> "EmbeddedFile":
    from pypdf.generic import NameObject, TextStringObject

    made = writer.add_attachment(one.name, one.content)
    _fill(writer, made, one.content)
    made.pdf_object[NameObject("/UF")] = TextStringObject(one.name)
    made.pdf_object[NameObject("/AFRelationship")] = NameObject("/" + one.relation)
    made.subtype = NameObject("/" + one.media_type)
    made.description = TextStringObject(one.meaning)
    return made


def _fill(writer: "PdfWriter", made: "EmbeddedFile", content: bytes) -> None:
    """Give an attached file its bytes; what else is said of it stays."""
    from pypdf.generic import (
        ByteStringObject,
        DecodedStreamObject,
        DictionaryObject,
        NameObject,
        NumberObject,
    )

    entry = cast("DictionaryObject", made.pdf_object["/EF"])
    subtype = cast("DictionaryObject", entry["/F"]).get("/Subtype")
    plain = DecodedStreamObject()
    plain.set_data(content)
    packed = plain.flate_encode()
    packed[NameObject("/Type")] = NameObject("/EmbeddedFile")
    digest = hashlib.md5(content, usedforsecurity=False).digest()
    packed[NameObject("/Params")] = DictionaryObject(
        {
            NameObject("/CheckSum"): ByteStringObject(digest),
            NameObject("/Size"): NumberObject(len(content)),
        }
    )
    if subtype is not None:
        packed[NameObject("/Subtype")] = subtype
    entry[NameObject("/F")] = added(writer, packed)


def _date(writer: "PdfWriter", today: date) -> None:
    """Date the file on the day that it speaks of, so that the same choices give the same bytes."""
    day = f"D:{today:%Y%m%d}000000Z"
    writer.add_metadata(
        {"/Producer": f"Wellbook {__version__}", "/CreationDate": day, "/ModDate": day}
    )


def _describe(writer: "PdfWriter") -> None:
    """Say the properties of the file once more as XMP."""
    from pypdf.generic import DecodedStreamObject, NameObject

    told: dict[str, bytes] = {
        str(key)[1:]: bytes(value.original_bytes)
        for key, value in (writer._info or {}).items()  # noqa: SLF001  as read by `own_writer`
        if hasattr(value, "original_bytes")
    }
    stream = DecodedStreamObject()
    stream.set_data(metadata(told))
    stream[NameObject("/Type")] = NameObject("/Metadata")
    stream[NameObject("/Subtype")] = NameObject("/XML")
    writer.root_object[NameObject("/Metadata")] = added(writer, stream)
