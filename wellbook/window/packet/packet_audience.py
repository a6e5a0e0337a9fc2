"""The first part of handing over: for whom, on which paper, in which language and units."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QLayout,
    QLineEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.packet.options import AUDIENCES
from wellbook.planning import settings
from wellbook.support import paths
from wellbook.support.translation import ENGLISH, LANGUAGES, _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.unit_choices import USUAL, read_unit_choices
from wellbook.window.common.household import Household
from wellbook.window.common.preferences import PacketHabits, paper_of_system
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.typed_days import day_hint, read_day
from wellbook.window.widgets.layouts import named, words


class ReaderPart(QWidget):
    """Shows how a packet was written last, and what it may be now.

    Signals:
        changed: Something else is chosen.
    """

    changed = Signal()

    def __init__(
        self, habits: PacketHabits, household: Household, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        kept = household.record.settings
        self.audience = QButtonGroup(self)
        self.readers = QVBoxLayout()
        for number, text in enumerate(
            (
                _("a &buyer of the house or a lender: plain words first"),
                _("a water &consultant: methods, limits of detection, tests"),
            )
        ):
            choice = QRadioButton(text)
            self.audience.addButton(choice, number)
            self.readers.addWidget(choice)
        last = AUDIENCES.index(habits.reader) if habits.reader in AUDIENCES else 0
        self.audience.button(last).setChecked(True)
        self.paper = _combo(
            {
                "letter": _("Letter (8.5 × 11 in)"),
                "a4": _("A4 (210 × 297 mm)"),
            },
            kept.get("paper", "") or habits.paper,
            settings.paper(kept, paper_of_system()),
        )
        self.language = _combo(
            LANGUAGES,
            kept.get("language", "") or habits.language,
            settings.language(kept) or ENGLISH.key,
        )
        set_tip(
            self.language,
            _("The words of the pages. What you wrote yourself stays as it is."),
        )
        self.units = _combo(
            _unit_names(household.catalogue),
            kept.get("units", "") or habits.units,
            settings.units(kept),
        )
        set_tip(
            self.units,
            _("Figures as the labs reported them are shown in any case."),
        )
        self.closing = QLineEdit()
        self.closing.setPlaceholderText(_("none"))
        self.form = QFormLayout(self)
        self._lay_out()
        self.audience.buttonClicked.connect(lambda _unused: self.changed.emit())
        for box in (self.paper, self.language, self.units):
            box.activated.connect(lambda _unused: self.changed.emit())
        self.closing.editingFinished.connect(self.changed)

    def _lay_out(self) -> None:
        unit = em(self)
        self.form.setContentsMargins(0, 0, 0, 0)
        self.form.setVerticalSpacing(unit // 2)
        self.form.addRow(_("For"), self.readers)
        self._paper_row = paper = QHBoxLayout()
        paper.setSpacing(unit // 2)
        paper.addWidget(self.paper, 1)
        paper.addSpacing(unit)
        paper.addWidget(named(_("&Language"), self.language))
        paper.addWidget(self.language, 1)
        self.form.addRow(named(_("P&aper"), self.paper), paper)
        self.form.addRow(_("&Units"), self.units)
        self._closing_row = closing = QHBoxLayout()
        closing.setSpacing(unit // 2)
        self.closing.setFixedWidth(unit * 8)
        closing.addWidget(self.closing)
        told = _("of a sale, like {day}: tells how old each test is on that day").format(
            day=day_hint()
        )
        closing.addWidget(words(told, quiet=True), 1)
        self.form.addRow(named(_("Closing &date"), self.closing), closing)

    def leave_out_closing(self) -> None:
        """Ask for no day of a sale."""
        self.form.setRowVisible(self._closing_row, False)  # noqa: FBT003  Qt's

    def leave_out_paper(self) -> None:
        """Ask for no paper."""
        self.paper.hide()
        label = self.form.labelForField(self._paper_row)
        if label is not None:
            label.hide()

    def replace_readers(self, label: str, others: QLayout) -> None:
        """Ask for other readers than those of a packet."""
        self.form.setRowVisible(self.readers, False)  # noqa: FBT003  Qt's
        self.form.insertRow(0, label, others)

    def habits(self) -> PacketHabits:
        """What is chosen now, in the form in which it is remembered."""
        return PacketHabits(
            AUDIENCES[self.audience.checkedId()],
            self.paper.currentData(),
            self.language.currentData(),
            self.units.currentData(),
        )

    def closing_day(self) -> date | None:
        """The day of the sale, if one is written.

        Raises:
            Fault: What is written is no day.
        """
        return read_day(self.closing.text())


def _unit_names(catalogue: Catalogue) -> dict[str, str]:
    choices = read_unit_choices(paths.resources() / "unit_choices.csv", catalogue)
    usual = _("As labs report them")
    return {USUAL: usual, **{key: _(one.name) for key, one in choices.items()}}


def _combo(names: dict[str, str], last: str, usual: str) -> QComboBox:
    made = QComboBox()
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    for key, name in names.items():
        made.addItem(name, key)
    made.setCurrentIndex(made.findData(last if last in names else usual))
    return made
