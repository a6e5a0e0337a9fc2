"""Asks which columns of a table are the household's water, where nothing tells."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.intake.draft import WHICH_COLUMNS, Draft
from wellbook.support.translation import _
from wellbook.window.widgets.layouts import words

_MOST = 8  # columns that are offered; a table with more is split


class WhichColumns(QWidget):
    """A box to tick for each column of figures.

    Signals:
        chosen: Carries the headings, each with whether it was ticked.
    """

    chosen = Signal(object)

    def __init__(self, draft: Draft, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        heads = dict.fromkeys(left.column for left in draft.not_taken if left.column)
        is_asked = any(finding.key == WHICH_COLUMNS for finding in draft.findings)
        self.boxes = [QCheckBox(head.replace("&", "&&")) for head in list(heads)[:_MOST]]
        self._heads = list(heads)[:_MOST]
        self.take = QPushButton(_("Read the &ticked columns"))
        self.take.clicked.connect(self._on_take)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(words(_("Which of these columns are your water?"), bold=True))
        row = QHBoxLayout()
        for box in self.boxes:
            row.addWidget(box)
        row.addWidget(self.take)
        row.addStretch(1)
        column.addLayout(row)
        self.setVisible(bool(self.boxes) and (is_asked or not draft.samples))

    def _on_take(self) -> None:
        ticked = {head: box.isChecked()
                  for head, box in zip(self._heads, self.boxes, strict=True)}  # fmt: skip
        if any(ticked.values()):
            self.chosen.emit(ticked)
