"""Return and Escape in every dialog that keeps something, untouched and half filled."""

import doors
import hand
from PySide6.QtWidgets import (
    QAbstractItemView,
    QAbstractSpinBox,
    QApplication,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
)
from recorder import entries

ASIDE = {"history", "round", "copies", "keys", "first steps and words"}  # nothing is entered there


def untouched(told):
    for name in doors.DIALOGS:
        if name in {"history", "round"}:  # Return asks there for the place of a file
            continue
        yield from doors.to(name, told)
        shown, before = hand.dialog(), entries(told.books[0])
        if name not in ASIDE:
            yield from _return_stores_nothing(told, name, before)
        if hand.dialog() is shown and _writes_in_a_cell():
            yield from hand.press("Escape")  # Return began it there, as in any table
        if hand.dialog() is shown:
            yield from hand.press("Escape")
        told.note(f"{name}: Escape")
        if hand.dialog() is shown:
            told.fail(f"{name}: an untouched dialog does not close at once")
    yield from hand.leave_dialogs()


def half_filled(told):
    for name in doors.DIALOGS:
        if name in ASIDE:
            continue
        yield from doors.to(name, told)
        shown, before = hand.dialog(), entries(told.books[0])
        field = _first_to_write_in()
        if field is None:  # a lab's file: nothing is typed there
            continue
        yield from hand.click(field)
        yield from hand.write("7")
        yield from _return_stores_nothing(told, name, before)
        yield from hand.press("Escape")
        told.note(f"{name}, half filled: Escape")
        if hand.dialog() is not shown:
            told.fail(f"{name}: what was typed is lost without a question")
            continue
        yield from hand.push(hand.LOSE)
        told.note(f"{name}, half filled: {hand.LOSE}")
        if hand.dialog() is shown or entries(told.books[0]) != before:
            told.fail(f"{name}: it does not close, or keeps something")
    yield from hand.leave_dialogs()


def _return_stores_nothing(told, name, before):
    shown = hand.dialog()
    if isinstance(hand.QApplication.focusWidget(), QPushButton):
        told.fail(f"{name}: the first focus sits on {hand.label(hand.QApplication.focusWidget())}")
        yield from hand.press("Tab")
    for count in range(3):
        if hand.dialog() is not shown:
            break
        yield from hand.press("Return")
        told.note(f"{name}: Return, {count + 1}")
    if entries(told.books[0]) != before:
        told.fail(f"{name}: Return stores what nobody said is complete")


def _first_to_write_in():
    fields = hand.visible(QPlainTextEdit) + hand.visible(QLineEdit)
    free = [f for f in fields if f.isEnabled() and not f.isReadOnly()]
    return next((f for f in free if not isinstance(f.parent(), QAbstractSpinBox)), None)


def by_hand_with_the_keys_alone(told):
    """Two lines typed as in a spreadsheet, kept by the key that the button's tip names."""
    before = entries(told.books[0])
    yield from doors.to("by hand", told)
    yield from hand.write("2026-11-10")  # the day is empty, and has the keyboard
    line = next(
        f for f in hand.visible(QLineEdit) if f.parent().accessibleName() == "Parameter, line 1"
    )
    yield from hand.click(line)
    yield from hand.enter("Iron", "0.2", "Manganese", "0.01")
    told.facts["stored by Return"] = entries(told.books[0]) - before
    keep = hand.button("Keep the test")
    told.facts["tip"] = keep.toolTip()
    yield from hand.keep()
    told.facts["stored at the end"] = entries(told.books[0]) - before
    told.note("by hand")


def _writes_in_a_cell():
    """Whether the keyboard is in the field of a table's cell."""
    field = QApplication.focusWidget()
    while field is not None and not isinstance(field, QAbstractItemView):
        field = field.parentWidget()
    return field is not None and field is not QApplication.focusWidget()
