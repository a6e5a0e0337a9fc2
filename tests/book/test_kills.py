"""Killed at any instant, a book opens, is clean, and holds all that was acknowledged."""

import os
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from datetime import date
from pathlib import Path

import pytest

from wellbook.book import Book, copies
from wellbook.book.check import check
from wellbook.book.schema import VERSION
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

KILLS = int(os.environ.get("WELLBOOK_KILLS", "18"))
LIVES = (KILLS + 2) // 3  # three sorts of work, each killed so often
pytestmark = [
    pytest.mark.skipif(os.name != "posix", reason="SIGKILL is a signal of POSIX systems"),
    pytest.mark.timeout(60 + 5 * KILLS),
]

# Writes whatever comes to mind and says the digest of each write once it was acknowledged.
WRITER = """
import random, sys
import sqlite_utils  # before the clock of this life starts
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from wellbook import intake
from wellbook.support import paths
from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading

catalogue = read_catalogue(paths.resources())
dice = random.Random(sys.argv[2])
days = [datetime(2026, 11, 25, 12, tzinfo=UTC)]
book = Book.open(Path(sys.argv[1]), now=lambda: days[0])
book._connection.execute("PRAGMA cache_size = 10")  # so that large writes spill before they end
word = lambda: str(dice.random())

def result():
    return NewResult("iron", "Iron", Reading(word(), Kind.NUMBER, Decimal("1"), "mg/L"))

def sample(n):
    scan = NewDocument(word(), "application/pdf", dice.randbytes(dice.choice([10, 200_000])))
    return NewSample(1, LocalTime(date(2024, 5, 3)), lab=dice.choice("ABC"), note=str(n),
                     results=tuple(result() for _ in range(n)), documents=(scan,))

LAB = "Date,Time,Parameter,Result,Unit\\n"

def take_in():
    n = dice.choice([3, 200])
    day = date(2000, 1, 1) + timedelta(days=dice.randrange(9000))
    rows = [f"{day},07:{i % 60:02d},Iron,{dice.random():.4f},mg/L" for i in range(n)]
    path = Path(sys.argv[1]).with_name("lab.csv")
    path.write_text(LAB + "\\n".join(rows))
    intake.store(intake.read(path, catalogue), book, again=True)

def write():
    what = dice.randrange(8)
    numbers = [s.id for s in book.samples()]
    results = [r.id for r in book.results()]
    if what < 2 or not results:
        book.add_samples([sample(dice.choice([1, 5, 400])) for _ in range(dice.choice([1, 3]))])
    elif what == 2:
        book.correct_result(dice.choice(results), result(), "misread")
    elif what == 3:
        book.strike_sample(dice.choice(numbers), "wrong bottle")
    elif what == 4:
        book.undo()
    elif what == 5:
        book.redo()
    elif what == 6:
        take_in()
    else:
        days[0] += timedelta(days=1)  # the first write of a new day makes a copy
        book.add_event(1, "other", "2026-11-25", text=word())

print("ready", flush=True)
while True:
    write()
    print(book.digest(), flush=True)
"""

# Makes a book of the older version and brings it up to date, over and over.
MIGRATOR = """
import shutil, sys
from pathlib import Path
from wellbook.book import Book, opening, schema, session

new = schema.VERSION + 1
for module in (opening, schema, session):
    module.VERSION = new
schema.STEPS[new] = "CREATE TABLE extra AS SELECT result.*, random() AS r FROM result, result AS b;"
book, old = Path(sys.argv[1]), Path(sys.argv[1]).with_name("old")
print("ready", flush=True)
while True:
    Book.open(book).close()
    shutil.copyfile(old, book.with_name("fresh"))
    book.with_name("fresh").replace(book)
"""

COPIER = """
import sys
from datetime import date, timedelta
from pathlib import Path
from wellbook.book import copies

print("ready", flush=True)
day = date(2026, 1, 1)
while True:
    copies.make_copy(Path(sys.argv[1]), day)
    day += timedelta(days=1)
"""


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


def live_and_die(program, path, dice):
    """Run a program, kill it at some instant, return what it said."""
    process = subprocess.Popen(
        [sys.executable, "-c", program, str(path), str(dice.random())],
        stdout=subprocess.PIPE,
        text=True,
    )
    process.stdout.readline()
    time.sleep(dice.uniform(0.01, 0.5))
    process.send_signal(signal.SIGKILL)
    said, _ = process.communicate()
    return said.splitlines()


def test_every_acknowledged_write_is_there_and_every_sample_is_whole(tmp_path, catalogue):
    path = tmp_path / "home.wellbook"
    dice = random.Random(1)
    writes = left = 0
    for life in range(LIVES):
        if life % 10 == 0:
            shutil.rmtree(copies.folder_of(path), ignore_errors=True)
            path.unlink(missing_ok=True)
            with Book.create(path) as book:
                book.add_point(book.add_well("Home"), "Kitchen tap")
        said = live_and_die(WRITER, path, dice)
        left += path.with_name(f"{path.name}-journal").exists()
        with Book.open(path) as book:
            digests = {entry.digest for entry in book.journal()}
            whole = [line for line in said if len(line) == 64]
            assert digests.issuperset(whole)
            writes += len(whole)
            for sample in book.samples(with_struck=True):
                kept = len(book.results(sample=sample.id, with_struck=True))
                assert kept == int(sample.note) if sample.note else kept > 0
                assert len(book.documents(sample=sample.id)) == 1
        assert check(path, catalogue, date(2026, 11, 25)) == ()
        for copy in copies.copies_of(path):
            assert check(copy.path, catalogue, date(2026, 11, 25)) == ()
    assert writes > LIVES, "the writers hardly wrote"
    # Whether one does is chance; in a long run none would mean that the harness is blind.
    assert left or LIVES < 100, "no kill ever landed in the middle of a write"


def test_a_migration_that_is_killed_happened_whole_or_not_at_all(tmp_path):
    path = tmp_path / "home.wellbook"
    with Book.create(path) as book:
        book.add_point(book.add_well("Home"), "Kitchen tap")
        from decimal import Decimal

        from wellbook.book.rows import NewResult, NewSample
        from wellbook.water.values.local_time import LocalTime
        from wellbook.water.values.readings import Kind, Reading

        new = NewResult("iron", "Iron", Reading("1", Kind.NUMBER, Decimal(1), "mg/L"))
        book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3)), results=(new,) * 150))
    shutil.copyfile(path, path.with_name("old"))
    dice = random.Random(2)
    for _ in range(LIVES):
        live_and_die(MIGRATOR, path, dice)
        store = sqlite3.connect(path)
        version = store.execute("PRAGMA user_version").fetchone()[0]
        extra = store.execute("SELECT count(*) FROM sqlite_schema WHERE name = 'extra'")
        assert (version, extra.fetchone()[0]) in {(VERSION, 0), (VERSION + 1, 1)}
        assert store.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        assert store.execute("SELECT count(*) FROM result").fetchone()[0] == 150
        store.close()


def test_a_copy_that_is_killed_leaves_only_whole_copies(tmp_path, catalogue):
    path = tmp_path / "home.wellbook"
    frozen = Path(__file__).parent.parent / "data" / "books" / "version-1.wellbook"
    shutil.copyfile(frozen, path)
    dice = random.Random(3)
    for _ in range(LIVES):
        live_and_die(COPIER, path, dice)
        for copy in copies.copies_of(path):
            assert check(copy.path, catalogue, date(2026, 11, 25)) == ()
            copy.path.unlink()
        assert check(path, catalogue, date(2026, 11, 25)) == ()
