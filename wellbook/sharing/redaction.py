"""What belongs to people and not to the well: left out of a packet unless it is ticked.

Address, coordinates and sampler are whole fields. Their words may also stand one by one in any
other column, shortened or in another spelling, and coordinates with fewer digits; there they are
covered, visibly, and the household is shown each place. What nobody entered as a private fact can't
be known: the person who hands a packet on reads it first.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from typing import TypeVar

from wellbook.book.record import Record
from wellbook.sharing.fields import Table
from wellbook.support.translation import N_, _

_Row = TypeVar("_Row")

COVERED = N_("[covered: personal]")
# Words that stand in any report: of addresses, of labs, of what is tested, of the calendar.
_COMMON = frozenset(
    {
        "road", "street", "lane", "drive", "avenue", "court", "place", "north", "south", "east",
        "west", "county", "town", "state", "hill", "lake", "river", "well", "wells", "water",
        "farm", "house", "home", "owner", "lab", "labs", "laboratory", "laboratories",
        "analytical", "testing", "sample", "sampler", "staff", "technician", "lead", "iron",
        "copper", "silver", "tin", "zinc", "arsenic", "january", "february", "march", "april",
        "may", "june", "july", "august", "september", "october", "november", "december", "baby",
        "child", "doctor", "moved", "spring", "summer", "autumn", "winter", "with", "from", "that",
        "this", "none", "kitchen", "tap", "the", "and", "for",
    }
)  # fmt: skip
_SHORTEST = 3  # fewer letters would cover parts of other words
_FULL = 4  # letters from which on a word is found in small letters, too
_LEAST_CUT = 3  # letters that a shortened word keeps
_DIGITS = 2  # decimals from which on one coordinate alone is found
_COORDINATE = re.compile(r"(?<![\w.])-?\d{1,3}\.\d+")
_FIGURE = re.compile(r"[<>≤≥=~\s]*-?[\d.,]+(e[+-]?\d+)?\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Privacy:
    """Covers private words in text; covers nothing when there are none.

    Attributes:
        pattern: The words, longest first; None if there is none.
        places: Coordinates of wells.
    """

    pattern: re.Pattern[str] | None
    places: tuple[Decimal, ...] = ()

    def cover(self, text: str) -> str:
        """The text with private words and coordinates covered."""
        if not text:
            return text
        covered = self.pattern.sub(_(COVERED), text) if self.pattern else text
        if not self.places:
            return covered
        found = [one for one in _COORDINATE.finditer(covered) if self._is_place(one[0])]
        near = [one for one in _COORDINATE.finditer(covered) if self._is_near(one[0])]
        hits = near if len({abs(Decimal(one[0])) for one in near}) > 1 else found
        for one in reversed(hits):
            covered = covered[: one.start()] + _(COVERED) + covered[one.end() :]
        return covered

    def cover_reading(self, text: str) -> str:
        """The same of what a lab printed as a result or limit, where a plain figure stays."""
        return text if _FIGURE.fullmatch(text) else self.cover(text)

    def found(self, text: str) -> tuple[str, ...]:
        """What is covered in a text, each once."""
        if self.cover(text) == text:
            return ()
        words = [one[0] for one in self.pattern.finditer(text)] if self.pattern else []
        near = [one[0] for one in _COORDINATE.finditer(text) if self._is_near(one[0])]
        return tuple(dict.fromkeys((*words, *near)))

    def _is_place(self, said: str) -> bool:
        """One coordinate, rounded or cut, with enough digits to be none by chance."""
        return len(said.partition(".")[2]) >= _DIGITS and self._is_near(said)

    def _is_near(self, said: str) -> bool:
        number = abs(Decimal(said))
        digits = Decimal(1).scaleb(-len(said.partition(".")[2]))
        return any(
            number in {place.quantize(digits, ROUND_HALF_UP), place - place % digits}
            for place in self.places
        )


def privacy(record: Record, *, with_personal: bool, shown: Iterable[str] = ()) -> Privacy:
    """The words that are private in the whole record; none if personal facts are to be shown.

    Args:
        record: The record, or an excerpt of it.
        with_personal: Whether facts about people are to be shown.
        shown: Words that the household lets be shown all the same.
    """
    if with_personal:
        return Privacy(None)
    if isinstance(record.cover, Privacy):
        return record.cover  # it is covered already
    whole = record.whole or record
    let = {word.casefold() for word in shown}
    wholes = [word.strip() for word in _private_words(whole)]
    words = {word for word in _single_words(whole) if word.casefold() not in let}
    kept = {word for word in wholes if len(word) >= _SHORTEST and word.casefold() not in let}
    places = [
        abs(Decimal(one)) for well in whole.wells for one in _COORDINATE.findall(well.coordinates)
    ]
    return Privacy(_pattern(kept, words), tuple(one for one in places if str(one) not in let))


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


def identifying_words(record: Record, *, with_personal: bool) -> tuple[str, ...]:
    """Words that give people away one by one, as a report of somebody else may print them."""
    if with_personal:
        return ()
    whole = record.whole or record
    words = {word for word in _single_words(whole) if len(word) > _SHORTEST}
    words |= {word for well in whole.wells for word in re.findall(r"\d+\.\d{3,}", well.coordinates)}
    words |= {word.strip() for word in _private_words(whole) if len(word.strip()) > _SHORTEST}
    return tuple(sorted(words))


def _private_words(record: Record) -> Iterable[str]:
    """Whole fields about people; a lab that drew the sample is none."""
    labs = {lab.name.casefold() for lab in record.labs}
    for well in record.wells:
        yield well.address
        yield from well.address.split(",")[:1]
        yield well.coordinates
    for sample in record.samples(with_struck=True):
        if sample.sampler.casefold() not in labs:
            yield sample.sampler
    for event in record.events:
        if event.is_about_people:
            yield event.text


def _single_words(record: Record) -> Iterator[str]:
    """Names, streets and towns word by word, numbers of a postal code, names in private events."""
    labs = {lab.name.casefold() for lab in record.labs}
    named = [well.address for well in record.wells]
    named += [one.sampler for one in record.samples(with_struck=True)]
    for text in named:
        if text.casefold() not in labs:
            yield from filter(_is_telling, re.findall(r"[^\W\d_]{3,}|\d{4,}", text))
    for event in record.events:
        if event.is_about_people:
            words = re.findall(r"[^\W\d_]{4,}", event.text)
            yield from (word for word in words if word[:1].isupper() and _is_telling(word))


def _is_telling(word: str) -> bool:
    return word.casefold() not in _COMMON and (len(word) >= _FULL or word[:1].isupper())


def _pattern(wholes: Iterable[str], words: Iterable[str]) -> re.Pattern[str] | None:
    forms = {rf"(?i:{re.escape(form)})" for word in wholes for form in _spellings(word)}
    for word in words:
        for form in _spellings(word):
            forms.add(_single(form))
            if word.isalpha() and len(word) > _FULL:
                forms |= _cut(form)
    if not forms:
        return None
    longest_first = sorted(forms, key=lambda form: (-len(form), form))
    return re.compile("|".join(rf"(?<![^\W_]){form}(?![^\W_])" for form in longest_first))


def _single(word: str) -> str:
    """A short word only as a name is written, a longer one however it is written."""
    return re.escape(word) if len(word) < _FULL else rf"(?i:{re.escape(word)})"


def _cut(word: str) -> set[str]:
    """`Quillw.` for Quillwort."""
    return {rf"(?i:{re.escape(word[:end])}\.)" for end in range(_LEAST_CUT, len(word))}


def _spellings(word: str) -> set[str]:
    """As it is written, and without its accents."""
    plain = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", word)
        if not unicodedata.combining(letter)
    )
    return {word, plain}
