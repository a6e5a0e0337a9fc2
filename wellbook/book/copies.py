"""Copies of a book: made by SQLite itself, read back before they count, thinned out by age.

They lie in a folder beside the book, named after it and the day. A copy on the same disk helps
against mistakes, not against a broken disk; `on_same_disk` says which it is.
"""

import hashlib
import os
import re
import sqlite3
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book import journal, opening, reader
from wellbook.book.journal import Entry
from wellbook.book.schema import FACTS
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import (
    BOOK_HEAD,
    NotAFile,
    journal_beside,
    open_regular,
    sweep_left,
)

DAYS = 7  # how many of the latest days are kept whole; then one a month, then one a year
MONTHS = 12
_DATED = re.compile(r" (\d{4}-\d{2}-\d{2})\.wellbook$")


@dataclass(frozen=True, slots=True)
class Copy:
    """A dated copy of a book."""

    path: Path
    day: date


@dataclass(frozen=True, slots=True)
class Preview:
    """What going back to a copy would do to a book.

    Attributes:
        lost: Writes that are in the book and not in the copy.
        gained: Writes that are in the copy and not in the book.
        trouble: Why the book itself could not be read; empty if it could.
    """

    lost: tuple[Entry, ...]
    gained: tuple[Entry, ...]
    trouble: str = ""


def folder_of(book: Path) -> Path:
    """Where a book's own copies lie: `home.wellbook` keeps them in `home copies`."""
    return book.with_name(f"{book.stem} copies")


def copies_of(book: Path, folder: Path | None = None) -> list[Copy]:
    """The dated copies of a book, newest first."""
    found = []
    for path in (folder or folder_of(book)).glob("*.wellbook"):
        dated = _DATED.search(path.name)
        if dated and path.name == f"{book.stem} {dated[1]}.wellbook":
            found.append(Copy(path, date.fromisoformat(dated[1])))
    return sorted(found, key=lambda copy: copy.day, reverse=True)


def make_copy(book: Path, today: date, folder: Path | None = None) -> Path:
    """Copy a book into a folder under today's date, replacing today's older copy.

    The copy is written beside its place, read back, and only then put there.

    Raises:
        Fault: The folder can't be written, something that is no copy of this book lies in the
            place, or what was written does not read back the same.
    """
    target_folder = folder or folder_of(book)
    target = target_folder / f"{book.stem} {today.isoformat()}.wellbook"
    partial = _beside(target)
    is_new = not os.path.lexists(target_folder)
    try:
        target_folder.mkdir(exist_ok=True)
        sweep_left(target_folder)
        _drop_second_names(book)
        _require_older(book, target)
        if not target.exists():
            _put_journal_aside(target, _aside(target, today))
        partial.unlink(missing_ok=True)
        _vacuum_into(book, partial)
        _verify(book, partial)
        settle(partial)
        partial.replace(target)
        settle(target_folder)
    except OSError as error:
        raise Fault(
            _(
                "No copy of {book} could be made in {target_folder}: {problem}. "
                "Choose another folder for the copy."
            ).format(book=book.name, target_folder=target_folder, problem=error.strerror)
        ) from error
    finally:
        with suppress(OSError):
            partial.unlink(missing_ok=True)
        if is_new:
            with suppress(OSError):  # one that holds a copy is not empty, so it stays
                target_folder.rmdir()
    return target


def thin_out(book: Path, today: date) -> list[Path]:
    """Remove copies that newer ones stand for; returns those removed. One always stays."""
    copies = copies_of(book)
    kept = keep((copy.day for copy in copies), today)
    removed = [copy.path for copy in copies if copy.day not in kept]
    for path in removed:
        path.unlink()
    return removed


