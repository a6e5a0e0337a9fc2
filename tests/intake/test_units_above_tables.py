"""Units that a line above a table says of its results. Common practice, no source."""

import pytest

from wellbook.intake import mending

HEAD = "Constituent,Result,Guideline\n"


def units_of(draft):
    """Unit and doubts of each reading, by its parameter."""
    return {
        r.parameter: (r.reading.unit, mark.doubts)
        for one in draft.samples
        for r, mark in zip(one.sample.results, one.marks, strict=True)
    }


@pytest.mark.parametrize(
    "line",
    [
        "All results in mg/L unless noted",
        "All results in mg/L unless otherwise noted.",
        "All values are mg/L (except as noted)",
        "Todos los resultados en mg/L salvo indicación contraria",
        "Tous les résultats sont exprimés en mg/L sauf indication contraire",
        "Alle Angaben in mg/L (sofern nicht anders angegeben)",
    ],
)
def test_a_unit_unless_noted_is_taken_and_asked_about(draft_of, line):
    draft = draft_of(
        f"Collected,2022-09-23\n\n{line}\n{HEAD}Iron,0.92,0.3\nLead,<2 µg/L,10\nCalcium,<1,\n"
    )
    assert units_of(draft) == {
        "iron": ("mg/L", ("usual_unit",)),
        "lead": ("µg/L", ()),
        "calcium": ("mg/L", ("usual_unit",)),
    }
    assert "usual_unit" in {finding.key for finding in draft.findings}
    assert not mending.with_unit(draft, (0, 0), "mg/L").samples[0].marks[0].doubts


@pytest.mark.parametrize(
    "line", ["All results in mg/L", "Resultados en mg/L", "Résultats en mg/L", "Angaben in mg/L"]
)
def test_a_unit_of_all_results_is_theirs(draft_of, line):
    draft = draft_of(f"Collected,2022-09-23\n\n{line}\n{HEAD}Iron,0.92,0.3\nCalcium,40,\n")
    assert units_of(draft) == {"iron": ("mg/L", ()), "calcium": ("mg/L", ())}


WIDE = "Analyte,Kitchen tap,Barn tap\npH,7.2,7.3\nIron,0.3,0.4\nLead (µg/L),<1,2\n"
LONG = "Parameter,Result\npH,7.2\nConductivity,500\nIron,0.3\nE. coli,Absent\nLead (µg/L),<1\n"
BY_DAY = "Sample date,Iron,pH,Lead (µg/L)\n2022-09-23,0.3,7.2,2\n2023-09-25,0.4,7.1,2\n"


@pytest.mark.parametrize("table", [WIDE, LONG, BY_DAY], ids=["by point", "a row each", "by day"])
@pytest.mark.parametrize(
    ("line", "doubts"),
    [
        ("mg/L", ("usual_unit",)),
        ("(mg/L)", ("usual_unit",)),
        ("Metals: results in mg/L", ("usual_unit",)),
        ("Results in mg/L", ()),
        ("Units,mg/L", ()),
        ("Alle Werte in mg/L", ()),
    ],
)
def test_a_line_of_a_unit_is_that_of_what_names_none_and_can_have_it(draft_of, table, line, doubts):
    """pH has no unit, and conductivity is no mass in a volume (ISO 80000-9 and -6)."""
    day = "" if table == BY_DAY else "Collected,2022-09-23\n"
    units = units_of(draft_of(f"{day}\n{line}\n{table}"))
    assert (units["iron"], units["ph"]) == (("mg/L", doubts), ("", ()))
    assert units["lead"] == ("µg/L", ())
    assert units.get("conductivity", ("", ("no_unit",))) == ("", ("no_unit",))
    assert units.get("e_coli", ("", ())) == ("", ())


def test_a_line_of_a_unit_makes_no_result_of_the_care_of_a_well(draft_of):
    log = "When,Hardness,Iron,Pump\n2022-07-01,12,0.3,ok\n2023-08-01,16,0.2,ok\n"
    draft = draft_of(f"Well log\n(mg/L)\n{log}")
    names = {r.name for one in draft.samples for r in one.sample.results}
    assert names == {"Hardness", "Iron"}


