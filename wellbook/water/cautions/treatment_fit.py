"""Which methods of treatment usually serve for a raw water, and what has to come out first.

A row of `treatments.csv` says for a group of parameters which methods serve, serve in part or fail,
and under which standards units are certified for it; a row of `pretreatment.csv` how much of
something a method bears. Nothing here chooses or sizes a unit.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from functools import partial
from itertools import takewhile
from pathlib import Path
from typing import Literal, Protocol

from wellbook.support.csv_rows import Phrases, read_rows
from wellbook.water.cautions.findings import share_of
from wellbook.water.chemistry.interval import Interval, bounds_of
from wellbook.water.units.basis import NoConversion
from wellbook.water.units.conversion import convert, in_usual
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

_OVER = frozenset({Verdict.OUTSIDE, Verdict.ADOPTED, Verdict.UNDECIDABLE})
# What a treatment is chosen and sized by: common practice, no source.
SIZING_INPUTS = (
    "calcium", "magnesium", "hardness", "sodium", "potassium", "alkalinity", "bicarbonate",
    "chloride", "sulfate", "nitrate", "fluoride", "silica", "tds", "iron", "iron_ferrous",
    "manganese", "arsenic", "ph", "temperature", "hydrogen_sulfide", "carbon_dioxide",
    "dissolved_oxygen", "redox_potential", "total_organic_carbon", "tannin", "turbidity", "color",
    "total_coliform", "e_coli", "iron_bacteria", "sulfate_reducing_bacteria",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Treatment:
    """What usually takes a group of parameters out.

    Attributes:
        key: Stable key.
        parameters: Keys of its parameters, sums among them.
        side: Whether it is about a figure below a range only.
        start: Figure from which on it is asked for without a limit; None for none.
        unit: Unit of that figure.
        basis: Basis of that figure.
        works: Methods that usually serve, as kinds of treatment.
        partly: Methods that serve in part.
        fails: Methods that do not serve.
        standards: Standards under which units are certified for it; empty where none is in use.
        note: What to know besides, to be said; or empty.
        source: Who says so.
    """

    key: str
    parameters: tuple[str, ...]
    side: Literal["any", "low"]
    start: Decimal | None
    unit: str
    basis: str
    works: Phrases
    partly: Phrases
    fails: Phrases
    standards: str
    note: str
    source: str


@dataclass(frozen=True, slots=True)
class Bound:
    """How much of something a method bears, and what takes it out before.

    Attributes:
        method: The method.
        parameter: Key of what disturbs it.
        side: Whether it may not be over or under the figure.
        figure: The figure.
        unit: Its unit.
        basis: Its basis.
        first: The method that comes before.
        source: Who says so.
    """

    method: str
    parameter: str
    side: Literal["over", "under"]
    figure: Decimal
    unit: str
    basis: str
    first: str
    source: str

    @property
    def is_rule_of_thumb(self) -> bool:
        """Whether nobody who publishes was found to say the figure."""
        return self.source.endswith("common practice, no source")


@dataclass(frozen=True, slots=True)
class Methods:
    """The reference data on methods."""

    treatments: tuple[Treatment, ...]
    bounds: tuple[Bound, ...]


@dataclass(frozen=True, slots=True)
class Need:
    """Something that has to be put right before a method.

    Attributes:
        bound: What the method bears.
        parameter: What disturbs it.
        found: How much there is, in the parameter's usual unit.
    """

    bound: Bound
    parameter: Parameter
    found: Interval


@dataclass(frozen=True, slots=True)
class Option:
    """A method for one water.

    Attributes:
        method: The method.
        is_partial: Whether it serves in part only.
        needs: What has to be put right first.
        unknown: What may have to be, but was not tested closely enough.
    """

    method: str
    is_partial: bool
    needs: tuple[Need, ...]
    unknown: tuple[Parameter, ...]


@dataclass(frozen=True, slots=True)
class Fit:
    """What serves for a group of parameters in one water.

    Attributes:
        treatment: The row of the reference data.
        found: The parameters that ask for it, the most urgent first.
        options: Each method that serves, then those that serve in part.
    """

    treatment: Treatment
    found: tuple[Parameter, ...]
    options: tuple[Option, ...]

    def is_about(self, key: str) -> bool:
        """Whether a parameter, by its key, asks for it."""
        return any(one.key == key for one in self.found)


class Stands(Protocol):
    """A parameter or a sum and how it stands to the limits of today."""

    @property
    def parameter(self) -> Parameter:
        """What it is."""

    @property
    def now(self) -> Judgement:
        """How it stands."""

    @property
    def adopted(self) -> Judgement | None:
        """How it stands to an adopted limit that it passes."""


def read_methods(folder: Path) -> Methods:
    """The reference data on methods.

    Raises:
        ValueError: A row makes no sense.
    """
    return Methods(
        tuple(read_rows(folder / "treatments.csv", Treatment)),
        tuple(read_rows(folder / "pretreatment.csv", Bound)),
    )


def fits(
    standings: Sequence[Stands],
    latest: Mapping[str, Result],
    methods: Methods,
    catalogue: Catalogue,
) -> tuple[Fit, ...]:
    """What serves for each group that a raw water asks a treatment for.

    Args:
        standings: How each parameter and sum stands, the most urgent first.
        latest: The latest usable result of each parameter.
        methods: The reference data on methods.
        catalogue: The reference data.
    """
    asking = [one for one in standings if _is_over(one, latest)]
    over = [one.parameter for one in asking]
    found = []
    for treatment in methods.treatments:
        asked = [
            one.parameter
            for one in asking
            if one.parameter.key in treatment.parameters
            and (treatment.side == "any" or _is_low(one.now))
        ]
        asked += [one for one in _started(treatment, latest, catalogue) if one not in asked]
        if asked:
            options = tuple(_options(treatment, latest, methods, catalogue))
            place = over.index(asked[0]) if asked[0] in over else len(over)
            found.append((place, Fit(treatment, tuple(asked), options)))
    return tuple(fit for _unused, fit in sorted(found, key=lambda one: one[0]))


def _is_over(one: Stands, latest: Mapping[str, Result]) -> bool:
    """Whether it is over a limit, or may be: a non-detect that decides nothing asks for no unit."""
    result = latest.get(one.parameter.key)
    if one.now.verdict is Verdict.UNDECIDABLE and result is not None:
        return result.reading.is_detect
    return one.now.verdict in _OVER or one.adopted is not None


def _is_low(now: Judgement) -> bool:
    limit = now.limit
    return bool(limit and limit.low and now.value is not None and now.value < limit.low)


def _started(
    treatment: Treatment, latest: Mapping[str, Result], catalogue: Catalogue
) -> Iterator[Parameter]:
    if treatment.start is None:
        return
    for key in treatment.parameters:
        parameter, result = catalogue.parameters[key], latest.get(key)
        line = (treatment.start, treatment.unit, treatment.basis)
        if result is not None and share_of(parameter, result.reading, *line) >= 1:
            yield parameter


def _options(
    treatment: Treatment, latest: Mapping[str, Result], methods: Methods, catalogue: Catalogue
) -> Iterator[Option]:
    for ways, is_partial in ((treatment.works, False), (treatment.partly, True)):
        for method in ways:
            needs, unknown = [], []
            for bound in methods.bounds:
                if bound.method != method or bound.parameter in treatment.parameters:
                    continue
                parameter = catalogue.parameters[bound.parameter]
                result = latest.get(bound.parameter)
                found = bounds_of(result, parameter) if result is not None else None
                passed = _passes(found, bound, parameter)
                if passed is None:
                    unknown.append(parameter)
                elif passed and found is not None:
                    needs.append(Need(bound, parameter, found))
            yield Option(method, is_partial, tuple(needs), tuple(unknown))


def _passes(found: Interval | None, bound: Bound, parameter: Parameter) -> bool | None:
    """Whether a water holds more (or less) than a method bears; None where that can't be told."""
    if found is None:
        return None
    try:
        line = convert(
            bound.figure, bound.unit, bound.basis, parameter.unit, parameter.basis, parameter
        )
    except NoConversion:
        return None
    figure = float(line.number)
    low, high = found.low > figure, found.high > figure
    if bound.side == "under":
        low, high = found.high < figure, found.low < figure
    return low if low == high else None


def latest_of(histories: Mapping[str, Sequence[Result]], catalogue: Catalogue) -> dict[str, Result]:
    """The latest usable result of each parameter, of histories in the order of collection.

    Of one day it is the one with the highest figure that was detected, in whatever unit.
    """
    found = {}
    for key, history in histories.items():
        usable = (one for one in reversed(history) if one.reading.kind is not Kind.NONE)
        last = next(usable, None)
        if key and last is not None:
            same = [last, *takewhile(partial(_is_of_day, last.collected.day), usable)]
            found[key] = max(reversed(same), key=partial(_amount, catalogue.parameters[key]))
    return found


def _amount(parameter: Parameter, result: Result) -> tuple[bool, Decimal]:
    reading = result.reading
    return reading.is_detect, in_usual(reading, parameter) or Decimal(0)


def _is_of_day(day: date, result: Result) -> bool:
    return result.collected.day == day
