"""Checking a packet: do its files still belong together, and what does that prove."""

import csv
import hashlib
import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

from wellbook.book.journal import broken_links, replay
from wellbook.book.rows import Entry
from wellbook.book.writer import FIRST_DIGEST
from wellbook.packet.attachments import MANIFEST
from wellbook.packet.receive.packet_file import Packet, open_packet
from wellbook.pdf.sealing import check_code
from wellbook.sharing.formula_guard import restored
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

_NOT_SHOWN = N_(
    "No check can show that a lab’s figure is genuine or who made the packet: compare the "
    "originals, or ask the lab by its sample number."
)
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


class Outcome(StrEnum):
    """What came of looking at something."""

    HOLDS = "holds"
    FAILS = "fails"
    OPEN = "open"  # it can't be told from this packet


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was looked at, in plain words."""

    outcome: Outcome
    text: str


def verify(path: Path) -> tuple[Check, ...]:
    """Check a packet.

    Returns:
        What was looked at. The packet is whole if nothing of it fails.

    Raises:
        Fault: It can't be opened as a packet.
    """
    return checks(open_packet(path))


def checks(packet: Packet) -> tuple[Check, ...]:
    """The same of a packet that was opened.

    Raises:
        Fault: Its record can't be read.
    """
    record = packet.record()
    try:
        return (
            _seal(packet),
            _code(packet),
            *_files(packet),
            _printed(packet),
            _head(packet, record),
            _table(packet, record),
            *_originals(packet, record),
            _chain(record),
            Check(Outcome.OPEN, _(_NOT_SHOWN)),
        )
    except (KeyError, TypeError, AttributeError, ValueError, csv.Error) as error:
        raise Fault(
            _("The record in {path} can't be read: it is damaged.").format(path=packet.path.name)
        ) from error


def _seal(packet: Packet) -> Check:
    if packet.is_sealed:
        return Check(Outcome.HOLDS, _("The file is byte for byte as it was made."))
    return Check(
        Outcome.OPEN,
        _(
            "The file is not byte for byte as it was made: another program wrote it again, or "
            "somebody "
            "changed it. What can be told of its pages and files follows."
        ),
    )


def _code(packet: Packet) -> Check:
    """The code on the cover covers every page and every attached file that is listed."""
    code = check_code(packet.files[MANIFEST], packet.pages)
    if code in re.sub(r"\s", "", packet.cover):
        return Check(
            Outcome.HOLDS,
            _(
                "Check code {code}: every page and the list of attached files are those that it "
                "was "
                "made for. Compare it with the code that the household tells you."
            ).format(code=code),
        )
    return Check(
        Outcome.FAILS,
        _(
            "The check code on the cover is not that of these pages and files, which is {code}: a "
            "page was changed, added or taken out, or the list of files was."
        ).format(code=code),
    )


def _files(packet: Packet) -> Iterator[Check]:
    listed = {
        found[2]: found[1]
        for line in packet.files[MANIFEST].decode("utf-8", "replace").splitlines()
        if (found := _LINE.fullmatch(line))
    }
    for name, digest in sorted(listed.items()):
        if name not in packet.files:
            yield Check(
                Outcome.FAILS,
                _("{name} is listed among the attached files and is missing.").format(name=name),
            )
        elif hashlib.sha256(packet.files[name]).hexdigest() != digest:
            yield Check(
                Outcome.FAILS, _("{name} was changed after the packet was made.").format(name=name)
            )
    for name in sorted(packet.files.keys() - listed.keys() - {MANIFEST}):
        yield Check(
            Outcome.FAILS, _("{name} was put in after the packet was made.").format(name=name)
        )
    held = [name for name in listed if name in packet.files]
    outcome = Outcome.HOLDS if held else Outcome.FAILS
    n = len(held)
    said = ngettext(
        "{n} attached file carries the fingerprint listed for it.",
        "{n} attached files carry the fingerprints listed for them.",
        n,
    )
    yield Check(outcome, said.format(n=n))


def _printed(packet: Packet) -> Check:
    """The list's own fingerprint stands on a page, so that pages and files belong together."""
    digest = hashlib.sha256(packet.files[MANIFEST]).hexdigest()
    if digest in re.sub(r"\s", "", packet.text):
        return Check(
            Outcome.HOLDS, _("The pages name the fingerprint of the list of attached files.")
        )
    return Check(
        Outcome.FAILS,
        _("The pages name another list of attached files: they don’t belong together."),
    )


