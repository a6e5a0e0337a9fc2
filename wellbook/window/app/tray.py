"""A reminder on the desktop: from the open window, or from a program that ends after it.

The desktop's own service is asked first; an icon in the tray serves where there is none.
"""

import sys

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication, QSystemTrayIcon

from wellbook.support import paths
from wellbook.support.notifications import notify
from wellbook.support.translation import _

SHOWN = 12_000  # milliseconds


class Tray(QObject):
    """Shows a message from an icon that is there only as long as the message."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._icon = QSystemTrayIcon(_icon(), self)
        self._icon.setToolTip(_("Wellbook: a water test is due"))
        self.said = ""

    def tell(self, text: str, milliseconds: int = SHOWN, *, title: str = "") -> bool:
        """Show a message; returns whether this desktop can."""
        self.said = text
        title = title or _("A water test is due")
        if notify(title, text):
            return True
        if not QSystemTrayIcon.isSystemTrayAvailable() or not QSystemTrayIcon.supportsMessages():
            return False
        self._icon.show()
        self._icon.showMessage(title, text, _icon(), milliseconds)
        QTimer.singleShot(milliseconds, self._icon.hide)
        return True


def tell_and_end(text: str, milliseconds: int = SHOWN, *, title: str = "") -> bool:
    """Show a message without a window, and return when it is gone; whether this desktop can."""
    app = QApplication.instance() or QApplication(sys.argv[:1])
    app.setApplicationName("wellbook")
    if isinstance(app, QApplication):
        app.setApplicationDisplayName("Wellbook")
        app.setQuitOnLastWindowClosed(False)
    tray = Tray()
    if not tray.tell(text, milliseconds, title=title):
        return False
    QTimer.singleShot(milliseconds, app.quit)
    app.exec()
    return True


def _icon() -> QIcon:
    return QIcon(str(paths.resources() / "icons" / "wellbook.svg"))
