"""Handing the history over: for whom, on which paper, with or without personal facts."""

from dataclasses import dataclass
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QLocale
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QProgressBar,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book import Book
from wellbook.window.choosing import Chooser
from wellbook.window.household import Household
from wellbook.window.look import em
from wellbook.window.messages import MessageBar
from wellbook.window.sheets import SUBTITLE, words
from wellbook.window.work import Job, Tell

translate = QCoreApplication.translate
AUDIENCES = ("buyer", "consultant")


@dataclass(frozen=True, slots=True)
class _Choices:
    path: Path
    reader: str
    paper: str
    personal: bool


class PacketDialog(QDialog):
    """Asks for what the packet needs, writes it on another thread, offers its folder."""

    def __init__(
        self, household: Household, chooser: Chooser, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._household, self._chooser = household, chooser
        self.setWindowTitle(translate("Packet", "Hand the history over"))
        self.audience = QButtonGroup(self)
        self.paper = QComboBox()
        self.paper.addItem(translate("Packet", "Letter (8.5 × 11 in)"), "letter")
        self.paper.addItem(translate("Packet", "A4 (210 × 297 mm)"), "a4")
        metric = QLocale().measurementSystem() == QLocale.MeasurementSystem.MetricSystem
        self.paper.setCurrentIndex(int(metric))
        self.personal = QCheckBox(
            translate("Packet", "&Put in addresses, places, samplers’ names and private events")
        )
        self.bar = MessageBar(self)
        self.progress = QProgressBar()
        self.progress.setAccessibleName(translate("Packet", "Progress"))
        self.progress.setRange(0, 0)
        self.progress.hide()
        self.job = Job(self)
        self.job.done.connect(self._on_written)
        self.job.failed.connect(self._on_failed)
        self.job.cancelled.connect(self._on_cancelled)
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        column = QVBoxLayout(self)
        column.setContentsMargins(unit * 2, unit, unit * 2, unit)
        column.setSpacing(unit // 2)
        column.addWidget(words(self.windowTitle(), factor=SUBTITLE, bold=True))
        column.addWidget(
            words(
                translate(
                    "Packet",
                    "One PDF with every test, chart, limit and source. It says how many tests "
                    "were struck out, and that it is no statement that the water is safe.",
                )
            )
        )
        column.addWidget(self.bar)
        readers = QVBoxLayout()
        for number, text in enumerate(
            (
                translate("Packet", "a &buyer of the house: plain words first"),
                translate("Packet", "a water &consultant: methods, limits of detection, tests"),
            )
        ):
            choice = QRadioButton(text)
            self.audience.addButton(choice, number)
            readers.addWidget(choice)
        self.audience.button(0).setChecked(True)
        form = QFormLayout()
        form.addRow(translate("Packet", "For"), readers)
        form.addRow(translate("Packet", "P&aper"), self.paper)
        form.addRow("", self.personal)
        column.addLayout(form)
        column.addWidget(self.progress)
        column.addStretch(1)
        self.buttons = QDialogButtonBox()
        self.write_button = self.buttons.addButton(
            translate("Packet", "Write the file…"), QDialogButtonBox.ButtonRole.ActionRole
        )
        self.close_button = self.buttons.addButton(
            translate("Packet", "Close"), QDialogButtonBox.ButtonRole.RejectRole
        )
        self.write_button.setDefault(True)
        self.write_button.clicked.connect(self._on_write)
        self.buttons.rejected.connect(self.reject)
        column.addWidget(self.buttons)

    def _on_write(self) -> None:
        reader = AUDIENCES[self.audience.checkedId()]
        name = f"{self._household.path.stem}-{reader}.pdf"
        path = self._chooser.file_to_write(self, name, translate("Packet", "PDF files (*.pdf)"))
        if path is None:
            return
        self.bar.clear()
        self._show_work(under_way=True)
        self.job.start(
            partial(
                _write,
                self._household,
                _Choices(path, reader, self.paper.currentData(), self.personal.isChecked()),
            )
        )

    def _on_written(self, path: object) -> None:
        self._show_work(under_way=False)
        self.bar.say(
            translate("Packet", "Written: {path}").format(path=path),
            translate("Packet", "Open the folder"),
            partial(self._chooser.show, Path(str(path)).parent),
        )

    def _on_failed(self, sentence: str) -> None:
        self._show_work(under_way=False)
        self.bar.say(sentence)

    def _on_cancelled(self) -> None:
        self._show_work(under_way=False)
        self.bar.say(translate("Packet", "Stopped; nothing was written."))

    def _show_work(self, *, under_way: bool) -> None:
        self.progress.setVisible(under_way)
        self.write_button.setEnabled(not under_way)
        self.close_button.setText(
            translate("Packet", "Stop") if under_way else translate("Packet", "Close")
        )

    def reject(self) -> None:
        """Stop the work if it is under way, else close."""
        if self.job.running:
            self.job.cancel()
        else:
            super().reject()


def _write(household: Household, chosen: _Choices, tell: Tell) -> Path:
    """Write beside the file first, so that stopping leaves what was there."""
    from wellbook.handover.packet import write

    part = chosen.path.with_name(f"{chosen.path.name}.part")
    try:
        with Book.open(household.path, readonly=True) as book:
            write(
                book,
                household.catalogue,
                part,
                audience=chosen.reader,
                today=household.today,
                paper=chosen.paper,
                with_personal=chosen.personal,
            )
        tell(1, 1, chosen.path.name)
        part.replace(chosen.path)
    finally:
        part.unlink(missing_ok=True)
    return chosen.path
