"""What households write themselves: notebooks, mails, own sheets. All of them are invented.

What a careful person would copy from each stands beside it; layouts: common practice, no source.
"""

import io

import openpyxl
import pytest

from wellbook.intake.prose import letters, named
from wellbook.intake.words.names import read_name


def taken(draft):
    """Day, point, parameter and printed text of each result."""
    return [
        (one.sample.collected.iso()[:10], one.point_name, r.parameter or r.name, r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ]


def kinds(draft):
    """Parameter and kind of each result."""
    return [
        (r.parameter, str(r.reading.kind).rpartition(".")[2].lower())
        for one in draft.samples
        for r in one.sample.results
    ]


def test_two_wells_side_by_side_keep_their_days_and_their_places(draft_of):
    draft = draft_of(
        "HOUSE WELL,,,,COTTAGE WELL,,\nDate,Iron mg/L,pH,,Date,Iron mg/L,Lead ug/L\n"
        "2015-03-14,0.3,7.1,,2015-06-20,0.8,2\n2016-03-15,0.4,7.2,,2016-06-21,0.9,3\n"
    )
    assert set(taken(draft)) == {
        ("2015-03-14", "HOUSE WELL", "iron", "0.3"),
        ("2015-03-14", "HOUSE WELL", "ph", "7.1"),
        ("2016-03-15", "HOUSE WELL", "iron", "0.4"),
        ("2016-03-15", "HOUSE WELL", "ph", "7.2"),
        ("2015-06-20", "COTTAGE WELL", "iron", "0.8"),
        ("2015-06-20", "COTTAGE WELL", "lead", "2"),
        ("2016-06-21", "COTTAGE WELL", "iron", "0.9"),
        ("2016-06-21", "COTTAGE WELL", "lead", "3"),
    }


def test_yes_and_no_below_bacteria_are_readings_and_are_asked_about(draft_of):
    draft = draft_of("Date,Bacteria,Iron mg/L\n2015-03-14,no,0.3\n2016-03-15,yes,0.4\n")
    assert kinds(draft) == [
        ("total_coliform", "absent"), ("iron", "number"),
        ("total_coliform", "present"), ("iron", "number"),
    ]  # fmt: skip
    germs = [mark for one in draft.samples for mark in one.marks[:1]]
    assert all("near_name" in mark.doubts for mark in germs)


@pytest.mark.parametrize(
    ("first", "second", "found"),
    [("+", "-", ["present", "absent"]), ("-", "+", ["absent", "present"])],
)
def test_plus_and_minus_below_bacteria(draft_of, first, second, found):
    draft = draft_of(
        f"date,ph,iron,bact\n,,ppm,+/-\n2016-05-28,6.7,0.1,{first}\n2018-05-28,6.8,0.2,{second}\n"
    )
    assert [kind for key, kind in kinds(draft) if key == "total_coliform"] == found


def test_minus_alone_below_bacteria_is_no_finding_of_none(draft_of):
    draft = draft_of("date,ph,iron,E. coli\n2016-05-28,6.7,0.1,-\n2018-05-28,6.8,0.2,-\n")
    assert "absent" not in {kind for key, kind in kinds(draft)}


def test_yes_in_a_column_that_nobody_understands_is_listed(draft_of):
    draft = draft_of("Date,Zorp,Iron mg/L\n2015-03-14,no,0.3\n2016-03-15,yes,0.4\n")
    assert [left.what for left in draft.not_taken] == ["no", "yes"]


def test_yes_and_no_behind_coliforms_with_a_column_a_test(draft_of):
    draft = draft_of(
        ",First test,Second test\ntaken on,2012-05-15,2016-04-25\n"
        '"Iron, mg/L",0.3,0.4\n"Lead, ug/L",2,3\nColiforms,YES,no\n'
    )
    assert [kind for key, kind in kinds(draft) if key == "total_coliform"] == ["present", "absent"]


def test_a_dash_behind_not_detected_is_a_non_detect(results_of):
    found = results_of(
        "Collected,2024-06-05\nContaminant,Detected?,Amount,Unit\n"
        "Iron,Yes,0.3,mg/L\nCadmium,No,-,ug/L\n"
    )
    assert found["Cadmium"].reading.text == "not detected"


@pytest.mark.parametrize(
    ("cell", "kind"),
    [("neg (0)", "absent"), ("pos, 4", "present"), ("no hay", "absent"), ("neg, 12", "text")],
)
def test_short_words_for_bacteria_are_read_and_two_that_clash_are_not(draft_of, cell, kind):
    draft = draft_of(f'Date,E. coli,Iron mg/L\n2015-03-14,"{cell}",0.3\n2016-03-15,absent,0.4\n')
    assert kinds(draft)[0] == ("e_coli", kind)


def test_ditto_marks_say_what_stands_above_them(draft_of):
    draft = draft_of(
        "Date\tTest\tResult\tUnit\n2015-03-14\tIron\t0.3\tmg/L\n''\tLead\t2\tug/L\n"
        "ditto\tManganese\t0.06\tmg/L\n"
    )
    assert {row[0] for row in taken(draft)} == {"2015-03-14"}
    assert len(taken(draft)) == 3


def test_ditto_is_a_mark_in_capitals_as_well(draft_of):
    draft = draft_of(
        "Date\tTest\tResult\tUnit\n2015-03-14\tIron\t0.3\tmg/L\nDitto\tLead\t2\tug/L\n"
    )
    assert {row[0] for row in taken(draft)} == {"2015-03-14"}
    assert len(taken(draft)) == 2


def _workbook(sheets):
    book = openpyxl.Workbook()
    book.remove(book.active)
    for title, rows in sheets.items():
        sheet = book.create_sheet(title)
        for row in rows:
            sheet.append(row)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def test_a_sheet_for_each_parameter_is_named_by_its_title(draft_of):
    content = _workbook(
        {
            "Iron (mg per L)": [["Date", "Value"], ["2015-03-14", 0.3], ["2016-03-15", 0.4]],
            "Hardness": [["Hardness in gpg"], ["date", "result"], ["2015-03-14", 12], ["2017", 9]],
        }
    )
    draft = draft_of(content, "own.xlsx")
    assert sorted(taken(draft)) == [
        ("2015-03-14", "", "hardness", "12"),
        ("2015-03-14", "", "iron", "0.3"),
        ("2016-03-15", "", "iron", "0.4"),
        ("2017", "", "hardness", "9"),
    ]


def test_figures_below_a_title_of_something_else_are_not_named_by_the_one_before(draft_of):
    draft = draft_of(
        "Iron (mg/L)\n  2015-03-14   0.3\n  2016-03-15   0.4\n\nWell depth\n"
        "  2015-03-14   120\n  2016-03-15   121\n", "own.txt",
    )  # fmt: skip
    assert [row[3] for row in taken(draft)] == ["0.3", "0.4"]


def test_months_before_the_lines_and_years_above_the_columns(draft_of):
    draft = draft_of("Iron in mg/L\n,2019,2020\nJanuary,0.3,0.4\nJuly,0.5,\n")
    assert sorted(taken(draft)) == [
        ("2019-01", "", "iron", "0.3"),
        ("2019-07", "", "iron", "0.5"),
        ("2020-01", "", "iron", "0.4"),
    ]


@pytest.mark.parametrize(
    ("when", "day"), [("Nov. '15", "2015-11"), ("2019 (summer)", "2019"), ("Sept ’08", "2008-09")]
)
def test_days_that_are_known_roughly(draft_of, when, day):
    draft = draft_of(f"When,Iron (mg/L),pH\n{when},0.3,7.1\n2020,0.4,7.2\n")
    assert taken(draft)[0][0] == day


def test_lines_of_a_notebook_with_a_day_and_several_results(draft_of):
    draft = draft_of(
        "water tests\n3/14/15 - iron 0.3 mg/L; lead 2 ug/L; E. coli none\n"
        "6/20/16 - iron 0.4 mg/L; lead 3 ug/L; E. coli found!\n", "notes.txt",
    )  # fmt: skip
    assert [row[0] for row in taken(draft)] == ["2015-03-14"] * 3 + ["2016-06-20"] * 3
    assert [kind for key, kind in kinds(draft) if key == "e_coli"] == ["absent", "present"]


def test_a_word_for_none_in_a_line_that_is_not_understood_is_listed(draft_of):
    draft = draft_of(
        "Sampled 2024-06-05\nIron: 0.3 mg/L\nLead: 2 ug/L\nin E. coli there were none\n",
        "notes.txt",
    )
    assert "none" in {left.what for left in draft.not_taken}


@pytest.mark.parametrize(("short", "key"), [("Hard", "hardness"), ("N", "nitrate")])
def test_what_households_shorten_is_asked(draft_of, short, key):
    draft = draft_of(f"Date,{short},Fe\n2015-03-14,12 gpg,0.3 mg/L\n2016-03-15,9 gpg,0.4 mg/L\n")
    found = [
        (result.parameter, mark.doubts)
        for one in draft.samples
        for result, mark in zip(one.sample.results, one.marks, strict=True)
        if result.name == short
    ]
    assert [name for name, _doubts in found] == [key, key]
    assert all("near_name" in doubts for _name, doubts in found)


def test_a_year_between_stars_is_the_day_of_what_follows(draft_of):
    draft = draft_of(
        "*** 2013 ***\nIron 0.3 mg/L\nLead 2 ug/L\n\n*** 2016 ***\nIron 0.4 mg/L\nLead 3 ug/L\n",
        "notes.txt",
    )
    assert [row[0] for row in taken(draft)] == ["2013", "2013", "2016", "2016"]


NOTEBOOK = """THE WELL

Drilled 3 May 1987, 140 ft.

Had the water tested again on 14 May 2011. Nitrate came back 2.3 mg/L and iron 0.30 mg/L.
Coliform bacteria and E. coli were present, so we shocked the well. Paid $65.

Had the water tested again on 20 June 2014. Nitrate came back 3.1 mg/L (limit 10 mg/L) and iron
0.40 mg/L. No coliform bacteria were found.
"""


def test_each_paragraph_of_a_notebook_has_the_day_told_in_it(draft_of):
    draft = draft_of(NOTEBOOK, "notes.txt")
    assert [(row[0], row[2], row[3]) for row in taken(draft)] == [
        ("2011-05-14", "nitrate", "2.3"),
        ("2011-05-14", "iron", "0.30"),
        ("2011-05-14", "total_coliform", "present"),
        ("2011-05-14", "e_coli", "present"),
        ("2014-06-20", "nitrate", "3.1"),
        ("2014-06-20", "iron", "0.40"),
        ("2014-06-20", "total_coliform", "No"),
    ]
    assert all("prose" in mark.doubts for one in draft.samples for mark in one.marks)
    assert "10" in {left.what for left in draft.not_taken}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        (
            """Die Probe wurde am 14. März 2020 entnommen. Der Nitratgehalt beträgt 12 mg/l
            (Grenzwert 50 mg/l), Eisen 0,3 mg/l. Coliforme Bakterien wurden nicht nachgewiesen.""",
            {("nitrate", "12"), ("iron", "0,3"), ("total_coliform", "nicht nachgewiesen")},
        ),
        (
            """L'échantillon prélevé le 14 mars 2020 contient 6 mg/l de nitrates et 0,3 mg/l de fer.
            Escherichia coli : absence dans 100 ml.""",
            {("nitrate", "6"), ("iron", "0,3"), ("e_coli", "absence")},
        ),
        (
            """La muestra que tomó el 14 de marzo de 2020 dio nitratos 4 mg/l y hierro 0,3 mg/l.
            Escherichia coli: presencia en 100 ml.""",
            {("nitrate", "4"), ("iron", "0,3"), ("e_coli", "presencia")},
        ),
    ],
)
def test_letters_in_other_languages(draft_of, text, found):
    draft = draft_of(text, "letter.txt")
    assert {row[2:] for row in taken(draft)} == found
    assert {row[0] for row in taken(draft)} == {"2020-03-14"}


