"""What a household can choose: `SETTINGS` is the one table of it.

It says what each is called in the commands, under which name the book keeps it, how it is read from
what was typed, and what holds now.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import partial

from wellbook.planning.frequencies import GROUNDS
from wellbook.planning.settings import (
    DATES,
    DECIMALS,
    HOME,
    PAPERS,
    WELL_KINDS,
    Settings,
    ask,
    currency,
    dates,
    decimal,
    emergency,
    interval,
    language,
    near,
    paper,
    scheme,
    sets,
    units,
)
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import LANGUAGES, _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.seasons import read_scheme
from wellbook.water.values.unit_choices import USUAL, read_unit_choices

Value = str | tuple[str, ...]

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
_LONGEST_WORDS = 120  # characters; a line of a caution
_CURRENCY = re.compile(r"[A-Z]{3}")


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
    if len(code) != len(HOME) or states_of(code) is None:
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


def _plain(key: str, text: str, *_unused: object) -> str:
    said = " ".join(text.split())
    if len(said) > _LONGEST_WORDS:
        raise Fault(
            _("{key}: write it in at most {n} characters.").format(key=key, n=_LONGEST_WORDS)
        )
    return said


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
    Setting("ground", "ground", lambda s, _c: tuple(s.get("ground", "").split()),
            lambda text, _s, _c: _words({key: key for key in GROUNDS}, "ground", text),
            follows=False),
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
    Setting("decimal", "decimal", lambda s, _c: decimal(s), partial(_word, DECIMALS, "decimal")),
    Setting("ask", "ask", lambda s, _c: ask(s), partial(_plain, "ask")),
    Setting("emergency", "emergency", lambda s, _c: emergency(s), partial(_plain, "emergency")),
)  # fmt: skip
