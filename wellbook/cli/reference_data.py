"""Check the reference data: `python -m wellbook.cli.reference_data [FOLDER]`, for who keeps it.

It says of each fault file and row, then prints a table of the limit sets; 1 is its exit with a
fault. English like the data's columns: it speaks to people who edit these files.
"""

import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from itertools import combinations
from pathlib import Path
from typing import Any

from wellbook.planning.places import read_places
from wellbook.support import paths
from wellbook.support.csv_rows import read_rows
from wellbook.water.cautions.treatment_fit import Bound, Treatment
from wellbook.water.sampling.exceedances import Exceedance
from wellbook.water.sampling.sale_rules import SaleRule
from wellbook.water.sampling.upkeep import Task
from wellbook.water.units.basis import NoConversion
from wellbook.water.units.conversion import convert, understand
from wellbook.water.values.bottles import Bottle
from wellbook.water.values.catalogue import Catalogue, Panel, members, read_catalogue
from wellbook.water.values.limits import Limit, LimitSet, Rule, SumRule
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
STANDINGS = frozenset({"in force", "pending", "proposed", "classes"})
_PENDING = "-pending"
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


@dataclass(frozen=True, slots=True)
class Fault:
    """What is wrong in a file; row 0 where it is not one row's."""

    file: str
    row: int
    says: str

    def __str__(self) -> str:
        """File, row and what is wrong, in one line."""
        return f"{self.file}, row {self.row}: {self.says}" if self.row else self.says


@dataclass(frozen=True, slots=True)
class SetCount:
    """How well the limits of a set are known.

    Attributes:
        key: The set.
        rows: How many limits it has.
        stored: How many of these were read in a text.
        issued: How many of those at the authority itself.
        whole: Whether it is the whole published list.
    """

    key: str
    rows: int
    stored: int
    issued: int
    whole: bool

    @property
    def memory(self) -> int:
        """How many limits nobody has read again."""
        return self.rows - self.stored


def faults(folder: Path) -> tuple[Fault, ...]:
    """Everything that is wrong in a folder of reference data."""
    try:
        catalogue = read_catalogue(folder)
    except (OSError, ValueError) as problem:
        return (Fault("", 0, str(problem)),)
    found: list[Fault] = []
    for check in _CHECKS:
        try:
            found += check(folder, catalogue)
        except (OSError, ValueError) as problem:
            found.append(Fault("", 0, str(problem)))
    return tuple(dict.fromkeys(found))


def counts(folder: Path) -> tuple[SetCount, ...]:
    """The limit sets in the order of their file, with how many rows each has of which kind."""
    rows = list(read_rows(folder / "limits.csv", Limit))
    return tuple(
        SetCount(
            known.key,
            rows=len(of := [row for row in rows if row.set == known.key]),
            stored=len(read := [row for row in of if row.checked]),
            issued=sum(any(map(known.issues, row.where.split())) for row in read),
            whole=known.whole,
        )
        for known in read_rows(folder / "limit_sets.csv", LimitSet)
    )


