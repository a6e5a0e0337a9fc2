"""How the window looks: the inks of the light and the dark page, sizes that follow the font.

Fusion with our own palette, because the platform's colour scheme is not everywhere known to Qt.
Verdict colours are from the Okabe-Ito palette (Okabe and Ito 2008, Color Universal Design); on
each page only those are used that reach 3:1 against it (WCAG 2.2, 1.4.11).
"""

from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QGuiApplication,
    QPainter,
    QPaintEvent,
    QPalette,
    QPen,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QDialog,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QProxyStyle,
    QPushButton,
    QStyle,
    QStyleOption,
    QStyleOptionComplex,
    QTabBar,
    QWidget,
)
from shiboken6 import isValid

from wellbook.water.verdicts.judge import Verdict
from wellbook.window.common.wheel_guard import WheelGuard


@dataclass(frozen=True, slots=True)
class Palette:
    """The colours of one page.

    Attributes:
        paper: Around the page and in the margins.
        sheet: Under tables, fields and charts.
        band: Every second row, and quiet fills.
        text: What is read.
        muted: What is read second.
        accent: Links, the chosen page, selection.
        on_accent: Text on the accent.
        rule: Thin lines.
        edge: Round what can be ticked or written in.
        doubt: Under what is to be decided.
        water: Water in a drawing.
        verdicts: Colour of each verdict's mark.
    """

    paper: str
    sheet: str
    band: str
    text: str
    muted: str
    accent: str
    on_accent: str
    rule: str
    edge: str
    doubt: str
    water: str
    verdicts: dict[Verdict, str]


LIGHT = Palette(
    paper="#f5f2ec",
    sheet="#ffffff",
    band="#f7f5f0",
    text="#201f1c",
    muted="#5b574f",
    accent="#00588a",
    on_accent="#ffffff",
    rule="#d5d0c5",
    edge="#8c8678",
    doubt="#fff3cd",
    water="#cfe3f2",
    verdicts={
        Verdict.OUTSIDE: "#d55e00",
        Verdict.ADOPTED: "#d55e00",
        Verdict.NEAR: "#0072b2",
        Verdict.WITHIN: "#0072b2",
        Verdict.UNDETECTED: "#0072b2",
        Verdict.UNDECIDABLE: "#201f1c",
        Verdict.NO_LIMIT: "#5b574f",
    },
)
DARK = Palette(
    paper="#27282a",
    sheet="#1e1e1e",
    band="#242527",
    text="#ebe8e2",
    muted="#b5b1a8",
    accent="#86c3ea",
    on_accent="#0d1c26",
    rule="#44474a",
    edge="#85888c",
    doubt="#453a16",
    water="#1f4257",
    verdicts={
        Verdict.OUTSIDE: "#e69f00",
        Verdict.ADOPTED: "#e69f00",
        Verdict.NEAR: "#56b4e9",
        Verdict.WITHIN: "#56b4e9",
        Verdict.UNDETECTED: "#56b4e9",
        Verdict.UNDECIDABLE: "#ebe8e2",
        Verdict.NO_LIMIT: "#b5b1a8",
    },
)
BLACK_ON_WHITE = Palette(
    paper="#ffffff",
    sheet="#ffffff",
    band="#ffffff",
    text="#000000",
    muted="#595959",
    accent="#003a70",
    on_accent="#ffffff",
    rule="#000000",
    edge="#000000",
    doubt="#ffe680",
    water="#cfe3f2",
    verdicts={
        Verdict.OUTSIDE: "#a03c00",
        Verdict.ADOPTED: "#a03c00",
        Verdict.NEAR: "#004a80",
        Verdict.WITHIN: "#004a80",
        Verdict.UNDETECTED: "#004a80",
        Verdict.UNDECIDABLE: "#000000",
        Verdict.NO_LIMIT: "#000000",
    },
)
WHITE_ON_BLACK = Palette(
    paper="#000000",
    sheet="#000000",
    band="#000000",
    text="#ffffff",
    muted="#b3b3b3",
    accent="#9fd8ff",
    on_accent="#000000",
    rule="#ffffff",
    edge="#ffffff",
    doubt="#5a4a00",
    water="#1f4257",
    verdicts={
        Verdict.OUTSIDE: "#ffb733",
        Verdict.ADOPTED: "#ffb733",
        Verdict.NEAR: "#7cc8f7",
        Verdict.WITHIN: "#7cc8f7",
        Verdict.UNDETECTED: "#7cc8f7",
        Verdict.UNDECIDABLE: "#ffffff",
        Verdict.NO_LIMIT: "#ffffff",
    },
)
SHARP = (BLACK_ON_WHITE, WHITE_ON_BLACK)  # where buttons have an edge as fields have one
_ALL = (LIGHT, DARK, *SHARP)
_FRAME = 3  # ems that are left of the screen for the frame of a window
_Primitive = QStyle.PrimitiveElement
_MARKS = frozenset({_Primitive.PE_IndicatorCheckBox, _Primitive.PE_IndicatorRadioButton})
_FRAMES = frozenset({_Primitive.PE_FrameLineEdit, _Primitive.PE_Frame})
_WRITTEN = (QLineEdit, QListWidget, QPlainTextEdit)
_EFFECTS = (
    Qt.UIEffect.UI_AnimateMenu,
    Qt.UIEffect.UI_FadeMenu,
    Qt.UIEffect.UI_AnimateCombo,
    Qt.UIEffect.UI_AnimateTooltip,
    Qt.UIEffect.UI_FadeTooltip,
    Qt.UIEffect.UI_AnimateToolBox,
)
_PRESSED = (QAbstractButton, QComboBox, QAbstractSpinBox)
_RINGED = (QAbstractScrollArea, QAbstractButton, QTabBar)
_LEAST_TARGET = 24  # logical pixels that whatever is pressed is high: WCAG 2.2, 2.5.8
_BAR = QStyle.ComplexControl.CC_ScrollBar
_BOXES = frozenset({QStyle.ComplexControl.CC_ComboBox, QStyle.ComplexControl.CC_SpinBox})


