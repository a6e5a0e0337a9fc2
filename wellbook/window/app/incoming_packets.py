"""Packets that come in: chosen or dropped, looked over, and gone on from."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QThreadPool, Signal
from PySide6.QtWidgets import QWidget

from wellbook.book import Book
from wellbook.window.common.choosing import Chooser

if TYPE_CHECKING:
    from wellbook.window.packet.inspection_dialog import LookOverDialog


class IncomingPackets(QObject):
    """Opens the dialog on a packet; one at a time.

    Signals:
        made: A book was made from a packet; carries its path and the packet's.
        added: What was new in a packet was added to the open book; carries the sentence on it.
    """

    made = Signal(object, object)
    added = Signal(str)

    def __init__(self, chooser: Chooser, window: QWidget) -> None:
        super().__init__(window)
        self._chooser, self._window = chooser, window
        self.dialog: LookOverDialog | None = None

    def choose(self) -> Path | None:
        """A packet that the person points at."""
        return self._chooser.packet_to_read(self._window)

    def look_over(self, path: Path | None) -> None:
        """Show what a packet says."""
        from wellbook.window.packet.inspection_dialog import LookOverDialog

        if path is not None and self.dialog is None:
            self._open(LookOverDialog(path, None, self._window))

    def go_on(self, path: Path | None) -> None:
        """Show it, and offer to make a book from it."""
        from wellbook.window.packet.receive_dialogs import ReceiveDialog

        if path is not None and self.dialog is None:
            dialog = ReceiveDialog(path, self._chooser, self._window)
            dialog.made.connect(lambda new: self.made.emit(new, path))
            self._open(dialog)

    def take_in(self, path: Path | None, into: Book) -> None:
        """Show it, and offer to add what is new to a book that is open."""
        from wellbook.window.packet.receive_dialogs import TakeInDialog

        if path is not None and self.dialog is None:
            dialog = TakeInDialog(path, into, self._window)
            dialog.added.connect(self.added)
            self._open(dialog)

    def stop(self) -> None:
        """Close the dialog; ask its work to stop, and wait until it did."""
        if self.dialog is not None:
            self.dialog.leave()
            QThreadPool.globalInstance().waitForDone()

    def _open(self, dialog: "LookOverDialog") -> None:
        self.dialog = dialog
        dialog.finished.connect(partial(self._on_closed, dialog))
        dialog.open()

    def _on_closed(self, dialog: "LookOverDialog", _: int) -> None:
        dialog.deleteLater()
        if self.dialog is dialog:
            self.dialog = None
