"""The words of the pages as plain text, each page with its fingerprint: a file beside the others.

It is made last, of the pages as they are in the file, so no page can name its fingerprint.
"""

import hashlib
import io
import re
from collections.abc import Iterator, Mapping, Sequence

from wellbook.pdf import native, own_form
from wellbook.pdf.page_digests import beside_digest, page_digests
from wellbook.pdf.spelling import Value
from wellbook.support.translation import N_

NAME = "words.txt"  # the last of all names, as it is added last
MEANING = N_("The words of the pages, with the fingerprint of each")
_WHOLE = "= These words = "
_DIGEST = re.compile(r"^= (?:Page \d+|Beside the pages) = ([0-9a-f]{64})$", re.MULTILINE)


def words(
    content: bytes,
    of_others: int = 0,
    held: tuple[own_form.Objects, Mapping[str, Value]] | None = None,
) -> bytes:
    """The file for a packet whose seal and code are still open.

    Args:
        content: The packet.
        of_others: How many pages at its end show documents of others.
        held: Its objects and its trailer, where they are known; they are read otherwise.
    """
    objects, trailer = held or own_form.read(content)
    parts = []
    digests = page_digests(objects, trailer)
    texts = _texts(content, len(digests) - of_others)
    for number, (text, digest) in enumerate(zip(texts, digests, strict=True), start=1):
        said = "\n".join(line.strip() for line in text.splitlines())
        # A line that looks like one of ours is none.
        parts.append(
            f"= Page {number} = {digest}\n{re.sub('^=', ' =', said, flags=re.MULTILINE)}\n"
        )
    parts.append(f"= Beside the pages = {beside_digest(objects, trailer)}\n")
    told = "\n".join(parts).encode("utf-8", "replace")
    return told + f"{_WHOLE}{hashlib.sha256(told).hexdigest()}\n".encode()


def is_whole(content: bytes) -> bool:
    """Whether such a file ends with the fingerprint of all that stands before it."""
    told, mark, digest = content.rpartition(_WHOLE.encode())
    return bool(mark) and digest.decode("latin-1") == f"{hashlib.sha256(told).hexdigest()}\n"


def _texts(content: bytes, ours: int) -> Iterator[str]:
    """The text of each page, in the order in which it was written.

    pdfium is quick, but it is native code: it sees only pages that are ours.
    """
    from pypdf import PdfReader

    with native.opened(content) as document:
        said = [document[number].get_textpage().get_text_bounded() for number in range(ours)]
    yield from said
    for page in PdfReader(io.BytesIO(content)).pages[ours:]:
        yield page.extract_text()


def fingerprints(content: bytes) -> list[str]:
    """The fingerprints that such a file names, those of the pages first."""
    return _DIGEST.findall(content.decode("utf-8", "replace"))


def of_file(content: bytes) -> Sequence[str]:
    """The fingerprints of the pages of a file, then that of what stands beside them.

    Raises:
        ValueError, LookupError, TypeError: It is no packet.
    """
    objects, trailer = own_form.read(content)
    return [*page_digests(objects, trailer), beside_digest(objects, trailer)]
