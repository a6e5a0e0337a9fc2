"""Collecting Python's garbage on the thread of the window only.

Python collects on whichever thread happens to allocate. On a worker that would take widgets apart
beside the thread that paints them, which ends the process.
"""

import gc

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 250


class GuiThreadGc(QObject):
    """Collects between events of the window, as often as Python itself would."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        gc.disable()
        gc.freeze()  # what was loaded stays: no sweep need go through it
        self._timer = QTimer(self)
        self._timer.timeout.connect(_sweep)
        self._timer.start(_EVERY_MS)

    def stop(self) -> None:
        """Leave it to Python again, once no work is under way on another thread."""
        self._timer.stop()
        gc.enable()


def _sweep() -> None:
    """Collect the oldest generation that is due, and the younger ones with it."""
    due = [
        number
        for number, (count, most) in enumerate(zip(gc.get_count(), gc.get_threshold(), strict=True))
        if most and count > most
    ]
    if due:
        gc.collect(max(due))
