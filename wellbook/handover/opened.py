"""A packet opened again: its text, its attached files, its record, with nothing trusted.

Sizes and names in the file are claims of whoever made it: what is read is bounded, a name never
becomes a path, and whatever breaks while reading means that the file is damaged.
"""

import io
import json
import logging
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wellbook.faults import Fault
from wellbook.handover.attachments import MANIFEST
from wellbook.handover.record import FORM, NAME
from wellbook.handover.sealing import page_digests, seal_holds

LARGEST_FILE = 300_000_000  # bytes of a packet; our own bound
LARGEST_WHOLE = 600_000_000  # bytes of all attached files together; our own bound
_MOST_FILES = 5_000


@dataclass(frozen=True, slots=True)
class Packet:
    """What was found in a packet.

    Attributes:
        cover: The words on its first page.
        text: The words on all its pages.
        pages: A digest of each page.
        files: Attached files by name.
        is_sealed: Whether the file is byte for byte as it was made.
    """

    path: Path
    cover: str
    text: str
    pages: tuple[bytes, ...]
    files: dict[str, bytes]
    is_sealed: bool

    def record(self) -> dict[str, Any]:
        """The record that travels in it.

        Raises:
            Fault: It can't be read, or was written by a newer Wellbook.
        """
        try:
            facts = json.loads(self.files[NAME])
            form = int(facts["form"])
        except (ValueError, TypeError, KeyError, RecursionError) as error:
            raise Fault(f"The record in {self.path.name} can't be read: it is damaged.") from error
        if form > FORM:
            raise Fault(
                f"The record in {self.path.name} was written by a newer Wellbook "
                f"({facts.get('made_with', 'unknown')}): install the newer one to read it."
            )
        return dict(facts)


def open_packet(path: Path) -> Packet:
    """Open a packet.

    Raises:
        Fault: It is not there, not a PDF, damaged, or not a packet of ours.
    """
    content = _content(path)
    try:
        packet = _parsed(path, content)
    except (MemoryError, KeyboardInterrupt):
        raise
    except Exception as error:  # a hostile file can make the reader raise nearly anything
        raise Fault(f"{path} is damaged: it can't be read as a PDF.") from error
    if NAME not in packet.files or MANIFEST not in packet.files:
        raise Fault(
            f"{path} is a PDF, but not a packet of Wellbook, or its attached files were taken out."
        )
    return packet


def _content(path: Path) -> bytes:
    try:
        if path.stat().st_size > LARGEST_FILE:
            raise Fault(f"{path} is larger than {LARGEST_FILE // 1_000_000} MB: no packet is.")
        content = path.read_bytes()
    except FileNotFoundError:
        raise Fault(f"{path} does not exist: look at the name.") from None
    except OSError as error:
        raise Fault(f"{path} can't be read: {error.strerror}.") from error
    if not content.startswith(b"%PDF-"):
        raise Fault(f"{path} is not a PDF.")
    return content


def _parsed(path: Path, content: bytes) -> Packet:
    from pypdf import PdfReader

    # What it finds wrong on its way is not for the person; what can't be read raises.
    logging.getLogger("pypdf").addHandler(logging.NullHandler())
    reader = PdfReader(io.BytesIO(content))
    files: dict[str, bytes] = {}
    whole = 0
    for one in reader.attachment_list:
        body = one.content
        whole += len(body)
        if whole > LARGEST_WHOLE or len(files) >= _MOST_FILES:
            raise ValueError("more is attached than a packet holds")
        files[one.name] = body
    said = [page.extract_text() for page in reader.pages]
    return Packet(
        path,
        said[0] if said else "",
        "\n".join(said),
        page_digests(reader.pages),
        files,
        seal_holds(content),
    )