@pytest.mark.parametrize(
    "sentence",
    [
        "The limit for iron is 0.3 mg/L.",
        "Last year iron was 0.3 mg/L.",
        "Your neighbour has iron at 0.3 mg/L.",
        "Iron should be below 0.3 mg/L.",
    ],
)
def test_limits_and_other_water_in_sentences_are_listed_and_not_taken(draft_of, sentence):
    draft = draft_of(f"The sample of 3 May 2020 had lead at 2 ug/L. {sentence}\n", "letter.txt")
    assert [row[2:] for row in taken(draft)] == [("lead", "2")]
    assert any(left.what.endswith("0.3") for left in draft.not_taken)


def test_names_in_a_long_letter_are_looked_up_once_each(catalogue, monkeypatch):
    asked = []

    def counted(text, known):
        asked.append(text)
        return read_name(text, known)

    monkeypatch.setattr(named, "read_name", counted)
    assert letters.sheet_of("the iron is 3 mg/L. " * 4_000, catalogue)
    assert len(asked) < 50


@pytest.mark.parametrize(
    "line", ["Total coliform: PRESENT", "Bacteriological result: POSITIVE for total coliform"]
)
@pytest.mark.parametrize("is_above", [True, False])
def test_a_positive_coliform_in_a_line_beside_a_table_is_a_result(draft_of, line, is_above):
    table = "Parameter,Result,Unit\nIron,0.3,mg/L\nLead,2,ug/L\n"
    told = f"{line}\n{table}" if is_above else f"{table}\nMicrobiology\n{line}\n"
    draft = draft_of(f"Sampled,2024-06-05\n{told}")
    assert ("total_coliform", "present") in kinds(draft)
    assert {row[0] for row in taken(draft)} == {"2024-06-05"}


