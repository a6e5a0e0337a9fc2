"""Where each question about a report begins and ends, and its words. Common practice, no source."""

from dataclasses import replace
from datetime import date, time

import pytest
from in_words import said
from test_plausibility import DAY, SOUND, found, keys, only, past, result, sample

from wellbook.water.values.local_time import LocalTime

MAY = date(2024, 5, 4)


def drawn(moment, **words):
    return [replace(r, collected=moment) for r in sample(**words)]


def test_nothing_raises_nothing():
    assert found([], today=DAY, received=LocalTime(DAY)) == ()


@pytest.mark.parametrize(
    ("day", "today", "asked"),
    [(DAY, DAY, False), (date(2024, 5, 7), DAY, True), (date(2024, 5, 7), None, False)],
)
def test_only_a_day_still_to_come_is_in_the_future(day, today, asked):
    assert ("future_date" in keys(sample(day, nitrate=4), today=today)) is asked


@pytest.mark.parametrize(
    ("collected", "received", "asked"),
    [
        (LocalTime(DAY, time(10)), LocalTime(DAY, time(9)), True),
        (LocalTime(DAY, time(9)), LocalTime(DAY, time(9)), False),
        (LocalTime(DAY, time(9)), LocalTime(DAY, time(10)), False),
        (LocalTime(DAY, time(10)), LocalTime(DAY), False),
        (LocalTime(DAY), LocalTime(DAY, time(9)), False),
        (LocalTime(DAY, time(10), -240), LocalTime(DAY, time(9)), False),
        (LocalTime(DAY, time(10), -240), LocalTime(DAY, time(9), -240), True),
        (LocalTime(DAY, time(9)), LocalTime(MAY, time(10)), True),
        (LocalTime(MAY, time(10)), LocalTime(DAY, time(9)), False),
    ],
)
def test_a_sample_is_later_than_its_receipt_only_where_that_is_sure(collected, received, asked):
    assert keys(drawn(collected, nitrate=4), received=received) == (
        {"after_receipt"} if asked else set()
    )


@pytest.mark.parametrize(
    ("day", "today", "received", "guess"),
    [
        (date(2024, 11, 3), date(2024, 4, 1), None, "2024-03-11"),
        (date(2024, 12, 3), date(2024, 4, 1), None, "2024-03-12"),
        (date(2024, 11, 13), date(2024, 4, 1), None, ""),
        (date(2024, 11, 11), date(2024, 4, 1), None, ""),
        (date(2024, 11, 3), date(2024, 3, 11), None, "2024-03-11"),
        (date(2024, 11, 3), date(2024, 3, 10), None, ""),
        (date(2024, 11, 3), None, date(2024, 4, 1), "2024-03-11"),
        (date(2024, 11, 3), date(2024, 4, 1), date(2024, 3, 1), ""),
        (date(2024, 11, 3), date(2024, 3, 1), date(2024, 4, 1), ""),
    ],
)
def test_day_and_month_are_swapped_only_where_that_puts_it_right(day, today, received, guess):
    (first, *_) = found(
        sample(day, nitrate=4), today=today, received=LocalTime(received) if received else None
    )
    assert (f"Were day and month swapped ({guess})?" in said(first)) is bool(guess)
    if not guess:
        assert said(first).endswith(("which is still to come.", "taken?"))


def test_results_older_than_their_sample_are_counted_and_named():
    nitrate, iron, lead = sample(nitrate=4, iron=0.1, lead=1)
    report = [
        nitrate,
        replace(iron, analysed=LocalTime(date(2024, 5, 1))),
        replace(lead, analysed=LocalTime(date(2024, 5, 2))),
    ]
    finding = only(report)
    assert said(finding).startswith(
        "2 of 3 results were analysed before the sample was drawn "
        "(Iron: 2024-05-01, drawn 2024-05-06)."
    )
    assert finding.results == (2, 3)


METALS = {"lead": 1, "arsenic": 2, "barium": 0.05, "copper": 0.01, "zinc": 0.02, "nickel": 3}


def copied(equal, others=0):
    """So many figures equal to their reporting limit, and so many that are not."""
    words = dict(list(METALS.items())[: equal + others])
    return [
        result(k, key, word, reporting_limit=f" {word} " if k < equal else "0.0001")
        for k, (key, word) in enumerate(words.items())
    ]


