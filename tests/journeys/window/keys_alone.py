"""From the start page through a first test to a packet, without a mouse."""

import hand
from PySide6.QtWidgets import QApplication, QFileDialog

LINES = ("Nitrate 11.2 mg/L as N", "Iron 0.2 mg/L", "E. coli absent")
MOST = 60  # presses of Tab to anything on a page


def first_test_and_packet(told):
    yield from hand.press("Ctrl+W")
    yield from _tab_to("Type in a paper report")
    yield from hand.press("Return")
    yield lambda: hand.dialog() is not None
    yield hand.Rest()
    told.note("a button of the start page is pressed by Return")
    yield from hand.write("2026-10-01")
    yield from _tab_to("Parameter, line 1")
    yield from hand.enter(*LINES, most=3)
    yield from hand.keep()
    yield lambda: hand.main_window().windowTitle() == "my-well"
    yield hand.Rest()
    told.note("the first test")
    told.facts["answer"] = hand.main_window().view.pages.currentWidget().answer.head.text()
    yield from _tab_to("Tests")
    yield from hand.press("Return")
    told.facts["page"] = hand.main_window().view.page.value
    told.note("a link of the head is pressed by Return")
    yield from hand.press("Ctrl+H")
    yield lambda: hand.button("Write the file") is not None
    yield hand.Rest()
    yield from hand.press("Return")
    assert isinstance(hand.dialog(), QFileDialog)
    yield from hand.answer(told.folder / "keys.pdf")  # in the system's own dialog
    yield lambda: hand.button("Open the folder") is not None
    told.facts["packet"] = (told.folder / "keys.pdf").stat().st_size
    told.note("the packet")
    yield from hand.leave_dialogs()
    yield from hand.press("Ctrl+F")
    yield from hand.press("Ctrl+Z")
    told.facts["undone"] = hand.main_window().bar.text
    told.note("nothing was typed in the field, so the book is meant")


def _tab_to(name):
    for _ in range(MOST):
        at = QApplication.focusWidget()
        around = at.parentWidget() if at is not None else None
        if any(one is not None and name in hand.label(one) for one in (at, around)):
            return
        yield from hand.press("Tab")
    raise AssertionError(f"Tab does not lead to {name}")
