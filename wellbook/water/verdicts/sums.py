"""Limits on a sum: nitrate with nitrite, the two radiums, trihalomethanes, the PFAS index.

A sum of readings is seldom one number. What was not found lies between zero and its reporting
limit, what was not tested may be anything; so a sum has a least and a most, and a verdict only
where both agree.
"""

from collections.abc import Container, Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from wellbook.support.message import Message, message
from wellbook.water.units.basis import NoConversion
from wellbook.water.units.conversion import convert
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, SumRule, Term
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.caveats import not_comparable
from wellbook.water.verdicts.compare import Figure, compare
from wellbook.water.verdicts.judge import as_adopted, limits_adopted, limits_in_force
from wellbook.water.verdicts.reasons import Reason

_OUTSIDE = Verdict.OUTSIDE
_OVER = (Verdict.OUTSIDE, Verdict.ADOPTED)


@dataclass(frozen=True, slots=True)
class Part:
    """What a sample says of one term, in the sum's unit.

    Attributes:
        parameter: Key of the term's parameter.
        low: The least it adds.
        high: The most it adds; None if it was not tested or has no known upper bound.
        result: The result it comes from; None if there is none that can be counted.
    """

    parameter: str
    low: Decimal = Decimal(0)
    high: Decimal | None = None
    result: Result | None = None


@dataclass(frozen=True, slots=True)
class Sum:
    """A sum over one sample.

    Attributes:
        rule: How it is made.
        unit: Unit of its bounds.
        basis: Basis of its bounds.
        parts: What it is made of, one for each term.
    """

    rule: SumRule
    unit: str
    basis: str
    parts: tuple[Part, ...]

    @property
    def low(self) -> Decimal:
        """The least it can be: what was not found counts as nothing."""
        return sum((part.low for part in self.parts), Decimal(0))

    @property
    def high(self) -> Decimal | None:
        """The most it can be; None if a part has no known upper bound."""
        highs = [part.high for part in self.parts]
        return (
            None if None in highs or not self.rule.whole else sum(filter(None, highs), Decimal(0))
        )

    @property
    def found(self) -> int:
        """How many of its parts were found."""
        return sum(part.low > 0 for part in self.parts)

    @property
    def missing(self) -> tuple[str, ...]:
        """Keys of the parameters that were not tested, or can't be counted."""
        return tuple(part.parameter for part in self.parts if part.result is None)


def sums(
    sample: Iterable[Result], catalogue: Catalogue, wanted: Container[str] | None = None
) -> tuple[Sum, ...]:
    """The sums that a sample allows, those left out that the lab reported itself.

    A sum with a missing part is given too: its least may be enough to be outside. Only those
    `wanted` by their keys are made, or all.
    """
    rules = [rule for rule in catalogue.sums if wanted is None or rule.key in wanted]
    if not rules:
        return ()
    of: dict[str, list[Result]] = {}
    for result in sample:
        if not not_comparable(result.reading):
            of.setdefault(result.parameter, []).append(result)
    made = []
    for rule in rules:
        if not any(term.parameter in of for term in rule.members):
            continue
        keys = {rule.key, *(term.parameter for term in rule.members)}
        if keys <= catalogue.parameters.keys() and rule.key not in of:
            parts = tuple(
                _part(rule, term, of.get(term.parameter, ()), catalogue) for term in rule.members
            )
            is_ratio = rule.how == "ratios"
            unit, basis = ("1", "") if is_ratio else (rule.unit, rule.basis)
            made.append(Sum(rule, unit, basis, parts))
    return tuple(one for one in made if len(one.missing) < len(one.parts))


def judge_sums(
    sample: Iterable[Result],
    catalogue: Catalogue,
    sets: Sequence[str],
    on: date,
    wanted: Container[str] | None = None,
) -> tuple[tuple[Sum, Judgement], ...]:
    """Hold a sample's sums, or those wanted, against the limits that were in force on a day.

    Left out is what would only say that a part was not tested, but for radium, where one of the
    two tests alone tempts to a conclusion.
    """
    judged = []
    for one in sums(sample, catalogue, wanted):
        key = one.rule.key
        judged += [
            (one, judge_sum(one, limit, catalogue))
            for limit in limits_in_force(key, catalogue, sets, on)
        ]
        adopted = (
            as_adopted(judge_sum(one, limit, catalogue))
            for limit in limits_adopted(key, catalogue, sets, on)
            if one.found
        )
        judged += [(one, judgement) for judgement in adopted if judgement]
    return tuple(
        (one, judgement)
        for one, judgement in judged
        if judgement.verdict in _OVER
        or one.rule.speaks_alone
        or not (one.missing or not one.rule.whole)
    )


def judge_sum(one: Sum, limit: Limit, catalogue: Catalogue) -> Judgement:
    """Hold one sum against one limit: a verdict only where its least and its most agree."""
    rule, parameter = one.rule, catalogue.parameters[one.rule.key]
    if one.found + len(one.missing) < rule.least_found:
        few = message(Reason.FEW_FOUND, n=rule.least_found)
        return Judgement(Verdict.NO_LIMIT, None, None, (few,))
    line = (one.unit, one.basis, limit.unit, limit.basis, parameter)
    low = convert(one.low, *line).number
    made_of = message(Reason.ADDED_UP, parts=_names(one, catalogue))
    if one.found >= rule.least_found and compare(Figure(Kind.NUMBER, low), limit)[0] is _OUTSIDE:
        return Judgement(_OUTSIDE, limit, low, (made_of,))
    if one.high is None:
        return Judgement(Verdict.UNDECIDABLE, limit, None, (_open(one, catalogue),))
    high = convert(one.high, *line).number
    figure = Figure(Kind.NUMBER if one.found else Kind.BELOW, high)
    verdict = compare(figure, limit, catalogue.near_share)[0]
    if verdict in {_OUTSIDE, Verdict.UNDECIDABLE}:
        between = message(Reason.BETWEEN, low=low, high=high, unit=limit.unit)
        return Judgement(Verdict.UNDECIDABLE, limit, None, (made_of, between))
    return Judgement(verdict, limit, high, (made_of,))


def _part(rule: SumRule, term: Term, results: Iterable[Result], catalogue: Catalogue) -> Part:
    """The worst of a term's results, as duplicates are never averaged; off scale is worst."""
    parameter = catalogue.parameters[term.parameter]
    parts = [Part(term.parameter)]
    for result in results:
        reading = result.reading
        if reading.kind is Kind.ABSENT or reading.number is None:
            continue
        try:
            got = convert(
                reading.number,
                reading.unit,
                reading.basis,
                rule.unit,
                term.basis or rule.basis,
                parameter,
            )
        except NoConversion:
            continue
        value = max(got.number, Decimal(0)) / term.over
        parts.append(
            Part(
                term.parameter,
                low=Decimal(0) if reading.kind is Kind.BELOW else value,
                high=None if reading.kind is Kind.ABOVE else value,
                result=result,
            )
        )
    return max(
        parts,
        key=lambda part: (part.result is not None, part.low, part.high is None, part.high or 0),
    )


def _names(one: Sum, catalogue: Catalogue) -> tuple[str, ...]:
    parts = (part.parameter for part in one.parts if part.result is not None)
    return tuple(catalogue.parameters[key].name for key in parts)


def _open(one: Sum, catalogue: Catalogue) -> Message:
    """Why the sum has no upper end."""
    names = tuple(catalogue.parameters[key].name for key in one.missing)
    if not names:
        return message(Reason.PART_WITHOUT_FIGURE)
    return message(Reason.PARTS_WITHOUT_FIGURE, n=len(names), parts=names)
