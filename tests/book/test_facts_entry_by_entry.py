"""Looking facts over entry by entry finds what comparing the whole record with its replay finds."""

import random
import sqlite3

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.book import Book, check, journal, reader
from wellbook.book.rows import NewResult, NewSample
from wellbook.book.schema import FACTS
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime


def lived_in(path):
    """A book whose rows were added, corrected, struck out, taken back and entered again."""
    with Book.create(path) as book:
        well = book.add_well("Home well")
        point = book.add_point(well, "Kitchen tap")
        for day in range(1, 9):
            results = tuple(
                NewResult(key, key, read_reading(f"{day}.{n}", unit="mg/L"))
                for n, key in enumerate(("iron", "sodium", "chloride"))
            )
            sample = book.add_sample(
                NewSample(
                    point=point, collected=LocalTime.parse(f"2026-01-0{day}"), results=results
                )
            )
            if day % 2:
                book.strike_sample(sample, "spilt")
            if day % 4 == 1:
                book.restore_sample(sample)
            if day % 3 == 0:
                book.undo()
            if day % 6 == 0:
                book.redo()
        event = book.add_event(well, "flood", "2026-02-01", text="knee-deep")
        book.remove("event", event)
        book.undo()
    return path


def tamper(connection, chance):
    """Change, remove or add rows behind the journal's back."""
    connection.execute("PRAGMA foreign_keys = OFF")
    triggers = connection.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
    for (name,) in triggers.fetchall():
        connection.execute(f"DROP TRIGGER {name}")
    for _ in range(chance.randrange(4)):
        deed = chance.choice(
            (
                "UPDATE result SET text = '99' WHERE id = ?",
                "DELETE FROM result WHERE id = ?",
                "UPDATE sample SET struck = 'no' WHERE id = ?",
                "DELETE FROM event WHERE id = ?",
                "INSERT OR IGNORE INTO lab (id, name) VALUES (?, 'Foreign lab')",
                'UPDATE journal SET changes = \'[["event",1,null,{"id":1}]]\' WHERE seq = ?',
                "DELETE FROM journal WHERE seq = ?",
                "UPDATE journal SET changes = '[1' WHERE seq = ?",
            )
        )
        connection.execute(deed, (chance.randrange(1, 12),))


@pytest.mark.parametrize("seed", range(40))
def test_the_same_lines_in_the_same_order(seed, tmp_path):
    connection = sqlite3.connect(lived_in(tmp_path / "a.wellbook"), isolation_level=None)
    tamper(connection, random.Random(seed))
    entries = list(reader.entries(connection))
    try:
        expected = list(journal.differences(journal.replay(entries), reader.facts(connection)))
    except (ValueError, LookupError, TypeError, AttributeError) as error:
        with pytest.raises(type(error)):
            list(check._facts(connection))
        return
    expected = [line[0].upper() + line[1:] for line in expected]
    found = [(one.key, one.text) for one in check._facts(connection)]
    links = [("journal", line) for line in journal.broken_links(entries)]
    assert found == [*links, *(("fact", line) for line in expected)]
    assert seed or set(FACTS) >= set(reader.facts(connection))
    connection.close()


def test_a_row_that_a_forged_journal_enters_twice_is_what_it_entered_last(tmp_path):
    connection = sqlite3.connect(lived_in(tmp_path / "a.wellbook"), isolation_level=None)
    connection.execute("DROP TRIGGER journal_is_never_changed")
    (last,) = connection.execute("SELECT max(seq) FROM journal").fetchone()
    for seq, told in (
        (last - 1, '[["event", 1, null, {"id": 1, "kind": "other"}]]'),
        (last, '[["event", 1, {"text": ""}, {"text": "dry"}]]'),
    ):
        connection.execute("UPDATE journal SET changes = ? WHERE seq = ?", (told, seq))
    (line,) = (one.text for one in check._facts(connection) if one.key == "fact")
    assert "kind other, text dry became " in line
    connection.close()


@given(st.lists(st.tuples(st.booleans(), st.integers(1, 9)), max_size=20))
@settings(max_examples=60, deadline=None)
def test_numbers_kept_as_stretches_are_those_that_were_put_in(steps):
    numbers, plain = check._Numbers(), set()
    for is_in, number in steps:
        (numbers.add if is_in else numbers.drop)(number)
        (plain.add if is_in else plain.discard)(number)
    assert {number for number in range(11) if number in numbers} == plain
