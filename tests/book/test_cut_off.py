"""What a crash leaves beside a book harms no other book, and going back leaves one in its place."""

import os
import subprocess
import sys
from datetime import date

import pytest

from wellbook.book import Book, copies, rescue
from wellbook.book.check import check
from wellbook.support import examples, paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue

TODAY = date(2026, 11, 25)
CATALOGUE = read_catalogue(paths.resources())

# A writer that ends in the middle of a write, after some of it has reached the file.
CUT_OFF = """
import os, sqlite3, sys
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("PRAGMA cache_size = 1")
connection.execute("BEGIN IMMEDIATE")
connection.execute("UPDATE result SET text = text || hex(zeroblob(40))")
connection.execute("UPDATE sample SET note = 'torn'")
os._exit(9)
"""

# Going back, ended by a signal before each step on the disk in turn.
ENDED = """
import os, shutil, signal, sys
from datetime import date
from pathlib import Path
from wellbook.book import copies

folder, source = Path(sys.argv[1]), Path(sys.argv[2])
steps = 99

def ending(step):
    def run(*arguments, **named):
        global steps
        steps -= 1
        if steps < 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return step(*arguments, **named)
    return run

os.link, os.unlink, Path.replace = ending(os.link), ending(os.unlink), ending(Path.replace)
Path.unlink = ending(Path.unlink)
for last in range(20):
    home = folder / str(last)
    home.mkdir()
    shutil.copyfile(source, home / "home.wellbook")
    child = os.fork()
    if child == 0:
        steps = last
        copies.restore(home / "home.wellbook", folder / "copy.wellbook", date(2026, 11, 25))
        os._exit(0)
    if os.waitpid(child, 0)[1] == 0:
        break
"""


@pytest.fixture
def copy(tmp_path):
    """A copy of a small book, which takes nothing of another one's journal without harm."""
    examples.copy("first-year", tmp_path / "copy.wellbook")
    return tmp_path / "copy.wellbook"


@pytest.fixture
def home(tmp_path):
    """Where a book lay that was removed after a crash; the journal of its last write is there."""
    path = tmp_path / "home.wellbook"
    examples.copy("alder-hollow", path)
    subprocess.run([sys.executable, "-c", CUT_OFF, path], check=False)
    path.unlink()
    assert journal_of(path).stat().st_size
    return path


def journal_of(path):
    return path.with_name(f"{path.name}-journal")


def is_whole(path):
    return check(path, CATALOGUE, TODAY) == ()


def test_going_back_where_only_the_journal_of_a_crash_lies_keeps_that_aside(home, copy):
    left = journal_of(home).read_bytes()
    assert copies.restore(home, copy, TODAY) is None
    assert is_whole(home)
    aside = copies.folder_of(home) / "home 2026-11-25 set aside 1.wellbook"
    assert journal_of(aside).read_bytes() == left
    home.unlink()
    journal_of(home).write_bytes(left)
    copies.restore(home, copy, TODAY)
    assert is_whole(home)
    assert len(list(copies.folder_of(home).glob("*-journal"))) == 2


def test_a_copy_takes_nothing_of_a_journal_that_lies_beside_its_place(home, copy):
    place = home.with_name(f"copy {TODAY}.wellbook")
    journal_of(home).replace(journal_of(place))
    assert copies.make_copy(copy, TODAY, home.parent) == place
    assert is_whole(place)


def test_what_a_copy_that_was_killed_left_goes_with_that_of_another_day(copy):
    folder = copies.folder_of(copy)
    folder.mkdir()
    left = [
        folder / f".wellbook-{mark * 16}.partial{end}" for mark in "ab" for end in ("", "-journal")
    ]
    for path in left:
        path.write_bytes(b"half")
    for path in left[:2]:
        os.utime(path, (0, 0))
    made = copies.make_copy(copy, TODAY)
    assert set(folder.iterdir()) == {made, *left[2:]}, "one that was written just now stays"


@pytest.mark.parametrize(
    "make",
    [
        Book.create,
        lambda path: examples.copy("first-year", path),
        lambda path: rescue.rescue(path.with_name("copy.wellbook"), path),
    ],
)
def test_nothing_new_is_made_beside_the_journal_of_another_book(home, copy, make):
    left = journal_of(home).read_bytes()
    with pytest.raises(Fault, match="wellbook-journal lies there"):
        make(home)
    assert not home.exists()
    assert journal_of(home).read_bytes() == left
    assert is_whole(copy)


def test_going_back_that_is_ended_at_any_step_leaves_a_whole_book_in_its_place(tmp_path, copy):
    source = tmp_path / "source.wellbook"
    examples.copy("alder-hollow", source)
    states = []
    subprocess.run([sys.executable, "-c", ENDED, tmp_path, source], check=True)
    for number in range(len(list(tmp_path.glob("[0-9]*")))):
        path = tmp_path / str(number) / "home.wellbook"
        states.append(path.read_bytes() == source.read_bytes())
        aside = copies.restore(path, copy, TODAY)
        assert is_whole(path)
        assert is_whole(aside)
        assert all(file.stat().st_nlink == 1 for file in path.parent.rglob("*.wellbook"))
        assert not list(path.parent.glob(".*.partial*"))
    assert states == sorted(states, reverse=True), "first as it was, from one step on as the copy"
    assert set(states) == {True, False}
