"""A lab's price list: typed in price by price, or read from a CSV file."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QComboBox, QFormLayout, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from wellbook.book.rows import SHIPPING, Price
from wellbook.intake.price_list import Typed, Unsure, read_price, read_prices
from wellbook.planning.lab.lab_route import read_habits
from wellbook.planning.upkeep.costs import usual_currency
from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES
from wellbook.support.translation import _, ngettext
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.typed_days import partial_hint, read_partial
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.dialogs.round.round_view import button
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import clear_layout, named, words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table

_TABLE_LINES = 14  # ems


@dataclass(frozen=True, slots=True)
class _Row:
    """A price of the list, with the names in it that nobody knows yet."""

    price: Price
    unsure: tuple[Unsure, ...] = ()


class PriceListDialog(EntryDialog):
    """Shows a lab's whole list; it is kept in place of the one before.

    A name of a test that is not known is asked about; until it is answered, it is left out.
    """

    def __init__(
        self, household: Household, chooser: Chooser, parent: QWidget, *, lab: str = ""
    ) -> None:
        """Make the dialog.

        Args:
            household: Whose book the list is kept in.
            chooser: Asks which file it is.
            parent: The window or dialog that it belongs to.
            lab: Name of the lab; empty to ask for it.
        """
        title = _("The price list of a lab")
        super().__init__(title, _("Keep the price list"), parent, width=52, height=38)
        self._household, self._chooser = household, chooser
        self._list: list[_Row] = []
        self._means: dict[str, str] = {}
        self._is_changed = False
        self.lab = QComboBox()
        self.lab.setEditable(True)
        self.lab.addItems([one.name for one in household.record.labs])
        self.lab.setEditText(lab)
        self.lab.activated.connect(self._on_lab)
        self.currency = QComboBox()
        self.currency.setEditable(True)
        self.currency.addItems(list(CURRENCIES))
        self.currency.setEditText(usual_currency(household.record))
        self.day = QLineEdit()
        self.day.setPlaceholderText(partial_hint())
        self.table = Table(_("Prices"))
        self.model = RowsModel(_columns(household), lambda row: row.price.name, self)
        self.table.setModel(self.model)
        self.table.arrange("prices")
        self.table.setFixedHeight(em(self) * _TABLE_LINES)
        self.table.picked.connect(self._on_picked)
        self.table.chosen.connect(self._on_change)
        self.file_button = button(_("From a &file…"), self._on_file)
        self.add_button = button(_("&Add…"), self._on_add)
        self.change_button = button(_("C&hange…"), self._on_change)
        self.out_button = button(_("Take &out"), self._on_take_out)
        self.questions: dict[str, QComboBox] = {}
        self.setAcceptDrops(True)
        self._lay_out()
        self._load(lab)

    def _lay_out(self) -> None:
        said = _(
            "Type the prices in, or take them from a CSV file whose first row names its columns: "
            "name, price, tests, currency, kind, day. A file can be dropped here, too. A price "
            "that is left empty is not known, and is never taken for nothing."
        )
        self.rows.addWidget(words(said, quiet=True))
        form = QFormLayout()
        form.addRow(named(_("&Lab"), self.lab), self.lab)
        form.addRow(named(_("Curre&ncy"), self.currency), self.currency)
        form.addRow(named(_("&Day of the list"), self.day), self.day)
        self.rows.addLayout(form)
        self.rows.addWidget(self.table)
        row = QHBoxLayout()
        for one in (self.file_button, self.add_button, self.change_button, self.out_button):
            row.addWidget(one)
        row.addStretch(1)
        self.rows.addLayout(row)
        self._asked = QVBoxLayout()
        self.rows.addLayout(self._asked)
        self.finish()

    @property
    def is_touched(self) -> bool:
        """Prices are entered, too."""
        return self._is_changed or super().is_touched

    def keep(self) -> str:
        """Write the whole list."""
        lab = " ".join(self.lab.currentText().split())
        if not lab:
            raise Fault(_("Name the lab whose prices these are."))
        prices = [row.price for row in self._list]
        if not prices:
            raise Fault(_("There is no price in the list yet: add one, or take them from a file."))
        codes = sorted({price.currency for price in prices if price.currency})
        if len(codes) > 1:
            said = _("The list of {lab} is in {codes}: a list has one currency.")
            raise Fault(said.format(lab=lab, codes=", ".join(codes)))
        self._household.book.set_prices(lab, prices)
        said = ngettext("Kept: {n} price of {lab}.", "Kept: {n} prices of {lab}.", len(prices))
        left = list(dict.fromkeys(one.printed for row in self._list for one in row.unsure))
        more = _("Not taken, as nobody said what it means: {names}.").format(names=", ".join(left))
        return " ".join(filter(None, (said.format(n=len(prices), lab=lab), more if left else "")))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Let the file manager go on first, then read what was dropped."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        if paths:
            QTimer.singleShot(0, partial(self.read_file, paths[0]))

    def read_file(self, path: Path) -> None:
        """Show what a file says, in place of the list."""

        def read() -> None:
            day = read_partial(self.day.text())
            currency = self.currency.currentText()
            found = read_prices(path, self._household.catalogue, currency=currency, day=day)
            self._show(
                [
                    _Row(price, tuple(one for one in found.unsure if one.price == price.name))
                    for price in found.prices
                ]
            )
            self._is_changed = True

        self.bar.clear()
        self.bar.attempt(read)

    def _on_lab(self) -> None:
        if not self._is_changed:
            self._load(self.lab.currentText())

    def _load(self, lab: str) -> None:
        """Show the list that the book has of a lab."""
        listed = self._household.record.prices_of(lab) if lab else ()
        self._show([_Row(price) for price in listed])
        days = [price.day for price in listed if price.day]
        self.day.setText(min(days, default=""))
        for price in listed:
            if price.currency:
                self.currency.setEditText(price.currency)

    def _show(self, rows: Sequence[_Row]) -> None:
        self._list = list(rows)
        self.model.show(self._list)
        self.table.fit(stretch=2)
        if self._list and self.table.row() is None:
            self.table.pick(0)
        self._on_picked(self.table.row())
        self._ask()

    def _ask(self) -> None:
        """Ask what each name means that is not known."""
        asked = {one.printed: one for row in self._list for one in row.unsure}
        if asked.keys() == self.questions.keys():
            return
        clear_layout(self._asked)
        self.questions = {printed: self._question(one) for printed, one in asked.items()}
        self.grow()

    def _question(self, one: Unsure) -> QComboBox:
        known = self._household.catalogue.parameters
        box = QComboBox()
        box.addItem(_("left out: we don’t know"), "")
        others = sorted(known.values(), key=lambda each: each.name.casefold())
        for each in sorted(others, key=lambda each: each.key != one.near):
            box.addItem(each.name, each.key)
        said = _("What does “{printed}” mean ({price})?")
        text = said.format(printed=one.printed, price=one.price)
        box.setAccessibleName(text)
        box.activated.connect(partial(self._on_meaning, one.printed, box))
        line = QWidget()
        across = QHBoxLayout(line)
        across.setContentsMargins(0, 0, 0, 0)
        across.addWidget(words(text), 1)
        across.addWidget(box)
        self._asked.addWidget(line)
        return box

    def _on_meaning(self, printed: str, box: QComboBox, _unused: int) -> None:
        self._means[printed] = str(box.currentData() or "")
        means = {name: key for name, key in self._means.items() if key}
        self._list = [
            _Row(*read_price(_typed(row.price), self._household.catalogue, means))
            if any(word.strip() == printed for word in row.price.tests.split(";"))
            else row
            for row in self._list
        ]
        self._is_changed = True
        self.model.show(self._list)

    def _on_picked(self, row: object) -> None:
        for one in (self.change_button, self.out_button):
            one.setEnabled(row is not None)

    def _on_file(self) -> None:
        path = self._chooser.price_list(self)
        if path is not None:
            self.read_file(path)

    def _on_add(self) -> None:
        code, day = self.currency.currentText(), self.day.text()
        self._edit(Price(0, 0, "", "", currency=code, day=day), None)

    def _on_change(self) -> None:
        row = self.table.row()
        if isinstance(row, _Row):
            self._edit(row.price, row)

    def _on_take_out(self) -> None:
        row = self.table.row()
        self._is_changed = True
        self._show([one for one in self._list if one is not row])

    def _edit(self, price: Price, old: _Row | None) -> None:
        dialog = _price_dialog(price, partial(self._take, old), self)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _take(self, old: _Row | None, values: Values) -> str:
        """Take one price into the list."""
        kind = SHIPPING if values.pop("is_parcel") else ""
        day = read_partial(values.pop("day"))
        means = {name: key for name, key in self._means.items() if key}
        typed = Typed(**values, kind=kind, day=day)
        row = _Row(*read_price(typed, self._household.catalogue, means))
        same = [one for one in self._list if one.price.name == row.price.name and one is not old]
        if same:
            said = _("{name} is in the list already.")
            raise Fault(said.format(name=row.price.name))
        self._is_changed = True
        if old is None:
            self._show([*self._list, row])
        else:
            self._show([row if one is old else one for one in self._list])
        return ""


def _typed(price: Price) -> Typed:
    kind = price.kind if price.kind == SHIPPING else ""
    return Typed(price.name, price.amount, price.tests, price.currency, kind, price.day)


def _price_dialog(price: Price, write: "partial[str]", parent: QWidget) -> FieldsDialog:
    offered = {code: code for code in dict.fromkeys((*filter(None, [price.currency]), *CURRENCIES))}
    return FieldsDialog(
        (_("A price"), _("Take it into the list")),
        (
            Field("name", _("&Name on the list"), price.name),
            Field("price", _("&Price"), price.amount, hint="45.00"),
            Field("currency", _("Currenc&y"), price.currency, "open", offered),
            Field("tests", _("&Measures"), price.tests, "text"),
            Field("is_parcel", _("It is the price of the parce&l"),
                  "1" if price.kind == SHIPPING else "", "check"),
            Field("day", _("&Day of the list"), price.day, hint=partial_hint()),
        ),
        write,
        parent,
        intro=_(
            "What it measures: names as the list prints them, with ; between; none for a single "
            "test that is called by what it measures."
        ),
    )  # fmt: skip


def of_file(path: Path, household: Household, chooser: Chooser, parent: QWidget) -> PriceListDialog:
    """The dialog with a file's prices in it, for the lab that the household goes to."""
    lab = read_habits(household.record.settings).lab
    dialog = PriceListDialog(household, chooser, parent, lab=lab)
    dialog.read_file(path)
    return dialog


def one_by_one(lists: Sequence[Path]) -> list[str]:
    """What is said of the lists that were given beside another one; nothing if there are none."""
    said = _("Price lists are read one by one; drop each alone: {names}.")
    return [said.format(names=", ".join(path.name for path in lists))] if lists else []


def _columns(household: Household) -> tuple[Column, ...]:
    known = household.catalogue.parameters

    def measures(row: _Row) -> str:
        if row.price.kind == SHIPPING:
            return _("the parcel")
        keys = row.price.parameters.split()
        return ", ".join(known[key].name if key in known else key for key in keys)

    def price(row: _Row) -> str:
        amount = f"{row.price.amount} {row.price.currency}"
        return amount if row.price.amount else _("not known")

    return (
        Column(_("On the list"), lambda row: row.price.name),
        Column(_("Price"), price),
        Column(_("Measures"), measures),
        Column(_("Not taken yet"), lambda row: "; ".join(one.printed for one in row.unsure)),
    )
