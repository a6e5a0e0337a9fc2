"""Two windows, two programs, a synced folder: nobody's work is lost, and people are told."""

import os
import subprocess
import sys
import threading
import time
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal
from types import SimpleNamespace

import pytest

from wellbook.book import Book, journal, opening
from wellbook.book.check import check
from wellbook.book.rows import NewResult, NewSample
from wellbook.support.errors import Fault
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading

IRON = NewResult("iron", "Iron", Reading("0.30", Kind.NUMBER, Decimal("0.30"), "mg/L"))
NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        yield made


def test_what_somebody_else_wrote_is_noticed_before_a_change_that_rests_on_it(book):
    with Book.open(book.path) as other:
        number = other.add_sample(NewSample(1, LocalTime(date(2024, 5, 3))))
        with pytest.raises(Fault, match="changed by another window or program"):
            book.strike_sample(number, "wrong bottle")
        assert not book.sample(number).struck
        book.strike_sample(number, "wrong bottle")
        book.add_well("Barn")
        other.add_well("Orchard")
        assert not list(journal.broken_links(other.journal()))


class Slow(dict):
    """Parameters that take their time to be looked up: each look-up holds the book's lock."""

    def __init__(self, *args):
        super().__init__(*args)
        self.begun, self.asked = threading.Event(), 0

    def __contains__(self, key):
        self.asked += 1
        self.begun.set()
        time.sleep(0.05)
        return super().__contains__(key)


def test_looking_the_book_over_steps_aside_for_a_write_and_begins_anew(book, monkeypatch):
    monkeypatch.setattr(opening, "_BUSY_MS", 100)
    with Book.open(book.path) as writer:
        results = tuple(replace(IRON, parameter=f"p{n}") for n in range(60))
        writer.add_sample(NewSample(1, LocalTime(date(2024, 5, 3)), results=results))
        slow = Slow({result.parameter: None for result in results})
        answers = []
        catalogue = SimpleNamespace(parameters=slow)
        look = threading.Thread(
            target=lambda: answers.append(check(book.path, catalogue, date(2026, 11, 25)))
        )
        look.start()
        assert slow.begun.wait(10)
        writer.add_well("Barn")
        assert look.is_alive(), "it was written while the book was looked over"
        look.join()
    assert answers == [()]
    assert slow.asked > len(results), "it began anew"


def test_a_write_waits_for_what_this_program_reads_beside_it(book, monkeypatch):
    monkeypatch.setattr(opening, "_BUSY_MS", 100)
    for n in range(60):
        book.add_event(1, "flood", f"2019-04-{n % 28 + 1:02}")
    begun, read = threading.Event(), []

    def gather(path):
        with Book.open(path) as opened, opened.again() as same:
            for row in same._connection.execute("SELECT * FROM event ORDER BY day || text"):
                read.append(row)
                begun.set()
                time.sleep(0.01)

    with Book.open(book.path) as writer:
        reader = threading.Thread(target=gather, args=(book.path,))
        reader.start()
        assert begun.wait(10)
        writer.add_well("Barn")
        reader.join()
    assert len(read) == 60


# What rests on a row that a person looked at; what only adds does not.
RESTING = {
    "correct_result": lambda b: b.correct_result(1, IRON, "misread"),
    "correct_sample": lambda b: b.correct_sample(1, "misread", lab="Other Lab"),
    "change_well": lambda b: b.change_well(1, note="drilled"),
    "change_point": lambda b: b.change_point(1, name="Tank tap"),
    "change_event": lambda b: b.change_event(1, kind="repair"),
    "remove": lambda b: b.remove("event", 1),
    "strike_sample": lambda b: b.strike_sample(1, "wrong bottle"),
    "undo": lambda b: b.undo(),
}


def test_each_change_of_a_row_is_refused_once_after_somebody_else_wrote(book):
    book.add_event(1, "flood", "2019-04-20")
    book.add_sample(NewSample(1, LocalTime(date(2024, 5, 3)), results=(IRON,)))
    for name, change in RESTING.items():
        with Book.open(book.path) as other:
            other.set_setting("seasons", name)
        digest = book.digest()
        with pytest.raises(Fault, match="changed by another window or program"):
            change(book)
        assert book.digest() == digest, name


def test_a_file_that_was_replaced_or_removed_is_not_written(book):
    replaced = book.path.with_name("synced.wellbook")
    Book.create(replaced).close()
    replaced.replace(book.path)
    with pytest.raises(Fault, match="another file lies in its place"):
        book.add_well("Barn")
    book.path.unlink()
    with pytest.raises(Fault, match="it is gone"):
        book.add_well("Barn")


WRITER = """
import sys, time
from pathlib import Path
from wellbook.book import Book
until = time.monotonic() + float(sys.argv[3])
with Book.open(Path(sys.argv[1])) as book:
    count = 0
    while time.monotonic() < until or count < 8:
        book.add_event(1, "other", "2026-11-25", text=f"{sys.argv[2]} {count}")
        count += 1
        time.sleep(0.01)  # people take turns; without it one of the two may starve
print(count)
"""


def test_two_programs_that_write_in_turn_lose_nothing(book):
    seconds = os.environ.get("WELLBOOK_TEST_SECONDS", "3")
    running = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(book.path), name, seconds],
            stdout=subprocess.PIPE,
            text=True,
        )
        for name in ("one", "two")
    ]
    counts = [int(process.communicate()[0]) for process in running]
    texts = [event.text for event in book.events()]
    for name, count in zip(("one", "two"), counts, strict=True):
        assert count > 5
        assert [t for t in texts if t.startswith(name)] == [f"{name} {i}" for i in range(count)]
    assert not list(journal.broken_links(book.journal()))
