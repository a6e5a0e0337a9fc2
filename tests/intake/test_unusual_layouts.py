"""Layouts of labs and of households that are rare, and are met. All labs are invented."""

import io
import json
import re
import zipfile
from email.message import EmailMessage

import openpyxl
import pytest
from reportlab.lib import colors
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Paragraph, SimpleDocTemplate, Table, TableStyle

from wellbook import intake
from wellbook.support.errors import Fault


def taken(draft):
    """Day, point, parameter and text of each result."""
    return [
        (one.sample.collected.iso()[:10], one.point_name, r.parameter or r.name, r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ]


@pytest.mark.parametrize(
    "line",
    [
        "Collected:,06/18/2019 Time: 8:15 AM",
        "Analytical Report Sample Date 06/18/2019 Sample ID Tap-1",
        'Received: 06/19/2019 Collected: 06/18/2019,""',
        "Sample of 18 June 2019",
        '"Thank you for the sample, which was collected on June 18, 2019 from the kitchen"',
        "collectedAt,2019-06-18T08:15:00",
    ],
)
def test_the_day_of_sampling_is_found_in_a_line(draft_of, line):
    draft = draft_of(f"{line}\nParameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n")
    assert {row[0] for row in taken(draft)} == {"2019-06-18"}


def test_a_label_beside_another_is_no_value_and_both_have_theirs_below(draft_of):
    draft = draft_of(
        "Lab number:,Owner:\n21-2291,Elm Hollow\nSampling point:,Date reported:\n"
        "Kitchen,07/29/2021\nCollected:,Received:\n07/27/2021 09:10,07/27/2021 11:00\n"
        "Parameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n"
    )
    (one,) = draft.samples
    assert (one.sample.lab_number, one.point_name) == ("21-2291", "Kitchen")
    assert one.sample.collected.iso().startswith("2021-07-27T09:10")


@pytest.mark.parametrize(
    ("head", "lab"),
    [
        ("Mossback Water Laboratory", "Mossback Water Laboratory"),
        ("Laboratorio Agua Clara,", "Laboratorio Agua Clara"),
        ("Hydrolabor Eichgrund", ""),  # a part of a word tells nothing
        ("Laboratory Report", ""),
        ("Laboratory,", ""),
        ("Prepared by the laboratory", ""),
        ("Lab number: 12", ""),
    ],
)
def test_the_head_of_a_letter_names_the_lab(draft_of, head, lab):
    draft = draft_of(f"{head}\nCollected: 2019-06-18\nParameter,Result,Unit\nChloride,27,mg/L\n")
    assert {one.sample.lab for one in draft.samples} == {lab}


def test_another_day_in_a_sentence_is_no_day_of_sampling(draft_of):
    draft = draft_of(
        "Your sample was received on June 18, 2019\nLimits of 12/26/2021\n"
        "Parameter,Result,Unit\nChloride,27,mg/L\nIron,0.2,mg/L\n"
    )
    assert "no_date" in {finding.key for finding in draft.stops}


def test_a_household_s_own_sheet_has_its_days_across_and_they_are_asked_about(draft_of):
    draft = draft_of(
        "Date tested,11/14/2012,11/28/2013\nFe ppm,0.57,0.41\narsenic ppb,2.6,8.9\n"
        "bacteria,pos,neg\nnotes,,dry spell\n"
    )
    assert [row[0] for row in taken(draft)] == ["2012-11-14"] * 3 + ["2013-11-28"] * 3
    assert [row[3] for row in taken(draft)] == ["0.57", "2.6", "pos", "0.41", "8.9", "neg"]
    noted = [finding.text for one in (draft, *draft.samples) for finding in one.findings]
    assert any("taken as the day of sampling" in text for text in noted)


def test_each_column_of_samples_tells_its_place_and_its_day(draft_of):
    draft = draft_of(
        "Analyte,Unit,Kitchen (03/22/2023),Barn - 04/24/2023,Limit\nLead,ug/L,3.1,2.7,10\n"
        "Chloride,mg/L,18,17,250\n"
    )
    assert taken(draft) == [
        ("2023-03-22", "Kitchen", "lead", "3.1"), ("2023-03-22", "Kitchen", "chloride", "18"),
        ("2023-04-24", "Barn", "lead", "2.7"), ("2023-04-24", "Barn", "chloride", "17"),
    ]  # fmt: skip


def test_days_across_and_words_about_each_sample_below(draft_of):
    draft = draft_of(
        "Sampled,12-Mar-2019,14-May-2021\nSampled by,owner,owner\nLab No.,7731,8842\n"
        '"Lead, ug/L",3.1,2.7\nTotal coliform,absent,PRESENT\n'
    )
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2019-03-12", "3.1"), ("2019-03-12", "absent"),
        ("2021-05-14", "2.7"), ("2021-05-14", "PRESENT"),
    ]  # fmt: skip
    assert [one.sample.lab_number for one in draft.samples] == ["7731", "8842"]


