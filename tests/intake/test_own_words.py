"""What households, sellers and labs write in their own words. Every person and lab is invented."""

import pytest
from drafts import keys

from wellbook.water.values.readings import Flag, Kind

ABSENT = {Kind.ABSENT, Kind.BELOW}


def taken(draft):
    """Day, point, parameter and figure, or kind, of each result."""
    return [
        (one.sample.collected.iso(), one.point_name, r.parameter,
         r.reading.text.split()[0] if r.reading.kind is Kind.NUMBER else r.reading.kind.name)
        for one in draft.samples for r in one.sample.results
    ]  # fmt: skip


def found(draft):
    """Figure, or kind, of each parameter."""
    return {key: text for _day, _point, key, text in taken(draft)}


def is_doubted(draft):
    return all(mark.doubts for sample in draft.samples for mark in sample.marks)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            (
                "Hi, sample from 3/14/24: nitrate 2.1, lead 1.3 ppb, hardness 12 gpg, coliform "
                "neg, ecoli neg. Paper copy follows"
            ),
            {"nitrate": "2.1", "lead": "1.3", "hardness": "12", "total_coliform": "ABSENT",
             "e_coli": "ABSENT"},
        ),
        (
            (
                "We took the sample on March 14, 2024. Nitrate is 8.1 (mg/L as N), arsenic 2.4 ppb "
                "- they say the limit is 10 - and iron 0.18 ppm, which explains the stains."
            ),
            {"nitrate": "8.1", "arsenic": "2.4", "iron": "0.18"},
        ),
        (
            (
                "Suite au prélèvement du 14 mars 2024 : le fer est à 0,96 mg/L. Absence "
                "d'Escherichia coli et de coliformes."
            ),
            {"iron": "0,96", "e_coli": "ABSENT", "total_coliform": "ABSENT"},
        ),
        ("La muestra se tomó el 14/03/2024: hierro 0,2 mg/L. No se detectaron coliformes.",
         {"iron": "0,2", "total_coliform": "ABSENT"}),
        ("Probe vom 14.03.2024. Der pH-Wert beträgt 7,5 und Blei liegt bei 4,2 ug/L.",
         {"ph": "7,5", "lead": "4,2"}),
        ("Dear neighbor,\nthe water we took on 3/14/2024 came back with sodium 100 mg/L.",
         {"sodium": "100"}),
        ("Sampled on March 14, 2024. We measured chloride at 131 mg/L, sodium at 61 mg/L.",
         {"chloride": "131", "sodium": "61"}),
    ],
)  # fmt: skip
def test_figures_of_messages_are_taken_and_asked_about(draft_of, text, expected):
    draft = draft_of(text + "\n", "mail.txt")
    assert found(draft) == expected
    assert is_doubted(draft)
    assert {day for day, *_rest in taken(draft)} == {"2024-03-14"}


def test_what_a_bracket_tells_of_last_year_is_no_reading_of_this_year_and_is_listed(draft_of):
    draft = draft_of(
        "Your water was sampled on 14 March 2024.\n\nNitrate: 4.1 mg/L (last year 6.3)\n"
        "Iron: 0.2 mg/L (last year 0.9)\n\nYour neighbour's well had 11.7 mg/L of nitrate.\n",
        "mail.txt",
    )
    assert found(draft) == {"nitrate": "4.1", "iron": "0.2"}
    assert {"6.3", "0.9", "11.7"} <= {one.what for one in draft.not_taken}


def test_a_bracket_or_a_line_of_other_water_hides_no_reading_beside_it(draft_of):
    draft = draft_of(
        "Report to the co-op, sampled Jan 28 2025\n\nNitrate-N: 0.9 mg/L (range 1.1-9.8 since "
        "2010)\nChloride: 110 mg/L (up 12 % from 2022)\nAverage of the valley: nitrate 6.6 mg/L\n",
        "mail.txt",
    )
    assert found(draft) == {"nitrate": "0.9", "chloride": "110"}
    assert "6.6" in {one.what for one in draft.not_taken}


# `Coliforme nicht nachweisbar` must never be read as found.
@pytest.mark.parametrize(
    "line",
    ["Coliforme nicht nachweisbar", "coliform not detected", "coliformes no detectado",
     "coliformes non détecté", "coliform - none", "Keime: keine"],
)  # fmt: skip
@pytest.mark.parametrize("day", ["", "14.03.2024: Eisen 0,2 mg/L, "])
def test_no_denied_word_is_read_as_found(draft_of, day, line):
    draft = draft_of(f"Probenahme: 14.03.2024\n\nBlei: 2 ug/L\n{day}{line}\n", "mail.txt")
    kinds = {r.reading.kind for s in draft.samples for r in s.sample.results
             if r.parameter not in {"lead", "iron"}}  # fmt: skip
    assert kinds <= ABSENT
    assert kinds or draft.not_taken