def keep(days: Iterable[date], today: date) -> set[date]:
    """Days whose copies stay: the last 7, the newest of 12 months, the newest of every year."""
    newest_first = sorted(days, reverse=True)
    kept = set(newest_first[:DAYS])
    months: dict[tuple[int, int], date] = {}
    years: dict[int, date] = {}
    for day in newest_first:
        age = (today.year - day.year) * 12 + today.month - day.month
        if age < MONTHS:
            months.setdefault((day.year, day.month), day)
        years.setdefault(day.year, day)
    return kept | set(months.values()) | set(years.values())


def preview(book: Path, copy: Path) -> Preview:
    """What would be lost and gained by going back to a copy.

    Raises:
        Fault: The copy is not a book, or can't be read.
    """
    theirs = _entries(copy)
    try:
        ours = _entries(book)
    except Fault as fault:
        return Preview((), tuple(theirs), str(fault))
    common = 0
    for one, other in zip(ours, theirs, strict=False):
        if one.digest != other.digest:
            break
        common += 1
    return Preview(tuple(ours[common:]), tuple(theirs[common:]))


def restore(book: Path, copy: Path, today: date) -> Path | None:
    """Put a copy in the place of a book; the book as it was is kept aside.

    Returns:
        Where the book as it was lies now; None if there was no file.

    Raises:
        Fault: The copy is damaged, another program is writing the book, or the folder can't be
            written. Nothing was changed then.
    """
    book = Path(os.path.realpath(book))  # through a link, the book that it leads to
    partial = _beside(book)
    try:
        is_there = _require_book_name(book)
        sweep_left(book.parent)
        _drop_second_names(book)
        aside = _aside(book, today)
        partial.unlink(missing_ok=True)
        _vacuum_into(copy, partial)
        _verify(copy, partial)
        settle(partial)
        with opening.held(book):
            if is_there:
                _put_aside(book, aside)
            else:
                _put_journal_aside(book, aside)
            try:
                partial.replace(book)
            except OSError:
                if is_there:
                    _take_back(aside, book)
                raise
        settle(book.absolute().parent)
        if aside.parent.is_dir():
            settle(aside.parent)
    except OSError as error:
        raise Fault(
            _("{book} could not be put back: {problem}.").format(book=book, problem=error.strerror)
        ) from error
    finally:
        with suppress(OSError):
            partial.unlink(missing_ok=True)
    return aside if is_there else None


def on_same_disk(one: Path, other: Path) -> bool:
    """Whether two places lie on one disk, as far as the system tells."""
    return one.stat().st_dev == other.stat().st_dev


def _put_aside(book: Path, aside: Path) -> None:
    """Give a book its place aside so that one lies in its own place at every moment.

    It bears two names until the other book takes its place; where a disk knows no second names, or
    a journal belongs to it, it is moved.
    """
    aside.parent.mkdir(exist_ok=True)
    if not journal_beside(book).exists():
        with suppress(OSError):
            os.link(book, aside)
            return
    _move(book, aside)


def _take_back(aside: Path, book: Path) -> None:
    if book.exists():
        aside.unlink()  # a second name of the same file
    else:
        _move(aside, book)


def _move(book: Path, target: Path) -> None:
    """Move a book together with the journal that a crash left beside it, which is part of it."""
    book.replace(target)
    try:
        _put_journal_aside(book, target)
    except OSError:
        target.replace(book)
        raise


def _put_journal_aside(book: Path, aside: Path) -> None:
    """Move a journal that a crash left: SQLite would play it into the next file of that name."""
    left = journal_beside(book)
    if left.exists():
        aside.parent.mkdir(exist_ok=True)
        left.replace(journal_beside(aside))


def _drop_second_names(book: Path) -> None:
    """Take away names aside that going back gave a book and was ended before the other one came."""
    if not book.is_file() or book.stat().st_nlink == 1:
        return
    for path in folder_of(book).glob("* set aside *.wellbook"):
        if path.samefile(book):
            path.unlink()


def _beside(target: Path) -> Path:
    """Where a copy is written before it takes its place: nobody's file, and no longer a name."""
    mark = hashlib.sha256(os.fsencode(target.name)).hexdigest()[:16]
    return target.with_name(f".wellbook-{mark}.partial")


