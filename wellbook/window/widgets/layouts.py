"""What pages are set with: titles, quiet lines, rules, marks, links, scrolling columns."""

from collections.abc import Sequence
from itertools import zip_longest

from PySide6.QtCore import QEvent, QObject, QRectF, QSize, Qt
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetrics,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.theme import SHARP, em, enlarge, inks_of
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.verdict_icons import draw
from wellbook.wording.units import unbroken

TITLE, SUBTITLE = 1.7, 1.2


class Words(QLabel):
    """Plain words that wrap, nowhere within a unit."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._said = ""
        self.setWordWrap(True)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setText(text)

    def setText(self, text: str) -> None:
        """Say something else."""
        self._said = text
        super().setText(unbroken(text))

    def clear(self) -> None:
        """Say nothing."""
        self.setText("")

    def text(self) -> str:
        """What was said, without what holds its units together."""
        return self._said


def words(
    text: str = "", *, factor: float = 1.0, bold: bool = False, quiet: bool = False
) -> QLabel:
    """A label that wraps; `quiet` in the second ink."""
    label = Words(text)
    if factor != 1.0 or bold:
        enlarge(label, factor, bold=bold)
    if quiet:
        label.setForegroundRole(QPalette.ColorRole.PlaceholderText)
    return label


class WholeColumn(QWidget):
    """A column that is as high as its words need at its width.

    A splitter gives each part its least height, in which words that wrap count as one line.
    """

    def event(self, event: QEvent) -> bool:
        """Ask for the height anew when the width or the words are others."""
        is_done = super().event(event)
        column, asks = self.layout(), {QEvent.Type.Resize, QEvent.Type.LayoutRequest}
        if event.type() in asks and column is not None:
            self.setMinimumHeight(max(0, column.totalMinimumHeightForWidth(self.width())))
        return is_done


class FoldingLines(QWidget):
    """Lines of fields in columns, each line folded into two where there is no room for one."""

    def __init__(self, shares: Sequence[int], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shares = tuple(shares)  # of the room that is left, for each column
        self._half = (len(self._shares) + 1) // 2
        self._lines: list[tuple[QWidget, ...]] = []
        self.is_folded = False
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(em(self) // 2)
        self._grid.setAlignment(Qt.AlignmentFlag.AlignTop)

    def take(self, *fields: QWidget) -> None:
        """Add a line, a field for each column."""
        self._lines.append(fields)
        self._arrange(len(self._lines) - 1)

    def minimumSizeHint(self) -> QSize:
        """As wide as folded lines have to be."""
        return QSize(self._least(is_folded=True), super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fold or unfold the lines for the new width."""
        super().resizeEvent(event)
        is_folded = self.width() < self._least(is_folded=False)
        if is_folded != self.is_folded:
            self.is_folded = is_folded
            for row in range(self._grid.rowCount()):
                self._grid.setRowMinimumHeight(row, 0)
            for number in range(len(self._lines)):
                self._arrange(number)

    def _arrange(self, number: int) -> None:
        across, first = len(self._shares), number
        if self.is_folded:  # the two parts of a line are nearer to each other than to the next
            across, first = self._half, 3 * number
            self._grid.setRowMinimumHeight(first + 2, em(self) // 2)
        for place, field in enumerate(self._lines[number]):
            self._grid.addWidget(field, first + place // across, place % across)
        for column in range(len(self._shares)):
            shares = (
                self._shares[column :: self._half] if self.is_folded else (self._shares[column],)
            )
            self._grid.setColumnStretch(column, max(shares) if column < across else 0)

    def _least(self, *, is_folded: bool) -> int:
        """How wide the lines have to be."""
        columns = zip(*self._lines, strict=True)
        least = [max(field.minimumSizeHint().width() for field in column) for column in columns]
        if is_folded:
            both = zip_longest(least[: self._half], least[self._half :], fillvalue=0)
            least = [max(pair) for pair in both]
        return int(sum(least)) + self._grid.horizontalSpacing() * (len(least) - 1)


def rule() -> QFrame:
    """A thin line across."""
    line = QFrame()
    line.setFrameShape(QFrame.Shape.HLine)
    line.setFrameShadow(QFrame.Shadow.Plain)
    line.setForegroundRole(QPalette.ColorRole.Mid)
    return line


class SheetEdge(QObject):
    """Draws an edge round a sheet on pages of high contrast, where paper is no other white."""

    def __init__(self, sheet: QFrame) -> None:
        super().__init__(sheet)
        sheet.setFrameShadow(QFrame.Shadow.Plain)
        sheet.installEventFilter(self)
        _edge(sheet)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Go with the page that was chosen."""
        if event.type() is QEvent.Type.PaletteChange and isinstance(watched, QFrame):
            _edge(watched)
        return False


def _edge(sheet: QFrame) -> None:
    shape = QFrame.Shape.Box if inks_of(sheet.palette()) in SHARP else QFrame.Shape.NoFrame
    if sheet.frameShape() != shape:
        sheet.setFrameShape(shape)


class MarkView(QWidget):
    """The mark of one verdict, as large as a line of text."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._verdict = Verdict.NO_LIMIT
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_verdict(self, verdict: Verdict) -> None:
        """Show the mark of a verdict."""
        self._verdict = verdict
        self.update()

    def sizeHint(self) -> QSize:
        """A square as high as a line."""
        return QSize(em(self), em(self))

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the mark in the ink of the page."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(self.width() / 16, self.height() / 16)
        draw(painter, self._verdict, QColor(inks_of(self.palette()).verdicts[self._verdict]))


class PageLink(QPushButton):
    """The name of a page; the one that is shown is underlined in the accent."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setCheckable(True)
        self.setFlat(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def sizeHint(self) -> QSize:
        """The words and a little air."""
        metrics = self.fontMetrics()
        wide = metrics.horizontalAdvance(self.text().replace("&", ""))
        return QSize(wide + em(self), round(metrics.height() * 1.9))

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the words, the line under the page that is shown, and the focus."""
        painter = QPainter(self)
        colours = self.palette()
        ink = QPalette.ColorRole.WindowText
        if not self.isEnabled():
            ink = QPalette.ColorRole.PlaceholderText
        elif self.isChecked() or self.underMouse():
            ink = QPalette.ColorRole.Accent
        painter.setPen(colours.color(ink))
        flags = int(Qt.AlignmentFlag.AlignCenter) | int(Qt.TextFlag.TextShowMnemonic)
        painter.drawText(self.rect(), flags, self.text())
        accent = colours.color(QPalette.ColorRole.Accent)
        if self.isChecked():
            thick = max(2, em(self) // 8)
            inset = em(self) // 2
            painter.fillRect(
                inset, self.height() - thick - 1, self.width() - 2 * inset, thick, accent
            )
        if self.hasFocus():
            painter.setPen(QPen(accent, 1.5))
            painter.drawRoundedRect(self.rect().adjusted(1, 1, -2, -2), 3, 3)


class PrimaryButton(QPushButton):
    """The button for what a page is there for, in the accent; there is one a page."""

    def sizeHint(self) -> QSize:
        """The words in bold and a little air."""
        size, metrics = super().sizeHint(), QFontMetrics(bold(self.font()))
        wide = metrics.horizontalAdvance(self.text().replace("&", "")) + 2 * em(self)
        return QSize(max(size.width(), wide), size.height())

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the words on the accent, and the focus as a line inside of it."""
        painter, colours = QPainter(self), self.palette()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        accent, ink = colours.accent().color(), colours.highlightedText().color()
        if not self.isEnabled():
            accent, ink = colours.mid().color(), colours.placeholderText().color()
        elif self.isDown():
            accent = accent.darker(115)
        elif self.underMouse():
            accent = accent.lighter(112)
        room = QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(accent)
        painter.drawRoundedRect(room, 3, 3)
        painter.setPen(ink)
        painter.setFont(bold(self.font()))
        flags = int(Qt.AlignmentFlag.AlignCenter) | int(Qt.TextFlag.TextShowMnemonic)
        painter.drawText(self.rect(), flags, self.text())
        if self.hasFocus():
            painter.setPen(QPen(ink, 1.5))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(room.adjusted(2.5, 2.5, -2.5, -2.5), 2, 2)


def bold(font: QFont) -> QFont:
    """The same font in bold."""
    font = QFont(font)
    font.setBold(True)
    return font


class LongPage(QScrollArea):
    """A page that is longer than the window: one column that scrolls and follows the focus.

    With a `width` in ems the lines stay short enough to read, in the middle of a wide window.
    """

    def __init__(self, parent: QWidget | None = None, *, width: int = 0) -> None:
        super().__init__(parent)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._inside = QWidget()
        self.rows = QVBoxLayout()
        self.rows.setSpacing(em(self) // 2)
        across = QHBoxLayout(self._inside)
        across.setContentsMargins(0, 0, 0, 0)
        middle = QWidget()
        middle.setLayout(self.rows)
        if width:
            middle.setMaximumWidth(width * em(self))
        across.addWidget(middle)
        self.setWidget(self._inside)

    def add(self, *widgets: QWidget) -> None:
        """Set widgets below what is there."""
        for widget in widgets:
            self.rows.addWidget(widget)


def scrolled(page: QWidget, column: QVBoxLayout) -> None:
    """Set a page that scrolls where the window is lower than its words and its least lists."""
    inside, area = QWidget(), QScrollArea()
    inside.setLayout(column)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)
    around = QVBoxLayout(page)
    around.setContentsMargins(0, 0, 0, 0)
    around.addWidget(area)


class VerdictLine(QWidget):
    """A mark with the words that belong to it."""

    def __init__(self, parent: QWidget | None = None, *, bold: bool = True) -> None:
        super().__init__(parent)
        self._mark = MarkView(self)
        self._words = words(bold=bold)
        self._words.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(em(self) // 2)
        row.addWidget(self._mark, 0, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self._words, 1)

    @property
    def text(self) -> str:
        """The words that are shown."""
        return self._words.text()

    def say(self, verdict: Verdict, text: str) -> None:
        """Show a verdict and its words."""
        self._mark.show_verdict(verdict)
        self._words.setText(text)


def lock(why: str, *buttons: QPushButton) -> None:
    """Disable what writes in a book that can only be read, and say why."""
    for button in buttons:
        button.setEnabled(not why)
        set_tip(button, why)


def named(text: str, field: QWidget) -> QLabel:
    """A label that leads to a field by its underlined letter, for rows with several fields."""
    label = QLabel(text)
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setBuddy(field)
    return label


def clear_layout(layout: QVBoxLayout) -> None:
    """Take every widget out of a column of widgets."""
    while layout.count():
        item = layout.takeAt(0)
        widget = item.widget() if item else None
        if widget is not None:
            widget.hide()
            widget.deleteLater()
