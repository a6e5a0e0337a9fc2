"""A PDF that somebody else made, looked over and written anew: runs in a process of its own.

What is written anew holds only what its pages draw, packed in one plain way. Before it is handed
on, all is done with it here that is done with it later, so that nothing in it can hold that up.
"""

import io
import zlib
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from wellbook.sandbox import bounds
from wellbook.sandbox.drawing_effort import TooMuchError, check_effort
from wellbook.sandbox.process import Parcel
from wellbook.sandbox.reasons import (
    DAMAGED,
    NO_PAGES,
    PICTURE,
    PRIVATE,
    TOO_MUCH,
    UNREADABLE,
    holds,
)

if TYPE_CHECKING:
    from pypdf import PageObject, PdfReader, PdfWriter
    from pypdf.generic import StreamObject

_MOST_PAGES = 200
_MOST_BYTES = 60_000_000  # of what is written anew; our own bounds, as all here
_MOST_UNPACKED = 400_000_000  # bytes of all that it holds, fonts and pictures too
_MOST_OBJECTS = 50_000
_LARGEST_SIDE = 14_400.0  # points; PDF 1.7, annex C
_FLATE = "/FlateDecode"
_PACKINGS = frozenset(
    {_FLATE, "/LZWDecode", "/RunLengthDecode", "/ASCII85Decode", "/ASCIIHexDecode"}
)


def main() -> None:
    """Answer one question about one PDF."""
    try:
        asked = bounds.received()
        prepare()
        bounds.answer(_copy(asked.content, tuple(map(str, asked.facts["words"]))))
    except MemoryError:
        bounds.out_of_memory()


def prepare() -> None:
    """Interval of the reader, tighter than where what is written anew is read again."""
    import logging

    from pypdf import overwrite_configuration

    logging.disable()
    overwrite_configuration(
        jbig2dec_binary=None,  # no other program is started
        xform_maximum_invocations_per_extraction=1_000,
        stream_parsing_work_maximum_count=1_000_000,
    )


def _copy(content: bytes, words: Sequence[str]) -> Parcel:
    """Why each page is left out, and a PDF of the others."""
    from pypdf.errors import LimitReachedError

    try:
        _, pages = pages_of(content)
        if not 0 < len(pages) <= _MOST_PAGES:
            return _trouble(NO_PAGES)
        whys = page_whys(pages, words)
        clean, unpacked = _written([page for page, why in zip(pages, whys, strict=True) if not why])
        _rehearse(clean)
    except MemoryError:
        raise
    except (LimitReachedError, TooMuchError):
        return _trouble(TOO_MUCH)
    except Exception:  # noqa: BLE001  a hostile file can make the reader raise nearly anything
        return _trouble(DAMAGED)
    return Parcel({"trouble": "", "pages": whys, "unpacked": unpacked}, clean)


def _trouble(why: str) -> Parcel:
    return Parcel({"trouble": why, "pages": [], "unpacked": 0}, b"")


def pages_of(content: bytes) -> "tuple[PdfReader, Sequence[PageObject]]":
    """A PDF and its pages.

    Raises:
        ValueError: It is locked.
    """
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(content))
    if reader.is_encrypted:
        raise ValueError("locked")
    return reader, list(reader.pages)


def page_whys(pages: "Sequence[PageObject]", words: Sequence[str]) -> list[str]:
    """For each page why it is left out; empty if it is not."""
    return [_why(page, words) for page in pages]


def _why(page: "PageObject", words: Sequence[str]) -> str:
    said = page.extract_text()  # also shows that the page can be read
    if not words:
        return ""
    if holds(said.encode("utf-8", "replace"), words) or holds(_drawn(page), words):
        return PRIVATE
    if len(page.images):
        return PICTURE
    return "" if _searchable(page) else UNREADABLE


def _drawn(page: "PageObject") -> bytes:
    contents = page.get_contents()
    return b"" if contents is None else contents.get_data()


def _searchable(page: "PageObject") -> bool:
    """Whether every font says which letters its marks are, also inside of forms."""
    return all(
        face.get("/Subtype") not in {"/Type0", "/Type3"} or "/ToUnicode" in face
        for face in _fonts(page.get("/Resources", {}))
    )


