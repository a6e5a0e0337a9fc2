"""Figures as a person types them, with commas.

That a comma is the decimal sign in some countries and parts the thousands in others is common
practice; SI Brochure 9, 5.4.4 allows either decimal sign and no sign between groups of three.
"""

from decimal import Decimal

import pytest

from wellbook.water.parsing.printed import read_reading
from wellbook.water.parsing.typed import (
    comma_is_decimal,
    meanings,
    read_typed,
    shown_with_point,
    typed_line,
)
from wellbook.water.values.readings import Kind

KNOWN = {"Iron", "arsenic", "Nitrate", "Total coliform", "E. coli", "Lead", "Radium", "Radium 226"}


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("0,71", "0.71"),
        ("<0,005", "0.005"),
        ("12,5", "12.5"),
        (",5", "0.5"),
        ("1234,567", "1234.567"),
        ("1.234,5", "1234.5"),
        ("1 234,5", "1234.5"),
        ("1,5 J", "1.5"),
        ("1,234.5", "1234.5"),
        ("1,234,000", "1234000"),
        ("1.234", "1.234"),
        ("0.71", "0.71"),
        ("1234", "1234"),
    ],
)
def test_a_figure_that_can_only_be_one_thing_is_read_as_that(typed, number):
    reading = read_typed(typed, unit="mg/L")
    assert reading.number == Decimal(number)
    assert reading.text == typed
    assert meanings(typed) is None


@pytest.mark.parametrize(
    ("typed", "both"),
    [
        ("1,234", ("1.234", "1234")),
        ("<1,000", ("<1.000", "<1000")),
        ("120,000 J", ("120.000 J", "120000 J")),
    ],
)
def test_a_figure_that_can_be_either_has_two_meanings(typed, both):
    assert comma_is_decimal(typed) is None
    assert meanings(typed) == both
    decimal, thousands = (read_typed(typed, is_decimal=one).number for one in (True, False))
    assert thousands == 1000 * decimal


def test_a_figure_that_starts_with_nothing_is_no_thousand():
    assert comma_is_decimal("0,710") is True
    assert read_typed("0,710").number == Decimal("0.710")


def test_a_reporting_limit_is_read_like_a_result():
    reading = read_typed("ND", unit="mg/L", limit="0,5")
    assert (reading.kind, reading.number) == (Kind.BELOW, Decimal("0.5"))


def test_two_figures_of_one_line_may_be_typed_in_two_ways():
    assert read_typed("0,71", limit="0.5").number == Decimal("0.71")
    assert read_typed("ND", limit="0.5").number == Decimal("0.5")


@pytest.mark.parametrize("typed", ["absent, see page 3", "TNTC", "", "n.d.", "1,2,3", "3,"])
def test_what_is_no_figure_stays_as_it_was_read(typed):
    assert read_typed(typed) == read_reading(typed)


def test_a_decimal_comma_is_shown_as_a_point_and_thousands_stay():
    assert shown_with_point(read_reading("<0,71 J", decimal_comma=True)) == "<0.71 J"
    assert shown_with_point(read_reading("1,234", decimal_comma=True)) == "1.234"
    assert shown_with_point(read_reading("1,234")) == "1,234"
    assert shown_with_point(read_reading("1.234,5", decimal_comma=True)) == "1234.5"


# common practice, no source: how a line of a lab's report reads
@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("Iron 0.3 mg/L", ("Iron", "0.3", "mg/L", "")),
        ("arsenic <0.5 µg/L", ("arsenic", "<0.5", "µg/L", "")),
        ("Nitrate 5.2 mg/L as N", ("Nitrate", "5.2", "mg/L", "as N")),
        ("Nitrate as NO3 5,2", ("Nitrate", "5,2", "", "as NO3")),
        ("Total coliform <1 MPN/100 mL", ("Total coliform", "<1", "MPN/100 mL", "")),
        ("E. coli absent", ("E. coli", "absent", "", "")),
        ("Lead not detected", ("Lead", "not detected", "", "")),
        ("Lead 1.2 µg/L J", ("Lead", "1.2 µg/L J", "µg/L", "")),
    ],
)
def test_a_line_that_is_typed_as_a_whole_is_parted(line, parts):
    found = typed_line(line, KNOWN.__contains__)
    assert (found.name, found.figure, found.unit, found.basis) == parts


@pytest.mark.parametrize("line", ["Iron", "Radium 226", "Foo 3", "Iron high", "", "0.3 mg/L"])
def test_a_name_alone_or_what_is_unclear_is_not_parted(line):
    assert typed_line(line, KNOWN.__contains__) is None


def test_a_number_in_a_name_is_never_its_figure():
    assert typed_line("Radium 226 3 pCi/L", KNOWN.__contains__).figure == "3"
