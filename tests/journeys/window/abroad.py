"""A lab's file from another country: dropped on the window, kept, and seen on the overview."""

import hand
from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QTableView
from recorder import entries


def dropped_and_kept(told):
    (file,) = told.folder.glob("report.csv")
    before = entries(told.books[0])
    told.facts["accepted"] = yield from hand.drop([file], hand.main_window())
    yield lambda: hand.dialog() is not None
    yield hand.Rest()
    told.facts["fields"] = [one.text() for one in hand.visible(QLineEdit, hand.dialog())]
    for field in hand.visible(QComboBox, hand.dialog()):
        if field.isEnabled() and not field.isEditable() and field.currentIndex() < 0:
            yield from hand.click(field)
            yield from hand.press("Down")
            yield from hand.press("Return")
    for box in hand.visible(QCheckBox, hand.dialog()):
        if hand.plain(box.text()).startswith("leave what is not decided"):
            yield from hand.click(box)  # the basis that the lab did not print
    yield from hand.push("Keep it")
    yield hand.Rest()
    told.facts["kept"] = entries(told.books[0]) - before > 0
    yield from hand.press("Alt+1")
    yield hand.Rest()
    told.facts["rows"] = [row for view in hand.visible(QTableView) for row in _rows(view)]
    told.note("kept")


def _rows(view):
    model = view.model()
    return [
        [str(model.index(row, column).data() or "") for column in range(model.columnCount())]
        for row in range(hand.table_rows(view))
    ]
