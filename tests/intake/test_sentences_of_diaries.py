"""Sentences of diaries and mails, and words for results that have a unit. Common practice, no
source."""

import pytest

from wellbook.water.values.readings import Kind

MAIL = "Hello,\nthe sample was collected on April 17, 2025 at the kitchen tap. "


def found_in(draft):
    """Day, parameter, figure and unit of each reading."""
    return [
        (one.sample.collected.iso(), r.parameter, str(r.reading.number), r.reading.unit)
        for one in draft.samples for r in one.sample.results
    ]  # fmt: skip


@pytest.mark.parametrize(
    "line",
    [
        "Sodium = ND mg/L",
        "Sodium - N.D. mg/L",
        "Sodium ND mg/L",
        "Sodium: N.D. mg/L",
        "Sodium not detected mg/L",
        "Sodium - non détecté mg/L",
        "Sodium = no detectado mg/L",
        "Sodium = nicht nachweisbar mg/L",
        "Sodium = n.n. mg/L",
        "Sodium = < LQ mg/L",
    ],
)
def test_a_line_with_a_word_and_a_unit_is_a_result_that_was_not_detected(draft_of, line):
    draft = draft_of(f"Sampled April 20, 2025\nManganese = 0.384 mg/L\n{line}\n", "mail.txt")
    (sample,) = draft.samples
    readings = {r.parameter: r.reading for r in sample.sample.results}
    assert (readings["sodium"].kind, readings["sodium"].unit) == (Kind.BELOW, "mg/L")
    assert all(mark.is_certain for mark in sample.marks)


@pytest.mark.parametrize(
    "said", ["Sodium non détecté mg/L ;", "Sodium: ND mg/L,", "sodium was not detected (mg/L),"]
)
def test_a_word_in_a_sentence_keeps_its_unit(draft_of, said):
    draft = draft_of(f"{MAIL}{said} iron 0.3 mg/L.\n", "mail.txt")
    readings = {r.parameter: r.reading for r in draft.samples[0].sample.results}
    assert (readings["sodium"].kind, readings["sodium"].unit) == (Kind.BELOW, "mg/L")
    assert readings["iron"].unit == "mg/L"


@pytest.mark.parametrize("name", ["E. Coli", "E. coli", "E.coli", "E. COLI", "E.\nColi"])
@pytest.mark.parametrize("told", ["was 3 CFU/100 mL", "was present", ": 3 CFU/100 mL"])
def test_e_coli_never_becomes_total_coliform(draft_of, name, told):
    draft = draft_of(
        f"{MAIL}Total Coliforms came back at 0 CFU/100 mL. {name} {told}. Iron was 0.3 mg/L.\n",
        "mail.txt",
    )
    kinds = [(r.parameter, r.reading.kind) for r in draft.samples[0].sample.results]
    expected = Kind.PRESENT if "present" in told else Kind.NUMBER
    assert kinds == [
        ("total_coliform", Kind.NUMBER), ("e_coli", expected), ("iron", Kind.NUMBER)
    ]  # fmt: skip


def test_units_of_words_in_sentences_and_lines_are_read(draft_of):
    expected = [
        ("2025-04-17", "ph", "6.6", "pH units"),
        ("2025-04-17", "conductivity", "285", "umhos/cm"),
        ("2025-04-17", "nitrate", "7.31", "mg N/L"),
    ]
    told = (
        "The result for pH (lab) is 6.6 pH units. The result for Specific Conductance is 285 "
        "umhos/cm. The result for NO3-N is 7.31 mg N/L.\n"
    )
    assert found_in(draft_of(f"{MAIL}{told}", "mail.txt")) == expected
    lines = "pH (lab) - 6.6 pH units\nSpecific Conductance - 285 umhos/cm\nNO3-N - 7.31 mg N/L\n"
    assert found_in(draft_of(f"{MAIL}\n\n{lines}", "mail.txt")) == expected


@pytest.mark.parametrize(
    "said",
    ["Tested the kitchen tap with the kit. ", "Lab results. ", "Lab results: ", "Ergebnisse. ", ""],
)
@pytest.mark.parametrize("mark", [":", " -"])
def test_a_sentence_after_a_day_is_no_part_of_a_name(draft_of, said, mark):
    draft = draft_of(
        f"WELL DIARY\nNovember 22, 2020{mark} {said}Nitrate-N 4.9 mg/L, pH 6.9.\n\n"
        "December 15, 2022: Changed the sediment filter.\n"
        f"November 19, 2025{mark} {said}Nitrate-N 3.0 mg/L, iron 1.4 mg/L, coliform absent.\n",
        "diary.txt",
    )
    assert found_in(draft) == [
        ("2020-11-22", "nitrate", "4.9", "mg/L"), ("2020-11-22", "ph", "6.9", ""),
        ("2025-11-19", "nitrate", "3.0", "mg/L"), ("2025-11-19", "iron", "1.4", "mg/L"),
        ("2025-11-19", "total_coliform", "None", ""),
    ]  # fmt: skip
    assert not draft.stops


