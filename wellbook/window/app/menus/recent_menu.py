"""The books that were open last, in a menu of their own."""

from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import QMenu, QWidget

from wellbook.support.translation import _
from wellbook.window.common.preferences import Preferences


class RecentMenu(QMenu):
    """Names the books that were open last, each with its folder."""

    def __init__(
        self, preferences: Preferences, open_book: Callable[[Path], object], parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._preferences, self._open = preferences, open_book
        self.setToolTipsVisible(True)
        self.aboutToShow.connect(self._fill)
        self._fill()

    def _fill(self) -> None:
        self.clear()
        books = self._preferences.recent_books
        for number, path in enumerate(books, start=1):
            name = path.stem.replace("&", "&&")
            entry = self.addAction(f"&{number} {name}", partial(self._open, path))
            entry.setToolTip(str(path))
        if not books:
            self.addAction(_("No book was open yet")).setEnabled(False)
            return
        self.addSeparator()
        self.addAction(_("&Clear this list"), self._forget)

    def _forget(self) -> None:
        self._preferences.forget_recent()