@pytest.mark.parametrize("head", ["Constituent,Result\n", "Constituent,Kitchen tap\n"])
def test_lines_of_several_units_are_asked_about(draft_of, head):
    """A thousand times as much lead is another water."""
    lines = "Minerals: results in mg/L\nMetals: results in µg/L\n"
    draft = draft_of(f"Collected,2022-09-23\n\n{lines}{head}Lead,7.4\nCalcium,40\n")
    assert units_of(draft) == {"lead": ("", ("no_unit",)), "calcium": ("", ("no_unit",))}
    parts = f"Results in mg/L\n{head}Calcium,40\nSodium,9\n\nµg/L\nLead,7.4\nArsenic,1.8\n"
    units = units_of(draft_of(f"Collected,2022-09-23\n\n{parts}"))
    assert units["lead"][1]
    assert units["arsenic"][1]


@pytest.mark.parametrize("title", ['"Trace metals, µg/L"', "Metals (µg/L)", "Trace metals in µg/L"])
@pytest.mark.parametrize("head", [HEAD, ""])
def test_the_unit_in_a_title_is_that_of_the_results_below_it_up_to_the_next(draft_of, title, head):
    draft = draft_of(
        f"Collected,2022-09-23\n\n{HEAD}Iron,0.92,0.3\nSodium,40,\n\n{title}\n{head}"
        f"Lead,7.4,10\nArsenic,1.8,10\n\nMinerals\n{head}Calcium,40,\nMagnesium,9,\n"
    )
    asked = ("", ("no_unit",))
    assert units_of(draft) == {
        "iron": asked, "sodium": asked, "lead": ("µg/L", ()), "arsenic": ("µg/L", ()),
        "calcium": asked, "magnesium": asked,
    }  # fmt: skip
    assert len(draft.samples) == 1


def test_the_unit_in_a_title_above_the_first_table_is_read(draft_of):
    draft = draft_of(
        f'Collected,2022-09-23\n\nAll results in mg/L unless noted\n"Trace metals, µg/L"\n{HEAD}'
        "Lead,7.4,10\nArsenic,<1,10\n"
    )
    assert units_of(draft) == {"lead": ("µg/L", ()), "arsenic": ("µg/L", ())}


@pytest.mark.parametrize("line", ['"Detection limit, mg/L"', '"Hardness, mg/L"', '"Average, mg/L"'])
def test_a_unit_of_something_else_is_no_unit_of_results(draft_of, line):
    draft = draft_of(f"Collected,2022-09-23\n\n{line}\n{HEAD}Lead,7.4,10\nArsenic,1.8,10\n")
    assert {unit for unit, _doubts in units_of(draft).values()} == {""}


@pytest.mark.parametrize("figure", ["5 mg/L", "<5 mg/L", "0,5 mg/L", "< 5.0 mg/L", "ca. 5 mg/L"])
@pytest.mark.parametrize("where", ["line", "heading", "column"])
def test_a_figure_beside_another_unit_than_its_own_is_asked_about(draft_of, where, figure):
    line = "All results in µg/L\n" if where == "line" else ""
    over = "Result (µg/L)" if where == "heading" else "Result"
    unit = "µg/L" if where == "column" else ""
    draft = draft_of(
        f"Collected;2022-09-23;\n\n{line}Constituent;{over};Unit\nLead;{figure};{unit}\n"
        f"Arsenic;2;{unit}\n"
    )
    (sample,) = draft.samples
    assert [mark.doubts for mark in sample.marks] == [("odd_result",), ()]
    assert sample.sample.results[0].reading.number is None


def test_titles_of_groups_over_parameters_are_no_heading_and_their_units_are_asked(draft_of):
    """How far such a title reaches does not stand in the cells, so it is no unit of a column."""
    draft = draft_of(
        ",,,Metals (µg/L),,Anions (mg/L),\nLab No.,Sampling date,Tap,Fe,Mn,NO3-N,Cl\n"
        "K-101,2020-09-14,Kitchen,120,31,1.4,11\nK-702,2024-09-10,Kitchen,171,44,2.3,16\n"
    )
    assert [[r.reading.text for r in one.sample.results] for one in draft.samples] == [
        ["120", "31", "1.4", "11"],
        ["171", "44", "2.3", "16"],
    ]
    assert not any(mark.is_certain for one in draft.samples for mark in one.marks)
