"""Small lab files as labs lay them out: common practice, no source."""

from datetime import date, time
from decimal import Decimal

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind

REPORT = """\
Pinewater Analytical,,,,,,
Client: J. Example,,,Report No: PW-24-0177,,,
Sample Location: Kitchen tap,,,Lab Sample ID: PW-24-0177-01,,,
Collected: 05/13/2024 7:15 AM,,,Received: 05/13/2024 10:40 AM,,,
Laboratory: Pinewater Analytical,,,Temp on receipt: 4.2 C,,,
,,,,,,
Parameter,Result,Units,RL,MCL,Method,Analyzed
Total Coliform,Absent,per 100 mL,,,SM 9223B,05/13/2024
METALS,,,,,,
Arsenic,<0.001,mg/L,0.001,0.010,EPA 200.8,05/20/2024
Lead - First Draw,0.0042,mg/L,0.001,0.015,EPA 200.8,05/20/2024
"Iron, Dissolved",ND,mg/L,0.05,0.3,EPA 200.7,05/20/2024
Nitrate as N,3.42,mg/L,0.1,10,EPA 300.0,05/14/2024
,,,,,,
ND = not detected at the reporting limit,,,,,,
Report date: 05/25/2024,,,,,,
"""


def test_lines_above_the_table_tell_about_the_sample(draft_of):
    (sample,) = draft_of(REPORT).samples
    assert sample.point_name == "Kitchen tap"
    assert sample.sample.collected == LocalTime(date(2024, 5, 13), time(7, 15))
    assert sample.sample.received == LocalTime(date(2024, 5, 13), time(10, 40))
    assert sample.sample.lab == "Pinewater Analytical"
    assert sample.sample.lab_number == "PW-24-0177-01"
    assert sample.sample.temperature == "4.2 C"


def test_a_line_below_the_table_fills_what_is_missing(draft_of):
    assert draft_of(REPORT).samples[0].sample.reported == "2024-05-25"


def test_headings_between_rows_and_legends_are_no_results(results_of):
    assert list(results_of(REPORT)) == [
        "Total Coliform",
        "Arsenic",
        "Lead - First Draw",
        "Iron, Dissolved",
        "Nitrate as N",
    ]


def test_the_column_of_legal_limits_is_never_taken_for_a_reporting_limit(results_of):
    arsenic = results_of(REPORT)["Arsenic"]
    assert arsenic.reporting_limit == "0.001"
    assert arsenic.detection_limit == ""
    assert arsenic.reading.kind is Kind.BELOW


def test_a_non_detect_takes_its_limit_from_the_column_beside_it(results_of):
    iron = results_of(REPORT)["Iron, Dissolved"]
    assert (iron.reading.text, iron.reading.number) == ("ND", Decimal("0.05"))
    assert (iron.parameter, iron.reading.fraction) == ("iron", "dissolved")


def test_what_stands_in_the_name_is_taken_out_of_it(results_of):
    found = results_of(REPORT)
    assert (found["Nitrate as N"].parameter, found["Nitrate as N"].reading.basis) == (
        "nitrate",
        "as N",
    )
    lead = found["Lead - First Draw"]
    assert (lead.parameter, lead.draw) == ("lead", "first draw")


def test_method_and_day_of_analysis_stand_with_their_result(results_of):
    arsenic = results_of(REPORT)["Arsenic"]
    assert arsenic.method == "EPA 200.8"
    assert arsenic.analysed == LocalTime(date(2024, 5, 20))


def test_an_unknown_parameter_is_kept_and_said(draft_of):
    draft = draft_of("Analyte,Result,Units,Collected\nFrobnium,2.1,mg/L,2024-05-13\n")
    (result,) = draft.samples[0].sample.results
    assert (result.parameter, result.name, result.reading.number) == (
        "",
        "Frobnium",
        Decimal("2.1"),
    )
    (finding,) = draft.findings
    assert (finding.key, finding.severity, finding.where) == ("unknown_parameter", "ask", "row 2")