def test_such_a_line_is_listed_where_rows_tell_their_own_samples(draft_of):
    draft = draft_of(
        "Total coliform: PRESENT\nDate sampled,Parameter,Result,Unit\n"
        "2024-06-05,Iron,0.3,mg/L\n2024-07-05,Iron,0.4,mg/L\n"
    )
    assert "total_coliform" not in {key for key, _kind in kinds(draft)}
    assert any("PRESENT" in left.what.upper() for left in draft.not_taken)


def test_costs_and_pressures_in_an_own_sheet_are_no_results_of_the_water(draft_of):
    draft = draft_of(
        "Date,Iron mg/L,Cost $,Miles driven,Pressure psi\n2015-03-14,0.3,45,12,40\n"
        "2016-03-15,0.4,50,12,42\n"
    )
    assert [row[2] for row in taken(draft)] == ["iron", "iron"]
    assert all(left.is_aside for left in draft.not_taken)


def test_terms_of_a_web_page_and_their_values(draft_of):
    draft = draft_of(
        "<html><body><p>Sample taken 5 June 2024</p><dl><dt>Iron</dt><dd>0.3 mg/L</dd>"
        "<dt>Lead</dt><dd>2 ug/L</dd></dl></body></html>", "page.html",
    )  # fmt: skip
    assert [row[2] for row in taken(draft)] == ["iron", "lead"]


