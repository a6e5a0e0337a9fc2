"""What the household chose: limit sets, seasons, interval, the way to the lab."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING

from wellbook.planning.places import known_places, place_of
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.seasons import NORTHERN, Scheme, read_scheme

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

Settings = Mapping[str, str]  # by key, as the book keeps them

_HOME = "US"  # whose sets a new book starts with
INTERVAL = 14  # calendar months, so that successive tests walk round the seasons


def sets(settings: Settings, catalogue: Catalogue) -> tuple[str, ...]:
    """Keys of the limit sets that the household compares with, in the catalogue's order.

    Where it chose none, those of its country hold; without a country, those of a new book.
    """
    chosen = settings.get("limit_sets", "").split() or _sets_of_place(settings)
    if chosen:
        return tuple(key for key in catalogue.sets if key in chosen)
    return tuple(key for key, known in catalogue.sets.items() if known.default)


def _sets_of_place(settings: Settings) -> Sequence[str]:
    country, state = settings.get("country", "") or _HOME, settings.get("subdivision", "")
    if country == _HOME and not state:
        return ()
    return place_of(known_places(), country, state).limit_sets


def scheme(settings: Settings) -> Scheme:
    """How the household divides the year."""
    usual = NORTHERN.key
    if country := settings.get("country", ""):
        usual = place_of(known_places(), country, settings.get("subdivision", "")).seasons
    return read_scheme(settings.get("seasons", usual))


def interval(settings: Settings) -> int:
    """Months between tests where no plan says otherwise."""
    return int(settings.get("interval", str(INTERVAL)))


def calendar(settings: Settings, today: date) -> "Calendar":
    """The household's way to its lab in the years from `today` on."""
    from wellbook.planning.lab_route import calendar_of, read_habits

    return calendar_of(read_habits(settings), today)
