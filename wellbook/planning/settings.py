"""What the household chose: limit sets, seasons, interval, the way to the lab."""

from datetime import date
from typing import TYPE_CHECKING

from wellbook.book.book import Book
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.seasons import NORTHERN, Scheme, read_scheme

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

INTERVAL = 14  # calendar months, so that successive tests walk round the seasons


def sets(book: Book, catalogue: Catalogue) -> tuple[str, ...]:
    """Keys of the limit sets that the household compares with, in the catalogue's order."""
    chosen = book.setting("limit_sets").split()
    if chosen:
        return tuple(key for key in catalogue.sets if key in chosen)
    return tuple(key for key, known in catalogue.sets.items() if known.default)


def scheme(book: Book) -> Scheme:
    """How the household divides the year."""
    return read_scheme(book.setting("seasons", NORTHERN.key))


def interval(book: Book) -> int:
    """Months between tests where no plan says otherwise."""
    return int(book.setting("interval", str(INTERVAL)))


def calendar(book: Book, today: date) -> "Calendar":
    """The household's way to its lab in the years from `today` on."""
    from wellbook.planning.lab_route import calendar_of, read_habits

    return calendar_of(read_habits(book), today)
