"""Every figure of a file is taken, or listed with its place and why. All labs are invented."""

import pytest


def taken(draft):
    """Day, point, parameter and text of each result."""
    return [
        (str(one.sample.collected.day), one.point_name, r.parameter or r.name,
         r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ]  # fmt: skip


def left(draft, *, asides=False):
    """Text, row and column of what was not taken."""
    return [
        (one.what, one.place.row, one.place.column)
        for one in draft.not_taken
        if one.is_aside == asides
    ]


@pytest.mark.parametrize("odd", ["-", "NA", "n/a", "see note", "not analysed"])
def test_one_odd_cell_drops_no_sample(draft_of, odd):
    draft = draft_of(
        "Test,Units,W-1,W-2\nDate collected,,2024-04-03,2024-04-03\nLead,ug/L,3.1,2.7\n"
        f"Chloride,mg/L,18,17\nUranium,ug/L,6,{odd}\n"
    )
    assert [row[1:] for row in taken(draft)] == [
        ("W-1", "lead", "3.1"), ("W-1", "chloride", "18"), ("W-1", "uranium", "6"),
        ("W-2", "lead", "2.7"), ("W-2", "chloride", "17"),
    ]  # fmt: skip
    assert odd in {one.what for one in draft.not_taken}


def test_a_column_with_an_unknown_heading_is_kept_as_printed(draft_of):
    draft = draft_of(
        "Date,Lead (ug/L),Coliform bugs,Frobnium (ug/L),Iron (mg/L)\n"
        "2023-06-07,1.4,PRESENT,44,0.2\n2024-06-05,1.2,absent,3,0.1\n"
    )
    texts = [row[3] for row in taken(draft)]
    assert texts == ["1.4", "PRESENT", "44", "0.2", "1.2", "absent", "3", "0.1"]
    assert {finding.key for finding in draft.findings} >= {"unknown_parameter"}


@pytest.mark.parametrize(
    "heading",
    ["Health", "Taste", "EPA", "WHO", "MAC", "Max", "Goal", "Ideal", "Previous", "Last test",
     "Error", "SD", "% of limit", "Threshold", "Reference", "Normal range", "Average", "Blank",
     "Something"],
)  # fmt: skip
def test_a_column_is_a_sample_only_by_evidence(draft_of, heading):
    draft = draft_of(
        f"Collected,2024-06-05\nParameter,Units,Barn tap,{heading}\nArsenic,ug/L,3,10\n"
        "Iron,mg/L,0.1,0.3\n"
    )
    assert [(row[1], row[3]) for row in taken(draft)] == [("Barn tap", "3"), ("Barn tap", "0.1")]
    every = {(one.what, one.place.row, one.place.column) for one in draft.not_taken}
    assert every == {("10", 3, 4), ("0.3", 4, 4)}


def test_where_nothing_tells_which_column_is_the_water_a_person_is_asked(draft_of):
    text = (
        "Collected,2024-06-05\nParameter,Units,Blue,Green\nArsenic,ug/L,3,10\nIron,mg/L,0.1,0.3\n"
    )
    draft = draft_of(text)
    assert not draft.samples
    assert [finding.key for finding in draft.stops] == ["which_columns"]
    told = draft_of(text, columns={"Green": True})
    assert [(row[1], row[3]) for row in taken(told)] == [("Green", "10"), ("Green", "0.3")]
    assert [what for what, _row, _column in left(told)] == ["3", "0.1"]


def test_a_threshold_before_the_sample_is_not_the_wells_water(draft_of):
    draft = draft_of(
        "Collected:,2024-06-05\nParameter,Threshold,Sample,Units\nArsenic,10,3,ug/L\nIron,0.3,0.1,mg/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["3", "0.1"]


def test_tables_side_by_side_are_both_read(draft_of):
    draft = draft_of(
        "Collected:,2024-06-05\nParameter,Result,Units,,Parameter,Result,Units\n"
        "Fluoride,0.4,mg/L,,Chloride,22,mg/L\nIron,0.2,mg/L,,E. coli,Present,per 100 mL\n"
    )
    assert [row[2:] for row in taken(draft)] == [
        ("fluoride", "0.4"), ("iron", "0.2"), ("chloride", "22"), ("e_coli", "Present")
    ]  # fmt: skip
    (sample,) = draft.samples
    assert (sample.marks[2].place.row, sample.marks[2].place.column) == (3, 6)


@pytest.mark.parametrize(
    "check",
    ["LCS-3", "MB-3", "Barn tap MSD", "Method blank", "Trip Blank", "Lab control sample",
     "Matrix spike", "Barn tap DUP"],
)  # fmt: skip
def test_checks_of_the_lab_never_become_points(draft_of, check):
    draft = draft_of(
        "Collected,Sample,Parameter,Result,Unit\n2024-06-05,Barn tap,Copper,0.2,mg/L\n"
        f"2024-06-05,{check},Copper,1.9,mg/L\n"
    )
    assert [row[1] for row in taken(draft)] == ["Barn tap"]
    assert left(draft, asides=True) == [("1.9", 3, 4)]


def test_the_draw_is_known_from_the_bottle_and_from_the_point(draft_of):
    draft = draft_of(
        "Collected,Bottle,Parameter,Result,Unit\n2024-06-05,1st draw,Lead,14,ug/L\n"
        "2024-06-05,2nd draw,Lead,1.2,ug/L\n"
    )
    (sample,) = draft.samples
    assert [r.draw for r in sample.sample.results] == ["first draw", "flushed"]
    draft = draft_of(
        "Collected,Location,Parameter,Result,Unit\n2024-06-05,Kitchen first draw,Lead,14,ug/L\n"
        "2024-06-05,Kitchen flushed,Lead,1.2,ug/L\n"
    )
    assert [s.sample.draw for s in draft.samples] == ["first draw", "flushed"]


def test_a_date_under_an_unknown_word_is_no_heading(draft_of):
    draft = draft_of(
        "Bottled,2024-06-05\n,\nParameter,Units,Result\nChloride,mg/L,27\nManganese,ug/L,34\n"
    )
    assert [row[3] for row in taken(draft)] == ["27", "34"]


def test_a_draft_of_words_in_place_of_results_stops(draft_of):
    draft = draft_of(
        "Collected,2024-06-05\nParameter,Result\nChloride,fine water\nIron,fine indeed\nLead,good\n"
    )
    assert "no_readings" in {finding.key for finding in draft.stops}


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Drawn 18 Sept 2019", "2019-09-18"),
        ('"Water drawn June 18, 2019, barn tap"', "2019-06-18"),
        ("When sampled,2019-06-18", "2019-06-18"),
        ("Date sampled,Jun 2019", "2019-06"),
        ("Date sampled,2019", "2019"),
    ],
)
def test_a_day_is_read_as_people_write_it_and_kept_as_far_as_it_is_known(draft_of, line, day):
    draft = draft_of(f"{line}\nParameter,Result,Unit\nIron,0.2,mg/L\n")
    assert taken(draft)[0][0] == day
    assert not draft.stops


