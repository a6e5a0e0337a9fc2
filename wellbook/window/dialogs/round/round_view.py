"""One round, to read: the day and why, what is tested, hour by hour, bottle by bottle."""

from collections.abc import Callable

from PySide6.QtCore import QThreadPool, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.planning.rounds import Round
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.theme import em
from wellbook.window.common.words import day_words
from wellbook.window.widgets.entry_dialog import Dialog, EntryDialog
from wellbook.window.widgets.layouts import LongPage, clear_layout, words
from wellbook.wording import dates, sampling_day


class LookingDialog(Dialog):
    """Shows what was worked out on another thread, and looks anew when something was kept.

    Signals:
        kept: Something was written; carries the sentence that says so.
    """

    kept = Signal(str)

    def look(self) -> None:
        """Work it out anew."""
        raise NotImplementedError

    def done(self, result: int) -> None:
        """Let the search come to its end, then close."""
        QThreadPool.globalInstance().waitForDone()
        super().done(result)

    def enter(self, dialog: "EntryDialog | LookingDialog") -> None:
        """Open a dialog of this one's; what it keeps is said here and told on."""
        dialog.kept.connect(self._on_kept)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _on_kept(self, sentence: str) -> None:
        self.kept.emit(sentence)
        self.bar.say(sentence)
        self.look()


class RoundView(LongPage):
    """The timetable and the bottles of a round; what is tested stands in a table above it."""

    def __init__(self, catalogue: Catalogue, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._catalogue = catalogue
        self.setAccessibleName(_("Hours and bottles of the round"))
        self._column = QVBoxLayout()
        self._column.setSpacing(em(self) // 2)
        self.rows.addLayout(self._column)
        self.rows.addStretch(1)

    def show_round(self, one: Round) -> None:
        """Show a round."""
        clear_layout(self._column)
        self._column.addWidget(words(_("Hour by hour"), bold=True))
        self._column.addWidget(self._hours(one))
        self._column.addWidget(words(_("Bottle by bottle"), bold=True))
        self._column.addWidget(self._bottles(one))

    def _hours(self, one: Round) -> QWidget:
        if not one.steps:
            return words(
                _("No day was found, so there are no hours yet. The sheet has room."),
                quiet=True,
            )
        box, grid = _grid()
        for row, step in enumerate(one.steps):
            clock = f"{step.at:%H:%M}"
            if step.at.date() != one.search.day:
                clock = f"{dates.weekday(step.at)[:3]} {clock}"
            grid.addWidget(words(clock, bold=True), row, 0)
            grid.addWidget(words(sampling_day.name(step.task), bold=True), row, 1)
            grid.addWidget(words(sampling_day.text(step.task, softens=one.softens)), row, 2)
        return box

    def _bottles(self, one: Round) -> QWidget:
        box, grid = _grid()
        for row, (bottle, keys) in enumerate(one.bottles):
            names = ", ".join(self._catalogue.parameters[key].name for key in keys)
            aerator = _("aerator ON") if bottle.aerator == "on" else _("aerator off")
            rinse = (
                _("NEVER rinse")
                if bottle.rinse == "never"
                else _("rinse {how}").format(how=_(bottle.rinse))
            )
            grid.addWidget(words(str(row + 1), bold=True), row, 0)
            grid.addWidget(words(f"{bottle.name}\n{names}"), row, 1)
            grid.addWidget(words(f"{aerator}, {rinse}. {bottle.before} {bottle.fill}"), row, 2)
        return box


def when_words(one: Round) -> str:
    """The day of a round, or that none was found."""
    day = one.search.day
    return day_words(day) if day else _("no day found")


def button(text: str, do: Callable[[], object]) -> QPushButton:
    """A button of a dialog in which Return presses none but the one with the focus."""
    made = QPushButton(text)
    made.setAutoDefault(False)
    made.clicked.connect(do)
    return made


def _grid() -> tuple[QWidget, QGridLayout]:
    box = QWidget()
    grid = QGridLayout(box)
    unit = em(box)
    grid.setContentsMargins(0, 0, 0, unit // 2)
    grid.setHorizontalSpacing(unit)
    grid.setVerticalSpacing(unit // 2)
    grid.setColumnMinimumWidth(0, unit * 4)
    grid.setColumnMinimumWidth(1, unit * 11)
    grid.setColumnStretch(2, 1)
    return box, grid
