"""Looking over what was read from a lab's file, beside the file, before any of it is kept."""

from dataclasses import replace

from PySide6.QtCore import Qt, QThreadPool
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QCheckBox, QComboBox, QListWidgetItem, QPushButton, QWidget

from wellbook.intake import (
    AlreadyThere,
    Contradicts,
    Draft,
    Order,
    Place,
    Told,
    mending,
    review,
    store,
)
from wellbook.intake.decisions import Decisions, decided, of_lab, remember, source_of
from wellbook.intake.draft import Stored
from wellbook.intake.fate import Fate, Outcome, complete, met_in
from wellbook.intake.said import completed_words, said_taken
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Job
from wellbook.window.dialogs.decisions_dialog import BeforeButton
from wellbook.window.dialogs.draft.amended_dialog import (
    AmendedDialog,
    adding_words,
    met_words,
)
from wellbook.window.dialogs.draft.draft_findings import DraftChanges, finding_lines
from wellbook.window.dialogs.draft.draft_page import DraftPage
from wellbook.window.dialogs.draft.draft_places import DraftPlaces
from wellbook.window.dialogs.draft.draft_rows import (
    CELLS,
    NAME,
    RESULT,
    UNIT,
    ReadingLine,
    SampleLine,
    marks_of,
    reading_lines,
    sample_lines,
    with_printed_names,
)
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.dialogs.draft.questions import ask_denied
from wellbook.window.widgets.entry_dialog import EntryDialog

_FEW = 20  # samples that are compared with the history again when a point is chosen
_PLACE = int(Qt.ItemDataRole.UserRole)


