"""A finding holds until two samples in a row are below the limit.

Virginia 12VAC5-630-431 (from memory) and Florida ask for two samples; for what is no bacteria:
common practice, no source.
"""

from hypothesis import given
from hypothesis import strategies as st
from waters import CATALOGUE, CAUTIONS, judged, result

from wellbook.water.cautions.advice import resolve
from wellbook.water.cautions.findings import Finding, finding
from wellbook.water.cautions.held_over import held_over


def held(latest, before):
    earlier = {one.parameter.key: one for one in judged(*before)}
    return held_over(judged(*latest), earlier, CAUTIONS)


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
