"""A section through the well, to scale, by what its log tells; what it does not tell is said."""

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from wellbook.support.translation import _
from wellbook.water.parsing.lengths import depth, is_metric, stretch_of
from wellbook.window.common.theme import em, inks_of
from wellbook.window.widgets.graphic import Graphic
from wellbook.wording import vocabulary

_FOOT = 0.3048  # metres
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)
_TICKS = 8
_TOLD = ("casing", "static level", "pump set at", "screen", "depth")
_BELOW = 1.06  # of the deepest thing, how far the section reaches
_WIDE, _HIGH = 26, 24  # ems


@dataclass(frozen=True, slots=True)
class WellSection:
    """What can be drawn of a well, in metres below ground; None is not known.

    Attributes:
        words: Each item as the log has it.
        is_metric: Whether the log measures in metres.
    """

    depth: float | None
    casing: float | None
    level: float | None
    pump: float | None
    screen: tuple[float, float] | None
    words: Mapping[str, str]
    is_metric: bool

    @property
    def deepest(self) -> float:
        """How far down anything is known."""
        ends = (self.depth, self.casing, self.level, self.pump, *(self.screen or ()))
        return max((end for end in ends if end is not None), default=0.0)


def well_section(log: Mapping[str, str]) -> WellSection:
    """Read the depths from a well log's items, as they are written."""
    pump = log.get("pump set at", "") or log.get("pump", "")
    return WellSection(
        depth(log.get("depth", "")),
        depth(log.get("casing", "")),
        depth(log.get("static level", "")),
        depth(pump),
        stretch_of(log.get("screen", "")),
        {**log, "pump set at": pump},
        is_metric(log.get("depth", "") or " ".join(log.values())),
    )


def said(section: WellSection) -> tuple[str, ...]:
    """Each part of the drawing in words, with the log's own units."""
    return tuple(_item(section, key) for key in _TOLD)


def not_known(section: WellSection) -> tuple[str, ...]:
    """What can't be drawn, and why."""
    return tuple(_item(section, key) for key in _TOLD if _place(section, key) is None)


def _place(section: WellSection, key: str) -> float | None:
    """How far down a part begins."""
    return {
        "casing": section.casing,
        "static level": section.level,
        "pump set at": section.pump,
        "screen": section.screen[0] if section.screen else None,
        "depth": section.depth,
    }[key]


def _item(section: WellSection, key: str) -> str:
    name, text = vocabulary.log_item(key), section.words.get(key, "")
    if key == "pump set at" and text == section.words.get("pump"):
        name = vocabulary.log_item("pump")
    name = name[:1].upper() + name[1:]
    if not text:
        return _("{item}: not known").format(item=name)
    if _place(section, key) is None:
        return _("{item}: {text} (no depth in it)").format(item=name, text=text)
    return _("{item}: {text}").format(item=name, text=text)