def test_samples_are_told_apart_by_day_time_point_and_number(draft_of):
    draft = draft_of(
        "Sample ID,Sampled,Time,Location,Analyte,Result,Units\n"
        "1,2024-05-13,07:15,Kitchen tap,Iron,0.1,mg/L\n"
        "1,2024-05-13,07:15,Kitchen tap,Lead,1,ug/L\n"
        "2,2024-05-13,07:15,Kitchen tap,Iron,0.1,mg/L\n"
        "1,2024-05-14,07:15,Kitchen tap,Iron,0.1,mg/L\n"
        "1,2024-05-13,08:15,Kitchen tap,Iron,0.1,mg/L\n"
        "1,2024-05-13,07:15,Well head,Iron,0.1,mg/L\n"
    )
    assert [len(s.sample.results) for s in draft.samples] == [2, 1, 1, 1, 1]


def test_a_row_that_leaves_the_sample_blank_goes_with_the_one_above(draft_of):
    draft = draft_of(
        "Sample,Date Collected,Analyte,Result,Units\n"
        "Kitchen tap,5/13/2024,Iron,0.2,mg/L\n"
        ",,Lead,<1,ug/L\n"
        "Well head,5/13/2024,Iron,1.2,mg/L\n"
        ",,Lead,2,ug/L\n"
    )
    assert [(s.point_name, len(s.sample.results)) for s in draft.samples] == [
        ("Kitchen tap", 2),
        ("Well head", 2),
    ]


def test_every_block_of_a_file_has_its_own_lines_above(draft_of):
    draft = draft_of(
        "Sample ID: A-1\nCollected: 5/13/2024 07:15\nAnalyte,Result,Units\n"
        "Iron,0.2,mg/L\nNitrate-N,1.1,mg/L\n\n"
        "Sample ID: A-2\nCollected: 5/14/2024 07:20\nAnalyte,Result,Units\n"
        "Iron,0.3,mg/L\nLab: Pinewater Analytical\n"
    )
    first, second = (s.sample for s in draft.samples)
    assert (first.lab_number, first.collected.day, len(first.results)) == (
        "A-1",
        date(2024, 5, 13),
        2,
    )
    assert (second.lab_number, second.collected.day) == ("A-2", date(2024, 5, 14))
    assert first.lab == second.lab == "Pinewater Analytical"


def test_a_heading_that_comes_again_on_the_next_page_is_no_result(draft_of):
    page = "Analyte,Result,Units,Collected\nIron,0.2,mg/L,2024-05-13\n"
    draft = draft_of(page + "Analyte,Result,Units,Collected\nLead,1,ug/L,2024-05-13\n")
    assert [r.name for r in draft.samples[0].sample.results] == ["Iron", "Lead"]


def test_a_second_table_may_have_other_columns(draft_of):
    draft = draft_of(
        "Collected: 2024-05-13\nAnalyte,Result,Units\nIron,0.2,mg/L\n\n"
        "Test,Method,Units,Result\nTotal Coliform,SM 9223B,per 100 mL,Present\n"
    )
    iron, coliform = draft.samples[0].sample.results
    assert iron.reading.unit == "mg/L"
    assert (coliform.method, coliform.reading.kind) == ("SM 9223B", Kind.PRESENT)


def test_a_table_without_headings_is_known_by_its_content(draft_of):
    draft = draft_of(
        "2024-05-03,Iron,0.2,mg/L\n2024-05-03,Nitrate-N,1.1,mg/L\n2024-05-03,pH,7.1,S.U.\n"
    )
    (sample,) = draft.samples
    assert sample.sample.collected.day == date(2024, 5, 3)
    assert [r.parameter for r in sample.sample.results] == ["iron", "nitrate", "ph"]
    assert sample.sample.results[0].reading.unit == "mg/L"


def test_columns_with_strange_headings_are_known_by_their_content(draft_of):
    draft = draft_of("Parameter;Ergebnis;Einheit;Datum\nChloride;25,0;mg/L;13.05.2024\n")
    (result,) = draft.samples[0].sample.results
    assert (result.parameter, result.reading.number, result.reading.unit) == (
        "chloride",
        Decimal("25.0"),
        "mg/L",
    )


def test_a_household_list_with_a_column_for_every_parameter_is_unfolded(draft_of):
    draft = draft_of(
        "Date,Time,Nitrate-N (mg/L),pH,Iron (mg/L),Hardness (gpg),Total coliform\n"
        "4/12/2019,8:00,2.1,7.2,<0.05,18,Absent\n"
        "6/20/2020,,2.4,7.1,0.07,19,Present\n"
    )
    first, second = (s.sample for s in draft.samples)
    assert first.collected == LocalTime(date(2019, 4, 12), time(8, 0))
    assert second.collected == LocalTime(date(2020, 6, 20))
    assert [(r.parameter, r.reading.unit) for r in first.results] == [
        ("nitrate", "mg/L"),
        ("ph", ""),
        ("iron", "mg/L"),
        ("hardness", "gpg"),
        ("total_coliform", ""),
    ]


