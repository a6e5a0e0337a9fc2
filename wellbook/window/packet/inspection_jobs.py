"""What is done with a packet on another thread, and what is said of it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from wellbook.book import Book
from wellbook.packet.receive import inspection, merge
from wellbook.packet.receive.inspection import Inspection
from wellbook.packet.receive.merge import Merged
from wellbook.packet.receive.packet_file import Packet
from wellbook.packet.receive.same_test import Answer, Difference
from wellbook.packet.receive.verify import Outcome
from wellbook.support.translation import _
from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.jobs import Tell
from wellbook.window.common.words import day_words, language

# The marks are those of readings: a full disc holds, an empty one only agrees with itself, a
# diamond is not as it should be, a square can't be told.
MARKS = {
    Outcome.HOLDS: Verdict.WITHIN,
    Outcome.AGREES: Verdict.UNDETECTED,
    Outcome.FAILS: Verdict.OUTSIDE,
    Outcome.OPEN: Verdict.UNDECIDABLE,
}


@dataclass(frozen=True, slots=True)
class Looked:
    """A packet that was looked over, perhaps beside a book.

    Attributes:
        new: What it would add to the book; None if there is none, or nothing is to be taken from
            the packet.
    """

    inspected: Inspection
    new: Merged | None = None


def look_over(path: Path, into: Book | None, tell: Tell) -> Looked:
    """Inspection a packet over, and count what it would add to a book.

    Raises:
        Fault: The packet or the book can't be read.
    """
    inspected = inspection.look_over(path, check_cancelled=partial(tell, 0, 0, ""))
    new = None
    if into is not None and not inspected.is_changed:
        with into.again() as book:
            new = merge.preview_of(inspected.packet, book)
    tell(0, 0, "")
    return Looked(inspected, new)


def compare(looked: Looked, told: str, tell: Tell) -> Looked:
    """The same packet looked over beside a code that somebody told."""
    tell(0, 0, "")
    return replace(looked, inspected=inspection.compared(looked.inspected, told))


def make_book(packet: Packet, new: Path, tell: Tell) -> Path:
    """Make a book from a packet; stopping leaves none."""
    from wellbook.packet.receive.receive import make

    make(packet, new, check_cancelled=partial(tell, 0, 0, ""))
    return new


def add_new(packet: Packet, into: Book, answers: Mapping[int, Answer], tell: Tell) -> Merged:
    """Add to a book what it lacks, and do with what differs as answered; stopping adds nothing.

    The file is opened once more, because an open book belongs to the thread that opened it. Both
    see whole entries only: what is added is one transaction.
    """
    with into.again(readonly=False) as book:
        return merge.merge_of(
            packet, book, answers=answers, check_cancelled=partial(tell, 0, 0, "")
        )


def verdict_words(inspected: Inspection) -> str:
    """Whether the packet can be relied on."""
    if inspected.is_changed:
        return _("This packet does not stand a check. Don’t rely on it: ask for it again.")
    if inspected.is_compared:
        return _("This is, byte for byte, the file whose code you were told.")
    return _(
        "This packet agrees with itself. That does not show who made it: compare its check code."
    )


def content_words(inspected: Inspection) -> str:
    """How much is in the packet, and from when."""
    said = _counts(
        (_("wells: {count}"), inspected.wells),
        (_("sampling points: {count}"), inspected.points),
        (_("tests: {count}"), inspected.tests),
    )
    parts = [_("In it are {counts}.").format(counts=said)]
    if inspected.days is not None:
        first, last = map(day_words, inspected.days)
        said = _("The tests are from {first} to {last}.")
        parts.append(said.format(first=first, last=last))
    if inspected.struck:
        said = _("Tests that were struck out: {count}.")
        parts.append(said.format(count=language().toString(inspected.struck)))
    return " ".join(parts)


def new_words(new: Merged) -> str:
    """What a packet would add to the book."""
    if new.nothing:
        return _("Nothing in it is new: this book has all of it already.")
    said = _("New for this book: {counts}. Tests that it has already: {known}.")
    return said.format(counts=merged_words(new), known=language().toString(new.known))


def added_words(new: Merged, name: str) -> str:
    """What was added."""
    if new.nothing:
        said = _("Nothing in {name} was new: nothing was added.")
        return said.format(name=name)
    said = _("Added from {name}: {counts}.")
    return said.format(name=name, counts=merged_words(new))


def merged_words(new: Merged) -> str:
    """What is new, counted; what there is none of is left out."""
    return _counts(
        *(
            (words, count)
            for words, count in (
                (_("tests: {count}"), new.tests),
                (_("wells: {count}"), new.wells),
                (_("sampling points: {count}"), new.points),
                (_("events: {count}"), new.events),
                (_("treatment units: {count}"), new.units),
                (_("labs: {count}"), new.labs),
                (_("services: {count}"), new.services),
                (_("costs: {count}"), new.expenses),
                (_("originals: {count}"), new.documents),
                (_("tests that differ: {count}"), len(new.differences)),
            )
            if count
        )
    )


def answer_words() -> tuple[tuple[str, Answer | None], ...]:
    """What can be done with a test of which packet and book say other things."""
    return (
        (_("Choose what is to become of it…"), None),
        (_("Take what the packet says"), Answer.TAKE),
        (_("Keep what this book says"), Answer.KEEP),
        (_("Have both, as two tests"), Answer.BOTH),
    )


def difference_words(difference: Difference) -> str:
    """A test, and in what packet and book say other things of it."""
    lines = [
        _("{what}: {here} in this book, {there} in the packet").format(
            what=change.what, here=change.here, there=change.there
        )
        for change in difference.changes
    ]
    return "\n".join((difference.test, *lines))


def _counts(*told: tuple[str, int]) -> str:
    return ", ".join(words.format(count=language().toString(count)) for words, count in told)
