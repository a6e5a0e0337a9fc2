"""What counts as far from a well's habit, and the slips that would explain it.

The bounds are ours (common practice, no source); factors of slips are ratios of molar masses.
"""

from dataclasses import replace
from datetime import date

import pytest
from in_words import said
from test_plausibility import SOUND, found, keys, only, past, result, sample

from wellbook.water.chemistry.interval import Interval
from wellbook.water.plausibility import history as plausible_history
from wellbook.water.plausibility import sums
from wellbook.water.plausibility.parts import _hardness_slip
from wellbook.water.plausibility.slips import Slip
from wellbook.water.values.readings import Flag


def spread_out(key, usual, *powers):
    """Earlier samples that lie so many powers of ten from the usual figure."""
    return [
        result(0, key, f"{usual * 10**power:.6f}", date(2015 + k, 5, 6), sample=k + 100)
        for k, power in enumerate(powers)
    ]


WIDE = (-0.12, -0.1, -0.1, 0.1, 0.1, 0.12)  # scatter 0.148: 1.4826 times the median deviation


def test_four_other_tests_are_a_habit():
    finding = only(sample(nitrate=44), past(nitrate=4.2)[:4])
    assert "the middle of 4 other tests here" in said(finding)


@pytest.mark.parametrize(
    ("factor", "asked"), [(3.9, False), (4.2, True), (1 / 3.9, False), (1 / 4.2, True)]
)
def test_four_times_the_usual_is_far(factor, asked):
    assert bool(found(sample(sulfate=f"{34 * factor:.3f}"), past(sulfate=34))) is asked


@pytest.mark.parametrize(("power", "asked"), [(0.66, False), (0.69, False), (0.73, True)])
def test_where_figures_scatter_far_is_four_times_the_scatter(power, asked):
    """4.2 times sqrt((6 · 0.208² + 4 · 0.08²) / 10), as four figures of usual scatter count in."""
    history = spread_out("sulfate", 34, -0.2, -0.14, -0.14, 0.14, 0.14, 0.2)  # scatter 0.208
    assert bool(found(sample(sulfate=f"{34 * 10**power:.3f}"), history)) is asked


@pytest.mark.parametrize("key", ["iron", "manganese"])
@pytest.mark.parametrize(
    ("power", "asked"), [(0.60, False), (0.64, True), (-0.90, False), (-0.95, True)]
)
def test_iron_and_manganese_are_asked_about_sooner_upwards_than_down(key, power, asked):
    """Of sqrt((6 · 0.208² + 4 · 0.24²) / 10) = 0.221 upwards 2.8, downwards 4.2."""
    history = spread_out(key, 0.5, -0.2, -0.14, -0.14, 0.14, 0.14, 0.2)
    assert bool(found(sample(**{key: f"{0.5 * 10**power:.4f}"}), history)) is asked


@pytest.mark.parametrize(("factor", "asked"), [(9.5, False), (10.5, True)])
def test_near_the_reporting_limit_far_is_ten_times(factor, asked):
    history = [*past(sulfate=34), *sample(date(2014, 5, 6), number=99, sulfate="<30")]
    assert bool(found(sample(sulfate=f"{34 * factor:.1f}"), history)) is asked


@pytest.mark.parametrize(
    ("word", "extra", "asked"),
    [
        ("<0.5", [], True),
        ("<50", [], False),
        ("<4", [], False),
        ("<0.1", ["<0.1"], False),
        ("<50", ["<0.1"], False),
        (">50", [], False),
    ],
)
def test_a_non_detect_is_far_only_below_what_was_always_found(word, extra, asked):
    history = past(nitrate=4.2)
    history += [result(0, "nitrate", w, date(2014, 5, 6), sample=99) for w in extra]
    assert ("far_from_history" in keys(sample(nitrate=word), history)) is asked


@pytest.mark.parametrize(("ph", "asked"), [(5.9, False), (5.7, True), (8.7, False), (8.9, True)])
def test_ph_is_far_from_one_and_a_half_on(ph, asked):
    assert bool(found(sample(ph=ph), past(ph=7.3))) is asked


@pytest.mark.parametrize("key", ["temperature", "turbidity", "e_coli", "odor"])
def test_what_follows_weather_and_chance_has_no_habit(key):
    assert found(sample(**{key: 60}), past(**{key: 1})) == ()


def test_total_and_dissolved_have_habits_of_their_own():
    history = [replace(r, reading=replace(r.reading, fraction="total")) for r in past(iron=4)]
    dissolved = result(1, "iron", "0.4", fraction="dissolved")
    assert found([dissolved], history) == ()
    assert only([result(1, "iron", "0.4")], history).key == "far_from_history"


