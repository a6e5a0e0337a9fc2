"""What the household chose: limit sets, seasons, interval, the way to the lab."""

from collections.abc import Mapping
from datetime import date
from typing import TYPE_CHECKING

from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.seasons import NORTHERN, Scheme, read_scheme

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

Settings = Mapping[str, str]  # by key, as the book keeps them

INTERVAL = 14  # calendar months, so that successive tests walk round the seasons


def sets(settings: Settings, catalogue: Catalogue) -> tuple[str, ...]:
    """Keys of the limit sets that the household compares with, in the catalogue's order."""
    chosen = settings.get("limit_sets", "").split()
    if chosen:
        return tuple(key for key in catalogue.sets if key in chosen)
    return tuple(key for key, known in catalogue.sets.items() if known.default)


def scheme(settings: Settings) -> Scheme:
    """How the household divides the year."""
    return read_scheme(settings.get("seasons", NORTHERN.key))


def interval(settings: Settings) -> int:
    """Months between tests where no plan says otherwise."""
    return int(settings.get("interval", str(INTERVAL)))


def calendar(settings: Settings, today: date) -> "Calendar":
    """The household's way to its lab in the years from `today` on."""
    from wellbook.planning.lab_route import calendar_of, read_habits

    return calendar_of(read_habits(settings), today)
