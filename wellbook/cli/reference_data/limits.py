"""What may be wrong in limits, their sets and sums."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from functools import partial
from itertools import combinations
from pathlib import Path

from wellbook.cli.reference_data.faults import Fault, twice
from wellbook.support.csv_rows import read_rows
from wellbook.water.units.basis import NoConversion
from wellbook.water.units.conversion import convert, understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import PENDING, Limit, LimitSet, Rule, SumRule

STANDINGS = frozenset({"in force", "pending", "proposed", "classes"})


def sets(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    """Sets with a word for their standing, with limits, a note, an issuer and a language."""
    rows = list(read_rows(folder / "limit_sets.csv", LimitSet))
    say = partial(Fault, "limit_sets.csv")
    yield from twice("limit_sets.csv", (row.key for row in rows))
    used = {limit.set for limit in read_rows(folder / "limits.csv", Limit)}
    for number, row in enumerate(rows, start=2):
        if row.standing not in STANDINGS:
            yield say(number, f"{row.standing!r} is no standing")
        if row.default and row.standing != "in force":
            yield say(number, "only a set in force can be on by default")
        if row.key not in used:
            yield say(number, f"{row.key} has no limit")
        if row.key.endswith(PENDING) is not (row.standing == "pending"):
            yield say(number, f"a pending set, and no other, ends with {PENDING}")
        if not (row.note and row.issuer and row.language):
            yield say(number, "its note, its issuer or its language is missing")


def limits(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """Limits with a figure, a unit that converts, a source and days, none twice on one day."""
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
    kept, read = limit.where.split(), limit.text.split()
    if not limit.source:
        yield "it cites no rule"
    for address in (*kept, *read):
        host = address.partition("://")[2].partition("/")[0]
        if not address.startswith(("https://", "http://")) or host.endswith(".") or "." not in host:
            yield f"{address!r} is no address"
        elif address in kept and not known.issues(address):
            yield f"{address} is not the authority's; a copy stands in the column text"
    if limit.checked and not read:
        yield "it was read, but not said where"
    if limit.checked is (limit.read is None):
        yield "what was read, and nothing else, has the day on which it was"
    if any(known.issues(address) and address not in kept for address in read):
        yield "what was read at the authority is an address of the authority, too"


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


def steps(folder: Path, _catalogue: Catalogue) -> Iterator[Fault]:
    """A limit to come stands twice: in the set it comes to and, until it starts, as adopted."""
    rows = list(enumerate(read_rows(folder / "limits.csv", Limit), start=2))
    known = max((limit.read for _number, limit in rows if limit.read), default=date.min)
    of: dict[tuple[str, ...], list[Limit]] = {}
    for _number, limit in rows:
        of.setdefault(_step(limit, limit.set), []).append(limit)
    for number, limit in rows:
        start = limit.period.start
        if limit.set.endswith(PENDING):
            coming = of.get(_step(limit, limit.set.removesuffix(PENDING)), ())
            if start is None or not any(_follows(limit, other) for other in coming):
                yield Fault("limits.csv", number, "no limit of its set starts when it ends")
        elif start and start.first > known:
            adopted = of.get(_step(limit, f"{limit.set}{PENDING}"), ())
            if not any(_follows(other, limit) for other in adopted):
                says = f"it starts later, but {limit.set}{PENDING} does not have it until then"
                yield Fault("limits.csv", number, says)


def _step(limit: Limit, of: str) -> tuple[str, ...]:
    return (of, limit.parameter, limit.kind, limit.condition, f"{limit.high} {limit.unit}")


def _follows(one: Limit, other: Limit) -> bool:
    end, start = one.period.end, other.period.start
    return bool(end and start and end.last + timedelta(days=1) == start.first)


def sums(folder: Path, catalogue: Catalogue) -> Iterator[Fault]:
    """Sums of parameters that exist and can be told in the unit of the sum."""
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
