"""The pages of a packet are seen beside the choices before anything is written."""

from datetime import date

import pytest
from PySide6.QtCore import Qt

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.window.packet.packet_dialog import PacketDialog


@pytest.fixture
def dialog(opened):
    opened.do("export_packet")
    found = opened.view.book_actions.dialog
    assert isinstance(found, PacketDialog)
    yield found
    found.reject()


def test_the_pages_are_turned_and_follow_the_choices(dialog, qtbot):
    qtbot.mouseClick(dialog.pages_button, Qt.MouseButton.LeftButton)
    preview = dialog.preview
    qtbot.waitUntil(lambda: preview.where.text().startswith("page 1 of "), timeout=60000)
    assert preview.count > 5
    assert not preview.back_button.isEnabled()
    qtbot.mouseClick(preview.next_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: preview.where.text().startswith("page 2 of "), timeout=60000)
    buyer = preview.count
    qtbot.mouseClick(dialog.reader.audience.button(1), Qt.MouseButton.LeftButton)
    assert preview.where.text() == "The pages are being made …"
    qtbot.waitUntil(lambda: preview.where.text().startswith("page 2 of "), timeout=60000)
    assert preview.count != buyer
    assert list(dialog._household.path.parent.glob("*.pdf")) == []  # nothing was written
    preview.reject()
    assert dialog.preview is None


def test_private_words_are_marked_where_they_stand_on_the_page(frame, qtbot, tmp_path):
    with Book.create(tmp_path / "home.wellbook") as book:
        well = book.add_well("Home", address="17 Quillwort Lane", note="Gate at Quillwort Ln.")
        point = book.add_point(well, "Tank")
        result = NewResult("nitrate", "Nitrate", read_reading("1.2", unit="mg/L", basis="as N"))
        book.add_sample(NewSample(point, LocalTime(date(2024, 3, 1)), results=(result,)))
    frame.open_book(tmp_path / "home.wellbook")
    frame.do("export_packet")
    dialog = frame.view.book_actions.dialog
    qtbot.waitUntil(lambda: dialog.private.covered.has_words, timeout=60000)
    qtbot.mouseClick(dialog.pages_button, Qt.MouseButton.LeftButton)
    preview = dialog.preview
    qtbot.waitUntil(lambda: preview.where.text().startswith("page 1 of "), timeout=60000)
    qtbot.mouseClick(preview.private_button, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: preview.where.text().endswith("words are marked"), timeout=60000)
    (covered, _second) = preview.page.marked  # the two words of the sign
    dialog.private.covered.tree.topLevelItem(0).setCheckState(0, Qt.CheckState.Checked)
    assert preview.where.text() == "The pages are being made …"
    qtbot.waitUntil(lambda: preview.where.text().endswith("words are marked"), timeout=60000)
    shown = preview.page.marked[0]  # the word itself, where the sign stood
    assert (shown.x(), shown.y()) == pytest.approx((covered.x(), covered.y()), abs=6)
    dialog.reject()
