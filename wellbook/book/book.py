"""The book: the only door to a household's record."""

import json
import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Self, Unpack, cast

from wellbook.book import copies, journal, migrating, opening, queries
from wellbook.book.fields import LabFields, PlanFields, UnitFields, WellFields
from wellbook.book.record import Record
from wellbook.book.rows import (
    Entry,
    NewDocument,
    NewResult,
    NewSample,
)
from wellbook.book.samples import add_sample, attach, lab_number, result_row
from wellbook.book.schema import VERSION
from wellbook.book.writing import Row, Writer, writing
from wellbook.faults import Fault


def _now() -> datetime:
    return datetime.now(UTC)


def _identity(path: Path) -> tuple[int, int] | None:
    """Which file lies there: device and number; None if there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _row(given: Mapping[str, object]) -> Row:
    return cast("Row", dict(given))


class Book(Record):
    """One household's record, open for reading and, unless `is_readonly`, for writing.

    Reading is inherited from `Record`. Every method below the line "Writing" is one transaction:
    it is kept whole, with its entry in the journal, when the call returns, and leaves no trace
    when it raises.

    Attributes:
        is_readonly: Whether the file can only be read here.
        copy_trouble: Why the day's copy could not be made; empty if it could.
    """

    def __init__(
        self,
        connection: sqlite3.Connection,
        path: Path,
        *,
        is_readonly: bool = False,
        now: Callable[[], datetime] = _now,
    ) -> None:
        super().__init__(connection, path)
        self.is_readonly = is_readonly
        self._now = now
        self._outer: Writer | None = None
        self._seen = self._data_version()
        self._identity = _identity(path)
        self.copy_trouble = ""

    @classmethod
    def create(cls, path: Path, *, now: Callable[[], datetime] = _now) -> Self:
        """Make an empty book.

        Raises:
            Fault: A file is there already, or the folder can't be written.
        """
        return cls(opening.create(path), path, now=now)

    @classmethod
    def open(
        cls, path: Path, *, readonly: bool = False, now: Callable[[], datetime] = _now
    ) -> Self:
        """Open an existing book.

        Raises:
            Fault: The file is missing, not a book, damaged, or can't be opened.
        """
        connection, is_readonly = opening.connect(path, readonly=readonly)
        if migrating.is_older(connection):
            if is_readonly:
                connection = migrating.in_memory(connection)
            else:
                connection.close()
                migrating.migrate(path, now().astimezone().date())
                connection, is_readonly = opening.connect(path)
        return cls(connection, path, is_readonly=is_readonly, now=now)

    def was_changed_elsewhere(self) -> bool:
        """Whether somebody else wrote the file since it was opened or last asked about.

        Raises:
            Fault: The file is gone, or another one lies in its place.
        """
        if self._identity != (now := _identity(self.path)):
            lies = "another file lies in its place" if now else "it is gone"
            raise Fault(
                f"{self.path} was moved or replaced while it was open: {lies}. Nothing was "
                "written. Close the book and open it again."
            )
        version = self._data_version()
        changed, self._seen = version != self._seen, version
        return changed

    def close(self) -> None:
        """Close the file. The book can't be used after that."""
        self._connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    # Writing

    @contextmanager
    def together(self) -> Iterator[None]:
        """Make several writes one transaction: all of them are kept, or none."""
        with self._writing() as writer:
            self._outer = writer
            try:
                yield
            finally:
                self._outer = None

    def add_well(self, name: str, **more: Unpack[WellFields]) -> int:
        """Add a well, with its construction log if known; returns its number."""
        construction = more.pop("construction", {})
        with self._writing() as writer:
            well = writer.insert("well", {"name": name, **_row(more)})
            writer.insert_all(
                "construction",
                [{"well": well, "item": item, "text": text} for item, text in construction.items()],
            )
            writer.note("add a well")
        return well

    def add_point(
        self, well: int, name: str, *, treated: bool = False, place: int = 1, note: str = ""
    ) -> int:
        """Add a sampling point to a well; returns its number."""
        row: Row = {
            "well": well,
            "name": name,
            "treated": int(treated),
            "place": place,
            "note": note,
        }
        return self._add("point", row, "add a point")

    def add_unit(self, well: int, name: str, **more: Unpack[UnitFields]) -> int:
        """Add a treatment unit to a well; returns its number."""
        row: Row = {"well": well, "name": name, "place": 1, **_row(more)}
        return self._add("treatment_unit", row, "add a treatment unit")

    def add_service(
        self, unit: int, kind: str, day: str, *, until: str = "", text: str = ""
    ) -> int:
        """Add what was done to a treatment unit, or a bypass of it; returns its number."""
        row: Row = {"unit": unit, "kind": kind, "day": day, "until": until, "text": text}
        return self._add("service", row, "add a service")

    def add_lab(self, name: str, **more: Unpack[LabFields]) -> int:
        """Add a lab, or complete one that is known by name; returns its number."""
        with self._writing() as writer:
            lab = lab_number(writer, name)
            writer.update("lab", lab, _row(more))
            writer.note("add a lab")
        return lab

    def add_event(
        self,
        well: int,
        kind: str,
        day: str,
        *,
        until: str = "",
        text: str = "",
        private: bool = False,
    ) -> int:
        """Add an event to a well; returns its number."""
        row: Row = {
            "well": well,
            "kind": kind,
            "day": day,
            "until": until,
            "text": text,
            "private": int(private),
        }
        return self._add("event", row, "add an event")

    def set_plan(self, point: int, panel: str, months: int, **more: Unpack[PlanFields]) -> None:
        """Say how often a panel is to be tested at a point."""
        with self._writing() as writer:
            found = self._connection.execute(
                "SELECT id FROM plan WHERE point = ? AND panel = ?", (point, panel)
            ).fetchone()
            if found:
                writer.update("plan", found[0], {"months": months, **_row(more)})
            else:
                writer.insert(
                    "plan", {"point": point, "panel": panel, "months": months, **_row(more)}
                )
            writer.note("plan a panel")

    def set_setting(self, key: str, value: str) -> None:
        """Keep a choice of the household."""
        with self._writing() as writer:
            found = self._connection.execute(
                "SELECT id FROM setting WHERE key = ?", (key,)
            ).fetchone()
            if found:
                writer.update("setting", found[0], {"value": value})
            else:
                writer.insert("setting", {"key": key, "value": value})
            writer.note("change a setting")

    def add_sample(self, sample: NewSample) -> int:
        """Keep a sample with all its results and documents; returns its number."""
        return self.add_samples([sample])[0]

    def add_samples(self, samples: Sequence[NewSample]) -> list[int]:
        """Keep several samples, all of them or none; returns their numbers in order."""
        with self._writing() as writer:
            return [add_sample(writer, sample) for sample in samples]

    def add_document(self, document: NewDocument, *, sample: int = 0, well: int = 0) -> int:
        """Keep a document beside a sample or a well; the same content is kept once."""
        with self._writing() as writer:
            number = attach(writer, document, sample=sample or None, well=well or None)
            writer.note("add a document")
        return number

    def strike_sample(self, number: int, reason: str) -> None:
        """Mark a sample as not to be counted; it stays in the book with the reason."""
        if not reason.strip():
            raise Fault("A test is struck out with a reason: say why it is not to be counted.")
        with self._writing(blind=False) as writer:
            writer.update("sample", number, {"struck": reason.strip()})
            writer.note("strike out a sample", reason.strip())

    def restore_sample(self, number: int, reason: str = "") -> None:
        """Count a struck sample again."""
        with self._writing(blind=False) as writer:
            writer.update("sample", number, {"struck": ""})
            writer.note("count a sample again", reason)

    def correct_result(self, number: int, new: NewResult, reason: str) -> None:
        """Correct what was entered for a result; the first entry stays in the journal."""
        if not reason.strip():
            raise Fault("A correction is made with a reason: say what was wrong.")
        with self._writing(blind=False) as writer:
            row = result_row(writer, new)
            writer.update("result", number, row)
            writer.note("correct a result", reason.strip())

    def undo(self) -> str:
        """Take back the last write that stands; returns what it was, empty if there is none."""
        return self._take_back(journal.to_undo)

    def redo(self) -> str:
        """Do again what was last taken back; returns what it was, empty if there is none."""
        return self._take_back(journal.to_redo)

    # Inside

    def _take_back(self, choose: Callable[[Sequence[Entry]], Entry | None]) -> str:
        with self._writing(blind=False) as writer:
            entries = list(queries.entries(self._connection))
            entry = choose(entries)
            if entry is None:
                return ""
            writer.reverse(json.loads(entry.changes))
            done = journal.first_cause(entries, entry)
            verb = "undo" if entry.undoes is None else "redo"
            writer.note(f"{verb}: {done.action}", undoes=entry.seq)
        return done.action

    def _add(self, table: str, row: Row, action: str) -> int:
        with self._writing() as writer:
            number = writer.insert(table, row)
            writer.note(action)
        return number

    def _data_version(self) -> int:
        return int(self._connection.execute("PRAGMA data_version").fetchone()[0])

    def _copy_first(self) -> None:
        """At the first change of a day, keep a copy of what the days before have left."""
        today = self._now().astimezone().date()
        last = self.journal_day()
        if last is None or last >= today:
            return
        try:
            copies.make_copy(self.path, today)
            copies.thin_out(self.path, today)
            self.copy_trouble = ""
        except Fault as fault:
            self.copy_trouble = str(fault)

    @contextmanager
    def _writing(self, *, blind: bool = True) -> Iterator[Writer]:
        """One write. One that rests on what a person saw before is not `blind`."""
        if self._outer is not None:
            yield self._outer
            return
        if self.is_readonly:
            version = self._connection.execute("PRAGMA user_version").fetchone()[0]
            raise Fault(
                f"{self.path} was written by a newer Wellbook: it can be read, not changed. "
                "Install the newer Wellbook to go on."
                if version > VERSION
                else f"{self.path} is open for reading only: nothing was changed."
            )
        with opening.faults(self.path):
            changed = self.was_changed_elsewhere()
            if changed and not blind:
                raise Fault(
                    f"{self.path} was changed by another window or program since you looked: look "
                    "at it again, then do it once more. Nothing was changed."
                )
            self._copy_first()
        with opening.faults(self.path), writing(self._connection, self._now) as writer:
            yield writer
