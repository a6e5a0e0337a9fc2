"""Checking a packet: does it agree with itself, is it the file whose code was told.

Nothing in a file can show who made it: whoever remakes the whole of it can make every part agree.
So only a code that was told by another way, and is the one of these bytes, is said to hold.
"""

import csv
import hashlib
import io
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path
from typing import Any

from wellbook.book.journal import Entry, broken_links, replay
from wellbook.book.writer import FIRST_DIGEST
from wellbook.packet import words
from wellbook.packet.attachments import MANIFEST
from wellbook.packet.receive.packet_file import Packet, Untold, open_packet
from wellbook.pdf.sealing import CODE_SHAPE, same_code
from wellbook.sharing.formula_guard import restored
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

_NOT_SHOWN = N_(
    "No check can show that a lab’s figure is genuine or who made the packet: compare the "
    "originals, or ask the lab by its sample number."
)
_CODES = re.compile(rf"\b{CODE_SHAPE.decode()}\b")
_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


class Outcome(StrEnum):
    """What came of looking at something."""

    HOLDS = "holds"  # it was compared with what somebody told by another way
    AGREES = "agrees"  # the file agrees with itself, as one that was made anew whole would
    FAILS = "fails"
    OPEN = "open"  # it can't be told from this packet


@dataclass(frozen=True, slots=True)
class Check:
    """One thing that was looked at, in plain words.

    Attributes:
        is_whole: Whether it speaks of the whole file, so that it can't be gone on from.
    """

    outcome: Outcome
    text: str
    is_whole: bool = False

    @property
    def said(self) -> str:
        """What came of it, and what was looked at."""
        outcome = {
            Outcome.HOLDS: _("Holds"),
            Outcome.AGREES: _("Agrees with itself"),
            Outcome.FAILS: _("Fails"),
            Outcome.OPEN: _("Can’t be told"),
        }[self.outcome]
        return _("{outcome}: {what}").format(outcome=outcome, what=self.text)


def verify(path: Path, told: str = "") -> tuple[Check, ...]:
    """Check a packet.

    Args:
        path: Where it lies.
        told: The check code that the household told by another way; empty if it was not asked.

    Returns:
        What was looked at. The packet can be gone on from if `stands` says so.

    Raises:
        Fault: It can't be opened.
    """
    try:
        packet = open_packet(path, told=told)
    except Untold as why:
        return (Check(Outcome.OPEN, str(why), is_whole=True),)
    return checks(packet)


def stands(found: Sequence[Check]) -> bool:
    """Whether nothing fails, and it could be told."""
    return not any(one.outcome is Outcome.FAILS or one.is_whole for one in found)


def checks(packet: Packet) -> tuple[Check, ...]:
    """The same of a packet that was opened.

    Raises:
        Fault: Its record can't be read.
    """
    record = packet.record()
    try:
        return (
            _code(packet),
            _seal(packet),
            _pages(packet),
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
            _("The record in {path} can’t be read: it is damaged.").format(path=packet.path.name)
        ) from error


def _seal(packet: Packet) -> Check:
    if packet.marks.is_sealed:
        return Check(
            Outcome.AGREES,
            _(
                "The file’s own fingerprint fits its bytes, so it was not damaged on its way. "
                "Whoever changes a file on purpose can renew it."
            ),
        )
    return Check(
        Outcome.FAILS,
        _(
            "The file’s own fingerprint does not fit its bytes: it was damaged on its way, or "
            "changed."
        ),
    )


def _code(packet: Packet) -> Check:
    """The code is made of every byte of the file; it shows something only if it is compared."""
    code, told = packet.marks.code, packet.told.strip()
    if set(_CODES.findall(packet.cover)) != {code}:
        return Check(
            Outcome.FAILS,
            _(
                "The check code on the first page is not that of this file, which is {code}: the "
                "file was changed after it was made."
            ).format(code=code),
        )
    if not told:
        return Check(
            Outcome.OPEN,
            _(
                "Check code {code} stands on the first page and is that of all bytes of this file. "
                "Whoever changes a file can work out a new one: compare it with the code that the "
                "household tells you, on the telephone for example."
            ).format(code=code),
        )
    if same_code(told, code):
        return Check(
            Outcome.HOLDS,
            _(
                "The code that you were told is that of all bytes of this file, {code}: it is, "
                "byte for byte, the file of that code."
            ).format(code=code),
        )
    return Check(
        Outcome.FAILS,
        _(
            "The code of this file is {code}, not the one that you were told ({told}): it is "
            "another file than the one the household speaks of."
        ).format(code=code, told=told),
    )


def _pages(packet: Packet) -> Check:
    """Pages, bookmarks and properties are those whose fingerprints travel along."""
    told = packet.files.get(words.NAME, b"")
    if not words.is_whole(told):
        changed = _("{name} was changed after the packet was made.").format(name=words.NAME)
        return Check(Outcome.FAILS, changed)
    named = words.fingerprints(told)
    if named == list(packet.pages):
        n = len(named) - 1
        said = ngettext(
            "{n} page, the bookmarks and the properties bear the fingerprints that travel along.",
            "{n} pages, the bookmarks and the properties bear the fingerprints that travel along.",
            n,
        )
        return Check(Outcome.AGREES, said.format(n=n))
    other = [
        n for n, pair in enumerate(zip(named, packet.pages, strict=False), 1) if len({*pair}) > 1
    ]
    if len(named) != len(packet.pages) or other == [len(named)]:
        return Check(
            Outcome.FAILS,
            _("Pages, bookmarks or properties are not those whose fingerprints travel along."),
        )
    return Check(
        Outcome.FAILS,
        _("These pages are not those whose fingerprints travel along: {numbers}.").format(
            numbers=", ".join(str(n) for n in other if n < len(named))
        ),
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
    for name in sorted(packet.files.keys() - listed.keys() - {MANIFEST, words.NAME}):
        yield Check(
            Outcome.FAILS, _("{name} was put in after the packet was made.").format(name=name)
        )
    held = [name for name in listed if name in packet.files]
    outcome = Outcome.AGREES if held else Outcome.FAILS
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
            Outcome.AGREES, _("The pages name the fingerprint of the list of attached files.")
        )
    return Check(
        Outcome.FAILS,
        _("The pages name another list of attached files: they don’t belong together."),
    )


def _head(packet: Packet, record: dict[str, Any]) -> Check:
    head = str(record.get("head", ""))
    if head and head in re.sub(r"\s", "", packet.text):
        return Check(
            Outcome.AGREES,
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
            Outcome.AGREES,
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
        yield Check(Outcome.AGREES, _("{n} originals are attached.").format(n=len(with_file)))
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
    return Check(Outcome.AGREES, _("Nothing was entered yet, so there is no journal to follow."))


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
        Outcome.AGREES,
        _("The journal is whole: {n} entries, each tied to the one before.").format(n=len(chain)),
    )
