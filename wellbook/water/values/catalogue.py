"""The reference data, read from its folder of plain CSV files."""

from bisect import bisect_right
from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from pathlib import Path
from typing import TypeVar, cast

from wellbook.support.csv_rows import IntOrZero, read_rows
from wellbook.water.values.bottles import Bottle
from wellbook.water.values.limits import NEAR_SHARE, Limit, LimitSet, SumRule
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.signs import normal_name
from wellbook.water.values.triggers import OF_SYMPTOMS, Trigger

_AT_THE_TAP = timedelta(hours=1)  # what keeps for less is measured there
_LONG = timedelta(days=180)
_FAMILY = "family:"
Found = TypeVar("Found")


@dataclass(frozen=True, slots=True)
class Panel:
    """A group of parameters that is tested together.

    Attributes:
        key: Stable key, e.g. `bacteria`.
        name: Plain name.
        core: Keys of the parameters that must have been tested for the panel to count as done.
        also: Keys of parameters that usually come with it.
        months: Suggested interval in calendar months; 0 for `once`.
        why: One plain sentence.
        source: Who says so, and as of when.
    """

    key: str
    name: str
    core: tuple[str, ...]
    also: tuple[str, ...]
    months: IntOrZero
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class _HoldTime:
    """A row of `hold_times.csv`: parameters, or one family of them, and their hours."""

    parameters: tuple[str, ...]
    hours: Decimal


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Parameters, limits, limit sets, panels, what asks for a test, and how it is drawn.

    Attributes:
        hold_times: From the draw to the start of the test, by parameter.
        sums: What is limited together, as a sum.
        triggers: Symptoms first, then the other happenings.
        bottles: In the order in which they are filled.
        near_share: Share of a health limit from which on a household calls a reading near it.
    """

    parameters: dict[str, Parameter]
    sets: dict[str, LimitSet]
    limits: tuple[Limit, ...]
    sums: tuple[SumRule, ...]
    panels: dict[str, Panel]
    hold_times: dict[str, timedelta]
    triggers: tuple[Trigger, ...]
    bottles: tuple[Bottle, ...]
    _by_name: dict[str, str] = field(repr=False)
    _by_cas: dict[str, str] = field(repr=False)
    _limits_of: dict[str, tuple[Limit, ...]] = field(repr=False)
    near_share: Decimal = NEAR_SHARE
    _turns: dict[str, tuple[int, ...]] = field(
        init=False, repr=False, compare=False, default_factory=dict
    )
    _found: dict[Hashable, object] = field(
        init=False, repr=False, compare=False, default_factory=dict
    )

    def find(self, name: str, cas: str = "") -> Parameter | None:
        """The parameter a lab means by a printed name, or by a CAS number; None if not known."""
        key = self._by_name.get(normal_name(name)) or self._by_cas.get(cas.strip())
        return self.parameters[key] if key else None

    def renamed(self, parameters: dict[str, Parameter]) -> "Catalogue":
        """The same with other names of parameters; names that labs print are still found."""
        names = {normal_name(one.name): key for key, one in parameters.items()}
        return replace(self, parameters=parameters, _by_name=names | self._by_name)

    def limits_of(self, parameter: str) -> tuple[Limit, ...]:
        """Every limit of a parameter, in the order of the file."""
        return self._limits_of.get(parameter, ())

    def stretch(self, parameter: str, on: date) -> int:
        """Which stretch of days a day lies in, between those on which a limit may begin or end.

        Whether a limit of the parameter holds, or is to come, is the same on each day of one.
        """
        if parameter not in self._turns:
            limits = self.limits_of(parameter)
            self._turns[parameter] = tuple(sorted({d for one in limits for d in one.period.turns}))
        return bisect_right(self._turns[parameter], on.toordinal())

    def once(self, what: Hashable, work: Callable[[], Found]) -> Found:
        """What some work on this reference data gives, done once for each `what`."""
        if what not in self._found:
            self._found[what] = work()
        return cast("Found", self._found[what])

    def hold(self, parameters: Iterable[str]) -> timedelta:
        """How long the most perishable of them keeps, without those measured at the tap."""
        known = (self.hold_times[key] for key in parameters if key in self.hold_times)
        return min((time for time in known if time >= _AT_THE_TAP), default=_LONG)


@lru_cache(maxsize=1)
def read_catalogue(folder: Path) -> Catalogue:
    """The reference data of a folder, read once; its files are told in `README.md` there.

    Raises:
        OSError: A file is missing or can't be read.
        ValueError: A row makes no sense; the text names file and row.
    """
    parameters = {p.key: p for p in read_rows(folder / "parameters.csv", Parameter)}
    sets = {s.key: s for s in read_rows(folder / "limit_sets.csv", LimitSet)}
    rules = {rule.key: rule for rule in read_rows(folder / "sums.csv", SumRule)}
    limits = _limits(tuple(read_rows(folder / "limits.csv", Limit)), rules, sets)
    panels = {p.key: p for p in read_rows(folder / "panels.csv", Panel)}
    by_name = {
        normal_name(name): p.key for p in parameters.values() for name in (p.name, *p.aliases)
    }
    by_cas = {p.cas: p.key for p in parameters.values() if p.cas}
    grouped: dict[str, list[Limit]] = {}
    for limit in limits:
        grouped.setdefault(limit.parameter, []).append(limit)
    limits_of = {key: tuple(rows) for key, rows in grouped.items()}
    return Catalogue(
        parameters=parameters,
        sets=sets,
        limits=limits,
        sums=tuple(rule for rule in rules.values() if rule.how != "each"),
        panels=panels,
        hold_times=_hold_times(folder / "hold_times.csv", parameters),
        triggers=(
            *read_rows(folder / "symptoms.csv", Trigger, OF_SYMPTOMS),
            *read_rows(folder / "triggers.csv", Trigger),
        ),
        bottles=tuple(
            replace(bottle, serves=members(bottle.serves, parameters))
            for bottle in read_rows(folder / "bottles.csv", Bottle)
        ),
        _by_name=by_name,
        _by_cas=by_cas,
        _limits_of=limits_of,
    )


def _limits(
    rows: tuple[Limit, ...], rules: dict[str, SumRule], sets: dict[str, LimitSet]
) -> tuple[Limit, ...]:
    """The rows, a limit on each member of a rule as one for each that has none in its set."""
    own = {(row.set, row.parameter, row.kind) for row in rows}
    kept: list[Limit] = []
    for row in rows:
        rule = rules.get(row.parameter)
        if rule is None or rule.how != "each":
            kept.append(row)
            continue
        keys = (key for key in _each(rule, rules) if (row.set, key, row.kind) not in own)
        kept += [replace(row, parameter=key) for key in keys]
    rounding = {key for key, known in sets.items() if known.rounds}
    return tuple(replace(row, rounds=True) if row.set in rounding else row for row in kept)


def _each(rule: SumRule, rules: dict[str, SumRule]) -> Iterator[str]:
    """Keys of the members of a rule; a member that is a rule stands for its own members."""
    for term in rule.members:
        named = rules.get(term.parameter)
        yield from (member.parameter for member in named.members) if named else (term.parameter,)


def _hold_times(path: Path, parameters: dict[str, Parameter]) -> dict[str, timedelta]:
    """Hold times by parameter; a row that names one outranks a row for its family."""
    rows = sorted(
        read_rows(path, _HoldTime), key=lambda row: not row.parameters[0].startswith(_FAMILY)
    )
    return {
        key: timedelta(hours=float(row.hours))
        for row in rows
        for key in members(row.parameters, parameters)
    }


def members(words: Iterable[str], parameters: dict[str, Parameter]) -> tuple[str, ...]:
    """Keys of parameters as a row names them: one by one, or as `family:metals`."""
    keys: list[str] = []
    for word in words:
        family = word.removeprefix(_FAMILY)
        keys += (
            [word]
            if family == word
            else [one.key for one in parameters.values() if one.family == family]
        )
    return tuple(keys)
