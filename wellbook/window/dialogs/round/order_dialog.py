"""What to order at a lab for what is drawn next: the least price, and the form to copy from."""

from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from wellbook.book.record import Record
from wellbook.planning.lab import order_words
from wellbook.planning.lab.lab_order import LabOrder, PointOrder, VisitOrder, lab_order
from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.preferences import paper_of_system
from wellbook.window.common.theme import em
from wellbook.window.common.words import day_words, partial_words
from wellbook.window.dialogs.round.price_list_dialog import PriceListDialog
from wellbook.window.dialogs.round.round_view import LookingDialog, button
from wellbook.window.widgets.layouts import clear_layout, lock, named, words

_WIDE, _HIGH = 56, 38  # ems; without prices only as high as what is said


class OrderDialog(LookingDialog):
    """Shows the cheapest order at a lab; writes the page to copy from into the lab's form."""

    def __init__(self, household: Household, chooser: Chooser, parent: QWidget) -> None:
        super().__init__(_("What to order"), parent, width=_WIDE, height=_HIGH)
        self._household, self._chooser = household, chooser
        self._found: LabOrder | None = None
        self.lab = QComboBox()
        self.lab.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.lab.activated.connect(lambda: self.look(self.lab.currentText()))
        self._column = QVBoxLayout()
        self._column.setSpacing(em(self) // 2)
        self.personal = QCheckBox(_("Put &names and address on the form"))
        self.prices_button = button(_("Price &list…"), self._on_prices)
        self.form_button = button(_("&Form for the lab…"), self._on_form)
        self.close_button = button(_("&Close"), self.reject)
        lock(household.why_readonly, self.prices_button)
        self.job = Loader(self)
        self.job.failed.connect(self._on_failed)
        self._lay_out()
        self.look()

    def _lay_out(self) -> None:
        self._named = named(_("La&b"), self.lab)
        self.head.addWidget(self._named)
        self.head.addWidget(self.lab)
        self.rows.addLayout(self._column)
        self.rows.addStretch(1)
        self.foot.addWidget(self.personal)
        buttons = QHBoxLayout()
        buttons.addWidget(self.prices_button)
        buttons.addStretch(1)
        buttons.addWidget(self.form_button)
        buttons.addWidget(self.close_button)
        self.foot.addLayout(buttons)

    def look(self, lab: str = "") -> None:
        """Work the order out on another thread, at a lab or at the one that suits best."""
        self._found = None
        self.form_button.setEnabled(False)
        clear_layout(self._column)
        has_prices = bool(self._household.record.prices)
        for part in (self._named, self.lab, self.personal, self.form_button):
            part.setVisible(has_prices)
        self.wanted = (_WIDE, _HIGH if has_prices else 0)
        if not has_prices:
            said = _(
                "There is no price list in the book yet. Ask the lab for its prices, and enter "
                "them under “Price list…”: each package with what it measures."
            )
            self._column.addWidget(words(said, bold=True))
            return
        self._column.addWidget(words(_("Looking for the least price …"), quiet=True))
        self.job.ask(partial(_order, self._household, self._household.record, lab), self._show)

    def _on_failed(self, sentence: str) -> None:
        clear_layout(self._column)
        self.bar.say(sentence)

    def _show(self, found: LabOrder) -> None:
        self._found = found
        self.form_button.setEnabled(bool(found.visits))
        self.lab.clear()
        self.lab.addItems(sorted((found.lab, *(one.lab for one in found.others))))
        self.lab.setCurrentText(found.lab)
        self.lab.setEnabled(True)
        clear_layout(self._column)
        self._say(order_words.head(found, partial_words), bold=True)
        if not found.visits:
            self._say(order_words.nothing_planned())
        for visit in found.visits:
            self._show_visit(visit, found.currency)
        years = order_words.ahead(found, day_words)
        if years:
            self._say(_("The years ahead"), bold=True)
            self._say(" ".join(years))
        others = tuple(order_words.others(found))
        if others:
            self._say(_("Elsewhere"), bold=True)
            for line in others:
                self._say(line)
        self.grow()

    def _show_visit(self, visit: VisitOrder, currency: str) -> None:
        self._say(order_words.visit_head(visit, day_words), bold=True)
        for one in visit.points:
            self._say(order_words.point_head(one), bold=True)
            self._column.addWidget(self._offers(one, currency))
            for line in order_words.beside(one, self._household.catalogue):
                self._say(line)
        *parcel, total = order_words.visit_sum(visit, currency)
        for line in parcel:
            self._say(line)
        self._say(total, bold=True)

    def _offers(self, one: PointOrder, currency: str) -> QWidget:
        box = QWidget()
        grid = QGridLayout(box)
        unit = em(box)
        grid.setContentsMargins(unit, 0, 0, 0)
        grid.setHorizontalSpacing(unit)
        grid.setColumnMinimumWidth(0, unit * 14)
        grid.setColumnMinimumWidth(1, unit * 7)
        grid.setColumnStretch(2, 1)
        lines = order_words.offers(one, currency, self._household.catalogue)
        for row, (name, price, names) in enumerate(lines):
            grid.addWidget(words(name), row, 0)
            grid.addWidget(words(price), row, 1)
            grid.addWidget(words(names, quiet=True), row, 2)
        return box

    def _say(self, text: str, *, bold: bool = False) -> None:
        self._column.addWidget(words(text, bold=bold))

    def _on_prices(self) -> None:
        lab = self._found.lab if self._found else ""
        self.enter(PriceListDialog(self._household, self._chooser, self, lab=lab))

    def _on_form(self) -> None:
        found = self._found
        if found is None:
            return
        day = found.visits[0].day
        name = f"{self._household.path.stem}-{day or 'form'}-lab.pdf"
        path = self._chooser.file_to_write(self, name, _("PDF files (*.pdf)"))
        if path is not None and self.bar.attempt(partial(self._write, found, path)):
            self.bar.say(
                _("Written: {path}").format(path=path),
                _("Open it"),
                lambda: self._chooser.show(path),
            )

    def _write(self, found: LabOrder, path: Path) -> None:
        """Write the page in the language of what is printed."""
        from wellbook.export.order_form import write
        from wellbook.planning.settings import paper, printing
        from wellbook.wording.reference import worded

        household, record = self._household, self._household.record
        with printing(record.settings):
            catalogue = worded(household.untranslated)
            same = lab_order(record, catalogue, household.today, found.lab)
            write(
                path,
                record,
                same,
                catalogue,
                today=household.today,
                paper=paper(record.settings, paper_of_system()),
                with_personal=self.personal.isChecked(),
            )


def _order(household: Household, record: Record, lab: str, tell: Tell) -> LabOrder:
    tell(0, 0, "")
    return lab_order(record, household.catalogue, household.today, lab)