def test_a_letter_in_german_tells_its_day_before_the_word_for_the_sampling(draft_of):
    draft = draft_of(
        "in der am 14.03.2024 entnommenen Probe haben wir gemessen:\n\nEisen: 0,95 mg/l\n"
        "Chlorid - 14 mg/l\npH-Wert - 7,7\nBlei ..... 2 ug/L / max 10\n",
        "brief.txt",
    )
    assert {row[0] for row in taken(draft)} == {"2024-03-14"}
    assert found(draft) == {"iron": "0,95", "chloride": "14", "ph": "7,7", "lead": "2"}


def test_none_detected_with_a_unit_behind_it_is_a_non_detect(results_of):
    text = "Collected,2024-03-14\nParameter,Result\nManganese,None Detected mg/L\nIron,1 mg/L\n"
    found = results_of(text)
    assert found["Manganese"].reading.kind in ABSENT
    assert found["Manganese"].reading.unit == "mg/L"


def test_organisms_are_a_heading_over_names(results_of):
    text = "Sampled: 2024-03-14\nOrganism,Method,Result\nTotal coliform,SM 9223B,Present\n"
    assert results_of(text)["Total coliform"].reading.kind is Kind.PRESENT


# Days and marks as different people write them; a unit may be left out behind a day.
DIARY = """14 March 2024 - chloride 152 mg/L / lead 3.6 ug/L / bacteria absent
21-Aug-2015: hardness 7 grains / pH 7.3 / E. coli positive
2016-09-23: iron 0.33 ppm; nitrate 4.7; coliform yes
12/28/2015 - pump 3/4 hp replaced
"""


def test_lines_of_a_diary_are_a_day_and_its_readings_whatever_parts_them(draft_of):
    draft = draft_of(DIARY, "diary.txt")
    assert [row[0] for row in taken(draft)] == ["2024-03-14"] * 3 + ["2015-08-21"] * 3 + [
        "2016-09-23"
    ] * 3
    assert [row[3] for row in taken(draft)] == [
        "152", "3.6", "ABSENT", "7", "7.3", "PRESENT", "0.33", "4.7", "PRESENT",
    ]  # fmt: skip
    doubts = {r.name: m.doubts for s in draft.samples
              for m, r in zip(s.marks, s.sample.results, strict=True)}  # fmt: skip
    assert "no_unit" in doubts["nitrate"]
    assert "only_bad" in doubts["coliform"]


@pytest.mark.parametrize("between", [" / ", "; ", "\n"])
def test_several_figures_in_one_cell_are_each_taken_and_asked_about(draft_of, between):
    cells = [between.join((f"pH {n}.1", f"hardness: {n} gpg", f"iron=0.{n} ppm")) for n in (6, 7)]
    draft = draft_of(f'Date,Lab,Results\n3/14/2019,county,"{cells[0]}"\n3/15/2020,,"{cells[1]}"\n')
    assert [(day, text) for day, _point, _key, text in taken(draft)] == [
        ("2019-03-14", "6.1"), ("2019-03-14", "6"), ("2019-03-14", "0.6"),
        ("2020-03-15", "7.1"), ("2020-03-15", "7"), ("2020-03-15", "0.7"),
    ]  # fmt: skip
    assert is_doubted(draft)


def test_columns_before_and_after_a_treatment_are_two_places(draft_of):
    draft = draft_of(
        "Date,Iron before (ppm),Iron after (ppm),Hardness before,Hardness after softener\n"
        "2024-03-14,1.2,0.02,14 gpg,1 gpg\n2024-06-14,1.1,0.03,15 gpg,2 gpg\n"
    )
    first = [row[1:] for row in taken(draft) if row[0] == "2024-03-14"]
    assert set(first) == {
        ("before", "iron", "1.2"), ("after", "iron", "0.02"),
        ("before", "hardness", "14"), ("after softener", "hardness", "1"),
    }  # fmt: skip


def test_the_days_over_blocks_may_have_words_beside_them(draft_of):
    draft = draft_of(
        "12 March 2015,,county lab\n,Iron,0.2,mg/L\n,Lead,1.1,ug/L\n\n"
        "4 May 2018,,county lab\n,Iron,0.3,mg/L\n"
    )
    assert [(row[0], row[3]) for row in taken(draft)] == [
        ("2015-03-12", "0.2"), ("2015-03-12", "1.1"), ("2018-05-04", "0.3"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Inspection date: March 14, 2024. Water drawn at the kitchen the same day.", "2024-03-14"),
        ("# Well test 2024-03-14", "2024-03-14"),
        ("We moved to our new rooms on March 14, 2024.", ""),
        ("Your water test was reported on March 14, 2024.", ""),
    ],
)
def test_the_only_day_beside_a_word_for_a_test_is_taken_and_asked_about(draft_of, line, day):
    draft = draft_of(f'"{line}"\nParameter,Result,Unit\nIron,0.2,mg/L\nLead,2,ug/L\n')
    if day:
        assert {row[0] for row in taken(draft)} == {day}
        assert is_doubted(draft)
    else:
        assert "no_date" in keys(draft)


