"""Where the water was drawn, and which lab tested it, by the lines around results.

All labs are invented. How labs write them: common practice, no source.
"""

import pytest

from wellbook import intake

TABLE = "Parameter,Result,Unit\nIron,0.31,mg/L\nLead,2,ug/L\n"
DAY = "Collected,2026-02-18\n"


def points(draft):
    return [sample.point_name for sample in draft.samples]


def labs(draft):
    return {sample.sample.lab for sample in draft.samples}


def test_the_name_of_a_lab_is_no_place_though_a_spring_stands_in_it(draft_of):
    draft = draft_of(f"Cold Spring Environmental,,\n{DAY}{TABLE}")
    assert points(draft) == [""]
    assert labs(draft) == {"Cold Spring Environmental"}


@pytest.mark.parametrize(
    "line",
    [
        "Punto de muestreo,Pozo,Fecha de muestreo,12/02/2024",
        "Fecha de muestreo,12/02/2024,Punto de muestreo,Pozo",
        "Sampling point,Well,Date sampled,02/12/2024,Lab,Lindow Testing",
    ],
)
def test_a_place_that_is_a_word_over_a_column_too_is_told_in_a_line_of_pairs(draft_of, line):
    (place,) = points(draft_of(f"{line}\n,,\n{TABLE}", order=intake.Order.DAY_FIRST))
    assert place in {"Pozo", "Well"}


def test_a_row_of_headings_tells_no_place(draft_of):
    text = f"Sampling point,Well,Date sampled,Lab\nA7,B2,2024-02-12,Lindow Testing\n,,,\n{TABLE}"
    assert points(draft_of(text)) == ["A7"]


@pytest.mark.parametrize("name", ["Deep Well Drilling", "Spring Pump Services"])
def test_the_name_of_a_firm_is_no_place(draft_of, name):
    assert points(draft_of(f"{name},,\n{DAY}{TABLE}")) == [""]


@pytest.mark.parametrize(
    ("line", "name"),
    [
        (
            "# Brindle Fork Water Laboratory - client portal download",
            "Brindle Fork Water Laboratory",
        ),
        ("Analysis report | Hollin Ridge Analytical", "Hollin Ridge Analytical"),
        ("Marrow County Environmental Health Laboratory",) * 2,
        ("DUNMORE COUNTY PUBLIC HEALTH LABORATORY",) * 2,
        ("Lindow Testing",) * 2,
        ("Private Well Water Testing", ""),
        ("Water Quality Testing", ""),
        ("Lead Testing", ""),
    ],
)
def test_the_lab_stands_alone_in_the_head_and_no_title_is_one(draft_of, line, name):
    assert labs(draft_of(f"{line},,\n{DAY}{TABLE}")) == {name}


def test_the_lab_above_a_table_of_columns_of_samples_is_told(draft_of):
    head = "Copper Beech Laboratories,,\nCollected,2026-02-18,\n"
    draft = draft_of(f"{head}Analyte,Kitchen,Barn\nLead (ug/L),2,3\nIron (mg/L),0.2,0.4\n")
    assert labs(draft) == {"Copper Beech Laboratories"}


def test_the_kind_of_supply_is_not_the_place_where_a_place_is_told(draft_of):
    head = f"{DAY}Sample location,Kitchen sink\nType of supply,Private well\nDisinfected,not yet\n"
    draft = draft_of(f"{head}Total Coliform,Absent\nE. coli,Absent\n")
    assert points(draft) == ["Kitchen sink"]


def test_a_description_goes_before_the_labs_number_as_the_point_of_a_column(draft_of):
    head = (
        "Lab Sample ID,,K2201-1,K2201-2\nSample Description,,Kitchen tap,Well head\n"
        "Date Sampled,,2026-02-03,2026-02-04\nParameter,Units,,\n"
    )
    draft = draft_of(f"{head}Nitrate-N,mg/L,0.27,1.18\nLead,ug/L,4.4,4.1\n")
    assert points(draft) == ["Kitchen tap", "Well head"]
    assert [sample.sample.lab_number for sample in draft.samples] == ["K2201-1", "K2201-2"]


