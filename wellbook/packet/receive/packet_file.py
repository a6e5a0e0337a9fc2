"""A packet opened again: its text, its attached files, its record, with nothing trusted.

Sizes and names in the file are claims of whoever made it: what is read is bounded, a name never
becomes a path, and whatever breaks while reading means that the file is damaged.
"""

import json
import os
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from wellbook.packet.attachments import MANIFEST
from wellbook.pdf.sealing import SEAL, seal_holds
from wellbook.sandbox import process
from wellbook.sandbox.process import Busy, Heed, Parcel, Unread, unheeding
from wellbook.sharing.record_json import FORM, NAME
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import NotAFile, TooLarge, open_regular, read_whole

_PDF = b"%PDF-"
LARGEST_FILE = 300_000_000  # bytes of a packet; our own bound
SECONDS = 300.0  # of the processor; a packet of decades with all its originals takes under thirty
_GLANCE = 20_000_000  # bytes that are searched for the marks of a packet
_TAIL = 4_000  # bytes at the end of the file, where the seal stands


@dataclass(frozen=True, slots=True)
class Packet:
    """What was found in a packet.

    Attributes:
        content: All its bytes.
        cover: The words on its first page.
        text: The words on all its pages.
        pages: A digest of each page.
        files: Attached files by name.
        is_sealed: Whether the file is byte for byte as it was made.
    """

    path: Path
    content: bytes
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
            raise Fault(
                _("The record in {path} can't be read: it is damaged.").format(path=self.path.name)
            ) from error
        if form > FORM:
            raise Fault(
                _(
                    "The record in {path} was written by a newer Wellbook "
                    "({get}): install the newer one to read it."
                ).format(path=self.path.name, get=facts.get("made_with", "unknown"))
            )
        return dict(facts)


def may_be_packet(path: Path) -> bool:
    """Whether a file bears the marks of a packet at a glance; its PDF is not read."""
    try:
        with open_regular(path) as file:
            head = file.read(_GLANCE)
            file.seek(max(os.fstat(file.fileno()).st_size - _TAIL, 0))
            tail = file.read(_TAIL)
    except (OSError, NotAFile):
        return False
    return head.startswith(_PDF) and (NAME.encode() in head or SEAL in tail)


def open_packet(path: Path, *, seconds: float = SECONDS, heed: Heed = unheeding) -> Packet:
    """Open a packet, whose PDF is read in a process of its own.

    Args:
        path: Where it lies.
        seconds: Seconds of the processor that reading it may take.
        heed: Called while it is read; what it raises ends the reading.

    Raises:
        Fault: It is not there, not a PDF, damaged, or not a packet of ours; or the computer was
            too busy to tell.
    """
    content = _content(path)
    try:
        told = process.ask(
            "wellbook.packet.receive.reader_process",
            Parcel({}, content),
            seconds=seconds,
            heed=heed,
        )
    except Busy as why:
        raise Fault(
            _("What {path} holds can't be told now: {why}.").format(path=path, why=why)
        ) from why
    except Unread as why:
        raise Fault(
            _("{path} can't be read: {why}, as no packet of Wellbook does.").format(
                path=path, why=why
            )
        ) from why
    if told.facts["damaged"]:
        raise Fault(_("{path} is damaged: it can't be read as a PDF.").format(path=path))
    packet = _unpacked(path, content, told)
    if NAME not in packet.files or MANIFEST not in packet.files:
        raise Fault(
            _(
                "{path} is a PDF, but not a packet of Wellbook, or its attached files were taken "
                "out."
            ).format(path=path)
        )
    return packet


def _unpacked(path: Path, content: bytes, told: Parcel) -> Packet:
    files, place = {}, 0
    for name, size in told.facts["files"]:
        files[str(name)] = told.content[place : place + size]
        place += size
    return Packet(
        path,
        content,
        told.facts["cover"],
        told.facts["text"],
        tuple(map(bytes.fromhex, told.facts["pages"])),
        files,
        seal_holds(content),
    )


def _content(path: Path) -> bytes:
    try:
        content = read_whole(path, LARGEST_FILE)
    except TooLarge:
        raise Fault(
            _("{path} is larger than {largest_file} MB: no packet is.").format(
                path=path, largest_file=LARGEST_FILE // 1_000_000
            )
        ) from None
    except FileNotFoundError:
        raise Fault(_("{path} does not exist: look at the name.").format(path=path)) from None
    except OSError as error:
        raise Fault(
            _("{path} can't be read: {problem}.").format(path=path, problem=error.strerror)
        ) from error
    if not content.startswith(_PDF):
        raise Fault(_("{path} is not a PDF.").format(path=path))
    return content
