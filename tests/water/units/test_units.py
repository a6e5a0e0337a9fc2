"""Spellings of units, and conversions as properties. Published factors: tests/reference."""

import subprocess
import sys
from decimal import Decimal
from gettext import NullTranslations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.support.translation import Language, using
from wellbook.water.parsing.printed import read_reading
from wellbook.water.units import factors, spellings
from wellbook.water.units.basis import molar_mass, printed_in, understand_basis
from wellbook.water.units.conversion import NoConversion, basis_in, convert, in_usual, understand
from wellbook.water.values.parameters import Parameter
from wellbook.wording.reasons import assumed, obstacle


def parameter(key="iron", unit="mg/L", basis="", molar_mass=None, charge=0):
    mass = None if molar_mass is None else Decimal(molar_mass)
    name = key.replace("_", " ").capitalize()
    return Parameter(key, name, "", "", unit, basis, "number", mass, charge, "", (), "")


NITRATE = parameter("nitrate", basis="as N", molar_mass="14.007", charge=-1)
HARDNESS = parameter("hardness", basis="as CaCO3", molar_mass="100.086", charge=2)
COLIFORM = parameter("total_coliform", "per 100 mL")


@pytest.mark.parametrize(
    ("printed", "label"),
    [
        ("mg/L", "mg/L"),
        ("MG/L", "mg/L"),
        ("mg/l", "mg/L"),
        ("mg / L", "mg/L"),
        ("mg L⁻¹", "mg/L"),
        ("mg·L⁻¹", "mg/L"),
        ("milligrams per liter", "mg/L"),
        ("mg/litre", "mg/L"),
        ("g/m³", "mg/L"),
        ("ug/L", "µg/L"),
        ("µg/L", "µg/L"),
        ("μg/L", "µg/L"),
        ("mcg/L", "µg/L"),
        ("ng/L", "ng/L"),
        ("PPM", "ppm"),
        ("parts per billion", "ppb"),
        ("mmol/L", "mmol/L"),
        ("meq/L", "meq/L"),
        ("grains per gallon", "gpg"),
        ("GPG", "gpg"),
        ("gr/gal", "gpg"),
        ("°dH", "°dH"),
        ("Grad dH", "°dH"),
        ("Grad deutscher Härte", "°dH"),
        ("German degrees", "°dH"),
        ("°f", "°fH"),
        ("º f", "°fH"),
        ("degrés français", "°fH"),
        ("grados franceses", "°fH"),
        ("English degrees", "°e"),
        ("°fH", "°fH"),
        ("°Clark", "°e"),
        ("tons/ac ft", "tons/acre-ft"),
        ("pCi/L", "pCi/L"),
        ("mBq/l", "mBq/L"),
        ("Bq/m³", "Bq/m³"),
        ("umhos/cm", "µS/cm"),
        ("µmho/cm", "µS/cm"),
        ("uS/cm @ 25C", "µS/cm"),
        ("µS/cm at 25 °C", "µS/cm"),
        ("mS/m", "mS/m"),
        ("dS/m", "dS/m"),
        ("N.T.U.", "NTU"),
        ("FNU", "FNU"),
        ("MPN/100mL", "MPN per 100 mL"),
        ("MPN per 100 mL", "MPN per 100 mL"),
        ("cfu/100 ml", "CFU per 100 mL"),
        ("Colonies/100 mL", "per 100 mL"),
        ("#/100mL", "per 100 mL"),
        ("CFU/mL", "CFU per mL"),
        ("P/A", "present or absent"),
        ("Presence/Absence", "present or absent"),
        ("SU", "pH units"),
        ("S.U.", "pH units"),
        ("Std. Units", "pH units"),
        ("ud. pH", "pH units"),
        ("Ud. de pH", "pH units"),
        ("u. pH", "pH units"),
        ("unidades de pH", "pH units"),
        ("unités pH", "pH units"),
        ("pH-Einheiten", "pH units"),
        ("unidades", "1"),
        ("n/mL", "per mL"),
        ("1/100 ml", "per 100 mL"),
        ("deg C", "°C"),
        ("℃", "°C"),
        ("º F", "°F"),
        ("PCU", "color units"),
        ("Pt-Co", "color units"),
        ("T.O.N.", "TON"),
        ("percent", "%"),
        ("MFL", "MFL"),
        ("mrem/yr", "mrem/yr"),
    ],
)
def test_a_lab_spelling_is_understood(printed, label):
    assert understand(printed).label == label


@pytest.mark.parametrize("printed", ["", "furlongs", "9**9**9", "mg/L of hardness", "mg/furlong"])
def test_an_unknown_unit_is_not_guessed(printed):
    assert understand(printed) is None