def _require_book_name(book: Path) -> bool:
    """Whether something lies in the place of a book; a damaged one bears at least its name.

    Raises:
        Fault: It is no book.
    """
    if not os.path.lexists(book):
        return False
    try:
        with open_regular(book) as file:
            head = file.read(len(BOOK_HEAD))
    except NotAFile as found:
        raise Fault(
            _("{book} is {found}, not a book: nothing was changed.").format(
                book=book, found=found.what
            )
        ) from None
    if head != BOOK_HEAD and book.suffix.lower() != ".wellbook":
        raise Fault(_("{book} is not a book: nothing is put in its place.").format(book=book))
    return True


def _require_older(book: Path, target: Path) -> None:
    """Let a copy replace only an earlier copy of the same book.

    Raises:
        Fault: Something else lies there.
    """
    if not os.path.lexists(target):
        return
    advice = _("Choose another folder for the copy, or move that file away.")
    if target.is_symlink() or not target.is_file():
        raise Fault(
            _("{target} is no copy of a book, so nothing is written over it. {advice}").format(
                target=target, advice=advice
            )
        )
    try:
        pairs = zip(_entries(target), _entries(book), strict=False)
    except Fault as fault:
        raise Fault(
            _("No copy of {book} could be made: {fault} {advice}").format(
                book=book.name, fault=fault, advice=advice
            )
        ) from fault
    if any(one.digest != other.digest for one, other in pairs):
        raise Fault(
            _("{target} is a copy of another book, so nothing is written over it. {advice}").format(
                target=target, advice=advice
            )
        )


def _aside(book: Path, today: date) -> Path:
    folder = folder_of(book)
    number = 1
    while True:
        path = folder / f"{book.stem} {today.isoformat()} set aside {number}.wellbook"
        if not path.exists() and not journal_beside(path).exists():
            return path
        number += 1


def _entries(path: Path) -> list[Entry]:
    connection = _connected(path)
    try:
        with opening.faults(path):
            return list(reader.entries(connection))
    finally:
        connection.close()


def _connected(path: Path) -> sqlite3.Connection:
    connection, _unused = opening.connect(path, readonly=True)
    try:
        opening.require_own_tables(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


def _vacuum_into(source: Path, target: Path) -> None:
    connection = _connected(source)
    try:
        with opening.faults(target):
            connection.execute("PRAGMA query_only = OFF")
            # As bytes: the name of a folder may be no text that Python can encode.
            name = os.fsencode(target.absolute())
            connection.execute("VACUUM INTO CAST(? AS TEXT)", (name,))
    finally:
        connection.close()


def _verify(source: Path, copy: Path) -> None:
    """Read a copy back: whole, with as many rows of each kind, and the same journal."""
    if _account(source) != (account := _account(copy)) or account[0] != ["ok"]:
        raise Fault(
            _("The copy of {source} did not read back the same; it was not kept.").format(
                source=source.name
            )
        )


def _account(path: Path) -> tuple[list[str], list[int], list[str], str]:
    connection = _connected(path)
    try:
        with opening.faults(path):
            return _account_of(connection)
    finally:
        connection.close()


def _account_of(connection: sqlite3.Connection) -> tuple[list[str], list[int], list[str], str]:
    whole = [row[0] for row in connection.execute("PRAGMA integrity_check")]
    known = {
        row[0] for row in connection.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")
    }
    counts = [
        connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
        for table in (*FACTS, "document_body", "journal")
        if table in known  # an older book lacks those of later versions
    ]
    entries = list(reader.entries(connection))
    head = entries[-1].digest if entries else ""
    return whole, counts, list(journal.broken_links(entries)), head


def settle(path: Path) -> None:
    """Ask the system to write a file or folder to the disk; folders can't be on every system."""
    flags = os.O_RDONLY if path.is_dir() else os.O_RDWR
    try:
        handle = os.open(path, flags)
    except PermissionError:
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
