"""Forms with pairs side by side, wide sheets, a lab's checks. Common practice, no source."""

import pytest

from wellbook.water.values.readings import Flag, Kind


def taken(draft):
    return {
        result.parameter: result.reading.text
        for sample in draft.samples
        for result in sample.sample.results
        if result.parameter
    }


def test_a_form_has_its_pairs_side_by_side(draft_of):
    """A name, its figure, the next name: no figure goes to the name beside it."""
    draft = draft_of(
        "WATER ANALYSIS,,,\nCustomer,Household,Date,2019-10-18\n,,,\n"
        "Hardness (gpg),15,Iron (ppm),0.08\npH,6.4,TDS (ppm),412\n"
        "Manganese (ppm),0.1,Lead (ppb),22\n"
    )
    assert taken(draft) == {
        "hardness": "15", "iron": "0.08", "ph": "6.4",
        "tds": "412", "manganese": "0.1", "lead": "22",
    }  # fmt: skip


def test_a_mark_and_a_limit_behind_a_figure_are_no_pair(draft_of):
    draft = draft_of(
        "Sampled: 2019-10-18\nCompound,Result (mg/L),Qual,RL\n"
        "Iron,<0.01,B,0.05\nCopper,<0.01,B,0.05\nCalcium,5.1,B,0.05\n"
    )
    assert taken(draft) == {"iron": "<0.01", "copper": "<0.01", "calcium": "5.1"}


@pytest.mark.parametrize(
    ("head", "words"),
    [
        ("Bezeichnung", ("Brunnen Haus", "Brunnen Stall")),
        ("What", ("Water test", "Filter changed")),
    ],
)
def test_a_word_for_names_beside_columns_of_parameters_heads_no_names(draft_of, head, words):
    draft = draft_of(
        f"Date,{head},Iron mg/L,Hardness gpg,pH\n2018-06-13,{words[0]},0.03,19,6.8\n"
        f"2019-03-13,{words[1]},0.4,20,7.1\n"
    )
    assert [len(one.sample.results) for one in draft.samples] == [3, 3]
    assert taken(draft) == {"iron": "0.4", "hardness": "20", "ph": "7.1"}
    assert not any(mark.doubts for one in draft.samples for mark in one.marks)


def test_months_stand_beside_a_word_for_results_over_the_names(draft_of):
    draft = draft_of("Messwert (mg/l);Januar 2021;Mai 2021\nEisen;0,09;0,16\nMangan;<0,005;0,014\n")
    assert [one.sample.collected.iso() for one in draft.samples] == ["2021-01", "2021-05"]


@pytest.mark.parametrize("name", ["Control std", "Check standard", "Calibration standard"])
def test_a_standard_of_the_lab_is_no_water_of_the_household(draft_of, name):
    draft = draft_of(
        "Sample,Date taken,Parameter,Result,Unit\nWell,2019-12-23,Lead,22,ug/L\n"
        f"{name},2019-12-23,Lead,3,ug/L\n"
    )
    assert taken(draft) == {"lead": "22"}
    assert [one.what for one in draft.not_taken] == ["3"]


def test_kinds_of_checks_under_qc_sample_are_left_out(draft_of):
    draft = draft_of(
        "QC sample,Date taken,Analyte,Result,Unit\nMethod blank,2019-12-23,Lead,<1,ug/L\n"
        "Sample,2019-12-23,Lead,22,ug/L\n"
    )
    assert taken(draft) == {"lead": "22"}


@pytest.mark.parametrize("line", ["Erhebung: 17. Oktober 2025", "Probe vom 17. Oktober 2025"])
def test_more_german_words_tell_the_day_of_sampling(draft_of, line):
    draft = draft_of(f"{line}\nUntersuchung;Ergebnis;Einheit\nBlei;0,004;mg/l\nEisen;0,1;mg/l\n")
    assert [one.sample.collected.iso() for one in draft.samples] == ["2025-10-17"]


def test_a_code_of_five_digits_is_no_postcode(draft_of):
    """USGS parameter codes, which are public; 71846 is not in the list here."""
    draft = draft_of(
        "sample_dt,parm_cd,remark_cd,result_va,meth_cd\n1983-08-16,00618,,5.2,ALGOR\n"
        "1983-08-16,71846,<,0.013,ALGOR\n"
    )
    kinds = [one.reading.kind for s in draft.samples for one in s.sample.results]
    assert kinds == [Kind.NUMBER, Kind.BELOW]


def test_a_line_about_the_next_sample_is_no_result_and_tells_its_day_and_place(draft_of):
    draft = draft_of(
        "Sample 1:,Kitchen tap,Collected:,2025-05-23,\nAnalyte,Result,Units,RL,Method\n"
        "Calcium,34.4,mg/L,0.5,EPA 200.7\n,,,,\n"
        "Sample 2:,Barn hydrant,Collected:,2025-09-24,\nAnalyte,Result,Units,RL,Method\n"
        "Lead,10.7,ug/L,1,EPA 200.8\n"
    )
    assert [
        (one.sample.collected.iso(), one.point_name, [r.name for r in one.sample.results])
        for one in draft.samples
    ] == [("2025-05-23", "Kitchen tap", ["Calcium"]), ("2025-09-24", "Barn hydrant", ["Lead"])]


