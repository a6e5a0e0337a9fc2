"""What comes next at a point: the day, what is drawn on it, and the months of the year."""

from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.planning.overview import PointOverview
from wellbook.planning.settings import scheme
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.words import day_words
from wellbook.window.pages.overview.month_wheel import MonthWheel
from wellbook.window.widgets.layouts import SheetEdge, clear_layout, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wellbook.planning.lab.awaited import Awaited
    from wellbook.water.sampling.due import PanelDue

_SOON = timedelta(days=45)
_LINES = 3
_HEAD = 1.35


class NextCard(QFrame):
    """The next sampling day in large type, what is due then, and the wheel of the year.

    Signals:
        round_wanted: The next round is to be shown.
        call_wanted: What a lab told by telephone is to be entered.
    """

    round_wanted = Signal()
    call_wanted = Signal()

    def __init__(self, household: Household, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        SheetEdge(self)
        self.day = words(factor=_HEAD, bold=True)
        self._rows = QVBoxLayout()
        self._rows.setSpacing(em(self) // 6)
        self.caption = words(quiet=True)
        self.wheel = MonthWheel()
        self.round_button = QPushButton(_("Plan the day…"))
        self.round_button.clicked.connect(self.round_wanted)
        self.call_button = QPushButton(_("The lab called…"))
        self.call_button.clicked.connect(self.call_wanted)
        self.call_button.setVisible(False)
        self.lines: tuple[str, ...] = ()
        self._lay_out()

    def _lay_out(self) -> None:
        unit = em(self)
        left = QVBoxLayout()
        left.setSpacing(unit // 4)
        left.addWidget(words(_("Next sampling"), quiet=True))
        left.addWidget(self.day)
        left.addLayout(self._rows)
        left.addWidget(self.caption)
        left.addStretch(1)
        buttons = QHBoxLayout()
        buttons.addWidget(self.round_button)
        buttons.addWidget(self.call_button)
        buttons.addStretch(1)
        left.addLayout(buttons)
        across = QHBoxLayout(self)
        across.setContentsMargins(unit, unit // 2, unit // 2, unit // 2)
        across.addLayout(left, 1)
        across.addWidget(self.wheel, 0, Qt.AlignmentFlag.AlignVCenter)

    def show_waiting(self) -> None:
        """Say that what is due is being worked out."""
        clear_layout(self._rows)
        self.lines = ()
        self.day.setText("")
        self._rows.addWidget(words(_("Looking up what is due …"), quiet=True))

    def show_due(self, point: PointOverview, today: date, owed: "Sequence[Awaited]" = ()) -> None:
        """Show what is due at a point, and above it what is awaited of it."""
        clear_layout(self._rows)
        self.call_button.setVisible(any(one.sample.reported == "" for one in owed))
        told = [(line, one) for one in owed for line in one.lines()]
        for line, one in told:
            is_calm = not (one.is_too_old or one.is_late or one.preliminary)
            self._rows.addWidget(words(line, bold=not is_calm))
        room = max(1, _LINES - len(told))
        groups = _together(
            [due for due in point.due if due.due <= today + _SOON and due.drawn is None]
        )
        said = groups[:room] or _together(point.due[:1])
        self.lines = tuple(self._say(group, today) for group in said) or (
            _("Nothing is planned at this point yet."),
        )
        if not said:
            self._rows.addWidget(words(self.lines[0]))
        rest = [due.panel.name for group in groups[room:] for due in group]
        if rest:
            more = _("Also due: {names}.").format(names=", ".join(rest))
            self._rows.addWidget(words(more, quiet=True))
        following = _following([group[0] for group in said])
        self.day.setText(day_words(following) if following else "")
        self.day.setVisible(following is not None)
        self._show_year(point, following)

    def _say(self, group: "Sequence[PanelDue]", today: date) -> str:
        due, names = group[0], ", ".join(due.panel.name for due in group)
        head = _head(due, names, today)
        line = words(head)
        set_tip(line, " ".join((head, _suggested(due), due.why)))
        self._rows.addWidget(line)
        return f"{head} {_suggested(due)}"

    def _show_year(self, point: PointOverview, following: date | None) -> None:
        from wellbook.charts.model.year_wheel import wheel

        record = self._household.record
        tests = record.samples(point.point.id)
        days = [test.collected.day for test in tests if not test.collected.known]
        described = wheel(
            days,
            scheme(record.settings),
            self._household.today,
            window=point.due[0].window if point.due else None,
        )
        self.wheel.show_days(days, following, described.sentence)
        gap = described.gap.text if described.gap else ""
        said = _("Never tested: {months}.").format(months=gap) if gap else ""
        self.caption.setText(said)
        self.caption.setVisible(bool(said))
        set_tip(self.caption, described.sentence)


def _following(dues: "Iterable[PanelDue]") -> date | None:
    """The first day that suits, or the first of those suggested."""
    return min((due.day or due.window[0] for due in dues), default=None)


def _together(dues: "Iterable[PanelDue]") -> "list[list[PanelDue]]":
    """What can be drawn on one day for one reason, in one line."""
    groups: dict[tuple[object, ...], list[PanelDue]] = {}
    for due in dues:
        groups.setdefault((due.due, due.window, due.is_new, due.why), []).append(due)
    return list(groups.values())


def _head(due: "PanelDue", names: str, today: date) -> str:
    day = day_words(due.due)
    if due.is_new:
        return _("{name}: never tested here.").format(name=names)
    if due.last is None:
        return _("{name}: not all of it was tested here yet.").format(name=names)
    if due.due <= today:
        return _("{name}: due since {day}.").format(name=names, day=day)
    return _("{name}: next due on {day}.").format(name=names, day=day)


def _suggested(due: "PanelDue") -> str:
    first, last = map(day_words, due.window)
    if due.day is not None:
        said = _("Suggested: {first} to {last}; a good day: {day}.")
        return said.format(day=day_words(due.day), first=first, last=last)
    return _("Suggested: {first} to {last}.").format(first=first, last=last)
