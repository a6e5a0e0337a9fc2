"""What somebody else made is read in a process of its own, bounded in work and memory.

A broken or hostile file can keep a reader busy for hours or fill the memory. Here it can only end
its own process: what asked for it goes on and is told why there is no answer. The work is counted
in seconds of the processor, so that a busy computer makes nobody suspect; only if there is no
answer for very long it is given up, without a word on the file.
"""

import json
import os
import signal
import subprocess
from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from typing import Any, TypeVar

from wellbook.support.program import reader
from wellbook.support.translation import N_

SECONDS = 20.0  # of the processor for one document; our own bound, an ordinary one takes one
TOO_LONG = N_("it took too long to read")
TOO_BUSY = N_("it took too long to read on this computer; try again when it is less busy")
TOO_LARGE = N_("it needs too much memory to be read")
BROKEN_OFF = N_("reading it broke off")
MEMORY = 2_000_000_000  # bytes; our own bound
OUT_OF_MEMORY = 77  # exit code of a process that reached it
# How a process ends that used up its seconds: by the signal, or as Windows ends it.
_OUT_OF_TIME = {-getattr(signal, "SIGXCPU", 24), 1816}
_LONGER = 15  # times the seconds of work, in which a busy computer should have found them
_GLANCE = 0.1  # seconds between two looks whether the answer is still wanted
_GRACE = 5  # seconds; only then a process ends itself, if nobody is left to end it
_MOST_AT_ONCE = 4
# The same modules as here, wherever they lie; nothing is looked for in the current folder.
_START = (
    "import sys; from importlib import import_module; sys.path[:] = sys.argv[2:]; "
    "import_module(sys.argv[1]).main()"
)

CancelCheck = Callable[[], object]  # called now and then; raises what ends the waiting
_Item = TypeVar("_Item")
_Made = TypeVar("_Made")


class ReadFailed(Exception):
    """Why something could not be read, as a sentence for the reader of a packet."""


class Busy(ReadFailed):
    """The computer did not find the time; that says nothing of what was to be read."""


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


def never_cancelled() -> None:
    """Nobody asks to stop."""


_asked_to_stop: ContextVar[CancelCheck] = ContextVar("asked_to_stop", default=never_cancelled)


@contextmanager
def ended_by(check_cancelled: CancelCheck) -> Iterator[None]:
    """What is asked within, on this thread, ends with what `check_cancelled` raises meanwhile."""
    before = _asked_to_stop.set(check_cancelled)
    try:
        yield
    finally:
        _asked_to_stop.reset(before)


def ask(
    module: str,
    parcel: Parcel,
    *,
    seconds: float,
    wait_for: float | None = None,
    check_cancelled: CancelCheck | None = None,
    memory: int = MEMORY,
) -> Parcel:
    """Have a module of ours answer in a process of its own.

    Args:
        module: Its full name; its `main` reads a parcel and writes one.
        parcel: What it is asked.
        seconds: Seconds of the processor that it may take, in whole ones, rounded up.
        wait_for: Seconds after which it is given up, whatever it did; many times as many if left.
        memory: Bytes that it may take.
        check_cancelled: Called while the answer is waited for; what it raises ends the process,
            too; None for that of `ended_by`.

    Raises:
        Busy: The computer did not find the time for it.
        ReadFailed: It took too long, needed too much memory, or ended without an answer.
    """
    longest = seconds * _LONGER if wait_for is None else wait_for
    bounds = {"seconds": seconds, "longest": longest + _GRACE, "memory": memory}
    try:
        code, told = _answered(
            reader(module, _START),
            Parcel({**parcel.facts, **bounds}, parcel.content).packed(),
            longest,
            check_cancelled or _asked_to_stop.get(),
        )
    except subprocess.TimeoutExpired:
        raise Busy(TOO_BUSY) from None
    except OSError:
        raise ReadFailed(BROKEN_OFF) from None
    if code in _OUT_OF_TIME:
        raise ReadFailed(TOO_LONG)
    if code:
        raise ReadFailed(TOO_LARGE if code == OUT_OF_MEMORY else BROKEN_OFF)
    try:
        return Parcel.unpacked(told)
    except ValueError:
        raise ReadFailed(BROKEN_OFF) from None


def _answered(
    words: list[str], asked: bytes, longest: float, check_cancelled: CancelCheck
) -> tuple[int, bytes]:
    """The exit code of a process and what it wrote; it never outlives the question."""
    with (
        subprocess.Popen(  # noqa: S603  our own program, with nothing of the file in its words
            words,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        ) as process,
        ThreadPoolExecutor(1) as pool,
    ):
        answer = pool.submit(process.communicate, asked, longest)
        try:
            while not wait([answer], _GLANCE).done:
                check_cancelled()
            told = answer.result()[0]
        except BaseException:
            process.kill()
            raise
        return process.wait(), told


def each(made: Callable[[_Item], _Made], items: Iterable[_Item]) -> list[_Made]:
    """What is made of each item, several at a time, in their order."""
    with ThreadPoolExecutor(min(_MOST_AT_ONCE, os.cpu_count() or 1)) as pool:
        return list(pool.map(made, items))