class WellDrawing(Graphic):
    """The hole with casing, water, pump and screen beside a scale of depths."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.section = well_section({})
        self.setAccessibleName(_("The well from the ground down"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(em(self) * 14)
        self.setFixedWidth(em(self) * _WIDE)

    def sizeHint(self) -> QSize:
        """As high as there is room."""
        return QSize(em(self) * _WIDE, em(self) * _HIGH)

    def show_log(self, log: Mapping[str, str]) -> None:
        """Show the well of a log."""
        self.section = well_section(log)
        self.setAccessibleDescription(". ".join(said(self.section)))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw the section, or say that there is nothing to draw."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), self.palette().base())
        if self.section.deepest <= 0:
            painter.setPen(self.palette().placeholderText().color())
            room = QRectF(self.rect()).adjusted(em(self), em(self), -em(self), -em(self))
            painter.drawText(
                room,
                int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap),
                _("No depth is written in the well log yet: enter one to see the well to scale."),
            )
        else:
            _Pen(painter, self, self.section).draw()
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(self.palette().accent().color(), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))


class _Pen:
    """Draws one section into a widget."""

    def __init__(self, painter: QPainter, widget: QWidget, section: WellSection) -> None:
        self.painter, self.section = painter, section
        self.inks, self.side = inks_of(widget.palette()), em(widget)
        self.top, self.foot = self.side * 3.0, widget.height() - self.side * 1.0
        self.left, self.right = self.side * 6.0, self.side * 9.5
        self.width = widget.width()
        self.reach = section.deepest * _BELOW

    def y(self, metres: float) -> float:
        return self.top + (self.foot - self.top) * metres / self.reach

    def draw(self) -> None:
        section, painter = self.section, self.painter
        bottom = self.y(section.depth or section.deepest)
        self._scale()
        if section.level is not None:
            water = QColor(self.inks.water)
            painter.fillRect(
                QRectF(self.left, self.y(section.level), self.right - self.left,
                       bottom - self.y(section.level)), water)  # fmt: skip
        painter.setPen(QPen(QColor(self.inks.muted), 1, Qt.PenStyle.DashLine))
        for x in (self.left, self.right):
            painter.drawLine(QPointF(x, self.top), QPointF(x, bottom))
        if section.depth is not None:
            painter.setPen(QPen(QColor(self.inks.muted), 1))
            painter.drawLine(QPointF(self.left, bottom), QPointF(self.right, bottom))
        if section.casing is not None:
            painter.setPen(QPen(QColor(self.inks.text), self.side / 4))
            for x in (self.left, self.right):
                painter.drawLine(
                    QPointF(x, self.top - self.side), QPointF(x, self.y(section.casing))
                )
        self._screen()
        self._level()
        self._pump()
        painter.setPen(QPen(QColor(self.inks.text), 1.5))
        painter.drawLine(QPointF(self.side * 3.5, self.top), QPointF(self.left, self.top))
        painter.drawLine(QPointF(self.right, self.top), QPointF(self.width - self.side, self.top))
        self._words()

    def _scale(self) -> None:
        unit = 1.0 if self.section.is_metric else _FOOT
        step = next((s for s in _STEPS if self.reach / unit / s <= _TICKS), _STEPS[-1])
        self.painter.setPen(QColor(self.inks.muted))
        for n in range(int(self.reach / unit / step) + 1):
            y = self.y(n * step * unit)
            said = f"{n * step} {'m' if self.section.is_metric else 'ft'}"
            room = QRectF(0, y - self.side, self.side * 3.2, 2 * self.side)
            flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.painter.drawText(room, flags, said)
            self.painter.drawLine(QPointF(self.side * 3.5, y), QPointF(self.side * 4.0, y))

    def _screen(self) -> None:
        if self.section.screen is None:
            return
        self.painter.setPen(QPen(QColor(self.inks.text), 1.5))
        y, last = self.y(self.section.screen[0]), self.y(self.section.screen[1])
        while y <= last:
            for x in (self.left, self.right):
                self.painter.drawLine(QPointF(x - self.side / 4, y), QPointF(x + self.side / 4, y))
            y += self.side / 3

    def _level(self) -> None:
        if self.section.level is None:
            return
        y, middle = self.y(self.section.level), (self.left + self.right) / 2
        self.painter.setPen(QPen(QColor(self.inks.accent), 1.5))
        self.painter.drawLine(QPointF(self.left, y), QPointF(self.right, y))
        half = self.side / 3
        self.painter.drawPolygon(
            QPolygonF([QPointF(middle, y), QPointF(middle - half, y - half * 1.6),
                       QPointF(middle + half, y - half * 1.6)]))  # fmt: skip

    def _pump(self) -> None:
        if self.section.pump is None:
            return
        y, middle = self.y(self.section.pump), (self.left + self.right) / 2
        self.painter.setPen(QPen(QColor(self.inks.text), 1.2))
        self.painter.drawLine(QPointF(middle, self.top), QPointF(middle, y))
        self.painter.setBrush(QColor(self.inks.text))
        self.painter.drawRoundedRect(
            QRectF(middle - self.side * 0.4, y - self.side * 0.7, self.side * 0.8, self.side * 1.4),
            3, 3)  # fmt: skip
        self.painter.setBrush(Qt.BrushStyle.NoBrush)

    def _words(self) -> None:
        """What each part is, beside it; moved down where two would meet; last what is not known."""
        section = self.section
        ends = ((key, _place(section, key)) for key in _TOLD)
        drawn = sorted((end, key) for key, end in ends if end is not None)
        left, below = self.right + self.side * 2, self.top
        flags = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        flags |= int(Qt.TextFlag.TextWordWrap)
        heights = []
        for _end, key in drawn:
            room = QRectF(left, 0, self.width - left - self.side / 2, self.side * 9)
            text = _item(section, key)
            heights.append(self.painter.boundingRect(room, flags, text).height())
        limit = self.foot + self.side
        lowest = []
        for height in reversed(heights):
            limit -= height + self.side / 4
            lowest.append(limit)
        for (end, key), height, low in zip(drawn, heights, reversed(lowest), strict=True):
            y = self.y(end)
            at = max(below, min(y - self.side * 0.6, low))
            self.painter.setPen(QPen(QColor(self.inks.edge), 1))
            self.painter.drawLine(
                QPointF(self.right + self.side / 4, y),
                QPointF(left - self.side / 4, at + self.side * 0.6),
            )
            self.painter.setPen(QColor(self.inks.text))
            room = QRectF(left, at, self.width - left - self.side / 2, height + 2)
            self.painter.drawText(room, flags, _item(section, key))
            below = at + height + self.side / 4