def test_units_may_stand_in_a_row_under_the_parameters(draft_of):
    draft = draft_of("Collected,Iron,Lead\n,mg/L,ug/L\n2024-05-13,0.2,3\n")
    assert [r.reading.unit for r in draft.samples[0].sample.results] == ["mg/L", "ug/L"]


def test_a_column_for_every_date_is_unfolded(draft_of):
    draft = draft_of(
        "Parameter,Unit,4/12/2019,6/20/2020\nNitrate-N,mg/L,2.1,2.4\nIron,mg/L,<0.05,\n"
    )
    assert [(s.sample.collected.day, len(s.sample.results)) for s in draft.samples] == [
        (date(2019, 4, 12), 2),
        (date(2020, 6, 20), 1),
    ]


def test_a_column_for_every_point_is_unfolded(draft_of):
    draft = draft_of(
        "Collected: 2024-05-03\nTest,Units,Well head,Kitchen tap\n"
        "Iron,mg/L,1.2,<0.05\nHardness,mg/L as CaCO3,210,5\n"
    )
    assert [(s.point_name, len(s.sample.results)) for s in draft.samples] == [
        ("Well head", 2),
        ("Kitchen tap", 2),
    ]


def test_in_a_list_of_samples_a_row_without_a_date_stops_the_file(draft_of):
    draft = draft_of("Date,Iron (mg/L),pH\n2019-04-12,0.1,7.2\n,0.2,7.1\n")
    assert ("no_date", "stop", "row 3") in [(f.key, f.severity, f.where) for f in draft.findings]


def test_in_a_list_of_samples_the_rows_of_limits_and_means_are_left_out_and_named(draft_of):
    draft = draft_of("Date,Iron (mg/L),pH\n2019-04-12,0.1,7.2\nMCL,0.3,6.5\nAverage,0.1,7.2\n")
    assert len(draft.samples) == 1
    notes = [f.text for f in draft.findings if f.key == "no_date_row"]
    assert ["MCL" in notes[0], "Average" in notes[1]] == [True, True]


def test_a_row_may_tell_the_date_of_every_column(draft_of):
    draft = draft_of(
        ",Unit,First test,Second test\nDate collected,,4/12/2019,6/20/2020\n"
        "Location,,Kitchen tap,Well head\nIron,mg/L,0.1,0.2\npH,,7.2,7.1\n"
    )
    assert [(s.point_name, s.sample.collected.day) for s in draft.samples] == [
        ("Kitchen tap", date(2019, 4, 12)),
        ("Well head", date(2020, 6, 20)),
    ]
    assert [r.name for r in draft.samples[0].sample.results] == ["Iron", "pH"]


def test_the_unit_may_stand_over_the_column(results_of):
    found = results_of("Analyte,Result (mg/L),Collected\nIron,0.2,2024-05-13\n")
    assert found["Iron"].reading.unit == "mg/L"


def test_a_sign_in_a_column_of_its_own_is_put_before_the_figure(results_of):
    found = results_of(
        "Analyte,Sign,Result,Units,Collected\nIron,<,0.05,mg/L,2024-05-13\n"
        "Lead,,3,ug/L,2024-05-13\n"
    )
    assert (found["Iron"].reading.text, found["Iron"].reading.kind) == ("<0.05", Kind.BELOW)
    assert found["Lead"].reading.kind is Kind.NUMBER


def test_a_column_that_says_not_detected_makes_the_figure_a_limit(results_of):
    found = results_of(
        "Analyte,Result,Detected,Units,Collected\nIron,0.05,N,mg/L,2024-05-13\n"
        "Lead,3,Y,ug/L,2024-05-13\n"
    )
    assert found["Iron"].reading.kind is Kind.BELOW
    assert found["Lead"].reading.kind is Kind.NUMBER


