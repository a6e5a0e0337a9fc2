"""Where the tests of a book come from: the packets that it was made or completed from.

A book remembers of each packet what that packet said of itself: its check code, its day, what it
left out, what had been corrected, which originals did not travel along. Each later packet of the
book says it again, and hands it on, so that nothing of it is lost in any number of generations.
"""

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Any

from wellbook.book import Book

SETTING = "sources"


@dataclass(frozen=True, slots=True)
class PastCorrection:
    """What a packet said was changed after it had been entered.

    Attributes:
        at: UTC time of the change, ISO 8601.
        sample: Number of the sample in this book; 0 if it is not in it.
        what: The reading or the test that was changed, in words without a number.
        before: What stood there.
        after: What stands there.
        reason: The reason given.
    """

    at: str
    sample: int
    what: str
    before: str
    after: str
    reason: str


@dataclass(frozen=True, slots=True)
class MissingOriginal:
    """A document that a packet named by its fingerprint and did not carry.

    Attributes:
        sample: Number of the sample in this book that it belongs to; 0 if it is of a well.
    """

    sample: int
    kind: str
    sha256: str


@dataclass(frozen=True, slots=True)
class LeftBehind:
    """How much of a book a packet left out by choice.

    Attributes:
        tests: Tests that count of which no reading was shown.
        of_tests: Tests that counted in the whole book.
        struck: Struck tests that were not shown.
        readings: Readings that were not shown.
        of_readings: Readings of tests that counted in the whole book.
        chosen: What was chosen, in words.
    """

    tests: int
    of_tests: int
    struck: int
    readings: int
    of_readings: int
    chosen: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Source:
    """A packet from which tests of this book came, directly or through a later packet.

    Attributes:
        code: Check code of the packet, as its bytes give it.
        is_compared: Whether it was compared with a code that the household told.
        day: The day that the packet spoke of, ISO 8601.
        maker: The program that made it.
        head: Digest of the record that it was made from.
        left_out: What it left out by choice; None if nothing.
        through: Code of the packet through which this is known; empty if it was read itself.
        samples: Numbers of the samples in this book that came from it.
        corrections: What it said was changed.
        missing: Originals that it did not carry.
    """

    code: str
    is_compared: bool
    day: str
    maker: str
    head: str
    left_out: LeftBehind | None
    through: str
    samples: tuple[int, ...]
    corrections: tuple[PastCorrection, ...]
    missing: tuple[MissingOriginal, ...]


def sources(book: Book) -> tuple[Source, ...]:
    """The packets that tests of a book came from, in the order in which they were taken in."""
    told = book.setting(SETTING)
    return tuple(map(_source, json.loads(told))) if told else ()


def keep_sources(book: Book, more: Iterable[Source]) -> None:
    """Remember further packets; one that is known under the same code is completed."""
    kept = {(one.code, one.through): one for one in sources(book)}
    for one in more:
        known = kept.get((one.code, one.through))
        kept[one.code, one.through] = one if known is None else _completed(known, one)
    text = json.dumps([asdict(one) for one in kept.values()], ensure_ascii=False)
    book.set_setting(SETTING, text)


def as_facts(found: Iterable[Source], samples: frozenset[int]) -> list[dict[str, Any]]:
    """Sources as they travel in a record that holds these samples."""
    return [
        asdict(
            replace(
                one,
                samples=tuple(number for number in one.samples if number in samples),
                corrections=tuple(
                    c for c in one.corrections if not c.sample or c.sample in samples
                ),
                missing=tuple(m for m in one.missing if not m.sample or m.sample in samples),
            )
        )
        for one in found
    ]


def handed_on(told: Mapping[str, Any], numbers: Mapping[int, int], through: str) -> Source:
    """A source that another packet told of, with the numbers that its samples have here."""
    one = _source(told)
    return replace(renumbered(one, numbers), through=one.through or through, is_compared=False)


def renumbered(one: Source, numbers: Mapping[int, int]) -> Source:
    """The same with other numbers of samples; what belongs to one that is unknown has none."""
    return replace(
        one,
        samples=tuple(numbers[number] for number in one.samples if number in numbers),
        corrections=tuple(replace(c, sample=numbers.get(c.sample, 0)) for c in one.corrections),
        missing=tuple(replace(m, sample=numbers.get(m.sample, 0)) for m in one.missing),
    )


def read_left_behind(told: Mapping[str, Any] | None) -> LeftBehind | None:
    """What a record says that its packet left out.

    Raises:
        LookupError, TypeError, ValueError: It is not told as it should be.
    """
    if told is None:
        return None
    counts = {
        key: int(told[key]) for key in ("tests", "of_tests", "struck", "readings", "of_readings")
    }
    return LeftBehind(**counts, chosen=tuple(map(str, told["chosen"])))


def read_corrections(told: Iterable[Mapping[str, Any]]) -> tuple[PastCorrection, ...]:
    """What a record says was changed.

    Raises:
        LookupError, TypeError, ValueError: It is not told as it should be.
    """
    words = ("what", "before", "after", "reason")
    return tuple(
        PastCorrection(str(one["at"]), int(one["sample"]), *(str(one[key]) for key in words))
        for one in told
    )


def _source(told: Mapping[str, Any]) -> Source:
    words = {key: str(told[key]) for key in ("code", "day", "maker", "head", "through")}
    return Source(
        **words,
        is_compared=told["is_compared"] is True,
        left_out=read_left_behind(told["left_out"]),
        samples=tuple(map(int, told["samples"])),
        corrections=read_corrections(told["corrections"]),
        missing=tuple(
            MissingOriginal(int(one["sample"]), str(one["kind"]), str(one["sha256"]))
            for one in told["missing"]
        ),
    )


def _completed(known: Source, more: Source) -> Source:
    """One source told twice: all that either says."""
    return replace(
        known,
        is_compared=known.is_compared or more.is_compared,
        samples=tuple(dict.fromkeys((*known.samples, *more.samples))),
        corrections=tuple(dict.fromkeys((*known.corrections, *more.corrections))),
        missing=tuple(dict.fromkeys((*known.missing, *more.missing))),
    )
