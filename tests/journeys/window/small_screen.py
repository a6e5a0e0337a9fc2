"""Every dialog on a small screen: its size, its buttons, the window it belongs to."""

from itertools import combinations

import doors
import hand
from PySide6.QtCore import QPoint, QRect
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QTableView,
)

from wellbook.window.pages.overview.month_wheel import MonthWheel
from wellbook.window.pages.parameter.chart_choices import ChartChoices
from wellbook.window.pages.parameter.month_dots import MonthDots
from wellbook.window.pages.well.well_drawing import WellDrawing
from wellbook.window.widgets.chart_view import FigureView
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import PrimaryButton

LEAST_ROWS = 4  # that a list has room for, however low the window


def every_dialog(told):
    for name in doors.DIALOGS:
        yield from doors.to(name, told)
        yield from _fits(name, told)
        yield from _belongs(name, told)
    yield from hand.leave_dialogs()


def _fits(name, told):
    shown, room = hand.dialog(), hand.dialog().screen().geometry()
    told.note(f"{name}: {shown.width()} × {shown.height()}")
    if not room.contains(shown.geometry()):
        told.fail(f"{name}: {shown.geometry().getRect()} is larger than the screen")
    _has_one_primary(shown, name, told)
    kinds = (QLabel, QTableView, QLineEdit, QPlainTextEdit, QAbstractButton)
    inside = [part for kind in kinds for part in hand.visible(kind, shown.area)]
    _lie_apart([part for part in inside if not _is_in_a_list(part)], name, told)
    for button in hand.visible(QAbstractButton):
        if button.isEnabled():
            yield from _is_reached(button, name, told)


def _has_one_primary(where, name, told):
    """What a page or dialog is there for is one button at most; in a dialog it keeps or writes."""
    found = [hand.label(b) for b in hand.visible(PrimaryButton, where)]
    if len(found) > 1 or (isinstance(where, EntryDialog) and not found):
        told.fail(f"{name}: its primary buttons are {found}")


def _is_reached(widget, name, told):
    try:
        yield from hand.reach(widget)
    except hand.OutOfReachError as far:
        told.fail(f"{name}: {far}")


def _belongs(name, told):
    shown = hand.dialog()
    if shown.parentWidget() is None or shown.windowHandle().transientParent() is None:
        told.fail(f"{name} belongs to no window")
    owners, above = {shown}, shown.parentWidget()
    while above is not None:
        owners.add(above)
        above = above.parentWidget()
    behind = [w for w in hand.dialogs_in_sight() if w not in owners]
    if behind:
        told.fail(f"{name}: {[w.windowTitle() for w in behind]} stay open behind it")
    yield hand.Rest()


def every_page(told):
    """Sentences, pictures and tables of a page lie beside one another, and no words are cut."""
    for name in (*doors.PAGES, "Well, At a glance"):
        yield from doors.to_place(name, told)
        yield hand.Rest(20)
        page = hand.main_window().view.pages.currentWidget()
        _has_one_primary(page, name, told)
        kinds = (QLabel, QTableView, FigureView, MonthWheel, MonthDots, WellDrawing)
        parts = list(dict.fromkeys(part for kind in kinds for part in hand.visible(kind, page)))
        told.note(f"{name}: {len(parts)} parts")
        _lie_apart(parts, name, told)
        _lines_begin_alike(page, name, told)
        for part in parts:
            if isinstance(part, QTableView) and _rows_in_sight(part) < LEAST_ROWS:
                told.fail(f"{name}: {_named(part)} shows {_rows_in_sight(part)} rows")
        for label in parts:
            if isinstance(label, QLabel) and label.text() and _is_cut(label):
                told.fail(f"{name}: cut: {label.text()}")


def _lie_apart(parts, name, told):
    for first, second in combinations(dict.fromkeys(parts), 2):
        if _place(first).intersects(_place(second)):
            told.fail(f"{name}: {_named(first)} lies on {_named(second)}")


def _is_in_a_list(part):
    """Whether it is drawn within a table: its words where it is empty, a part of its head."""
    above = part.parentWidget()
    while above is not None and not isinstance(above, QAbstractItemView):
        above = above.parentWidget()
    return above is not None


def _lines_begin_alike(page, name, told):
    """Fields on lines below one another begin at one place: a hidden one leaves no hole."""
    for choices in hand.visible(ChartChoices, page):
        fields = [f for kind in (QComboBox, QAbstractButton) for f in hand.visible(kind, choices)]
        left = {}
        for field in fields:
            left.setdefault(field.y(), []).append(field.x())
        if len({min(places) for places in left.values()}) > 1:
            told.fail(f"{name}: lines of choices begin at {left}")


def _rows_in_sight(table):
    """How many rows there is room for, up to as many as there are."""
    room = table.viewport().height() // table.verticalHeader().defaultSectionSize()
    return room if room < hand.table_rows(table) else LEAST_ROWS


def _is_cut(label):
    if label.wordWrap():
        return label.heightForWidth(label.width()) > label.height() + 1
    return label.sizeHint().width() > label.width() + 1


def _place(part):
    """Where it is seen, as far as a list of its own within the page lets it be seen."""
    seen = QRect(part.mapToGlobal(QPoint(0, 0)), part.size())
    for area in list(hand.areas_round(part))[:-1]:
        port = area.viewport()
        seen &= QRect(port.mapToGlobal(QPoint(0, 0)), port.size())
    return seen


def _named(part):
    return (part.text() if isinstance(part, QLabel) else "") or part.accessibleName()


def complaints(told):
    """What is wrong is said in the dialog, and covers nothing."""
    for name in ("correct a reading", "strike out", "Well log, add", "correct a test", "event"):
        yield from doors.to(name, told)
        keep = next(b for b in hand.visible(QAbstractButton) if _keeps(b))
        what = f"{name}: {hand.label(keep)}"
        yield from hand.click(keep)
        told.note(what)
        if hand.dialog() is None:
            told.fail(f"{name}: nothing is said")
            continue
        yield from _fits(name, told)
        for kind in (QLineEdit, QPlainTextEdit, QComboBox):
            for field in hand.visible(kind):
                if field.isEnabled():
                    yield from _is_reached(field, name, told)
    yield from hand.leave_dialogs()


def _keeps(button):
    return button.text().replace("&", "").startswith(("Keep", "Strike"))


def close_the_window(told):
    """The window is closed while a dialog is open: typed words are asked about, then all ends."""
    yield from doors.to("Well log, add", told)
    field = next(f for f in hand.visible(QLineEdit) if f.isEnabled())
    yield from hand.click(field)
    yield from hand.write("depth")
    window = hand.main_window()
    yield from hand.act(window.close)
    told.facts["asked"] = window.isVisible() and hand.button(hand.LOSE) is not None
    if not told.facts["asked"]:
        told.fail("typed words are not asked about")
    else:
        yield from hand.push(hand.LOSE)
        yield from doors.to("Well log, add", told)
        told.facts["ended"] = True  # what follows is reached only if it did not
        yield from hand.act(window.close)
    told.fail(f"it runs on with {[w.windowTitle() for w in hand.dialogs_in_sight()]}")