@pytest.mark.parametrize(
    ("equal", "others", "asked"),
    [(3, 0, True), (2, 0, False), (3, 3, True), (2, 1, False), (4, 2, True), (4, 0, True)],
)
def test_three_equal_figures_that_are_half_of_all_are_a_wrong_column(equal, others, asked):
    findings = [one for one in found(copied(equal, others)) if one.key == "wrong_column"]
    assert bool(findings) is asked
    if asked:
        (finding,) = findings
        assert said(finding) == (
            f"{equal} of {equal + others} figures are exactly their reporting limit "
            "(Lead, Arsenic, Barium …). Was the wrong column copied?"
        )
        assert finding.results == tuple(range(equal))


def test_three_of_seven_are_less_than_half():
    report = [*copied(3, 3), result(9, "cadmium", 7, reporting_limit="1")]
    assert "wrong_column" not in keys(report)


def test_non_detects_and_zeros_are_no_copied_figures():
    report = [
        result(k, key, word, reporting_limit=word)
        for k, (key, word) in enumerate({"lead": "<1", "arsenic": "<2", "barium": "<3"}.items())
    ]
    assert found(report) == ()
    report = [*copied(3), *(result(k, "total_coliform", 0) for k in range(7, 11))]
    assert "3 of 3 figures" in said(only(report))


@pytest.mark.parametrize(
    ("words", "units", "asked"),
    [
        ({"nitrate": 10, "arsenic": 10, "barium": 2}, {}, True),
        ({"nitrate": 10, "arsenic": 10, "barium": 2.1}, {}, False),
        ({"nitrate": 10, "arsenic": 10, "barium": 2}, {"arsenic": "ng/L"}, False),
    ],
)
def test_figures_are_legal_limits_only_in_the_same_unit(words, units, asked):
    """EPA: nitrate 10 mg/L as N, arsenic 10 µg/L, barium 2 mg/L."""
    report = [
        result(k, key, word, **({"unit": units[key]} if key in units else {}))
        for k, (key, word) in enumerate(words.items())
    ]
    assert ("wrong_column" in keys(report)) is asked


def test_a_zero_is_noted_after_rows_that_nobody_knows():
    unknown = replace(result(1, "lead", 5), parameter="")
    finding = only([unknown, result(2, "lead", "<5"), result(3, "arsenic", 0)])
    assert (finding.key, finding.severity, finding.results) == ("zero", "note", (3,))
    assert said(finding).startswith("Arsenic is reported as 0.")


@pytest.mark.parametrize("key", ["temperature", "odor", "color", "e_coli", "redox_potential"])
def test_zero_is_a_sound_figure_for_some(key):
    assert found(sample(**{key: 0})) == ()


def undetected(*words, unit="µg/L"):
    return [
        result(0, "arsenic", word, date(2020 + k, 1, 1), sample=k + 100, unit=unit)
        for k, word in enumerate(words)
    ]


@pytest.mark.parametrize(
    ("history", "asked"),
    [
        (undetected("<2", "<2"), True),
        (undetected("<1", "<2", "<2"), True),
        (undetected("<2", "<2", "<1"), True),
        (undetected("<2", "<1", "<2"), True),
        (undetected("<2", "<2", "<1", "<1", "<1"), False),
        (undetected("1.5", "<2", "<2"), False),
        (undetected("<2"), False),
        (undetected("<2", "2"), False),
        (undetected("<2", "<2", unit="ng/L"), False),
        ([], False),
    ],
)
def test_a_sign_is_lost_only_where_half_of_the_last_four_are_non_detects_at_that_figure(
    history, asked
):
    findings = [one for one in found(sample(arsenic=2), history) if one.key == "lost_sign"]
    assert bool(findings) is asked
    for finding in findings:
        assert finding.results == (1,)
        assert said(finding).startswith("Arsenic 2 µg/L is exactly the reporting limit of")


@pytest.mark.parametrize(
    ("first", "second", "asked"),
    [
        ({"lead": 1, "iron": 2, "zinc": 3}, {"lead": 1, "iron": 2, "zinc": 3}, True),
        ({"lead": 1, "iron": 2}, {"lead": 1, "iron": 2}, False),
        ({"lead": 1, "iron": 2, "zinc": 3}, {"lead": 1, "iron": 2, "zinc": 4}, False),
        ({"lead": 1, "iron": 2, "zinc": 3, "nickel": 4}, {"lead": 1, "iron": 2, "zinc": 3}, True),
        ({"lead": 1, "iron": 2}, {"lead": 1, "iron": 2, "zinc": 3}, False),
    ],
)
def test_a_report_is_there_before_only_as_a_whole(first, second, asked):
    assert ("entered_before" in keys(sample(**second), sample(number=3, **first))) is asked


def test_rows_that_nobody_knows_are_told_apart_by_their_names():
    rows = [replace(r, parameter="") for r in sample(number=3, lead=1, iron=1, zinc=1)]
    others = [replace(r, name=f"{r.name} X", sample=0) for r in rows]
    assert "entered_before" not in keys(others, rows)
    assert "entered_before" in keys([replace(r, sample=0) for r in rows], rows)