def test_years_as_columns_are_a_sample_each(draft_of):
    draft = draft_of("Our well,2011,2012,2013\nIron mg/L,0.1,,0.3\nNitrate-N mg/L,1.1,1.2,1.3\n")
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2011", "0.1"), ("2011", "1.1"), ("2012", "1.2"), ("2013", "0.3"), ("2013", "1.3"),
    ]  # fmt: skip


def test_figures_of_unknown_columns_of_a_long_table_are_listed(draft_of):
    draft = draft_of(
        "Collected,Parameter,Result,Blargh,MCL,Unit\n2024-06-05,Iron,0.2,7,0.3,mg/L\n"
        "2024-06-05,Lead,3,8,15,ug/L\n"
    )
    assert left(draft) == [("7", 2, 4), ("8", 3, 4)]
    assert (draft.taken, draft.figures) == (2, 4)
    assert left(draft, asides=True) == [("MCL", 2, 5)]


def test_a_near_name_is_asked_and_not_certain(draft_of):
    draft = draft_of("Collected,Parameter,Result,Unit\n2024-06-05,Mangenese,34,ug/L\n")
    assert taken(draft)[0][2] == "manganese"
    assert draft.samples[0].marks[0].doubts == ("near_name",)
    assert "Manganese?" in draft.findings[0].text


def test_a_figure_beyond_all_wells_is_asked(draft_of):
    draft = draft_of("Collected,Parameter,Result,Unit\n2024-06-05,Lead,34000,mg/L\n")
    assert draft.samples[0].marks[0].doubts == ("beyond",)


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        (
            "Fecha de muestreo:;13/05/2024\nParámetro;Resultado;Unidad\nPlomo;<0,5;µg/L\n"  # noqa: ISC004
            "Coliformes totales;Ausente;UFC/100 mL\nHierro;n.d.;mg/L\n",
            ["below", "absent", "below"],
        ),
        (
            "Date de prélèvement :;13/05/2024\nParamètre;Résultat;Unité\nPlomb;<0,5;µg/L\n"  # noqa: ISC004
            "Coliformes totaux;Absence;UFC/100 mL\nFer;non détecté;mg/L\n",
            ["below", "absent", "below"],
        ),
        (
            "Probenahme:;13.05.2024\nParameter;Messwert;Einheit\nBlei;<0,5;µg/l\n"  # noqa: ISC004
            "Coliforme Keime;nicht nachweisbar;KBE/100 ml\nEisen;n.n.;mg/l\n",
            ["below", "absent", "below"],
        ),
    ],
)
def test_labs_in_other_languages_are_read(draft_of, text, kinds):
    draft = draft_of(text)
    assert [row[2] for row in taken(draft)] == ["lead", "total_coliform", "iron"]
    assert [r.reading.kind for r in draft.samples[0].sample.results] == kinds
    assert taken(draft)[0][0] == "2024-05-13"


def test_the_country_of_the_household_decides_a_date_that_nothing_else_decides(draft_of):
    text = "Collected,Parameter,Result,Unit\n03/05/2024,Iron,0.2,mg/L\n"
    assert [finding.key for finding in draft_of(text).stops] == ["date_order"]
    assert taken(draft_of(text, country="US"))[0][0] == "2024-03-05"
    assert taken(draft_of(text, country="GB"))[0][0] == "2024-05-03"
