"""Which of a book's documents go along as files, and why the others stay behind.

A document that shows a word marked as personal, or can't be searched for one, stays behind unless
that was allowed: a person may forget what a report of years ago shows.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wellbook.book.record import Record
from wellbook.book.rows import Document
from wellbook.sandbox import process, reasons
from wellbook.sandbox.process import Parcel, ReadFailed

_SEARCH = "wellbook.sandbox.document_search"
_READ_APART = (b"%PDF-", b"PK")
# Beginnings of PNG, JPEG, GIF, TIFF (both orders), BMP, RIFF (WebP); HEIC has its name further on.
_PICTURES = (b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"II*\0", b"MM\0*", b"BM", b"RIFF")
_HEIC = b"ftyp"


@dataclass(frozen=True, slots=True)
class ScreenedOriginal:
    """A document that was asked for.

    Attributes:
        document: What the book says of it.
        content: Its bytes.
        why: Why it stays behind, in English; empty if it goes along.
    """

    document: Document
    content: bytes
    why: str


def held(
    record: Record,
    documents: Iterable[Document],
    words: Sequence[str],
    *,
    seconds: float = process.SECONDS,
) -> tuple[ScreenedOriginal, ...]:
    """Each document once, searched for private words.

    Args:
        record: The record.
        documents: Those asked for.
        words: Private words; none if every document may go along.
        seconds: How long it may take to search one.
    """

    def searched(found: tuple[Document, bytes]) -> ScreenedOriginal:
        document, content = found
        named = reasons.holds(document.name.encode(), words)
        why = reasons.PRIVATE if named else why_behind(content, words, seconds=seconds)
        return ScreenedOriginal(document, content, why)

    once = {one.id: one for one in documents}.values()
    return tuple(process.each(searched, [(one, record.archive.content(one.id)) for one in once]))


def why_behind(content: bytes, words: Sequence[str], *, seconds: float = process.SECONDS) -> str:
    """Why a document stays behind: it shows a private word, or can't be searched for one."""
    if not words:
        return ""
    if reasons.holds(content, words):
        return reasons.PRIVATE
    if content.startswith(_READ_APART):
        try:
            told = process.ask(_SEARCH, Parcel({"words": list(words)}, content), seconds=seconds)
        except ReadFailed as why:
            return str(why)
        return str(told.facts["why"])
    is_picture = content.startswith(_PICTURES) or content[4:8] == _HEIC
    return reasons.PICTURE if is_picture else ""
