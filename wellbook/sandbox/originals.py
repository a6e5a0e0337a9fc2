"""A household's original reports, looked over before they are appended or attached.

Covering a word on a page leaves it in the file. So a page that shows a private word, or that can't
be searched for one, is left out whole unless personal facts are to be shown. Who wrote a report is
unknown: PDFs are read in a process of their own, and here only what it wrote anew of them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import partial

from wellbook.book.record import Record
from wellbook.book.rows import Document
from wellbook.sandbox import process, reasons
from wellbook.sandbox.process import Parcel, ReadFailed

_READER = "wellbook.sandbox.original_reader"
_LARGEST = 30_000_000  # bytes; our own bound
_MOST_TOGETHER = 1_000_000_000  # bytes of what all pages of a packet unpack to; our own bound
_PDF = b"%PDF-"


@dataclass(frozen=True, slots=True)
class Original:
    """A document as it is to be appended.

    Attributes:
        document: What the book says of it.
        trouble: Why it can't be appended at all, in English; empty if it can.
        pages: For each of its pages why it is left out, likewise; empty where it is shown.
        clean: A PDF of the pages that are shown, with nothing but what they draw.
        unpacked: Bytes that this PDF unpacks to.
    """

    document: Document
    trouble: str
    pages: tuple[str, ...] = ()
    clean: bytes = b""
    unpacked: int = 0


def originals(
    record: Record,
    documents: Iterable[Document],
    words: Sequence[str],
    *,
    seconds: float = process.SECONDS,
) -> list[Original]:
    """Each document once, looked over.

    Args:
        record: The record.
        documents: What it holds, in order.
        words: Private words; none if personal facts are to be shown.
        seconds: How long it may take to read one.
    """
    once = {one.id: one for one in documents}.values()
    contents = [(one, record.archive.content(one.id)) for one in once]
    room = _MOST_TOGETHER
    found = []
    for one in process.each(partial(_look, words=words, seconds=seconds), contents):
        fits = one.unpacked <= room
        room -= one.unpacked if fits else 0
        found.append(one if fits else Original(one.document, reasons.NO_ROOM))
    return found


def _look(found: tuple[Document, bytes], words: Sequence[str], seconds: float) -> Original:
    document, content = found
    if not content.startswith(_PDF):
        return Original(document, reasons.NO_PDF)
    if len(content) > _LARGEST:
        return Original(document, reasons.TOO_LARGE)
    asked = Parcel({"words": list(words)}, content)
    try:
        told = process.ask(_READER, asked, seconds=seconds)
    except ReadFailed as why:
        return Original(document, str(why))
    facts = told.facts
    return Original(
        document,
        str(facts["trouble"]),
        tuple(map(str, facts["pages"])),
        told.content,
        int(facts["unpacked"]),
    )
