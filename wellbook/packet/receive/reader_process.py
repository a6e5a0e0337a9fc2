"""A packet that somebody handed on, read: runs in a process of its own.

Before a PDF reader sees it, it is held to the one form that packets are written in. What comes
back are words and bytes, which keep nobody busy.
"""

import io
import json
from contextlib import suppress

from wellbook.packet.words import of_file
from wellbook.pdf import own_form
from wellbook.pdf.own_structure import check_structure
from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel
from wellbook.sharing import RECORD

_LARGEST_WHOLE = 600_000_000  # bytes of all attached files together; our own bounds
_MOST_FILES = 5_000


def main() -> None:
    """Answer what a packet holds."""
    import logging

    try:
        asked = bounds.received()
        logging.disable()  # what the reader finds wrong on its way is not for the person
        bounds.answer(_answer(asked.content))
    except MemoryError:
        bounds.out_of_memory()


def _answer(content: bytes) -> Parcel:
    try:
        return read(content)
    except MemoryError:
        raise
    except Exception:  # noqa: BLE001  a hostile file can make the reader raise nearly anything
        return Parcel({"damaged": True}, b"")


def is_ours(content: bytes) -> bool:
    """Whether a file is written and made as a packet is, byte for byte."""
    try:
        check_structure(*own_form.read(content))
    except (ValueError, LookupError, TypeError, RecursionError):  # whatever does not fit
        return False
    return True


def read(content: bytes) -> Parcel:
    """The words of a packet's cover and of all its pages, and its files.

    Raises:
        ValueError: It holds more than a packet does.
    """
    from pypdf import PdfReader

    if not is_ours(content):
        return Parcel({"damaged": False, "ours": False}, b"")
    reader = PdfReader(io.BytesIO(content))
    files: dict[str, bytes] = {}
    whole = 0
    for one in reader.attachment_list:
        body = one.content
        whole += len(body)
        if whole > _LARGEST_WHOLE or len(files) >= _MOST_FILES:
            raise ValueError("more is attached than a packet holds")
        files[one.name] = body
    with suppress(ValueError, RecursionError):  # said later; here it only must not fill the memory
        json.loads(files.get(RECORD, b"null"))
    said = [page.extract_text() for page in reader.pages]
    facts = {
        "damaged": False,
        "ours": True,
        "cover": said[0] if said else "",
        "text": "\n".join(said),
        "pages": list(of_file(content)),
        "files": [(name, len(body)) for name, body in files.items()],
    }
    return Parcel(facts, b"".join(files.values()))
