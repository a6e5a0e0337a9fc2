"""A drawn figure on a page, spoken to a screen reader and stepped through by key.

matplotlib is loaded on another thread, once the first page stands, or when the first figure is
wanted before that. The canvas is kept and cleared, so that memory stays flat however many
parameters are looked at.
"""

from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import cache
from typing import Any, ClassVar

from PySide6.QtCore import QEvent, QPoint, Qt, QTimer
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QFontInfo,
    QGuiApplication,
    QImage,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QApplication, QToolTip, QWidget
from shiboken6 import isValid

from wellbook.charts.layout import theme as charts
from wellbook.charts.layout.theme import LIGHT, Theme
from wellbook.window.common import theme as pages
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.tips import tip
from wellbook.window.widgets.graphic import Graphic

_RESIZE_MS = 80
_NEXT_TURN_MS = 1
_DPI = 100  # at which the text of a figure is as large as the page's at its usual size
_USUAL = 9.0  # points of the page's text where a system is set to nothing else


class Drawing:
    """What draws, matplotlib, loaded once and off the window's thread."""

    is_loaded = False
    _loading: Loader | None = None
    _waiting: ClassVar[list[tuple[QWidget, Callable[[], object]]]] = []

    @classmethod
    def load(cls) -> None:
        """Load it, unless that is done or under way."""
        if not cls.is_loaded and cls._loading is None:
            cls._loading = Loader(QApplication.instance())
            cls._loading.ask(_load_drawing, cls._end)
            cls._loading.failed.connect(cls._end)

    @classmethod
    def awaits(cls, widget: QWidget, draw: Callable[[], object]) -> bool:
        """Whether a widget has to wait for it; `draw` is called as soon as it is there."""
        if not cls.is_loaded:
            cls._waiting.append((widget, draw))
            cls.load()
        return not cls.is_loaded

    @classmethod
    def _end(cls, _answer: object) -> None:
        """Load here what has to do with Qt; what can't be loaded is said by whoever needs it."""
        with suppress(ImportError):
            import matplotlib.backends.backend_qtagg  # noqa: F401
        QTimer.singleShot(0, cls._go_on)

    @classmethod
    def _go_on(cls) -> None:
        """Draw what waits, in a turn of its own."""
        cls.is_loaded, cls._loading = True, None
        waiting, cls._waiting = cls._waiting, []
        for widget, draw in waiting:
            if isValid(widget):
                draw()


def _load_drawing(_tell: Tell) -> None:
    """Load what has no part of Qt in it, and the letters with a first empty figure."""
    from wellbook.support.fonts import prepare

    prepare()
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    from wellbook.charts.draw import drawing  # noqa: F401

    figure = Figure(figsize=(1, 1))
    figure.add_subplot().set_title("0")
    FigureCanvasAgg(figure).draw()


