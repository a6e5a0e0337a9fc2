"""Typing a test from a paper report."""

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFormLayout,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from wellbook.book.rows import NewSample
from wellbook.intake import Contradicts, Told, keep
from wellbook.planning.upkeep.costs import usual_currency
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost
from wellbook.support.translation import _, ngettext
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.typed_days import drawn_hint, read_drawn
from wellbook.window.common.words import moment_words
from wellbook.window.dialogs.draft.draft_findings import HandChanges
from wellbook.window.dialogs.draft.first_place import FirstPlace
from wellbook.window.dialogs.draft.hand_rows import HandRow, HandRows, StillCombo, last_test
from wellbook.window.dialogs.draft.questions import ask_denied, questions, require_past
from wellbook.window.dialogs.report.pages_beside import PagesBeside
from wellbook.window.widgets.attaching import is_report, new_document
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, words
from wellbook.wording import vocabulary

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path


_WITH_PAGE, _HIGH = 110, 52  # ems, where a page stands beside what is typed
_LEAST = 8  # ems of what is typed that are always seen


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
        self.told, self._is_denied = Told.ASK, False
        self.place = FirstPlace() if not household.book.points() else None
        self.point = StillCombo()
        for point in household.book.points():
            self.point.addItem(point.name, point.id)
        self.day = QLineEdit()
        self.day.setPlaceholderText(drawn_hint())
        self.lab = StillCombo()
        self.lab.setEditable(True)
        self.lab.addItems(["", *(lab.name for lab in household.book.labs())])
        self.lab_number = QLineEdit()
        self.purpose = StillCombo()
        for key, text in {"": "", **vocabulary.purposes()}.items():
            self.purpose.addItem(text, key)
        self.cost = QLineEdit()
        self.currency = StillCombo()
        self.currency.setEditable(True)
        self.currency.setMinimumContentsLength(5)
        usual = usual_currency(household.record)
        self.currency.addItems(list(dict.fromkeys((*filter(None, [usual]), *CURRENCIES))))
        self.currency.setCurrentIndex(0 if usual else -1)
        self.attach_button = QPushButton(_("Add a &file…"))
        self.attach_button.clicked.connect(self._attach)
        self.attached = words()
        self.offer_button = QPushButton()
        self.offer_button.hide()
        self.offer_button.clicked.connect(self._offer)
        self.lab.currentTextChanged.connect(self._on_lab)
        self.beside = PagesBeside()
        self._halves, self._typed = QHBoxLayout(), QWidget()
        self.sheet = QScrollArea()
        self.sheet.hide()
        self.lines = HandRows(household.catalogue)
        self.lines.grown.connect(self.grow)
        self.changed = words(quiet=True)
        self._changes = HandChanges(household)
        self._edited: HandRow | None = None
        self.lines.edited.connect(self._on_line)
        self.day.editingFinished.connect(self._say_changes)
        self.point.currentIndexChanged.connect(self._say_changes)
        self._lay_out()
        self._show_attached()
        self.day.setFocus()

    def _lay_out(self) -> None:
        form = QFormLayout()
        if self.place is None:
            form.addRow(_("&Point"), self.point)
        else:
            self.place.add_rows(form)
        form.addRow(_("&Drawn on"), self.day)
        self.day.setAccessibleName(_("Day on which it was drawn"))
        lab = QHBoxLayout()
        lab.addWidget(self.lab, 1)
        lab.addWidget(self.offer_button)
        form.addRow(named(_("&Lab"), self.lab), lab)
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
        column = QVBoxLayout(self._typed)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(form)
        column.addWidget(
            words(_("Field by field, or a line as printed: Iron 0.3 mg/L"), quiet=True)
        )
        column.addWidget(self.lines, 1)
        self.foot.addWidget(self.changed)  # in sight however many lines there are
        self._halves.addWidget(self.beside, 2)
        self._halves.addWidget(self._typed, 3)
        self.rows.addLayout(self._halves, 1)
        self.finish(spare=False)

    def _attach(self) -> None:
        self.documents += self._chooser.documents(self)
        self._show_attached()

    def _show_attached(self) -> None:
        self.attached.setText(", ".join(path.name for path in self.documents))
        page = next(filter(is_report, self.documents), None)
        if page is not None and page != self.beside.path:
            self.wanted = (max(self.wanted[0], _WITH_PAGE), max(self.wanted[1], _HIGH))
            self._scroll_beside_page()
            self.beside.show_file(page)
            self.fit()

    def _scroll_beside_page(self) -> None:
        """Let what is typed scroll on its own, so that its page stays in sight."""
        if self.sheet.widget() is not None:
            return
        at = self.focusWidget()
        self._halves.removeWidget(self._typed)
        self.sheet.setWidget(self._typed)
        self.sheet.setWidgetResizable(True)
        self.sheet.setFrameShape(QFrame.Shape.NoFrame)
        self.sheet.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.sheet.setMinimumHeight(em(self) * _LEAST)
        self._halves.addWidget(self.sheet, 3)
        self.sheet.show()
        if at is not None:
            at.setFocus()

    def _on_lab(self, lab: str) -> None:
        """Offer the lines of this lab's last test."""
        last = last_test(self._household, lab)
        self.offer_button.setVisible(bool(last))
        n = len(last)
        said = ngettext("Its last test: {n} &line", "Its last test: {n} &lines", n)
        self.offer_button.setText(said.format(n=n))

    def _offer(self) -> None:
        """Take over the lines of this lab's last test, without its figures."""
        self.lines.offer(last_test(self._household, self.lab.currentText()))
        self.lines.rows[0].result.setFocus()

    def _collected(self) -> LocalTime:
        """The day as it was typed.

        Raises:
            Fault: There is none, it can't be read, or it lies ahead.
        """
        moment = read_drawn(self.day.text())
        if moment is None:
            raise Fault(_("Say when it was drawn, as far as the report tells."))
        require_past(moment, self._household)
        return moment

    def _on_line(self, row: HandRow) -> None:
        self._edited = row
        self._say_changes()

    def _say_changes(self) -> None:
        """What changed since the tests before, as far as it is typed."""
        said = self._changes.said(
            self.point.currentData(),
            self.day.text(),
            self.lines.whole(),
            self._edited.known if self._edited is not None else None,
        )
        if said != self.changed.text():
            self.changed.setText(said)
            self.changed.setVisible(bool(said))
            self.grow()
            self._keep_in_sight()

    def _keep_in_sight(self) -> None:
        """What is said takes its room from the lines: that which is typed in stays in sight."""
        column = self.layout()
        if column is not None:
            column.activate()
            self._on_focus(None, self.focusWidget())

    def _on_focus(self, before: QWidget | None, now: QWidget | None) -> None:
        super()._on_focus(before, now)
        if now is not None and self.sheet.isAncestorOf(now):
            self.sheet.ensureWidgetVisible(now)

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
        if self.place is not None:
            self.place.require_names()
        if not results:
            raise Fault(_("Enter at least one result."))
        cost, currency = read_cost(self.cost.text(), self.currency.currentText())
        return NewSample(
            point=self.point.currentData() or 0,
            collected=self._collected(),
            lab=self.lab.currentText().strip(),
            lab_number=self.lab_number.text().strip(),
            purpose=self.purpose.currentData(),
            results=results,
            documents=tuple(map(new_document, self.documents)),
            cost=cost,
            currency=currency,
        )

    def accept(self) -> None:
        """Keep the test; ask what becomes of a finding that it denies."""
        self._is_denied = False
        super().accept()
        if self._is_denied:
            ask_denied(self)

    def keep(self) -> str:
        """Write the test; what is odd about it is asked the first time.

        Raises:
            Fault: It can't be kept, or it holds something odd that was not yet asked.
        """
        sample = self.new_sample()
        self.ask_once(questions(sample, self._household))
        outside = self._changes.outside(sample)
        try:
            self._household.apart(self._keeping(sample))
        except Contradicts:
            self._is_denied = True
            raise
        said = _("The test of {day} is kept.").format(day=moment_words(sample.collected))
        return f"{said} {outside}".rstrip()

    def _keeping(self, sample: NewSample) -> "Callable[[], object]":
        """What keeps the test; the first one of a book together with its well and point."""
        book, told = self._household.book, self.told
        if self.place is None:
            return partial(keep, book, sample, told=told)
        named = self.place.named()

        def keep_first() -> None:
            with book.together("add a sample"):
                well = next((one.id for one in book.wells() if one.name == named.well), None)
                well = book.add_well(named.well) if well is None else well
                point = book.add_point(well, named.point, treated=named.is_treated)
                keep(book, replace(sample, point=point), told=told)

        return keep_first

    def done(self, code: int) -> None:
        """Draw nothing any more, then close."""
        self.beside.stop()
        super().done(code)
