"""What a test cost: entered by hand, refused where it can't be read, corrected, taken back."""

import doors
import hand
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPlainTextEdit

from wellbook.book import Book


def _kept(told):
    """The costs in the file, as it lies on the disk."""
    with Book.open(told.books[0], readonly=True) as book:
        return [f"{test.cost} {test.currency}" for test in book.samples() if test.cost]


def _field(name):
    """The field of a label, or one that bears the name itself."""
    led = [w.buddy() for w in hand.visible(QLabel) if _plain(w.text()).startswith(name)]
    known = hand.visible(QLineEdit) + hand.visible(QComboBox)
    found = [w for w in known if _called(w).startswith(name)]
    field = next(iter([*filter(None, led), *found]), None)
    assert field is not None, f"no field {name} is in sight"
    return field.lineEdit() if isinstance(field, QComboBox) else field


def _called(field):
    return field.accessibleName() or field.parent().accessibleName()


def _plain(text):
    return text.replace("&", "")


def _write_over(field, text):
    yield from hand.click(field)
    yield from hand.press("Ctrl+A")
    yield from hand.write(text)
    yield from hand.press("Tab")  # what is offered below the field goes away


def from_entry_to_undo(told):
    yield from doors.to("by hand", told)
    yield from hand.write("2026-10-01")
    yield from hand.click(_field("Parameter, line 1"))
    yield from hand.enter("Iron", "0.2")
    yield from _write_over(_field("Cost"), "$85.50")
    yield from _write_over(_field("Currency"), "usd")
    yield from hand.press("Ctrl+Return")
    told.facts["a sign is refused"] = [hand.dialog().bar.text, *_kept(told)]
    yield from _write_over(_field("Cost"), "85,50")
    yield from hand.keep()
    told.facts["entered"] = _kept(told)
    yield from doors.to("correct a test", told)
    yield from _write_over(_field("Cost"), "86")
    (reason,) = hand.visible(QPlainTextEdit)
    yield from hand.click(reason)
    yield from hand.write("The bill says so")
    yield from hand.press("Ctrl+Return")
    told.facts["corrected"] = _kept(told)
    yield from hand.press("Ctrl+Z")
    told.facts["taken back"] = _kept(told)
    told.note("cost")