def test_units_in_a_column_without_a_heading(results_of):
    content = (
        "Your reference,,Kitchen\nSampled,,2024-06-05\nIron,mg/L,0.3\nLead,ug/L,2\nZinc,mg/L,0.1\n"
    )
    found = results_of(content)
    assert {name: result.reading.unit for name, result in found.items()} == {
        "Iron": "mg/L", "Lead": "ug/L", "Zinc": "mg/L",
    }  # fmt: skip


def test_a_log_with_a_day_before_each_event_keeps_the_days_of_its_tests(draft_of):
    draft = draft_of(
        'Date,Event\n12/22/2015,"Water test: lead 2 ug/L, iron 0.3 mg/L"\n'
        '07/14/2016,added 2 bags of salt\n07/22/2016,"Water test: lead 3 ug/L, iron 0.4 mg/L"\n'
    )
    assert sorted(row[:1] + row[2:] for row in taken(draft)) == [
        ("2015-12-22", "iron", "0.3"), ("2015-12-22", "lead", "2"),
        ("2016-07-22", "iron", "0.4"), ("2016-07-22", "lead", "3"),
    ]  # fmt: skip
    assert all("prose" in mark.doubts for one in draft.samples for mark in one.marks)


def test_a_tap_below_the_word_for_a_place_is_one(draft_of):
    draft = draft_of(
        "Client,Sample Location,Date Sampled\nA. Example,Tap,2010-04-19\n\n"
        "Test,Result,Units\nIron,0.3,mg/L\nLead,2,ug/L\n"
    )
    assert {row[:2] for row in taken(draft)} == {("2010-04-19", "Tap")}


