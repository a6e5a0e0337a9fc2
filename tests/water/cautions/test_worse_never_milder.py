"""Worse water never gets fewer cautions, a milder one, or a milder answer on boiling.

Every parameter at figures about each of its limits, by the usual sets with each other one, and by
all sets together; with `WELLBOOK_WORSE=1` by each set alone, too, and less sure figures of each
parameter, not of one for each table of cautions.
"""

import os
from decimal import Decimal
from itertools import pairwise

import pytest
from waters import CATALOGUE, CAUTIONS, TODAY, USUAL, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.cautions import PEOPLE
from wellbook.water.cautions.drinking import drinking
from wellbook.water.cautions.findings import finding
from wellbook.water.values.limits import Rule
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.judge import limits_in_force

# What tells less of a detected figure: the sign before it, and the remark beside it.
LESS_SURE = {
    "more than it": (">", frozenset()),
    "off the scale": ("", frozenset({Flag.OVER_RANGE})),
    "told before the report": ("", frozenset({Flag.PRELIMINARY})),
}
SHARES = [Decimal(share) for share in ("0.1", "0.79", "0.85", "1.05", "20")]
CHOICES = [USUAL, tuple(CATALOGUE.sets)]
if os.environ.get("WELLBOOK_WORSE"):
    CHOICES += [(key,) for key in CATALOGUE.sets]
CHOICES += [(*USUAL, key) for key in CATALOGUE.sets]
MEASURED = sorted(
    key
    for key, one in CATALOGUE.parameters.items()
    if one.scale == "number" and (CATALOGUE.limits_of(key) or key in CAUTIONS.of)
    if not any(limit.rule is Rule.RANGE for limit in CATALOGUE.limits_of(key))
)
_MOST = 5  # limits about which figures are taken
EVERYBODY = frozenset(PEOPLE)


def figures(limits):
    """Figures in one unit and basis about every maximum that has them."""
    first = limits[0] if limits else None
    highs = {limit.high for limit in limits if limit.high and limit.unit == first.unit}
    some = sorted(highs)[:: max(1, len(highs) // _MOST)] or [Decimal(1)]
    return sorted({share * high for high in some for share in SHARES}), first


def weight(said):
    """What of a list of cautions must never shrink."""
    finding_ = max((one.finding for one in said), default=0)
    return (finding_, any(one.urgent for one in said), len({who for o in said for who in o.people}))


@pytest.mark.parametrize("parameter", MEASURED)
def test_a_worse_figure_never_has_fewer_or_milder_cautions(parameter):
    limits = CATALOGUE.limits_of(parameter)
    ladder, first = figures(limits)
    unit, basis = (first.unit, first.basis) if first else ("", "")
    relevant = {limit.set for limit in limits}
    for sets in CHOICES:
        if sets not in CHOICES[:2] and sets[-1] not in relevant:
            continue  # the same as without this set
        weights = []
        for figure in ladder:
            one = result(parameter, f"{figure:f}", unit, basis, draw="first draw")
            weights.append(weight(resolve(judged(one, sets=sets), CAUTIONS, EVERYBODY, TODAY)))
        for milder, worse in pairwise(weights):
            assert all(a <= b for a, b in zip(milder, worse, strict=True)), (sets, weights)


@pytest.mark.parametrize("parameter", MEASURED)
def test_a_worse_figure_never_makes_boiling_better_advice(parameter):
    ladder, first = figures(CATALOGUE.limits_of(parameter))
    unit, basis = (first.unit, first.basis) if first else ("", "")
    for sets in CHOICES[:2]:
        strict = []
        for figure in ladder:
            sample = judged(
                result("e_coli", "present"),
                result(parameter, f"{figure:f}", unit, basis, draw="first draw", number=2),
                sets=sets,
            )
            found = {one: finding(one, CAUTIONS.of.get(one.parameter.key)) for one in sample}
            told = drinking(found, CAUTIONS, EVERYBODY, TODAY)
            strict.append((told.boiling, len(told.other_only)))
        assert strict == sorted(strict), (sets, strict)


LIMITED = [key for key in MEASURED if limits_in_force(key, CATALOGUE, USUAL, TODAY)]
OF_TABLES = {CAUTIONS.of[key].key: key for key in LIMITED if key in CAUTIONS.of}


@pytest.mark.parametrize("how", sorted(LESS_SURE))
@pytest.mark.parametrize(
    "parameter", LIMITED if os.environ.get("WELLBOOK_WORSE") else sorted(OF_TABLES.values())
)
def test_a_figure_of_which_less_is_known_never_has_fewer_cautions_nor_makes_boiling_better(
    parameter, how
):
    sign, flags = LESS_SURE[how]

    def told(text, limit, flags=frozenset()):
        of = (parameter, text, limit.unit, limit.basis)
        one = result(*of, draw="first draw", number=2, flags=flags)
        sample = judged(result("e_coli", "present"), one)
        alone = resolve(judged(one), CAUTIONS, EVERYBODY, TODAY)
        found = {one: finding(one, CAUTIONS.of.get(one.parameter.key)) for one in sample}
        water = drinking(found, CAUTIONS, EVERYBODY, TODAY)
        return (*weight(alone), water.boiling, len(water.other_only))

    for limit in limits_in_force(parameter, CATALOGUE, USUAL, TODAY):
        for share in ("0.55", "0.85"):
            figure = f"{Decimal(share) * limit.high:f}"
            plain, worse = told(figure, limit), told(f"{sign}{figure}", limit, flags)
            assert all(a <= b for a, b in zip(plain, worse, strict=True)), (figure, plain, worse)
