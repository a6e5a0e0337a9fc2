"""Whatever a lab, a person or a packet wrote is shown as written: no markup, no file is opened."""

import os

import pytest
from PySide6.QtCore import QEvent, QModelIndex, Qt
from PySide6.QtGui import QHelpEvent, QTextDocument
from PySide6.QtGui import Qt as TextQt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QHeaderView,
    QLabel,
    QListView,
    QToolTip,
    QWidget,
)

from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime

PAGES = (Qt.Key.Key_1, Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_4, Qt.Key.Key_0)


class Watched(QTextDocument):
    """Reads a text as Qt's own labels do, and remembers which files it asks for."""

    def __init__(self):
        super().__init__()
        self.asked = []

    def loadResource(self, _kind, name):  # noqa: N802  Qt's own name
        self.asked.append(name.toString())


def letters(text):
    """What a tip or a label shows of its text, and the files that it asks for."""
    if not TextQt.mightBeRichText(text):
        return text, []
    document = Watched()
    document.setHtml(text)
    document.documentLayout().documentSize()
    return document.toPlainText(), document.asked


@pytest.fixture
def sentinel(tmp_path):
    """A picture that shows by its time of access whether somebody opened it."""
    path = tmp_path / "sentinel.png"
    path.write_bytes(b"no picture")
    os.utime(path, (0, path.stat().st_mtime))
    return path


@pytest.fixture
def markup(sentinel):
    def made(name):
        return (
            f'{name} <img src="file://{sentinel}" width=400><a href="http://x.invalid/">here</a>'
            "<font size=40>& big</font>"
        )

    return made


@pytest.fixture
def hostile(tmp_path, markup):
    """A book in which every text that a lab or a person can write holds markup."""
    path = tmp_path / "hostile.wellbook"
    with Book.create(path) as book:
        log = {"depth": markup("depth")}
        well = book.add_well(markup("well"), note=markup("note"), construction=log)
        point = book.add_point(well, markup("point"), note=markup("note"))
        unit = book.add_unit(well, markup("unit"), note=markup("note"))
        book.add_service(unit, "service", "2025-01-02", text=markup("service"))
        book.add_event(well, "other", "2025-02-03", text=markup("event"))
        book.add_lab(markup("lab"), accreditation=markup("accreditation"))
        for day in ("2024-05-03", "2025-05-03"):
            book.add_sample(
                NewSample(
                    point,
                    LocalTime.parse(day),
                    lab=markup("lab"),
                    lab_number=markup("number"),
                    sampler=markup("sampler"),
                    note=markup("note"),
                    documents=(
                        NewDocument(markup("document"), "text/plain", day.encode(), "other"),
                    ),
                    results=tuple(
                        NewResult(
                            parameter=key,
                            name=markup(key or "unknown"),
                            reading=read_reading(text, unit=markup("u") if not key else "mg/L"),
                            method=markup("method"),
                            qualifier=markup("q"),
                        )
                        for key, text in (
                            ("nitrate", "3.1"),
                            ("chloride", markup("text")),
                            ("", "5"),
                        )
                    ),
                )
            )
        book.strike_sample(1, markup("reason"))
    return path


def hover(view, index):
    """Rest the pointer on a cell; the cell under it, which may span others, and its tip."""
    QToolTip.hideText()
    view.scrollTo(index)
    spot = view.visualRect(index).center()
    area = view.viewport()
    event = QHelpEvent(QEvent.Type.ToolTip, spot, area.mapToGlobal(spot))
    QApplication.sendEvent(area, event)
    shown = [w for w in QApplication.topLevelWidgets() if w.objectName() == "qtooltip_label"]
    assert shown or not QToolTip.text()
    QApplication.processEvents()
    return view.indexAt(spot), QToolTip.text()