def test_a_column_of_figures_with_remarks_is_a_sample_like_those_beside_it(draft_of):
    draft = draft_of(
        ",2020,2021\nIron (mg/L),0.3,4.5 (high)\nLead (ug/L),2,7.9 (high)\nNotes,ok,dry\n"
    )
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2020", "0.3"), ("2020", "2"), ("2021", "4.5 (high)"), ("2021", "7.9 (high)"),
    ]  # fmt: skip


def test_of_two_results_this_one_is_taken(results_of):
    found = results_of(
        "Sampled,2024-06-05\nTest,2019 result,This result,Units\nIron,0.9,0.3,mg/L\nLead,9,2,ug/L\n"
    )
    assert {name: r.reading.text for name, r in found.items()} == {"Iron": "0.3", "Lead": "2"}


def test_where_no_word_tells_which_column_holds_the_results_it_is_asked(draft_of):
    draft = draft_of("Sampled,2024-06-05\nTest,Zorp,Blim,Units\nIron,0.9,0.3,mg/L\nLead,9,2,ug/L\n")
    assert any(f.key in {"guessed_column", "which_columns"} for f in draft.findings)


def test_sodium_over_a_column_is_no_word_for_not_analysed(draft_of):
    draft = draft_of("date,Na mg/L,Cl mg/L\n2013-06-21,56,13\n2014-01-27,103,123\n")
    assert [row[2:] for row in taken(draft)] == [
        ("sodium", "56"), ("chloride", "13"), ("sodium", "103"), ("chloride", "123"),
    ]  # fmt: skip


def test_questions_over_columns_with_y_and_n(draft_of):
    draft = draft_of("Date of test,Any E. coli?,Iron (mg/L)\n2015-03-14,N,0.3\n2016-03-15,Y,0.4\n")
    assert [kind for key, kind in kinds(draft) if key == "e_coli"] == ["absent", "present"]


def test_the_day_of_a_test_stands_in_its_title(draft_of):
    draft = draft_of(
        "Family well records\n\nTest from 3 May 2014, done by us\n,Iron,0.3,mg/L\n,Lead,2,ug/L\n\n"
        "Test from 8 June 2017, done by us\n,Iron,0.4,mg/L\n,Lead,3,ug/L\n"
    )
    assert [row[0] for row in taken(draft)] == ["2014-05-03"] * 2 + ["2017-06-08"] * 2


def test_days_and_places_without_words_over_them(draft_of):
    draft = draft_of(
        ",,Iron,Lead\n,Unit,mg/L,ug/L\n,Limit,0.3,15\n"
        "2014-05-03,Kitchen,0.2,2\n2017-06-08,Barn,0.4,3\n"
    )
    assert [row[:2] + row[3:] for row in taken(draft)] == [
        ("2014-05-03", "Kitchen", "0.2"), ("2014-05-03", "Kitchen", "2"),
        ("2017-06-08", "Barn", "0.4"), ("2017-06-08", "Barn", "3"),
    ]  # fmt: skip
    assert {"0.3", "15"} <= {left.what for left in draft.not_taken}
