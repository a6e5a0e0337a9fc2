"""A process that writes is ended by kill -9 at random instants, until so many kills hit a write.

    python tests/bench/kills.py --landed 1000 --seed 1

The writer says before each write that it begins, and after it the digest that it was acknowledged
with; it writes what `tests/book/test_kills.py` has it write. After each kill the book is opened:
every acknowledged write has to be there, every sample whole, and the check has to find nothing. A
kill has landed where a write was begun and not acknowledged. POSIX only: the writer is a copy of
this process, so that a life costs no start of Python.
"""

import argparse
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections import Counter
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.book.test_kills import WRITER
from wellbook import intake
from wellbook.book import Book, copies
from wellbook.book.check import check
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

_DIGEST = 64  # letters
_BEGUN = "begun"
_AFRESH = 10  # lives; a book that grows takes longer to look over
_ON = date(2026, 11, 25)
_LOOP = "\nwhile True:\n"
if _LOOP not in WRITER or intake is None:
    sys.exit("The writer has another loop than this script knows.")
TELLING = WRITER.replace(_LOOP, f"{_LOOP}    print({_BEGUN!r}, flush=True)\n")


def live_and_die(path: Path, dice: random.Random) -> list[str]:
    """What a writer said until it was killed at some instant."""
    reading, writing = os.pipe()
    word, most = str(dice.random()), dice.uniform(0.005, 0.25)
    child = os.fork()
    if not child:
        os.dup2(writing, 1)
        sys.stdout = os.fdopen(1, "w")
        sys.argv = ["writer", str(path), word]
        try:
            exec(compile(TELLING, "writer", "exec"), {"__name__": "writer"})  # noqa: S102  ours
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading) as said:
        said.readline()
        time.sleep(most)
        os.kill(child, signal.SIGKILL)
        lines = said.read().splitlines()
    if os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != -signal.SIGKILL:
        sys.exit(f"The writer ended by itself: {lines[-3:]}")
    return lines


def faults(path: Path, acknowledged: set[str]) -> list[str]:
    """What is wrong with a book whose writer was killed."""
    found = []
    with Book.open(path) as book:
        lost = acknowledged - {entry.digest for entry in book.journal()}
        found += [f"lost: {digest}" for digest in lost]
        for sample in book.samples(with_struck=True):
            kept = len(book.results(sample=sample.id, with_struck=True))
            if kept != int(sample.note or kept) or not kept:
                found.append(f"sample {sample.id} has {kept} of {sample.note} results")
    catalogue = read_catalogue(paths.resources())
    for book_file in (path, *(copy.path for copy in copies.copies_of(path))):
        found += [f"{book_file.name}: {one}" for one in check(book_file, catalogue, _ON)]
    return found


def run(folder: Path, landed: int, seed: int, seconds: float) -> Counter[str]:
    """Kill until so many kills landed, or the time is over; counts of what was seen."""
    dice, counts, begun = random.Random(seed), Counter(), time.monotonic()
    path = folder / "home.wellbook"
    while counts["landed"] < landed and time.monotonic() - begun < seconds:
        if counts["kills"] % _AFRESH == 0:
            shutil.rmtree(copies.folder_of(path), ignore_errors=True)
            path.unlink(missing_ok=True)
            with Book.create(path) as book:
                book.add_point(book.add_well("Home"), "Kitchen tap")
        said = live_and_die(path, dice)
        acknowledged = {line for line in said if len(line) == _DIGEST}
        counts["kills"] += 1
        counts["landed"] += said[-1:] == [_BEGUN]
        counts["acknowledged writes"] += len(acknowledged)
        counts["journals left hot"] += path.with_name(f"{path.name}-journal").exists()
        for fault in faults(path, acknowledged):
            counts["faults"] += 1
            sys.stdout.write(f"kill {counts['kills']}: {fault}\n")
        if counts["kills"] % 50 == 0:
            sys.stdout.write(f"{time.monotonic() - begun:6.0f} s  {dict(counts)}\n")
            sys.stdout.flush()
    return counts


def main() -> None:
    """Read the arguments, kill in a folder of its own, tell."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--landed", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=1e9, help="ends after so many at most")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        counts = run(Path(folder), chosen.landed, chosen.seed, chosen.seconds)
    sys.stdout.write(f"{dict(counts)}\n")
    sys.exit(bool(counts["faults"]))


if __name__ == "__main__":
    main()
