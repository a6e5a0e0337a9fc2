"""The reference data holds together: names, units, limits, panels, cautions."""

import shutil
import tomllib
from collections import Counter
from pathlib import Path

import pytest

from wellbook.support.csv_rows import read_rows
from wellbook.water.values.catalogue import Catalogue, Panel, read_catalogue
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.parameters import Parameter

RESOURCES = Path(__file__).parents[3] / "resources"
FAMILIES = {
    *("bacteria", "nutrients", "metals", "minerals", "general", "organics"),
    *("pfas", "radioactivity", "gases", "corrosion"),
}
GROUPS = {"general", "boil", "clash", "behind", "situation", "undecided", "taste"}


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return read_catalogue(RESOURCES)


@pytest.mark.parametrize(
    ("printed", "key"),
    [
        # Names as in the lists of the Water Quality Exchange of EPA and of USGS.
        ("Nitrate", "nitrate"),
        ("Nitrate + Nitrite", "nitrate_nitrite"),
        ("Inorganic nitrogen (nitrate and nitrite)", "nitrate_nitrite"),
        ("Specific conductance", "conductivity"),
        ("Total dissolved solids", "tds"),
        ("Alkalinity, total", "alkalinity"),
        ("Hardness, Ca, Mg", "hardness"),
        ("Total hardness", "hardness"),
        ("Escherichia coli", "e_coli"),
        ("Total Coliform", "total_coliform"),
        ("Gross Alpha radioactivity", "gross_alpha"),
        ("Temperature, water", "temperature"),
        ("Tetrachloroethene", "tetrachloroethylene"),
        ("Perfluorooctanesulfonic acid", "pfos"),
        ("Perfluorooctane sulfonic acid", "pfos"),
        ("Langelier Saturation Index", "langelier_index"),
        ("00618", "nitrate"),
        ("00940", "chloride"),
        # Names as labs print them: common practice, no source.
        ("Nitrate-N", "nitrate"),
        ("Nitrogen, Nitrate", "nitrate"),
        ("NO₃⁻", "nitrate"),
        ("NO3 + NO2", "nitrate_nitrite"),
        ("E. Coli", "e_coli"),
        ("Coliform, Total", "total_coliform"),
        ("Pb", "lead"),
        ("Iron, Total", "iron"),
        ("Total Hardness (CaCO3)", "hardness"),
        ("Ca²⁺", "calcium"),
        ("Gross α", "gross_alpha"),
        ("MBAS", "surfactants"),
    ],
)
def test_printed_names_find_their_parameter(catalogue: Catalogue, printed: str, key: str):
    found = catalogue.find(printed)
    assert found is not None
    assert found.key == key


def test_an_unknown_name_finds_nothing_but_its_cas_number_does(catalogue: Catalogue):
    assert catalogue.find("Plumbum metallicum") is None
    found = catalogue.find("Plumbum metallicum", "7439-92-1")
    assert found is not None
    assert found.key == "lead"


def test_sets_have_a_standing_and_the_usual_ones_are_on_by_default(catalogue: Catalogue):
    assert {one.standing for one in catalogue.sets.values()} == {
        *("in force", "pending", "proposed", "classes"),
    }
    on = {one.key for one in catalogue.sets.values() if one.default}
    assert {"us-epa-primary", "us-epa-secondary", "us-epa-action-level"} <= on
    assert all(catalogue.sets[key].standing == "in force" for key in on)


def test_sodium_at_20_alarms_only_where_the_diet_set_was_chosen(catalogue: Catalogue):
    # EPA 822-R-03-006 (2003): guidance for people held to 500 mg of sodium a day, not for all.
    strict = [one for one in catalogue.limits_of("sodium") if one.high == 20]
    assert {one.set for one in strict} == {"us-epa-sodium-diet", "us-ma"}
    assert not catalogue.sets["us-ma"].default
    assert not catalogue.sets["us-epa-sodium-diet"].default


def test_manganese_has_a_health_figure_beside_the_one_for_stains(catalogue: Catalogue):
    # 40 CFR 143.3 and EPA 822-R-04-003 (2004).
    kinds = {
        one.kind: str(one.high)
        for one in catalogue.limits_of("manganese")
        if catalogue.sets[one.set].default
    }
    assert kinds == {LimitKind.AESTHETIC: "0.05", LimitKind.ADVISORY: "0.3"}


