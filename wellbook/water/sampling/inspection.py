"""The yearly look at a wellhead and its surroundings: its checklist, and what is to be mended."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.support.csv_rows import Stored, read_rows
from wellbook.water.values.partial_date import PartialDate, read_partial_date

GOOD, BAD, NOT_SEEN = ANSWERS = ("good", "bad", "not seen")
# Kinds under which `triggers.csv` says what a line asks for that was bad, and that was put right.
FOUND_BAD, PUT_RIGHT = "found bad", "put right"
# Lines that keep what is on the ground out of the well.
KEEPS_OUT = frozenset({"cap", "vent", "casing", "casing-height", "slope", "pit", "lid"})


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the checklist.

    Attributes:
        key: Stable key; books keep answers under it.
        name: What is looked at, to be said.
        line: How it is when it is good, to be said.
        do: What to do when it is bad, to be said.
        who: Who does that, to be said.
        caution: What can hurt someone, to be said; or empty.
        source: Who says so.
        checked: Whether it was read in a text.
    """

    key: str
    name: str
    line: str
    do: str
    who: str
    caution: str
    source: str
    checked: Stored


@dataclass(frozen=True, slots=True)
class Seen:
    """What was seen of one line at one inspection.

    Attributes:
        number: Number of the answer in its book.
        item: Key of the line.
        answer: One of `ANSWERS`.
        day: Day of the inspection: ISO date, month or year.
        text: The household's words.
        mended: When it was put right, likewise; empty while it is not.
    """

    number: int
    item: str
    answer: str
    day: str
    text: str = ""
    mended: str = ""


@dataclass(frozen=True, slots=True)
class ToMend:
    """A line that was bad and is not known to be mended.

    Attributes:
        item: Key of the line.
        seen: Every answer that found it bad since, in order; the last one tells how it is.
        since: The first day on which it may have been found; None where no day can be read.
    """

    item: str
    seen: tuple[Seen, ...]
    since: date | None


def read_checklist(folder: Path) -> tuple[Item, ...]:
    """The lines of `inspection.csv`, in the order of the file.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    return tuple(read_rows(folder / "inspection.csv", Item))


def to_mend(answers: Iterable[Seen], today: date) -> tuple[ToMend, ...]:
    """What was found bad and stays so, as far as the book knows, in the order of its first day.

    A bad answer stands until it was mended, or until a later inspection found the line good. Where
    dates are known to the month or year only, and the good one may be the earlier, it still stands.

    Args:
        answers: All that was seen at one well.
        today: Nothing that was seen or mended later counts.
    """
    known = [(seen, read_partial_date(seen.day)) for seen in answers]
    past = [(seen, day) for seen, day in known if day is None or day.first <= today]
    found: dict[str, list[tuple[Seen, PartialDate | None]]] = {}
    for seen, day in past:
        if seen.answer == BAD and not _is_cleared(seen, day, past, today):
            found.setdefault(seen.item, []).append((seen, day))
    made = [_to_mend(item, bad) for item, bad in found.items()]
    return tuple(sorted(made, key=lambda fault: (fault.since or date.min, fault.item)))


def can_be_mended(seen: Seen, mended: str) -> bool:
    """Whether a day on which something was put right may lie after the day it was found bad."""
    done, day = read_partial_date(mended), read_partial_date(seen.day)
    return done is not None and (day is None or done.last >= day.first)


def _is_cleared(
    bad: Seen,
    day: PartialDate | None,
    answers: Iterable[tuple[Seen, PartialDate | None]],
    today: date,
) -> bool:
    mended = read_partial_date(bad.mended)
    if mended and mended.first <= today and can_be_mended(bad, bad.mended):
        return True
    return day is not None and any(
        seen.item == bad.item and seen.answer == GOOD and later and later.first > day.last
        for seen, later in answers
    )


def _to_mend(item: str, bad: list[tuple[Seen, PartialDate | None]]) -> ToMend:
    bad.sort(key=lambda one: (one[1].first if one[1] else date.min, one[0].number))
    days = [day.first for _seen, day in bad if day]
    return ToMend(item, tuple(seen for seen, _day in bad), min(days, default=None))
