"""A damaged book is said to be damaged: no traceback, and no wrong fact shown without a word."""

import os
import random
from datetime import date
from pathlib import Path

import pytest

from wellbook.book import Book
from wellbook.book.check import check
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue

BOOKS = sorted((Path(__file__).parent.parent / "data" / "books").glob("version-*.wellbook"))
FLIPS = int(os.environ.get("WELLBOOK_FLIPS", "240")) // len(BOOKS)  # of each book


@pytest.fixture(params=BOOKS, ids=lambda path: path.stem)
def whole_book(request):
    """A book of each version: an older one is brought up to date in memory when it is read."""
    return request.param


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


def everything(path):
    with Book.open(path, readonly=True) as book:
        return (
            book.wells(),
            book.points(),
            book.units(),
            book.services(),
            book.labs(),
            book.samples(with_struck=True),
            book.results(with_struck=True),
            book.events(),
            book.plans(),
            book.setting("seasons"),
            [(document, book.content(document.id)) for document in book.documents()],
            book.journal(),
            book.doubts(),
        )


def what_is_said(path, catalogue):
    """`refused`, `found` when a look over the book names the damage, or the facts."""
    try:
        facts = everything(path)
    except Fault:
        return "refused"
    try:
        found = check(path, catalogue, date(2026, 11, 25))
    except Fault:
        return "refused"
    return "found" if found else facts


def test_a_whole_book_has_nothing_to_say(whole_book, catalogue):
    assert what_is_said(whole_book, catalogue) == everything(whole_book)


def test_a_book_cut_off_anywhere_is_refused_or_found_out(whole_book, tmp_path, catalogue):
    content = whole_book.read_bytes()
    path = tmp_path / "cut.wellbook"
    for length in range(0, len(content), 512):
        path.write_bytes(content[:length])
        assert what_is_said(path, catalogue) in {"refused", "found"}, length


def test_a_flipped_bit_never_changes_a_fact_unnoticed(whole_book, tmp_path, catalogue):
    content = whole_book.read_bytes()
    whole = everything(whole_book)
    path = tmp_path / "flipped.wellbook"
    dice = random.Random(20261125)
    said = {"refused": 0, "found": 0, "unharmed": 0}
    for _ in range(FLIPS):
        place, bit = dice.randrange(len(content)), 1 << dice.randrange(8)
        path.write_bytes(content[:place] + bytes([content[place] ^ bit]) + content[place + 1 :])
        answer = what_is_said(path, catalogue)
        if isinstance(answer, tuple):
            assert answer == whole, f"byte {place}, bit {bit}"
            answer = "unharmed"
        said[answer] += 1
    assert said["refused"] + said["found"] > 0
