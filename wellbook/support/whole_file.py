"""Whole files of this computer: read within a bound, and written so that nobody sees half of one.

The one place that decides what may be read as a file and what an output may replace. A leaf:
all parts may use it.
"""

import errno
import os
import stat
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from wellbook.support.errors import Fault
from wellbook.support.translation import _

BOOK_HEAD = b"SQLite format 3\0"  # SQLite's file format, "The Database Header"
_BOOK_NAMES = (".wellbook", ".wellbook-journal", ".wellbook-wal", ".wellbook-shm")
# How the kinds of file that Wellbook writes begin; tables and texts have no such beginning.
_BEGINNINGS = (BOOK_HEAD, b"%PDF-", b"\x89PNG", b"PK\x03\x04", b"BEGIN:VCALENDAR", b"<?xml")
_GLANCE = max(map(len, _BEGINNINGS))
_MODE = 0o644
_OVER = 3600  # seconds after which nobody is making a file any more
_AT_ONCE = 5  # a database, its journal, its folder, and those of a copy


class NotAFile(Fault):
    """A folder, a device, a pipe or a socket where a file was expected.

    Attributes:
        what: What it is, with its article.
    """

    def __init__(self, path: Path, what: str) -> None:
        super().__init__(_("{path} is {what}, not a file.").format(path=path, what=what))
        self.what = what


class TooLarge(Fault):
    """A file that is larger than is read at once.

    Attributes:
        size: Its bytes.
    """

    def __init__(self, path: Path, size: int, most: int) -> None:
        super().__init__(
            _("{path} has {size:.0f} MB; up to {most:.0f} MB can be read.").format(
                path=path, size=size / 1e6, most=most / 1e6
            )
        )
        self.size = size


def open_regular(path: Path) -> BinaryIO:
    """Open a file for reading; nothing that waits for somebody or never ends is opened.

    Raises:
        NotAFile: It is no regular file.
        OSError: It is missing or can't be read.
    """
    _require_regular(path, path.stat().st_mode)
    # What is put in its place between question and answer must not make the opening wait.
    file = open(path, "rb", opener=_at_once)  # noqa: SIM115  closed by whoever asked
    try:
        _require_regular(path, os.fstat(file.fileno()).st_mode)
    except BaseException:
        file.close()
        raise
    return file


def read_whole(path: Path, most: int) -> bytes:
    """All bytes of a file that has at most so many.

    Raises:
        NotAFile: It is no regular file.
        TooLarge: It has more.
        OSError: It is missing or can't be read.
    """
    with open_regular(path) as file:
        size = os.fstat(file.fileno()).st_size
        if size > most:
            raise TooLarge(path, size, most)
        content = file.read(most + 1)
    if len(content) > most:  # a file that grows, or that tells no size
        raise TooLarge(path, len(content), most)
    return content


def shown_name(path: Path) -> str:
    """The last part of a path as text that can be stored and shown, whatever its bytes are."""
    return os.fsencode(path.name).decode("utf-8", "replace")


def journal_beside(book: Path) -> Path:
    """Where SQLite keeps what a write that was cut off has to take back."""
    return book.with_name(f"{book.name}-journal")


def require_free(path: Path) -> None:
    """Let no book be made where something is, be it a link that leads nowhere.

    Nor beside the journal of a book that lay there: SQLite would play it into the new one.

    Raises:
        Fault: Something lies there already, or the folder is missing.
    """
    if os.path.lexists(path):
        raise Fault(
            _("{path} exists already: choose another name, nothing was changed.").format(path=path)
        )
    if os.path.lexists(left := journal_beside(path)):
        raise Fault(
            _(
                "{left} lies there: it belongs to a book of that name, whose last write was cut "
                "off. Put the two together again, or choose another name; nothing was changed."
            ).format(left=left)
        )
    if not path.parent.is_dir():
        raise Fault(
            _(
                "The folder {parent} does not exist: make it first, or choose another folder."
            ).format(parent=path.parent)
        )


