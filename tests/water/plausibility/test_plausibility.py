"""A report is held against itself, its well and the calendar; a finding asks and changes nothing.

The checks follow what is usual when reports are copied (common practice, no source), the sums
Standard Methods 1030 E and 2340 B; the slip of the alkalinity is that of a public county file.
"""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal

import pytest
from in_words import said

from wellbook.support import paths
from wellbook.water.plausibility.checks import check
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.water.values.results import Result

CATALOGUE = read_catalogue(paths.resources())
DAY = date(2024, 5, 6)
KINDS = {"<": Kind.BELOW, ">": Kind.ABOVE, "P": Kind.PRESENT, "A": Kind.ABSENT}
# A made-up hard limestone water whose ions balance.
SOUND = {
    "ph": 7.3, "calcium": 96, "magnesium": 28, "sodium": 12, "potassium": 2.0, "chloride": 22,
    "sulfate": 34, "fluoride": 0.2, "silica": 12, "nitrate": 4.2, "alkalinity": 305,
    "hardness": 355, "tds": 420, "conductivity": 703,
}  # fmt: skip


def result(number, key, word, day=DAY, **more):
    parameter = CATALOGUE.parameters[key]
    word = str(word)
    kind = KINDS.get(word[0], Kind.NUMBER)
    figure = None if word[0] in "PA" else Decimal(word.strip("<>"))
    reading = Reading(
        word,
        kind,
        figure,
        more.pop("unit", parameter.unit),
        more.pop("basis", parameter.basis),
        more.pop("fraction", ""),
    )
    return Result(
        number, more.pop("sample", 0), key, parameter.name, reading, LocalTime(day), 1, **more
    )


def sample(day=DAY, number=0, **words):
    return [
        result(k, key, word, day, sample=number) for k, (key, word) in enumerate(words.items(), 1)
    ]


def past(**words):
    """Six earlier samples, each a little different."""
    return [
        result(0, key, float(word) * (1 + 0.03 * (k % 3 - 1)), date(2017 + k, 5, 6), sample=k + 100)
        for key, word in words.items()
        for k in range(6)
    ]


def found(results, history=(), **more):
    return check(results, CATALOGUE, history, **more)


def keys(results, history=(), **more):
    return {finding.key for finding in found(results, history, **more)}


def only(results, history=(), **more):
    (finding,) = found(results, history, **more)
    return finding


def test_a_sound_report_raises_nothing():
    assert found(sample(**SOUND), past(**SOUND), today=DAY, received=LocalTime(DAY)) == ()


@pytest.mark.parametrize(
    ("key", "word", "slip"),
    [
        ("calcium", 240, "calcium given as CaCO3"),
        ("nitrate", 18.6, ""),
        ("chloride", 220, "a decimal point out of place in chloride"),
        ("alkalinity", 372, "alkalinity given as bicarbonate"),
    ],
)
def test_one_wrong_ion_upsets_the_balance_and_the_slip_is_named(key, word, slip):
    water = {k: v for k, v in SOUND.items() if k not in {"hardness", "tds", "conductivity"}}
    finding = only(sample(**water | {key: word}))
    assert (finding.key, finding.severity) == ("charge_balance", "ask")
    assert slip in said(finding)
    assert "meq/L" in said(finding)


def test_alkalinity_halved_on_its_way_to_milliequivalents_is_named():
    # California, 1988: alkalinity 145 as CaCO3 printed as 1.449 meq/L (145/100); imbalance 29 %.
    report = sample(calcium=34, sodium=33, potassium="<5", magnesium=15, chloride="<5", sulfate=23,
                    nitrate=5.7)  # fmt: skip
    report.append(result(9, "alkalinity", 1.449, unit="meq/L", basis=""))
    finding = only(report)
    assert finding.key == "charge_balance"
    assert "28 to 32 %" in said(finding)
    assert "alkalinity divided by 100 and not by 50" in said(finding)


def test_the_same_report_without_the_slip_is_still_7_percent_off_and_blames_no_halving():
    report = sample(calcium=34, sodium=33, potassium="<5", magnesium=15, chloride="<5", sulfate=23,
                    nitrate=5.7, alkalinity=145)  # fmt: skip
    finding = only(report)
    assert "by 5.3 to 8.6 %" in said(finding)
    assert "divided by 100" not in said(finding)


def test_hardness_in_grains_is_asked_about():
    finding = only(sample(calcium=96, magnesium=28, hardness=20.7))
    assert finding.key == "hardness_sum"
    assert "Is the hardness in grains per gallon?" in said(finding)
    assert "355" in said(finding)


