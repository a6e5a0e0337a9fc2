"""What belongs to people and not to the well: left out of a packet unless it is ticked.

Address, coordinates and sampler are whole fields. They may also stand in somebody's free text;
there the same words are covered, visibly. What nobody entered as a private fact can't be known:
the person who hands a packet on reads it first.
"""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from wellbook.book import Book
from wellbook.sharing.excerpt import Excerpt
from wellbook.sharing.fields import Table
from wellbook.support.translation import N_, _

_Row = TypeVar("_Row")

COVERED = N_("[covered: personal]")
# Words of an address that stand in any report.
_COMMON = frozenset(
    {
        "road", "street", "lane", "drive", "avenue", "court", "place", "north", "south", "east",
        "west", "county", "town", "state", "hill", "lake", "river", "well", "wells", "water",
        "farm", "house", "home", "owner",
    }
)  # fmt: skip
_SHORTEST = 3  # fewer letters would cover parts of other words


@dataclass(frozen=True, slots=True)
class Privacy:
    """Covers private words in free text; covers nothing when there are none."""

    pattern: re.Pattern[str] | None

    def cover(self, text: str) -> str:
        """The text with private words covered."""
        return self.pattern.sub(_(COVERED), text) if self.pattern else text


def privacy(book: Book, *, with_personal: bool) -> Privacy:
    """The words that are private in this book; none if personal facts are to be shown."""
    whole = book.whole if isinstance(book, Excerpt) else book
    return Privacy(None if with_personal else _pattern(_private_words(whole)))


def redacted(table: Table, row: _Row, cover: Privacy, *, with_personal: bool) -> _Row:
    """A row of the record as it may be shown: covered where it is free, without what is personal.

    Args:
        table: What is declared of its fields.
        row: A value of the record that holds them.
        cover: Covers private words.
        with_personal: Whether personal facts are shown.
    """
    changed = {
        field.key: cover.cover(getattr(row, field.key)) if field.is_free else ""
        for field in table.fields
        if field.is_free or (field.is_personal and not with_personal)
    }
    return replace(row, **changed)  # type: ignore[type-var]  # every row is a dataclass


def telling_words(book: Book, *, with_personal: bool) -> tuple[str, ...]:
    """Words that give people away one by one, as a report of somebody else may print them."""
    if with_personal:
        return ()
    whole = book.whole if isinstance(book, Excerpt) else book
    fields = [one.sampler for one in whole.samples(with_struck=True)]
    for well in whole.wells():
        fields += [well.address, well.coordinates]
    words = {word for field in fields for word in re.findall(r"[^\W\d_]{4,}|\d+\.\d{3,}", field)}
    words |= {word.strip() for word in _private_words(whole) if len(word.strip()) > _SHORTEST}
    return tuple(sorted(word for word in words if word.casefold() not in _COMMON))


def _private_words(book: Book) -> Iterable[str]:
    for well in book.wells():
        yield well.address
        yield from well.address.split(",")[:1]
        yield well.coordinates
    for sample in book.samples(with_struck=True):
        yield sample.sampler
    for event in book.events():
        if event.is_about_people:
            yield event.text


def _pattern(words: Iterable[str]) -> re.Pattern[str] | None:
    kept = {word.strip() for word in words if len(word.strip()) >= _SHORTEST}
    if not kept:
        return None
    longest_first = sorted(kept, key=lambda word: (-len(word), word))
    return re.compile(
        "|".join(rf"(?<!\w){re.escape(word)}(?!\w)" for word in longest_first), re.IGNORECASE
    )