def test_only_the_twelve_nearest_in_time_make_the_habit():
    old = [result(0, "nitrate", 1, date(1980 + k, 5, 6), sample=k + 500) for k in range(20)]
    new = [result(0, "nitrate", 9, date(2010 + k, 5, 6), sample=k + 600) for k in range(12)]
    assert found(sample(nitrate=9), old + new) == ()
    assert only(sample(nitrate=1), old + new).key == "far_from_history"


def test_the_nearer_of_two_slips_is_named():
    # 1.13 powers of ten: 0.13 from ten times, 0.10 from the 17.118 of grains per gallon.
    history = spread_out("hardness", 355, *WIDE)
    finding = only(sample(hardness=f"{355 * 10**-1.13:.2f}"), history)
    assert "grains per gallon" in said(finding)


@pytest.mark.parametrize(
    ("chloride", "swapped"), [("245", True), ("260", True), ("280", False), ("160", True)]
)
def test_swapped_rows_need_to_fit_about_as_well_as_others_do(chloride, swapped):
    history = past(chloride=5, sulfate=200)
    got = keys(sample(chloride=chloride, sulfate=5.5), history)
    assert ("rows_swapped" in got) is swapped


def test_where_one_row_scatters_a_swap_may_fit_less_well():
    history = [*past(chloride=5), *spread_out("sulfate", 200, *WIDE)]
    assert keys(sample(chloride=320, sulfate=5), history) == {"rows_swapped"}


@pytest.mark.parametrize(
    ("usual", "words", "ways"),
    [
        ({"hardness": 355, "sodium": 12}, {"hardness": 80, "sodium": 60}, ("lower", "higher")),
        ({"hardness": 80, "sodium": 60}, {"hardness": 355, "sodium": 12}, ("higher", "lower")),
    ],
)
def test_a_softener_half_spent_still_looks_like_one(usual, words, ways):
    finding = only(sample(**words), past(**usual))
    assert finding.key == "other_side_of_softener"
    assert f"is far {ways[0]} and sodium far {ways[1]} than" in said(finding)


def test_what_the_lab_rejected_is_not_even_noted():
    (row,) = sample(arsenic=0)
    rejected = replace(row, reading=replace(row.reading, flags=frozenset({Flag.REJECTED})))
    assert keys([row]) == {"zero"}
    assert found([rejected]) == ()


# g/mol by the IUPAC table of 2021.
N, NO3, NO2, S, SO4 = 14.007, 62.004, 46.005, 32.06, 96.056
CACO3, CA, MG, HCO3 = 100.086, 40.078, 24.305, 61.016
GRAIN = 17.118  # mg/L in a grain per US gallon: 64.79891 mg in 3.785411784 L


def test_slips_between_forms_are_ratios_of_molar_masses():
    factors = {slip: factor for _, factor, slip in sums._SLIPS}
    expected = {
        Slip.AS_BICARBONATE: CACO3 / 2 / HCO3,
        Slip.NITRATE_AS_NO3: N / NO3,
        Slip.NITRATE_AS_N: NO3 / N,
        Slip.SULFATE_AS_S: SO4 / S,
        Slip.CALCIUM_AS_CACO3: CA / CACO3,
        Slip.MAGNESIUM_AS_CACO3: MG / CACO3,
        Slip.HALVED: 2,
    }
    assert {slip: factors[slip] for slip in expected} == pytest.approx(expected, rel=1e-3)
    points = [factor for _, factor, slip in sums._SLIPS if "decimal" in slip]
    assert sorted(points) == [0.1] * 6 + [10.0] * 6
    own = {key: slips[0][0] for key, slips in plausible_history._OWN_SLIPS.items()}
    assert own == pytest.approx(
        {"nitrate": NO3 / N, "nitrite": NO2 / N, "hardness": GRAIN}, rel=1e-3
    )
    assert [factor for factor, _ in plausible_history._SLIPS] == [10, 100, 1000]


@pytest.mark.parametrize(
    ("factor", "slip"),
    [
        (1 / GRAIN, Slip.HARDNESS_IN_GRAINS),
        (GRAIN, Slip.MG_FOR_GRAINS),
        (CA / CACO3, Slip.BOTH_AS_CACO3),
        (10, Slip.POINT),
        (0.1, Slip.POINT),
    ],
)
def test_a_slip_of_hardness_fits_within_a_sixth(factor, slip):
    assert _hardness_slip(factor * 1.17) == _hardness_slip(factor * 0.86) == slip
    assert _hardness_slip(factor * 1.19) is _hardness_slip(factor * 0.84) is None


@pytest.mark.parametrize(
    ("printed", "asked"), [("391", False), ("397", True), ("321", False), ("317", True)]
)
def test_hardness_is_asked_about_from_a_tenth_off(printed, asked):
    """Calcium 96 and magnesium 28 mg/L make 355 mg/L as CaCO3."""
    assert bool(found(sample(calcium=96, magnesium=28, hardness=printed))) is asked