def test_bacteria_and_nitrate_are_yearly_as_agencies_advise(catalogue: Catalogue):
    # CDC and EPA advice to owners of private wells, as restated by state drinking water programmes.
    assert catalogue.panels["bacteria"].months == 12
    assert catalogue.panels["nitrate"].months == 12
    assert catalogue.panels["minerals"].months == 14


def test_cautions_belong_to_known_parameters_and_to_one_table_each(catalogue: Catalogue):
    data = tomllib.loads((RESOURCES / "cautions.toml").read_text(encoding="utf-8"))
    people = data.pop("person")
    tables = {k: v for k, v in data.items() if k not in GROUPS}
    named = [key for table, text in tables.items() for key in (table, *text.get("also", ()))]
    assert set(named) <= catalogue.parameters.keys()
    assert [key for key, times in Counter(named).items() if times > 1] == []
    groups = (table for name in ("boil", "clash", "situation") for table in data[name].values())
    for table in (*tables.values(), *groups, *people):
        assert table["source"]


def test_boiling_is_advised_for_bacteria_only():
    # EPA, CDC and state health departments: boiling kills bacteria and concentrates nitrate.
    data = tomllib.loads((RESOURCES / "cautions.toml").read_text(encoding="utf-8"))
    tables = {key: table for key, table in data.items() if key != "person"}
    advised = {key for key, table in tables.items() if table.get("boil") == "yes"}
    assert advised == {"e_coli", "total_coliform"}
    for key in ("nitrate", "benzene", "methane", "atrazine"):
        assert data[key]["boil"] == "no"
    for key in ("arsenic", "lead", "manganese", "fluoride", "pfoa", "uranium"):
        assert data[key]["boil"] == "lesser"  # the health department decides


def test_every_health_limit_of_any_set_has_a_caution(catalogue: Catalogue):
    data = tomllib.loads((RESOURCES / "cautions.toml").read_text(encoding="utf-8"))
    tables = {key: table for key, table in data.items() if key not in {*GROUPS, "person"}}
    covered = {key for table, text in tables.items() for key in (table, *text.get("also", ()))}
    serious = {LimitKind.HEALTH, LimitKind.ACTION, LimitKind.ADVISORY}
    wanted = {
        one.parameter
        for one in catalogue.limits
        if one.kind in serious and catalogue.sets[one.set].standing != "classes"
    }
    assert wanted - covered == set()


def test_reference_data_never_calls_water_safe():
    for path in RESOURCES.glob("*.[ct]*"):
        text = path.read_text(encoding="utf-8").casefold()
        assert "water is safe" not in text.replace("says that water is safe", ""), path.name
        assert "safe to drink" not in text, path.name


def test_a_row_that_makes_no_sense_is_named_with_file_and_line(tmp_path: Path):
    for path in RESOURCES.glob("*.csv"):
        shutil.copy(path, tmp_path)
    damaged = (tmp_path / "limits.csv").read_text(encoding="utf-8").replace(",health,", ",ill,", 1)
    (tmp_path / "limits.csv").write_text(damaged, encoding="utf-8")
    with pytest.raises(ValueError, match=r"limits\.csv, row 2, column kind: 'ill'"):
        read_catalogue(tmp_path)


def test_molar_masses_are_those_of_the_standard_atomic_weights(catalogue: Catalogue):
    # IUPAC abridged standard atomic weights of 2021 (CIAAW), e.g. N 14.007, C 12.011, O 15.999.
    expected = {
        "nitrate": "14.007",
        "hardness": "100.086",
        "calcium": "40.078",
        "bicarbonate": "61.016",
        "sulfate": "96.056",
        "chloride": "35.45",
    }
    for key, mass in expected.items():
        assert str(catalogue.parameters[key].molar_mass) == mass
    charges = {key: catalogue.parameters[key].charge for key in ("calcium", "nitrate", "sulfate")}
    assert charges == {"calcium": 2, "nitrate": -1, "sulfate": -2}


def test_parameters_are_plain_values(catalogue: Catalogue):
    assert all(isinstance(one, Parameter) for one in catalogue.parameters.values())
    assert len(catalogue.parameters) >= 110


def test_a_panel_without_months_is_tested_once(tmp_path: Path):
    path = tmp_path / "panels.csv"
    path.write_text("key,name,core,also,months,why,source\na,A,x y,,,,\nb,B,x,,14,,\n")
    assert [panel.months for panel in read_rows(path, Panel)] == [0, 14]
