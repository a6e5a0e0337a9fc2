"""What an empty book shows in place of an answer: three ways on, each with its button."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import SUBTITLE, TITLE, PrimaryButton, lock, words

_WIDE = 60  # ems; longer lines are hard to read


class FirstSteps(QFrame):
    """The household, the first test, and what to do without one; each step is one press away.

    Signals:
        wanted: The key of an action was asked for.
    """

    wanted = Signal(str)

    def __init__(self, why_readonly: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._why = why_readonly
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        unit = em(self)
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(unit * 2, unit, unit * 2, unit)
        self._rows.setSpacing(unit // 2)
        self._rows.addWidget(
            words(_("Three steps to an answer about your water"), factor=TITLE, bold=True)
        )
        typed = PrimaryButton(_("Type in a paper report…"))
        self._step(
            _("1  Enter the latest test"),
            _("Drop the lab’s file or its PDF on this window, or:"),
            ("add_by_hand", typed),
            ("add_file", QPushButton(_("From a lab’s file…"))),
        )
        self._step(
            _("2  Say where the well lies and who drinks"),
            _("Limits, seasons and cautions follow from it: for babies others than for adults."),
            ("household", QPushButton(_("The household…"))),
        )
        self._step(
            _("3  See what to test next"),
            _("It works without any test, too: the day, the bottles and a sheet for the lab."),
            ("next_round", QPushButton(_("Plan a test…"))),
        )
        self._rows.addStretch(1)

    def _step(self, title: str, about: str, *buttons: tuple[str, QPushButton]) -> None:
        self._rows.addSpacing(em(self) // 2)
        self._rows.addWidget(words(title, factor=SUBTITLE, bold=True))
        told = words(about, quiet=True)
        told.setMaximumWidth(_WIDE * em(self))
        self._rows.addWidget(told)
        row = QHBoxLayout()
        for key, button in buttons:
            button.clicked.connect(lambda _unused=False, key=key: self.wanted.emit(key))
            lock(self._why, button)
            row.addWidget(button)
        row.addStretch(1)
        self._rows.addLayout(row)