def _head(packet: Packet, record: dict[str, Any]) -> Check:
    head = str(record.get("head", ""))
    if head and head in re.sub(r"\s", "", packet.text):
        return Check(
            Outcome.HOLDS,
            _("Pages and record speak of the same state of the book ({head}).").format(
                head=head[:12]
            ),
        )
    return Check(Outcome.FAILS, _("Pages and record speak of different states of the book."))


def _table(packet: Packet, record: dict[str, Any]) -> Check:
    """Readings in the record and in the table of results are the same."""
    told = _readings(record)
    text = packet.files.get("results.csv", b"").decode("utf-8-sig")
    rows = csv.DictReader(io.StringIO(text, newline=""), strict=True)
    found = [(restored(row["printed_name"]), restored(row["reported"])) for row in rows]
    if sorted(told) == sorted(found):
        return Check(
            Outcome.HOLDS,
            _("Record and table of results hold the same {n} readings.").format(n=len(told)),
        )
    return Check(Outcome.FAILS, _("Record and table of results hold different readings."))


def _readings(record: dict[str, Any]) -> list[tuple[str, str]]:
    return [
        (str(one["name"]), str(one["reading"]["text"]))
        for sample in record["samples"]
        for one in sample["results"]
    ]


def _originals(packet: Packet, record: dict[str, Any]) -> Iterator[Check]:
    documents = {one.get("sha256"): one for one in record.get("documents", ())}
    with_file = [one for one in documents.values() if one.get("file")]
    for one in with_file:
        body = packet.files.get(str(one["file"]))
        if body is None or hashlib.sha256(body).hexdigest() != one["sha256"]:
            yield Check(
                Outcome.FAILS,
                _("The original {it} is missing or not what the book held.").format(it=one["file"]),
            )
    if with_file:
        yield Check(Outcome.HOLDS, _("{n} originals are attached.").format(n=len(with_file)))
    if without := len(documents) - len(with_file):
        yield Check(
            Outcome.OPEN,
            _("{without} originals of the book are not attached.").format(without=without),
        )


def _nothing_entered(record: dict[str, Any]) -> Check:
    """The first digest stands for a book without an entry; its record then holds nothing."""
    if any(record.get(kind) for kind in ("wells", "points", "samples", "documents", "events")):
        return Check(
            Outcome.FAILS, _("The record names the state of an empty book and is not empty.")
        )
    return Check(Outcome.HOLDS, _("Nothing was entered yet, so there is no journal to follow."))


def _chain(record: dict[str, Any]) -> Check:
    entries = record.get("journal") or []
    if not entries and record.get("head") == FIRST_DIGEST:
        return _nothing_entered(record)
    if not entries:
        return Check(
            Outcome.OPEN,
            _(
                "The journal is not in this packet, because it tells of people and of tests that "
                "are "
                "not in it: whether the book was ever edited outside Wellbook can’t be told from "
                "here."
            ),
        )
    chain = [Entry(**entry) for entry in entries]
    broken = list(broken_links(chain))
    if broken:
        return Check(
            Outcome.FAILS, _("The journal does not hold: {broken}").format(broken=broken[0])
        )
    if chain[-1].digest != record["head"]:
        return Check(Outcome.FAILS, _("The journal ends before the state that the record names."))
    kept = replay(chain).get("result", {}).values()
    if sorted((str(one["name"]), str(one["text"])) for one in kept) != sorted(_readings(record)):
        return Check(Outcome.FAILS, _("The journal tells of other readings than the record."))
    return Check(
        Outcome.HOLDS,
        _("The journal is whole: {n} entries, each tied to the one before.").format(n=len(chain)),
    )
