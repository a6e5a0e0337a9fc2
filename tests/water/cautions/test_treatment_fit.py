"""Which methods serve for a raw water, what comes first, and never fewer for worse water.

Methods and standards are those of `treatments.csv`, whose rows name their source; what a method
bears is common practice, no source.
"""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.support import paths
from wellbook.water.cautions.treatment_fit import fits, latest_of, read_methods
from wellbook.water.parsing.printed import read_reading
from wellbook.water.units.conversion import convert
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading
from wellbook.water.values.results import Result
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import stand
from wellbook.wording import vocabulary
from wellbook.wording.consulting import treatment_fit as words

CATALOGUE = read_catalogue(paths.resources())
METHODS = read_methods(paths.resources())
SETS = tuple(key for key, one in CATALOGUE.sets.items() if one.default)
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE}


def result(key, word):
    parameter = CATALOGUE.parameters[key]
    kind = KINDS.get(word[0], Kind.NUMBER)
    number = Decimal(word.strip("<>"))
    reading = Reading(word, kind, number, parameter.unit, parameter.basis, "total")
    return Result(0, 1, key, parameter.name, reading, LocalTime(date(2025, 5, 3)), 1)


def fitted(**water):
    rows = [result(key, str(word)) for key, word in water.items()]
    record = PointRecord.of(rows)
    standings = [
        stand(record, CATALOGUE.parameters[key], CATALOGUE, SETS, date(2026, 11, 25))
        for key in record.histories
    ]
    standings.sort(key=lambda one: one.urgency)
    found = fits(standings, latest_of(record.histories, CATALOGUE), METHODS, CATALOGUE)
    return {fit.treatment.key: fit for fit in found}


def firsts(fit, method):
    option = next(one for one in fit.options if one.method == method)
    return {need.parameter.key: need.bound.first for need in option.needs}


def test_iron_and_hardness_come_out_before_reverse_osmosis():
    fit = fitted(nitrate=14, iron=1.2, hardness=300, manganese="<0.01", turbidity="0.4")["nitrate"]
    assert firsts(fit, "reverse osmosis") == {
        "iron": "iron filter",
        "hardness": "ion exchange softener",
    }
    said = words.paragraph(fit)
    assert "NSF/ANSI 58" in said
    assert "Before reverse osmosis: iron filter (Iron 1.2 mg/L, rule of thumb at " in said
    assert "For reverse osmosis find out: Hydrogen sulfide" in said


def test_a_figure_without_a_source_is_told_from_one_that_has_it_and_sources_are_named():
    fit = fitted(iron=6, hardness=300)["hardness"]
    said = words.paragraph(fit)
    assert "Before ion exchange softener: iron filter (Iron 6 mg/L, at most 5 mg/L)" in said
    assert "clear-water iron" in words.sources(fit)
    assert words.sources(fit).startswith(fit.treatment.source)


def test_a_non_detect_above_what_a_method_bears_is_unknown_and_not_fine():
    fit = fitted(nitrate=14, iron="<0.5", hardness=40)["nitrate"]
    option = next(one for one in fit.options if one.method == "reverse osmosis")
    assert "iron" in {one.key for one in option.unknown}
    assert not option.needs


def test_acid_water_is_put_right_before_an_iron_filter_and_alkaline_water_gets_no_neutralizer():
    acid = fitted(iron=1.2, ph="6.1")
    assert firsts(acid["iron"], "iron filter") == {"ph": "neutralizer"}
    assert "acid" in acid
    assert "acid" not in fitted(iron=1.2, ph="9.4")


def test_hardness_asks_for_a_softener_without_a_limit_from_its_own_figure_on():
    assert "hardness" in fitted(hardness=120)
    assert "hardness" not in fitted(hardness=119)


def test_water_within_its_limits_asks_for_nothing():
    assert fitted(nitrate=2, arsenic=1, iron="0.05", ph="7.2", hardness=60) == {}


def test_of_a_day_the_most_that_was_found_counts_in_whatever_unit():
    """0.9 mg/L is 900 µg/L."""
    words = [("500", "µg/L"), ("0.9", "mg/L"), ("<5", "mg/L"), ("0.2", "mg/L")]
    whole = result("iron", "1")
    rows = [
        replace(whole, id=n, reading=read_reading(text, unit=unit))
        for n, (text, unit) in enumerate(words)
    ]
    for order in permutations(rows):
        (found,) = latest_of({"iron": order}, CATALOGUE).values()
        assert (found.reading.text, found.reading.unit) == ("0.9", "mg/L")


def test_a_non_detect_by_a_coarse_method_asks_for_no_unit():
    assert "arsenic" not in fitted(arsenic="<50")


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(["nitrate", "arsenic", "uranium", "lead", "iron", "manganese", "fluoride"]),
    st.integers(1, 400),
    st.integers(101, 900),
)
def test_worse_water_is_never_offered_fewer_methods_nor_asked_for_less_first(key, tenths, percent):
    figure = Decimal(tenths) / 10
    worse = figure * percent / 100
    other = {"iron": 1} if key != "iron" else {"manganese": "0.2"}
    before, after = (fitted(**{key: one, **other}) for one in (figure, worse))
    assert before.keys() <= after.keys()
    for row, fit in before.items():
        for option in fit.options:
            assert firsts(fit, option.method).items() <= firsts(after[row], option.method).items()


@pytest.mark.parametrize("row", METHODS.treatments, ids=lambda one: one.key)
def test_every_method_has_a_name_and_serves_or_fails_but_never_both(row):
    known = {*vocabulary.treatments(), "distillation", "advanced oxidation"}
    assert {*row.works, *row.partly, *row.fails} <= known
    assert not {*row.works, *row.partly} & {*row.fails}
    assert not {*row.works} & {*row.partly}


def test_every_bound_is_in_a_unit_of_its_parameter():
    for bound in METHODS.bounds:
        parameter = CATALOGUE.parameters[bound.parameter]
        usual = (parameter.unit, parameter.basis)
        assert convert(bound.figure, bound.unit, bound.basis, *usual, parameter).number > 0
        assert {bound.method, bound.first} <= {*vocabulary.treatments(), "distillation"}