def wants_dark(choice: str) -> bool:
    """Whether a dark page is to be shown for one of the choices of `preferences.PAGES`."""
    if choice == "system":
        return QGuiApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
    return choice.startswith("dark")


def wants_contrast(choice: str) -> bool:
    """Whether the page is to have as much contrast as there is, chosen here or in the system."""
    if choice != "system":
        return choice.endswith("contrast")
    asked = getattr(QGuiApplication.styleHints(), "accessibility", None)  # from Qt 6.10 on
    preference = getattr(Qt, "ContrastPreference", None)
    if asked is None or preference is None:
        return False
    return bool(asked().contrastPreference() == preference.HighContrast)


class Outlined(QProxyStyle):
    """Fusion, with edges that can be seen round what is ticked or written in.

    Fusion draws these darker than the page, which is next to nothing on a dark one. Fields take
    the wheel only with the focus.
    """

    def __init__(self, base: str) -> None:
        super().__init__(base)
        self._guard = WheelGuard(self)

    def polish(self, what: Any) -> None:
        """Prepare a widget when it is first shown; palettes and programs as Fusion does."""
        if isinstance(what, QWidget):
            self._guard.watch(what)
        if isinstance(what, _PRESSED) and what.minimumHeight() < _LEAST_TARGET:
            what.setMinimumHeight(_LEAST_TARGET)
        if isinstance(what, QPushButton) and not isinstance(what.window(), QDialog):
            what.setAutoDefault(True)  # Return presses the one with the focus; dialogs see to that
        super().polish(what)

    def drawPrimitive(
        self,
        element: QStyle.PrimitiveElement,
        option: QStyleOption,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        """Draw as Fusion does, then the edge."""
        super().drawPrimitive(element, option, painter, widget)
        if element in _MARKS or (element in _FRAMES and isinstance(widget, _WRITTEN)):
            _edge(option, painter, is_round=element is _Primitive.PE_IndicatorRadioButton)
        elif element is _Primitive.PE_PanelButtonCommand and inks_of(option.palette) in SHARP:
            _edge(option, painter)

    def drawComplexControl(
        self,
        control: QStyle.ComplexControl,
        option: QStyleOptionComplex,
        painter: QPainter,
        widget: QWidget | None = None,
    ) -> None:
        """Draw as Fusion does, then the edge."""
        super().drawComplexControl(control, option, painter, widget)
        if control in _BOXES:
            _edge(option, painter)
        elif control is _BAR and widget is not None and inks_of(option.palette) in SHARP:
            self._draw_slider(option, painter, widget)

    def _draw_slider(self, option: QStyleOptionComplex, painter: QPainter, widget: QWidget) -> None:
        """Draw an edge round what is moved along a scroll bar: it is as black or white as that."""
        slider = self.subControlRect(_BAR, option, QStyle.SubControl.SC_ScrollBarSlider, widget)
        painter.setPen(QPen(QColor(inks_of(option.palette).edge), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(slider.adjusted(0, 0, -1, -1))


class _Ring(QWidget):
    """A line round a widget; it belongs to that and goes with it."""

    def __init__(self, around: QWidget) -> None:
        super().__init__(around)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        around.installEventFilter(self)
        self.setGeometry(around.rect())
        self.show()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Keep round what it is round of."""
        if event.type() == QEvent.Type.Resize and isinstance(watched, QWidget):
            self.setGeometry(watched.rect())
        return False

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the line in the accent."""
        painter = QPainter(self)
        painter.setPen(QPen(QColor(inks_of(self.palette()).accent), 2))
        painter.drawRect(self.rect().adjusted(1, 1, -1, -1))


class FocusRing(QObject):
    """Draws a line round what has the focus and shows it too little: lists, pages, buttons."""

    def __init__(self, app: QApplication) -> None:
        super().__init__(app)
        self._ring: _Ring | None = None
        app.focusChanged.connect(self._follow)

    def _follow(self, _before: QWidget | None, now: QWidget | None) -> None:
        if self._ring is not None and isValid(self._ring):
            self._ring.hide()
            self._ring.deleteLater()
        self._ring = _Ring(now) if isinstance(now, _RINGED) else None


def _edge(option: QStyleOption, painter: QPainter, *, is_round: bool = False) -> None:
    inks = inks_of(option.palette)
    has_focus = bool(option.state & QStyle.StateFlag.State_HasFocus)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    is_faint = inks in SHARP and not option.state & QStyle.StateFlag.State_Enabled
    # With the focus twice as thick: its ink alone shows too little beside the edge that was there.
    ink, thick = (inks.accent, 2) if has_focus else (inks.muted if is_faint else inks.edge, 1)
    painter.setPen(QPen(QColor(ink), thick))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    edge = QRectF(option.rect).adjusted(thick / 2, thick / 2, -thick / 2, -thick / 2)
    if is_round:
        painter.drawEllipse(edge)
    else:
        painter.drawRoundedRect(edge, 2, 2)
    painter.restore()


def apply_theme(app: QApplication, choice: str) -> None:
    """Give the program its style and the palette of the chosen page."""
    if not isinstance(app.style(), Outlined):
        app.setStyle(Outlined("Fusion"))
        FocusRing(app)
    for effect in _EFFECTS:  # nothing moves by itself, asked for or not
        app.setEffectEnabled(effect, False)  # noqa: FBT003  Qt's own signature
    light, dark = (BLACK_ON_WHITE, WHITE_ON_BLACK) if wants_contrast(choice) else (LIGHT, DARK)
    app.setPalette(palette(dark if wants_dark(choice) else light))


def palette(inks: Palette) -> QPalette:
    """Qt's palette in our inks."""
    role = QPalette.ColorRole
    made = QPalette(QColor(inks.paper))
    for where, ink in (
        (role.Window, inks.paper),
        (role.Base, inks.sheet),
        (role.AlternateBase, inks.band),
        (role.Button, inks.band),
        (role.WindowText, inks.text),
        (role.Text, inks.text),
        (role.ButtonText, inks.text),
        (role.PlaceholderText, inks.muted),
        (role.Highlight, inks.accent),
        (role.HighlightedText, inks.on_accent),
        (role.Accent, inks.accent),
        (role.Link, inks.accent),
        (role.LinkVisited, inks.accent),
        (role.ToolTipBase, inks.sheet),
        (role.ToolTipText, inks.text),
        (role.Mid, inks.rule),
        (role.Midlight, inks.rule),
    ):
        made.setColor(where, QColor(ink))
    for where in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, where, QColor(inks.muted))
    return made


def is_dark(colours: QPalette) -> bool:
    """Whether a palette is that of the dark page."""
    return colours.color(QPalette.ColorRole.Base).lightness() < 128  # noqa: PLR2004  half of 255


def inks_of(colours: QPalette) -> Palette:
    """The inks behind a palette."""
    role = QPalette.ColorRole
    shown = (colours.color(role.Window).name(), colours.color(role.Base).name())
    known = (inks for inks in _ALL if (inks.paper, inks.sheet) == shown)
    return next(known, DARK if is_dark(colours) else LIGHT)


def em(widget: QWidget) -> int:
    """Height of a line in the widget's font: the measure of every margin."""
    return round(QFontMetricsF(widget.font()).height())


def room_on_screen(widget: QWidget) -> QRect:
    """What a window may take of the screen: the rest is for the frame that is put round it."""
    edge = em(widget) * _FRAME
    return widget.screen().availableGeometry().adjusted(0, edge, -edge, 0)


def enlarge(widget: QWidget, factor: float, *, bold: bool = False) -> None:
    """Set a widget's font to a multiple of the system's, whatever its unit."""
    font = QApplication.font()
    if font.pointSizeF() > 0:
        font.setPointSizeF(font.pointSizeF() * factor)
    else:
        font.setPixelSize(round(font.pixelSize() * factor))
    font.setBold(bold)
    widget.setFont(font)
