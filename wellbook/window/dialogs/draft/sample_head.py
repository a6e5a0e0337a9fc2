"""When a sample of a draft was drawn and by which lab it was tested, mended in place."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from wellbook.intake import mending
from wellbook.intake.draft import NO_DAY, Draft
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.common.typed_days import drawn_hint, read_drawn, written
from wellbook.window.widgets.layouts import named, words


class SampleHead(QWidget):
    """Day and lab of one sample, and the lab's accreditation where the file prints it.

    Signals:
        mended: Carries the draft after a decision.
        failed: What was typed can't be read; carries the sentence that says so.
    """

    mended = Signal(object)
    failed = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._draft: Draft | None = None
        self._place = 0
        self.day = QLineEdit()
        self.day.setPlaceholderText(drawn_hint())
        self.day.editingFinished.connect(self._on_day)
        self.lab = QLineEdit()
        self.lab.editingFinished.connect(self._on_lab)
        self.accreditation = QLineEdit()
        self.accreditation.editingFinished.connect(self._on_accreditation)
        self.accreditation.setToolTip(_("As the file prints it. Emptied, it is not kept."))
        self._label = named(_("Acc&reditation"), self.accreditation)
        self.number = words(quiet=True)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(em(self) // 2)
        row.addWidget(named(_("&Sampled"), self.day))
        row.addWidget(self.day, 2)
        row.addWidget(named(_("&Lab"), self.lab))
        row.addWidget(self.lab, 3)
        row.addWidget(self._label)
        row.addWidget(self.accreditation, 3)
        row.addWidget(self.number, 1)
        self._show_accreditation(shown=False)

    def show_sample(self, draft: Draft, place: int) -> None:
        """Show what is understood of a sample."""
        self._draft, self._place = draft, place
        self.setEnabled(place < len(draft.samples))
        if place >= len(draft.samples):
            return
        sample = draft.samples[place]
        moment = sample.sample.collected
        self.day.setText("" if moment.day == NO_DAY else written(moment))
        self.lab.setText(sample.sample.lab)
        self.lab.setCursorPosition(0)
        self.accreditation.setText(draft.accreditation)
        self.accreditation.setCursorPosition(0)
        if draft.accreditation:  # stays once shown, so that it can be typed again
            self._show_accreditation(shown=True)
        number = sample.sample.lab_number
        self.number.setText(_("number {number}").format(number=number) if number else "")

    def _show_accreditation(self, *, shown: bool) -> None:
        self._label.setVisible(shown)
        self.accreditation.setVisible(shown)

    def _on_accreditation(self) -> None:
        draft, text = self._draft, self.accreditation.text().strip()
        if draft is not None and text != draft.accreditation:
            self.mended.emit(mending.with_accreditation(draft, text))

    def _on_day(self) -> None:
        draft, text = self._draft, self.day.text().strip()
        if draft is None or self._place >= len(draft.samples) or not text:
            return
        sample = draft.samples[self._place]
        try:
            moment = read_drawn(text, sample.sample.collected)
        except Fault as fault:
            self.failed.emit(str(fault))
            return
        if moment is not None and moment != sample.sample.collected:
            self.mended.emit(mending.with_moment(draft, self._place, moment))

    def _on_lab(self) -> None:
        draft, text = self._draft, self.lab.text().strip()
        if draft is None or self._place >= len(draft.samples):
            return
        if text != draft.samples[self._place].sample.lab:
            self.mended.emit(mending.with_lab(draft, self._place, text))
