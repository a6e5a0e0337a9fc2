"""Whether a PDF or a packed file shows a private word: runs in a process of its own.

Everything in it is searched, not only what its pages draw: properties, remarks, forms, files.
"""

import html
import io
import re
import zipfile
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from wellbook.sandbox import bounds
from wellbook.sandbox.original_reader import page_whys, pages_of, prepare
from wellbook.sandbox.process import Parcel
from wellbook.sandbox.reasons import DAMAGED, PICTURE, PRIVATE, TOO_MUCH, UNREADABLE, holds

if TYPE_CHECKING:
    from pypdf import PdfReader

_MOST_MEMBERS = 2_000
_MOST_UNPACKED = 200_000_000  # bytes; our own bounds
_PACKED = b"PK"
_PICTURES = (".png", ".jpg", ".jpeg", ".gif", ".bmp", ".tif", ".tiff", ".emf", ".wmf", ".webp")


def main() -> None:
    """Answer why one document stays behind; empty if nothing private was found in it."""
    try:
        asked = bounds.received()
        prepare()
        words = tuple(map(str, asked.facts["words"]))
        search = _packed if asked.content.startswith(_PACKED) else _pdf
        bounds.answer(Parcel({"why": _why(search, asked.content, words)}, b""))
    except MemoryError:
        bounds.out_of_memory()


def _why(search: Any, content: bytes, words: Sequence[str]) -> str:
    from pypdf.errors import LimitReachedError

    try:
        return str(search(content, words))
    except MemoryError:
        raise
    except LimitReachedError:
        return TOO_MUCH
    except Exception:  # noqa: BLE001  a hostile file can make a reader raise nearly anything
        return DAMAGED


def _pdf(content: bytes, words: Sequence[str]) -> str:
    reader, pages = pages_of(content)
    if any(holds(one, words) for one in _kept_in(reader)):
        return PRIVATE
    found = list(filter(None, page_whys(pages, words)))
    return PRIVATE if PRIVATE in found else next(iter(found), "")


def _kept_in(reader: "PdfReader") -> Iterator[bytes]:
    """The strings and unpacked streams of every object of a PDF."""
    from pypdf.generic import IndirectObject

    places = {(number, edition) for edition, table in reader.xref.items() for number in table}
    places |= {(number, 0) for number in reader.xref_objStm}
    for number, edition in sorted(places):
        found = reader.get_object(IndirectObject(number, edition, reader))
        yield " ".join(_strings(found)).encode("utf-8", "replace")
        if hasattr(found, "get_data"):
            yield _unpacked(found)
    yield " ".join(_strings(reader.trailer)).encode("utf-8", "replace")


def _unpacked(stream: Any) -> bytes:
    """What a stream holds; a picture of its own kind stays as it is."""
    try:
        return bytes(stream.get_data())
    except NotImplementedError:
        return bytes(stream._data)  # noqa: SLF001  as it stands in the file


def _strings(found: Any) -> Iterator[str]:
    """The strings of one object, without those of the objects that it points to."""
    from pypdf.generic import ArrayObject, ByteStringObject, DictionaryObject, TextStringObject

    waiting = [found]
    while waiting:
        one = waiting.pop()
        if isinstance(one, TextStringObject):
            yield str(one)
        elif isinstance(one, ByteStringObject):
            yield bytes(one).decode("latin-1")
        elif isinstance(one, DictionaryObject):
            waiting += list(dict.values(one))
        elif isinstance(one, ArrayObject):
            waiting += list.__iter__(one)


def _packed(content: bytes, words: Sequence[str]) -> str:
    """A workbook or any other packed file: names and contents of its members."""
    why = ""
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        members = archive.infolist()
        if len(members) > _MOST_MEMBERS:
            return TOO_MUCH
        room = _MOST_UNPACKED
        for member in members:
            with archive.open(member) as file:
                data = file.read(room + 1)
            room -= len(data)
            if room < 0:
                return TOO_MUCH
            if holds(member.filename.encode(), words) or holds(data, words):
                return PRIVATE
            if holds(_plain(data), words):
                return PRIVATE
            if data.startswith(_PACKED):
                why = UNREADABLE
            elif member.filename.lower().endswith(_PICTURES):
                why = why or PICTURE
    return why


def _plain(data: bytes) -> bytes:
    """The text of a member in XML, whose words may be cut by tags or written as entities."""
    if b"<" not in data:
        return b""
    text = re.sub(rb"<[^>]*>", b"", data).decode("utf-8", "replace")
    return html.unescape(text).encode("utf-8", "replace")
