"""What a packet says of itself in the record that travels in it, for every packet after it."""

from dataclasses import asdict
from datetime import date
from typing import Any

from wellbook.book import Book
from wellbook.packet.corrections import Named, Names, corrections
from wellbook.sharing.excerpt import LeftOut
from wellbook.sharing.redaction import privacy
from wellbook.sharing.sources import LeftBehind, PastCorrection, as_facts, sources
from wellbook.support.translation import ENGLISH, _, using


def travelling(book: Book, today: date, left: LeftOut | None) -> dict[str, Any]:
    """The packet's day, what it leaves out, what was changed, and where its tests came from.

    It is told in English whatever the language of the pages, and without facts about people.

    Args:
        book: The record, or an excerpt of it.
        today: The day that the packet speaks of.
        left: What the excerpt leaves out; None if nothing was narrowed.
    """
    with using(ENGLISH):
        names = _names(book)
        cover = privacy(book, with_personal=False)
        changed = corrections(book.journal(), names, cover, with_personal=False)
    told = [
        PastCorrection(one.at, one.sample, one.plain, one.before, one.after, one.reason)
        for one in changed
    ]
    samples = frozenset(one.id for one in book.samples(with_struck=True))
    behind = None if left is None or left.is_whole else asdict(_left_behind(left))
    return {
        "packet": {"day": today.isoformat(), "left_out": behind},
        "corrections": [asdict(one) for one in told],
        "sources": as_facts(sources(book), samples),
    }


def _names(book: Book) -> Names:
    names: Names = {
        ("sample", one.id): Named(one.id, "", _("the test itself"))
        for one in book.samples(with_struck=True)
    }
    for one in book.results(with_struck=True):
        names["result", one.id] = Named(one.sample, "", one.name)
    return names


def _left_behind(left: LeftOut) -> LeftBehind:
    return LeftBehind(
        left.tests, left.of_tests, left.struck, left.readings, left.of_readings, left.chosen
    )
