"""Opening a book: is it one, can it be written, and what to say when not.

Rollback journal with `synchronous=EXTRA`: a commit survives a power cut as far as the disk keeps
its word, and a closed book is one file. A book is always opened read-write if that is possible,
because only then a journal left behind by a crash is rolled back; `immutable` is never used.
"""

import hashlib
import os
import re
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path

from wellbook.book.schema import APPLICATION_ID, STEPS, TABLES_DIGEST, VERSION
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _
from wellbook.support.whole_file import (
    BOOK_HEAD,
    NotAFile,
    open_regular,
    require_free,
    too_many_open,
)

_LENGTH = re.compile(r"length\((\w+)\) BETWEEN (\d+) AND (\d+)")
_LEAST_SQLITE = (3, 37)  # STRICT tables
_BUSY_MS = 5000
_NAMED = 3  # of the tables that are not those of a book

DAMAGED = N_(
    "{name} is damaged. Don’t write to it: go back to a copy with 'wellbook restore' (its own "
    "copies lie in the folder '{stem} copies'), or save what can be read with 'wellbook rescue'."
)
_NO_LOCKS = N_(
    "{name} lies on a drive that can’t lock files, as some network drives can’t: two programs "
    "could write it at once. Copy it to a disk of this computer and open it there."
)
_OF_LOCKS = re.compile(r"SQLITE_IOERR_(RD|UN|CHECKRESERVED)?LOCK")
# Raised where a row doesn't fit the tables; of what is entered here that is a mistake of ours.
UNFIT = (
    sqlite3.IntegrityError,
    sqlite3.ProgrammingError,
    sqlite3.InterfaceError,
    sqlite3.DataError,
)
_SENTENCES = {
    "SQLITE_BUSY": N_(
        "{name} is being written by another window or program: close it and try again."
    ),
    "SQLITE_LOCKED": N_("{name} is being written by another window: close it and try again."),
    "SQLITE_FULL": N_(
        "The disk with {name} is full. Nothing was changed: make room and try again."
    ),
    "SQLITE_READONLY": N_("{name} can’t be written: the file or its folder is read-only."),
    "SQLITE_PROTOCOL": _NO_LOCKS,
    "SQLITE_IOERR": N_("The disk reported an error while reading or writing {name}."),
    "SQLITE_CORRUPT": DAMAGED,
    "SQLITE_FORMAT": DAMAGED,
    "SQLITE_TOOBIG": N_(
        "A value in {name} is larger than can be read: look the book over with 'wellbook check'."
    ),
    "SQLITE_NOMEM": N_("There is not enough memory for {name}: close some programs and try again."),
    "SQLITE_NOTADB": N_("{name} is not a book: its content is not a SQLite file."),
    "SQLITE_CANTOPEN": N_(
        "{name} can’t be opened: look whether the file and its folder exist and "
        "whether you may write there."
    ),
    "SQLITE_PERM": N_("{name} can’t be opened: you may not read or write it."),
    "SQLITE_AUTH": N_("{name} can’t be opened: you may not read or write it."),
}


class Unfit(Fault):
    """A name that is empty or longer than a book takes."""


def damaged(path: Path) -> str:
    """The sentence on a damaged book."""
    return _(DAMAGED).format(name=path, stem=path.stem)


@contextmanager
def faults(path: Path) -> Iterator[None]:
    """Turn what the world does to a file into a `Fault`; anything else is a bug and goes on."""
    try:
        yield
    except sqlite3.Error as error:
        if isinstance(error, sqlite3.ProgrammingError):
            raise
        name = getattr(error, "sqlite_errorname", "") or ""
        if name == "SQLITE_CONSTRAINT_UNIQUE":
            raise Fault(_("There is one of that name already: choose another name.")) from error
        family = "_".join(name.split("_")[:2])
        if not name and "decode" in str(error):  # Python's own: a text that is no UTF-8
            raise Fault(damaged(path)) from error
        if family == "SQLITE_CANTOPEN" and too_many_open():
            raise Fault(
                _(
                    "{path} can’t be opened: too many files are open on this computer. Close some "
                    "programs and try again."
                ).format(path=path)
            ) from error
        if said := _too_long(error):
            raise Unfit(said) from error
        said = _NO_LOCKS if _OF_LOCKS.fullmatch(name) else _SENTENCES.get(family, "")
        if not said:
            raise
        raise Fault(_(said).format(name=path, stem=path.stem)) from error
    except UnicodeDecodeError as error:  # SQLite's own words on a damaged schema quote its bytes
        raise Fault(damaged(path)) from error