def require_replaceable(path: Path, content: bytes | None = None) -> None:
    """Let an output replace only a regular file of its own kind or content, and never a book.

    Args:
        path: Where the output goes.
        content: What is to be written; without it the kind is not compared.

    Raises:
        Fault: Something else lies there.
    """
    try:
        mode = path.lstat().st_mode
    except OSError:
        return  # nothing there; what else is wrong is said when it is written
    if not stat.S_ISREG(mode):
        raise Fault(
            _("{path} is {what}: nothing is written over it. Choose another name.").format(
                path=path, what=_what(mode)
            )
        )
    try:
        with open_regular(path) as file:
            head = file.read(_GLANCE)
            if content is not None and head + file.read(len(content)) == content:
                return
    except OSError as error:
        raise _fault(path, error) from error
    if head.startswith(BOOK_HEAD) or path.name.lower().endswith(_BOOK_NAMES):
        raise Fault(
            _(
                "{path} is a book or belongs to one: nothing is written over it. Choose another "
                "name."
            ).format(path=path)
        )
    if content is not None and head and _beginning(head) != _beginning(content):
        raise Fault(
            _(
                "{path} is a file of another kind than the one to be written: nothing is written "
                "over it. Choose another name."
            ).format(path=path)
        )


def require_no_book_name(path: Path) -> None:
    """Let nothing that is no book be called like one.

    Raises:
        Fault: It has the name of a book or of what belongs to one.
    """
    if path.name.lower().endswith(_BOOK_NAMES):
        raise Fault(
            _("{path} is the name of a book: give what is to be written another ending.").format(
                path=path
            )
        )


def write_whole(
    path: Path, content: bytes, *, check_cancelled: Callable[[], object] = lambda: None
) -> None:
    """Write beside the place and rename; what lay there before is replaced only by the whole.

    Args:
        path: Where it goes.
        content: All its bytes.
        check_cancelled: Called just before the file is put in its place; what it raises leaves
            what was there.

    Raises:
        Fault: The folder can't be written, the disk is full, or what lies there is a book, of
            another kind, or no regular file.
    """
    import tempfile

    require_replaceable(path, content)
    sweep_left(path.parent)
    try:
        # A name of its own length, so that whatever name can be there can be written.
        handle, name = tempfile.mkstemp(prefix=".wellbook-", suffix=".part", dir=path.parent)
    except OSError as error:
        raise _fault(path, error) from error
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(_MODE)
        check_cancelled()
        require_replaceable(path, content)
        beside.replace(path)
    except OSError as error:
        raise _fault(path, error) from error
    finally:
        beside.unlink(missing_ok=True)


def sweep_left(folder: Path) -> None:
    """Remove what makers that were killed left half-made in a folder; others are at it just now."""
    import shutil
    import time

    with suppress(OSError):  # no tidying is worth a failure
        for path in folder.glob(".wellbook-*.part*"):
            if time.time() - path.lstat().st_mtime < _OVER:
                continue
            if path.is_dir() and not path.is_symlink():
                shutil.rmtree(path)
            else:
                path.unlink(missing_ok=True)


def require_place(path: Path, beginning: bytes) -> None:
    """Say at once what `write_whole` would say at the end, before long work is done for nothing.

    Args:
        path: Where the output will go.
        beginning: The first bytes that it will have.

    Raises:
        Fault: Something else lies there, or nothing can be made there.
    """
    import tempfile

    require_replaceable(path, beginning)
    try:
        with suppress(FileNotFoundError):
            path.lstat()  # a name that is too long is told by this
        tempfile.TemporaryFile(dir=path.parent).close()
    except OSError as error:
        raise _fault(path, error) from error


def too_many_open() -> bool:
    """Whether this process may open no further files; SQLite needs a few at once."""
    handles: list[int] = []
    try:
        for _unused in range(_AT_ONCE):
            handles.append(os.open(os.devnull, os.O_RDONLY))  # noqa: PERF401  closed if one fails
    except OSError as error:
        return error.errno in {errno.EMFILE, errno.ENFILE}
    finally:
        for handle in handles:
            os.close(handle)
    return False


def _at_once(path: str, flags: int) -> int:
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def _require_regular(path: Path, mode: int) -> None:
    if not stat.S_ISREG(mode):
        raise NotAFile(path, _what(mode))


def _what(mode: int) -> str:
    for is_one, what in (
        (stat.S_ISDIR, _("a folder")),
        (stat.S_ISLNK, _("a link to another place")),
        (stat.S_ISFIFO, _("a pipe")),
        (stat.S_ISSOCK, _("a socket")),
    ):
        if is_one(mode):
            return what
    return _("a device")


def _beginning(content: bytes) -> bytes:
    return next((one for one in _BEGINNINGS if content.startswith(one)), b"")


def _fault(path: Path, error: OSError) -> Fault:
    return Fault(
        _("{path} can’t be written ({problem}): choose another folder, or make room there.").format(
            path=path, problem=error.strerror
        )
    )
