"""Looking at sign-in whether a test is due: one file that the system runs, made and removed here.

It runs one command for all books that are looked at (`watched_books`), so that a book that was
moved or lost can be told of.

Linux: an entry of the XDG autostart folder (Desktop Application Autostart Specification 0.5).
Windows: a command file in the Startup folder. macOS: a launchd agent. Nothing keeps running.
"""

import os
import plistlib
import sys
from collections.abc import Sequence
from pathlib import Path

from wellbook.support import watched_books
from wellbook.support.errors import Fault
from wellbook.support.program import itself
from wellbook.support.translation import _
from wellbook.support.whole_file import write_whole

_NAME = "wellbook-due"


def is_on(book: Path, identity: str = "") -> bool:
    """Whether the system looks at this book at sign-in."""
    found = watched_books.find(book, identity)
    return found is not None and found.is_watched and place().is_file()


def switch_on(book: Path, identity: str = "") -> Path:
    """Have the system look at this book, too, at every sign-in; returns the file that was made.

    Args:
        book: Where it lies.
        identity: Digest of its first entry, by which it is known again where it was moved.

    Raises:
        Fault: The file can't be written.
    """
    path = place()
    content = {"win32": _command_file, "darwin": _agent}.get(sys.platform, _desktop_entry)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        write_whole(path, content(command()))
        watched_books.watch(book, identity)
    except OSError as error:
        raise Fault(
            _("{path} can’t be written ({problem}), so nothing runs at sign-in.").format(
                path=path, problem=error.strerror
            )
        ) from error
    return path


def switch_off(book: Path | None = None, identity: str = "") -> None:
    """Have the system look at a book no more; without one, or after the last, at none.

    Raises:
        Fault: The file can't be removed.
    """
    try:
        for one in watched_books.watched() if book is None else ():
            watched_books.forget(Path(one.path), one.identity)
        if book is not None:
            watched_books.forget(book, identity)
        if watched_books.watched():
            return
        place().unlink(missing_ok=True)
    except OSError as error:
        raise Fault(
            _("{place} can’t be removed ({problem}): remove it by hand.").format(
                place=place(), problem=error.strerror
            )
        ) from error


def command() -> list[str]:
    """What is run: it tells on the desktop what is due in each book."""
    return [*itself(), "remind"]


def place() -> Path:
    """Where the system looks for what to run at sign-in."""
    if sys.platform == "win32":
        roaming = Path(os.environ.get("APPDATA") or Path.home() / "AppData" / "Roaming")
        return roaming / f"Microsoft/Windows/Start Menu/Programs/Startup/{_NAME}.cmd"
    if sys.platform == "darwin":
        return Path.home() / f"Library/LaunchAgents/org.{_NAME}.plist"
    config = Path(os.environ.get("XDG_CONFIG_HOME") or Path.home() / ".config")
    return config / "autostart" / f"{_NAME}.desktop"


def _desktop_entry(words: Sequence[str]) -> bytes:
    lines = (
        "[Desktop Entry]",
        "Type=Application",
        "Name=Wellbook: is a water test due",
        "Comment=Looks once at sign-in and ends",
        f"Exec={' '.join(map(_quoted, words))}",
        "Terminal=false",
        "X-GNOME-Autostart-enabled=true",
    )
    return ("\n".join(lines) + "\n").encode()


def _quoted(word: str) -> str:
    """A word of an Exec line: quoted, then escaped once more as a value (Desktop Entry 1.5)."""
    for sign in ("\\", '"', "`", "$"):
        word = word.replace(sign, f"\\{sign}")
    return '"' + word.replace("\\", "\\\\").replace("%", "%%") + '"'


def _command_file(words: Sequence[str]) -> bytes:
    said = " ".join(f'"{word}"'.replace("%", "%%") for word in words)
    return f'@echo off\r\nchcp 65001 >nul\r\nstart "" {said}\r\n'.encode()


def _agent(words: Sequence[str]) -> bytes:
    return plistlib.dumps(
        {"Label": f"org.{_NAME}", "ProgramArguments": list(words), "RunAtLoad": True}
    )