def test_every_unit_understands_its_own_label():
    labels = {unit.label for unit in spellings._UNITS.values()}
    assert all(understand(label).label == label for label in labels)


WQX_UNITS = """
#/100mL;#/L;#/mL;#col/100mL;%;Bq/L;CFU;FNU;JTU;MFL;MPN;MPN/100mL;NTU;None;PCU;T.O.N.;cfu/100mL;
cfu/mL;deg C;deg F;eq/L;g/L;gpg;mS/cm;mS/m;meq/L;mg/L;mg/kg;mg/l CaCO3*^;mg N/l*^*^*^;mho/cm;
mmhos/cm;mmol/L;mrem/yr;mV;nCi/L;ng/L;pCi/L;pg/L;ppb;ppm;ppt;std*^*^*^*^*;tons/ac ft;uS/cm;ueq/L;
ug/L;umho/cm;umol/L
"""


def test_the_units_that_the_exchange_format_has_for_water_are_understood():
    """Allowed values of WQX's measurement units that can stand on a drinking water report."""
    names = WQX_UNITS.replace("\n", "").split(";")
    assert [name for name in names if understand(name) is None] == []


@pytest.mark.parametrize(
    ("printed", "basis"),
    [
        ("mg/L as N", "as N"),
        ("mg/L (as CaCO3)", "as CaCO3"),
        ("mg/L CaCO3", "as CaCO3"),
        ("mg/l as CaCO₃", "as CaCO3"),
        ("mg N/L", "as N"),
        ("mg/L-N", "as N"),
        ("mg NO3-N/L", "as N"),
        ("mg/L en NO3", "as NO3"),
        ("mg/l (als NO3)", "as NO3"),
        ("mg/L como nitrógeno", "as N"),
        ("mg/l exprimé en CaCO₃", "as CaCO3"),
        ("mg/L NH4+", "as NH4"),
        ("mg/L as NO3", "as NO3"),
        ("mg/L as SiO2", "as SiO2"),
        ("ppm as CaCO3", "as CaCO3"),
        ("µS/cm at 20 °C", "at 20 °C"),
        ("mg/L", ""),
        ("gpg", ""),
    ],
)
def test_a_basis_spelled_in_the_unit_is_read(printed, basis):
    assert basis_in(printed) == basis


def test_hardness_units_carry_their_basis_without_spelling_it():
    assert {understand(unit).basis for unit in ("gpg", "°dH", "°fH", "°e")} == {"as CaCO3"}


@pytest.mark.parametrize(
    ("name", "basis"),
    [
        ("Nitrate-N", "as N"),
        ("Nitrate as N", "as N"),
        ("Nitrate (as NO3)", "as NO3"),
        ("NO3-N", "as N"),
        ("Nitrate Nitrogen", "as N"),
        ("Nitrogen, Ammonia", "as N"),
        ("Alkalinity, Total (as CaCO3)", "as CaCO3"),
        ("Hardness (CaCO3)", "as CaCO3"),
        ("Nitrate (N)", "as N"),
        ("Nitrate", ""),
        ("Nitrate (NO3)", ""),
        ("Iron", ""),
    ],
)
def test_a_basis_in_a_parameter_name_is_read(name, basis):
    assert printed_in(name) == basis


@pytest.mark.parametrize("text", ["as CaCO3", "(CaCO3)", "CaCO3", "as caco3", "as CaCO₃"])
def test_a_basis_column_is_read_in_any_spelling(text):
    assert understand_basis(text) == "as CaCO3"


def test_the_same_unit_and_basis_keeps_the_digits_as_printed():
    assert str(convert(Decimal("0.500"), "mg/L", "", "mg/L", "", parameter()).number) == "0.500"
    assert str(convert(Decimal("0.500"), "mg/l", "", "mg/L", "", parameter()).number) == "0.500"


def test_powers_of_ten_keep_their_digits_and_have_no_exponent():
    iron = parameter()
    assert str(convert(Decimal("5.0"), "mg/L", "", "µg/L", "", iron).number) == "5000"
    assert str(convert(Decimal("0.0050"), "mg/L", "", "ug/L", "", iron).number) == "5.0"
    assert str(convert(Decimal(10), "ug/L", "", "mg/L", "", iron).number) == "0.010"