def read_cells(view):
    """Read every cell of a list or a table with its tip."""
    model = view.model()
    for row in range(model.rowCount(QModelIndex())):
        columns = 1 if isinstance(view, QListView) else model.columnCount(QModelIndex())
        for column in range(columns):
            index, told = hover(view, model.index(row, column))
            if not index.data(Qt.ItemDataRole.ToolTipRole):
                continue
            written = index.data(Qt.ItemDataRole.AccessibleDescriptionRole) or index.data()
            shown, asked = letters(told)
            assert not asked
            assert shown == written
            yield shown
            spoken = index.data(Qt.ItemDataRole.AccessibleTextRole)
            assert spoken in (None, index.data())


def read(window):
    """Read every cell, tip and label of a window that is seen; yields what each shows."""
    for view in window.findChildren(QAbstractItemView):
        if view.isVisible() and view.model() is not None and not isinstance(view, QHeaderView):
            yield from read_cells(view)
    for label in window.findChildren(QLabel):
        if label.objectName() == "qtooltip_label":
            continue  # Qt's own; read with the cell that it belongs to
        is_plain = label.textFormat() is Qt.TextFormat.PlainText
        assert is_plain or not TextQt.mightBeRichText(label.text()), label.text()
        yield label.text()
    for widget in window.findChildren(QWidget):
        for text in (widget.toolTip(), widget.statusTip(), widget.whatsThis()):
            assert letters(text)[1] == []


def texts_of_every_page(frame, qtbot):
    for key in PAGES:
        QTest.keyClick(frame, key, Qt.KeyboardModifier.AltModifier)
        qtbot.waitExposed(frame)
        view = frame.view
        yield from read(frame)
        if key == Qt.Key.Key_4:
            sections = view.at("well").list
            for row in range(sections.count()):
                spot = sections.visualItemRect(sections.item(row)).center()
                QTest.mouseClick(sections.viewport(), Qt.MouseButton.LeftButton, pos=spot)
                yield from read(frame)


def test_every_cell_and_label_shows_markup_as_it_was_written(frame, hostile, sentinel, qtbot):
    frame.open_book(hostile)
    frame.activateWindow()
    shown = list(texts_of_every_page(frame, qtbot))
    assert sum("<img src=" in text and "<font size=40>& big" in text for text in shown) > 20
    QToolTip.hideText()
    assert sentinel.stat().st_atime == 0, "the file that a text names was opened"


def test_the_page_of_a_parameter_shows_markup_as_it_was_written(frame, hostile, sentinel):
    frame.open_book(hostile)
    frame.activateWindow()
    QTest.keyClick(frame, Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    assert frame.view.at("parameter").isVisible()
    assert list(read(frame))
    QTest.keyClick(frame, Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    assert list(read(frame))
    QToolTip.hideText()
    assert sentinel.stat().st_atime == 0


def test_the_review_of_a_hostile_file_shows_its_markup_as_it_was_written(
    frame, hostile, answers, markup, sentinel, tmp_path, qtbot
):
    file = tmp_path / "lab.csv"
    quoted = {name: markup(name).replace('"', '""') for name in ("Site", "Param", "Remark")}
    file.write_text(
        "Sample date,Sample location,Parameter,Result,Unit,Remark\n"
        f'2026-11-02,"{quoted["Site"]}","{quoted["Param"]}",3.1,mg/L,"{quoted["Remark"]}"\n'
        f'2026-11-02,"{quoted["Site"]}",Nitrate,3.1,mg/L,\n'
    )
    frame.open_book(hostile)
    frame.activateWindow()
    answers.paths = [file]
    QTest.keyClick(frame, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: frame.view.book_actions.dialog is not None, timeout=60000)
    dialog = frame.view.book_actions.dialog
    assert any("<img src=" in text for text in read(dialog))
    QToolTip.hideText()
    QApplication.processEvents()
    assert sentinel.stat().st_atime == 0
    dialog.reject()


def test_the_time_of_access_tells_that_a_file_was_opened(sentinel):
    sentinel.read_bytes()
    if sentinel.stat().st_atime == 0:
        pytest.skip("this file system does not keep the time of access")
