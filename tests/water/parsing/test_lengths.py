"""Lengths in the words of a driller's log.

1 ft = 0.3048 m and 1 in = 0.0254 m exactly (international yard and pound agreement of 1959).
"""

import pytest

from wellbook.water.parsing.lengths import depth, is_metric, lengths, stretch_of


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("185 ft", 56.388),
        ("6 in steel to 42 ft", 12.8016),
        ("submersible, set at 150 ft", 45.72),
        ("55 m", 55.0),
        ("12 ft 6 in", 3.81),
        ("38'", 11.5824),
        ("about 60 feet below ground", 18.288),
    ],
)
def test_a_depth_is_the_longest_length_with_a_unit(text, metres):
    assert depth(text) == pytest.approx(metres)


@pytest.mark.parametrize("text", ["", "185", "steel", "limestone and shale", "8 gpm", "5 min"])
def test_without_a_unit_of_length_no_depth_is_guessed(text):
    assert depth(text) is None
    assert lengths(text) == ()


def test_a_stretch_has_its_unit_once_or_twice():
    assert stretch_of("160 to 180 ft") == pytest.approx((48.768, 54.864))
    assert stretch_of("from 160 ft to 180 ft, 4 in slotted") == pytest.approx((48.768, 54.864))
    assert stretch_of("4 in slotted at 180 ft") is None


def test_the_scale_follows_the_units_of_the_log():
    assert is_metric("55 m")
    assert not is_metric("185 ft")
    assert not is_metric("")
