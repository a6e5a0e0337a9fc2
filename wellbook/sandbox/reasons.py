"""Why a document or one of its pages is left out, and the search for private words."""

import re
from collections.abc import Sequence

from wellbook.support.translation import N_

PRIVATE = N_("it shows words that are marked as personal")
PICTURE = N_("it holds a picture, which can’t be searched for names")
UNREADABLE = N_("its text can’t be searched for names")
NO_PDF = N_("it is no PDF")
TOO_LARGE = N_("it is too large")
NO_PAGES = N_("it has no page, or too many")
DAMAGED = N_("it is damaged or locked")
TOO_MUCH = N_("it holds more than a report does")
NO_ROOM = N_("the originals before it hold as much as a packet can")
_CODES = ("utf-8", "latin-1")


def holds(content: bytes, words: Sequence[str]) -> bool:
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