def test_hardness_and_its_sum_are_told_to_three_digits():
    finding = only(sample(calcium=95.5, magnesium=28, hardness="412.7"))
    assert said(finding) == (
        "Hardness 413 mg/L as CaCO3 does not fit calcium and magnesium, which make 354."
    )
    soft = only(sample(calcium=4, magnesium="0.01", hardness="15.3"))
    assert said(soft).startswith("Hardness 15.3 mg/L")
    none = only(sample(calcium="0.0001", magnesium="0.0001", hardness="100"))
    assert said(none).endswith("which make 0.000662.")


def test_a_bound_on_the_whole_leaves_room_for_the_part():
    assert found(sample(nitrite=0.5, nitrate_nitrite="<1")) == ()
    assert keys(sample(nitrite=1.3, nitrate_nitrite="<1")) == {"part_over_whole"}


def test_only_what_is_called_dissolved_is_held_against_the_total():
    total = result(2, "iron", "1", fraction="total")
    assert found([result(1, "iron", "9"), total]) == ()
    unknown = replace(result(1, "iron", "9", fraction="dissolved"), parameter="")
    assert found([unknown, total]) == ()


def test_a_germ_is_told_with_both_its_rows():
    rows = [
        result(1, "e_coli", "P"),
        result(2, "total_coliform", "A"),
        result(3, "total_coliform", "<1"),
    ]
    finding = only(rows)
    assert said(finding).startswith(
        "E. coli is reported present (P) but total coliform is not (A)."
    )
    assert finding.results == (1, 2)


IONS = {k: v for k, v in SOUND.items() if k not in {"hardness", "tds", "conductivity"}}


@pytest.mark.parametrize(("chloride", "severity"), [(47, "note"), (49.5, "ask")])
def test_an_imbalance_of_5_percent_parts_notes_from_questions(chloride, severity):
    """Cations 7.67 meq/L; chloride 47 makes it 4.8 % and 49.5 makes it 5.2 %."""
    assert only(sample(**IONS | {"chloride": chloride})).severity == severity


def test_halved_alkalinity_is_blamed_only_where_it_was_printed_in_milliequivalents():
    halved = {**IONS, "alkalinity": 152.5}
    assert "divided by 100" not in said(only(sample(**halved)))
    report = sample(**{key: word for key, word in IONS.items() if key != "alkalinity"})
    report.append(result(99, "alkalinity", 3.05, unit="meq/L", basis=""))
    assert "divided by 100" in said(only(report))
    calcium = [r for r in sample(**halved) if r.parameter != "calcium"]
    calcium.append(result(98, "calcium", 4.79, unit="meq/L"))
    assert "divided by 100" not in said(only(calcium))


def test_where_no_single_slip_cures_the_balance_none_is_named():
    assert "Could it be" not in said(only(sample(**IONS | {"calcium": 48})))


def test_at_most_two_slips_are_named():
    finding = only(sample(**IONS | {"chloride": 220}))
    assert said(finding).count(" or ") == 1


def test_the_least_imbalance_that_bounds_allow():
    assert sums._nearest(Interval(-1, 2)) == 0
    assert sums._nearest(Interval(3, 4)) == 3
    assert sums._nearest(Interval(-4, -3)) == 3


def test_the_thirteenth_nearest_test_is_not_asked():
    old = [result(0, "nitrate", 1, date(1980 + k, 5, 6), sample=k + 500) for k in range(20)]
    new = [result(0, "nitrate", 9, date(2018 + k, 5, 6), sample=k + 600) for k in range(6)]
    assert found(sample(nitrate=9), old + new) == ()


@pytest.mark.parametrize(
    ("key", "word", "asked"),
    [
        ("ph", "71", True), ("ph", "0.71", True), ("ph", "9.9", False),
        ("temperature", "450", True), ("temperature", "12", False),
        ("arsenic", "5000", True), ("arsenic", "800", False), ("lead", "900000", True),
        ("iron", "-3", True), ("iron", "40", False), ("nitrate", "45000", True),
    ],
)  # fmt: skip
def test_a_figure_that_hardly_any_well_shows_is_asked_about_in_a_first_report(key, word, asked):
    """The ends are common practice, no source."""
    assert ("beyond_what_wells_show" in keys(sample(**{key: word}))) is asked


def test_the_question_on_such_a_figure_names_it_with_the_end_and_the_unit():
    finding = only(sample(arsenic="5000"))
    assert said(finding).startswith("Arsenic 5000 µg/L is more than almost any well holds (1500")


def test_nitrate_as_no3_is_far_from_nitrate_as_n():
    """62.004 / 14.007 is 4.43; a seasonal swing of half as much again is none."""
    assert found(sample(nitrate="18.6"), past(nitrate=4.2))
    assert found(sample(nitrate="6.3"), past(nitrate=4.2)) == ()
