"""A household's original reports, looked over before they are appended or attached.

Covering a word on a page leaves it in the file. So a page that shows a private word, or that can't
be searched for one, is left out whole unless personal facts are to be shown.
"""

import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wellbook.book import Book
from wellbook.book.rows import Document
from wellbook.tongue import mark

if TYPE_CHECKING:
    from pypdf import PageObject

PRIVATE = mark("it shows words that are marked as personal")
PICTURE = mark("it holds a picture, which can’t be searched for names")
UNREADABLE = mark("its text can’t be searched for names")
_LARGEST = 30_000_000  # bytes; our own bound
_MOST_PAGES = 200
_PDF = b"%PDF-"
_CODES = ("utf-8", "latin-1")


@dataclass(frozen=True, slots=True)
class Original:
    """A document as it is to be appended.

    Attributes:
        document: What the book says of it.
        content: Its bytes.
        trouble: Why it can't be appended at all, in English; empty if it can.
        pages: For each of its pages why it is left out, likewise; empty where it is shown.
    """

    document: Document
    content: bytes
    trouble: str
    pages: tuple[str, ...] = ()


def originals(book: Book, documents: Iterable[Document], words: Sequence[str]) -> list[Original]:
    """Each document once, looked over.

    Args:
        book: The record.
        documents: What it holds, in order.
        words: Private words; none if personal facts are to be shown.
    """
    once = {one.id: one for one in documents}.values()
    return [_look(one, book.content(one.id), words) for one in once]


def shows(content: bytes, words: Sequence[str]) -> bool:
    """Whether a document of any kind shows a private word, as far as it can be searched."""
    if not words:
        return False
    if not content.startswith(_PDF):
        return _holds(content, words)
    try:
        pages = _pages(content)
        return any(_page(page, words) == PRIVATE for page in pages) or _holds(content, words)
    except Exception:  # noqa: BLE001  a hostile file can make the reader raise nearly anything
        return _holds(content, words)


def _look(document: Document, content: bytes, words: Sequence[str]) -> Original:
    if not content.startswith(_PDF):
        return Original(document, content, mark("it is no PDF"))
    if len(content) > _LARGEST:
        return Original(document, content, mark("it is too large"))
    try:
        pages = _pages(content)
        if not 0 < len(pages) <= _MOST_PAGES:
            return Original(document, content, mark("it has no page, or too many"))
        return Original(document, content, "", tuple(_page(page, words) for page in pages))
    except Exception:  # noqa: BLE001  as above
        return Original(document, content, mark("it is damaged or locked"))


def _pages(content: bytes) -> "Sequence[PageObject]":
    from pypdf import PdfReader

    reader = PdfReader(io.BytesIO(content))
    if reader.is_encrypted:
        raise ValueError("locked")
    return list(reader.pages)


def _page(page: "PageObject", words: Sequence[str]) -> str:
    """Why a page is left out; empty if it is not."""
    said = page.extract_text()  # also shows that the page can be read
    if not words:
        return ""
    if _holds(said.encode(), words) or _holds(_drawn(page), words):
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
        for face in _fonts(page.get("/Resources", {}), 0)
    )


def _fonts(resources: Any, depth: int) -> Iterable[Any]:
    found = resources.get_object()
    for font in found.get("/Font", {}).get_object().values() if "/Font" in found else ():
        yield font.get_object()
    for form in found.get("/XObject", {}).get_object().values() if "/XObject" in found else ():
        inner = form.get_object()
        if depth < 8 and "/Resources" in inner:  # noqa: PLR2004  deeper is no report
            yield from _fonts(inner["/Resources"], depth + 1)


def _holds(content: bytes, words: Sequence[str]) -> bool:
    """Whether a word stands in it in one of the usual codings, whatever the blanks in between."""
    lowered = content.lower()
    squeezed = re.sub(rb"\s", b"", lowered)
    wide = content.replace(b"\0", b"").lower()
    return any(
        coded in text
        for word in words
        for coded in {re.sub(r"\s", "", word).lower().encode(code, "replace") for code in _CODES}
        for text in (squeezed, wide)
    )
