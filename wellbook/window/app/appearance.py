"""How the window looks and speaks: page, size of text, language, full screen; changed at once."""

from typing import TYPE_CHECKING

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from wellbook.window.common.languages import speak
from wellbook.window.common.preferences import ZOOMS, Preferences
from wellbook.window.common.theme import apply_theme

if TYPE_CHECKING:
    from wellbook.window.app.main_window import Frame


class _System:
    """The font that the system is set to, from before the first change of its size."""

    font: QFont | None = None


def _zoom(app: QApplication, percent: int) -> None:
    """Give text a size in percent of the system's."""
    if _System.font is None and percent == 100:  # noqa: PLR2004  as it is
        return
    _System.font = _System.font or QFont(app.font())
    font = QFont(_System.font)
    if font.pointSizeF() > 0:
        font.setPointSizeF(font.pointSizeF() * percent / 100)
    else:
        font.setPixelSize(round(font.pixelSize() * percent / 100))
    app.setFont(font)


class Appearance:
    """Changes how a window looks and speaks; what it shows is made anew, in the same place."""

    def __init__(self, frame: "Frame", preferences: Preferences) -> None:
        self._frame, self._preferences = frame, preferences
        self._language = preferences.language
        _dress(preferences)

    def zoom(self, steps: int) -> None:
        """Make text larger or smaller by a step; 0 gives it the system's size."""
        shown = ZOOMS.index(self._preferences.zoom) + steps
        wanted = ZOOMS[min(max(shown, 0), len(ZOOMS) - 1)] if steps else 100
        if wanted != self._preferences.zoom:
            self._preferences.zoom = wanted
            _dress(self._preferences)
            self._frame.make_anew()

    def full_screen(self) -> None:
        """Take the whole screen, or give it back."""
        frame = self._frame
        if frame.isFullScreen():
            frame.showNormal()
        else:
            frame.showFullScreen()

    def settle(self) -> None:
        """Look and speak as the preferences now say."""
        _dress(self._preferences)
        if self._preferences.language != self._language:
            self._language = self._preferences.language
            speak(self._language)
            self._frame.speak_anew()
        elif self._frame.view is not None:
            self._frame.view.refresh()


def _dress(preferences: Preferences) -> None:
    app = QApplication.instance()
    if isinstance(app, QApplication):
        apply_theme(app, preferences.page)
        _zoom(app, preferences.zoom)
