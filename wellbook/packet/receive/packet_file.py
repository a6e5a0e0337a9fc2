"""A packet opened again: its text, its attached files, its record, with nothing trusted.

Only a file that is, byte for byte, of the form in which packets are written is read at all: of any
other it can't be told what another reader sees in it.

Sizes and names in the file are claims of whoever made it: what is read is bounded, a name never
becomes a path, and whatever breaks while reading means that the file is damaged.
"""

import json
import os
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from wellbook.packet.attachments import MANIFEST
from wellbook.pdf.own_form import FORM as FILE_FORM
from wellbook.pdf.own_form import HEAD, SEAL
from wellbook.pdf.sealing import Marks, form_of, marks
from wellbook.sandbox import process
from wellbook.sandbox.process import Busy, CancelCheck, Parcel, ReadFailed, never_cancelled
from wellbook.sharing import RECORD
from wellbook.sharing.record_json import FORM
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _
from wellbook.support.whole_file import NotAFile, TooLarge, open_regular, read_whole

_PDF = b"%PDF-"
LARGEST_FILE = 300_000_000  # bytes of a packet; our own bound
SECONDS = 300.0  # of the processor; a packet of decades with all its originals takes under thirty
_GLANCE = 20_000_000  # bytes that are searched for the marks of a packet
_TAIL = 4_000  # bytes at the end of the file, where the seal stands
_UNLIKE = N_(
    "{path} is not, byte for byte, a packet of Wellbook: another program wrote it again, somebody "
    "changed it, or it never was one. Nothing can be told of it; ask for the original file."
)
_FORMER = N_(
    "{path} was made by an older Wellbook, or to look as if. The check code of that time did not "
    "cover every byte of the file, so it can’t be told whether it was changed. Its pages can be "
    "read and its attached files opened, as those of any PDF. If it is newer, ask for the original "
    "file; else ask the household to make the packet again with the Wellbook of today."
)


class Untold(Fault):
    """Nothing can be told of a file: it is not of the form in which packets are written."""


@dataclass(frozen=True, slots=True)
class Packet:
    """What was found in a packet.

    Attributes:
        content: All its bytes.
        cover: The words on its first page.
        text: The words on all its pages.
        pages: Fingerprint of each page, then that of what stands beside the pages.
        files: Attached files by name.
        marks: Its check code and its seal, beside what its bytes say.
        told: The check code that the household told by another way; empty if it was not asked.
    """

    path: Path
    content: bytes
    cover: str
    text: str
    pages: tuple[str, ...]
    files: dict[str, bytes]
    marks: Marks
    told: str = ""

    def record(self) -> dict[str, Any]:
        """The record that travels in it.

        Raises:
            Fault: It can't be read, or was written by a newer Wellbook.
        """
        try:
            facts = json.loads(self.files[RECORD])
            form = int(facts["form"])
        except (ValueError, TypeError, KeyError, RecursionError) as error:
            raise Fault(
                _("The record in {path} can’t be read: it is damaged.").format(path=self.path.name)
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
    return head.startswith(HEAD) or (
        head.startswith(_PDF) and (RECORD.encode() in head or SEAL in tail)
    )


def open_packet(
    path: Path,
    *,
    told: str = "",
    seconds: float = SECONDS,
    check_cancelled: CancelCheck = never_cancelled,
) -> Packet:
    """Open a packet, whose PDF is read in a process of its own.

    Args:
        path: Where it lies.
        told: The check code that the household told; empty if it was not asked.
        seconds: Seconds of the processor that reading it may take.
        check_cancelled: Called while it is read; what it raises ends the reading.

    Raises:
        Untold: It is not, byte for byte, of the form in which packets are written.
        Fault: It is not there, not a PDF, damaged, or made by a newer Wellbook; or the computer was
            too busy to tell.
    """
    content = _content(path)
    found = _marks(path, content)
    try:
        answer = process.ask(
            "wellbook.packet.receive.reader_process",
            Parcel({}, content),
            seconds=seconds,
            check_cancelled=check_cancelled,
        )
    except Busy as why:
        raise Fault(
            _("What {path} holds can’t be told now: {why}.").format(path=path, why=why)
        ) from why
    except ReadFailed as why:
        raise Fault(
            _("{path} can’t be read: {why}, as no packet of Wellbook does.").format(
                path=path, why=why
            )
        ) from why
    if answer.facts["damaged"]:
        raise Fault(_("{path} is damaged: it can’t be read as a PDF.").format(path=path))
    if not answer.facts["ours"]:
        raise Untold(_(_UNLIKE).format(path=path))
    packet = replace(unpacked(path, content, answer, found), told=told)
    if RECORD not in packet.files or MANIFEST not in packet.files:
        raise Fault(
            _(
                "{path} is a PDF, but not a packet of Wellbook, or its attached files were taken "
                "out."
            ).format(path=path)
        )
    return packet


def _marks(path: Path, content: bytes) -> Marks:
    form = form_of(content)
    if form is not None and form > FILE_FORM:
        raise Fault(
            _("{path} was made by a newer Wellbook: install the newer one to read it.").format(
                path=path
            )
        )
    found = marks(content)
    if found is None:
        raise Untold(_(_FORMER if form == 1 else _UNLIKE).format(path=path))
    return found


def unpacked(path: Path, content: bytes, told: Parcel, found: Marks) -> Packet:
    """A packet of what was read in its file."""
    files, place = {}, 0
    for name, size in told.facts["files"]:
        files[str(name)] = told.content[place : place + size]
        place += size
    return Packet(
        path,
        content,
        told.facts["cover"],
        told.facts["text"],
        tuple(map(str, told.facts["pages"])),
        files,
        found,
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
            _("{path} can’t be read: {problem}.").format(path=path, problem=error.strerror)
        ) from error
    if not content.startswith(_PDF):
        raise Fault(_("{path} is not a PDF.").format(path=path))
    return content
