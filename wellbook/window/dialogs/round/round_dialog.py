"""The next round: which day and why, its field sheet, reminders, putting off."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QWidget,
)

from wellbook.book.record import Record
from wellbook.planning.rounds import Round, rounds, visit_of, wanted
from wellbook.planning.settings import paper, printing
from wellbook.support import paths, sign_in
from wellbook.support.translation import _
from wellbook.water.sampling.due import PanelDue
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household, remind_at_sign_in
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.preferences import paper_of_system
from wellbook.window.common.theme import em
from wellbook.window.common.words import day_words
from wellbook.window.dialogs.round.round_view import LookingDialog, RoundView, button, when_words
from wellbook.window.widgets.layouts import lock, words
from wellbook.window.widgets.table_model import Column, RowsModel
from wellbook.window.widgets.tables import Table


class RoundDialog(LookingDialog):
    """Shows the next round at each point; writes only what its own dialogs write."""

    def __init__(self, household: Household, chooser: Chooser, parent: QWidget) -> None:
        super().__init__(_("The next round"), parent, width=56, height=42)
        self._household, self._chooser = household, chooser
        self._rounds: tuple[Round, ...] = ()
        self.places = QComboBox()
        self.places.setAccessibleName(_("Sampling point and day"))
        self.places.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.places.activated.connect(self._show)
        self.told = words(bold=True)
        self.table = Table(_("What is tested"))
        self.model = RowsModel(_columns(), lambda one: one.panel.key, self)
        self.table.setModel(self.model)
        self.table.fit(stretch=2)
        self.table.arrange("due")
        self.table.picked.connect(self._on_picked)
        self.why = words(quiet=True)
        self.view = RoundView(household.catalogue)
        self.off_button = button(_("Put it &off…"), self._on_postpone)
        self.order_button = button(_("&What to order…"), self._on_order)
        self.sheet_button = button(_("Field &sheet…"), self._on_sheet)
        self.print_button = button(_("&Print…"), self._on_print)
        self.labels_button = button(_("Bottle la&bels…"), self._on_labels)
        self.calendar_button = button(_("Cale&ndar file…"), self._on_calendar)
        self.drawn_button = button(_("It was &drawn…"), self._on_drawn)
        self.habits_button = button(_("The &lab and the way…"), self._on_habits)
        self.close_button = button(_("&Close"), self.reject)
        lock(household.why_readonly, self.off_button, self.habits_button, self.drawn_button)
        self.signin = QCheckBox(_("&Tell me when I sign in to this computer that a test is due"))
        self.signin.setChecked(sign_in.is_on(household.path, household.book.identity()))
        self.signin.toggled.connect(self._on_signin)
        self.job = Loader(self)
        self.job.failed.connect(self._on_failed)
        self._lay_out()
        self.look()

    def _lay_out(self) -> None:
        unit = em(self)
        self.head.addWidget(self.places)
        self.rows.addWidget(self.told)
        self.rows.addWidget(self.table)
        self.rows.addWidget(self.why)
        below = QHBoxLayout()
        for deed in (self.off_button, self.order_button, self.labels_button):
            below.addWidget(deed)
        below.addStretch(1)
        self.rows.addLayout(below)
        self.rows.addWidget(self.view, 1)
        self.rows.addWidget(self.signin)
        buttons = QHBoxLayout()
        for left in (self.habits_button, self.calendar_button):
            buttons.addWidget(left)
        buttons.addStretch(1)
        for right in (self.drawn_button, self.print_button, self.sheet_button, self.close_button):
            buttons.addWidget(right)
        self.foot.addLayout(buttons)
        self.table.setFixedHeight(unit * 10)

    def look(self) -> None:
        """Look for the day on another thread."""
        self.told.setText(_("Looking for a day …"))
        for part in (self.sheet_button, self.print_button, self.labels_button, self.off_button,
                     self.drawn_button):  # fmt: skip
            part.setEnabled(False)
        household = self._household
        work = partial(_rounds, household, household.record)
        self.job.ask(work, self._on_found)

    def _on_found(self, found: tuple[Round, ...]) -> None:
        self._rounds = found
        shown = self.places.currentData()
        self.places.clear()
        for one in self._rounds:
            said = f"{one.well.name}, {one.point.name}: {when_words(one)}"
            self.places.addItem(said, one.point.id)
        self.places.setCurrentIndex(max(self.places.findData(shown), 0))
        self.places.setVisible(self.places.count() > 1)
        self._show()

    def _on_failed(self, sentence: str) -> None:
        self.told.clear()
        self.bar.say(sentence)

    @property
    def round(self) -> Round | None:
        """The round that is shown."""
        place = max(self.places.currentIndex(), 0)
        return self._rounds[place] if place < len(self._rounds) else None

    def _show(self) -> None:
        one = self.round
        self.sheet_button.setEnabled(one is not None)
        self.print_button.setEnabled(one is not None)
        self.labels_button.setEnabled(one is not None)
        self.drawn_button.setEnabled(one is not None and not self._household.why_readonly)
        self.model.show(one.panels if one else ())
        self.table.fit(stretch=2)  # rows that come later than the columns
        if one is None:
            self.told.setText(_("Nothing is planned yet: add a test or a plan first."))
            return
        place = f"{one.well.name}, {one.point.name}. "
        self.told.setText(("" if self.places.count() > 1 else place) + one.search.told)
        self.view.show_round(one)
        self.table.pick(0)

    def _on_picked(self, due: PanelDue | None) -> None:
        self.why.setText(_reason(due) if due else "")
        self.off_button.setEnabled(due is not None and not self._household.why_readonly)

    def _on_postpone(self) -> None:
        from wellbook.window.dialogs.round.round_forms import postpone_dialog

        one, due = self.round, self.table.row()
        if one is not None and isinstance(due, PanelDue):
            self.enter(postpone_dialog(self._household, one.point, due, self))

    def _on_drawn(self) -> None:
        from wellbook.window.dialogs.round.on_the_way import drawn_dialog

        one = self.round
        if one is not None:
            visit = visit_of(self._rounds, one)
            self.enter(drawn_dialog(self._household, wanted(visit), self))

    def _on_order(self) -> None:
        from wellbook.window.dialogs.round.order_dialog import OrderDialog

        self.enter(OrderDialog(self._household, self._chooser, self))

    def _on_habits(self) -> None:
        from wellbook.window.dialogs.round.round_forms import habits_dialog

        self.enter(habits_dialog(self._household, self))

    def _on_sheet(self) -> None:
        one = self.round
        if one is not None:
            self._write_as(f"{one.search.day or 'sheet'}", partial(self._write_sheet, one))

    def _write_as(self, ending: str, write: Callable[[Path], None]) -> None:
        """Ask where a PDF is to lie, write it, and offer it."""
        name = f"{self._household.path.stem}-{ending}.pdf"
        path = self._chooser.file_to_write(self, name, _("PDF files (*.pdf)"))
        if path is not None and self.bar.attempt(lambda: write(path)):
            self._say_written(path)

    def _on_print(self) -> None:
        """Show the field sheet as it would be printed."""
        from wellbook.window.printing.preview_dialog import preview_pdf

        one, chosen = self.round, self._household.record.settings
        if one is not None:
            title, size = _("Field sheet"), paper(chosen, paper_of_system())
            self.bar.attempt(
                lambda: preview_pdf(title, lambda path: self._write_sheet(one, path), size, self)
            )

    def _on_labels(self) -> None:
        """Write labels for the bottles of the visit and the card for the pressure tank."""
        one = self.round
        if one is not None:
            self._write_as("labels", partial(self._write_labels, one))

    def _write_labels(self, one: Round, path: Path) -> None:
        from wellbook.export.labels import write
        from wellbook.wording.reference import worded

        record, today = self._household.record, self._household.today
        with printing(record.settings):
            catalogue = worded(self._household.untranslated)
            visit = _visit(rounds(record, catalogue, today), one)
            size = paper(record.settings, paper_of_system())
            write(path, visit, catalogue, today=today, paper=size)

    def _write_sheet(self, one: Round, path: Path) -> None:
        from wellbook.export.field_sheet import write
        from wellbook.planning.advice import at_the_well, told
        from wellbook.planning.overview import overview
        from wellbook.water.cautions.cautions import read_cautions
        from wellbook.wording.reference import worded, worded_cautions

        household = self._household
        record, today = household.record, household.today
        with printing(record.settings):
            catalogue = worded(household.untranslated)
            cautions = worded_cautions(read_cautions(paths.resources() / "cautions.toml"))
            visit = _visit(rounds(record, catalogue, today), one)
            wells = overview(record, catalogue, today, with_due=False)
            care = told(record, wells, cautions, today)
            write(
                path,
                visit,
                catalogue,
                today=today,
                paper=paper(record.settings, paper_of_system()),
                said=[
                    line for each in visit for line in at_the_well(care[each.point.id], cautions)
                ],
            )

    def _on_calendar(self) -> None:
        name = f"{self._household.path.stem}.ics"
        kinds = _("Calendar files (*.ics)")
        path = self._chooser.file_to_write(self, name, kinds)
        if path is not None:
            self.bar.attempt(lambda: self._write_calendar(path))

    def _write_calendar(self, path: Path) -> None:
        from wellbook.export.calendar_file import write
        from wellbook.planning.settings import printing
        from wellbook.water.sampling.upkeep import read_upkeep
        from wellbook.wording.reference import worded, worded_upkeep

        household, record = self._household, self._household.record
        with printing(record.settings):
            catalogue = worded(household.untranslated)
            upkeep = worded_upkeep(read_upkeep(paths.resources()))
            write(record, catalogue, path, today=household.today, upkeep=upkeep)
        self._say_written(path)

    def _say_written(self, path: Path) -> None:
        self.bar.say(
            _("Written: {path}").format(path=path),
            _("Open it"),
            lambda: self._chooser.show(path),
        )

    def _on_signin(self, wanted: bool) -> None:  # noqa: FBT001  Qt's signal
        if not self.bar.attempt(partial(remind_at_sign_in, self._household, wanted=wanted)):
            self.signin.blockSignals(True)  # noqa: FBT003  Qt's own call
            self.signin.setChecked(not wanted)
            self.signin.blockSignals(False)  # noqa: FBT003  Qt's own call


def _visit(planned: Sequence[Round], one: Round) -> Sequence[Round]:
    """The rounds of the visit that a round belongs to, in the language in which it is printed."""
    same = next((two for two in planned if two.point == one.point), one)
    return visit_of(planned, same)


def _reason(due: PanelDue) -> str:
    """Why it is due, why it is tested at all, and who says so."""
    more = "" if due.panel.why in due.why else due.panel.why
    source = f"({due.panel.source})" if due.panel.source else ""
    return " ".join(filter(None, (due.why, more, source)))


def _columns() -> tuple[Column, ...]:
    return (
        Column(_("To be tested"), lambda one: one.panel.name),
        Column(_("Due"), lambda one: day_words(one.due)),
        Column(_("Why"), lambda one: one.why),
    )


def _rounds(household: Household, record: Record, tell: Tell) -> tuple[Round, ...]:
    tell(0, 0, "")
    household.book.require_in_place()  # a round of another household helps nobody
    return rounds(record, household.catalogue, household.today)
