"""The first steps, and every word of the window with what it means."""

from PySide6.QtWidgets import QDialogButtonBox, QPushButton, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.dialogs.help import glossary
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, words
from wellbook.window.widgets.lists.find_field import FindField
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table


class HelpDialog(Dialog):
    """A page of first steps and words; words can be looked for."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(_("First steps and words"), parent, width=60, height=42)
        page = self.area
        page.add(words(_("First steps"), factor=SUBTITLE, bold=True))
        for number, step in enumerate(glossary.first_steps(), start=1):
            page.add(words(f"{number}. {step}"))
        page.add(words(_("Words"), factor=SUBTITLE, bold=True))
        self.table = Table(_("Words"))
        self.model = RowsModel(_columns(), lambda one: one.word, self)
        self.model.show(glossary.words())
        self.table.setModel(self.model)
        self.table.fit(stretch=1)
        self.table.arrange("words")
        self.table.setMinimumHeight(em(self) * 12)
        self.search = FindField(_("Find a word"), self.table)
        self.meaning = words()
        self.table.picked.connect(self._show)
        page.add(self.search, self.table, self.meaning)
        self.table.pick(0)
        buttons = QDialogButtonBox()
        self._close = buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def _show(self, word: glossary.Word | None) -> None:
        """Say what a word means in full: the table cuts long sentences off."""
        self.meaning.setText(f"{word.word}: {word.meaning}" if word else "")

    def default_button(self) -> QPushButton:
        """Return closes it: there is nothing else to do."""
        return self._close


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("Word"), lambda one: one.word),
        Column(_("What it means"), lambda one: one.meaning),
    )
