"""Units of choice: other figures, the same findings."""

from datetime import date
from decimal import Decimal

import pytest
from alone import then_and_now
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support import paths
from wellbook.water.chemistry.indices import indices
from wellbook.water.parsing.printed import read_reading
from wellbook.water.statistics.trend import trend
from wellbook.water.units import conversion
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.values.unit_choices import in_units, read_unit_choices

CATALOGUE = read_catalogue(paths.resources())
CHOICES = read_unit_choices(paths.resources() / "unit_choices.csv", CATALOGUE)
SETS = ("us-epa-primary", "us-epa-action-level", "us-epa-secondary", "eu-dwd")
TODAY = date(2026, 11, 25)


def chosen(key):
    return in_units(CATALOGUE, CHOICES[key]).parameters


def test_a_choice_has_a_name_and_knows_its_parameters():
    assert set(CHOICES) == {"household", "milligrams", "european", "german", "french", "british"}
    assert all(choice.name and choice.units for choice in CHOICES.values())


def test_a_parameter_that_nobody_knows_is_told_with_the_file(tmp_path):
    path = tmp_path / "unit_choices.csv"
    path.write_text("choice,name,parameters,unit,basis\nours,Ours,phlogiston,mg/L,\n")
    with pytest.raises(ValueError, match=r"unit_choices\.csv: there is no parameter phlogiston"):
        read_unit_choices(path, CATALOGUE)


@pytest.mark.parametrize(
    ("choice", "key", "text", "unit", "basis", "figure"),
    [
        # One grain of 64.79891 mg in a US gallon of 3.785411784 L, both by definition (NIST
        # Special Publication 811, appendix B): 17.118 mg/L.
        ("household", "hardness", "300", "mg/L", "as CaCO3", "17.525"),
        ("household", "temperature", "10.0", "°C", "", "50.0"),
        ("milligrams", "arsenic", "12", "µg/L", "", "0.012"),
        # 62.0049 / 14.0067, 46.0055 / 14.0067, 18.0385 / 14.0067, 94.9714 / 30.9738: sums of the
        # IUPAC standard atomic weights.
        ("european", "nitrate", "10", "mg/L", "as N", "44.27"),
        ("european", "nitrite", "1", "mg/L", "as N", "3.285"),
        ("european", "ammonia", "1", "mg/L", "as N", "1.288"),
        ("european", "phosphate", "1", "mg/L", "as P", "3.066"),
        ("european", "hardness", "300", "mg/L", "as CaCO3", "2.997"),
        # One curie is 3.7e10 Bq (SI brochure, 9th edition, table 8 of the 8th).
        # 1 °dH is 10 mg of CaO in a litre, 17.848 mg of CaCO3; 1 °fH is 10 mg of CaCO3 (DIN
        # 38409-6, NF T90-003, from memory).
        ("german", "hardness", "300", "mg/L", "as CaCO3", "16.81"),
        ("french", "hardness", "300", "mg/L", "as CaCO3", "30.0"),
        ("british", "nitrate", "10", "mg/L", "as N", "44.27"),
        ("european", "radon_222", "300", "pCi/L", "", "11.1"),
        ("european", "beta_photon_dose", "4", "mrem/yr", "", "0.04"),
    ],
)
def test_a_figure_is_shown_in_the_chosen_unit(choice, key, text, unit, basis, figure):
    parameter = chosen(choice)[key]
    shown = conversion.as_shown(read_reading(text, unit=unit, basis=basis), parameter)
    assert shown == pytest.approx(Decimal(figure), rel=Decimal("0.0005"))


def test_what_is_not_chosen_stays_in_the_usual_unit():
    parameter = chosen("household")["arsenic"]
    assert parameter.shown_in == ("µg/L", "")


def test_every_chosen_unit_can_be_had_from_the_usual_one():
    for choice in CHOICES.values():
        for key, (unit, basis) in choice.units.items():
            one = CATALOGUE.parameters[key]
            conversion.convert(Decimal(1), one.unit, one.basis, unit, basis, one)


def history(key, figures):
    one = CATALOGUE.parameters[key]
    return [
        Result(
            n,
            n,
            key,
            one.name,
            read_reading(text, unit=one.unit, basis=one.basis),
            LocalTime.parse(f"{2010 + n}-05-01"),
            1,
        )
        for n, text in enumerate(figures)
    ]


READINGS = st.builds(
    lambda below, figure: f"{'<' if below else ''}{figure}",
    st.booleans(),
    st.decimals("0.001", "500", places=3),
)


@given(
    st.sampled_from(sorted(CHOICES)).flatmap(
        lambda key: st.tuples(st.just(key), st.sampled_from(sorted(CHOICES[key].units)))
    ),
    st.lists(READINGS, min_size=6, max_size=12),
)
def test_neither_a_trend_nor_a_verdict_depends_on_the_units_shown(which, figures):
    choice, key = which
    catalogue = in_units(CATALOGUE, CHOICES[choice])
    past = history(key, figures)
    usual = trend(past, CATALOGUE.parameters[key])
    shown = trend(past, catalogue.parameters[key])
    assert (shown.says, shown.n, shown.p) == (usual.says, usual.n, usual.p)
    for result in past:
        assert then_and_now(result, catalogue, SETS, TODAY) == then_and_now(
            result, CATALOGUE, SETS, TODAY
        )


def test_indices_are_worked_out_alike():
    sample = [
        Result(
            n,
            1,
            key,
            key,
            read_reading(text, unit=unit, basis=basis),
            LocalTime.parse("2024-05-01"),
            1,
        )
        for n, (key, text, unit, basis) in enumerate(
            [
                ("ph", "7.4", "pH units", ""),
                ("temperature", "11", "°C", ""),
                ("hardness", "210", "mg/L", "as CaCO3"),
                ("calcium", "60", "mg/L", ""),
                ("alkalinity", "180", "mg/L", "as CaCO3"),
                ("tds", "320", "mg/L", ""),
            ]
        )
    ]
    usual = indices(sample, CATALOGUE)
    assert usual
    for choice in CHOICES.values():
        assert indices(sample, in_units(CATALOGUE, choice)) == usual
