"""Looking over what was read from a lab's file, before any of it is kept."""

from dataclasses import replace
from functools import partial

from PySide6.QtCore import Qt, QThreadPool
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QComboBox, QFormLayout, QListWidget, QPushButton, QWidget

from wellbook.intake import AlreadyThere, Draft, NotTaken, Order, review, store
from wellbook.intake.draft import Stored
from wellbook.intake.mending import remember
from wellbook.intake.said import said_taken, where_words
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.water.values.findings import Severity
from wellbook.window.common import advice
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Job
from wellbook.window.common.theme import em
from wellbook.window.dialogs.draft.draft_mending import DraftMending
from wellbook.window.dialogs.draft.draft_places import DraftPlaces
from wellbook.window.dialogs.draft.draft_rows import (
    ReadingLine,
    SampleLine,
    reading_columns,
    reading_lines,
    sample_columns,
    sample_lines,
)
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import words
from wellbook.window.widgets.table_model import SnapshotModel
from wellbook.window.widgets.tables import Table

_MOST_SAMPLES, _MOST_FINDINGS = 5, 5
_FEW = 20  # samples that are compared with the history again when a point is chosen
_NEXT = "F8"


class DraftDialog(EntryDialog):
    """What was understood and what is odd; nothing is kept until the person says so."""

    def __init__(
        self,
        household: Household,
        source: LabSource,
        draft: Draft,
        parent: QWidget,
    ) -> None:
        name = draft.source.name
        super().__init__(
            _("Read from {name}").format(name=name),
            _("Keep it"),
            parent,
            width=74,
            height=42,
        )
        self._household, self._source, self.draft = household, source, draft
        self._is_there = self._again = False
        self._read = draft
        self.taken = words("", bold=True)
        self.findings = QListWidget()
        self.findings.setAccessibleName(_("What to look at"))
        self.findings.setWordWrap(True)
        self.samples = Table(_("Samples in the file"))
        self.samples_model = SnapshotModel(sample_columns(), lambda line: line.place, self)
        self.samples.setModel(self.samples_model)
        self.samples.fit(stretch=1)
        self.samples.picked.connect(self._on_picked)
        self.readings = Table(_("Readings of the chosen sample"))
        self.readings_model = SnapshotModel(reading_columns(), lambda line: line.place, self)
        self.readings.setModel(self.readings_model)
        self.readings.fit(stretch=4)
        self.readings.picked.connect(self._on_reading)
        self.mending = DraftMending(household.catalogue)
        self.mending.mended.connect(self._on_mended)
        self.mending.failed.connect(self.bar.say)
        self.next_doubt = QPushButton(_("Ne&xt to decide"))
        self.next_doubt.setToolTip(QKeySequence(_NEXT).toString())
        self.next_doubt.clicked.connect(self._to_next_doubt)
        QShortcut(QKeySequence(_NEXT), self, self.next_doubt.click)
        self.places = DraftPlaces(household.book, [one.point_name for one in draft.samples])
        self.places.changed.connect(self._on_places)
        self.order = QComboBox()
        self.order.addItem(_("month first"), Order.MONTH_FIRST)
        self.order.addItem(_("day first"), Order.DAY_FIRST)
        self.order.activated.connect(self._on_order)
        self.job = Job(self)
        self.job.done.connect(self._show)
        self.job.failed.connect(self.bar.say)
        self._lay_out()
        self._show(draft)

    def _lay_out(self) -> None:
        self.rows.addWidget(
            words(
                _(
                    "Look it over against the lab’s report. Nothing is in the book until you keep "
                    "it; the file itself is kept with it."
                )
            )
        )
        self.rows.addWidget(self.taken)
        self.rows.addWidget(self.findings)
        form = QFormLayout()
        form.addRow(_("&Dates are written"), self.order)
        form.setRowVisible(0, bool(self.draft.open_order))
        self.order.setCurrentIndex(max(self.order.findData(self.draft.open_order), 0))
        self.rows.addLayout(form)
        self.rows.addWidget(self.samples)
        self.rows.addWidget(self.readings, 1)
        self.rows.addWidget(self.next_doubt, 0, Qt.AlignmentFlag.AlignLeft)
        self.rows.addWidget(self.mending)
        self.rows.addWidget(self.places)
        self.finish(spare=False)

    def _show(self, draft: Draft) -> None:
        self.draft = draft
        self.taken.setText(said_taken(draft))
        lines = self.finding_lines
        self.findings.clear()
        self.findings.addItems(lines)
        self.findings.setVisible(bool(lines))
        shown = min(len(lines), _MOST_FINDINGS)
        self.findings.setFixedHeight(round(em(self) * (1.3 * shown + 1)))
        self.samples_model.show(sample_lines(draft))
        high = self.samples.verticalHeader().defaultSectionSize()
        self.samples.setFixedHeight(high * (min(len(draft.samples), _MOST_SAMPLES) + 1) + em(self))
        if draft.samples and self.samples.row() is None:
            self.samples.pick(0)
        self._on_picked(self.samples.row())
        can_keep = bool(draft.samples) and not draft.stops
        self.keep_button.setEnabled(can_keep)
        if not can_keep:
            self.bar.say(_("This can’t be kept as it is: see what stands first below."))

    @property
    def finding_lines(self) -> tuple[str, ...]:
        """What is odd, in sentences, what stops the draft first."""
        draft = self.draft
        found = [*draft.findings, *(f for sample in draft.samples for f in sample.findings)]
        order = {severity: place for place, severity in enumerate(Severity)}
        ranked = sorted(found, key=lambda finding: order[finding.severity])
        said = [f"{f.where}: {f.text}" if f.where else f.text for f in ranked]
        left = sorted(draft.not_taken, key=lambda one: one.is_aside)
        return tuple(dict.fromkeys((*said, *self._cautions(), *map(_left_words, left))))

    def _cautions(self) -> tuple[str, ...]:
        """What the latest sample of the file asks of those who drink the water."""
        samples = [one.sample for one in self.draft.samples if one.sample.results]
        if not samples:
            return ()
        latest = max(samples, key=lambda sample: sample.collected.order())
        return advice.of_sample(latest, self._household)

    def _on_picked(self, line: object) -> None:
        catalogue = self._household.catalogue
        self.readings_model.show(
            reading_lines(line.draft, catalogue) if isinstance(line, SampleLine) else ()
        )

    def _on_reading(self, line: object) -> None:
        sample = self.samples.row()
        if isinstance(line, ReadingLine) and isinstance(sample, SampleLine):
            self.mending.show_reading(self.draft, sample.place, line.place)

    def _on_mended(self, draft: object) -> None:
        """Show the draft after a decision, at the same reading."""
        if not isinstance(draft, Draft):
            return
        sample, reading = self.samples.row(), self.readings.row()
        self.bar.clear()
        self._show(draft)
        if isinstance(sample, SampleLine) and sample.place < len(draft.samples):
            self.samples.pick(sample.place)
            if isinstance(reading, ReadingLine):
                most = len(draft.samples[sample.place].sample.results) - 1
                self.readings.pick(min(reading.place, most))

    def _to_next_doubt(self) -> None:
        """Go to the next reading about which something is asked."""
        doubtful = [
            (place, i)
            for place, sample in enumerate(self.draft.samples)
            for i, mark in enumerate(sample.marks)
            if not mark.is_certain
        ]
        if not doubtful:
            self.bar.say(_("Nothing is left to decide."))
            return
        sample, reading = self.samples.row(), self.readings.row()
        here = (
            sample.place if isinstance(sample, SampleLine) else -1,
            reading.place if isinstance(reading, ReadingLine) else -1,
        )
        place, i = next((at for at in doubtful if at > here), doubtful[0])
        self.samples.pick(place)
        self.readings.pick(i)
        self.mending.name.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _on_order(self) -> None:
        """Read the dates the other way round."""
        if not self.job.running:
            self.bar.clear()
            self.keep_button.setEnabled(False)
            self.job.start(partial(self._source.draft, Order(self.order.currentData())))

    def _on_places(self) -> None:
        """Compare with the history of the points that were chosen."""
        if len(self.draft.samples) > _FEW:
            return
        try:
            placed, well = self.places.placed(self.draft)
        except Fault:
            return  # said when it is to be kept
        book, catalogue = self._household.book, self._household.catalogue
        reviewed = review(placed, catalogue, book, well=well)
        self._show(_with_printed_names(reviewed, self.draft))

    def accept(self) -> None:
        """Keep the draft; where the book has its tests already, ask whether to keep it as well."""
        self._is_there = False
        super().accept()
        if self._is_there:
            self.bar.say(self.bar.text, _("Keep it as well"), self._keep_as_well)

    def _keep_as_well(self) -> None:
        self._again = True
        self.accept()

    def keep(self) -> str:
        """Put every sample of the draft into the book, or none."""
        placed, well = self.places.placed(self.draft)
        book, again = self._household.book, self._again

        def keep() -> Stored:
            stored = store(placed, book, well=well, again=again)
            remember(book, self._read, self.draft)
            return stored

        try:
            stored = self._household.apart(keep)
        except AlreadyThere:
            self._is_there = True
            raise
        n = len(stored.ids)
        return ngettext(
            "{n} test is kept from {name}.", "{n} tests are kept from {name}.", n
        ).format(n=n, name=self.draft.source.name)

    def done(self, code: int) -> None:
        """Wait for reading that is under way, then close."""
        if self.job.running:
            self.job.cancel()
            QThreadPool.globalInstance().waitForDone()
        super().done(code)


def _left_words(left: NotTaken) -> str:
    word = _("Left aside") if left.is_aside else _("Not taken")
    where = where_words(left.place)
    return f"{word}: {left.what}{f' ({where})' if where else ''}: {left.why}"


def _with_printed_names(reviewed: Draft, printed: Draft) -> Draft:
    pairs = zip(reviewed.samples, printed.samples, strict=True)
    samples = tuple(replace(one, point_name=other.point_name) for one, other in pairs)
    return replace(reviewed, samples=samples)
