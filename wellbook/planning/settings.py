"""What the household chose, and what follows from its place where it chose nothing."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import TYPE_CHECKING

from wellbook.planning.place.places import Place, known_places, place_of
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import LANGUAGES, _, language_now, read_language, using
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import NEAR_SHARE
from wellbook.water.values.seasons import NORTHERN, Scheme, read_scheme
from wellbook.water.values.unit_choices import USUAL, UnitChoice, in_units, read_unit_choices

if TYPE_CHECKING:
    from wellbook.book.rows import Well
    from wellbook.water.sampling.lab_calendar import Calendar

Settings = Mapping[str, str]  # by key, as the book keeps them

HOME = "US"  # whose sets a new book starts with
INTERVAL = 14  # calendar months, so that successive tests walk round the seasons
PAPERS = ("letter", "a4")
DATES = ("month-first", "day-first", "asked")
DECIMALS = ("point", "comma")
WELL_KINDS = ("drilled", "driven", "dug", "spring")


def place(settings: Settings) -> Place:
    """The place that the household named; without one the place that a new book starts with."""
    country = settings.get("country", "") or HOME
    return place_of(known_places(), country, settings.get("subdivision", ""))


def _of_place(settings: Settings, what: str) -> str:
    """What the place that was named suggests; empty where none was."""
    return str(getattr(place(settings), what)) if settings.get("country", "") else ""


def sets(settings: Settings, catalogue: Catalogue) -> tuple[str, ...]:
    """Keys of the limit sets that the household compares with, in the catalogue's order.

    Where it chose none, those of its place hold, its own authority's first; without a place, those
    of a new book.
    """
    chosen = settings.get("limit_sets", "").split()
    if not chosen and settings.get("country", ""):
        return tuple(key for key in place(settings).limit_sets if key in catalogue.sets)
    if chosen:
        return tuple(key for key in catalogue.sets if key in chosen)
    return tuple(key for key, known in catalogue.sets.items() if known.default)


def scheme(settings: Settings) -> Scheme:
    """How the household divides the year."""
    usual = _of_place(settings, "seasons") or NORTHERN.key
    return read_scheme(settings.get("seasons", "") or usual)


def interval(settings: Settings) -> int:
    """Months between tests where no plan says otherwise."""
    return int(settings.get("interval", "") or INTERVAL)


def near(settings: Settings) -> Decimal:
    """From which share of a health limit on a reading is called near it."""
    return Decimal(settings.get("near", "") or NEAR_SHARE)


def measured(settings: Settings, catalogue: Catalogue) -> Catalogue:
    """The reference data with what this household calls near a limit."""
    return replace(catalogue, near_share=near(settings))


def yardsticks(settings: Settings, catalogue: Catalogue) -> tuple[Catalogue, tuple[str, ...]]:
    """What results are compared with: the reference data, and the keys of the chosen sets."""
    return measured(settings, catalogue), sets(settings, catalogue)


def units(settings: Settings) -> str:
    """Key of the choice of units in which figures are shown."""
    return settings.get("units", "") or _of_place(settings, "units") or USUAL


def unit_choice(key: str, catalogue: Catalogue) -> UnitChoice:
    """A choice of units.

    Raises:
        Fault: There is no such choice.
    """
    if key == USUAL:
        return UnitChoice(USUAL, "", {})
    choices = read_unit_choices(paths.resources() / "unit_choices.csv", catalogue)
    if key not in choices:
        raise Fault(
            _("There are no units {units}; there are: {names}.").format(
                units=key, names=", ".join([USUAL, *choices])
            )
        )
    return choices[key]


def unit_choices(catalogue: Catalogue) -> tuple[UnitChoice, ...]:
    """Every choice of units but the usual one."""
    return tuple(read_unit_choices(paths.resources() / "unit_choices.csv", catalogue).values())


def shown(settings: Settings, catalogue: Catalogue) -> Catalogue:
    """The reference data with figures in the household's units; a choice nobody knows is none."""
    try:
        choice = unit_choice(units(settings), catalogue)
    except Fault:
        return catalogue
    return in_units(catalogue, choice) if choice.units else catalogue


def language(settings: Settings) -> str:
    """Language of what is printed for this book; empty where neither it nor its place says."""
    said = settings.get("language", "") or _of_place(settings, "language")
    return said if said in LANGUAGES else ""


@contextmanager
def printing(settings: Settings) -> Iterator[None]:
    """Say everything in the language that was chosen for what is printed, if one was."""
    chosen = settings.get("language", "")
    if chosen not in LANGUAGES or chosen == language_now().key:
        yield
        return
    with using(read_language(paths.resources() / "languages", chosen)):
        yield


def paper(settings: Settings, usual: str = PAPERS[0]) -> str:
    """On which paper is printed; the usual one where neither the book nor its place says."""
    said = settings.get("paper", "") or _of_place(settings, "paper")
    return said if said in PAPERS else usual


def currency(settings: Settings) -> str:
    """In which money costs are entered at first; empty where neither book nor place says."""
    return settings.get("currency", "") or _of_place(settings, "currency")


def dates(settings: Settings) -> str:
    """What labs put first in dates: `month-first`, `day-first`, or `asked`; empty if not known."""
    return settings.get("dates", "") or _of_place(settings, "dates")


def decimal(settings: Settings) -> str:
    """What stands before decimals in lab files: `point` or `comma`; empty if not known."""
    return settings.get("decimal", "") or _of_place(settings, "decimal")


def of_files(kept: Callable[[str], str]) -> dict[str, str]:
    """What is known of the files of the household's labs, by the names of `intake.Told`.

    Args:
        kept: Gives what the book keeps under a key.
    """
    told = {key: kept(key) for key in ("country", "subdivision", "dates", "decimal")}
    return {"country": told["country"], "dates": told["dates"], "decimal": decimal(told)}


def ask(settings: Settings) -> str:
    """Who answers questions on health there, to be said; empty if not known."""
    return settings.get("ask", "") or _of_place(settings, "ask")


def emergency(settings: Settings) -> str:
    """The number to call in an emergency; empty if not known."""
    return settings.get("emergency", "") or _of_place(settings, "emergency")


def calendar(settings: Settings, today: date) -> "Calendar":
    """The household's way to its lab in the years from `today` on."""
    from wellbook.planning.lab.lab_route import calendar_of, read_habits

    return calendar_of(read_habits(settings), today)


def well_kind(settings: Settings, construction: Mapping[str, str]) -> str:
    """How a well was made: what its log says, else what was chosen; empty if neither does."""
    said = construction.get("kind", "").casefold()
    found = next((kind for kind in WELL_KINDS if kind in said), "")
    return found or settings.get("well_kind", "")


def wells_described(wells: "Sequence[Well]", kind: str) -> Iterator[tuple[int, dict[str, str]]]:
    """The only well's log with another kind of well in it, where it tells one; by its number."""
    if kind and len(wells) == 1 and "kind" in wells[0].construction:
        yield wells[0].id, {**wells[0].construction, "kind": kind}
