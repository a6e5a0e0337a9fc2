"""The two diagrams of main ions.

Waters A, B and C were made up and run through PHREEQC; the places of pure salts are those of the
textbook diagram (Piper 1944, Stiff 1951; from memory); the place in the diamond is checked by
another formula than the one that draws it.
"""

from datetime import date

import phreeqpython
import pytest
from chart_examples import catalogue, result
from hypothesis import given
from hypothesis import strategies as st

from wellbook.charts.draw.ions import draw_piper, draw_stiff, stiff_height
from wellbook.charts.layout import backend
from wellbook.charts.layout.theme import PRINT
from wellbook.charts.model.piper import (
    GAP,
    HEIGHT,
    Water,
    anion_spot,
    cation_spot,
    diamond_spot,
    piper,
)
from wellbook.charts.model.stiff import stiff
from wellbook.water.chemistry.major_ions import Majors, majors

# mg/L; alkalinity as CaCO3.
WATERS = {
    "A": {"Ca": 96, "Mg": 28, "Na": 12, "K": 2.0, "Cl": 22, "S(6)": 34, "Alkalinity": 305},
    "B": {"Ca": 5.6, "Mg": 1.5, "Na": 4.8, "K": 0.9, "Cl": 6.5, "S(6)": 5.2, "Alkalinity": 14.5},
    "C": {"Ca": 2.0, "Mg": 0.5, "Na": 165, "K": 1.0, "Cl": 25, "S(6)": 36, "Alkalinity": 280},
}
RAW = (False, True)  # not treated, the latest
KEYS = {
    "Ca": "calcium", "Mg": "magnesium", "Na": "sodium", "K": "potassium",
    "Cl": "chloride", "S(6)": "sulfate", "Alkalinity": "alkalinity",
}  # fmt: skip


def of(water):
    day = date(2024, 5, 3)
    rows = [
        result(KEYS[ion], day, str(value), "mg/L", basis="as CaCO3" if ion == "Alkalinity" else "")
        for ion, value in water.items()
    ]
    return majors(rows, catalogue())


@pytest.mark.parametrize("name", WATERS)
def test_milliequivalents_are_phreeqcs(name):
    phreeqc = phreeqpython.PhreeqPython(database="phreeqc.dat")
    recipe = {ion: value for ion, value in WATERS[name].items() if ion != "Alkalinity"}
    recipe["S(6)"] = f"{recipe['S(6)']} as SO4"
    solution = phreeqc.add_solution({"units": "mg/l", "pH": 7, **recipe})
    found = of(WATERS[name])
    expected = {
        "calcium": 2 * solution.total("Ca"), "magnesium": 2 * solution.total("Mg"),
        "sodium_potassium": solution.total("Na") + solution.total("K"),
        "chloride": solution.total("Cl"), "sulfate": 2 * solution.total("S"),
    }  # fmt: skip
    for field, value in expected.items():
        assert getattr(found, field) == pytest.approx(value, rel=2e-3), field
    # Alkalinity in meq/L is mg/L as CaCO3 over half its molar mass (100.087).
    assert found.bicarbonate == pytest.approx(WATERS[name]["Alkalinity"] / 50.0435, rel=2e-3)


def test_pure_salts_lie_in_the_corners_of_the_textbook():
    calcium, sodium, magnesium = (cation_spot(*one) for one in ((1, 0, 0), (0, 0, 1), (0, 1, 0)))
    chloride, sulfate, bicarbonate = (anion_spot(*one) for one in ((1, 0, 0), (0, 1, 0), (0, 0, 1)))
    assert (calcium, sodium, magnesium) == ((0, 0), (1, 0), (0.5, pytest.approx(HEIGHT)))
    assert bicarbonate == (1 + GAP, 0)
    assert chloride == (2 + GAP, 0)
    assert sulfate == (1.5 + GAP, pytest.approx(HEIGHT))
    hard, soda = diamond_spot(calcium, bicarbonate), diamond_spot(sodium, bicarbonate)
    gypsum, salt = diamond_spot(calcium, sulfate), diamond_spot(sodium, chloride)
    assert gypsum[0] == pytest.approx(soda[0])
    assert salt[1] == pytest.approx(hard[1])
    assert hard[0] < gypsum[0] < salt[0]  # left, middle, right
    assert soda[1] < hard[1] < gypsum[1]  # foot, middle, top