def test_days_in_the_rows_of_a_table_are_not_the_only_day_of_a_file(draft_of):
    draft = draft_of(
        "Water test\nParameter,Result,Unit,Date analyzed\n"
        "Iron,0.2,mg/L,3/14/2024\nLead,2,ug/L,3/14/2024\n"
    )
    assert "no_date" in keys(draft)


def test_a_title_of_checks_below_the_last_row_leaves_no_reading_out(draft_of):
    draft = draft_of(
        "Collected,2024-03-14\nParameter,Result,Unit\nIron,0.2,mg/L\nLead,2,ug/L\n"
        "Method Blank,,\nLCS,,\n"
    )
    assert [row[2:] for row in taken(draft)] == [("iron", "0.2"), ("lead", "2")]


@pytest.mark.parametrize("head", ["Sign", "Qualifier"])
def test_not_detected_may_stand_beside_a_blank_result(draft_of, head):
    draft = draft_of(
        f"Collected,2024-03-14\nComponent,{head},Concentration,Unit,PQL\n"
        "Zinc,ND,,mg/L,0.5\nIron,,0.2,mg/L,0.1\n"
    )
    assert found(draft) == {"zinc": "BELOW", "iron": "0.2"}


def test_columns_told_apart_above_the_heading_are_samples_whatever_stands_between(draft_of):
    draft = draft_of(
        "Lab Sample No.,,8801,8802\nClient Sample,,Kitchen,Bath\nDate Sampled,,3/14/2024,3/15/2024"
        "\nMatrix,,DW,DW\nAnalyte,Units,,\nIron,mg/L,0.1,0.2\nLead,ug/L,1,2\n"
    )
    assert taken(draft) == [
        ("2024-03-14", "Kitchen", "iron", "0.1"), ("2024-03-14", "Kitchen", "lead", "1"),
        ("2024-03-15", "Bath", "iron", "0.2"), ("2024-03-15", "Bath", "lead", "2"),
    ]  # fmt: skip


@pytest.mark.parametrize("places",
    ["Pozo,Depósito,Patio", "Puits,Grange,Cave", "Brunnen,Keller,Stall"],
)  # fmt: skip
def test_places_of_a_house_are_known_in_four_languages(draft_of, places):
    draft = draft_of(
        f"Collected,2024-03-14\nParameter,{places}\nIron (mg/L),0.1,0.2,0.3\nLead (ug/L),1,2,3\n"
    )
    assert [row[1] for row in taken(draft)] == [p for p in places.split(",") for _ in "ab"]


def test_what_a_household_paid_is_no_reading(draft_of):
    draft = draft_of("Our well,2014,2015\nIron (mg/L),0.1,0.2\nLead (ug/L),1,2\ncost,$80,$85\n")
    assert {row[2] for row in taken(draft)} == {"iron", "lead"}
    assert {one.what for one in draft.not_taken if one.is_aside} >= {"$80", "$85"}


def test_a_line_of_a_day_above_two_places_is_not_their_heading(draft_of):
    draft = draft_of(
        "Checked on,3/14/2024\n,In (raw),Out (softened)\nHardness gpg,22,1\nIron ppm,0.4,0.1\n"
    )
    assert taken(draft) == [
        ("2024-03-14", "In (raw)", "hardness", "22"), ("2024-03-14", "In (raw)", "iron", "0.4"),
        ("2024-03-14", "Out (softened)", "hardness", "1"),
        ("2024-03-14", "Out (softened)", "iron", "0.1"),
    ]  # fmt: skip


def test_of_two_columns_of_figures_without_a_heading_none_is_certain(draft_of):
    draft = draft_of("Collected,2024-03-14\nIron,0.2,0.3,mg/L\nLead,1,2,ug/L\n")
    assert is_doubted(draft)
    assert "guessed_column" in keys(draft)
    draft = draft_of("Collected,2024-03-14\nIron,0.2,mg/L\nLead,1,ug/L\n")
    assert all(mark.is_certain for mark in draft.samples[0].marks)


