"""Answers in a process of its own as a reader might that ran into a hostile file."""

import os
import re
import signal
import subprocess
import time
from contextlib import suppress
from pathlib import Path

from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel


def main():
    asked = bounds.received()
    globals()[asked.facts["do"]]()
    bounds.answer(Parcel({"said": "done"}, asked.content))


def behave():
    """Nothing to add."""


def sleep():
    time.sleep(60)


def pause():
    """Gets no time for a while, as on a computer that is busy."""
    wake = f"sleep 4; kill -CONT {os.getpid()}"
    subprocess.Popen(["sh", "-c", wake], stdout=subprocess.DEVNULL)
    os.kill(os.getpid(), signal.SIGSTOP)


def stick():
    re.match(r"(a+)+$", "a" * 60 + "b")  # never gives control back


def eat():
    held = []
    try:
        while True:
            held.append(bytearray(50_000_000))
    except MemoryError:
        held.clear()
        bounds.out_of_memory()


def watch():
    """Less memory than it has already, as where the system itself doesn't refuse it."""
    bounds._watch(1_000_000)


def write():
    """Into a file, and a second one that is already there."""
    for name in ("new", "old"):
        with suppress(OSError), Path(name).open("a", encoding="utf-8") as file:
            file.write("taken over")
            file.flush()


def nest():
    nest()


def die():
    os.abort()


def leave():
    os._exit(0)
