"""The language of the window, and of the buttons that Qt itself names."""

from collections.abc import Sequence

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from wellbook.support import paths
from wellbook.support.translation import LANGUAGES, preferred, read_language, use

SYSTEM = ""  # the choice of whoever leaves it to the desktop


class _OfQt:
    """The translator of Qt's own words that is installed, if any."""

    words: QTranslator | None = None


def choices() -> Sequence[tuple[str, str]]:
    """Every language by its key, each under its own name."""
    return tuple(LANGUAGES.items())


def speak(choice: str) -> None:
    """Say everything in a language from now on; what is shown already is to be made anew."""
    key = choice or preferred(QLocale.system().uiLanguages())
    use(read_language(paths.resources() / "languages", key))
    place = QLocale(choice).language() if choice else QLocale.system().language()
    QLocale.setDefault(QLocale(place, QLocale.system().territory()))
    app = QCoreApplication.instance()
    if app is None:
        return
    if _OfQt.words is not None:
        app.removeTranslator(_OfQt.words)
    words = QTranslator(app)
    folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
    _OfQt.words = words if words.load(f"qtbase_{key}", folder) else None
    if _OfQt.words is not None:
        app.installTranslator(_OfQt.words)
