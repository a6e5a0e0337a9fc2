"""The words of the pages as plain text, each page with its fingerprint: a file beside the others.

It is made last, of the pages as they are in the file, so no page can name its fingerprint.
"""

import io
import re
from collections.abc import Sequence

from wellbook.pdf import own_form
from wellbook.pdf.page_digests import beside_digest, page_digests
from wellbook.support.translation import N_

NAME = "words.txt"  # the last of all names, as it is added last
MEANING = N_("The words of the pages, with the fingerprint of each")
_DIGEST = re.compile(r"^= (?:Page \d+|Beside the pages) = ([0-9a-f]{64})$", re.MULTILINE)


def words(content: bytes) -> bytes:
    """The file for a packet whose seal and code are still open."""
    from pypdf import PdfReader

    objects, trailer = own_form.read(content)
    parts = []
    pages = PdfReader(io.BytesIO(content)).pages
    digests = page_digests(objects, trailer)
    for number, (page, digest) in enumerate(zip(pages, digests, strict=True), start=1):
        said = "\n".join(line.strip() for line in page.extract_text().splitlines())
        # A line that looks like one of ours is none.
        parts.append(
            f"= Page {number} = {digest}\n{re.sub('^=', ' =', said, flags=re.MULTILINE)}\n"
        )
    parts.append(f"= Beside the pages = {beside_digest(objects, trailer)}\n")
    return "\n".join(parts).encode("utf-8", "replace")


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