def test_the_same_figures_of_another_day_are_another_report():
    words = {"lead": 1, "iron": 2, "zinc": 3}
    assert "entered_before" not in keys(sample(**words), sample(MAY, number=3, **words))
    finding = only(sample(**words), sample(number=3, **words))
    assert said(finding).startswith("All 3 readings of 2024-05-06 are already in the record.")


@pytest.mark.parametrize(
    ("key", "usual", "word", "words"),
    [
        ("chloride", 22, 220, "is 10 times higher than 22 mg/L, the middle of 6 other tests here"),
        ("chloride", 22.46, 224.6, "higher than 22.5 mg/L"),
        ("chloride", 22, 2.2, "is 10 times lower than 22 mg/L"),
        ("chloride", 22, 255, "Could it be a decimal point out of place?"),
        ("chloride", 22, 290, "Could it be a mistake in copying, or another sample?"),
        ("chloride", 22, 2300, "a decimal point out of place by two?"),
        ("chloride", 22, 21000, "µg/L taken for mg/L, or the other way round?"),
        ("nitrate", 4.2, 0.95, "nitrate as NO3 taken for nitrate as N"),
        ("hardness", 355, 6077, "grains per gallon taken for mg/L"),
        ("sulfate", 30, 133, "a mistake in copying"),
        ("sulfate", 34, 200, "Sulfate (200 mg/L) is 5.9 times higher than 34 mg/L"),
    ],
)
def test_a_far_figure_is_told_with_how_far_and_why(key, usual, word, words):
    finding = only(sample(**{key: word}), past(**{key: usual}))
    assert (finding.key, finding.results) == ("far_from_history", (1,))
    assert words in said(finding)


def test_ph_is_told_as_it_is():
    assert said(only(sample(ph=4.134), past(ph=7.34))) == (
        "pH 4.13 is far from 7.3, the middle of 6 other tests here. Is it copied right, and the "
        "right sample?"
    )


def test_two_that_went_the_same_way_are_two_questions_and_three_are_one():
    usual = {"chloride": 11, "sodium": 7, "sulfate": 4}
    two = found(sample(chloride=70, sodium=43), past(**usual))
    assert [one.key for one in two] == ["far_from_history", "far_from_history"]
    (three,) = found(sample(chloride=70, sodium=43, sulfate=25), past(**usual))
    assert said(three).startswith(
        "3 figures (Chloride, Sodium, Sulfate) are 6.1 to 6.4 times higher than in other tests"
    )
    (low,) = found(sample(chloride=1.8, sodium=1.1, sulfate=0.65), past(**usual))
    assert "6.1 to 6.4 times lower than" in said(low)


def test_figures_that_went_both_ways_are_asked_about_apart():
    usual = {"chloride": 11, "sulfate": 4, "fluoride": 0.3, "barium": 0.2, "zinc": 0.3, "iron": 0.5}
    report = sample(chloride=70, sulfate=25, fluoride=1.9, barium=0.03, zinc=0.05, iron=0.08)
    up_and_down = found(report, past(**usual))
    assert [one.key for one in up_and_down] == ["many_far_from_history"] * 2
    assert [one.results for one in up_and_down] == [(4, 5, 6), (1, 2, 3)]


def test_ph_is_never_one_of_many():
    usual = {"chloride": 11, "sulfate": 4, "ph": 7.3}
    assert [one.key for one in found(sample(chloride=70, sulfate=25, ph=10.5), past(**usual))] == [
        "far_from_history"
    ] * 3


def test_different_slips_in_many_are_not_named():
    history = past(lead=2, arsenic=3, cadmium=0.5)
    finding = only(sample(lead="0.002", arsenic="0.03", cadmium="0.0005"), history)
    assert said(finding).endswith(
        "Is it the right tap, or was a treatment unit bypassed, new or spent?"
    )


@pytest.mark.parametrize(
    ("usual", "words", "ways", "rows"),
    [
        ({"hardness": 355, "sodium": 12}, {"hardness": 5, "sodium": 165}, "lower|higher", (1, 2)),
        ({"hardness": 5, "sodium": 165}, {"hardness": 355, "sodium": 12}, "higher|lower", (1, 2)),
        ({"calcium": 96, "sodium": 12}, {"calcium": 1, "sodium": 165}, "lower|higher", (1, 2)),
        (
            {"calcium": 96, "magnesium": 28, "sodium": 12, "barium": 0.2},
            {"calcium": 1, "magnesium": 0.3, "sodium": 165, "barium": 0.002},
            "lower|higher",
            (1, 2, 3),
        ),
    ],
)
def test_water_from_the_other_side_of_a_softener_is_one_question(usual, words, ways, rows):
    first = found(sample(**words), past(**usual))[0]
    assert (first.key, first.results) == ("other_side_of_softener", rows)
    hard, sodium = ways.split("|")
    assert f"is far {hard} and sodium far {sodium} than" in said(first)


