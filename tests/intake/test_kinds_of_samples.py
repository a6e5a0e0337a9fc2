"""Lines that tell whether a sample is the household's water. Words of the trade, from memory."""

import pytest
from drafts import keys

TABLE = "Parameter,Result,Unit\nLead,2.1,ug/L\nIron,0.3,mg/L\n"
HEAD = "Example Lab\nCollected: 2024-05-03\n"


def figures(draft):
    return [r.reading.text for s in draft.samples for r in s.sample.results]


def doubts(draft):
    return {doubt for s in draft.samples for mark in s.marks for doubt in mark.doubts}


@pytest.mark.parametrize(
    "line",
    [
        "Matrix: Trip blank",
        "Matrix,DI water",
        "Sample type: Field blank",
        "Sample type,QC",
        "Type: Lab control sample",
        "Tipo de muestra: Blanco de campo",
        "Matriz: Blanco de viaje",
        "Type d'échantillon: Blanc de terrain",
        "Matrice : Blanc de transport",
        "Probenart: Feldblindwert",
        "Matrix: Laborkontrollprobe",
        "Matrix: Soil",
    ],
)
def test_readings_under_a_line_of_another_sample_are_left_aside_with_the_reason(draft_of, line):
    draft = draft_of(f"{HEAD}{line}\n\n{TABLE}")
    assert figures(draft) == []
    assert [one.what for one in draft.not_taken if one.is_aside] == ["2.1", "0.3"]
    said = line.replace(",", ":").partition(":")[2].strip()
    assert all(said in one.why for one in draft.not_taken)
    assert [finding.key for finding in draft.stops] == ["not_ours"]


@pytest.mark.parametrize(
    "line",
    [
        "Matrix: Drinking water",
        "Matrix: Groundwater",
        "Matrix,W",
        "Sample type: Grab",
        "Type: Private well",
        "Sample type: First draw",
        "Tipo de muestra: agua de pozo",
        "Type d'échantillon: eau de puits",
        "Probenart: Trinkwasser",
    ],
)
def test_readings_under_a_line_of_the_well_stay_certain(draft_of, line):
    draft = draft_of(f"{HEAD}{line}\n\n{TABLE}")
    assert figures(draft) == ["2.1", "0.3"]
    assert doubts(draft) == set()


@pytest.mark.parametrize(
    "line",
    [
        "Matrix: Surface water",
        "Matrix: Wastewater",
        "Sample type: K7",
        "Sample type: well water and trip blank",
    ],
)
def test_a_kind_that_can_not_be_told_is_asked_at_each_reading(draft_of, line):
    draft = draft_of(f"{HEAD}{line}\n\n{TABLE}")
    assert figures(draft) == ["2.1", "0.3"]
    assert all("open_kind" in mark.doubts for s in draft.samples for mark in s.marks)
    (said,) = [finding.text for finding in draft.findings if finding.key == "open_kind"]
    assert line.partition(": ")[2] in said


def test_a_kind_below_the_only_table_is_asked(draft_of):
    draft = draft_of(f"{HEAD}\n{TABLE}\nMatrix: Trip blank\n")
    assert doubts(draft) == {"open_kind"}


def test_a_kind_told_otherwise_by_line_and_column_is_asked(draft_of):
    table = "Parameter,Result,Unit,Sample type\nLead,2.1,ug/L,Sample\nIron,0.3,mg/L,Trip blank\n"
    draft = draft_of(f"{HEAD}Sample type: Field blank\n\n{table}")
    assert figures(draft) == ["2.1"]
    assert doubts(draft) == {"open_kind"}
    assert "0.3" in [one.what for one in draft.not_taken if one.is_aside]