@pytest.mark.parametrize(
    "words",
    [
        {"nitrate": 9, "nitrate_nitrite": 5},
        {"hardness_calcium": 300, "hardness": 200},
        {"iron_ferrous": 2, "iron": 1},
        {"bicarbonate": 300, "alkalinity": 150},
        {"nitrite": 2, "nitrate_nitrite": "<1"},
    ],
)
def test_a_part_over_its_whole_is_asked_about(words):
    finding = only(sample(**words))
    assert finding.key == "part_over_whole"
    assert finding.results == (1, 2)


@pytest.mark.parametrize(
    "words",
    [
        {"nitrate": 5.2, "nitrate_nitrite": 5},
        {"bicarbonate": 183, "alkalinity": 150},
        {"nitrite": "<0.5", "nitrate_nitrite": "<0.1"},
    ],
)
def test_a_part_about_as_large_as_its_whole_is_not(words):
    assert found(sample(**words)) == ()


def test_dissolved_over_total_is_asked_about():
    report = [
        result(1, "iron", 2.0, fraction="dissolved"),
        result(2, "iron", 0.5, fraction="total"),
    ]
    assert only(report).key == "part_over_whole"


@pytest.mark.parametrize(("e_coli", "coliform"), [("P", "A"), ("3", "0"), ("P", "<1")])
def test_e_coli_without_coliform_is_asked_about_and_taken_seriously(e_coli, coliform):
    finding = only(sample(e_coli=e_coli, total_coliform=coliform))
    assert finding.key == "germ_without_coliform"
    assert "take the water as contaminated" in said(finding)


@pytest.mark.parametrize(("e_coli", "coliform"), [("P", "P"), ("A", "A"), ("A", "P"), ("1", ">23")])
def test_e_coli_with_coliform_is_not(e_coli, coliform):
    assert found(sample(e_coli=e_coli, total_coliform=coliform)) == ()


@pytest.mark.parametrize(
    ("key", "usual", "word", "slip"),
    [
        ("nitrate", 4.2, 18.6, "nitrate as NO3 taken for nitrate as N"),
        ("chloride", 22, 220, "a decimal point out of place?"),
        ("chloride", 22, 0.22, "out of place by two"),
        ("manganese", 0.05, 50, "µg/L taken for mg/L"),
        ("hardness", 355, 20.7, "grains per gallon"),
        ("sulfate", 34, 200, "a mistake in copying"),
    ],
)
def test_a_figure_far_from_the_history_is_asked_about_with_its_slip(key, usual, word, slip):
    finding = only(sample(**{key: word}), past(**{key: usual}))
    assert finding.key == "far_from_history"
    assert slip in said(finding)
    assert "6 other tests here" in said(finding)


def test_a_figure_a_little_off_is_not():
    assert found(sample(nitrate=6.5), past(nitrate=4.2)) == ()


def test_three_other_tests_are_no_habit():
    assert found(sample(nitrate=44), past(nitrate=4.2)[:3]) == ()


def test_ph_is_compared_as_it_is():
    assert "pH 4.1 is far from 7.3" in said(only(sample(ph=4.1), past(ph=7.3)))
    assert found(sample(ph=6.4), past(ph=7.3)) == ()


def test_two_rows_that_would_fit_if_swapped_are_one_question():
    finding = only(sample(chloride=210, sulfate=5), past(chloride=5, sulfate=200))
    assert finding.key == "rows_swapped"
    assert finding.results == (1, 2)


def test_hardness_gone_and_sodium_come_looks_like_the_other_side_of_a_softener():
    history = past(hardness=355, sodium=12, chloride=20)
    finding = only(sample(hardness="<5", sodium=165, chloride=21), history)
    assert finding.key == "other_side_of_softener"
    assert finding.results == (1, 2)


def test_many_figures_gone_the_same_way_are_one_question():
    history = past(chloride=11, sodium=7, sulfate=4, nitrate=0.3)
    finding = only(sample(chloride=70, sodium=43, sulfate=25, nitrate=0.31), history)
    assert (finding.key, finding.results) == ("many_far_from_history", (1, 2, 3))
    assert "was a treatment unit bypassed, new or spent?" in said(finding)


def test_a_slip_in_all_of_them_is_named_once():
    history = past(lead=2, arsenic=3, cadmium=0.5)
    finding = only(sample(lead="0.002", arsenic="0.003", cadmium="0.0005"), history)
    assert "µg/L taken for mg/L" in said(finding)


def test_a_sample_is_not_compared_with_itself():
    kept = sample(number=7, **SOUND)
    assert found(kept, kept) == ()


def test_a_sample_from_tomorrow_is_asked_about():
    finding = only(sample(nitrate=4), today=date(2024, 5, 5))
    assert finding.key == "future_date"
    assert "2024-05-06" in said(finding)


