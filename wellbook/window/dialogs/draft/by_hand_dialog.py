"""Typing a test from a paper report."""

from datetime import date, time
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QDate, Qt, QTime
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDateEdit,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QTimeEdit,
    QWidget,
)

from wellbook.book.rows import NewSample
from wellbook.intake import Contradicts, Told, keep
from wellbook.planning.upkeep.costs import usual_currency
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost
from wellbook.support.translation import _
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.words import edit_format, moment_words
from wellbook.window.dialogs.draft.hand_rows import HandRows
from wellbook.window.dialogs.draft.questions import questions
from wellbook.window.widgets.attaching import new_document
from wellbook.window.widgets.date_fields import speak, speak_time
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, words
from wellbook.wording import vocabulary

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path


class ByHandDialog(EntryDialog):
    """Point, day, lab, then line by line; what is odd is asked once, never refused."""

    def __init__(
        self,
        household: Household,
        chooser: Chooser,
        parent: QWidget,
        *,
        documents: "Sequence[Path]" = (),
    ) -> None:
        super().__init__(
            _("Enter a test by hand"),
            _("Keep the test"),
            parent,
            width=70,
        )
        self._household, self._chooser = household, chooser
        self.documents = list(documents)
        self._asked: tuple[str, ...] = ()
        self._told = Told.ASK
        self.point = QComboBox()
        for point in household.book.points():
            self.point.addItem(point.name, point.id)
        today = household.today
        last = QDate(today.year, today.month, today.day)
        self.day = QDateEdit(last)
        self.day.setMaximumDate(last)
        self.day.setCalendarPopup(True)
        self.day.setDisplayFormat(edit_format(0))
        speak(self.day)
        self.has_time = QCheckBox(_("at &time"))
        self.time = QTimeEdit(QTime(8, 0))
        self.time.setAccessibleName(_("Time of day"))
        self.time.setEnabled(False)
        speak_time(self.time)
        self.has_time.toggled.connect(self.time.setEnabled)
        self.lab = QComboBox()
        self.lab.setEditable(True)
        self.lab.addItems(["", *(lab.name for lab in household.book.labs())])
        self.lab_number = QLineEdit()
        self.purpose = QComboBox()
        for key, text in {"": "", **vocabulary.purposes()}.items():
            self.purpose.addItem(text, key)
        self.cost = QLineEdit()
        self.currency = QComboBox()
        self.currency.setEditable(True)
        self.currency.setMinimumContentsLength(5)
        usual = usual_currency(household.record)
        self.currency.addItems(list(dict.fromkeys((*filter(None, [usual]), *CURRENCIES))))
        self.currency.setCurrentIndex(0 if usual else -1)
        self.attach_button = QPushButton(_("Add a &file…"))
        self.attach_button.clicked.connect(self._attach)
        self.attached = words()
        self._show_attached()
        self.lines = HandRows(household.catalogue)
        self.lines.grown.connect(self.grow)
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(_("&Point"), self.point)
        when = QHBoxLayout()
        when.addWidget(self.day)
        when.addWidget(self.has_time)
        when.addWidget(self.time)
        when.addStretch(1)
        form.addRow(named(_("&Drawn on"), self.day), when)
        self.day.setAccessibleName(_("Day on which it was drawn"))
        form.addRow(_("&Lab"), self.lab)
        form.addRow(_("Lab’s &number"), self.lab_number)
        form.addRow(_("P&urpose"), self.purpose)
        price = QHBoxLayout()
        price.addWidget(self.cost)
        price.addWidget(self.currency)
        self.currency.setAccessibleName(_("Currency of the cost"))
        form.addRow(named(_("Co&st (private)"), self.cost), price)
        report = QHBoxLayout()
        report.addWidget(self.attach_button)
        report.addWidget(self.attached, 1)
        form.addRow(_("Report, photo"), report)
        self.rows.addLayout(form)
        self.rows.addWidget(self.lines, 1)
        self.finish(spare=False)

    def _attach(self) -> None:
        self.documents += self._chooser.documents(self)
        self._show_attached()

    def _show_attached(self) -> None:
        self.attached.setText(", ".join(path.name for path in self.documents))

    @property
    def is_touched(self) -> bool:
        """Whether something was typed or a file was added."""
        return super().is_touched or bool(self.documents)

    def go_on_from(self, field: QWidget) -> None:
        """From a result on to the next line, else to the next field."""
        following = self.lines.after(field)
        if following is None:
            super().go_on_from(field)
        else:
            following.setFocus(Qt.FocusReason.TabFocusReason)

    def new_sample(self) -> NewSample:
        """The test as it was typed.

        Raises:
            Fault: There is no point or no result, or a file can't be read.
        """
        results = tuple(self.lines.results())
        if self.point.currentData() is None:
            raise Fault(_("Name a sampling point first (menu Record)."))
        if not results:
            raise Fault(_("Enter at least one result."))
        empty = [new.name or new.reading.text for new in results if not new.name]
        if empty or any(not new.reading.text for new in results):
            raise Fault(_("Every line needs a parameter and a result as printed."))
        picked = self.day.date()
        clock = self.time.time()
        cost, currency = read_cost(self.cost.text(), self.currency.currentText())
        return NewSample(
            point=self.point.currentData(),
            collected=LocalTime(
                date(picked.year(), picked.month(), picked.day()),
                time(clock.hour(), clock.minute()) if self.has_time.isChecked() else None,
            ),
            lab=self.lab.currentText().strip(),
            lab_number=self.lab_number.text().strip(),
            purpose=self.purpose.currentData(),
            results=results,
            documents=tuple(map(new_document, self.documents)),
            cost=cost,
            currency=currency,
        )

    def keep(self) -> str:
        """Write the test; what is odd about it is asked the first time.

        Raises:
            Fault: It can't be kept, or it holds something odd that was not yet asked.
        """
        sample = self.new_sample()
        asked = questions(sample, self._household)
        if asked and asked != self._asked:
            self._asked = asked
            self.keep_button.setText(_("Keep it all the same"))
            raise Fault(" ".join(asked))
        book, told = self._household.book, self._told
        try:
            self._household.apart(partial(keep, book, sample, told=told))
        except Contradicts:
            self._told = Told.KEEP  # it was asked; the finding counts all the same
            self.keep_button.setText(_("Keep both"))
            raise
        return _("The test of {day} is kept.").format(day=moment_words(sample.collected))
