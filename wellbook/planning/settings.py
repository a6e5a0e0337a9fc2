"""What the household chose, and what follows from its place where it chose nothing.

`SETTINGS` is the one table of it: what each is called in the commands, under which name the book
keeps it, how it is read from what was typed, and what holds now.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal, InvalidOperation
from functools import partial
from typing import TYPE_CHECKING

from wellbook.planning.places import Place, known_places, place_of
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
Value = str | tuple[str, ...]

_HOME = "US"  # whose sets a new book starts with
INTERVAL = 14  # calendar months, so that successive tests walk round the seasons
PAPERS = ("letter", "a4")
DATES = ("month-first", "day-first", "asked")
WELL_KINDS = ("drilled", "driven", "dug", "spring")
# What people are called in the commands, and in the book.
PEOPLE = {
    "infant": "infant",
    "pregnant": "pregnancy",
    "child": "child",
    "low-sodium": "diet",
    "immune": "immune",
    "dialysis": "dialysis",
    "animals": "animals",
}
CHOSEN, OF_PLACE, OF_ALL = "chosen", "from the place", "usual"
_NEAR_BOUNDS = (Decimal("0.1"), Decimal("0.95"))  # ours
_LONGEST = 240  # months, as a plan allows
_CURRENCY = re.compile(r"[A-Z]{3}")


def place(settings: Settings) -> Place:
    """The place that the household named; without one the place that a new book starts with."""
    country = settings.get("country", "") or _HOME
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


@dataclass(frozen=True, slots=True)
class Setting:
    """One thing that a household can choose.

    Attributes:
        key: What it is called in the commands.
        kept: What it is called in the book.
        now: What holds now.
        read: From what was typed to what is kept; the second argument is what is kept already.
            Raises `Fault` with what is known.
        follows: Whether a place suggests it.
    """

    key: str
    kept: str
    now: Callable[[Settings, Catalogue], Value]
    read: Callable[[str, Settings, Catalogue], str]
    follows: bool = True

    def origin(self, settings: Settings, catalogue: Catalogue) -> str:
        """Where it comes from: `chosen`, `from the place`, or `usual`."""
        if settings.get(self.kept, ""):
            return CHOSEN
        is_told = self.follows and settings.get("country", "") and self.now(settings, catalogue)
        return OF_PLACE if is_told else OF_ALL


def changed(
    settings: Settings, catalogue: Catalogue, changes: Iterable[tuple[str, str]]
) -> dict[str, str]:
    """What is to be written down, by the names of the book; nothing typed follows the place again.

    Args:
        settings: What is kept.
        catalogue: The reference data.
        changes: Keys and what was typed for them; a country is read before its states.

    Raises:
        Fault: There is no such key, or what was typed can't be read; the sentence names what is.
    """
    known = {one.key: one for one in SETTINGS}
    order = list(known)
    typed = dict(changes)
    for key in typed:
        if key not in known:
            raise Fault(
                _("There is no setting {key}. There are: {known}.").format(
                    key=key, known=", ".join(known)
                )
            )
    kept = dict(settings)
    if typed.get("country", "") and "state" not in typed:
        typed |= _without_state(typed["country"], kept)
    for key in sorted(typed, key=order.index):
        text = typed[key].strip()
        kept[known[key].kept] = known[key].read(text, kept, catalogue) if text else ""
    return {one: value for one, value in kept.items() if value != settings.get(one, "")}


def _without_state(country: str, kept: Settings) -> dict[str, str]:
    """A state of another country is let go."""
    is_same = country.strip().upper() == kept.get("country", "").upper()
    return {} if is_same or not kept.get("subdivision", "") else {"state": ""}


def _word(words: Iterable[str], key: str, text: str, *_unused: object) -> str:
    known = tuple(words)
    found = next((word for word in known if word.casefold() == text.casefold()), None)
    if found is None:
        raise _unknown(key, text, known)
    return found


def _words(known: Mapping[str, str], key: str, text: str) -> str:
    """Words with commas or blanks between, as they are kept."""
    words = text.replace(",", " ").split()
    strange = [word for word in words if word not in known]
    if strange:
        raise _unknown(key, ", ".join(strange), sorted(known))
    return " ".join(dict.fromkeys(known[word] for word in words))


def _unknown(key: str, text: str, known: Iterable[str]) -> Fault:
    return Fault(
        _("{key}: {text} is not known. Known are: {known}.").format(
            key=key, text=text, known=", ".join(known)
        )
    )


def _country(text: str, *_unused: object) -> str:
    from wellbook.planning.lab.lab_route import states_of

    code = text.upper()
    if len(code) != len(_HOME) or states_of(code) is None:
        raise Fault(
            _(
                "country: {text} is not known. Write the two letters of ISO 3166, such as US, CA, "
                "MX, DE or AU."
            ).format(text=text)
        )
    return code


def _state(text: str, settings: Settings, _unused: Catalogue) -> str:
    from wellbook.planning.lab.lab_route import states_of

    country = settings.get("country", "")
    if not country:
        raise Fault(_("state: say the country first, such as country=US."))
    code = text.upper().removeprefix(f"{country}-")
    known = states_of(country) or ()
    if known and code not in known:
        raise _unknown(f"state ({country})", text, known)
    if not known:
        raise Fault(
            _("state: nothing depends on the state in {country}: leave it empty.").format(
                country=country
            )
        )
    return code


def _limit_sets(text: str, _unused: Settings, catalogue: Catalogue) -> str:
    known = {key: key for key, one in catalogue.sets.items() if one.standing == "in force"}
    return _words(known, "limit-sets", text)


def _seasons(text: str, *_unused: object) -> str:
    try:
        return read_scheme(text.replace(",", " ")).key
    except ValueError as error:
        raise Fault(f"seasons: {error}") from error


def _interval(text: str, *_unused: object) -> str:
    if not text.isdecimal() or not 1 <= int(text) <= _LONGEST:
        raise Fault(
            _("interval: {text} is not known. Write a number of months from 1 to 240.").format(
                text=text
            )
        )
    return str(int(text))


def _near(text: str, *_unused: object) -> str:
    figure = text.removesuffix("%").strip().replace(",", ".")
    try:
        share = Decimal(figure)
    except InvalidOperation:
        share = Decimal(0)
    if share.is_finite() and (share > 1 or text.endswith("%")):
        share /= 100
    least, most = _NEAR_BOUNDS
    if not share.is_finite() or not least <= share <= most:
        raise Fault(
            _(
                "near: {text} is not known. Write the share of a limit from which on a result "
                "counts as close to it, from 10 % to 95 %, such as 0.8 or 80 %."
            ).format(text=text)
        )
    return f"{share.normalize():f}"


def _money(text: str, *_unused: object) -> str:
    code = text.upper()
    if not _CURRENCY.fullmatch(code):
        raise Fault(
            _(
                "currency: {text} is not known. Write the three letters of ISO 4217, such as USD, "
                "CAD, EUR or AUD."
            ).format(text=text)
        )
    return code


def _unit_key(text: str, _unused: Settings, catalogue: Catalogue) -> str:
    choices = read_unit_choices(paths.resources() / "unit_choices.csv", catalogue)
    return _word((USUAL, *choices), "units", text)


def _people(settings: Settings) -> tuple[str, ...]:
    ticked = settings.get("people", "").split()
    return tuple(word for word, key in PEOPLE.items() if key in ticked)


SETTINGS = (
    Setting("country", "country", lambda s, _c: s.get("country", ""), _country, follows=False),
    Setting("state", "subdivision", lambda s, _c: s.get("subdivision", ""), _state, follows=False),
    Setting("well-kind", "well_kind", lambda s, _c: s.get("well_kind", ""),
            partial(_word, WELL_KINDS, "well-kind"), follows=False),
    Setting("people", "people", lambda s, _c: _people(s),
            lambda text, _s, _c: _words(PEOPLE, "people", text), follows=False),
    Setting("limit-sets", "limit_sets", sets, _limit_sets),
    Setting("seasons", "seasons", lambda s, _c: scheme(s).key, _seasons),
    Setting("interval", "interval", lambda s, _c: str(interval(s)), _interval, follows=False),
    Setting("units", "units", lambda s, _c: units(s), _unit_key),
    Setting("near", "near", lambda s, _c: f"{near(s):f}", _near, follows=False),
    Setting("language", "language", lambda s, _c: language(s),
            partial(_word, LANGUAGES, "language")),
    Setting("paper", "paper", lambda s, _c: paper(s), partial(_word, PAPERS, "paper")),
    Setting("currency", "currency", lambda s, _c: currency(s), _money),
    Setting("dates", "dates", lambda s, _c: dates(s), partial(_word, DATES, "dates")),
)  # fmt: skip
