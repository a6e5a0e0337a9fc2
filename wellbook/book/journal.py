"""Reading the journal back: is it whole, what can be taken back, does the record agree with it."""

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from wellbook.book.writer import FIRST_DIGEST, Row, digest_of
from wellbook.support.translation import _

Record = dict[str, dict[int, Row]]  # table, row number, columns that are not empty


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry of the journal: one write, whole.

    Attributes:
        seq: Number, without gaps.
        at: UTC time, ISO 8601.
        action: What was done, e.g. `add a sample`, `strike out a sample`, `correct a result`.
        reason: The reason given, or empty.
        undoes: Number of the entry that this one takes back, or None.
        changes: JSON list of `[table, row, before, after]`; before is null for a new row.
        digest: SHA-256 over the previous entry's digest and this entry.
    """

    seq: int
    at: str
    action: str
    reason: str
    undoes: int | None
    changes: str
    digest: str


@dataclass(frozen=True, slots=True)
class Step:
    """What taking back, or entering again, would do next.

    Attributes:
        seq: Number of the entry that would be reversed.
        cause: The write that it goes back to.
    """

    seq: int
    cause: Entry


def to_undo(entries: Sequence[Entry]) -> Entry | None:
    """The last write that stands, or None."""
    standing, _unused = _stacks(entries)
    return standing[-1] if standing else None


def to_redo(entries: Sequence[Entry]) -> Entry | None:
    """The undoing that was made last and not followed by a new write, or None."""
    undone = all_to_redo(entries)
    return undone[-1] if undone else None


def all_to_redo(entries: Sequence[Entry]) -> list[Entry]:
    """Every undoing that no new write followed; the one that comes first up stands last."""
    _unused, undone = _stacks(entries)
    return undone


def first_cause(entries: Sequence[Entry], entry: Entry) -> Entry:
    """The write that an undoing, or the undoing of an undoing, goes back to."""
    by_seq = {one.seq: one for one in entries}
    while entry.undoes is not None:
        entry = by_seq[entry.undoes]
    return entry


def _stacks(entries: Sequence[Entry]) -> tuple[list[Entry], list[Entry]]:
    """Writes that stand, and undoings that can be taken back; the last of each comes first up."""
    by_seq = {entry.seq: entry for entry in entries}
    standing: list[Entry] = []
    undone: list[Entry] = []
    for entry in entries:
        if entry.undoes is None:
            standing.append(entry)
            undone.clear()
        elif by_seq[entry.undoes] in standing:
            standing.remove(by_seq[entry.undoes])
            undone.append(entry)
        else:
            undone.remove(by_seq[entry.undoes])
            standing.append(entry)
    return standing, undone


def broken_links(entries: Iterable[Entry]) -> Iterator[str]:
    """What is wrong with the chain, in words; nothing if it is whole."""
    previous = FIRST_DIGEST
    for expected, entry in enumerate(entries, start=1):
        if entry.seq != expected:
            yield _("Entry {expected} of the journal is missing.").format(expected=expected)
            return
        if digest_of(previous, _told(entry)) != entry.digest:
            yield _("Entry {seq} of the journal ({action}, {at}) was altered.").format(
                seq=entry.seq, action=entry.action, at=entry.at
            )
        previous = entry.digest


def unbroken(entries: Iterable[Entry]) -> Iterator[Entry]:
    """The entries up to the first that is missing or altered."""
    previous = FIRST_DIGEST
    for expected, entry in enumerate(entries, start=1):
        if entry.seq != expected or digest_of(previous, _told(entry)) != entry.digest:
            return
        yield entry
        previous = entry.digest


def _told(entry: Entry) -> dict[str, object]:
    return {
        "seq": entry.seq,
        "at": entry.at,
        "action": entry.action,
        "reason": entry.reason,
        "undoes": entry.undoes,
        "changes": entry.changes,
    }


def replay(entries: Sequence[Entry]) -> Record:
    """The record as the journal tells it: every fact that stands after the last entry."""
    record: Record = {}
    for entry in entries:
        for table, number, before, after in json.loads(entry.changes):
            rows = record.setdefault(table, {})
            if after is None:
                rows.pop(number, None)
            elif before is None:
                rows[number] = after
            else:
                rows[number] = kept({**rows.get(number, {}), **after})
    return {table: rows for table, rows in record.items() if rows}


def differences(told: Record, found: Record) -> Iterator[str]:
    """Facts in the tables that are not what the journal tells, row by row."""
    for table in sorted(told.keys() | found.keys()):
        ours, theirs = told.get(table, {}), found.get(table, {})
        for number in sorted(ours.keys() | theirs.keys()):
            row = _("row {number} of {table}").format(number=number, table=table)
            if number not in theirs:
                yield _("{row} was removed outside Wellbook; it held {words}.").format(
                    row=row, words=_words(ours[number])
                )
            elif number not in ours:
                yield _("{row} was added outside Wellbook: {words}.").format(
                    row=row, words=_words(theirs[number])
                )
            elif ours[number] != theirs[number]:
                before = {k: v for k, v in ours[number].items() if theirs[number].get(k) != v}
                after = {k: v for k, v in theirs[number].items() if ours[number].get(k) != v}
                yield _("{row} was changed outside Wellbook: {words} became {words2}.").format(
                    row=row,
                    words=_words(before) or _("nothing"),
                    words2=_words(after) or _("nothing"),
                )


def kept(row: Row) -> Row:
    """The columns that are not empty."""
    return {key: value for key, value in row.items() if value not in ("", None)}


def _words(row: Row) -> str:
    return ", ".join(f"{key} {value}" for key, value in row.items() if key != "id")
