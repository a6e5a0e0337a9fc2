"""What somebody else made is read in a process of its own, bounded in time and memory.

A broken or hostile file can keep a reader busy for hours or fill the memory. Here it can only end
its own process: what asked for it goes on and is told why there is no answer.
"""

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, TypeVar

from wellbook.tongue import mark

SECONDS = 20.0  # for one document; our own bound, an ordinary one takes less than one
TOO_LONG = mark("it took too long to read")
TOO_LARGE = mark("it needs too much memory to be read")
BROKEN_OFF = mark("reading it broke off")
MEMORY = 2_000_000_000  # bytes; our own bound
OUT_OF_MEMORY = 77  # exit code of a process that reached it
_GRACE = 5  # seconds; only then a process ends itself, if nobody is left to end it
_MOST_AT_ONCE = 4
# The same modules as here, wherever they lie; nothing is looked for in the current folder.
_START = (
    "import sys; from importlib import import_module; sys.path[:] = sys.argv[2:]; "
    "import_module(sys.argv[1]).main()"
)

_Item = TypeVar("_Item")
_Made = TypeVar("_Made")


class Unread(Exception):
    """Why something could not be read, as a sentence for the reader of a packet."""


@dataclass(frozen=True, slots=True)
class Parcel:
    """What goes to a process and what comes back: a few facts, and bytes."""

    facts: Mapping[str, Any]
    content: bytes

    def packed(self) -> bytes:
        """One line of JSON, then the bytes."""
        return json.dumps(dict(self.facts)).encode() + b"\n" + self.content

    @classmethod
    def unpacked(cls, packed: bytes) -> "Parcel":
        """The parcel again.

        Raises:
            ValueError: There is none.
        """
        line, _, content = packed.partition(b"\n")
        return cls(json.loads(line), content)


def ask(module: str, parcel: Parcel, *, seconds: float) -> Parcel:
    """Have a module of ours answer in a process of its own.

    Args:
        module: Its full name; its `main` reads a parcel and writes one.
        parcel: What it is asked.
        seconds: How long it may take.

    Raises:
        Unread: It took too long, needed too much memory, or ended without an answer.
    """
    bounds = {"seconds": seconds + _GRACE, "memory": MEMORY}
    try:
        run = subprocess.run(  # noqa: S603  our own program, with nothing of the file in its words
            [sys.executable, "-P", "-X", "utf8", "-c", _START, module, *sys.path],
            input=Parcel({**parcel.facts, **bounds}, parcel.content).packed(),
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            timeout=seconds,
            check=False,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired:
        raise Unread(TOO_LONG) from None
    except OSError:
        raise Unread(BROKEN_OFF) from None
    if run.returncode:
        raise Unread(TOO_LARGE if run.returncode == OUT_OF_MEMORY else BROKEN_OFF)
    try:
        return Parcel.unpacked(run.stdout)
    except ValueError:
        raise Unread(BROKEN_OFF) from None


def each(made: Callable[[_Item], _Made], items: Iterable[_Item]) -> list[_Made]:
    """What is made of each item, several at a time, in their order."""
    with ThreadPoolExecutor(min(_MOST_AT_ONCE, os.cpu_count() or 1)) as pool:
        return list(pool.map(made, items))
