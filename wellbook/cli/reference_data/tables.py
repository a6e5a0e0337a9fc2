"""What may be wrong in parameters, names, places and the tables of plain rows."""

from collections.abc import Iterable, Iterator, Mapping
from functools import partial
from pathlib import Path
from typing import Any
from zoneinfo import available_timezones

from wellbook.cli.reference_data.faults import Fault, twice
from wellbook.planning.place.places import ELSEWHERE, read_places
from wellbook.planning.place.zones import read_zones
from wellbook.support.csv_rows import read_rows
from wellbook.support.translation import ENGLISH, LANGUAGES
from wellbook.water.cautions.treatment_fit import Bound, Treatment
from wellbook.water.sampling.exceedances import Exceedance
from wellbook.water.sampling.sale_rules import SaleRule
from wellbook.water.sampling.upkeep import Task
from wellbook.water.units.conversion import understand
from wellbook.water.values.bottles import Bottle
from wellbook.water.values.catalogue import Catalogue, Panel, members
from wellbook.water.values.limits import SumRule
from wellbook.water.values.parameters import Parameter, PrintedNames
from wellbook.water.values.seasons import read_scheme
from wellbook.water.values.signs import normal_name
from wellbook.water.values.triggers import OF_SYMPTOMS, Trigger
from wellbook.water.values.unit_choices import read_unit_choices

FAMILIES = frozenset(
    {
        *("bacteria", "nutrients", "metals", "minerals", "general", "organics"),
        *("pfas", "radioactivity", "gases", "corrosion"),
    }
)
# What each table of rows with a source is read into, and which of its fields hold parameters.
_TABLES: dict[str, tuple[type, str, tuple[str, ...], Mapping[str, str]]] = {
    "panels.csv": (Panel, "key", ("core", "also"), {}),
    "triggers.csv": (Trigger, "key", ("core", "also"), {}),
    "symptoms.csv": (Trigger, "key", ("core", "also"), OF_SYMPTOMS),
    "bottles.csv": (Bottle, "key", ("serves",), {}),
    "exceedances.csv": (Exceedance, "key", ("parameters", "companions"), {}),
    "treatments.csv": (Treatment, "key", ("parameters",), {}),
    "pretreatment.csv": (Bound, "", (), {}),
    "upkeep.csv": (Task, "key", (), {}),
    "sale_rules.csv": (SaleRule, "key", ("parameters",), {}),
    "lab_names.csv": (PrintedNames, "", ("parameter",), {}),
    "sums.csv": (SumRule, "key", (), {}),
}


def parameters(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    """Parameters with a family, a unit, a sentence and a source, each name once."""
    rows = list(read_rows(folder / "parameters.csv", Parameter))
    say = partial(Fault, "parameters.csv")
    yield from twice("parameters.csv", (row.key for row in rows))
    yield from twice("parameters.csv", (row.cas for row in rows))
    owners: dict[str, str] = {}
    for number, row in enumerate(rows, start=2):
        if row.family not in FAMILIES:
            yield say(number, f"{row.family!r} is no family")
        if row.scale not in {"number", "presence"}:
            yield say(number, f"{row.scale!r} is no scale")
        if understand(row.unit) is None:
            yield say(number, f"{row.unit!r} is no unit")
        if row.cas and not _cas_holds(row.cas):
            yield say(number, f"the check digit of {row.cas} is wrong")
        if not row.why.endswith(".") or not row.source:
            yield say(number, "it says no sentence on why, or no source")
        for name in map(normal_name, (row.name, *row.aliases)):
            if not name or owners.setdefault(name, row.key) != row.key:
                yield say(number, f"a name belongs to {owners.get(name)} or is empty: {name!r}")


def _cas_holds(number: str) -> bool:
    """The last digit is the sum of each digit times its place, modulo 10 (rule of the registry)."""
    digits = number.replace("-", "")
    if not digits.isdecimal():
        return False
    total = sum(place * int(digit) for place, digit in enumerate(reversed(digits[:-1]), start=1))
    return total % 10 == int(digits[-1])


def tables(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """Tables of plain rows: a key once, a source in each, parameters that exist."""
    for name, (kind, key, fields, same) in _TABLES.items():
        rows: list[Any] = list(read_rows(folder / name, kind, same))
        if key:
            yield from twice(name, (getattr(row, key) for row in rows))
        for number, row in enumerate(rows, start=2):
            if not row.source:
                yield Fault(name, number, "it says no source")
            words = [word for field in fields for word in _words(getattr(row, field))]
            unknown = set(members(words, catalogue.parameters)) - catalogue.parameters.keys()
            for word in sorted(unknown):
                yield Fault(name, number, f"there is no parameter {word}")


def _words(value: str | Iterable[str]) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(value)


def names(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """A name means one parameter in all languages; each language names every parameter."""
    owners = {
        normal_name(name): row.key
        for row in catalogue.parameters.values()
        for name in (row.name, *row.aliases)
    }
    called: dict[str, set[str]] = {}
    for number, row in enumerate(read_rows(folder / "lab_names.csv", PrintedNames), start=2):
        called.setdefault(row.language, set()).add(row.parameter)
        for name in row.names:
            if owners.setdefault(normal_name(name), row.parameter) != row.parameter:
                says = f"{name!r} means {owners[normal_name(name)]}, too"
                yield Fault("lab_names.csv", number, says)
    for language, known in called.items():
        if language != ENGLISH.key:
            for key in catalogue.parameters.keys() - known:
                yield Fault("lab_names.csv", 0, f"lab_names.csv: {key} has no name in {language}")


def zones(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    """Time zones that exist, one for each country that has a row in `places.csv`."""
    known = read_zones(folder)
    for zone in sorted(set(known.values()) - available_timezones()):
        yield Fault("time_zones.csv", 0, f"time_zones.csv: there is no time zone {zone}")
    countries = {code.partition("-")[0] for code in read_places(folder)} - {ELSEWHERE}
    for code in sorted(countries - known.keys()):
        yield Fault("time_zones.csv", 0, f"time_zones.csv: {code} has no time zone")


def places(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """Places with sets in force, panels and words that exist, and a source."""
    choices = read_unit_choices(folder / "unit_choices.csv", catalogue)
    for code, place in read_places(folder).items():
        say = partial(Fault, "places.csv", 0)
        for key in place.limit_sets:
            known = catalogue.sets.get(key)
            if known is None or known.standing != "in force":
                yield say(f"places.csv, {code}: {key} is no set in force")
        if place.language not in {"", *LANGUAGES}:
            yield say(f"places.csv, {code}: the language {place.language} is not spoken")
        for panel in place.months.keys() - catalogue.panels.keys():
            yield say(f"places.csv, {code}: there is no panel {panel}")
        words = (
            (place.units, {"", *choices}),
            (place.paper, {"letter", "a4"}),
            (place.dates, {"month-first", "day-first", "asked"}),
            (place.decimal, {"point", "comma"}),
        )
        for word, known_words in words:
            if word not in known_words:
                yield say(f"places.csv, {code}: {word!r} is not known")
        if not (place.limit_sets and place.ask and place.source):
            yield say(f"places.csv, {code}: limit sets, whom to ask or the source is missing")
        try:
            read_scheme(place.seasons)
        except ValueError as problem:
            yield say(f"places.csv, {code}: {place.seasons!r}: {problem}")
