"""A well and all that belongs to it: log, points, treatment, labs, plans, documents."""

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QListWidget,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from wellbook.support.translation import _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.dialogs import decisions_dialog
from wellbook.window.pages.well import (
    well_flow,
    well_prices,
    well_sections,
    well_treatment,
    well_upkeep,
)
from wellbook.window.pages.well.well_glance import WellGlance
from wellbook.window.widgets.documents_box import DocumentsBox
from wellbook.window.widgets.layouts import SUBTITLE, lock, words
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.section_view import SectionView

_LINE = 1.6  # ems of height of a line of the list, as high as what is pressed


class WellPage(QWidget):
    """The list of sections on the left, the chosen one on the right.

    Signals:
        dialog_wanted: Something is to be added or changed; carries the dialog.
        removal_wanted: Something is to be taken out; carries the deed.
        point_wanted: The first sampling point is to be named.
    """

    dialog_wanted = Signal(object)
    point_wanted = Signal()
    removal_wanted = Signal(object)

    def __init__(
        self, household: Household, bar: MessageBar, chooser: Chooser, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._household = household
        self.well = QComboBox()
        self.well.setAccessibleName(_("Well"))
        self.well.activated.connect(self._show)
        self.name = words(factor=SUBTITLE, bold=True)
        self.about = words(quiet=True)
        self.facts_button = QPushButton(_("Name, address, remarks…"))
        self.point_button = QPushButton(_("Name a sampling point…"))
        self.point_button.clicked.connect(self.point_wanted)
        lock(household.why_readonly, self.facts_button, self.point_button)
        self.facts_button.clicked.connect(self._on_facts)
        sections = (
            *well_sections.sections(household),
            well_flow.section(household),
            *well_prices.sections(household, chooser),
            *well_treatment.sections(household),
            *well_upkeep.sections(household, chooser),
            decisions_dialog.section(household),
        )
        self.sections = [SectionView(one, household.why_readonly) for one in sections]
        self.documents = DocumentsBox(
            household, bar, chooser, _("Documents of the well"), is_wide=True
        )
        self.list = QListWidget()
        self.list.setAccessibleName(_("What is shown of the well"))
        self.stack = QStackedWidget()
        self.glance = WellGlance(household)
        self.glance.loader.failed.connect(bar.say)
        self.list.addItem(_("At a glance"))
        self.stack.addWidget(self.glance)
        for view in self.sections:
            view.dialog_wanted.connect(self.dialog_wanted)
            view.removal_wanted.connect(self.removal_wanted)
            self.list.addItem(view.section.title)
            self.stack.addWidget(view)
        self.list.addItem(_("Documents"))
        self.stack.addWidget(self.documents)
        self.list.currentRowChanged.connect(self._on_row)
        self.list.setCurrentRow(0)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        head = QHBoxLayout()
        head.addWidget(self.well)
        self.name.setContentsMargins(0, 0, unit, 0)
        head.addWidget(self.name)
        head.addWidget(self.about, 1)
        head.addWidget(self.facts_button)
        head.addWidget(self.point_button)
        self.list.setFixedWidth(unit * 13)
        for place in range(self.list.count()):
            self.list.item(place).setSizeHint(QSize(0, round(unit * _LINE)))
        self.list.setViewportMargins(unit // 4, 0, 0, 0)
        body = QHBoxLayout()
        body.setSpacing(unit)
        body.addWidget(self.list)
        body.addWidget(self.stack, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.setSpacing(unit)
        column.addLayout(head)
        column.addLayout(body, 1)

    @property
    def number(self) -> int:
        """Number of the well that is shown; 0 in a book that has none yet."""
        return int(self.well.currentData() or 0)

    def show_section(self, title: str) -> None:
        """Show the section of a title."""
        for place, view in enumerate(self.sections, start=1):
            if view.section.title == title:
                self.list.setCurrentRow(place)

    def refresh(self) -> None:
        """Show the book as it is now."""
        shown = self.number
        self.well.clear()
        for well in self._household.book.wells():
            self.well.addItem(well.name, well.id)
        self.well.setCurrentIndex(max(self.well.findData(shown), 0))
        self.well.setVisible(self.well.count() > 1)
        self._show()

    def clean_up(self) -> None:
        """Remove the copies of documents that were opened in other programs; await nothing more."""
        self.glance.loader.stop()
        self.documents.clean_up()

    def _show(self) -> None:
        found = [well for well in self._household.book.wells() if well.id == self.number]
        self.facts_button.setVisible(bool(found))
        self.point_button.setVisible(not found)
        self.name.setVisible(self.well.count() == 1 and bool(found))
        self.name.setText(found[0].name if found else "")
        self.about.setText(
            well_sections.about(self._household, found[0])
            if found
            else _("Name the place where you draw samples: it brings its well.")
        )
        self.glance.show_well(self.number)
        for view in self.sections:
            view.show_well(self.number)
        self.documents.show_well(self.number)

    def _on_row(self, row: int) -> None:
        shown = self.stack.widget(row)
        if isinstance(shown, SectionView):
            shown.make()
        self.stack.setCurrentIndex(row)

    def _on_facts(self) -> None:
        self.dialog_wanted.emit(well_sections.facts_dialog(self._household, self.number, self))