def _too_long(error: sqlite3.Error) -> str:
    """What is said of a name that is empty or longer than a table takes; else nothing."""
    bounds = _LENGTH.search(str(error)) if isinstance(error, sqlite3.IntegrityError) else None
    if bounds is None:
        return ""
    return _(
        "The {field} must have {least} to {most} letters: shorten it or write one. "
        "Nothing was changed."
    ).format(field=bounds[1], least=bounds[2], most=bounds[3])


def foreign(connection: sqlite3.Connection) -> str:
    """What another program put into a book, changed or took out; empty for a book of this version.

    The first few tables, indexes, views and triggers are named.
    """
    found = tables(connection)
    if digest_of(found) == TABLES_DIGEST:  # to make a new book's tables takes longer than to open
        return ""
    names = sorted({f"{kind} {name}" for kind, name, *_rest in found ^ own_tables()})
    return ", ".join(names[:_NAMED]) + (", …" if len(names) > _NAMED else "")


def require_own_tables(connection: sqlite3.Connection, path: Path) -> None:
    """Let nothing be read or written where tables, views or triggers are not those of a book.

    Raises:
        Fault: Another program changed them. Those of another version are not asked about.
    """
    with faults(path):
        if connection.execute("PRAGMA user_version").fetchone()[0] != VERSION:
            return
        told = foreign(connection)
    if told:
        raise Fault(
            _(
                "{path} is damaged: its tables are not those of a book any more ({names}). See "
                "'wellbook check', then go back to a copy with 'wellbook restore' (its own copies "
                "lie in the folder '{stem} copies'), or save what can be read with 'wellbook "
                "rescue'."
            ).format(path=path, stem=path.stem, names=told)
        )


def tables(connection: sqlite3.Connection) -> set[tuple[str, ...]]:
    """Tables, indices, views and triggers of a file; what SQLite counts for itself is left out."""
    rows = connection.execute(
        "SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema"
        r" WHERE substr(name, 1, 11) != 'sqlite_stat'"
    )
    return set(rows)


def digest_of(found: set[tuple[str, ...]]) -> str:
    """Names a set of tables by a digest."""
    return hashlib.sha256("\n".join(sorted(map(repr, found))).encode()).hexdigest()


@lru_cache(maxsize=1)
def own_tables() -> set[tuple[str, ...]]:
    """The same as a new book has them."""
    memory = sqlite3.connect(":memory:")
    try:
        memory.executescript("".join(STEPS[step] for step in sorted(STEPS)))
        return tables(memory)
    finally:
        memory.close()


def connect(path: Path, *, readonly: bool = False) -> tuple[sqlite3.Connection, bool]:
    """Open an existing book.

    Returns:
        The connection, in autocommit mode, and whether it may only be read.

    Raises:
        Fault: The file is missing, not a book, damaged, or can't be opened.
    """
    _require_sqlite()
    _look_at_header(path)
    with faults(path):
        connection = _raw(path, "rw")
        try:
            _prepare(connection)
            version = _check_identity(connection, path)
            if readonly or version > VERSION or not _is_writable(path):
                connection.execute("PRAGMA query_only = ON")
                return connection, True
        except BaseException:
            connection.close()
            raise
        return connection, False


def is_older(connection: sqlite3.Connection) -> bool:
    """Whether a book was written by an older version."""
    return bool(connection.execute("PRAGMA user_version").fetchone()[0] < VERSION)


def in_memory(connection: sqlite3.Connection, path: Path) -> sqlite3.Connection:
    """A copy in memory, brought up to date, of a book that may only be read; closes the book.

    Raises:
        Fault: The book is damaged, or can't be read.
    """
    memory = sqlite3.connect(":memory:", isolation_level=None)
    try:
        with faults(path):
            connection.backup(memory)
            try:
                bring_up(memory)
            except sqlite3.OperationalError as error:  # its tables don't take the step any more
                raise Fault(damaged(path)) from error
        memory.execute("PRAGMA query_only = ON")
    except BaseException:
        memory.close()
        raise
    finally:
        connection.close()
    return memory


