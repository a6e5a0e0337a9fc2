"""Choices of the person at the screen: light or dark, and the language of the window."""

from PySide6.QtWidgets import QComboBox, QFormLayout, QWidget

from wellbook.support.translation import _
from wellbook.window.common.languages import SYSTEM, choices
from wellbook.window.common.preferences import PAGES, Preferences
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words


class SettingsDialog(EntryDialog):
    """Keeps how the window looks and speaks, in the person's own settings."""

    def __init__(self, preferences: Preferences, parent: QWidget) -> None:
        super().__init__(_("Settings"), _("Keep"), parent, width=40)
        self._preferences = preferences
        self.page = QComboBox()
        for key, text in zip(PAGES, _page_words(), strict=True):
            self.page.addItem(text, key)
        self.page.setCurrentIndex(PAGES.index(preferences.page))
        self.language = QComboBox()
        self.language.addItem(_("as the system is set"), SYSTEM)
        for key, text in choices():
            self.language.addItem(text, key)
        self.language.setCurrentIndex(self.language.findData(preferences.language))
        form = QFormLayout()
        form.addRow(_("&Page"), self.page)
        form.addRow(_("&Language"), self.language)
        self.rows.addLayout(form)
        self.rows.addWidget(
            words(
                _(
                    "Limit sets, seasons, units, paper and who drinks the water belong to a book: "
                    "menu Record, Household."
                ),
                quiet=True,
            )
        )
        self.finish()

    def keep(self) -> str:
        """Keep what was chosen."""
        self._preferences.page = self.page.currentData()
        self._preferences.language = self.language.currentData()
        return _("The settings are kept.")


def _page_words() -> tuple[str, ...]:
    return (
        _("like the system"),
        _("light"),
        _("dark"),
        _("high contrast, black on white"),
        _("high contrast, white on black"),
    )