def test_hardness_and_sodium_gone_the_same_way_are_no_softener():
    report = sample(hardness=3550, sodium=120)
    assert keys(report, past(hardness=355, sodium=12)) == {"far_from_history"}


def test_rows_are_swapped_only_where_both_would_fit():
    assert keys(sample(chloride=200, sulfate=50), past(chloride=5, sulfate=200)) >= {
        "far_from_history"
    }
    finding = only(sample(chloride=210, sulfate=5), past(chloride=5, sulfate=200))
    assert said(finding).startswith("Chloride (210) and Sulfate (5) are both far from the other")


@pytest.mark.parametrize(
    ("part", "whole", "once"),
    [
        ("nitrate", "nitrate_nitrite", 1),
        ("nitrite", "nitrate_nitrite", 1),
        ("ammonia", "kjeldahl_nitrogen", 1),
        ("kjeldahl_nitrogen", "total_nitrogen", 1),
        ("phosphate", "phosphorus", 1),
        ("hardness_calcium", "hardness", 1),
        ("hardness_magnesium", "hardness", 1),
        ("hardness_noncarbonate", "hardness", 1),
        ("bicarbonate", "alkalinity", 61.016 / 50.043),  # HCO3 and half a CaCO3, g/mol
        ("iron_ferrous", "iron", 1),
        ("chromium_vi", "chromium", 1),
        ("dissolved_organic_carbon", "total_organic_carbon", 1),
        ("chlorine_residual", "chlorine_total", 1),
        ("fecal_coliform", "total_coliform", 1),
        ("e_coli", "total_coliform", 1),
    ],
)
def test_a_part_may_be_a_fifth_over_its_whole_and_not_more(part, whole, once):
    unit = {"unit": "CFU/100 mL"} if whole == "total_coliform" else {}

    def asked(factor):
        report = [
            result(1, part, f"{100 * once * factor:.3f}", **unit),
            result(2, whole, "100", **unit),
        ]
        return "part_over_whole" in keys(report)

    assert not asked(1.19)
    assert asked(1.21)


def test_of_several_parts_and_wholes_the_largest_count():
    rows = [
        result(1, "nitrate", 1),
        result(2, "nitrate", 9),
        result(3, "nitrate_nitrite", 2),
        result(4, "nitrate_nitrite", 5),
    ]
    finding = only(rows)
    assert finding.results == (2, 4)
    assert said(finding).startswith("Nitrate (9 mg/L as N) is more than Nitrate")
    assert found([*rows, result(5, "nitrate_nitrite", 10)]) == ()


@pytest.mark.parametrize(
    ("dissolved", "total", "asked"),
    [("2.3", "2", False), ("2.5", "2", True), ("<9", "2", False), ("2", "<1", True)],
)
def test_dissolved_may_be_a_fifth_over_total_and_not_more(dissolved, total, asked):
    report = [
        result(1, "iron", "1"),
        result(2, "iron", dissolved, fraction="dissolved"),
        result(3, "lead", "1", fraction="total"),
        result(4, "iron", total, fraction="total"),
    ]
    findings = found(report)
    assert bool(findings) is asked
    for finding in findings:
        assert finding.results == (2, 4)
        assert said(finding).startswith(f"Dissolved Iron ({dissolved} mg/L) is more than total")


@pytest.mark.parametrize(
    ("rows", "asked"),
    [
        ([("e_coli", "P"), ("total_coliform", "A")], True),
        ([("e_coli", ">5"), ("total_coliform", "A")], True),
        ([("fecal_coliform", "P"), ("total_coliform", "A")], True),
        ([("e_coli", "0"), ("total_coliform", "A")], False),
        ([("e_coli", "P"), ("total_coliform", "A"), ("total_coliform", "P")], False),
        ([("e_coli", "P"), ("total_coliform", "P"), ("total_coliform", "A")], False),
        ([("e_coli", "P")], False),
    ],
)
def test_a_germ_without_coliform_can_not_be(rows, asked):
    findings = found([result(k, key, word) for k, (key, word) in enumerate(rows, 1)])
    assert ("germ_without_coliform" in {one.key for one in findings}) is asked
    if asked:
        assert findings[0].results == (1, 2)