def _parameters(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    rows = list(read_rows(folder / "parameters.csv", Parameter))
    say = partial(Fault, "parameters.csv")
    yield from _twice("parameters.csv", (row.key for row in rows))
    yield from _twice("parameters.csv", (row.cas for row in rows))
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


def _sets(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    rows = list(read_rows(folder / "limit_sets.csv", LimitSet))
    say = partial(Fault, "limit_sets.csv")
    yield from _twice("limit_sets.csv", (row.key for row in rows))
    used = {limit.set for limit in read_rows(folder / "limits.csv", Limit)}
    for number, row in enumerate(rows, start=2):
        if row.standing not in STANDINGS:
            yield say(number, f"{row.standing!r} is no standing")
        if row.default and row.standing != "in force":
            yield say(number, "only a set in force can be on by default")
        if row.key not in used:
            yield say(number, f"{row.key} has no limit")
        if not (row.note and row.issuer and row.language):
            yield say(number, "its note, its issuer or its language is missing")


def _limits(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    each = {row.key: row for row in read_rows(folder / "sums.csv", SumRule) if row.how == "each"}
    grouped: dict[tuple[str, ...], list[tuple[int, Limit]]] = {}
    for number, limit in enumerate(read_rows(folder / "limits.csv", Limit), start=2):
        key = (limit.set, limit.parameter, limit.basis, limit.kind, limit.condition)
        grouped.setdefault(key, []).append((number, limit))
        if limit.set not in catalogue.sets:
            yield Fault("limits.csv", number, f"there is no set {limit.set}")
            continue
        if limit.parameter not in catalogue.parameters and limit.parameter not in each:
            yield Fault("limits.csv", number, f"there is no parameter {limit.parameter}")
            continue
        yield from (
            Fault("limits.csv", number, text)
            for text in (
                *_figures(limit, catalogue),
                *_sources(limit, catalogue.sets[limit.set]),
                *_days(limit),
            )
        )
    for rows in grouped.values():
        yield from _at_once(rows)


def _figures(limit: Limit, catalogue: Catalogue) -> Iterator[str]:
    parameter = catalogue.parameters.get(limit.parameter)
    if limit.high is None:
        yield "it has no figure"
        return
    if (limit.low is None) is (limit.rule is Rule.RANGE):
        yield "a range has both ends, a maximum only the upper one"
    elif limit.low is not None and limit.low >= limit.high:
        yield f"the range {limit.low} to {limit.high} is empty"
    if limit.rule is Rule.ABSENT and (
        limit.high != 0 or (parameter and parameter.scale != "presence")
    ):
        yield "absence is a rule for what is told as present or absent, with the figure 0"
    if understand(limit.unit) is None:
        yield f"{limit.unit!r} is no unit"
    elif parameter:
        try:
            convert(
                *(limit.high, limit.unit, limit.basis, parameter.unit, parameter.basis), parameter
            )
        except NoConversion:
            yield f"{limit.unit} {limit.basis} can't be told in {parameter.unit} {parameter.basis}"


def _sources(limit: Limit, known: LimitSet) -> Iterator[str]:
    addresses = limit.where.split()
    if not limit.source:
        yield "it cites no rule"
    for address in addresses:
        host = address.partition("://")[2].partition("/")[0]
        if not address.startswith(("https://", "http://")) or host.endswith(".") or "." not in host:
            yield f"{address!r} is no address"
    if limit.checked and not addresses and "Read in" not in limit.note:
        yield "it was read, but not said where"
    own = [known.issues(address) for address in addresses]
    if any(own) and not own[0]:
        yield "the address of the authority itself comes first"


def _days(limit: Limit) -> Iterator[str]:
    start, end = limit.period
    if start and end and start.first > end.last:
        yield f"it ends ({limit.end}) before it starts ({limit.start})"


def _at_once(rows: Iterable[tuple[int, Limit]]) -> Iterator[Fault]:
    """Rows of one set for the same thing that hold on one day, or are written twice."""
    for (_first, one), (number, other) in combinations(rows, 2):
        if one.high == other.high and (one.start, one.end) == (other.start, other.end):
            yield Fault("limits.csv", number, "the same limit stands above")
        elif not (_ends_before(one, other) or _ends_before(other, one)):
            held = f"{one.start or '…'} to {one.end or '…'}"
            says = f"{other.set} {other.parameter} holds on a day of {held}, too"
            yield Fault("limits.csv", number, says)


def _ends_before(one: Limit, other: Limit) -> bool:
    """Whether all days that the end may mean lie before those that the other's start may mean."""
    end, start = one.period.end, other.period.start
    return end is not None and start is not None and end.last < start.first


def _sums(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    rows = {row.key: row for row in read_rows(folder / "sums.csv", SumRule)}
    for number, row in enumerate(rows.values(), start=2):
        if understand(row.unit) is None:
            yield Fault("sums.csv", number, f"{row.unit!r} is no unit")
        if row.how != "each" and row.key not in catalogue.parameters:
            yield Fault("sums.csv", number, f"there is no parameter {row.key}")
        for term in row.members:
            known = catalogue.parameters.get(term.parameter)
            if known is None and not (row.how == "each" and term.parameter in rows):
                yield Fault("sums.csv", number, f"there is no parameter {term.parameter}")
            elif known is not None:
                try:
                    basis = term.basis or row.basis
                    convert(term.over, known.unit, known.basis, row.unit, basis, known)
                except NoConversion:
                    yield Fault("sums.csv", number, f"{known.key} can't be told in {row.unit}")


def _tables(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """Tables of plain rows: a key once, a source in each, parameters that exist."""
    for name, (kind, key, fields, same) in _TABLES.items():
        rows: list[Any] = list(read_rows(folder / name, kind, same))
        if key:
            yield from _twice(name, (getattr(row, key) for row in rows))
        for number, row in enumerate(rows, start=2):
            if not row.source:
                yield Fault(name, number, "it says no source")
            words = [word for field in fields for word in _words(getattr(row, field))]
            unknown = set(members(words, catalogue.parameters)) - catalogue.parameters.keys()
            for word in sorted(unknown):
                yield Fault(name, number, f"there is no parameter {word}")


def _words(value: str | Iterable[str]) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(value)


def _names(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """A name that labs print means one parameter, whatever the language."""
    owners = {
        normal_name(name): row.key
        for row in catalogue.parameters.values()
        for name in (row.name, *row.aliases)
    }
    for number, row in enumerate(read_rows(folder / "lab_names.csv", PrintedNames), start=2):
        for name in row.names:
            if owners.setdefault(normal_name(name), row.parameter) != row.parameter:
                says = f"{name!r} means {owners[normal_name(name)]}, too"
                yield Fault("lab_names.csv", number, says)


def _places(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    choices = read_unit_choices(folder / "unit_choices.csv", catalogue)
    for place in read_places(folder).values():
        say = partial(Fault, "places.csv", 0)
        for key in place.limit_sets:
            known = catalogue.sets.get(key)
            if known is None or known.standing != "in force":
                yield say(f"places.csv, {place.code}: {key} is no set in force")
        for panel in place.months.keys() - catalogue.panels.keys():
            yield say(f"places.csv, {place.code}: there is no panel {panel}")
        words = (
            (place.units, {"", *choices}),
            (place.paper, {"letter", "a4"}),
            (place.dates, {"month-first", "day-first", "asked"}),
            (place.decimal, {"point", "comma"}),
        )
        for word, known_words in words:
            if word not in known_words:
                yield say(f"places.csv, {place.code}: {word!r} is not known")
        if not (place.limit_sets and place.ask and place.source):
            yield say(f"places.csv, {place.code}: limit sets, whom to ask or the source is missing")
        try:
            read_scheme(place.seasons)
        except ValueError as problem:
            yield say(f"places.csv, {place.code}: {place.seasons!r}: {problem}")


def _twice(name: str, keys: Iterable[str]) -> Iterator[Fault]:
    seen: set[str] = set()
    for number, key in enumerate(keys, start=2):
        if key and key in seen:
            yield Fault(name, number, f"{key} stands above, too")
        seen.add(key)


_CHECKS = (_parameters, _sets, _limits, _sums, _tables, _names, _places)


def table(rows: Iterable[SetCount]) -> str:
    """The counts as text, with a line of totals."""
    counted = list(rows)
    head = ("set", "rows", "stored", "at the issuer", "memory", "list")
    total = Counter[str]()
    lines: list[tuple[str, ...]] = [head]
    for row in counted:
        figures = {"r": row.rows, "s": row.stored, "i": row.issued, "m": row.memory}
        total.update(figures)
        lines.append((row.key, *map(str, figures.values()), "whole" if row.whole else "partial"))
    lines.append((f"{len(counted)} sets", *(str(total[key]) for key in "rsim"), ""))
    wide = [max(len(line[place]) for line in lines) for place in range(len(head))]
    return "\n".join(
        f"{line[0]:<{wide[0]}}  "
        + "  ".join(f"{cell:>{width}}" for cell, width in zip(line[1:], wide[1:], strict=True))
        for line in lines
    )


def main() -> None:
    """Check the folder that is named, or the data that come with Wellbook."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else paths.resources()
    found = faults(folder)
    sys.stdout.writelines(f"{fault}\n" for fault in found)
    if not found:
        sys.stdout.write(f"{table(counts(folder))}\n")
    sys.exit(bool(found))


if __name__ == "__main__":
    main()
