"""Looking over what was read from a lab's file, before any of it is kept."""

from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QComboBox, QFormLayout, QListWidget, QWidget

from wellbook.intake.drafts import Draft
from wellbook.window.dialogs import EntryDialog
from wellbook.window.draft_rows import (
    SampleLine,
    reading_columns,
    reading_lines,
    sample_columns,
    sample_lines,
)
from wellbook.window.household import Household
from wellbook.window.look import em
from wellbook.window.sheets import words
from wellbook.window.snapshot import SnapshotModel
from wellbook.window.tables import Table

translate = QCoreApplication.translate
_MOST_SAMPLES, _MOST_FINDINGS = 5, 5


class DraftDialog(EntryDialog):
    """What was understood and what is odd; nothing is kept until the person says so."""

    def __init__(self, household: Household, draft: Draft, parent: QWidget | None = None) -> None:
        name = draft.source.name
        super().__init__(
            translate("Draft", "Read from {name}").format(name=name),
            translate("Draft", "Keep it"),
            parent,
        )
        self._household, self.draft = household, draft
        self.findings = QListWidget()
        self.findings.setAccessibleName(translate("Draft", "What to look at"))
        self.findings.setWordWrap(True)
        self.samples = Table(translate("Draft", "Samples in the file"))
        self.samples_model = SnapshotModel(sample_columns(), lambda line: line.place, self)
        self.samples.setModel(self.samples_model)
        self.samples.fit(stretch=1)
        self.samples.picked.connect(self._on_picked)
        self.readings = Table(translate("Draft", "Readings of the chosen sample"))
        self.readings_model = SnapshotModel(reading_columns(), lambda line: line.place, self)
        self.readings.setModel(self.readings_model)
        self.readings.fit(stretch=4)
        self.well = QComboBox()
        self.point = QComboBox()
        self._lay_out()
        self._fill()

    def _lay_out(self) -> None:
        unit = em(self)
        self.rows.addWidget(
            words(
                translate(
                    "Draft",
                    "Look it over against the lab’s report. Nothing is in the book until you keep "
                    "it; the file itself is kept with it.",
                )
            )
        )
        self.rows.addWidget(self.findings)
        self.rows.addWidget(self.samples)
        self.rows.addWidget(self.readings, 1)
        form = QFormLayout()
        form.addRow(translate("Draft", "&Well"), self.well)
        form.addRow(translate("Draft", "Drawn at &point"), self.point)
        self.rows.addLayout(form)
        self._form = form
        self.finish(spare=False)
        self.resize(unit * 74, unit * 42)

    def _fill(self) -> None:
        draft = self.draft
        for text in self.finding_lines:
            self.findings.addItem(text)
        self.findings.setVisible(bool(self.finding_lines))
        shown = min(len(self.finding_lines), _MOST_FINDINGS)
        self.findings.setFixedHeight(round(em(self) * (1.3 * shown + 1)))
        self.samples_model.show(sample_lines(draft))
        line = self.samples.verticalHeader().defaultSectionSize()
        self.samples.setFixedHeight(line * (min(len(draft.samples), _MOST_SAMPLES) + 1) + em(self))
        if draft.samples:
            self.samples.pick(0)
        self._offer_places()
        can_keep = bool(draft.samples) and not draft.stops
        self.keep_button.setEnabled(can_keep)
        if not can_keep:
            self.bar.say(
                translate("Draft", "This can’t be kept as it is: see what stands first below.")
            )

    @property
    def finding_lines(self) -> tuple[str, ...]:
        """What is odd, in sentences, what stops the draft first."""
        draft = self.draft
        found = [*draft.findings, *(f for sample in draft.samples for f in sample.findings)]
        order = {"stop": 0, "ask": 1, "note": 2}
        ranked = sorted(found, key=lambda finding: order[finding.severity])
        return tuple(dict.fromkeys(f"{f.where}: {f.text}" if f.where else f.text for f in ranked))

    def _offer_places(self) -> None:
        book = self._household.book
        wells, printed = book.wells(), {sample.point_name for sample in self.draft.samples}
        self.well.setEditable(not wells)
        self.well.addItems([well.name for well in wells] or [translate("Draft", "Our well")])
        self._form.setRowVisible(self.well, len(wells) != 1)
        self.point.setEditable(True)
        if all(printed):
            self.point.addItem(translate("Draft", "as the file says"), "")
        for point in book.points():
            self.point.addItem(point.name, point.name)
        if not self.point.count():
            self.point.setEditText(translate("Draft", "At the pressure tank"))

    def _on_picked(self, line: object) -> None:
        shown = (
            reading_lines(line.draft, self._household.catalogue)
            if isinstance(line, SampleLine)
            else ()
        )
        self.readings_model.show(shown)

    def keep(self) -> str:
        """Put every sample of the draft into the book, or none."""
        from wellbook import intake

        index = self.point.findText(self.point.currentText())
        point = self.point.itemData(index) if index >= 0 else self.point.currentText().strip()
        well = self.well.currentText().strip()
        stored = intake.store(self.draft, self._household.book, well=well, point=point)
        said = translate("Draft", "%n test(s) kept from {name}.", "", len(stored.ids))
        return said.format(name=self.draft.source.name)
