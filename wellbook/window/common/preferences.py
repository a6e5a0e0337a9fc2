"""What belongs to the person at the screen and not to the book."""

from dataclasses import dataclass, fields
from pathlib import Path

from PySide6.QtCore import QByteArray, QLocale, QSettings

from wellbook.support.translation import LANGUAGES

PAGES = ("system", "light", "dark", "contrast", "dark contrast")
ZOOMS = (80, 90, 100, 110, 125, 150, 175, 200)  # percent of the system's size of text
_MOST_RECENT = 8
_PLACE = ("page", "parameter")


def paper_of_system() -> str:
    """The paper of the person's own country: `a4` where measures are metric, else `letter`."""
    metric = QLocale().measurementSystem() == QLocale.MeasurementSystem.MetricSystem
    return "a4" if metric else "letter"


@dataclass(frozen=True, slots=True)
class PacketHabits:
    """How a person last wrote a packet, empty where none was written.

    What tells who people are, personal facts and original reports, is asked anew each time.

    Attributes:
        reader: For whom.
        paper: On which paper.
        language: Tag of the language.
        units: Key of the choice of units.
    """

    reader: str = ""
    paper: str = ""
    language: str = ""
    units: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a book a person was.

    Attributes:
        page: Key of the page; empty for the first one.
        point: Number of the sampling point; 0 for the first one.
        parameter: Key of the parameter that was shown; empty for none.
    """

    page: str = ""
    point: int = 0
    parameter: str = ""


class Preferences:
    """A typed view of the settings file, with a default for everything."""

    def __init__(self, store: QSettings) -> None:
        self._store = store

    @classmethod
    def of_this_person(cls) -> "Preferences":
        """The preferences in the person's own settings folder."""
        kind, scope = QSettings.Format.IniFormat, QSettings.Scope.UserScope
        return cls(QSettings(kind, scope, "wellbook", "wellbook"))

    @property
    def page(self) -> str:
        """One of `PAGES`: as the system is set, light, dark, or one of these in high contrast."""
        found = str(self._store.value("page", PAGES[0]))
        return found if found in PAGES else PAGES[0]

    @page.setter
    def page(self, choice: str) -> None:
        self._store.setValue("page", choice)

    @property
    def language(self) -> str:
        """Tag of the language of the window; empty for that of the system."""
        found = str(self._store.value("language", ""))
        return found if found in LANGUAGES else ""

    @language.setter
    def language(self, choice: str) -> None:
        self._store.setValue("language", choice)

    @property
    def last_book(self) -> Path | None:
        """The book that was open last, if it is still there."""
        text = str(self._store.value("last_book", ""))
        return Path(text) if text and Path(text).is_file() else None

    @last_book.setter
    def last_book(self, path: Path | None) -> None:
        self._store.setValue("last_book", str(path) if path else "")
        if path is not None:
            books = [str(path.absolute()), *map(str, self.recent_books)]
            self._store.setValue("recent_books", list(dict.fromkeys(books))[:_MOST_RECENT])

    @property
    def recent_books(self) -> tuple[Path, ...]:
        """The books that were open last and are still there, the latest first."""
        found = self._store.value("recent_books", [])
        books = found if isinstance(found, list) else [found] if found else []
        return tuple(path for path in map(Path, map(str, books)) if path.is_file())

    def forget_recent(self) -> None:
        """Name no book that was open before."""
        self._store.setValue("recent_books", [])

    @property
    def place(self) -> Place:
        """Where the person was in the book that was open last."""
        page, parameter = (str(self._store.value(f"place_{one}", "")) for one in _PLACE)
        point = str(self._store.value("place_point", "0"))
        return Place(page, int(point) if point.isdecimal() else 0, parameter)

    @place.setter
    def place(self, place: Place) -> None:
        self._store.setValue("place_page", place.page)
        self._store.setValue("place_parameter", place.parameter)
        self._store.setValue("place_point", str(place.point))

    @property
    def zoom(self) -> int:
        """Size of text in percent of the system's; one of `ZOOMS`."""
        found = str(self._store.value("zoom", "100"))
        return int(found) if found.isdecimal() and int(found) in ZOOMS else 100

    @zoom.setter
    def zoom(self, percent: int) -> None:
        self._store.setValue("zoom", str(percent))

    @property
    def lists(self) -> QSettings:
        """Where lists keep their columns."""
        return self._store

    @property
    def copy_folder(self) -> Path | None:
        """Where copies were last put beside the book's own folder, if it is there now."""
        text = str(self._store.value("copy_folder", ""))
        return Path(text) if text and Path(text).is_dir() else None

    @copy_folder.setter
    def copy_folder(self, path: Path) -> None:
        self._store.setValue("copy_folder", str(path))

    @property
    def packet(self) -> PacketHabits:
        """How a packet was written last."""
        names = [one.name for one in fields(PacketHabits)]
        return PacketHabits(**{n: str(self._store.value(f"packet_{n}", "")) for n in names})

    @packet.setter
    def packet(self, habits: PacketHabits) -> None:
        for one in fields(habits):
            self._store.setValue(f"packet_{one.name}", getattr(habits, one.name))

    @property
    def geometry(self) -> QByteArray:
        """Place and size of the window, empty at first."""
        found = self._store.value("geometry", QByteArray())
        return found if isinstance(found, QByteArray) else QByteArray()

    @geometry.setter
    def geometry(self, place: QByteArray) -> None:
        self._store.setValue("geometry", place)