def _fonts(resources: Any) -> Iterator[Any]:
    """The fonts of a page and of its forms, each place looked at once."""
    waiting, seen = [resources.get_object()], set()
    while waiting:
        found = waiting.pop()
        if id(found) in seen:
            continue
        seen.add(id(found))
        for font in found.get("/Font", {}).get_object().values() if "/Font" in found else ():
            yield font.get_object()
        for form in found.get("/XObject", {}).get_object().values() if "/XObject" in found else ():
            inner = form.get_object()
            if "/Resources" in inner:
                waiting.append(inner["/Resources"].get_object())


def _written(pages: "Sequence[PageObject]") -> tuple[bytes, int]:
    """A PDF with nothing but what pages draw, and how many bytes it unpacks to."""
    from pypdf import PdfWriter

    from wellbook.pdf.stamping_forms import add_bare_page

    if not pages:
        return b"", 0
    writer = PdfWriter()
    for page in pages:
        _check_size(page)
        add_bare_page(writer, page)
    unpacked = _pack(writer)
    content = io.BytesIO()
    writer.write(content)
    if content.tell() > _MOST_BYTES:
        raise TooMuchError
    return content.getvalue(), unpacked


def _check_size(page: "PageObject") -> None:
    wide, high = float(page.mediabox.width), float(page.mediabox.height)
    corners = [abs(float(corner)) for corner in page.mediabox]
    if len(corners) != 4 or not (1 <= wide <= _LARGEST_SIDE and 1 <= high <= _LARGEST_SIDE):  # noqa: PLR2004
        raise ValueError("no page of paper has that size")
    if max(corners) > 10 * _LARGEST_SIDE:
        raise ValueError("a page that lies nowhere")


def _pack(writer: "PdfWriter") -> int:
    """Pack all that is packed without loss in one plain way; the bytes that it unpacks to."""
    from pypdf.generic import StreamObject

    objects = writer._objects  # noqa: SLF001  pypdf has no public way to all objects
    if len(objects) > _MOST_OBJECTS:
        raise TooMuchError
    unpacked = 0
    for one in objects:
        if isinstance(one, StreamObject):
            unpacked += _repack(one)
            if unpacked > _MOST_UNPACKED:
                raise TooMuchError
    return unpacked


def _repack(stream: "StreamObject") -> int:
    from pypdf.filters import decode_stream_data
    from pypdf.generic import ArrayObject, NameObject, NullObject

    named = stream.get("/Filter", NullObject()).get_object()
    names = list(named) if isinstance(named, ArrayObject) else [named]
    if isinstance(named, NullObject):
        return len(stream._data)  # noqa: SLF001  the bytes as they are
    if not {str(one.get_object()) for one in names} <= _PACKINGS:
        return 0  # a picture of its own kind, which nobody of us unpacks
    plain = named == _FLATE and "/DecodeParms" not in stream
    if plain and (size := _unpacked_size(stream._data)) is not None:  # noqa: SLF001  as above
        return size
    data = decode_stream_data(stream)
    stream._data = zlib.compress(data)  # noqa: SLF001  as above
    stream.decoded_self = None
    stream[NameObject("/Filter")] = NameObject(_FLATE)
    stream.pop("/DecodeParms", None)
    return len(data)


def _unpacked_size(packed: bytes) -> int | None:
    """How many bytes it unpacks to; None if it is not whole."""
    try:
        unpacking = zlib.decompressobj()
        size = len(unpacking.decompress(packed, _MOST_UNPACKED))
    except zlib.error:
        return None
    return size if unpacking.eof else None


def _rehearse(clean: bytes) -> None:
    """Do what a packet and whoever checks it does, so that what would fail there fails here."""
    from pypdf import PdfReader, PdfWriter

    from wellbook.pdf.stamping_forms import page_form

    if not clean:
        return
    reader, writer = PdfReader(io.BytesIO(clean)), PdfWriter()
    for page in reader.pages:
        check_effort(page)
        page_form(writer, page)
        page.extract_text()
    writer.compress_identical_objects(remove_duplicates=True, remove_unreferenced=False)
    writer.write(io.BytesIO())
