"""A round is drawn, the lab telephones, its report denies it: by clicks, counted."""

import doors
import hand
from PySide6.QtWidgets import QCheckBox, QLabel, QPushButton

from wellbook.book import Book
from wellbook.window.pages.overview.due_banner import DueBanner


def _facts(told):
    """Samples awaited, and readings told before their report, in the file on the disk."""
    with Book.open(told.books[0], readonly=True) as book:
        early = [one for one in book.results() if "preliminary" in one.reading.flags]
        return [len(book.record().drawn), len(early)]


def _said():
    """What stands in the banner of the overview."""
    (banner,) = hand.visible(DueBanner)
    return " ".join(label.text() for label in hand.visible(QLabel, banner))


def _tick(name):
    boxes = [
        w for w in hand.visible(QCheckBox) if hand.plain(w.text()).startswith(hand.plain(name))
    ]
    return boxes[0]


def from_draw_to_report(told):
    yield from doors.to("round", told)
    yield from hand.push("It was drawn…")
    told.note("drawn")
    yield from hand.push("It is on its way")
    told.facts["drawn"] = _facts(told)
    yield from hand.leave_dialogs()
    yield from hand.press("Alt+1")
    told.facts["awaited"] = "Awaited since" in _said()
    told.note("awaited")
    clicks = 0
    for target in (
        lambda: hand.button("The lab called…"),
        lambda: _tick("E. coli found"),
        lambda: hand.button("Keep as preliminary"),
    ):
        yield from hand.click(target())
        clicks += 1
        told.note(f"telephone {clicks}")
    told.facts["after clicks"] = [clicks, *_facts(told)]
    told.facts["said"] = "Preliminary, by telephone" in _said()
    assert not hand.visible(QPushButton, hand.dialog()) if hand.dialog() else True
    yield from hand.press("Ctrl+Z")
    told.facts["taken back"] = _facts(told)
