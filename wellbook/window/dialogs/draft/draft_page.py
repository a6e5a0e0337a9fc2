"""The page of a draft: the file at the left, what was understood of it at the right."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.intake import Draft, Order, Place
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.dialogs.draft.draft_places import DraftPlaces
from wellbook.window.dialogs.draft.draft_rows import DOUBT, ReadingLine, sample_columns
from wellbook.window.dialogs.draft.lab_source import LabSource
from wellbook.window.dialogs.draft.readings_table import ReadingsModel, ReadingsTable
from wellbook.window.dialogs.draft.sample_head import SampleHead
from wellbook.window.dialogs.draft.which_columns import WhichColumns
from wellbook.window.dialogs.report.source_view import SourceView
from wellbook.window.widgets.layouts import WholeColumn, words
from wellbook.window.widgets.splitter import Splitter
from wellbook.window.widgets.table_model import RowsModel
from wellbook.window.widgets.tables import Table

_MOST_SAMPLES, _MOST_FINDINGS = 4, 8  # rows; lines of words
_LOW = 40  # ems of height; in a lower window half as many lines, so that readings are seen
NEXT = "F8"


class _Findings(QListWidget):
    """Sentences as high as they are when wrapped, so that a caution is read to its end."""

    def fit(self) -> None:
        """Take the height of the first sentences."""
        wide, side = self.viewport().width() - em(self), em(self)
        most = _MOST_FINDINGS if self.window().height() >= _LOW * side else _MOST_FINDINGS // 2
        flags = int(Qt.TextFlag.TextWordWrap)
        needed = sum(
            self.fontMetrics().boundingRect(0, 0, wide, 0, flags, self.item(n).text()).height()
            for n in range(min(self.count(), _MOST_FINDINGS))
        )
        self.setFixedHeight(min(needed, side * most) + side)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Take the height that the words have at the new width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.fit()


class DraftPage(QWidget):
    """Everything that is seen of a draft; what is done with it is the dialog's."""

    def __init__(
        self,
        catalogue: Catalogue,
        source: LabSource,
        places: DraftPlaces,
        draft: Draft,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.source = SourceView(source.name, source.page)
        self.source.setMinimumWidth(em(self) * 16)
        self.head = SampleHead()
        self.columns = WhichColumns(draft)
        self.taken = words("", bold=True)
        self.findings = _Findings()
        self.findings.setAccessibleName(_("What to look at"))
        self.findings.setWordWrap(True)
        self.samples = Table(_("Samples in the file"))
        self.samples_model = RowsModel(sample_columns(), lambda line: line.place, self)
        self.samples.setModel(self.samples_model)
        self.samples.fit(stretch=1)
        self.samples.remember("samples of a file")
        self.readings = ReadingsTable(catalogue)
        self.readings_model = ReadingsModel(self)
        self.readings.setModel(self.readings_model)
        self.readings.take_inks()
        self.readings.fit(stretch=DOUBT)
        self.readings.remember("readings of a file")
        self.readings.setMinimumHeight(em(self) * 9)
        self.order = QComboBox()
        self.order.addItem(_("month first"), Order.MONTH_FIRST)
        self.order.addItem(_("day first"), Order.DAY_FIRST)
        self.order.setCurrentIndex(max(self.order.findData(draft.open_order), 0))
        self.next_doubt = QPushButton(_("Ne&xt to decide"))
        set_tip(self.next_doubt, QKeySequence(NEXT).toString())
        QShortcut(QKeySequence(NEXT), self, self.next_doubt.click)
        self.right = QPushButton(_("It is &right"))
        set_tip(self.right, _("It is right as it stands (Space)"))
        self.skip = QPushButton(_("&Skip"))
        set_tip(self.skip, _("This line is none of your readings (Delete)"))
        self.not_mine = QPushButton(_("Not &my water"))
        set_tip(self.not_mine, _("This sample, or this column, is not your water"))
        self.state = words(quiet=True)
        self.change = words(quiet=True)
        self._lay_out(places, draft)

    def _lay_out(self, places: DraftPlaces, draft: Draft) -> None:
        right = WholeColumn()
        column = QVBoxLayout(right)
        column.setContentsMargins(em(self) // 2, 0, 0, 0)
        form = QFormLayout()
        form.addRow(_("&Dates are written"), self.order)
        form.setRowVisible(0, bool(draft.open_order))
        column.addLayout(form)
        column.addWidget(self.columns)
        column.addWidget(self.samples)
        column.addWidget(self.head)
        column.addWidget(places)
        column.addWidget(self.readings, 1)
        column.addWidget(self.change)
        deeds = QHBoxLayout()
        for button in (self.next_doubt, self.right, self.skip, self.not_mine):
            deeds.addWidget(button)
        deeds.addWidget(self.state, 1)
        column.addLayout(deeds)
        column.addWidget(self.taken)
        column.addWidget(self.findings)
        halves = Splitter("review", Qt.Orientation.Horizontal, (self.source, right))
        halves.setStretchFactor(0, 5)
        halves.setStretchFactor(1, 5)
        halves.share(35, 65)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(halves)

    def show_findings(self, lines: Sequence[tuple[str, Place | None]]) -> None:
        """List what is odd and what was not taken, each with its place."""
        self.findings.clear()
        for text, place in lines:
            item = QListWidgetItem(text)
            item.setData(int(Qt.ItemDataRole.UserRole), place)
            set_tip(item, text)
            self.findings.addItem(item)
        self.findings.setVisible(bool(lines))
        self.findings.fit()

    def show_change(self, line: ReadingLine | None) -> None:
        """Say what changed since the test before in the current reading."""
        said = line.change if line else ""
        if line and said:
            said = _("{parameter}: {sentence}").format(parameter=line.name, sentence=said)
        self.change.setText(said)
        self.change.setVisible(bool(said))

    def let_decide(self, *, can_decide: bool) -> None:
        """Let a reading be decided about where there is one."""
        self.skip.setEnabled(can_decide)
        self.not_mine.setEnabled(can_decide)
        self.right.setEnabled(can_decide and self.right.isEnabled())

    def fit_samples(self, count: int) -> None:
        """Give the samples the height of a few; one alone needs no table."""
        self.samples.setVisible(count > 1)
        high = self.samples.verticalHeader().defaultSectionSize()
        self.samples.setFixedHeight(high * (min(count, _MOST_SAMPLES) + 1) + em(self))