@pytest.mark.parametrize("heading", ["", "Parameter,Result,Unit\n", "Analyte,Value,Units,Method\n"])
@pytest.mark.parametrize(
    ("first", "second", "kept"),
    [
        ("Matrix: Trip blank\n", "Matrix: Drinking water\n", ["9.1", "0.9"]),
        ("Matrix: Trip blank\n", "", ["9.1", "0.9"]),
        ("Matrix: Drinking water\n", "Type: Field blank\n", ["2.1", "0.3"]),
        ("", "Matrix: Trip blank\n", ["2.1", "0.3"]),
    ],
)
def test_a_kind_is_of_its_own_block_only(draft_of, heading, first, second, kept):
    draft = draft_of(
        f"{HEAD}Sample ID: A-1\n{first}\n{TABLE}\nSample ID: A-2\nCollected: 2024-05-03\n{second}"
        f"{heading}Lead,9.1,ug/L\nIron,0.9,mg/L\n"
    )
    assert figures(draft) == kept
    assert doubts(draft) == set()


@pytest.mark.parametrize(
    "text",
    [
        (
            "Parameter,Unit,KT-1,XX-9\nCollected,,2024-05-03,2024-05-03\n"
            "Matrix,,Groundwater,Trip blank\nLead,ug/L,2.1,0.1\nIron,mg/L,0.3,0.2\n"
        ),
        (
            "Collected,Location,Matrix,Lead (ug/L),Iron (mg/L)\n"
            "2024-05-03,Kitchen,Groundwater,2.1,0.3\n2024-05-03,Box,Trip blank,0.1,0.2\n"
        ),
    ],
)
def test_a_kind_for_each_sample_of_a_table_is_heeded(draft_of, text):
    draft = draft_of(text)
    assert sorted(figures(draft)) == ["0.3", "2.1"]
    assert sorted(one.what for one in draft.not_taken if one.is_aside) == ["0.1", "0.2"]


def test_a_title_of_checks_stays_over_all_its_samples(draft_of):
    draft = draft_of(
        f"{HEAD}\n{TABLE}\nQuality control\nSample ID: 17\nAnalyte,Value,Units,Method\n"
        "Lead,9.1,ug/L,200.8\nSample ID: 18\nAnalyte,Result,Units\nIron,0.9,mg/L\n"
    )
    assert figures(draft) == ["2.1", "0.3"]


def test_a_mail_with_the_table_of_a_blank_and_one_of_the_well_keeps_the_well(draft_of):
    part = (
        "--x\nContent-Type: text/csv\nContent-Disposition: attachment; filename={name}\n\n{text}\n"
    )
    parts = (
        part.format(name="well.csv", text=f"{HEAD}\n{TABLE}"),
        part.format(name="blank.csv", text=f"{HEAD}Matrix: Trip blank\n\n{TABLE}"),
    )
    head = (
        "From: lab@example.org\nTo: you@example.org\nSubject: results\nMIME-Version: 1.0\n"
        "Content-Type: multipart/mixed; boundary=x\n\n"
    )
    draft = draft_of(f"{head}{''.join(parts)}--x--\n", "results.eml")
    assert figures(draft) == ["2.1", "0.3"]
    assert not draft.stops
    assert "not_ours" not in keys(draft)


def test_recoveries_of_surrogates_below_the_results_are_none(draft_of):
    draft = draft_of(
        "Collected,2020-02-26,,\nCompound,CAS No.,Conc. (ug/L),Rep. Limit\n"
        "Benzene,71-43-2,ND,0.5\nChloroform,67-66-3,1.3,0.5\n,,,\n"
        "Surrogate recovery,,% Rec,Limits\n4-Bromofluorobenzene,460-00-4,98.4,70-130\n"
    )
    names = [result.name for one in draft.samples for result in one.sample.results]
    assert names == ["Benzene", "Chloroform"]
    assert "98.4" in [left.what for left in draft.not_taken]


OWN = "Borehole water|Agua natural|Eau de forage|Eau destinée à la consommation humaine"
OWN += "|Hausbrunnen|Eigenwasserversorgung|Schöpfprobe"


@pytest.mark.parametrize("kind", sorted(OWN.split("|")))
def test_a_kind_that_names_a_households_own_water_asks_nothing(draft_of, kind):
    """Words of the trade, from memory."""
    draft = draft_of(
        f"Sample type: {kind}\nDate collected: 2024-05-03\n\nParameter,Result,Unit\n"
        "Iron,0.3,mg/L\nLead,2.1,ug/L\n"
    )
    assert [mark.is_certain for mark in draft.samples[0].marks] == [True, True]