def test_usual_conversions_do_not_load_pint():
    """Starting the program must not wait for the unit library (0.3 s)."""
    code = (
        "import sys; from decimal import Decimal\n"
        "from wellbook.water.units.conversion import convert\n"
        "from wellbook.water.values.parameters import Parameter\n"
        "p = Parameter('x', 'X', '', '', 'mg/L', '', 'number', None, 0, '', (), '')\n"
        "for a, b in (('mg/L', 'mg/L'), ('ug/L', 'mg/L'), ('ng/L', 'µg/L'), ('ppm', 'mg/L'),\n"
        "             ('CFU/100mL', 'per 100 mL'), ('mS/m', 'µS/cm'), ('mBq/L', 'Bq/L'),\n"
        "             ('gpg', 'mg/L')):\n"
        "    convert(Decimal(1), a, '', b, '', p)\n"
        "assert 'pint' not in sys.modules\n"
        "convert(Decimal(1), 'pCi/L', '', 'Bq/L', '', p)\n"
        "assert 'pint' in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_the_registry_is_built_once():
    assert factors._registry() is factors._registry()


def refusal(number, unit, basis, to_unit, to_basis, of):
    with pytest.raises(NoConversion) as caught:
        convert(Decimal(number), unit, basis, to_unit, to_basis, of)
    return obstacle(caught.value)


def test_nitrate_without_a_basis_is_asked_about():
    assert "as N or as NO3" in refusal(5, "mg/L", "", "mg/L", "as N", NITRATE)


def test_moles_and_equivalents_of_nitrate_need_no_basis():
    assert convert(Decimal(1), "mmol/L", "", "mg/L", "as N", NITRATE).number == Decimal("14.007")
    assert convert(Decimal(1), "meq/L", "", "mg/L", "as N", NITRATE).number == Decimal("14.007")


def test_hardness_without_a_basis_is_taken_as_usual_and_says_so():
    got = convert(Decimal(180), "mg/L", "", "mg/L", "as CaCO3", HARDNESS)
    assert got.number == 180
    assert "as CaCO3" in assumed(got)


def test_chlorine_and_carbon_have_only_one_form_and_nothing_is_assumed():
    chlorine = parameter("chlorine_residual", basis="as Cl2")
    assert convert(Decimal(1), "mg/L", "", "mg/L", "as Cl2", chlorine).assumptions == ()


def test_ppm_is_taken_as_for_dilute_water_and_says_so():
    got = convert(Decimal(180), "ppm", "", "mg/L", "", parameter())
    assert got.number == 180
    assert "dilute water" in assumed(got)


def test_ppt_is_refused_because_it_has_two_meanings():
    assert "per thousand" in refusal(5, "ppt", "", "ng/L", "", parameter("pfoa", "ng/L"))


@pytest.mark.parametrize(
    ("unit", "to_unit"),
    [("mg/L", "µS/cm"), ("NTU", "mg/L"), ("pCi/L", "mg/L"), ("°C", "mg/L"), ("JTU", "NTU")],
)
def test_different_quantities_do_not_convert(unit, to_unit):
    assert refusal(5, unit, "", to_unit, "", parameter())


def test_no_unit_and_an_unknown_unit_are_refused_each_with_its_reason():
    assert "No unit" in refusal(5, "", "", "mg/L", "", parameter())
    assert "furlongs" in refusal(5, "furlongs", "", "mg/L", "", parameter())


def test_two_bases_that_contradict_are_refused():
    assert "two bases" in refusal(5, "mg/L as NO3", "as N", "mg/L", "as N", NITRATE)


def test_an_unknown_basis_is_refused_where_the_parameter_has_several():
    assert "NO2+NO3" in refusal(5, "mg/L", "as NO2+NO3", "mg/L", "as N", NITRATE)


def test_a_form_with_nothing_in_common_is_refused():
    assert refusal(5, "mg/L", "as SiO2", "mg/L", "as N", NITRATE)
    assert refusal(5, "mg/L", "as CaCO3", "mg/L", "as N", NITRATE)


def test_ph_needs_no_unit():
    ph = parameter("ph", "pH units")
    for unit in ("", "SU", "None", "pH"):
        assert convert(Decimal("7.2"), unit, "", "pH units", "", ph).number == Decimal("7.2")


def test_counts_compare_per_100_ml_but_colonies_are_not_probable_numbers():
    for unit in ("CFU/100mL", "MPN/100 mL", "colonies/100 mL"):
        assert convert(Decimal(5), unit, "", "per 100 mL", "", COLIFORM).number == 5
    assert convert(Decimal(5), "CFU/mL", "", "per 100 mL", "", COLIFORM).number == 500
    assert convert(Decimal(5), "CFU/L", "", "per 100 mL", "", COLIFORM).number == Decimal("0.5")
    assert "estimated" in refusal(5, "CFU/100mL", "", "MPN/100mL", "", COLIFORM)


def test_a_count_without_a_volume_is_taken_per_100_ml_and_says_so():
    got = convert(Decimal(5), "MPN", "", "per 100 mL", "", COLIFORM)
    assert (got.number, bool(assumed(got))) == (5, True)
    assert refusal(5, "CFU", "", "per mL", "", COLIFORM)


def test_uranium_mass_and_activity_convert_only_with_the_stated_ratio():
    uranium = parameter("uranium", "µg/L")
    got = convert(Decimal(30), "µg/L", "", "pCi/L", "", uranium)
    assert got.number == Decimal("20.1")
    assert "0.67" in assumed(got)
    assert refusal(30, "µg/L", "", "pCi/L", "", parameter("radium_226", "pCi/L"))


def test_formazin_and_nephelometric_units_convert_with_a_caution():
    got = convert(Decimal(2), "FNU", "", "NTU", "", parameter("turbidity", "NTU"))
    assert (got.number, "differ" in assumed(got)) == (2, True)


def test_a_reading_is_brought_into_the_usual_unit_or_not_at_all():
    assert in_usual(read_reading("44.27", unit="mg/L as NO3"), NITRATE) == pytest.approx(
        Decimal(10), abs=Decimal("0.01")
    )
    assert in_usual(read_reading("<50", unit="ug/L"), parameter()) == Decimal("0.050")
    assert in_usual(read_reading("5", unit="mg/L"), NITRATE) is None
    assert in_usual(read_reading("present"), COLIFORM) is None


_PAIRS = [
    (unit, other, of, basis)
    for units, of, basis in (
        (
            ["g/L", "mg/L", "µg/L", "ng/L", "ppm", "ppb", "mmol/L", "meq/L", "µeq/L"],
            NITRATE,
            "as N",
        ),
        (["mg/L", "gpg", "°dH", "°fH", "°e", "mmol/L", "meq/L"], HARDNESS, "as CaCO3"),
        (["pCi/L", "nCi/L", "Bq/L", "mBq/L", "Bq/m³"], parameter("radon_222", "pCi/L"), ""),
        (["µS/cm", "mS/cm", "mS/m", "dS/m", "S/m"], parameter("conductivity", "µS/cm"), ""),
        (["°C", "°F", "K"], parameter("temperature", "°C"), ""),
        (["per 100 mL", "per mL", "per L", "per 250 mL"], COLIFORM, ""),
    )
    for unit in units
    for other in units
]


@settings(deadline=None)  # the first one builds the registry
@given(
    st.sampled_from(_PAIRS),
    st.decimals("0.001", "100000", allow_nan=False, allow_infinity=False, places=4),
)
def test_there_and_back_again_is_where_it_started(pair, number):
    unit, other, of, basis = pair
    there = convert(number, unit, basis, other, basis, of).number
    back = convert(there, other, basis, unit, basis, of).number
    assert abs(back - number) <= abs(number) * Decimal("1e-20") + Decimal("1e-20")


@settings(deadline=None)  # the first one builds the registry
@given(
    st.sampled_from(_PAIRS),
    st.decimals("0.001", "100000", allow_nan=False, allow_infinity=False, places=4),
    st.decimals("0.001", "1000", allow_nan=False, allow_infinity=False, places=4),
)
def test_more_stays_more_in_any_unit(pair, number, added):
    unit, other, of, basis = pair
    less = convert(number, unit, basis, other, basis, of).number
    assert convert(number + added, unit, basis, other, basis, of).number > less


@given(st.text(max_size=30))
def test_any_text_at_all_is_looked_up_without_a_fault(text):
    unit = understand(text)
    assert unit is None or unit.label


def test_molar_masses_read_a_formula():
    assert molar_mass("CaCO3") == Decimal("100.086")
    assert molar_mass("H2SO4") == Decimal("98.072")


def test_what_was_assumed_is_kept_for_each_language():
    words = {"NTU and FNU are taken as equal; the two kinds of meter may differ.": "NTU ≈ FNU"}

    class Words(NullTranslations):
        def gettext(self, message):
            return words.get(message, message)

    ask = (Decimal(1), "FNU", "", "NTU", "", parameter("turbidity", "NTU"))
    assert assumed(convert(*ask)).startswith("NTU and FNU")
    with using(Language("es", Words())):
        assert assumed(convert(*ask)) == "NTU ≈ FNU"
    assert assumed(convert(*ask)).startswith("NTU and FNU")


@pytest.mark.parametrize(
    ("printed", "label"),
    [
        ("UPC", "color units"), ("U Pt-Co", "color units"), ("mg Pt/l", "color units"),
        ("µS/cm à 25°C", "µS/cm"), ("uS/cm a 20 ºC", "µS/cm"), ("µS/cm bei 25 °C", "µS/cm"),
        ("UFC por 100 ml", "CFU per 100 mL"), ("KBE pro 100 ml", "CFU per 100 mL"),
        ("UFC en 100 ml", "CFU per 100 mL"), ("mSv/Jahr", "mSv/yr"), ("FTE", "FNU"),
    ],
)  # fmt: skip
def test_units_as_labs_abroad_print_them(printed, label):
    """Common practice, no source."""
    assert understand(printed).label == label