@pytest.mark.parametrize(
    "about",
    [
        "Sample ID:,7714-0{n},Description:,{place}\nCollected:,2024-04-20,Matrix:,Water\n",
        "Sample 7714-0{n}: {place}\nCollected: 2024-04-20\n",
        "Sample 7714-0{n},{place}\nCollected,2024-04-20\n",
    ],
)
def test_a_blank_between_blocks_of_samples_is_no_water_of_the_household(draft_of, about):
    """Blanks go along to tell what bottles and the way add; they are clean by intent."""
    blocks = (("Kitchen tap", "7.3"), ("Trip blank", "ND"), ("Well head", "22"))
    draft = draft_of(
        "".join(
            about.format(n=n, place=place) + f"Analyte,Result,Units\nLead,{text},ug/L\n\n"
            for n, (place, text) in enumerate(blocks, 1)
        )
    )
    found = [[r.reading.text for r in one.sample.results] for one in draft.samples]
    assert found == [["7.3"], ["22"]]
    assert [one.what for one in draft.not_taken if "check" in one.why] == ["ND"]


def test_a_duplicate_of_the_lab_is_left_out_and_one_from_the_field_is_kept_as_such(draft_of):
    draft = draft_of(
        "SampType,FieldID,SampDate,Analyte,Result,Units\n"
        "SAMP,KITCHEN,2013-09-20,Lead,7.3,ug/L\nLAB DUP,DUP-88,2013-09-20,Lead,7.1,ug/L\n"
        "Field Duplicate,DUP-1,2013-09-20,Lead,9.9,ug/L\n"
    )
    found = [r.reading for one in draft.samples for r in one.sample.results]
    assert [one.text for one in found] == ["7.3", "9.9"]
    assert found[1].flags == {Flag.DUPLICATE}
    assert [mark.doubts for one in draft.samples for mark in one.marks] == [(), ("second_bottle",)]


@pytest.mark.parametrize(
    ("head", "kinds"),
    [
        ("Type d'échantillon", ("Eau de puits", "Blanc de terrain", "Doublon")),
        ("Nature du prélèvement", ("Eau", "Témoin", "Duplicata de terrain")),
        ("Tipo de muestra", ("Agua de pozo", "Blanco de campo", "Duplicado")),
        ("Probenart", ("Brunnenwasser", "Feldblindwert", "Doppelprobe")),
        ("Probentyp", ("Brunnenwasser", "Blindprobe", "Parallelprobe")),
        ("Sample Type", ("Well water", "Field Blank", "Duplicate")),
    ],
)
def test_kinds_of_samples_are_understood_in_each_language(draft_of, head, kinds):
    rows = "".join(
        f"E-{n};{kind};17.10.2023;Calcium;{figure};mg/l\n"
        for n, (kind, figure) in enumerate(zip(kinds, ("34", "<1", "36"), strict=True), 1)
    )
    draft = draft_of(f"Sample;{head};Collected;Parameter;Result;Unit\n{rows}")
    found = [r.reading for one in draft.samples for r in one.sample.results]
    assert [(one.text, one.flags) for one in found] == [("34", set()), ("36", {Flag.DUPLICATE})]
    assert [mark.doubts for one in draft.samples for mark in one.marks] == [(), ("second_bottle",)]
    assert [one.what for one in draft.not_taken] == ["<1"]


def test_a_row_of_days_tells_more_than_the_years_above_it(draft_of):
    """Otherwise a certain reading stood on the first day of its year."""
    draft = draft_of(
        "Hausbrunnen,2022,2024\nProbe am,25.04.2022,22.04.2024\nEisen (mg/l),0.04,0.06\n"
        "Chlorid (mg/l),30,34\nKosten (EUR),125,139\n"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2022-04-25", "2024-04-22"]
    assert [[r.reading.text for r in one.sample.results] for one in draft.samples] == [
        ["0.04", "30"],
        ["0.06", "34"],
    ]


def test_a_row_of_days_of_other_years_leaves_the_years_as_they_are(draft_of):
    draft = draft_of(
        "Hausbrunnen,2022,2024\nProbe am,25.04.2023,22.04.2024\nEisen (mg/l),0.04,0.06\n"
        "Chlorid (mg/l),30,34\n"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2022", "2024"]


def test_a_dash_in_a_row_of_units_is_a_lack_of_one(draft_of):
    draft = draft_of(
        "Prélevé le,Fer,Manganèse,pH\nUnité,mg/L,µg/L,-\n2025-05-14,0.42,88,6.7\n", "a.csv"
    )
    assert [r.reading.unit for r in draft.samples[0].sample.results] == ["mg/L", "µg/L", "-"]