def test_what_stands_behind_sampled_at_is_the_place(draft_of):
    assert points(draft_of(f"{DAY}Sampled at,Pressure tank\n{TABLE}")) == ["Pressure tank"]


@pytest.mark.parametrize(
    ("number", "point"), [("WELL-1", "WELL-1"), ("K-2201", ""), ("WELL-240513-01", "")]
)
def test_a_number_that_names_a_place_tells_the_point(draft_of, number, point):
    draft = draft_of(f"{DAY}Sample ID,{number}\n{TABLE}")
    assert (points(draft), draft.samples[0].sample.lab_number) == ([point], number)


def test_a_line_that_begins_with_the_place_tells_it_and_the_time(draft_of):
    line = '"Well tap, sampled 02/17/2026 at 9:50, received 02/18/2026",,\n'
    (sample,) = draft_of(line + TABLE).samples
    assert (sample.point_name, sample.sample.collected.iso()) == ("Well tap", "2026-02-17T09:50")
    assert sample.sample.received.day.isoformat() == "2026-02-18"
    text = "Well tap, sampled 02/17/2026 at 9:50\n\nIron: 0.31 mg/L\nLead: 2 ug/L\n"
    assert draft_of(text, "mail.txt").samples[0].point_name == "Well tap"


def test_a_full_stop_behind_the_day_ends_it(draft_of):
    text = (
        "Sample: Well head\nCollected: 25 March 2018. Lab number K10-73161.\n\n"
        "Parameter,Result,Unit\nIron,0.3,mg/L\nLead,2,ug/L\n"
    )
    (sample,) = draft_of(text).samples
    assert sample.sample.collected.iso() == "2018-03-25"


def test_raw_and_soft_in_the_names_of_columns_are_two_points(draft_of):
    (one, other) = draft_of(
        "Date,Hardness raw (gpg),Hardness soft (gpg),Salt added\n2014-11-14,17,1,2 bags\n"
    ).samples
    assert (one.point_name, other.point_name) == ("raw", "soft")
    assert [r.reading.text for one in (one, other) for r in one.sample.results] == ["17", "1"]


def test_a_well_behind_a_word_for_a_place_is_the_place_among_other_facts(draft_of):
    table = "Valor;Unidad;Determinación\n0,921;mg/L;Manganeso\n3,36;NTU;Turbidez\n"
    head = "N.º de muestra:;{};Punto de muestreo:;{}\nFecha de toma:;2018-08-28 {}\n\n"
    draft = draft_of(
        head.format("W12-7471", "Grifo exterior", "13:05") + table + "\n"
        + head.format("K23-6371", "Pozo", "11:51") + table
    )  # fmt: skip
    assert [one.point_name for one in draft.samples] == ["Grifo exterior", "Pozo"]


def test_where_the_water_comes_from_is_not_the_place_where_a_place_is_told(draft_of):
    draft = draft_of(
        f"Sample source,Private supply Larkrise\nSample point,Utility tap\n{DAY}{TABLE}"
    )
    assert points(draft) == ["Utility tap"]


def test_the_names_of_samples_stand_two_lines_above_the_labs_numbers(draft_of):
    draft = draft_of(
        ",,,Client sample ID,House bore,Paddock bore\n"
        ",,,Sampling date / time,12-Nov-2024 09:30,12-Nov-2024 10:10\n"
        "Compound,CAS Number,LOR,Unit,EB2433190-001,EB2433190-002\n"
        "Chloride,16887-00-6,1,mg/L,77,214\nBoron,7440-42-8,0.05,mg/L,0.21,0.6\n"
    )
    assert points(draft) == ["House bore", "Paddock bore"]
