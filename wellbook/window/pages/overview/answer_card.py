"""The first thing read of a point: the answer, what it asks of people, what to do next."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from wellbook.support.translation import _
from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.theme import em, enlarge, inks_of
from wellbook.window.pages.caution_box import CautionBox
from wellbook.window.pages.overview.answer_words import Answer
from wellbook.window.widgets.layouts import MarkView, PrimaryButton, SheetEdge, words

_HEAD = 1.35
_CARE = 7  # ems of height that they get in any case; of more the rest is scrolled to
_LOUD = frozenset({Verdict.OUTSIDE, Verdict.ADOPTED, Verdict.UNDECIDABLE})


class AnswerCard(QFrame):
    """The answer in large type, its figures, the cautions, two buttons.

    Signals:
        next_wanted: What to do next is asked for.
        chart_wanted: The picture of the first parameter is asked for; carries its key.
    """

    next_wanted = Signal()
    chart_wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        SheetEdge(self)
        self._verdict = Verdict.NO_LIMIT
        self._key, self._is_brief = "", False
        self._mark = MarkView()
        enlarge(self._mark, _HEAD)
        self.head = words(factor=_HEAD, bold=True)
        self.detail = words()
        self.rest = words(quiet=True)
        self.changes = words(quiet=True)
        self.care = CautionBox()
        self.care_room = QScrollArea()  # many cautions leave the table its room
        self.care_room.setWidget(self.care)
        self.care_room.setWidgetResizable(True)
        self.care_room.setFrameShape(QFrame.Shape.NoFrame)
        # As low as it may be, and higher where the card beside it leaves room.
        self.care_room.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        self.care_room.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.next_button = PrimaryButton(_("What to do next…"))
        self.next_button.clicked.connect(self.next_wanted)
        self.chart_button = QPushButton(_("See the chart"))
        self.chart_button.clicked.connect(lambda: self.chart_wanted.emit(self._key))
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        head = QHBoxLayout()
        head.setSpacing(unit // 2)
        head.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        head.addWidget(self.head, 1)
        buttons = QHBoxLayout()
        buttons.addWidget(self.next_button)
        buttons.addWidget(self.chart_button)
        buttons.addSpacing(unit // 2)
        buttons.addWidget(self.rest, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit + unit // 2, unit // 2, unit, unit // 2)
        column.setSpacing(unit // 3)
        column.addLayout(head)
        column.addWidget(self.detail)
        column.addWidget(self.care_room, 1)
        column.addWidget(self.changes)
        column.addStretch(0)
        column.addLayout(buttons)

    def show_answer(self, said: Answer, cautions: tuple[str, ...], changes: str) -> None:
        """Show an answer with the cautions that apply, and what is new in the latest test."""
        self._verdict, self._key = said.verdict, said.key
        self._mark.show_verdict(said.verdict)
        self.head.setText(said.head)
        self.detail.setText(said.detail)
        self.detail.setVisible(bool(said.detail))
        self.rest.setText(said.rest)
        self.changes.setText(changes)
        self.changes.setVisible(bool(changes) and not self._is_brief)
        self.care.show_cautions(cautions)
        self.care_room.setVisible(bool(cautions))
        self.next_button.setVisible(bool(cautions) or said.verdict in _LOUD)
        self.chart_button.setVisible(bool(said.key))
        self.fit_cautions()

    def be_brief(self, is_brief: bool) -> None:  # noqa: FBT001  a state
        """On a low screen what is new in the latest test stays on the pages of parameters."""
        self._is_brief = is_brief
        self.changes.setVisible(bool(self.changes.text()) and not is_brief)

    def fit_cautions(self) -> None:
        """Give the cautions the height of their words, as far as the table can spare it."""
        if self.care.lines:
            wide = self.width() - 3 * em(self)
            needed = self.care.height_for(wide) if wide > 0 else 0
            needed = max(needed, em(self) * 2)
            self.care_room.setMinimumHeight(min(needed, em(self) * _CARE))
            self.care_room.setMaximumHeight(needed)  # more only where there is room to spare

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Wrap the cautions anew."""
        super().resizeEvent(event)
        self.fit_cautions()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The sheet, with an edge in the verdict's colour."""
        super().paintEvent(event)
        ink = inks_of(self.palette()).verdicts[self._verdict]
        QPainter(self).fillRect(0, 0, em(self) // 3, self.height(), QColor(ink))
