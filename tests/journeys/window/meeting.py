"""A new household says who it is, or skips that; later it says more from the menu."""

import costing
import hand
from PySide6.QtWidgets import QLabel, QSpinBox

from wellbook.book import Book


def _kept(path):
    with Book.open(path, readonly=True) as book:
        record = book.record()
        return {
            "settings": dict(record.settings),
            "points": [point.name for point in record.points],
            "labs": [lab.name for lab in record.labs],
            "events": [event.kind for event in record.events],
            "plans": {plan.panel: plan.months for plan in record.plans},
        }


def _new_book(told, name):
    yield from hand.press("Ctrl+N")
    yield from hand.answer(told.folder / name)
    assert hand.dialog() is not None, "nothing is asked of a new household"


def _say(field, text):
    yield from hand.click(costing._field(field))
    yield from hand.press("Ctrl+A")
    yield from hand.write(text)
    yield from hand.press("Tab")


def answered(told):
    yield from _new_book(told, "new.wellbook")
    yield from _say("Country", "CA")
    yield from _say("State or province", "ON")
    yield from _say("Tested by the lab", "Fernside Lab")
    yield from hand.press("Alt+2")
    told.facts["paper"] = hand.dialog().choices.boxes["paper"].currentText()
    told.facts["limit sets"] = list(hand.dialog().choices.sets.ticked())
    yield from hand.press("Alt+3")
    bacteria, *_ = hand.visible(QSpinBox)
    told.facts["bacteria"] = [bacteria.value()]
    yield from hand.press("Alt+1")
    yield from hand.push("in karst or broken rock")
    yield from hand.press("Alt+3")
    told.facts["bacteria"].append(bacteria.value())
    yield from hand.click(bacteria)
    yield from hand.press("Ctrl+A")
    yield from hand.write("2")
    yield from hand.press("Ctrl+Return")
    told.facts["kept"] = _kept(told.folder / "new.wellbook")
    told.note("answered")
    yield from hand.press("Ctrl+Z")
    told.facts["taken back"] = _kept(told.folder / "new.wellbook")
    told.note("taken back")


def skipped(told):
    yield from _new_book(told, "skipped.wellbook")
    asked = hand.dialog().windowTitle()
    yield from hand.press("Escape")
    told.facts["asked"] = [asked, hand.dialog().windowTitle()]
    yield from hand.press("Escape")
    told.facts["kept"] = _kept(told.folder / "skipped.wellbook")
    told.note("skipped")


def refused(told):
    yield from _new_book(told, "odd.wellbook")
    yield from _say("Country", "Atlantis")
    yield from hand.press("Ctrl+Return")
    told.facts["said"] = hand.dialog().bar.text
    told.facts["kept"] = _kept(told.folder / "odd.wellbook")
    yield from _say("Country", "DE")
    yield from hand.press("Ctrl+Return")
    told.facts["settings"] = _kept(told.folder / "odd.wellbook")["settings"]
    told.note("refused")
    yield from hand.press("Ctrl+Shift+,")
    yield from hand.press("Alt+2")
    yield from _say("Currency of costs", "USD")
    yield from hand.press("Alt+1")
    yield from _say("Country", "MX")
    yield from hand.press("Alt+2")
    choices = hand.dialog().choices
    told.facts["usual there"] = {key: box.currentText() for key, box in choices.boxes.items()}
    told.facts["wet"] = [number for number, box in enumerate(choices.months, 1) if box.isChecked()]
    yield from hand.press("Ctrl+Return")
    told.facts["moved"] = _kept(told.folder / "odd.wellbook")["settings"]
    told.facts["told"] = [w.text() for w in hand.visible(QLabel) if "compared" in w.text()]
    told.note("moved")