@pytest.mark.parametrize(
    ("printed", "asked", "slip"),
    [
        # Calcium 96 and magnesium 28 mg/L make 355 mg/L as CaCO3; a tenth more or less may be.
        (385, False, ""),
        (320, False, ""),
        (400, True, ""),
        (310, True, ""),
        (20.7, True, " Is the hardness in grains per gallon?"),
        (6077, True, " Was a figure in mg/L taken for grains per gallon?"),
        (142.2, True, " Are calcium and magnesium given as CaCO3?"),
        (35.5, True, " Is a decimal point out of place?"),
        (3550, True, " Is a decimal point out of place?"),
        (25, True, ""),
        (17, True, ""),
    ],
)
def test_hardness_may_be_a_tenth_off_its_sum(printed, asked, slip):
    findings = found(sample(calcium=96, magnesium=28, hardness=printed))
    assert bool(findings) is asked
    for finding in findings:
        assert said(finding).endswith(f"which make 355.{slip}")
        assert finding.results == (1, 2, 3)


@pytest.mark.parametrize(("printed", "asked"), [("14.9", False), ("16", True), ("4", True)])
def test_soft_water_may_be_5_milligrams_off(printed, asked):
    """Calcium 4 mg/L and magnesium 0.01 make 10 mg/L as CaCO3."""
    report = sample(calcium=4, magnesium="0.01", hardness=printed)
    assert ("hardness_sum" in keys(report)) is asked


IONS = {k: v for k, v in SOUND.items() if k not in {"hardness", "tds", "conductivity"}}


@pytest.mark.parametrize(
    ("chloride", "severity"), [(22, ""), (38, "note"), (48, "note"), (58, "ask"), (90, "ask")]
)
def test_an_imbalance_is_noted_and_beyond_5_percent_asked_about(chloride, severity):
    findings = found(sample(**IONS | {"chloride": chloride}))
    assert [one.severity for one in findings] == ([severity] if severity else [])


def test_a_balance_names_what_was_not_measured():
    lacking = {k: v for k, v in IONS.items() if k not in {"potassium", "nitrate"}}
    finding = only(sample(**lacking | {"chloride": 220}))
    assert "of their sum (potassium and nitrate not measured)." in said(finding)
    whole = only(sample(**IONS | {"chloride": 220}))
    assert "% of their sum. Could it be a decimal point out of place in chloride or" in said(whole)
    ions = {"calcium", "magnesium", "sodium", "potassium", "chloride", "sulfate", "fluoride"}
    ions |= {"nitrate", "alkalinity"}
    numbers = {name: k for k, name in enumerate(IONS, 1)}
    assert whole.results == tuple(sorted(numbers[name] for name in ions))


@pytest.mark.parametrize(
    ("key", "word", "slip"),
    [
        ("alkalinity", 372, "alkalinity given as bicarbonate"),
        ("sulfate", 34 * 8 / 2.9957, "sulfate given as S"),
        ("magnesium", 28 * 4.1179, "magnesium given as CaCO3"),
        ("calcium", 960, "a decimal point out of place in calcium"),
        ("calcium", 9.6, "a decimal point out of place in calcium"),
    ],
)
def test_the_slip_that_would_balance_the_ions_is_named(key, word, slip):
    water = IONS | ({"calcium": 96 + 20.04 * 4.96} if key == "sulfate" else {})
    assert slip in said(only(sample(**water | {key: f"{word:.2f}"})))


@pytest.mark.parametrize(("tds", "asked"), [(210, True), (350, False), (630, False), (800, True)])
def test_solids_are_noted_far_from_half_to_eleven_tenths_of_conductivity(tds, asked):
    findings = found(sample(tds=tds, conductivity=650))
    assert bool(findings) is asked
    for finding in findings:
        assert "usual is 0.5 to 1.1" in said(finding)
        assert "times the conductivity (650)" in said(finding)


@pytest.mark.parametrize(("tds", "asked"), [(310, True), (340, False), (640, False), (680, True)])
def test_solids_are_noted_far_from_their_sum(tds, asked):
    """The sum of the sound water is 408 mg/L; 0.8 to 1.6 times that is usual."""
    findings = found(sample(**IONS, tds=tds))
    assert bool(findings) is asked
    for finding in findings:
        assert (finding.key, finding.severity) == ("solids_sum", "note")
        assert "usual is 0.8 to 1.6" in said(finding)


def test_without_measured_solids_the_sum_is_held_against_the_conductivity():
    assert found(sample(**IONS, conductivity=703)) == ()
    assert keys(sample(**IONS, conductivity=300)) == {"solids_conductivity"}