def test_flag_letters_are_kept_and_understood(results_of):
    found = results_of(
        "Analyte,Result,Qual,Units,RL,MDL,Collected\n"
        "Iron,0.03,J,mg/L,0.05,0.01,2024-05-13\nLead,1,U,ug/L,1,0.2,2024-05-13\n"
    )
    assert found["Iron"].reading.flags == {Flag.ESTIMATED}
    assert found["Iron"].qualifier == "J"
    assert (found["Iron"].reporting_limit, found["Iron"].detection_limit) == ("0.05", "0.01")
    assert found["Lead"].reading.kind is Kind.BELOW


def test_a_comment_on_the_holding_time_is_a_flag_and_other_prose_is_not(results_of):
    found = results_of(
        "Test,Result,Comments,Collected\n"
        "Total Coliform,Absent,Received past 30-hour hold time,2024-05-13\n"
        "E. coli,Absent,See E. coli note U,2024-05-13\n"
    )
    assert found["Total Coliform"].reading.flags == {Flag.HELD_TOO_LONG}
    assert "hold time" in found["Total Coliform"].qualifier
    assert found["E. coli"].reading.flags == frozenset()


def test_the_purpose_on_the_order_form_becomes_one_that_the_record_knows(draft_of):
    for words, purpose in (
        ("Real Estate Transfer", "sale"),
        ("FHA loan", "loan"),
        ("Annual check", "routine"),
        ("because", ""),
    ):
        draft = draft_of(
            f"Purpose: {words}\nCollected: 2024-05-13\nAnalyte,Result,Units\nIron,0.2,mg/L\n"
        )
        assert draft.samples[0].sample.purpose == purpose


def test_the_labs_own_checks_are_left_out_and_counted(draft_of):
    draft = draft_of(
        "Sample Type,Analyte,Result,Units,Collected\n"
        "Sample,Iron,0.2,mg/L,2024-05-13\nMethod Blank,Iron,<0.05,mg/L,2024-05-13\n"
        "Field Duplicate,Iron,0.21,mg/L,2024-05-13\nMS,Iron,98,% Recovery,2024-05-13\n"
    )
    first, second = draft.samples[0].sample.results
    assert first.reading.flags == frozenset()
    assert second.reading.flags == {Flag.DUPLICATE}
    told = {f.key: f.severity for f in draft.findings}
    assert told == {"quality_control": "note", "second_bottle": "ask"}


def test_bare_letters_mean_present_or_absent_where_that_is_what_is_tested(results_of):
    found = results_of("Test,Result,Collected\nTotal Coliform,P,2024-05-13\nE. coli,A,2024-05-13\n")
    assert found["Total Coliform"].reading.kind is Kind.PRESENT
    assert found["E. coli"].reading.kind is Kind.ABSENT


def test_a_result_that_is_missing_is_not_analysed_and_never_a_non_detect(draft_of):
    draft = draft_of("Collected: 2024-05-13\nAnalyte,Result,Units\nIron,,mg/L\nLead,1,ug/L\n")
    iron = draft.samples[0].sample.results[0]
    assert iron.reading.kind is Kind.NONE
    assert [f.key for f in draft.findings] == ["no_result"]


def test_nitrate_without_a_basis_is_asked_about(draft_of):
    draft = draft_of("Analyte,Result,Units,Collected\nNitrate,4,mg/L,2024-05-13\n")
    (finding,) = draft.findings
    assert (finding.key, finding.severity) == ("no_basis", "ask")
    assert "as N or as NO3" in finding.text


def test_a_unit_in_which_this_cannot_be_measured_is_asked_about(draft_of):
    draft = draft_of("Analyte,Result,Units,Collected\nNitrate-N,4,NTU,2024-05-13\n")
    assert [(f.key, f.severity) for f in draft.findings] == [("unfit_unit", "ask")]


def test_a_figure_may_bring_its_unit_along(results_of):
    found = results_of("Analyte,Result,Collected\nIron,0.05 mg/L,2024-05-13\n")
    assert (found["Iron"].reading.number, found["Iron"].reading.unit) == (Decimal("0.05"), "mg/L")


def test_a_list_of_names_and_figures_with_their_units_is_enough(results_of):
    found = results_of("Collected: 2024-05-13\nIron,0.05 mg/L\nNitrate-N,<0.5 mg/L\npH,7.1\n")
    assert [(r.parameter, r.reading.unit) for r in found.values()] == [
        ("iron", "mg/L"),
        ("nitrate", "mg/L"),
        ("ph", ""),
    ]


