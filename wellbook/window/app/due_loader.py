"""What is due, worked out on another thread: holidays of years are read for it."""

from functools import partial

from PySide6.QtCore import QObject, Signal

from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Job, Tell


class DueLoader(QObject):
    """Asks what is due and tells the answer, unless it was asked anew meanwhile.

    Signals:
        found: Carries what is due at each point, by the point's number.
        failed: Carries the sentence to show.
    """

    found = Signal(object)
    failed = Signal(str)

    def __init__(self, household: Household, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._household = household
        self._job = Job(self)
        self._is_stopped = False

    def start(self) -> None:
        """Work it out from the book as it is now."""
        if self._is_stopped:
            return
        job = self._job = Job(self)
        job.done.connect(partial(self._on_done, job))
        job.failed.connect(self.failed)
        job.start(partial(_due, self._household))

    def stop(self) -> None:
        """Ignore results that arrive after closing."""
        self._is_stopped = True

    def _on_done(self, job: Job, dues: object) -> None:
        if job is self._job and not self._is_stopped:
            self.found.emit(dues)
        job.deleteLater()


def _due(household: Household, tell: Tell) -> dict[int, object]:
    from wellbook.planning.overview import due

    tell(0, 0, "")
    with household.book.again() as book:
        found = due(book, household.catalogue, household.today)
    return {point.id: dues for _, point, dues in found}
