"""A finding holds until two samples in a row are below the limit.

Virginia 12VAC5-630-431 (from memory) and Florida ask for two samples; for what is no bacteria:
common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from waters import CATALOGUE, CAUTIONS, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.findings import Finding, finding
from wellbook.water.cautions.held_over import held_over
from wellbook.water.values.readings import Flag


def held(latest, before):
    return held_over(judged(*latest), judged(*before), CAUTIONS)


def test_after_one_clean_sample_the_advice_stands_and_says_why():
    sample, said = held([result("e_coli", "absent")], [result("e_coli", "4.2", "MPN/100 mL")])
    assert CAUTIONS.of["e_coli"].over in [
        text.text for advice in resolve(sample, CAUTIONS) for text in advice.texts
    ]
    assert said[0].names == ("E. coli",)


def test_after_two_clean_samples_nothing_is_held_over():
    clean = [result("e_coli", "absent"), result("arsenic", "4", "µg/L")]
    assert held(clean, clean)[1] == ()


def test_boiling_goes_by_the_bacteria_that_are_held_over_and_the_nitrate_of_today():
    latest = [result("e_coli", "absent"), result("nitrate", "14", "mg/L", "as N", number=2)]
    sample, _said = held(latest, [result("e_coli", "present")])
    (first, *_rest) = resolve(sample, CAUTIONS)
    assert "do not boil" in first.texts[0].text


@pytest.mark.parametrize(
    ("latest", "before"),
    [
        (result("e_coli", "absent", flags=frozenset({Flag.HELD_TOO_LONG})), "present"),
        (result("e_coli", "TNTC"), "4"),
        (result("nitrite", "2.5", "mg/L", ""), "1.2"),  # over as N, not over as NO2
    ],
)
def test_what_can_t_be_told_ends_no_finding_and_is_called_no_clean_sample(latest, before):
    key, unit = latest.parameter, latest.reading.unit
    sample, said = held([latest], [result(key, before, unit, "as N")])
    assert said == ()
    assert max(finding(one, CAUTIONS.of[key]) for one in sample) is Finding.OVER
    assert len(sample) == len(judged(latest)) + 1


def test_of_several_readings_of_a_day_the_worst_is_held_over():
    coarse, over = result("pfoa", "<50", "ng/L"), result("pfoa", "24", "ng/L", number=2)
    clean = [result("pfoa", "ND", "ng/L", number=n) for n in (3, 4)]
    for before in ([coarse, over], [over, coarse]):
        sample, said = held(clean, before)
        assert [one.reading.text for one in sample if one.reading] == ["ND", "ND", "24"]
        assert said[0].names == ("PFOA",)


def test_what_is_held_over_hides_no_figure_of_the_latest_sample():
    """Half of 10 mg/L as N is told to parents: see `cautions.toml`."""
    sample, said = held(
        [result("nitrate", "8.5", "mg/L", "as N")], [result("nitrate", ">3", "mg/L")]
    )
    assert said[0].names == ("Nitrate",)
    assert any("infant" in one.people for one in resolve(sample, CAUTIONS, {"infant"}))


@given(st.sampled_from(sorted(CATALOGUE.parameters)), st.integers(1, 10**7), st.integers(0, 10**7))
def test_a_later_sample_never_takes_a_finding_away_by_itself(key, earlier, later):
    def of(figure):
        known = CATALOGUE.parameters[key]
        text = "present" if figure else "absent"
        return [result(key, text if known.scale == "presence" else str(figure), basis="as N")]

    def worst(sample):
        return max(
            (finding(one, CAUTIONS.of.get(one.parameter.key)) for one in sample if one.reading),
            default=Finding.NOTHING,
        )

    sample, said = held(of(later), of(earlier))
    before, latest = worst(judged(*of(earlier))), worst(judged(*of(later)))
    assert worst(sample) >= (before if before > Finding.TASTE else latest)
    assert bool(said) == (before > Finding.TASTE >= latest)