@pytest.mark.parametrize(
    "said",
    [
        "Tested the neighbor's tap", "The lab ran a blank", "Results of last year",
        "The legal limits", "Resultados del vecino",
    ],
)  # fmt: skip
def test_what_a_sentence_says_of_other_water_is_listed_and_not_taken(draft_of, said):
    draft = draft_of(
        f"DIARY\nNovember 22, 2020: {said}. Nitrate-N 7.7 mg/L, iron 8.8 mg/L.\n"
        "November 19, 2025: Lab results. Nitrate-N 3.0 mg/L, iron 1.4 mg/L.\n",
        "diary.txt",
    )
    assert [figure for _day, _key, figure, _unit in found_in(draft)] == ["3.0", "1.4"]
    assert {one.what for one in draft.not_taken} == {"7.7", "8.8"}


def test_words_behind_a_unit_that_name_no_form_are_no_part_of_it(draft_of):
    draft = draft_of(f"{MAIL}Iron was 0.3 mg/L as expected. Nitrate was 4 mg/L as n.\n", "mail.txt")
    assert [row[3] for row in found_in(draft)] == ["mg/L", "mg/L as n"]
    assert not draft.stops


DIARY = (
    "Carnet du forage\n\n{one} : nitrates 33 mg/L, fer 0,12 mg/L, coliformes absence\n"
    "{two} : nitrates 40 mg/L, fer 0,21 mg/L, coliformes présence\n"
)


@pytest.mark.parametrize(
    "words",
    ["Prélèvement du {}", "Analyse du {}", "Probe vom {}", "Muestra del {}", "Análisis {}", "{}"],
)
def test_words_of_a_test_may_stand_before_the_day_of_a_line(draft_of, words):
    draft = draft_of(
        DIARY.format(one=words.format("26/05/2021"), two=words.format("05/06/2024")), "a.txt"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2021-05-26", "2024-06-05"]
    assert [
        [r.reading.text.partition(" ")[0] for r in one.sample.results] for one in draft.samples
    ] == [
        ["33", "0,12", "absence"],
        ["40", "0,21", "présence"],
    ]


def test_a_day_of_a_line_without_readings_is_not_that_of_the_next_days(draft_of):
    """The older test was clean; its day must not stand beside the iron of the newer one."""
    draft = draft_of(
        "2021-05-20  Water test back (taken May 17 2021): coliform absent, E. coli absent.\n"
        "2022-06-14  Tested: nitrate 2.6 mg/L as N, iron 0.4 mg/L, pH 6.7.\n"
        "2023-09-05  Tested: nitrate 2.8 mg/L as N, iron 0.6 mg/L.\n",
        "log.txt",
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2022-06-14", "2023-09-05"]
    assert not any(mark.is_certain for mark in draft.samples[0].marks)


@pytest.mark.parametrize(
    "sentence",
    [
        "die am 12.11.2024 an der Entnahmestelle Zapfhahn Waschküche entnommene Wasserprobe ergab:",
        "The sample that was taken from the tap of your laundry room on 12 November 2024 showed:",
        "La muestra recogida en el grifo de la cocina el 12 de noviembre de 2024 dio:",
        "L'échantillon prélevé au robinet de la cuisine le 12 novembre 2024 montre :",
    ],
)
def test_words_may_stand_between_the_verb_of_sampling_and_its_day(draft_of, sentence):
    draft = draft_of(f"{sentence}\n\nEisen      0,35 mg/l\nChlorid    31 mg/l\n", "letter.txt")
    assert [one.sample.collected.iso() for one in draft.samples] == ["2024-11-12"]


def test_a_day_behind_another_verb_is_not_of_sampling(draft_of):
    draft = draft_of(
        "The water taken from your well and tested on 12 November 2024 showed:\n\n"
        "Iron       0.35 mg/L\nChloride   31 mg/L\n",
        "letter.txt",
    )
    assert not any(mark.is_certain for mark in draft.samples[0].marks)


@pytest.mark.parametrize(
    "limit", ["action level 15", "Grenzwert 10", "límite 10", "norme 10", "valor paramétrico 10"]
)
def test_a_limit_behind_dots_that_lead_to_a_figure_is_none_of_the_figure(draft_of, limit):
    draft = draft_of(
        f"Collected on 2025-03-11\n\nLead ............ 2.2 ug/L   ({limit})\n"
        f"Sodium .......... 12 mg/L\n",
        "mail.txt",
    )
    (sample,) = draft.samples
    assert [r.reading.text for r in sample.sample.results] == ["2.2 ug/L", "12 mg/L"]
