"""Units of other kinds, forms and charges, and what is assumed between them."""

from decimal import Decimal

import pytest

from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.units import basis
from wellbook.water.units.basis import NoConversion, Obstacle, factor
from wellbook.water.units.conversion import convert
from wellbook.water.units.spellings import understand
from wellbook.water.values.catalogue import read_catalogue
from wellbook.wording.reasons import assumed

PARAMETERS = read_catalogue(paths.resources()).parameters


@pytest.mark.parametrize("text", ["mg/L dry", "mg/L as seen", "NTU as N", "pCi/L as N", "mg/L (x)"])
def test_a_unit_with_words_that_are_no_basis_is_not_understood(text):
    assert understand(text) is None


def converted(number, unit, to_unit, key, *, basis="", to_basis=""):
    return convert(Decimal(number), unit, basis, to_unit, to_basis, PARAMETERS[key])


@pytest.mark.parametrize(
    ("number", "unit", "to_unit", "key", "expected"),
    [
        ("10", "°C", "°F", "temperature", "50"),
        ("50", "°F", "°C", "temperature", "10"),
        ("10", "°C", "K", "temperature", "283.15"),
        ("283.15", "K", "°C", "temperature", "10"),
        ("283.15", "K", "°F", "temperature", "50"),
        ("50", "°F", "K", "temperature", "283.15"),
        ("0.67", "pCi/L", "µg/L", "uranium", "1"),
        ("1", "µg/L", "pCi/L", "uranium", "0.67"),
        ("30", "pCi/L", "µg/L", "uranium", "44.7761"),
        ("7", "1", "pH units", "ph", "7"),
        ("7", "", "pH units", "ph", "7"),
    ],
)
def test_units_of_other_kinds_convert_exactly(number, unit, to_unit, key, expected):
    """0.67 pCi/µg: 65 FR 76708 (2000); temperatures by definition."""
    got = converted(number, unit, to_unit, key).number
    assert got == pytest.approx(Decimal(expected), abs=Decimal("0.0001"))


def test_a_figure_that_needs_no_conversion_keeps_every_digit():
    long = f"7.{'123456789' * 4}"
    assert converted(long, "1", "pH units", "ph").number == Decimal(long)


@pytest.mark.parametrize(
    ("unit", "to_unit", "key"),
    [
        ("mg/L", "pH units", "ph"),
        ("NTU", "color units", "color"),
        ("1", "mg/L", "nitrate"),
        ("1", "NTU", "turbidity"),
    ],
)
def test_a_figure_without_a_unit_stands_only_for_what_has_none(unit, to_unit, key):
    with pytest.raises(NoConversion, match=Obstacle.OTHER_QUANTITY):
        converted("7", unit, to_unit, key)


def test_what_was_assumed_names_both_sides():
    got = converted("5", "ppm", "mg/L", "chloride")
    assert assumed(got) == "ppm is taken as for dilute water, 1 kg per litre."
    got = converted("500", "µS/cm", "µS/cm", "conductivity", basis="at 25 °C", to_basis="at 20 °C")
    assert "Taken from 25 °C to 20 °C by the factor 1.116" in assumed(got)


def test_an_ion_is_counted_as_calcium_carbonate_only_for_itself():
    """40.078 g/mol of Ca and 100.086 of CaCO3, both of two charges: IUPAC 2021."""
    got = factor("Ca", "CaCO3", PARAMETERS["calcium"])
    assert got == pytest.approx(Decimal("2.4973"), abs=Decimal("0.0001"))
    for form, to_form, key in (
        ("Ca", "CaCO3", "magnesium"),
        ("SO4", "Ca", "sulfate"),
        ("Na", "K", "sodium"),
    ):
        with pytest.raises(NoConversion, match=Obstacle.OTHER_FORM):
            factor(form, to_form, PARAMETERS[key])


def test_without_a_form_on_either_side_nothing_is_multiplied():
    assert factor("", "N", PARAMETERS["arsenic"]) == 1
    assert factor("N", "", PARAMETERS["nitrate"]) == 1


def test_every_form_that_is_understood_has_a_molar_mass():
    known = {*basis._KNOWN_FORMS.values(), *basis._WORDS.values(), *basis._OWN_FORMS.values()}
    assert all(basis.molar_mass(form) > 1 for form in known)


@pytest.mark.parametrize("text", ["", "hello", "ND", "present", "<5", "5"])
@pytest.mark.parametrize("unit", ["", "per bucket", "mg/L"])
def test_a_unit_is_never_made_up(text, unit):
    assert read_reading(text, unit=unit).unit == unit
    assert read_reading(text, unit=unit, qualifier="U").unit == unit


@pytest.mark.parametrize(
    ("unit", "expected"),
    [
        ("/100 mL", 5),
        ("CFU/100 mL", 5),
        ("MPN/100 mL", 5),
        ("/mL", 500),
        ("CFU/mL", 500),
        ("MPN/mL", 500),
        ("CFU/10mL", 50),
        ("CFU/250mL", 2),
        ("CFU/500mL", 1),
        ("CFU/L", Decimal("0.5")),
    ],
)
def test_a_count_is_brought_to_its_volume(unit, expected):
    assert converted("5", unit, "per 100 mL", "total_coliform").number == expected


def test_a_count_without_a_volume_is_taken_as_100_ml_and_no_other():
    got = converted("5", "CFU", "per 100 mL", "total_coliform")
    assert (got.number, assumed(got)) == (5, "No volume is printed; taken as per 100 mL.")
    with pytest.raises(NoConversion, match=Obstacle.NO_VOLUME):
        converted("5", "CFU", "per mL", "total_coliform")
    with pytest.raises(NoConversion, match=Obstacle.COUNT_OR_ESTIMATE):
        converted("5", "CFU/mL", "MPN per 100 mL", "total_coliform")


@pytest.mark.parametrize(
    ("forms", "charge"),
    [
        ("Na K NH4 HCO3 OH Cl Br F NO3 NO2", 1),
        ("CaCO3 CaO Ca Mg Sr Ba Fe Mn Zn Cu Pb CO3 SO4", 2),
    ],
)
def test_ions_carry_the_charges_of_the_textbook(forms, charge):
    """Barium, copper, lead and zinc as in water: two; hydroxide and the halides: one."""
    assert {basis._CHARGES[form] for form in forms.split()} == {charge}
    for form in forms.split():
        mass = basis.equivalent_mass(form, PARAMETERS["alkalinity"])
        assert mass == basis.molar_mass(form) / charge
