"""Who has a book open: a small file beside it that tells people, also over a synced folder.

SQLite's own lock keeps two writers on one machine apart. This file is for what it can't see:
another computer with the same synced folder, and a second window that should only read.
"""

import json
import os
import platform
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path
from typing import Self

from wellbook.support.errors import Fault
from wellbook.support.whole_file import read_whole

_LARGEST = 10_000  # bytes; ours has about a hundred


@dataclass(frozen=True, slots=True)
class Holder:
    """The window that has a book open."""

    computer: str
    process: int
    since: str

    @classmethod
    def here(cls, now: datetime) -> Self:
        """This process."""
        return cls(platform.node(), os.getpid(), now.isoformat(timespec="minutes"))

    def is_gone(self) -> bool:
        """Whether it ran on this computer and has ended; of another one nobody can tell."""
        return self.computer == platform.node() and not _is_alive(self.process)


def holder_of(book: Path) -> Holder | None:
    """Who has the book open, or None; one that ended without closing does not count."""
    try:
        holder = Holder(**json.loads(read_whole(_place(book), _LARGEST)))
    except (OSError, Fault, ValueError, TypeError):
        return None
    return None if holder.is_gone() else holder


def hold(book: Path, now: datetime) -> Holder | None:
    """Mark a book as open here.

    Returns:
        None if it is ours now; who has it open if somebody else does. If the folder can't be
        written there is nothing to mark, and the book can't be written either.
    """
    place, me = _place(book), Holder.here(now)
    for _ in range(2):
        try:
            handle = os.open(place, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o644)
        except FileExistsError:
            holder = holder_of(book)
            if holder is not None:
                return None if _is_same(holder, me) else holder
            place.unlink(missing_ok=True)
        except OSError:
            return None
        else:
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                json.dump(asdict(me), file)
            return None
    return holder_of(book)


def release(book: Path, now: datetime) -> None:
    """Take the mark away, if it is ours."""
    holder = holder_of(book)
    if holder and _is_same(holder, Holder.here(now)):
        _place(book).unlink(missing_ok=True)


def take_over(book: Path, now: datetime) -> Holder | None:
    """Mark a book as open here though another computer's mark was left behind; see `hold`.

    A window that is open on this computer keeps its mark: it can be closed instead.
    """
    holder = holder_of(book)
    if holder and holder.computer != platform.node():
        _place(book).unlink(missing_ok=True)
    return hold(book, now)


def _is_same(one: Holder, other: Holder) -> bool:
    return (one.computer, one.process) == (other.computer, other.process)


def _place(book: Path) -> Path:
    return book.with_name(f".{book.name}.open")


def _is_alive(process: int) -> bool:
    if os.name == "nt":  # pragma: no cover  runs on Windows only
        import ctypes

        handle = ctypes.windll.kernel32.OpenProcess(0x1000, 0, process)  # type: ignore[attr-defined]
        if handle:
            ctypes.windll.kernel32.CloseHandle(handle)  # type: ignore[attr-defined]
        return bool(handle)
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True
