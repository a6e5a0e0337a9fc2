"""Reminders of the window: a note while it is behind others, and what runs at sign-in."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget

from wellbook.planning.overview import WellOverview
from wellbook.support import watched_books
from wellbook.support.translation import _
from wellbook.window.common.household import Household, remind_at_sign_in
from wellbook.window.widgets.message_bar import MessageBar

_WINDOW = "window"  # where a loss was said
_LOOK_EVERY = 30 * 60 * 1000  # milliseconds


class Reminder(QTimer):
    """Notices that a new day began, and tells what is due to who does not see the window.

    Signals:
        day_began: The day is another than when it was last looked.
    """

    day_began = Signal()

    def __init__(self, household: Household, window: QWidget) -> None:
        super().__init__(window)
        self._household, self._window = household, window
        self._day = household.today
        self.said = ""
        self.setInterval(_LOOK_EVERY)
        self.timeout.connect(self.look)
        self.start()

    def look(self) -> None:
        """Look whether a new day began."""
        if self._household.today != self._day:
            self._day = self._household.today
            self.day_began.emit()

    def follow(self, bar: MessageBar) -> None:
        """Have reminders at sign-in follow a book that was moved here; offer those of elsewhere."""
        if not self.isActive():  # the book was closed before there was time for it
            return
        household, path = self._household, self._household.path
        identity = household.book.identity()
        found = watched_books.find(path, identity)
        if bar.text or household.why_readonly:
            return
        is_of_elsewhere = not watched_books.is_known(identity)
        if is_of_elsewhere and household.book.setting(watched_books.SETTING):
            watched_books.watch(path, identity, is_watched=False)  # it is asked once
            said = _("On another computer this book tells at sign-in what is due; here it doesn’t.")
            bar.say(said, _("Tell me here, too"), lambda: self._take_over(bar))
        elif found and found.is_watched and not Path(found.path).is_file():
            from wellbook.support import sign_in

            sign_in.switch_on(path, identity)
            said = _("{book} was moved: at sign-in it is looked at where it is now.")
            bar.say(said.format(book=path.name))

    def _take_over(self, bar: MessageBar) -> None:
        if bar.attempt(lambda: remind_at_sign_in(self._household, wanted=True)):
            bar.say(_("From now on this computer tells at sign-in what is due."))

    def tell(self, wells: Sequence[WellOverview]) -> None:
        """Tell what is due, unless the window is in front or it was told today."""
        if self._window.isActiveWindow():
            return
        from wellbook.planning import reminder
        from wellbook.planning.upkeep.due import due_now, upkeep_items

        path, today = self._household.path, self._household.today
        dues = [(well.well, point.point, point.due) for well in wells for point in well.points]
        upkeep = due_now(upkeep_items(self._household.record, self._household.upkeep, today), today)
        head, text = reminder.note(path, dues, today, upkeep)
        if not text or reminder.was_told(path, today):
            return
        from wellbook.window.app.tray import Tray

        self.said = text
        if Tray(self).tell(text, title=head):
            reminder.note_told(path, today)


def tell_lost(bar: MessageBar, shown: str) -> None:
    """Say once that a book that was looked at at sign-in is gone; not of the one that is shown."""
    for one in [one for one in watched_books.lost(_WINDOW) if one.identity != shown][:1]:
        from wellbook.planning.reminder import lost_sentence
        from wellbook.support import sign_in

        path = Path(one.path)
        give_up = partial(sign_in.switch_off, path, one.identity)
        bar.say(lost_sentence(path), _("Look for it no more"), partial(_give_up, bar, give_up))
        watched_books.note_lost(one, _WINDOW)


def _give_up(bar: MessageBar, deed: Callable[[], None]) -> None:
    if bar.attempt(deed):
        bar.clear()