def bring_up(connection: sqlite3.Connection) -> None:
    """Take all steps to the newest version in one transaction.

    Raises:
        sqlite3.Error: A step failed; everything is as it was.
    """
    version = connection.execute("PRAGMA user_version").fetchone()[0]
    steps = "".join(STEPS[step] for step in sorted(STEPS) if step > version)
    try:
        connection.executescript(
            f"BEGIN IMMEDIATE; {steps} PRAGMA user_version = {VERSION}; COMMIT;"
        )
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def create(path: Path) -> sqlite3.Connection:
    """Make an empty book where no file is yet.

    Raises:
        Fault: A file is there already, or the folder can't be written.
    """
    _require_sqlite()
    require_free(path)
    with faults(path):
        connection = _raw(path, "rwc")
        try:
            _prepare(connection)
            connection.executescript(
                f"BEGIN IMMEDIATE; PRAGMA application_id = {APPLICATION_ID};"
                + "".join(STEPS[step] for step in sorted(STEPS))
                + f"PRAGMA user_version = {VERSION}; COMMIT;"
            )
        except BaseException:
            connection.close()  # rolls back and takes the rollback journal away
            path.unlink(missing_ok=True)
            raise
    return connection


def _require_sqlite() -> None:
    if sqlite3.sqlite_version_info < _LEAST_SQLITE:
        raise Fault(
            _(
                "This Python brings SQLite {sqlite_version}; Wellbook needs 3.37 or newer: "
                "install a newer Python."
            ).format(sqlite_version=sqlite3.sqlite_version)
        )


def _raw(path: Path, mode: str) -> sqlite3.Connection:
    uri = f"{path.absolute().as_uri()}?mode={mode}"
    return sqlite3.connect(
        uri,
        uri=True,
        isolation_level=None,
        timeout=_BUSY_MS / 1000,
        check_same_thread=False,  # the window lends it to another thread, and waits for that
    )


@contextmanager
def held(path: Path) -> Iterator[None]:
    """Keep every other writer out of a book that is about to be put aside; a ruin has none.

    A journal that a crash left beside it stays as it is.

    Raises:
        Fault: Another window or program is writing the book.
    """
    is_hot = os.path.lexists(f"{path}-journal")
    try:
        connection = _raw(path, "ro" if is_hot else "rw")
    except sqlite3.Error:  # no file, or none that may be opened: nobody writes it by this name
        yield
        return
    try:
        try:
            connection.execute("PRAGMA schema_version" if is_hot else "BEGIN EXCLUSIVE")
            is_written = is_hot  # what a crash left can't be read without rolling it back
        except sqlite3.Error as error:
            is_written = (error.sqlite_errorname or "").startswith(("SQLITE_BUSY", "SQLITE_LOCKED"))
        if is_written:
            raise Fault(_(_SENTENCES["SQLITE_BUSY"]).format(name=path))
        if os.name == "nt":
            connection.close()  # what is open can't be moved there
        yield
    finally:
        connection.close()


def _prepare(connection: sqlite3.Connection) -> None:
    for pragma in (
        f"busy_timeout = {_BUSY_MS}",
        "foreign_keys = ON",
        "recursive_triggers = ON",
        "trusted_schema = OFF",
        "cell_size_check = ON",
        "synchronous = EXTRA",
        "secure_delete = ON",
    ):
        connection.execute(f"PRAGMA {pragma}")


def _look_at_header(path: Path) -> None:
    try:
        with open_regular(path) as file:
            head = file.read(len(BOOK_HEAD))
    except FileNotFoundError:
        raise Fault(
            _("{path} does not exist: look at the name, or make it with 'new'.").format(path=path)
        ) from None
    except NotAFile as found:
        raise Fault(
            _("{path} is {found}, not a book.").format(path=path, found=found.what)
        ) from None
    except OSError as error:
        raise Fault(
            _("{path} can’t be read: {problem}.").format(path=path, problem=error.strerror)
        ) from error
    for ending in ("-journal", "-wal"):  # SQLite reads what lies there, and waits for a pipe
        beside = path.with_name(path.name + ending)
        if os.path.lexists(beside) and not beside.is_file():
            raise Fault(
                _("{beside} lies beside the book and is no file: move it away.").format(
                    beside=beside
                )
            )
    if head != BOOK_HEAD:
        raise Fault(
            _("{path} is not a book: it is some other kind of file, or it is damaged.").format(
                path=path
            )
        )


def _check_identity(connection: sqlite3.Connection, path: Path) -> int:
    if connection.execute("PRAGMA application_id").fetchone()[0] != APPLICATION_ID:
        raise Fault(_("{path} is a SQLite file, but not a book of Wellbook.").format(path=path))
    version = int(connection.execute("PRAGMA user_version").fetchone()[0])
    if version < 1:
        raise Fault(damaged(path))
    return version


def _is_writable(path: Path) -> bool:
    # SQLite lets BEGIN IMMEDIATE pass on a file that it may only read, so the file system is
    # asked; the folder too, because the rollback journal is made there.
    return os.access(path, os.W_OK) and os.access(path.absolute().parent, os.W_OK)