def test_cells_that_are_guarded_against_spreadsheets_are_freed(draft_of):
    draft = draft_of(
        'Sample ID,Analyte,Result,Units,Collected\n="00123",Iron,="0.20",mg/L,2024-05-13\n'
    )
    (sample,) = draft.samples
    assert sample.sample.lab_number == "00123"
    assert sample.sample.results[0].reading.text == "0.20"


def test_day_and_time_in_one_line_above_the_table(draft_of):
    draft = draft_of(
        "Date Sampled: 05/13/2024 Time: 7:15 AM\nAnalyte,Result,Units\nIron,0.2,mg/L\n"
    )
    assert draft.samples[0].sample.collected == LocalTime(date(2024, 5, 13), time(7, 15))


def test_a_file_of_usgs_codes_with_its_line_of_column_widths(draft_of):
    # The layout of RDB files of the U.S. Geological Survey: comments, names, widths, rows.
    draft = draft_of(
        "# U.S. Geological Survey\n#\nsite_no\tsample_dt\tsample_tm\tparm_cd\tremark_cd\t"
        "result_va\n15s\t10d\t5s\t5s\t1s\t12s\n"
        "0149\t1990-05-01\t0915\t00618\t\t1.2\n0149\t1990-05-01\t0915\t01049\t<\t5\n"
    )
    (sample,) = draft.samples
    nitrate, lead = sample.sample.results
    assert sample.sample.collected == LocalTime(date(1990, 5, 1), time(9, 15))
    assert (nitrate.parameter, nitrate.reading.unit, nitrate.reading.basis) == (
        "nitrate",
        "mg/L",
        "as N",
    )
    assert (lead.parameter, lead.reading.text, lead.reading.unit) == ("lead", "<5", "ug/L")


def test_a_non_detect_of_the_open_exchange_takes_unit_and_figure_from_its_limit(draft_of):
    # Column names of WQX in the older layout.
    draft = draft_of(
        "CharacteristicName,ResultMeasureValue,ResultMeasure/MeasureUnitCode,"
        "ResultDetectionConditionText,DetectionQuantitationLimitTypeName,"
        "DetectionQuantitationLimitMeasure/MeasureValue,"
        "DetectionQuantitationLimitMeasure/MeasureUnitCode,ActivityStartDate,"
        "ResultStatusIdentifier\n"
        "Lead,,,Not Detected,Reporting limit,0.5,ug/L,2020-06-01,Final\n"
        "Iron,0.3,mg/L,,Method Detection Level,0.01,mg/L,2020-06-01,Rejected\n"
        "Zinc,0.3,mg/L,,Method Detection Level,2,ug/L,2020-06-01,Final\n"
    )
    lead, iron, zinc = draft.samples[0].sample.results
    assert (lead.reading.kind, lead.reading.number, lead.reading.unit) == (
        Kind.BELOW,
        Decimal("0.5"),
        "ug/L",
    )
    assert (lead.reading.text, lead.reporting_limit) == ("Not Detected", "0.5")
    assert (iron.detection_limit, iron.reporting_limit) == ("0.01", "")
    assert iron.reading.flags == {Flag.REJECTED}
    assert zinc.detection_limit == "2 ug/L"  # in another unit than the result, and said so


def test_two_different_bases_for_one_result_are_asked_about(draft_of):
    draft = draft_of("Analyte,Result,Units,Collected\nNitrate-N,4,mg/L as NO3,2024-05-13\n")
    assert [f.key for f in draft.findings] == ["two_bases"]


def test_the_whole_file_goes_along_as_a_document(draft_of):
    (sample,) = draft_of(REPORT, "spring test.csv").samples
    (document,) = sample.sample.documents
    assert (document.name, document.kind, document.content) == (
        "spring test.csv",
        "lab report",
        REPORT.encode(),
    )


def test_a_file_of_one_lab_with_a_subcontracted_row_keeps_both_names(draft_of):
    draft = draft_of(
        "Laboratory,Analyte,Result,Units,Collected\nPinewater,Iron,1,mg/L,2024-05-13\n"
        "Saltmarsh Isotopes,Radon,300,pCi/L,2024-05-13\n"
    )
    (sample,) = draft.samples
    assert sample.sample.lab == "Pinewater"
    assert [r.lab for r in sample.sample.results] == ["", "Saltmarsh Isotopes"]
