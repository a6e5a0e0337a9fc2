"""The books that are looked at at sign-in on this computer, in one file of the person's own."""

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.whole_file import read_whole, write_whole

SETTING = "reminders"  # the setting of a book that goes with it to another computer
AT_SIGN_IN = "sign-in"  # its value
_MOST = 1_000_000  # bytes of the file; our own bound


@dataclass(frozen=True, slots=True)
class Watched:
    """A book that is looked at.

    Attributes:
        path: Where it lay when that was last known.
        identity: Digest of its first entry, which goes with it wherever it is moved.
        is_watched: False for a book for which somebody was asked and did not want it here.
        told: Where its loss was said: `note`, `window`.
    """

    path: str
    identity: str
    is_watched: bool = True
    told: tuple[str, ...] = ()


def known() -> tuple[Watched, ...]:
    """What is known here; a file that can't be read knows nothing."""
    try:
        rows = json.loads(read_whole(_file(), _MOST))
        return tuple(
            Watched(
                str(row["path"]), str(row["identity"]), bool(row["is_watched"]), tuple(row["told"])
            )
            for row in rows
        )
    except (OSError, Fault, ValueError, TypeError, LookupError):
        return ()


def watched() -> tuple[Watched, ...]:
    """The books that are looked at."""
    return tuple(one for one in known() if one.is_watched)


def watch(path: Path, identity: str, *, is_watched: bool = True) -> None:
    """Look at a book from now on, or remember that it is not wanted.

    Raises:
        OSError, Fault: The file can't be written.
    """
    new = Watched(str(path.absolute()), identity, is_watched)
    _keep((*(one for one in known() if not _is_same(one, new)), new))


def forget(path: Path, identity: str = "") -> None:
    """Look at a book no more.

    Raises:
        OSError, Fault: The file can't be written.
    """
    old = Watched(str(path.absolute()), identity)
    _keep(one for one in known() if not _is_same(one, old))


def find(path: Path, identity: str) -> Watched | None:
    """What is known of a book: by where it lies, or by what it is where it was moved."""
    wanted = Watched(str(path.absolute()), identity)
    return next((one for one in known() if _is_same(one, wanted)), None)


def is_known(identity: str) -> bool:
    """Whether the book, or one that it was copied from, is known here."""
    return any(one.identity == identity for one in known())


def lost(where: str) -> tuple[Watched, ...]:
    """Books that are no longer where they were, of which that was not yet said there."""
    return tuple(one for one in watched() if where not in one.told and not Path(one.path).is_file())


def note_lost(one: Watched, where: str) -> None:
    """Remember that a loss was said; without room for that it is said again."""
    told = replace(one, told=(*one.told, where))
    try:
        _keep(told if other == one else other for other in known())
    except (OSError, Fault):
        return


def _is_same(one: Watched, other: Watched) -> bool:
    """Whether one that is known is the other; a copy is another book while both lie there."""
    if one.path == other.path:
        return True
    is_alike = bool(one.identity) and one.identity == other.identity
    return is_alike and not Path(one.path).is_file()


def _keep(rows: Iterable[Watched]) -> None:
    text = json.dumps([asdict(one) for one in rows], ensure_ascii=True, indent=1)
    write_whole(_file(), text.encode())


def _file() -> Path:
    return paths.data() / "reminders.json"
