"""The lines of a test that is typed by hand: parameter, result, unit, and how it was understood."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QCompleter, QHBoxLayout, QLineEdit, QWidget

from wellbook.book.rows import NewResult
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, pgettext
from wellbook.water.parsing.typed import meanings, read_typed, typed_line, typed_with_point
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import normal_name
from wellbook.window.common.household import Household
from wellbook.window.common.tips import name_inside
from wellbook.window.common.words import understood_words
from wellbook.window.widgets.entry_dialog import offer_below
from wellbook.window.widgets.layouts import FoldingLines, words

NOT_PRINTED = N_("not printed")
BASES = (
    "", NOT_PRINTED, "as N", "as NO3", "as NO2", "as CaCO3",
    "as P", "as PO4", "as S", "as SO4", "as Si",
)  # fmt: skip

_ASKED = frozenset({"as N", "as P", "as S", "as Si"})  # where a report may count as another


@dataclass(frozen=True, slots=True)
class Offered:
    """A line of an earlier test, to be filled with a new figure."""

    name: str
    unit: str
    basis: str


def last_test(household: Household, lab: str) -> list[Offered]:
    """The lines of the latest test of a lab, as it printed them; none of a lab not known."""
    name = normal_name(lab)
    own = [one for one in household.record.samples() if name and normal_name(one.lab) == name]
    if not own:
        return []
    latest = max(own, key=lambda sample: sample.collected.order())
    results = household.book.results(sample=latest.id)
    return [Offered(one.name, one.reading.unit, one.reading.basis) for one in results]


class StillCombo(QComboBox):
    """A list that the wheel never turns: the page under it scrolls."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to the page."""
        event.ignore()


