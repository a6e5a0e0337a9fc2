"""What is due at a well, since when, and which day suits."""

from datetime import date, timedelta
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from wellbook.planning.overview import PointOverview
from wellbook.planning.upkeep.words import advice, head
from wellbook.support.translation import _, ngettext
from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.common.words import day_words
from wellbook.window.widgets.layouts import clear_layout, lock, words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wellbook.planning.lab.awaited import Awaited
    from wellbook.planning.upkeep.due import UpkeepItem
    from wellbook.water.sampling.due import PanelDue
_SOON = timedelta(days=45)
_LINES = 3
_UPKEEP_LINES = 2


class DueBanner(QFrame):
    """One line per panel that is due or soon will be, or the next one if none is.

    Signals:
        round_wanted: The next round is to be shown.
        call_wanted: What a lab told by telephone is to be entered.
    """

    round_wanted = Signal()
    call_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAutoFillBackground(True)
        self.setBackgroundRole(QPalette.ColorRole.Base)
        self._rows = QVBoxLayout()
        self._rows.setSpacing(em(self) // 4)
        self.round_button = QPushButton(_("The next round…"))
        self.round_button.clicked.connect(self.round_wanted)
        self.call_button = QPushButton(_("The lab called…"))
        self.call_button.clicked.connect(self.call_wanted)
        self.call_button.setVisible(False)
        across = QHBoxLayout(self)
        across.setContentsMargins(em(self), em(self) // 2, em(self), em(self) // 2)
        across.setSpacing(em(self))
        across.addLayout(self._rows, 1)
        buttons = QVBoxLayout()
        buttons.addWidget(self.round_button)
        buttons.addWidget(self.call_button)
        buttons.addStretch(1)
        across.addLayout(buttons)
        self.lines: tuple[str, ...] = ()

    def show_waiting(self) -> None:
        """Say that what is due is being worked out."""
        clear_layout(self._rows)
        self.lines = ()
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
            self._rows.addWidget(words(self.lines[0], bold=True))
        rest = [due.panel.name for group in groups[room:] for due in group]
        if rest:
            more = _("Also due: {names}.").format(names=", ".join(rest))
            self._rows.addWidget(words(more, quiet=True))

    def _say(self, group: "Sequence[PanelDue]", today: date) -> str:
        head = _head(group, today)
        self._rows.addWidget(words(head, bold=True))
        self._rows.addWidget(words(group[0].why, quiet=True))
        return head


class UpkeepLines(QFrame):
    """What is due at units and wellhead, a line each with a button that notes it as done.

    Signals:
        done: It was done; carries the item.
        all_wanted: The page with all of it is to be shown.
    """

    done = Signal(object)
    all_wanted = Signal()

    def __init__(self, why_readonly: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._why = why_readonly
        self._rows = QVBoxLayout(self)
        self._rows.setContentsMargins(em(self), 0, em(self), 0)
        self._rows.setSpacing(em(self) // 4)
        self.buttons: list[QPushButton] = []
        self.lines: tuple[str, ...] = ()

    def show_items(self, items: "Sequence[UpkeepItem]", today: date) -> None:
        """Show the first of what is due; how many more there are is said beside the way there."""
        clear_layout(self._rows)
        shown = items[:_UPKEEP_LINES]
        self.lines = tuple(head(item, today) for item in shown)
        self.buttons = []
        for place, (item, said) in enumerate(zip(shown, self.lines, strict=True), start=1):
            more = len(items) - place if place == len(shown) else 0
            self._rows.addWidget(self._row(item, said, more))
        self.setVisible(bool(items))

    def _row(self, item: "UpkeepItem", said: str, more: int) -> QWidget:
        row = QWidget()
        across = QHBoxLayout(row)
        across.setContentsMargins(0, 0, 0, 0)
        line = words(said)
        set_tip(line, advice(item))
        across.addWidget(line, 1)
        if more:
            told = ngettext("{n} more thing to see to…", "{n} more things to see to…", more)
            link = QPushButton(told.format(n=more))
            link.clicked.connect(self.all_wanted)
            across.addWidget(link)
        button = QPushButton(_("Put right…") if item.is_fault else _("Done today…"))
        button.setAccessibleName(f"{button.text()} {said}")
        button.clicked.connect(lambda: self.done.emit(item))
        lock(self._why, button)
        self.buttons.append(button)
        across.addWidget(button)
        return row


def _together(dues: "Iterable[PanelDue]") -> "list[list[PanelDue]]":
    """What can be drawn on one day for one reason, in one line."""
    groups: dict[tuple[object, ...], list[PanelDue]] = {}
    for due in dues:
        groups.setdefault((due.due, due.window, due.why), []).append(due)
    return list(groups.values())


def _head(group: "Sequence[PanelDue]", today: date) -> str:
    due, name = group[0], ", ".join(due.panel.name for due in group)
    day = day_words(due.due)
    if due.last is None:
        text = _("{name}: not all of it was tested here yet.").format(name=name)
    elif due.due <= today:
        text = _("{name}: due since {day}.").format(name=name, day=day)
    else:
        text = _("{name}: next due on {day}.").format(name=name, day=day)
    return f"{text} {_suggested(due)}"


def _suggested(due: "PanelDue") -> str:
    first, last = map(day_words, due.window)
    if due.day is not None:
        said = _("Suggested: {first} to {last}; a good day: {day}.")
        return said.format(day=day_words(due.day), first=first, last=last)
    return _("Suggested: {first} to {last}.").format(first=first, last=last)