def test_day_and_month_swapped_are_guessed():
    finding = only(sample(date(2024, 11, 3), nitrate=4), today=date(2024, 4, 1))
    assert "Were day and month swapped (2024-03-11)?" in said(finding)


def test_a_sample_drawn_after_its_receipt_is_asked_about():
    assert keys(sample(nitrate=4), received=LocalTime(date(2024, 5, 5))) == {"after_receipt"}
    assert keys(sample(nitrate=4), received=LocalTime(DAY, time(8))) == set()


def test_a_result_older_than_its_sample_is_asked_about():
    report = [replace(r, analysed=LocalTime(date(2024, 5, 1))) for r in sample(nitrate=4)]
    assert only(report).key == "analysed_before_collected"


def test_figures_that_all_equal_their_reporting_limit_are_the_wrong_column():
    report = [
        result(k, key, word, reporting_limit=str(word))
        for k, (key, word) in enumerate({"lead": 1, "arsenic": 2, "barium": 0.05}.items())
    ]
    finding = only(report)
    assert finding.key == "wrong_column"
    assert "3 of 3 figures are exactly their reporting limit" in said(finding)


def test_figures_that_all_equal_the_legal_limit_are_the_wrong_column():
    # EPA's maximum contaminant levels: nitrate 10 mg/L as N, arsenic 10 µg/L, barium 2 mg/L.
    assert keys(sample(nitrate=10, arsenic=10, barium=2)) == {"wrong_column"}


def test_a_figure_equal_to_the_limit_of_earlier_non_detects_may_have_lost_its_sign():
    history = [result(0, "arsenic", "<2", date(2020 + k, 1, 1), sample=k + 100) for k in range(3)]
    assert only(sample(arsenic=2), history).key == "lost_sign"
    assert found(sample(arsenic=3), history) == ()


def test_a_figure_equal_to_its_own_limit_or_to_those_beside_it_may_have_lost_its_sign():
    own = [result(0, "lead", 1, reporting_limit="1.0"), result(1, "arsenic", 3)]
    assert only(own).key == "lost_sign"
    assert "exactly its own reporting limit" in said(only(own))
    beside = sample(lead=1, arsenic="<1", cadmium="<1", selenium=3)
    assert only(beside).key == "lost_sign"
    assert "other non-detects of this test" in said(only(beside))
    assert found(sample(lead=1.1, arsenic="<1", cadmium="<1")) == ()
    assert found(sample(lead=1, arsenic="<1", cadmium="<0.5")) == (), "one alike may be chance"
    before = [result(9, "lead", "0.8", date(2020, 1, 1), sample=100)]
    assert found(beside, before) == (), "so little was found before"


def test_zero_is_noted_where_labs_print_a_limit():
    assert only(sample(arsenic=0)).severity == "note"
    assert found(sample(total_coliform=0)) == ()


def test_a_report_entered_twice_is_asked_about():
    first = sample(number=3, **SOUND)
    assert keys(sample(**SOUND), first) == {"entered_before"}


def test_what_was_not_analysed_or_is_rejected_is_not_checked():
    history = past(nitrate=4.2)
    (row,) = sample(nitrate=44)
    rejected = replace(row, reading=replace(row.reading, flags=frozenset({Flag.REJECTED})))
    assert found([rejected], history) == ()
    assert found([replace(row, reading=Reading("pending", Kind.NONE))], history) == ()


def test_solids_far_from_the_conductivity_are_only_noted():
    finding = only(sample(tds=100, conductivity=703))
    assert (finding.key, finding.severity) == ("solids_conductivity", "note")


def test_what_wants_an_answer_comes_first():
    report = sample(tds=100, conductivity=703, e_coli="P", total_coliform="A")
    assert [finding.severity for finding in found(report)] == ["ask", "note"]


def test_the_order_of_the_rows_does_not_matter():
    report = sample(**SOUND | {"chloride": 220, "nitrate": 44})
    history = past(**SOUND)
    assert keys(report, history) == keys(report[::-1], history)
    assert keys(report, history) >= {"charge_balance", "far_from_history"}


def test_nitrate_as_no3_is_asked_about_where_no_history_tells_and_the_ions_do():
    """3 mg/L as N are 13.3 as NO3: 0.74 meq/L of anions too many, and none with N put right."""
    slipped = SOUND | {"nitrate": 13.3}
    finding = only(sample(**slipped))
    assert (finding.key, finding.severity) == ("charge_balance", "ask")
    assert "NO3" in said(finding)
    assert found(sample(**SOUND | {"nitrate": 3})) == ()
    before = [result(0, "nitrate", 13, date(2020 + k, 1, 1), sample=k + 100) for k in range(4)]
    assert all(one.severity == "note" for one in found(sample(**slipped), before))
