"""A reminder on the desktop while a book is open behind other windows: once a day at most."""

from collections.abc import Sequence

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget

from wellbook.planning.overview import WellOverview
from wellbook.window.common.household import Household

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

    def tell(self, wells: Sequence[WellOverview]) -> None:
        """Tell what is due, unless the window is in front or it was told today."""
        if self._window.isActiveWindow():
            return
        from wellbook.planning import reminder
        from wellbook.planning.upkeep.due import upkeep_items

        path, today = self._household.path, self._household.today
        dues = [(well.well, point.point, point.due) for well in wells for point in well.points]
        upkeep = upkeep_items(self._household.record, self._household.upkeep, today)
        text = reminder.sentence(dues, today, upkeep)
        if not text or reminder.was_told(path, today):
            return
        from wellbook.window.app.tray import Tray

        self.said = text
        if Tray(self).tell(text):
            reminder.note_told(path, today)