class HandRow(QObject):
    """The fields of one line.

    Signals:
        edited: Something was typed in it; carries itself.
    """

    edited = Signal(object)

    def __init__(self, number: int, catalogue: Catalogue, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._catalogue = catalogue
        self.parameter = _short_combo()
        self.parameter.setEditable(True)
        self.parameter.addItem("", "")
        for known in sorted(catalogue.parameters.values(), key=lambda p: p.name.casefold()):
            self.parameter.addItem(known.name, known.key)
        completer = QCompleter(self.parameter.model(), self.parameter)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self.parameter.setCompleter(completer)
        line = self.parameter.lineEdit()
        if line is not None:
            line.editingFinished.connect(self.part)
        self.result = QLineEdit()
        self.unit = _short_combo()
        self.unit.setEditable(True)
        offer_below(self.unit)
        self.basis = _short_combo()
        for basis in BASES:
            self.basis.addItem(_(basis) if basis else "", "" if basis == NOT_PRINTED else basis)
        self.limit = QLineEdit()
        self.understood = words(quiet=True)
        self.comma = StillCombo()
        self.comma.hide()
        self.said = QWidget()
        beside = QHBoxLayout(self.said)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(self.understood, 1)
        beside.addWidget(self.comma)
        self._number = number
        self.is_offered = False
        self._name(number)
        self.parameter.currentTextChanged.connect(self._on_parameter)
        lines = (self.result.textChanged, self.limit.textChanged)
        for signal in (*lines, self.unit.currentTextChanged, self.basis.currentTextChanged):
            signal.connect(self._on_edited)
        self.comma.activated.connect(self._on_edited)

    def _name(self, number: int) -> None:
        for widget, text in zip(self.fields, heads(), strict=False):
            name = _("{field}, line {number}")
            widget.setAccessibleName(name.format(field=text, number=number))
            if isinstance(widget, QComboBox):
                name_inside(widget)
        comma = _("Which figure is meant, line {number}")
        self.comma.setAccessibleName(comma.format(number=number))

    @property
    def fields(self) -> tuple[QWidget, ...]:
        """Its fields from left to right."""
        return (self.parameter, self.result, self.unit, self.basis, self.limit)

    @property
    def is_empty(self) -> bool:
        """Whether nothing was typed in it; a line that was offered is empty without a figure."""
        is_named = self.parameter.currentText().strip() and not self.is_offered
        return not is_named and not self.result.text().strip()

    def offer(self, line: Offered) -> None:
        """Take over what a line of an earlier test says, and leave the figure to be typed."""
        self.parameter.setCurrentText(line.name)
        self.unit.setEditText(line.unit)
        if line.basis or self._asks_basis:
            self.say_basis(line.basis)
        self.is_offered = True
        for field in (self.parameter, self.unit, self.basis, self.limit):
            _set_tab(field, stops=False)

    def say_basis(self, basis: str) -> None:
        """Take over the basis that was printed, or that none was."""
        if self.basis.findData(basis) < 0:
            self.basis.addItem(basis, basis)
        is_bare = not basis and self._asks_basis
        self.basis.setCurrentIndex(1 if is_bare else self.basis.findData(basis))

    def part(self) -> None:
        """Where a whole line was typed as its parameter, give every field what belongs to it."""
        line = self.parameter.lineEdit()
        if self.result.text().strip() or line is None:
            return
        found = typed_line(line.text(), lambda name: self._catalogue.find(name) is not None)
        if found is None:
            return
        self.parameter.setCurrentText(found.name)
        if found.unit:
            self.unit.setEditText(found.unit)
        if found.basis:
            self.say_basis(found.basis)
        self.result.setText(found.figure)

    @property
    def _asks_basis(self) -> bool:
        """Whether the figure means little without what its weight is counted as."""
        known = self.known
        return known is not None and known.basis in _ASKED

    @property
    def known(self) -> Parameter | None:
        """The parameter that the name stands for, if it is known."""
        return self._catalogue.find(self.parameter.currentText())

    @property
    def is_whole(self) -> bool:
        """Whether it is a known parameter with a result, and nothing is asked about it."""
        lacks_basis = self._asks_basis and self.basis.currentIndex() == 0
        is_given = self.known is not None and bool(self.result.text().strip())
        return is_given and not self._is_open and not lacks_basis

    def settle(self, number: Decimal | None) -> None:
        """Choose what a comma is by the number that was understood before."""
        for place in range(1, self.comma.count()):
            if read_typed(self.comma.itemText(place)).number == number:
                self.comma.setCurrentIndex(place)
        self._on_edited()

    def new_result(self) -> NewResult:
        """The line as a result, printed text and all.

        Raises:
            Fault: It lacks its basis, or its comma can be either.
        """
        if self._is_open:
            decimal, thousands = self._meanings or ("", "")
            said = _(
                "Line {number}: is it {decimal} or {thousands}? Choose at the end of the line."
            )
            raise Fault(said.format(number=self._number, decimal=decimal, thousands=thousands))
        if self._asks_basis and self.basis.currentIndex() == 0:
            said = _(
                "Line {number}: what does the report count {name} as? Choose the basis, or “not "
                "printed”."
            )
            raise Fault(said.format(number=self._number, name=self.parameter.currentText()))
        return self._result()

    def _result(self) -> NewResult:
        known, is_decimal = self.known, bool(self.comma.currentData())
        limit = typed_with_point(self.limit.text().strip(), is_decimal=is_decimal)
        reading = read_typed(
            self.result.text().strip(),
            unit=self.unit.currentText().strip(),
            basis=self.basis.currentData(),
            limit=limit,
            is_decimal=is_decimal,
        )
        return NewResult(
            parameter=known.key if known else "",
            name=self.parameter.currentText().strip(),
            reading=reading,
            reporting_limit=limit,
        )

    def _on_parameter(self) -> None:
        known = self.known
        if known is not None:
            self.unit.clear()
            self.unit.addItems(units_of(known))
            asks = known.basis in _ASKED
            self.basis.setCurrentIndex(0 if asks else max(self.basis.findData(known.basis), 0))
            for field in (self.unit, self.limit):
                _set_tab(field, stops=False)
            _set_tab(self.basis, stops=asks)
        elif self.unit.count():
            # What a shorter name stood for while it was typed says nothing of this one.
            self.unit.clear()
            self.basis.setCurrentIndex(0)
            for field in (self.unit, self.basis, self.limit):
                _set_tab(field, stops=True)
        self._on_edited()

    @property
    def _meanings(self) -> tuple[str, str] | None:
        """What a comma can mean that stands in the line and may be either; the result first."""
        return meanings(self.result.text().strip()) or meanings(self.limit.text().strip())

    @property
    def _is_open(self) -> bool:
        """Whether it must still be asked what a comma means."""
        return self._meanings is not None and self.comma.currentData() is None

    def _ask(self) -> None:
        """Offer both meanings of a comma, chosen anew when the figure changes."""
        both = self._meanings
        shown = tuple(self.comma.itemText(place) for place in (1, 2))
        if shown != (both or ("", "")):
            self.comma.clear()
            if both:
                self.comma.addItem(_("choose"), None)
                self.comma.addItem(both[0], True)  # noqa: FBT003  the item's own value
                self.comma.addItem(both[1], False)  # noqa: FBT003  likewise
        self.comma.setVisible(both is not None)

    def _on_edited(self) -> None:
        self._ask()
        self.understood.setText(self._understood())
        self.edited.emit(self)

    def _understood(self) -> str:
        if not self.result.text().strip():
            return ""
        if self._is_open and self._meanings:
            decimal, thousands = self._meanings
            said = _("{decimal} or {thousands}?")
            return said.format(decimal=decimal, thousands=thousands)
        said = understood_words(self._result().reading)
        if self.parameter.currentText().strip() and self.known is None:
            return _("{said}; the name is not known").format(said=said)
        return said


class HandRows(FoldingLines):
    """As many lines as are needed: a new one appears when the last is begun.

    Signals:
        grown: There is one line more.
        edited: Something was typed in a line, which it carries.
    """

    grown = Signal()
    edited = Signal(object)

    def __init__(self, catalogue: Catalogue, parent: QWidget | None = None) -> None:
        super().__init__((5, 3, 3, 3, 3, 6), parent)
        self._catalogue = catalogue
        self.rows: list[HandRow] = []
        titles = [words(text) for text in (*heads(), _("Understood as"))]
        for title in titles:
            title.setWordWrap(False)  # a second line of it would be cut
        self.take(*titles)
        for _unused in range(3):
            self._add()

    def results(self) -> Iterator[NewResult]:
        """The lines that hold something, from the top.

        Raises:
            Fault: A line lacks its parameter or its result.
        """
        for number, row in enumerate(self.rows, 1):
            row.part()
            is_filled = row.parameter.currentText().strip() and row.result.text().strip()
            if not row.is_empty and not is_filled:
                said = _("Line {number} needs a parameter and a result as printed.")
                raise Fault(said.format(number=number))
        return (row.new_result() for row in self.rows if not row.is_empty)

    def whole(self) -> tuple[NewResult, ...]:
        """The lines that say all that is needed."""
        return tuple(row.new_result() for row in self.rows if row.is_whole)

    def offer(self, lines: Sequence[Offered]) -> None:
        """Take over the lines of an earlier test where nothing was typed yet."""
        free = [row for row in self.rows if row.is_empty]
        while len(free) < len(lines):
            self._add()
            free.append(self.rows[-1])
        for row, line in zip(free, lines, strict=False):
            row.offer(line)
        self.grown.emit()

    def after(self, field: QWidget) -> QWidget | None:
        """Where Return leads from a result and what stands behind it: to the next line.

        From the parameter, too, where a whole line was typed there.
        """
        for row in self.rows:
            if field is row.parameter:
                row.part()
        for row, following in pairwise(self.rows):
            is_whole = field is row.parameter and row.result.text().strip()
            if field in row.fields[1:] or is_whole:
                return following.result if following.is_offered else following.parameter
        return None

    def _add(self) -> None:
        row = HandRow(len(self.rows) + 1, self._catalogue, self)
        row.edited.connect(self._on_edited)
        self.take(*row.fields, row.said)
        self.rows.append(row)

    def _on_edited(self, row: HandRow) -> None:
        if not self.rows[-1].is_empty:
            self._add()
            self.grown.emit()
        self.edited.emit(row)


def _set_tab(field: QWidget, *, stops: bool) -> None:
    """Whether Tab stops at a field; a click always leads into it."""
    policy = Qt.FocusPolicy.StrongFocus if stops else Qt.FocusPolicy.ClickFocus
    field.setFocusPolicy(policy)
    line = field.lineEdit() if isinstance(field, QComboBox) else None
    if line is not None:
        line.setFocusPolicy(policy)


def _short_combo() -> QComboBox:
    combo = StillCombo()
    combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    combo.setMinimumContentsLength(6)
    return combo


def heads() -> tuple[str, ...]:
    """Heads of the columns."""
    return (
        _("Parameter"),
        _("Result as printed"),
        pgettext("byhand", "Unit"),
        _("Basis"),
        _("Reporting limit"),
    )


def units_of(parameter: Parameter) -> list[str]:
    """The units in which a parameter is usually reported."""
    usual = "" if parameter.unit == "1" else parameter.unit
    others = ["mg/L", "µg/L", "ng/L"] if usual in {"mg/L", "µg/L", "ng/L"} else []
    return list(dict.fromkeys([usual, *others]))
