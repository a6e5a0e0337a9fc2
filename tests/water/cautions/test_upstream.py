"""What a finding before a tap means for that tap.

Minnesota Department of Agriculture on babies and treatment, EPA and CDC (1999) on weak immune
systems (read 2026-11-28); that a tap nobody tested counts as the water before it: common practice,
no source.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from waters import CATALOGUE, CAUTIONS, TODAY, USUAL, judged, result

from wellbook.water.cautions.findings import GERMS, Finding, finding
from wellbook.water.cautions.upstream import Before, behind
from wellbook.wording.reference import worded_advice

HIGH = {"nitrate": ("14.8", "mg/L", "as N"), "arsenic": ("18", "µg/L"), "lead": ("22", "µg/L")}
LOW = {"nitrate": ("1", "mg/L", "as N"), "arsenic": ("1", "µg/L"), "lead": ("1", "µg/L")}


def at_tap(raw, tap, people=(), *, is_treated=True):
    """What is said at a tap; `raw` and `tap` are pairs of a parameter and its reading, or a day."""
    before = (Before("Tank", tuple(judged(*raw))),)
    said = behind(judged(*tap), before, CAUTIONS, frozenset(people), is_treated=is_treated)
    return [worded_advice(one) for one in said]


def test_what_is_over_before_a_tap_and_untested_at_it_holds_for_it():
    (said,) = at_tap([result("nitrate", *HIGH["nitrate"])], [])
    assert "Over a limit before this tap (Tank), and not tested here since: Nitrate." in said.text
    assert said.urgent
    assert said.finding is Finding.OVER


def test_a_clean_result_behind_the_treatment_says_enough_for_grown_up_people_only():
    raw, tap = [result("nitrate", *HIGH["nitrate"])], [result("nitrate", *LOW["nitrate"])]
    assert at_tap(raw, tap) == []
    (said,) = at_tap(raw, tap, {"infant"})
    assert "For babies this water is none even so" in said.text


@pytest.mark.parametrize("germ", sorted(GERMS))
def test_bacteria_before_a_clean_tap_ask_for_proof_of_the_treatment(germ):
    raw = [result(germ, "present", day=TODAY)]
    (said,) = at_tap(raw, [result(germ, "absent", day=TODAY)])
    assert "weak immune system" in said.text
    for tap, is_treated in (
        ([], True),
        ([result(germ, "absent", day=TODAY - timedelta(days=1))], True),  # from before the finding
        ([result(germ, "absent", day=TODAY)], False),  # nothing treats it
    ):
        (said,) = at_tap(raw, tap, is_treated=is_treated)
        assert "not tested here since" in said.text


def test_an_old_result_of_the_tap_tells_nothing():
    raw = [result("arsenic", *HIGH["arsenic"], day=date(2026, 11, 1))]
    for day, says in ((date(2026, 1, 10), 0), (date(2024, 6, 1), 1)):
        assert len(at_tap(raw, [result("arsenic", *LOW["arsenic"], day=day)])) == says


@given(st.sampled_from(sorted(CATALOGUE.parameters)), st.integers(1, 10**7))
def test_nothing_over_before_an_untested_tap_is_left_out(key, figure):
    known = CATALOGUE.parameters[key]
    text = "present" if known.scale == "presence" else str(figure)
    raw = [result(key, text, basis="as N" if "nitr" in key else "")]
    signs = [finding(one, CAUTIONS.of.get(one.parameter.key)) for one in judged(*raw, sets=USUAL)]
    said = at_tap(raw, [])
    assert bool(said) == (max(signs, default=Finding.NOTHING) > Finding.TASTE)