def test_notes_below_a_sheet_of_years_are_no_results(draft_of):
    draft = draft_of(
        ",2018,2019,2020\nNitrate (ppm),3.1,2.7,2.9\nIron (ppm),0.2,0.1,0.3\nNotes,ok,new pump,ok\n"
    )
    assert {row[2] for row in taken(draft)} == {"nitrate", "iron"}


def test_a_diary_has_a_day_over_each_visit(draft_of):
    draft = draft_of(
        "Well diary\n\nMay 21, 2017\n  Nitrate 1.9 mg/L\n  Coliform absent\n\n"
        "June 14, 2018\n  Nitrate 2.2 mg/L\n  Coliform present\n",
        "diary.txt",
    )
    assert [(row[0], row[2]) for row in taken(draft)] == [
        ("2017-05-21", "nitrate"), ("2017-05-21", "total_coliform"),
        ("2018-06-14", "nitrate"), ("2018-06-14", "total_coliform"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "title", ["Quality Control - Method Blank", "QC Summary", "Laboratory Control Sample"]
)
def test_results_below_a_title_of_checks_are_none_of_the_water(draft_of, title):
    draft = draft_of(
        f"Collected,2024-06-05\nAnalyte,Result,Unit\nIron,0.4,mg/L\nLead,3,ug/L\n{title}\n"
        "Analyte,Result,Unit\nIron,<0.05,mg/L\nLead,<0.05,ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["0.4", "3"]
    assert [one.what for one in draft.not_taken if one.is_aside] == ["<0.05", "<0.05"]


def test_a_line_that_only_mentions_checks_hides_nothing(draft_of):
    draft = draft_of(
        "Collected,2024-06-05\nAnalyte,Result,Unit\nIron,0.4,mg/L\nQC batch: 77,,\n"
        "All quality control criteria were met,,\nLead,3,ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["0.4", "3"]


@pytest.mark.parametrize(
    ("word", "kind"), [("found", "present"), ("bad", "present"), ("ok", "absent")]
)
def test_what_a_household_notes_of_germs_is_asked_about(draft_of, word, kind):
    draft = draft_of(f"date,germs,nitrate mg/l\n2019-06-18,{word},3.1\n2020-06-18,{word},3.3\n")
    found = [r for s in draft.samples for r in s.sample.results if r.name == "germs"]
    assert {(r.parameter, r.reading.kind.value) for r in found} == {("total_coliform", kind)}
    doubts = [mark.doubts for sample in draft.samples for mark in sample.marks]
    assert doubts[0][0] == "near_name"


def test_heads_of_a_page_stand_in_two_lines_of_different_height(draft_of, tmp_path):
    heads = ["Location", "Collected", "Iron\nmg/L", "Lead\nug/L"]
    rows = [heads, ["Kitchen", "03/28/2019", "0.3", "<1.0"], ["Barn", "02/15/2022", "ND", "8.8"]]
    path = tmp_path / "report.pdf"
    ruled = TableStyle([("GRID", (0, 0), (-1, -1), 0.4, colors.grey)])
    SimpleDocTemplate(str(path)).build([Table(rows, style=ruled)])
    assert taken(draft_of(path.read_bytes(), "page.pdf")) == [
        ("2019-03-28", "Kitchen", "iron", "0.3"), ("2019-03-28", "Kitchen", "lead", "<1.0"),
        ("2022-02-15", "Barn", "iron", "ND"), ("2022-02-15", "Barn", "lead", "8.8"),
    ]  # fmt: skip


def test_words_of_results_stand_in_a_second_column(draft_of):
    draft = draft_of(
        "SampleDate,Analyte,Numeric Result,Text Result,Units\n2019-06-18,Lead,3.1,,ug/L\n"
        "2019-06-18,Total coliform,,Present,\n"
    )
    assert [row[3] for row in taken(draft)] == ["3.1", "Present"]


def test_a_column_that_asks_less_than_makes_non_detects(draft_of):
    draft = draft_of(
        "SAMPLE_DATE,PARAMETER,RESULT_VALUE,UNITS,LESS_THAN_IND\n2019-06-18,Lead,0.5,ug/L,Y\n"
        "2019-06-18,Iron,0.3,mg/L,N\n"
    )
    kinds = [r.reading.kind.value for s in draft.samples for r in s.sample.results]
    assert kinds == ["below", "number"]


def test_years_and_months_in_columns_of_their_own_make_one_day(draft_of):
    draft = draft_of("Year,Month,Nitrate (mg/L),Iron (mg/L)\n2014,3,3.1,0.2\n2015,July,3.3,0.1\n")
    assert {row[0] for row in taken(draft)} == {"2014-03", "2015-07"}


def test_of_a_rough_day_the_year_or_the_month_is_kept(draft_of):
    draft = draft_of(
        "When,Nitrate (mg/L),Iron (mg/L)\nspring 2015,3.1,0.2\n~2016,3.3,0.1\nabout May 2017,3,1\n"
    )
    assert [row[0] for row in taken(draft)][::2] == ["2015", "2016", "2017-05"]


def test_a_row_without_a_day_is_left_out_and_said(draft_of):
    draft = draft_of(
        "Date,Nitrate (mg/L),Iron (mg/L)\n2015-06-18,3.1,0.2\n2016-06-18,3.2,0.3\nlater,9.9,0.8\n"
    )
    assert [one.what for one in draft.not_taken] == ["9.9", "0.8"]


def test_the_word_for_the_results_stands_over_several_places(draft_of):
    draft = draft_of(
        "Sampled: 18 June 2019\nTest,Unit,Result,,Limit\n,,Kitchen,Barn,\nLead,ug/L,3.1,2.7,10\n"
        "Iron,mg/L,0.2,0.4,0.3\n"
    )
    assert [(row[1], row[3]) for row in taken(draft)] == [
        ("Kitchen", "3.1"), ("Kitchen", "0.2"), ("Barn", "2.7"), ("Barn", "0.4"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("printed", "number"),
    [("3.2 (high)", "3.2"), ("4.4 ok", "4.4"), ("3.2 mg/L (limit 10)", "3.2"), ("5.5!", "5.5")],
)
def test_what_is_noted_behind_a_figure_leaves_the_figure(results_of, printed, number):
    found = results_of(f"Sampled,2019-06-18\nTest,Result,Unit\nChloride,{printed},mg/L\n")
    reading = found["Chloride"].reading
    assert (reading.text, str(reading.number)) == (printed, number)


def test_facts_stand_below_their_words(draft_of):
    draft = draft_of(
        "Client,Sample Location,Date Sampled,Time\nA. Example,Kitchen,06/18/2019,09:15\n,,,\n"
        "TEST,METHOD,RESULT,UNITS\nLead,EPA 200.8,3.1,ug/L\nIron,EPA 200.7,0.2,mg/L\n"
    )
    assert {row[:2] for row in taken(draft)} == {("2019-06-18", "Kitchen")}


def test_each_row_of_labels_and_values_is_a_result(draft_of):
    draft = draft_of(
        "Sampled: 06/18/2019\n"
        "Parameter: Lead;Result: 3.1;Units: ug/L\nParameter: Iron;Result: <0.1;Units: mg/L\n"
    )
    assert [row[2:] for row in taken(draft)] == [("lead", "3.1"), ("iron", "<0.1")]


def test_a_line_tells_a_whole_visit(draft_of):
    draft = draft_of(
        "WELL TESTS\n2014: nitrate 3.1 mg/L, iron 0.3 mg/L, coliform negative\n"
        "2015: nitrate 3.3 mg/L, iron 0.2 mg/L, coliform positive\n",
        "tests.txt",
    )
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2014", "3.1 mg/L"), ("2014", "0.3 mg/L"), ("2014", "negative"),
        ("2015", "3.3 mg/L"), ("2015", "0.2 mg/L"), ("2015", "positive"),
    ]  # fmt: skip


def test_sentences_of_a_page_are_read_and_asked_about(draft_of, tmp_path):
    path = tmp_path / "letter.pdf"
    words = (
        "The sample that was collected on June 18, 2019 held little. Lead was 3.1 ug/L. "
        "Total coliform was present."
    )
    SimpleDocTemplate(str(path)).build([Paragraph(words, getSampleStyleSheet()["Normal"])])
    draft = draft_of(path.read_bytes(), "letter.pdf")
    assert [(row[0], row[2], row[3]) for row in taken(draft)] == [
        ("2019-06-18", "lead", "3.1"), ("2019-06-18", "total_coliform", "present"),
    ]  # fmt: skip
    assert all("prose" in mark.doubts for sample in draft.samples for mark in sample.marks)
    assert draft.samples[0].marks[0].place.page == 1


def test_what_a_sentence_tells_beside_a_table_is_listed(draft_of):
    draft = draft_of(
        "Sampled: 06/18/2019\n\nLead: 3.1 ug/L\nIron: 0.2 mg/L\n\n"
        "E. coli was present in the sample.\nYour nitrate seems to have risen to 12 mg/L since.\n",
        "mail.txt",
    )
    assert [one.what for one in draft.not_taken] == ["present", "12"]


def test_keys_of_a_program_are_names_with_units(draft_of):
    draft = draft_of(
        "sample_date,site,NO3-N_mgL,Fe_mg/L,Pb_ugL,ecoli_p_a\n2019-06-18,tap,3.1,0.2,1.4,A\n"
        "2020-06-18,tap,3.3,0.1,1.1,P\n"
    )
    assert [(r.parameter, r.reading.unit) for r in draft.samples[0].sample.results] == [
        ("nitrate", "mg/L"), ("iron", "mg/L"), ("lead", "ug/L"), ("e_coli", ""),
    ]  # fmt: skip


def test_readings_stand_in_records_inside_of_records(draft_of):
    draft = draft_of(
        '{"samples": [{"date": "2019-06-18", "readings": {"nitrate_mg_l": 3.1, "ph": 7.2}},'
        ' {"date": "2020-06-18", "readings": {"nitrate_mg_l": 3.3, "ph": 7.1}}]}',
        "r.json",
    )
    assert [row[::2] + row[3:] for row in taken(draft)][:2] == [
        ("2019-06-18", "nitrate", "3.1"), ("2019-06-18", "ph", "7.2"),
    ]  # fmt: skip


def test_a_web_page_without_a_table_is_read_line_by_line(draft_of):
    draft = draft_of(
        "<div>Collected: 06/18/2019</div><div><b>Iron</b>: 0.2 mg/L</div><div>Lead: ND</div>",
        "mail.html",
    )
    assert [row[::2] for row in taken(draft)] == [("2019-06-18", "iron"), ("2019-06-18", "lead")]


def test_lines_above_a_heading_tell_its_samples_apart(draft_of):
    draft = draft_of(
        "Lab ID,,25-1234-01,25-1234-02\nClient ID,,Kitchen,Barn\nDate,,06/18/2019,06/19/2019\n"
        "Analyte,Units,,\nLead,ug/L,3.1,2.7\nIron,mg/L,0.2,0.4\n"
    )
    assert [(row[0], row[2], row[3]) for row in taken(draft)] == [
        ("2019-06-18", "lead", "3.1"), ("2019-06-18", "iron", "0.2"),
        ("2019-06-19", "lead", "2.7"), ("2019-06-19", "iron", "0.4"),
    ]  # fmt: skip
    assert [one.place.column for one in draft.samples[1].marks] == [4, 4]


def test_a_table_without_a_heading_keeps_its_units(draft_of):
    draft = draft_of("Sampling date:,18 June 2019,\nLead,3.1,ug/L\nIron,0.2,mg/L\nZinc,1,mg/L\n")
    units = [r.reading.unit for s in draft.samples for r in s.sample.results]
    assert units == ["ug/L", "mg/L", "mg/L"]


def test_a_count_behind_present_leaves_the_word(results_of):
    found = results_of("Sampled,2019-06-18\nTest,Result\nE. coli,Present (12 MPN/100mL)\n")
    assert found["E. coli"].reading.kind.value == "present"


def test_words_behind_a_day_are_no_time(draft_of):
    draft = draft_of(
        "Entnahme: 18.06.2019 durch Auftraggeber\nParameter;Wert;Dim.\nEisen;0,2;mg/l\n"
    )
    assert taken(draft)[0][0] == "2019-06-18"
    assert "bad_time" not in {finding.key for finding in draft.findings}


def test_two_samples_of_one_mail_stay_apart(draft_of):
    draft = draft_of(
        "Sample: Kitchen\nCollected: 06/18/2019\nLead: 3.1 ug/L\nIron: 0.2 mg/L\n\n"
        "Sample: Barn\nCollected: 06/19/2020\nLead: 2.7 ug/L\nIron: 0.4 mg/L\n",
        "mail.txt",
    )
    assert [(row[0], row[2]) for row in taken(draft)] == [
        ("2019-06-18", "lead"), ("2019-06-18", "iron"),
        ("2020-06-19", "lead"), ("2020-06-19", "iron"),
    ]  # fmt: skip


def test_result_stands_over_each_of_two_samples(draft_of):
    draft = draft_of(
        ",Sample 1,Sample 2,\nCollected,06/18/2019,06/19/2020,\nLocation,Kitchen,Barn,\n"
        "Parameter,Result,Result,Units\nLead,3.1,2.7,ug/L\nIron,0.2,0.4,mg/L\n"
    )
    found = [
        (one.sample.collected.iso()[:10], r.reading.text, r.reading.unit)
        for one in draft.samples
        for r in one.sample.results
    ]
    assert found == [
        ("2019-06-18", "3.1", "ug/L"), ("2019-06-18", "0.2", "mg/L"),
        ("2020-06-19", "2.7", "ug/L"), ("2020-06-19", "0.4", "mg/L"),
    ]  # fmt: skip


def test_a_second_column_of_results_is_never_dropped_unsaid(draft_of):
    draft = draft_of(
        "Sampled,2019-06-18\nParameter,Result,Result 2,Unit\nLead,3.1,9.9,ug/L\nIron,0.2,8.8,mg/L\n"
    )
    every = [row[3] for row in taken(draft)] + [one.what for one in draft.not_taken]
    assert {"3.1", "9.9", "0.2", "8.8"} <= set(every)


def test_keys_that_are_days_are_days(draft_of):
    draft = draft_of(
        '{"2019-06-18": {"Iron": "0.2 mg/L", "Lead": "3 ug/L"},'
        ' "2020-06-18": {"Iron": "0.3 mg/L", "Lead": "2 ug/L"}}',
        "r.json",
    )
    assert [row[0] for row in taken(draft)] == ["2019-06-18"] * 2 + ["2020-06-18"] * 2


def test_a_sentence_lists_figures_without_a_verb(draft_of):
    draft = draft_of(
        "Hi Ann,\n\nthe lab called about the sample I took on June 18, 2019. There was iron "
        "0.2 mg/L, lead 3.1 ug/L. No coliform, no E. coli.\n",
        "mail.txt",
    )
    assert {(row[2], row[3].casefold()) for row in taken(draft)} >= {
        ("iron", "0.2"), ("lead", "3.1"), ("total_coliform", "no"),
    }  # fmt: skip


def test_units_stand_below_a_row_of_methods(draft_of):
    draft = draft_of(
        "Sample,Date,Lead,Iron\n,Method,EPA 200.8,EPA 200.7\n,Units,ug/L,mg/L\n"
        "Kitchen,06/18/2019,3.1,0.2\nBarn,06/19/2019,2.7,0.4\n"
    )
    units = [r.reading.unit for s in draft.samples for r in s.sample.results]
    assert units == ["ug/L", "mg/L"] * 2


def test_first_and_flushed_draws_stand_in_columns(draft_of):
    draft = draft_of(
        "Date sampled,06/18/2019\nMetal,Unit,First draw,After 5 min flush\nLead,ug/L,14,1.2\n"
        "Copper,mg/L,0.4,0.1\n"
    )
    found = [(s.sample.draw, r.reading.text) for s in draft.samples for r in s.sample.results]
    assert found == [
        ("first draw", "14"), ("first draw", "0.4"), ("flushed", "1.2"), ("flushed", "0.1"),
    ]  # fmt: skip


@pytest.mark.parametrize("kind", ["MBLK", "LCS", "MS/MSD", "TBLK"])
def test_letters_for_a_check_in_the_column_of_kinds_leave_its_rows_out(draft_of, kind):
    draft = draft_of(
        f"SampleType,SampDate,Param,Res,Unit\n{kind},06/18/2019,Lead,ND,ug/L\n"
        "SAMP,06/18/2019,Lead,3.1,ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["3.1"]


def test_of_a_mail_whose_plain_text_points_to_its_page_the_page_is_read(draft_of):
    mail = EmailMessage()
    mail["From"], mail["To"], mail["Subject"] = "lab@example.org", "me@example.org", "Results"
    mail.set_content("Please see the page.")
    mail.add_alternative(
        "<p>Collected: 06/18/2019</p><table><tr><th>Parameter</th><th>Finding</th><th>Unit</th>"
        "</tr><tr><td>Lead</td><td>3.1</td><td>ug/L</td></tr></table>",
        subtype="html",
    )
    assert [row[2:] for row in taken(draft_of(bytes(mail), "mail.eml"))] == [("lead", "3.1")]


def test_values_of_a_form_stand_behind_colons_in_a_column(draft_of, tmp_path):
    path = tmp_path / "form.pdf"
    page = Canvas(str(path))
    page.setFont("Courier", 10)
    lines = ("DATE TAKEN  : 18-Jun-2019", "LEAD        : 3.1 ug/L", "TDS         : 410 mg/L")
    for n, line in enumerate(lines):
        page.drawString(60, 780 - 15 * n, line)
    page.save()
    assert [row[::2] for row in taken(draft_of(path.read_bytes(), "form.pdf"))] == [
        ("2019-06-18", "lead"), ("2019-06-18", "tds"),
    ]  # fmt: skip


def test_a_workbook_without_a_sheet_is_refused(lab_file, catalogue):
    file = io.BytesIO()
    openpyxl.Workbook().save(file)
    with zipfile.ZipFile(file) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    book = parts["xl/workbook.xml"]
    parts["xl/workbook.xml"] = re.sub(rb"<sheets>.*</sheets>", b"<sheets></sheets>", book)
    emptied = io.BytesIO()
    with zipfile.ZipFile(emptied, "w") as archive:
        for name, part in parts.items():
            archive.writestr(name, part)
    with pytest.raises(Fault):
        intake.read(lab_file(emptied.getvalue(), "book.xlsx"), catalogue)


def test_lines_over_groups_of_columns_tell_the_samples_apart(draft_of):
    draft = draft_of(
        ",,Spring house,,House tap,\n,,Sampled 05/13/2024,,Sampled 06/14/2024,\n"
        "Analyte,Unit,Result,RL,Result,RL\nIron,mg/L,0.2,0.01,0.3,0.01\nZinc,mg/L,1.1,0.01,ND,0.01\n"
    )
    assert taken(draft) == [
        ("2024-05-13", "Spring house", "iron", "0.2"),
        ("2024-05-13", "Spring house", "zinc", "1.1"),
        ("2024-06-14", "House tap", "iron", "0.3"),
        ("2024-06-14", "House tap", "zinc", "ND"),
    ]


def test_a_name_above_its_lines_of_words_and_values_is_their_name(draft_of):
    draft = draft_of(
        "<p>Collected: May 13, 2024</p><h3>Iron</h3><p>Result: 0.2 mg/L</p><p>Limit: 0.3</p>"
        "<h3>Lead</h3><p>Result: 4 ug/L</p><p>Limit: 15</p>",
        "a.html",
    )
    assert [row[2:] for row in taken(draft)] == [("iron", "0.2 mg/L"), ("lead", "4 ug/L")]


@pytest.mark.parametrize(
    "text",
    [
        (
            '{"columns": ["sampled", "parameter", "result", "unit"], "rows": '
            '[["2024-05-13", "Iron", 0.2, "mg/L"], ["2024-05-13", "Lead", 4, "ug/L"]]}'
        ),
        (
            '{"sampled": "2024-05-13", "parameter": ["Iron", "Lead"], "result": [0.2, 4], '
            '"unit": ["mg/L", "ug/L"]}'
        ),
    ],
)
def test_a_json_text_may_hold_a_table_by_columns(draft_of, text):
    rows = [("2024-05-13", "", "iron", "0.2"), ("2024-05-13", "", "lead", "4")]
    assert taken(draft_of(text, "a.json")) == rows


def test_a_day_behind_a_word_that_no_list_has_is_asked_about(draft_of):
    draft = draft_of("Event: May 13, 2024\nParameter,Result,Unit\nIron,0.2,mg/L\n".replace(
        "May 13, 2024", '"May 13, 2024"') .replace('Event: "', '"Event: '))  # fmt: skip
    assert taken(draft)[0][0] == "2024-05-13"
    noted = [finding.text for one in (draft, *draft.samples) for finding in one.findings]
    assert any("taken as the day of sampling" in text for text in noted)


def test_several_facts_of_a_line_are_told_apart_by_their_words(draft_of):
    draft = draft_of(
        "Sample ID: TAP-1 Matrix: Drinking water Date Collected: 05/13/2024 09:20\n"
        "Parameter,Result,Unit\nIron,0.2,mg/L\n"
    )
    assert draft.samples[0].sample.collected.iso() == "2024-05-13T09:20"
    assert draft.samples[0].sample.lab_number == "TAP-1"


def test_a_diary_has_the_day_and_several_readings_in_a_line(draft_of):
    draft = draft_of("Well book\n\n05/13/2014  iron 0.4 mg/L, coliform negative\n"
                     "06/14/2016  iron 0.5 mg/L, coliform positive\n", "a.txt")  # fmt: skip
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2014-05-13", "0.4 mg/L"), ("2014-05-13", "negative"),
        ("2016-06-14", "0.5 mg/L"), ("2016-06-14", "positive"),
    ]  # fmt: skip


@pytest.mark.parametrize(("word", "kind"), [("ja", "present"), ("nein", "absent")])
def test_an_answer_to_the_question_for_bacteria_is_asked_about(draft_of, word, kind):
    sample = draft_of(
        f"Datum,Nitrat (mg/l),Coliforme Keime\n2024-05-13,3,{word}\n2024-06-13,4,{word}\n"
    ).samples[0]
    assert sample.sample.results[1].reading.kind == kind
    assert sample.marks[1].doubts


def test_a_unit_stands_in_a_column_headed_by_a_word_for_results(draft_of):
    draft = draft_of(
        "Collected,2024-05-13\nSubstance,Found,Measured in\nIron,0.2,mg/L\nZinc,0.3,mg/L\n"
    )
    assert [r.reading.unit for r in draft.samples[0].sample.results] == ["mg/L", "mg/L"]


def test_a_bacterium_of_which_none_was_found_is_not_present(draft_of):
    draft = draft_of(
        "Dear Ann,\n\nyour water was collected on May 13, 2024. The iron was 0.2 mg/L. No E. coli "
        "was found.\n",
        "a.txt",
    )
    kinds = [(r.parameter, r.reading.kind) for r in draft.samples[0].sample.results]
    assert [kind for parameter, kind in kinds if parameter == "e_coli"] == ["absent"]


def test_columns_of_blanks_keep_a_cell_that_is_left_empty(draft_of):
    draft = draft_of(
        "Collected: 2024-05-13\n\nParameter   Unit   Result   Limit\n"
        "pH                 6.8      8.5\nIron        mg/L   0.2      0.3\n",
        "a.txt",
    )
    read = [(r.parameter, r.reading.text, r.reading.unit) for r in draft.samples[0].sample.results]
    assert read == [("ph", "6.8", ""), ("iron", "0.2", "mg/L")]


def test_a_column_that_numbers_the_rows_is_not_asked_about(draft_of):
    draft = draft_of(
        "Collected,2024-05-13\n#,RL,Parameter,Your water\n1,0.01,Iron,0.15 mg/L\n"
        "2,0.01,Zinc,0.2 mg/L\n3,0.01,Lead,4 ug/L\n"
    )
    assert [row[3] for row in taken(draft)] == ["0.15 mg/L", "0.2 mg/L", "4 ug/L"]
    assert not draft.stops


def test_results_of_a_json_text_may_stand_under_their_names(draft_of):
    results = {
        "Iron (Fe)": {"value": "1.45", "units": "ppm"},
        "E. coli": {"value": "Negative", "units": ""},
    }
    sample = {"sampleId": "D15", "dateCollected": "2025-10-23", "results": results}
    (found,) = draft_of(json.dumps({"samples": [sample]}), "a.json").samples
    assert [(r.parameter, r.reading.text, r.reading.unit) for r in found.sample.results] == [
        ("iron", "1.45", "ppm"),
        ("e_coli", "Negative", ""),
    ]


def test_a_cell_of_a_web_page_that_reaches_down_is_of_each_row_and_a_figure_of_one(draft_of):
    draft = draft_of(
        "<html><table><tr><th>Date</th><th>Well</th><th>Parameter</th><th>Level</th></tr>"
        "<tr><td rowspan=3>12 May 2022</td><td rowspan=2>Old well</td><td>Nitrate-N</td>"
        "<td rowspan=2>9.1 mg/L</td></tr><tr><td>Chloride</td></tr>"
        "<tr><td>New well</td><td>Nitrate-N</td><td>0.8 mg/L</td></tr></table></html>",
        "page.html",
    )
    told = [
        (one.sample.collected.iso(), one.point_name, result.parameter, result.reading.text)
        for one in draft.samples
        for result in one.sample.results
        if result.reading.text
    ]
    assert told == [
        ("2022-05-12", "Old well", "nitrate", "9.1 mg/L"),
        ("2022-05-12", "New well", "nitrate", "0.8 mg/L"),
    ]


def test_a_parameter_and_its_method_in_one_column_are_a_name(results_of):
    found = results_of(
        "Collected,2020-07-28\nParameter / Method,Detected level,Health limit\n"
        "Lead EPA 200.9,1.2 ug/L,15 ug/L\nIron SM 3111 B,0.2 mg/L,-\n"
    )
    assert {one.parameter for one in found.values()} == {"lead", "iron"}
