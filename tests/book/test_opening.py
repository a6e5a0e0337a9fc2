"""What is not a book, or can't be opened or written, gets one clear sentence."""

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from wellbook.book import Book, opening, schema
from wellbook.book.schema import APPLICATION_ID
from wellbook.support.errors import Fault


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "home.wellbook"
    with Book.create(path) as book:
        book.add_point(book.add_well("Home"), "Kitchen tap")
    return path


def test_a_closed_book_is_one_file_that_says_what_it_is(path):
    assert [file.name for file in path.parent.iterdir()] == ["home.wellbook"]
    assert path.read_bytes()[68:72] == APPLICATION_ID.to_bytes(4, "big") == b"WBOK"


def test_a_new_book_never_replaces_a_file(path):
    before = path.read_bytes()
    with pytest.raises(Fault, match="exists already"):
        Book.create(path)
    assert path.read_bytes() == before


@pytest.mark.skipif(not Path("/proc/self/fd").is_dir(), reason="open files are told by Linux only")
def test_a_file_that_is_refused_is_let_go_at_once(tmp_path):
    path = tmp_path / "other.sqlite"
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE birds (name TEXT)")
    connection.close()
    with pytest.raises(Fault, match="not a") as refused:
        Book.open(path)
    held = {link.readlink() for link in Path("/proc/self/fd").iterdir() if link.is_symlink()}
    assert refused.value
    assert path not in held


def test_a_missing_folder_is_said(tmp_path):
    with pytest.raises(Fault, match="does not exist"):
        Book.create(tmp_path / "nowhere" / "home.wellbook")
    with pytest.raises(Fault, match="does not exist"):
        Book.open(tmp_path / "home.wellbook")


def test_other_files_are_not_books(tmp_path):
    letter = tmp_path / "letter.wellbook"
    letter.write_text("Dear reader, this is not a book, though it is long enough to be one.")
    with pytest.raises(Fault, match="not a book"):
        Book.open(letter)
    with pytest.raises(Fault, match="is a folder"):
        Book.open(tmp_path)
    foreign = tmp_path / "foreign.wellbook"
    store = sqlite3.connect(foreign)
    store.execute("CREATE TABLE t (a)")
    store.close()
    with pytest.raises(Fault, match="not a book of Wellbook"):
        Book.open(foreign)


def test_a_newer_book_opens_for_reading_with_a_clear_word(path):
    store = sqlite3.connect(path)
    store.execute("PRAGMA user_version = 99")
    store.close()
    with Book.open(path) as book:
        assert book.wells()[0].name == "Home"
        with pytest.raises(Fault, match="written by a newer Wellbook"):
            book.add_well("Other")


def test_a_book_opened_for_reading_is_not_changed(path):
    before = path.read_bytes()
    with Book.open(path, readonly=True) as book:
        with pytest.raises(Fault, match="open for reading only"):
            book.add_well("Other")
        assert len(book.wells()) == 1
    assert path.read_bytes() == before


def test_a_book_that_another_one_writes_asks_for_patience(path):
    with Book.open(path) as book:
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN EXCLUSIVE")
        book._connection.execute("PRAGMA busy_timeout = 50")
        with pytest.raises(Fault, match="being written by another"):
            book.add_well("Other")
        other.execute("ROLLBACK")
        other.close()
        book.add_well("Other")
        assert len(book.wells()) == 2


def test_a_full_disk_changes_nothing(path):
    with Book.open(path) as book:
        pages = book._connection.execute("PRAGMA page_count").fetchone()[0]
        book._connection.execute(f"PRAGMA max_page_count = {pages}")
        with pytest.raises(Fault, match="is full"):
            book.add_well("Other", note="x" * 100_000)
        assert [well.name for well in book.wells()] == ["Home"]
        book._connection.execute("PRAGMA max_page_count = 100000")
        book.add_well("Other", note="x" * 100_000)


def test_a_damaged_book_is_said_to_be_damaged(path):
    whole = path.read_bytes()
    path.write_bytes(whole[:4096] + bytes(len(whole) - 4096))
    with pytest.raises(Fault, match="is damaged"), Book.open(path) as book:
        book.wells()


@pytest.mark.skipif(os.name != "posix", reason="folders are write-protected otherwise there")
def test_a_folder_that_can_not_be_written_is_said(path):
    # Root may write anywhere, so a child without root's rights tries it.
    path.parent.chmod(0o555)
    path.chmod(0o444)
    program = (
        "import os, sys, pathlib, sqlite_utils\n"
        "from wellbook.book import Book\n"
        "from wellbook.support.errors import Fault\n"
        "path = pathlib.Path(sys.argv[1])\n"
        "if os.getuid() == 0: os.setuid(65534)\n"
        "book = Book.open(path)\n"
        "print(book.wells()[0].name)\n"
        "for write in (lambda: book.add_well('Other'), lambda: Book.create(path.parent / 'new')):\n"
        "    try:\n"
        "        write()\n"
        "    except Fault as fault:\n"
        "        print(fault)\n"
    )
    above = [folder for folder in path.parent.parents if folder.stat().st_uid == os.getuid()]
    modes = [folder.stat().st_mode for folder in above]
    for folder, mode in zip(above, modes, strict=True):
        folder.chmod(mode | 0o011)
    done = subprocess.run(
        [sys.executable, "-c", program, str(path)], capture_output=True, text=True, check=False
    )
    for folder, mode in zip(above, modes, strict=True):
        folder.chmod(mode)
    path.parent.chmod(0o755)
    assert done.returncode == 0, done.stderr
    first, second, third = done.stdout.splitlines()
    assert first == "Home"
    assert "open for reading only" in second
    assert "can’t be opened: look whether" in third


@pytest.mark.parametrize(
    ("statement", "named"),
    [
        (
            "CREATE TRIGGER gone AFTER INSERT ON sample BEGIN DELETE FROM result; END",
            "trigger gone",
        ),
        ("CREATE VIEW all_of_it AS SELECT * FROM result", "view all_of_it"),
        ("ALTER TABLE result RENAME TO kept", "table kept"),
    ],
)
def test_what_another_program_put_into_a_book_is_named_before_anything_runs(path, statement, named):
    store = sqlite3.connect(path)
    store.execute(statement)
    store.close()
    before = path.read_bytes()
    with pytest.raises(Fault, match=named), Book.open(path) as book:
        book.add_well("Other")
    assert path.read_bytes() == before


def test_the_tables_of_a_new_book_are_known_by_their_digest():
    assert opening.digest_of(opening.own_tables()) == schema.TABLES_DIGEST
