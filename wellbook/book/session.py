"""An open book: opening, bringing it up to date, closing, and the frame of every write."""

import json
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, date, datetime
from pathlib import Path
from types import TracebackType
from typing import Self

from wellbook.book import journal, opening, reader
from wellbook.book.journal import Entry, Step
from wellbook.book.readings import ReadBook
from wellbook.book.schema import VERSION
from wellbook.book.writer import Writer, readers, writing
from wellbook.support.errors import Fault
from wellbook.support.translation import _

# What no value of a whole book raises.
_BY_DAMAGE = (
    LookupError,
    ValueError,
    TypeError,
    AttributeError,
    ArithmeticError,
    AssertionError,
    RecursionError,
    sqlite3.Error,
)
_LONGEST = 300  # letters of what is wrong, in one sentence


def _now() -> datetime:
    return datetime.now(UTC)


def _identity(path: Path) -> tuple[int, int] | None:
    """Which file lies there: device and number; None if there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


class OpenBook(ReadBook):
    """A file that is open, with the frame in which every write of it happens.

    Attributes:
        is_readonly: Whether the file can only be read here.
        copy_trouble: Why the day's copy could not be made; empty if it could.
        before_new: Called before a new write ends what can be entered again, with what that is;
            a `Fault` of it keeps the write from being made.
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
        self._is_beside = False  # opened once more
        self.copy_trouble = ""
        self.before_new: Callable[[Sequence[Step]], None] = lambda _undone: None

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
        if opening.is_older(connection):
            if is_readonly:
                connection = opening.in_memory(connection, path)
            else:
                connection.close()
                _migrate(path, now().astimezone().date())
                connection, is_readonly = opening.connect(path)
        try:
            opening.require_own_tables(connection, path)
        except BaseException:
            connection.close()
            raise
        return cls(connection, path, is_readonly=is_readonly, now=now)

    def why_readonly(self) -> str:
        """Why nothing can be written here; empty if it can."""
        if not self.is_readonly:
            return ""
        version = self._connection.execute("PRAGMA user_version").fetchone()[0]
        if version > VERSION:
            return _(
                "{path} was written by a newer Wellbook: it can be read, not changed. "
                "Install the newer Wellbook to go on."
            ).format(path=self.path)
        return _("{path} is open for reading only: nothing can be changed.").format(path=self.path)

    def was_changed_elsewhere(self) -> bool:
        """Whether somebody else wrote the file since it was opened or last asked about.

        Raises:
            Fault: The file is gone, or another one lies in its place.
        """
        self.require_in_place()
        version = self._data_version()
        changed, self._seen = version != self._seen, version
        return changed

    @property
    def is_in_place(self) -> bool:
        """Whether the file that was opened still lies where it was opened."""
        return self._identity == _identity(self.path)

    def require_in_place(self) -> None:
        """Make sure that the file was not moved, removed or replaced since it was opened.

        Raises:
            Fault: It was; what is read or written by its path would be another household's.
        """
        if not self.is_in_place:
            lies = _("another file lies in its place") if self.path.exists() else _("it is gone")
            raise Fault(
                _(
                    "{path} was moved or replaced while it was open: {lies}. Nothing was "
                    "written and nothing handed over; what you see was read before. Close the book "
                    "and open it again, or go back to one of its copies."
                ).format(path=self.path, lies=lies)
            )

    def again(self, *, readonly: bool = True) -> Self:
        """Open the same file once more: a connection belongs to the thread that made it.

        Raises:
            Fault: Another file lies in its place, or it can't be opened.
        """
        self.require_in_place()
        book = type(self).open(self.path, readonly=readonly, now=self._now)
        book._is_beside = True  # noqa: SLF001  of its own class
        readers.stays(self.path)
        if not self.is_in_place:  # replaced between the question and the opening
            book.close()
            self.require_in_place()
        return book

    def close(self) -> None:
        """Close the file. The book can't be used after that."""
        self._connection.close()
        if self._is_beside:
            self._is_beside = False
            readers.leaves(self.path)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Close the file; what a damaged book made go wrong is said to be its damage.

        Raises:
            Fault: Something failed that fails in no whole book, and this one is damaged.
        """
        try:
            if isinstance(error, _BY_DAMAGE):
                self._blame_damage(error)
        finally:
            self.close()

    def _blame_damage(self, error: Exception) -> None:
        from wellbook.book.check import damage

        found = next(damage(self._connection), None)
        if found is not None:
            said = " ".join(found.text.split())[:_LONGEST]
            raise Fault(
                _(
                    "{path} is damaged: {said} See 'wellbook check', then go back to a copy with "
                    "'wellbook restore', or save what can be read with 'wellbook rescue'."
                ).format(path=self.path, said=said)
            ) from error

    @contextmanager
    def together(self, as_one: str = "") -> Iterator[None]:
        """Make several writes one transaction: all of them are kept, or none. It may be nested.

        Args:
            as_one: What they are together, if they are to be one entry, undone as one.
        """
        with self._writing() as writer:
            before, self._outer = self._outer, writer
            writer.as_one = writer.as_one or as_one
            try:
                yield
            finally:
                self._outer = before
            if before is None and writer.as_one:
                action, writer.as_one = writer.as_one, ""
                writer.note(action)

    def undo(self) -> str:
        """Take back the last write that stands; returns what it was, empty if there is none."""
        return self._take_back(journal.to_undo)

    def redo(self) -> str:
        """Do again what was last taken back; returns what it was, empty if there is none."""
        return self._take_back(journal.to_redo)

    def ask_before_new(self) -> None:
        """Have it asked whether a new write may end what can be entered again.

        Raises:
            Fault: It was asked, and is not yet answered.
        """
        undone = self.to_redo()
        if undone:
            self.before_new(undone)

    def _take_back(self, choose: Callable[[Sequence[Entry]], Entry | None]) -> str:
        with self._writing(blind=False, is_new=False) as writer:
            entries = list(reader.entries(self._connection))
            entry = choose(entries)
            if entry is None:
                return ""
            writer.reverse(json.loads(entry.changes))
            done = journal.first_cause(entries, entry)
            verb = "undo" if entry.undoes is None else "redo"
            writer.note(f"{verb}: {done.action}", undoes=entry.seq)
        return done.action

    def _data_version(self) -> int:
        return int(self._connection.execute("PRAGMA data_version").fetchone()[0])

    def _copy_first(self) -> None:
        """At the first change of a day, keep a copy of what the days before have left."""
        today = self._now().astimezone().date()
        last = self.journal_day()
        if last is None or last >= today:
            return
        from wellbook.book import copies

        try:
            copies.make_copy(self.path, today)
            copies.thin_out(self.path, today)
            self.copy_trouble = ""
        except Fault as fault:
            self.copy_trouble = str(fault)

    @contextmanager
    def _writing(self, *, blind: bool = True, is_new: bool = True) -> Iterator[Writer]:
        """One write. One that rests on what a person saw before is not `blind`.

        One that is `new` ends what could be entered again.
        """
        if self._outer is not None:
            yield self._outer
            return
        if self.is_readonly:
            raise Fault(self.why_readonly())
        if is_new:
            self.ask_before_new()
        with opening.faults(self.path):
            self.require_in_place()
            self._copy_first()
        with opening.faults(self.path), writing(self._connection, self.path, self._now) as writer:
            # Asked inside the transaction, so that nobody can write between question and answer.
            if self.was_changed_elsewhere() and not blind:
                raise Fault(
                    _(
                        "{path} was changed by another window or program since you looked: look "
                        "at it again, then do it once more. Nothing was changed."
                    ).format(path=self.path)
                )
            yield writer


def _migrate(path: Path, today: date) -> None:
    """Bring the file up to date: all steps in one transaction, after a copy of it was checked.

    Raises:
        Fault: The copy or a step failed; the file is as it was.
    """
    from wellbook.book import copies

    copies.make_copy(path, today)
    connection, _unused = opening.connect(path)
    try:
        opening.bring_up(connection)
    except (sqlite3.Error, UnicodeDecodeError) as error:
        raise Fault(
            _(
                "{path} is of an older version and could not be brought up to date: it is as it "
                "was. "
                "A copy lies in {folder_of}. Open it with the older Wellbook."
            ).format(path=path, folder_of=copies.folder_of(path))
        ) from error
    finally:
        connection.close()
