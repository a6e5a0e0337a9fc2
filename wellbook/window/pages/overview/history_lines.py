"""All results of a parameter as a small line against its limit, and the share of it as a bar."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from wellbook.water.units import conversion
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing
from wellbook.window.common.theme import em, inks_of
from wellbook.window.widgets.table_model import ROW_ROLE

_MOST = 80  # marks; of more, each stretch shows its highest
_WIDTH, _BAR = 11, 9  # ems
_FULL = 0.8  # of the bar, where the limit is
_MOST_SHARE = 1.25


@dataclass(frozen=True, slots=True)
class Spot:
    """A mark: `x` and `y` as shares of the room, from the left and from the foot.

    Attributes:
        is_open: Nothing was detected.
        is_over: It is outside the limit of today: over it, below its range, or there at all.
        is_unsure: Bacteria grew over the plate, so that it can't be told.
    """

    x: float
    y: float
    is_open: bool
    is_over: bool
    is_unsure: bool = False


@dataclass(frozen=True, slots=True)
class HistoryLine:
    """The marks in order of time, and the height of the limit if there is one.

    Attributes:
        is_joined: Whether a line may join them: all are of one sort of water.
    """

    spots: tuple[Spot, ...]
    limit: float | None
    is_joined: bool = True


def history_line(record: PointRecord, standing: Standing, first: date, today: date) -> HistoryLine:
    """The results of a parameter from the first test at a point to today."""
    parameter = standing.parameter
    limit = standing.now.limit
    floor, ceiling = _bounds(limit, parameter)
    found = [
        (result.collected.day, value, result.reading)
        for result in record.history(parameter.key)
        if (value := _value(result.reading, parameter)) is not None
    ]
    found.sort(key=lambda one: one[0])
    values = [float(value) for _day, value, _reading in found]
    low = min([0.0, *values]) if parameter.unit != "pH units" else min(values, default=0.0) - 0.5
    high = max([*values, float(ceiling or 0), low + 1e-9])
    days = max((today - first).days, 1)

    def up(value: float) -> float:
        return (value - low) / (high - low)

    spots = [
        Spot(
            (day - first).days / days,
            up(float(value)),
            reading.kind in {Kind.BELOW, Kind.ABSENT},
            _is_outside(reading, value, floor, ceiling)
            or (limit is not None and limit.rule is Rule.ABSENT and _is_there(reading, value)),
            Flag.OVERGROWN in reading.flags,
        )
        for day, value, reading in found
    ]
    sorts = {(r.draw, r.reading.fraction) for r in record.history(parameter.key)}
    height = None if ceiling is None else up(float(ceiling))
    return HistoryLine(_thinned(spots), height, len(sorts) == 1)


def _thinned(spots: list[Spot]) -> tuple[Spot, ...]:
    """Not more marks than can be told apart: the highest of each stretch, and the last one."""
    if len(spots) <= _MOST:
        return tuple(spots)
    step = -(-len(spots) // _MOST)
    cut = (spots[n : n + step] for n in range(0, len(spots) - 1, step))
    return (*(max(some, key=_weight) for some in cut), spots[-1])


def _weight(spot: Spot) -> tuple[bool, bool, float]:
    return (spot.is_over, spot.is_unsure, spot.y)


def _value(reading: Reading, parameter: Parameter) -> Decimal | None:
    if reading.kind in {Kind.PRESENT, Kind.ABSENT}:
        return Decimal(int(reading.kind is Kind.PRESENT))
    if Flag.OVERGROWN in reading.flags and reading.number is None:
        return Decimal(1)
    if parameter.scale == "presence" and reading.number is not None:
        return Decimal(int(reading.kind is not Kind.BELOW and reading.number > 0))
    return conversion.in_usual(reading, parameter)


def _bounds(limit: Limit | None, parameter: Parameter) -> tuple[Decimal | None, Decimal | None]:
    """The ends of what a limit allows, in the usual unit; None for one that it does not have."""
    if limit is None or limit.rule is Rule.ABSENT:
        return None, None
    usual = (parameter.unit, parameter.basis)

    def end(figure: Decimal | None) -> Decimal | None:
        if figure is None:
            return None
        try:
            return conversion.convert(figure, limit.unit, limit.basis, *usual, parameter).number
        except conversion.NoConversion:
            return None

    return end(limit.low), end(limit.high)


def _is_outside(
    reading: Reading, value: Decimal, floor: Decimal | None, ceiling: Decimal | None
) -> bool:
    is_over = ceiling is not None and reading.kind in {Kind.NUMBER, Kind.ABOVE} and value > ceiling
    is_low = floor is not None and reading.kind in {Kind.NUMBER, Kind.BELOW} and value < floor
    return is_over or is_low


def _is_there(reading: Reading, value: Decimal) -> bool:
    is_found = reading.kind in {Kind.NUMBER, Kind.ABOVE, Kind.PRESENT}
    return is_found and value > 0 and Flag.OVERGROWN not in reading.flags


def share_of_limit(judgement: Judgement) -> Decimal | None:
    """How much of a maximum the figure takes; None where there is none to take."""
    limit, value = judgement.limit, judgement.value
    if limit is None or limit.rule is not Rule.MAX or not limit.high or value is None:
        return None
    if judgement.verdict in {Verdict.UNDETECTED, Verdict.UNDECIDABLE}:
        return None
    return value / limit.high


class _Painted(QStyledItemDelegate):
    """Paints the row's ground, then a small picture in place of words; `width` is in ems."""

    width: int

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Draw one cell."""
        self.initStyleOption(option, index)
        option.text = ""
        widget = option.widget
        widget.style().drawControl(QStyle.ControlElement.CE_ItemViewItem, option, painter, widget)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = em(widget)
        room = QRectF(option.rect).adjusted(side * 0.5, side * 0.4, -side * 0.9, -side * 0.4)
        is_selected = bool(option.state & QStyle.StateFlag.State_Selected)
        chosen = option.palette.highlightedText().color() if is_selected else None
        self.draw(painter, room, index.data(ROW_ROLE), widget, chosen)
        painter.restore()

    def draw(
        self, painter: QPainter, room: QRectF, row: object, widget: QWidget, chosen: QColor | None
    ) -> None:
        """Draw the picture of a row; in one ink where the row is chosen."""
        raise NotImplementedError


class HistoryDelegate(_Painted):
    """Draws the small line of a row."""

    width = _WIDTH

    def __init__(self, line_of: Callable[[object], HistoryLine | None], parent: QWidget) -> None:
        super().__init__(parent)
        self._line_of = line_of

    def draw(
        self, painter: QPainter, room: QRectF, row: object, widget: QWidget, chosen: QColor | None
    ) -> None:
        """Draw the limit, then the marks, then those over it."""
        line = self._line_of(row)
        if line is None:
            return
        inks = inks_of(widget.palette())
        if line.limit is not None:
            height = room.bottom() - line.limit * room.height()
            painter.setPen(QPen(chosen or QColor(inks.muted), 1, Qt.PenStyle.DashLine))
            painter.drawLine(QPointF(room.left(), height), QPointF(room.right(), height))
        places = [
            QPointF(room.left() + s.x * room.width(), room.bottom() - s.y * room.height())
            for s in line.spots
        ]
        blue = chosen or QColor(inks.verdicts[Verdict.WITHIN])
        painter.setPen(QPen(blue, 0.8))
        if line.is_joined:
            painter.drawPolyline(QPolygonF(places))
        size = em(widget) / 7
        for spot, place in zip(line.spots, places, strict=True):
            if spot.is_over:
                over = chosen or QColor(inks.verdicts[Verdict.OUTSIDE])
                painter.setPen(QPen(over, 1))
                painter.setBrush(over)
                painter.drawPolygon(_diamond(place, size * 2))
            elif spot.is_unsure:
                unsure = chosen or QColor(inks.verdicts[Verdict.UNDECIDABLE])
                painter.setPen(QPen(unsure, 1))
                painter.setBrush(widget.palette().base())
                painter.drawRect(QRectF(place.x() - size, place.y() - size, 2 * size, 2 * size))
            else:
                painter.setPen(QPen(blue, 1))
                painter.setBrush(widget.palette().base() if spot.is_open and not chosen else blue)
                painter.drawEllipse(place, size, size)


class ShareDelegate(_Painted):
    """Draws how much of its limit a row takes; a stroke stands where the limit is."""

    width = _BAR

    def __init__(self, share_of: Callable[[object], Decimal | None], parent: QWidget) -> None:
        super().__init__(parent)
        self._share_of = share_of

    def draw(
        self, painter: QPainter, room: QRectF, row: object, widget: QWidget, chosen: QColor | None
    ) -> None:
        """Draw the bar, its stroke and the figure."""
        share = self._share_of(row)
        if share is None:
            return
        inks, side = inks_of(widget.palette()), em(widget)
        bar = QRectF(room.left(), room.center().y() - side / 4, room.width() / 2, side / 2)
        painter.setPen(QPen(chosen or QColor(inks.edge), 1))
        painter.drawRect(bar)  # an edge, not a fill: the part that is taken is what is seen
        full = min(float(share), _MOST_SHARE) * _FULL
        verdict = Verdict.OUTSIDE if share > 1 else Verdict.WITHIN
        painter.fillRect(
            QRectF(bar.left(), bar.top(), bar.width() * full, bar.height()),
            chosen or QColor(inks.verdicts[verdict]),
        )
        painter.setPen(QPen(chosen or QColor(inks.text), 1.5))
        stroke = bar.left() + bar.width() * _FULL
        painter.drawLine(QPointF(stroke, bar.top() - 2), QPointF(stroke, bar.bottom() + 2))
        said = QRectF(bar.right() + side / 2, room.top() - side, room.width() / 2, 2 * side)
        said.moveTop(room.center().y() - side)
        painter.drawText(said, int(Qt.AlignmentFlag.AlignVCenter), share_words(share))


def share_words(share: Decimal | None) -> str:
    """A share in whole percent; never 100 for what is just over or just under."""
    if share is None:
        return ""
    percent = share * 100
    whole = int(percent.to_integral_value())
    if whole == 100 and percent != whole:  # noqa: PLR2004  the whole limit
        whole = 101 if percent > whole else 99
    if whole == 0 and percent > 0:
        return "<1 %"
    return f"{whole} %"


def _diamond(middle: QPointF, side: float) -> QPolygonF:
    around = ((0, -side), (side, 0), (0, side), (-side, 0))
    return QPolygonF([middle + QPointF(x, y) for x, y in around])
