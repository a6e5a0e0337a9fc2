"""Every word of the window can be put into another language."""

import pytest
from PySide6.QtCore import QDate, QLocale, QTranslator
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QWidget

from wellbook.window.common.actions import menus
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.window.dialogs.point_dialog import PointDialog
from wellbook.window.dialogs.settings_dialog import SettingsDialog
from wellbook.window.packet.packet_dialog import PacketDialog
from wellbook.window.widgets.tables import Table

MONTHS = QLocale()


class Longer(QTranslator):
    """A made-up language whose words are two fifths longer and start with a sign of its own."""

    def translate(self, _context, text, _disambiguation="", _n=-1):
        return f"§{text}{'~' * (len(text) * 2 // 5)}"


@pytest.fixture
def longer(qapp):
    language = Longer()
    qapp.installTranslator(language)
    yield
    qapp.removeTranslator(language)


def untranslated(window, facts):
    """Fixed words on buttons, labels and heads; facts from the book are no words of ours."""
    said = [w.text() for w in window.findChildren(QAbstractButton) if w.isVisibleTo(window)]
    said += [w.text() for w in window.findChildren(QLabel) if w.isVisibleTo(window)]
    for table in window.findChildren(Table):
        head = table.model()
        said += [
            head.headerData(n, table.horizontalHeader().orientation())
            for n in range(head.columnCount())
        ]
    said += [w.accessibleName() for w in window.findChildren(QWidget) if w.isVisibleTo(window)]
    return sorted({text for text in said if text and "§" not in text} - facts)


@pytest.mark.usefixtures("longer")
def test_menus_are_in_the_other_language():
    for title, actions in menus():
        assert title.startswith("§")
        assert all(a.text.startswith("§") and a.help.startswith("§") for a in actions)


@pytest.mark.usefixtures("longer")
@pytest.mark.parametrize("key", ["go_overview", "go_tests", "go_events", "go_well", "go_changes"])
def test_pages_are_in_the_other_language(frame, household, key):
    frame.open_book(household())
    frame.do(key)
    due = {label.text() for label in frame.view.overview.due.findChildren(QLabel)}
    QApplication.processEvents()
    wheel = frame.view.overview.wheel.caption.text()
    about = frame.view.household.book.wells()[0].note
    facts = {"Alder Hollow", wheel, about, *due}
    assert untranslated(frame, facts) == []


@pytest.mark.usefixtures("longer")
@pytest.mark.parametrize(
    "dialog", [ByHandDialog, EventDialog, PointDialog, SettingsDialog, PacketDialog]
)
def test_dialogs_are_in_the_other_language(opened, preferences, answers, dialog):
    household = opened.view.household
    arguments = {
        SettingsDialog: (preferences, household),
        PacketDialog: (household, answers, preferences),
        ByHandDialog: (household, answers),
    }
    made = dialog(*arguments.get(dialog, (household,)), opened)
    made.show()
    months = {MONTHS.toString(QDate(2024, n, 1), "MMM") for n in range(1, 13)}
    assert untranslated(made, months) == []
    assert [c for c in made.findChildren(QComboBox) if c.sizeHint().width() > made.width()] == []
    made.reject()