parts = st.floats(0.01, 50)


@given(parts, parts, parts, parts, parts, parts)
def test_the_place_in_the_diamond_is_that_of_its_two_shares(ca, mg, na, cl, so4, hco3):
    # Another way to it: along the lower left side by the share of sodium and potassium, along the
    # upper left side by that of chloride and sulfate.
    west = diamond_spot((0, 0), (1 + GAP, 0))
    alkali, strong = na / (ca + mg + na), (cl + so4) / (cl + so4 + hco3)
    step = 0.5, HEIGHT
    expected = (
        west[0] + (alkali + strong) * step[0],
        west[1] + (strong - alkali) * step[1],
    )
    found = diamond_spot(cation_spot(ca, mg, na), anion_spot(cl, so4, hco3))
    assert found == (pytest.approx(expected[0]), pytest.approx(expected[1]))


def test_a_water_s_percents_are_those_of_its_milliequivalents():
    # Water A: 4.790, 2.304 and 0.573 of 7.668 meq/L of cations.
    assert of(WATERS["A"]).cations == pytest.approx((62.5, 30.05, 7.47), abs=0.1)
    assert sum(of(WATERS["A"]).anions) == pytest.approx(100)


def test_a_non_detect_counts_as_nothing_and_says_how_much_it_could_add():
    found = of({**WATERS["B"], "K": "<5"})
    clear = of(WATERS["B"])
    assert found.sodium_potassium < clear.sodium_potassium
    # 5 / 39.098 of 0.6117 + 0.1279 meq/L.
    assert found.unsure == pytest.approx(17.3, abs=0.2)
    drawn = piper([Water(name, *RAW, one) for name, one in (("1", clear), ("2", found))])
    assert [one.label for one in drawn.placed] == ["1"]
    assert "Left out because non-detects hide too much: 1 sample." in drawn.sentence


def test_without_one_of_the_main_ions_there_is_nothing_to_place():
    for ion in WATERS["A"]:
        rest = {key: value for key, value in WATERS["A"].items() if key != ion}
        assert (of(rest) is None) == (ion != "K")
    assert of({**WATERS["A"], "Cl": ">22"}) is None


def test_a_shape_has_its_cations_left_and_its_anions_right_from_above():
    (shape,) = stiff([("Test 1", "Tap", Majors(4.8, 2.3, 0.6, 0.62, 0.71, 6.1))]).shapes
    assert shape.corners == (
        (-0.6, 2.0), (-4.8, 1.0), (-2.3, 0.0), (0.71, 0.0), (6.1, 1.0), (0.62, 2.0),
    )  # fmt: skip


@pytest.mark.parametrize(("most", "reach"), [(0.03, 0.05), (1.0, 1.0), (6.1, 10), (11, 20)])
def test_the_scale_of_the_shapes_ends_at_a_round_figure(most, reach):
    found = stiff([("Test 1", "Tap", Majors(most, most / 2, most / 3, most, 0.0, most / 9))])
    assert found.reach == pytest.approx(reach)


def test_both_diagrams_keep_their_words_inside_and_apart():
    many = [Water(str(n), n % 2 == 1, n > 5, of(WATERS[name])) for n, name in enumerate("ABCABCAB")]
    shapes = [
        (f"Test {n}, 2024", "A very long name of a tap " * 3, one.majors)
        for n, one in enumerate(many)
    ]
    first, second = backend.new_figure(7.1, 5.1, PRINT), None
    draw_piper(piper(many), first, PRINT)
    second = backend.new_figure(7.1, stiff_height(len(shapes), 7.1), PRINT)
    draw_stiff(stiff(shapes), second, PRINT)
    for figure in (first, second):
        figure.draw_without_rendering()
        boxes = [text.get_window_extent() for text in figure.texts if text.get_text()]
        for n, box in enumerate(boxes):
            assert box.x0 >= 0
            assert box.y0 >= 0
            assert box.x1 <= figure.bbox.x1
            assert box.y1 <= figure.bbox.y1
            for other in boxes[n + 1 :]:
                assert not box.padded(-2).overlaps(other.padded(-2))
