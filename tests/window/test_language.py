"""Every word of the window can be said in another language, and the language changes at once."""

from gettext import NullTranslations

import pytest
from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QWidget

from wellbook.support.translation import ENGLISH, Language, use
from wellbook.window.app.menus.menu_bar import menus
from wellbook.window.common.languages import speak
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.window.dialogs.household.household_dialog import HouseholdDialog
from wellbook.window.dialogs.point_dialog import PointDialog
from wellbook.window.dialogs.settings_dialog import SettingsDialog
from wellbook.window.packet.packet_dialog import PacketDialog
from wellbook.window.widgets.tables import Table


class Longer(NullTranslations):
    """A made-up language whose words are two fifths longer and start with a sign of its own."""

    def gettext(self, message):
        return f"§{message}{'~' * (len(message) * 2 // 5)}"

    def pgettext(self, _context, message):
        return self.gettext(message)

    def ngettext(self, one, many, n):
        return self.gettext(one if n == 1 else many)

    def npgettext(self, _context, one, many, n):
        return self.ngettext(one, many, n)


@pytest.fixture
def longer():
    use(Language("xx", Longer()))
    yield
    use(ENGLISH)


@pytest.fixture
def back_to_english():
    before = QLocale()
    yield
    speak("en")
    QLocale.setDefault(before)


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
    about = frame.view.household.book.wells()[0].note
    facts = {"Alder Hollow", about, *due}
    assert untranslated(frame, facts) == []


@pytest.mark.usefixtures("longer")
@pytest.mark.parametrize(
    "dialog",
    [ByHandDialog, EventDialog, HouseholdDialog, PointDialog, SettingsDialog, PacketDialog],
)
def test_dialogs_are_in_the_other_language(opened, preferences, answers, dialog):
    household = opened.view.household
    arguments = {
        SettingsDialog: (preferences,),
        PacketDialog: (household, answers, preferences),
        ByHandDialog: (household, answers),
    }
    made = dialog(*arguments.get(dialog, (household,)), opened)
    made.show()
    assert untranslated(made, set()) == []
    assert [c for c in made.findChildren(QComboBox) if c.sizeHint().width() > made.width()] == []
    made.reject()


def choose(frame, key):
    """The language, chosen in the settings as a person does."""
    frame.actions_by_key["settings"][1].trigger()
    dialog = next(d for d in frame.findChildren(SettingsDialog) if d.isVisible())
    dialog.language.setCurrentIndex(dialog.language.findData(key))
    dialog.keep_button.click()
    QApplication.processEvents()


@pytest.mark.usefixtures("back_to_english")
def test_a_language_chosen_in_the_settings_is_spoken_at_once_and_back_again(frame, household):
    frame.open_book(household())
    frame.do("go_events")
    choose(frame, "es")
    assert frame._menus[0].title() == "&Archivo"
    assert frame.view.page == "events"
    heads = frame.view.at("events").table.model()
    assert (
        heads.headerData(0, frame.view.at("events").table.horizontalHeader().orientation())
        == "Cuándo"
    )
    assert QApplication.translate("QPlatformTheme", "Cancel") == "Cancelar"
    choose(frame, "en")
    assert frame._menus[0].title() == "&File"
    assert QApplication.translate("QPlatformTheme", "Cancel") == "Cancel"


@pytest.mark.usefixtures("back_to_english")
def test_the_first_page_changes_its_language_too(frame):
    choose(frame, "es")
    said = [button.text() for button in frame.first_page.findChildren(QAbstractButton)]
    assert "Abrir un libro…" in said
    assert frame.windowTitle() == "Página de inicio"
