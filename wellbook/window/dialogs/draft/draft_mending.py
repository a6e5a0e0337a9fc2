"""Mends a draft in place: name and unit of a reading, day of its sample, what is no reading."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.intake import mending
from wellbook.intake.draft import NO_DAY, Draft
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.typed_days import day_hint, read_day


class DraftMending(QWidget):
    """Fields for one reading of a draft and for its sample.

    Signals:
        mended: Carries the draft after a decision.
        failed: What was typed can't be read; carries the sentence that says so.
    """

    mended = Signal(object)
    failed = Signal(str)

    def __init__(self, catalogue: Catalogue, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._draft: Draft | None = None
        self._at = (0, 0)
        self.name = QComboBox()
        self.name.setEditable(True)
        self.name.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.name.addItem(_("as printed, not compared"), "")
        for parameter in sorted(catalogue.parameters.values(), key=lambda known: known.name):
            self.name.addItem(parameter.name, parameter.key)
        completer = self.name.completer()
        if completer is not None:
            completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.name.activated.connect(self._on_name)
        self.unit = QLineEdit()
        self.unit.editingFinished.connect(self._on_unit)
        self.day = QLineEdit()
        self.day.setPlaceholderText(day_hint())
        self.day.editingFinished.connect(self._on_day)
        self.right = QPushButton(_("It is &right as it stands"))
        self.right.clicked.connect(self._on_right)
        self.skip = QPushButton(_("It is &no reading"))
        self.skip.clicked.connect(self._on_skip)
        self.not_mine = QPushButton(_("This sample is not &my water"))
        self.not_mine.clicked.connect(self._on_not_mine)
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(_("&Parameter"), self.name)
        form.addRow(_("&Unit"), self.unit)
        form.addRow(_("&Sampled on"), self.day)
        buttons = QHBoxLayout()
        for button in (self.right, self.skip, self.not_mine):
            buttons.addWidget(button)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(form)
        column.addLayout(buttons)

    def show_reading(self, draft: Draft, sample: int, reading: int) -> None:
        """Show what a reading is understood as."""
        self._draft, self._at = draft, (sample, reading)
        there = sample < len(draft.samples)
        results = draft.samples[sample].sample.results if there else ()
        self.setEnabled(reading < len(results))
        if reading >= len(results):
            return
        result, collected = results[reading], draft.samples[sample].sample.collected.day
        self.name.setCurrentIndex(max(0, self.name.findData(result.parameter)))
        self.unit.setText(result.reading.unit)
        self.day.setText("" if collected == NO_DAY else collected.isoformat())
        self.right.setEnabled(not draft.samples[sample].marks[reading].is_certain)

    def _on_name(self) -> None:
        if self._draft is not None:
            key = str(self.name.currentData() or "")
            self.mended.emit(mending.with_name(self._draft, self._at, key))

    def _on_unit(self) -> None:
        draft = self._draft
        if draft is None or not self.isEnabled():
            return
        result = draft.samples[self._at[0]].sample.results[self._at[1]]
        if self.unit.text().strip() != result.reading.unit:
            self.mended.emit(mending.with_unit(draft, self._at, self.unit.text().strip()))

    def _on_day(self) -> None:
        draft, text = self._draft, self.day.text()
        if draft is None or not self.isEnabled():
            return
        try:
            day = read_day(text)
        except Fault as fault:
            self.failed.emit(str(fault))
            return
        if day is not None and day != draft.samples[self._at[0]].sample.collected.day:
            self.mended.emit(mending.with_day(draft, self._at[0], day))

    def _on_right(self) -> None:
        if self._draft is not None:
            self.mended.emit(mending.settled(self._draft, self._at))

    def _on_skip(self) -> None:
        if self._draft is not None:
            self.mended.emit(mending.without(self._draft, self._at))

    def _on_not_mine(self) -> None:
        if self._draft is not None:
            self.mended.emit(mending.without_sample(self._draft, self._at[0]))
