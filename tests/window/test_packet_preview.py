"""The pages of a packet are seen beside the choices before anything is written."""

import pytest
from PySide6.QtCore import Qt

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