@pytest.mark.parametrize("head", ["Salt added (lb)", "Rain (in)", "cost"])
def test_what_is_noted_of_the_house_and_the_weather_is_no_reading(draft_of, head):
    rows = "2023-03-14,0.2,1,80\n2024-03-14,0.3,2,81\n"
    draft = draft_of(f"Date,Iron (mg/L),Lead (ug/L),{head}\n{rows}")
    assert {row[2] for row in taken(draft)} == {"iron", "lead"}
    assert {one.what for one in draft.not_taken if one.is_aside} >= {"80", "81"}


# Words for a result of bacteria, most of them in no list of the recogniser.
@pytest.mark.parametrize(
    "line",
    ["The coliform box says neg and that is all", "bacteria - yes they found some",
     "For E. coli our man on the phone said no", "Keime: ja, leider einige", "coliformes hay",
     "Escherichia coli pas détecté cette fois"],
)  # fmt: skip
def test_whatever_is_told_of_bacteria_beside_a_table_is_taken_or_listed(draft_of, line):
    table = (
        "Collected   2024-03-14\n\nParameter   Result   Unit\n"
        "Iron   0.2   mg/L\nLead   2   ug/L\n\n"
    )
    draft = draft_of(table + line + "\n", "mail.txt")
    row = table.count("\n") + 1
    marks = (mark for sample in draft.samples for mark in sample.marks)
    places = [mark.place.row for mark in marks] + [one.place.row for one in draft.not_taken]
    assert row in places


def test_a_column_of_letters_under_an_unknown_heading_is_listed(draft_of):
    draft = draft_of("Date,Iron (mg/L),Lead (ug/L),xq\n2023-03-14,0.2,1,A\n2024-03-14,0.3,2,A\n")
    shown = [one.what for one in draft.not_taken]
    shown += [r.reading.text for sample in draft.samples for r in sample.sample.results]
    assert shown.count("A") == 2


@pytest.mark.parametrize(
    "line",
    [
        "Total coliform: {}",
        "Total coliform {}",
        "Your sample is back. Total coliform was {}.",
    ],
)
@pytest.mark.parametrize("words", ["not absent", "not negative", "not free", "no absence"])
def test_a_word_for_none_that_is_denied_says_that_some_were_found(draft_of, line, words):
    draft = draft_of(f"Collected: 2026-02-04\n\n{line.format(words)}\n", "notes.txt")
    (result,) = draft.samples[0].sample.results
    assert result.reading.kind is Kind.PRESENT


# Common practice, no source; from memory.
BELOW = "< L.C.|por debajo del LC|menor que LD|inferior al límite de detección|inférieur à la LQ"
BELOW += "|unter BG|unterhalb der Nachweisgrenze|kleiner BG|No se detectó|nicht quantifizierbar"
NONE = "No presencia|No crecimiento|Sin desarrollo|kein Nachweis|pas de croissance|kein Wachstum"
MANY = "MNPC|Innumerables|indénombrables|nicht zählbar|überwachsen|massenhaft|Rasenwachstum"
OPEN = "n. b.|n.b.|inferior al límite|< Grenzwert|unter Grenzwert|Spuren|nicht auswertbar"
LINES = "Parameter;Result;Unit;Date collected\n{};{};{};2024-05-03\nIron;0,3;mg/l;2024-05-03\n"


@pytest.mark.parametrize("word", sorted(BELOW.split("|")))
def test_below_a_limit_of_the_lab_in_words_is_not_detected(draft_of, word):
    draft = draft_of(LINES.format("Lead", word, "ug/l"))
    assert draft.samples[0].sample.results[0].reading.kind is Kind.BELOW


@pytest.mark.parametrize("word", sorted(NONE.split("|")))
def test_no_growth_in_any_language_is_absent(draft_of, word):
    draft = draft_of(LINES.format("E. coli", word, ""))
    assert draft.samples[0].sample.results[0].reading.kind is Kind.ABSENT


@pytest.mark.parametrize("word", sorted(MANY.split("|")))
def test_an_overgrown_plate_in_any_language_is_above_what_can_be_counted(draft_of, word):
    reading = draft_of(LINES.format("E. coli", word, "")).samples[0].sample.results[0].reading
    assert (reading.kind, Flag.OVERGROWN in reading.flags) == (Kind.ABOVE, True)


@pytest.mark.parametrize("word", sorted(OPEN.split("|")))
def test_what_may_mean_a_limit_of_the_law_or_no_test_is_asked(draft_of, word):
    """`n. b.` is `nicht bestimmt` as well as `nicht bestimmbar`."""
    draft = draft_of(LINES.format("Lead", word, "ug/l"))
    lead = [(r, m) for s in draft.samples for r, m in zip(s.sample.results, s.marks, strict=True)]
    assert all(r.reading.kind is not Kind.BELOW for r, _mark in lead if r.parameter == "lead")
    assert not any(m.is_certain for r, m in lead if r.parameter == "lead")