class FigureView(Graphic):
    """Shows one figure and draws it again when the page or its size changes."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(name)
        self._name = name
        self._canvas: Any = None
        self._draw: Callable[[Any, Theme], object] | None = None
        self._steps: tuple[Any, ...] = ()
        self._in_words: Callable[[Any], str] = str
        self._step = -1
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(_RESIZE_MS)
        self._later.timeout.connect(self.redraw)
        self.setContentsMargins(2, 2, 2, 2)  # room for the focus frame

    @property
    def step(self) -> str:
        """The words of the mark that was stepped to, empty before the first step."""
        return self._in_words(self._steps[self._step]) if self._step >= 0 else ""

    @property
    def is_to_be_drawn(self) -> bool:
        """Whether it will be drawn again soon, since size or page have changed."""
        return self._later.isActive()

    def show_figure(
        self,
        draw: Callable[[Any, Theme], object],
        sentence: str,
        steps: Sequence[Any] = (),
        in_words: Callable[[Any], str] = str,
    ) -> None:
        """Show what `draw(figure, theme)` draws.

        Args:
            draw: Draws it.
            sentence: What it says.
            steps: Its marks in their order.
            in_words: Says a mark that was stepped to.
        """
        self._draw, self._steps, self._step = draw, tuple(steps), -1
        self._in_words = in_words
        self.setAccessibleDescription(sentence)
        self.redraw()

    def redraw(self) -> None:
        """Draw the figure in the theme of the page."""
        if self._draw is None or self.width() < 40 or self.height() < 40:  # noqa: PLR2004  not laid out
            return
        if Drawing.awaits(self, self.redraw):
            return
        self._later.stop()  # it is drawn for the size that it has now
        figure = self._figure()
        # The canvas learns its size from an event that may be still on its way.
        ratio = self._canvas.device_pixel_ratio / figure.dpi
        room = self.contentsRect()
        figure.set_size_inches(room.width() * ratio, room.height() * ratio, forward=False)
        self._draw(figure, _theme(self.palette()))
        self._canvas.draw_idle()

    def drawn_on_paper(self, sharp: int = 200) -> QImage:
        """The figure as it is put on paper or taken along; `sharp` in dots per inch."""
        from io import BytesIO

        from matplotlib.figure import Figure

        image = QImage()
        if self._draw is None:
            return image
        room, written = self.contentsRect(), BytesIO()
        figure = Figure(figsize=(room.width() / _DPI, room.height() / _DPI))
        self._draw(figure, LIGHT)
        figure.savefig(written, format="png", dpi=sharp)
        image.loadFromData(written.getvalue())
        return image

    def copy(self) -> None:
        """Copy the figure as a picture."""
        QGuiApplication.clipboard().setImage(self.drawn_on_paper())

    def _figure(self) -> Any:
        if self._canvas is None:
            from matplotlib.figure import Figure

            self._canvas = _canvas_type()(Figure(dpi=_DPI * _size_of_text(self)))
            self._canvas.setFocusPolicy(Qt.FocusPolicy.NoFocus)
            # What the pointer does is for this widget, and the wheel for the page that scrolls.
            self._canvas.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
            self._canvas.setAccessibleName(self._name)
            self._canvas.setParent(self)
            self._canvas.setGeometry(self.contentsRect())
            self._canvas.show()
        return self._canvas.figure

    def _say_step(self, step: int) -> None:
        self._step = max(0, min(step, len(self._steps) - 1))
        said = QAccessibleAnnouncementEvent(self, self.step)
        QAccessible.updateAccessibility(said)
        QToolTip.showText(self.mapToGlobal(self.place_of_step()), tip(self.step), self)

    def place_of_step(self) -> QPoint:
        """Where the words of the mark that was stepped to are shown."""
        return QPoint(8, 8)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrow keys step from mark to mark and say each."""
        moves = {Qt.Key.Key_Right: 1, Qt.Key.Key_Left: -1}
        if self._steps and event.key() in moves:
            self._say_step(self._step + moves[Qt.Key(event.key())])
        elif self._steps and event.key() == Qt.Key.Key_Home:
            self._say_step(0)
        elif self._steps and event.key() == Qt.Key.Key_End:
            self._say_step(len(self._steps) - 1)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw again once the size has come to rest."""
        super().resizeEvent(event)
        if self._canvas is not None:
            self._canvas.setGeometry(self.contentsRect())
        self._later.start()

    def changeEvent(self, event: QEvent) -> None:
        """Draw again in the other theme."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self._later.start()

    def paintEvent(self, _: QPaintEvent) -> None:
        """The sheet under the figure, and the focus around it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self.palette().base())
        if self.hasFocus():
            painter.setPen(QPen(self.palette().accent().color(), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))


@cache
def _canvas_type() -> Any:
    from matplotlib.backends.backend_qtagg import FigureCanvasQTAgg

    class Canvas(FigureCanvasQTAgg):
        """A figure is put together in one turn of the loop and painted once, in the next."""

        def __init__(self, figure: Any) -> None:
            self._later = QTimer(singleShot=True, interval=_NEXT_TURN_MS)
            self._later.timeout.connect(super().draw_idle)
            super().__init__(figure)

        def draw_idle(self) -> None:
            """Paint it soon, whoever asks and however often."""
            self._later.start()

    return Canvas


def _theme(colours: QPalette) -> Theme:
    """How a chart looks on a page."""
    known = (
        (pages.DARK, charts.DARK),
        (pages.BLACK_ON_WHITE, charts.BLACK_ON_WHITE),
        (pages.WHITE_ON_BLACK, charts.WHITE_ON_BLACK),
    )
    inks = pages.inks_of(colours)
    return next((theme for page, theme in known if page is inks), LIGHT)


def _size_of_text(widget: QWidget) -> float:
    """How many times as large as usual the text of the page is."""
    points = QFontInfo(widget.font()).pointSizeF()
    return max(points / _USUAL, 0.5)