class DraftDialog(EntryDialog):
    """The file beside what was understood; nothing is kept until the person says so."""

    def __init__(
        self, household: Household, source: LabSource, draft: Draft, parent: QWidget
    ) -> None:
        title = _("{file}: is this what it says?").format(file=draft.source.name)
        super().__init__(title, _("Keep it"), parent, width=110, height=56)
        self._household, self._source, self.draft = household, source, draft
        self._is_there = self._again = self._is_denied = False
        self.told = Told.ASK
        self._adding: tuple[Draft, Outcome, str] | None = None
        self._read, self._before = draft, list[Draft]()
        self.places = DraftPlaces(
            household,
            [one.point_name for one in draft.samples],
            of_lab(household.book, source_of(draft)).points,
        )
        self._changes = DraftChanges(household, self.places)
        self.page = DraftPage(household.catalogue, source, self.places, draft)
        self.rows.addWidget(self.page, 1)
        self.leave = QCheckBox(_("L&eave what is not decided as it stands"))
        self.leave.toggled.connect(self._say_state)
        self.foot.addWidget(self.leave)
        self.before = BeforeButton(household)
        self.before.forgotten.connect(lambda: self._read_again(self._source))
        self.foot.addWidget(self.before, 0, Qt.AlignmentFlag.AlignLeft)
        self._bind()
        self.job = Job(self)
        self.job.done.connect(self._on_read_again)
        self.job.failed.connect(self.bar.say)
        self.finish(spare=False)
        self._changes.work_out(draft)
        self._show(draft)
        self.page.readings.setFocus()

    def _bind(self) -> None:
        page = self.page
        self.taken, self.findings = page.taken, page.findings
        self.samples, self.samples_model = page.samples, page.samples_model
        self.readings, self.readings_model = page.readings, page.readings_model
        self.order: QComboBox = page.order
        self.next_doubt: QPushButton = page.next_doubt
        page.samples.picked.connect(self._on_picked)
        page.readings.picked.connect(self._on_reading)
        page.readings.right.connect(self._on_right)
        page.readings.skip.connect(self._on_skip)
        # Queued: the field that was typed into is closed first.
        page.readings_model.typed.connect(self._on_typed, Qt.ConnectionType.QueuedConnection)
        page.right.clicked.connect(self._on_right)
        page.skip.clicked.connect(self._on_skip)
        page.not_mine.clicked.connect(self._on_not_mine)
        page.next_doubt.clicked.connect(self._to_next_doubt)
        page.head.mended.connect(self._on_mended)
        page.head.failed.connect(self.bar.say)
        page.source.picked.connect(self._on_place)
        page.findings.currentItemChanged.connect(self._on_finding)
        page.order.activated.connect(self._on_order)
        page.columns.chosen.connect(self._on_columns)
        self.places.changed.connect(self._on_places)
        QShortcut(QKeySequence(QKeySequence.StandardKey.Undo), self, self._take_back)

    def _show(self, draft: Draft) -> None:
        self.draft = draft
        self.taken.setText(said_taken(draft))
        self.before.show_lab(source_of(self._read))
        self.page.show_findings(self._lines())
        self.samples_model.show(sample_lines(draft))
        self.page.fit_samples(len(draft.samples))
        self.page.source.show_file(draft.sheets, [place for place, _at in marks_of(self.draft)])
        if draft.samples and self.samples.row() is None:
            self.samples.pick(0)  # which shows it
        else:
            self._on_picked(self.samples.row())
        self._say_state()

    def _say_state(self) -> None:
        """How much is left to decide, and whether it can be kept."""
        draft = self.draft
        every = sum(len(sample.marks) for sample in draft.samples)
        n = self._open
        can_keep = bool(draft.samples) and not draft.stops
        left = ngettext("{n} of {all} to decide", "{n} of {all} to decide", n)
        done = _("Nothing is left to decide.") if can_keep else ""
        self.page.state.setText(left.format(n=n, all=every) if n else done)
        self.page.let_decide(can_decide=bool(every))
        self.next_doubt.setEnabled(bool(n))
        self.leave.setVisible(bool(n))
        self.keep_button.setEnabled(can_keep and (not n or self.leave.isChecked()))
        if not can_keep:
            self.bar.say(_("This can’t be kept as it is: see what stands first below."))

    @property
    def _open(self) -> int:
        """How many readings are still doubted."""
        return sum(not mark.is_certain for s in self.draft.samples for mark in s.marks)

    @property
    def finding_lines(self) -> tuple[str, ...]:
        """What is odd, in sentences, what stops the draft first."""
        return tuple(text for text, _place in self._lines())

    def _lines(self) -> tuple[tuple[str, Place | None], ...]:
        return finding_lines(self.draft, self._household, self._changes.lines(self.draft))

    def _on_picked(self, line: object) -> None:
        if not isinstance(line, SampleLine) or line.place >= len(self.draft.samples):
            self.readings_model.show(())
            self.page.head.setEnabled(False)
            return
        sample, household = self.draft.samples[line.place], self._household
        judged = self._changes.outlooks(self.draft, line.place)
        changed = self._changes.sentences(self.draft, line.place)
        self.readings_model.show(reading_lines(sample, household.catalogue, judged, changed))
        self.page.head.show_sample(self.draft, line.place)
        self.places.show_only(sample.point_name, self.draft)
        line = self.readings.row()
        self.page.show_change(line if isinstance(line, ReadingLine) else None)
        if self.readings.row() is None and sample.sample.results:
            self.readings.setCurrentIndex(self.readings_model.index(0, RESULT))

    @property
    def _at(self) -> mending.At | None:
        """Place of the current reading in the draft."""
        sample, reading = self.samples.row(), self.readings.row()
        if not isinstance(sample, SampleLine) or not isinstance(reading, ReadingLine):
            return None
        is_there = sample.place < len(self.draft.samples)
        most = len(self.draft.samples[sample.place].marks) if is_there else 0
        return (sample.place, reading.place) if reading.place < most else None

    def _on_reading(self, line: object) -> None:
        if isinstance(line, ReadingLine):
            self.page.source.show_place(line.mark.place)
            self.page.right.setEnabled(not line.mark.is_certain)
        self.page.show_change(line if isinstance(line, ReadingLine) else None)

    def _on_place(self, place: Place) -> None:
        """Go to the reading that was made of a place of the file."""
        at = next((at for known, at in marks_of(self.draft) if known == place), None)
        if at is not None:
            self._go(at, RESULT)

    def _go(self, at: mending.At, column: int) -> None:
        self.samples.pick(at[0])
        index = self.readings_model.index(at[1], column)
        self.readings.setCurrentIndex(index)
        self.readings.scrollTo(index)
        self.readings.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _to_next_doubt(self) -> None:
        """Go to the next reading about which something is asked."""
        doubtful = [at for _place, at in marks_of(self.draft) if self._doubts(at)]
        if not doubtful:
            self.bar.say(_("Nothing is left to decide."))
            return
        here = self._at or (-1, -1)
        at = next((at for at in doubtful if at > here), doubtful[0])
        self._go(at, next((CELLS[key] for key in self._doubts(at) if key in CELLS), RESULT))

    def _doubts(self, at: mending.At) -> tuple[str, ...]:
        return self.draft.samples[at[0]].marks[at[1]].doubts

    def _on_finding(self, item: QListWidgetItem | None) -> None:
        place = item.data(_PLACE) if item else None
        if isinstance(place, Place):
            self.page.source.show_place(place)

    def _on_typed(self, line: ReadingLine, column: int, text: str) -> None:
        at = self._at
        if at is None or at[1] != line.place:
            return
        self.bar.clear()
        self.readings.setFocus()
        if column == NAME:
            known = self._household.catalogue.find(text)
            if text and known is None:
                said = _("“{text}” is no parameter that Wellbook knows. Choose one of the list.")
                self.bar.say(said.format(text=text))
                return
            self._on_mended(mending.with_name(self.draft, at, known.key if known else ""))
        elif column == UNIT:
            self._on_mended(mending.with_unit(self.draft, at, text))
        elif text:
            self._on_mended(mending.with_result(self.draft, at, text))

    def _on_right(self) -> None:
        at = self._at
        if at is not None and self._doubts(at):
            self._on_mended(mending.settled(self.draft, at))

    def _on_skip(self) -> None:
        if self._at is not None:
            self._on_mended(mending.without(self.draft, self._at))

    def _on_not_mine(self) -> None:
        if self._at is not None:
            self._on_mended(mending.without_sample(self.draft, self._at[0]))

    def _on_mended(self, draft: object) -> None:
        """Show the draft after a decision, at the same reading."""
        if isinstance(draft, Draft):
            self._before.append(self.draft)
            self._show_at_same(draft)

    def _take_back(self) -> None:
        """Take the last decision back."""
        if self._before:
            self._show_at_same(self._before.pop())

    def _show_at_same(self, draft: Draft) -> None:
        at, column = self._at, self.readings.currentIndex().column()
        self.bar.clear()
        self._show(draft)
        if at is not None and draft.samples:
            place = min(at[0], len(draft.samples) - 1)
            self._go((place, min(at[1], len(draft.samples[place].marks) - 1)), max(column, 0))

    def _on_order(self) -> None:
        """Read the dates the other way round."""
        self._read_again(replace(self._source, order=Order(self.order.currentData())))

    def _on_columns(self, ticked: dict[str, bool]) -> None:
        self._read_again(replace(self._source, columns=ticked))

    def _read_again(self, source: LabSource) -> None:
        if not self.job.running:
            self._source = source
            self.bar.clear()
            self.keep_button.setEnabled(False)
            self.job.start(source.draft)

    def _on_read_again(self, draft: Draft) -> None:
        self._read = draft
        self._before.clear()
        self.places.add([one.point_name for one in draft.samples])
        self.page.columns.setVisible(not draft.samples)
        self._show(draft)

    def _on_places(self) -> None:
        """Compare with the history of the points that were chosen."""
        self._changes.forget()
        if len(self.draft.samples) > _FEW:
            self._on_picked(self.samples.row())
            return
        try:
            placed, well = self.places.placed(self.draft)
        except Fault:
            self._on_picked(self.samples.row())
            return  # said when it is to be kept
        book, catalogue = self._household.book, self._household.catalogue
        reviewed = review(placed, catalogue, book, well=well)
        self._show(with_printed_names(reviewed, self.draft))

    def accept(self) -> None:
        """Keep the draft; where the book has its tests already, ask whether to keep it as well."""
        self._is_there = self._is_denied = False
        super().accept()
        if self._adding is not None and self._adding[1].fate is Fate.OTHER:
            name, catalogue = self.draft.source.name, self._household.catalogue
            amended = AmendedDialog(self._adding[1], name, catalogue, self)
            amended.take.connect(self._add_missing)
            amended.both.connect(self._keep_as_well)
            amended.ask()
        elif self._adding is not None:
            self.bar.say(self.bar.text, adding_words(self._adding[1]), self._add_missing)
        elif self._is_there:
            self.bar.say(self.bar.text, _("Keep it as well"), self._keep_as_well)
        elif self._is_denied:
            ask_denied(self)

    def _keep_as_well(self) -> None:
        self._again = True
        self.accept()

    def _add_missing(self) -> None:
        """Add the new readings to the tests that are there."""
        if self._adding is not None:
            placed, met, well = self._adding
            n = complete(placed, met, self._household.book, well=well)
            remember(self._household.book, source_of(self._read), self._decisions())
            self.kept.emit(completed_words(n, met.corrects))
            self.done(self.DialogCode.Accepted)

    def keep(self) -> str:
        """Put every sample of the draft into the book, or none.

        Raises:
            Fault: It can't be kept, or something is neither decided nor left.
        """
        if self._open and not self.leave.isChecked():
            raise Fault(_("Decide what is asked, or tick that it is left as it stands."))
        self._adding = None
        placed, well = self.places.placed(self.draft)
        book, again, lab = self._household.book, self._again, source_of(self._read)
        told, decisions = self.told, self._decisions()
        outside = self._changes.outside(self.draft)

        def keep() -> Stored:
            stored = store(placed, book, well=well, again=again, told=told)
            remember(book, lab, decisions)
            return stored

        try:
            if not again:
                self._refuse_what_is_there(placed, well)
            stored = self._household.apart(keep)
        except AlreadyThere:
            self._is_there = True
            raise
        except Contradicts:
            self._is_denied = True
            raise
        n, name = len(stored.ids), self.draft.source.name
        said = ngettext("{n} test is kept from {name}.", "{n} tests are kept from {name}.", n)
        return f"{said.format(n=n, name=name)} {outside}".rstrip()

    def _refuse_what_is_there(self, placed: Draft, well: str) -> None:
        met = met_in(placed, self._household.book, self._household.catalogue, well=well)
        if met is not None:
            self._adding = (placed, met, well)
            raise AlreadyThere(met_words(met))

    def _decisions(self) -> Decisions:
        """What was decided about the lab's file."""
        new = decided(self._read, self.draft, columns=self._source.columns)
        return new.joined(Decisions(points=self.places.decided(), order=str(self._source.order)))

    def done(self, code: int) -> None:
        """Wait for reading, then close."""
        self.page.source.stop()
        if self.job.running:
            self.job.cancel()
            QThreadPool.globalInstance().waitForDone()
        super().done(code)
