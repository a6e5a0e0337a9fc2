"""What is said first of a point, word for word: the worst, how many, by which limit, what else.

40 CFR 141.62(b): nitrate 10 mg/L as N, with nitrite the same. 40 CFR 141.63: E. coli absent.
"""

import re
from dataclasses import replace
from datetime import date

import pytest
from made_standings import BARE, judged, limit, nitrogen, result, standing
from waters import CATALOGUE, TODAY

from wellbook.book.rows import Point
from wellbook.planning.overview import PointOverview
from wellbook.support import translation
from wellbook.support.paths import resources
from wellbook.water.statistics.outcomes import Crossing, Way
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import LimitKind, Rule
from wellbook.water.verdicts.forecasts import Forecast
from wellbook.water.verdicts.latest_change import Crossed, LatestChange, Step
from wellbook.window.pages.overview.answer_words import Answer, answer
from wellbook.wording import verdicts

OVER, NEAR, UNSURE = Verdict.OUTSIDE, Verdict.NEAR, Verdict.UNDECIDABLE
METALS = ("arsenic", "barium", "cadmium", "chromium", "copper", "lead")


def asked(*standings, sums=()):
    point = Point(1, 1, "Tap")
    return answer(PointOverview(point, standings, (), sums=sums), CATALOGUE, TODAY)


def name(key):
    return CATALOGUE.parameters[key].name


def as_of(key, verdict, kind=LimitKind.HEALTH, value="12", **more):
    return standing(key, verdict, limit(key, kind=kind), value, **more)


def test_nothing_tested_and_nothing_to_compare_with_are_not_called_good():
    assert asked() == Answer(Verdict.NO_LIMIT, "No test of this water yet", "", "", "")
    bare = asked(standing("calcium", Verdict.NO_LIMIT), standing("silica", Verdict.NO_LIMIT))
    assert bare == Answer(
        Verdict.NO_LIMIT,
        "Nothing tested here has a limit to compare with",
        rest="2 parameters have no limit to compare with. Latest test: 4 May 2026.",
    )


def test_calm_water_counts_what_was_compared_and_not_what_has_no_limit():
    said = asked(
        as_of("lead", Verdict.WITHIN, value="2"),
        as_of("arsenic", Verdict.UNDETECTED),
        standing("calcium", Verdict.NO_LIMIT),
    )
    assert said == Answer(
        Verdict.WITHIN,
        "The latest results of 2 parameters are within their limits",
        rest="1 parameter has no limit to compare with. Latest test: 4 May 2026.",
    )


def test_one_result_over_a_limit_is_told_with_figure_limit_source_and_day():
    said = asked(as_of("nitrate", OVER, latest=result("nitrate", "12")))
    assert said == Answer(
        OVER,
        "Nitrate is outside its health limit",
        "12 mg/L as N on 4 May 2026. That is over the limit of 10 mg/L as N "
        "(US EPA primary drinking water rules, health, since 30 Jul 1992).",
        "Latest test: 4 May 2026.",
        "nitrate",
    )


@pytest.mark.parametrize(
    ("kind", "verdict", "one", "two"),
    [
        (LimitKind.HEALTH, OVER, "Lead is outside its health limit",
         "2 results are outside health limits"),
        (LimitKind.ACTION, OVER, "Lead is outside its health limit",
         "2 results are outside health limits"),
        (LimitKind.ADVISORY, OVER, "Lead is outside an advisory level",
         "2 results are outside advisory levels"),
        (LimitKind.AESTHETIC, OVER, "Lead is outside a limit that is not about health",
         "2 results are outside limits that are not about health"),
        (LimitKind.HEALTH, UNSURE, "Whether Lead is within its limit can’t be told",
         "Whether 2 results are within their limits can’t be told"),
        (LimitKind.HEALTH, Verdict.ADOPTED,
         "Lead is over a limit that is adopted and does not bind yet",
         "2 results are over limits that are adopted and do not bind yet"),
        (LimitKind.HEALTH, NEAR, "Lead is close to its limit",
         "2 results are close to their limits"),
    ],
)  # fmt: skip
def test_each_verdict_has_a_head_for_one_result_and_for_two(kind, verdict, one, two):
    lead = as_of("lead", verdict, kind)
    assert asked(lead).head == one
    assert asked(lead, as_of("iron", verdict, kind)).head == two
    assert asked(lead).verdict is verdict


def test_only_what_was_never_over_before_is_over_for_the_first_time():
    def head(crossed, kind=LimitKind.HEALTH):
        change = LatestChange(CATALOGUE.parameters["lead"], TODAY, TODAY, Step.UP, crossed=crossed)
        return asked(as_of("lead", OVER, kind, change=change)).head

    assert head(Crossed.FIRST_OVER) == "Lead is outside its health limit for the first time"
    assert head(Crossed.OVER_AGAIN) == head(Crossed.NO) == "Lead is outside its health limit"
    assert "first time" not in head(Crossed.FIRST_OVER, LimitKind.AESTHETIC)


def test_what_must_be_absent_is_found_and_that_is_said_first():
    none = limit("e_coli", None, rule=Rule.ABSENT, unit="")
    seen = standing("e_coli", OVER, none, latest=result("e_coli", "present", ""))
    said = asked(as_of("nitrate", OVER, value="900"), seen)
    assert said.head == "2 results are outside health limits"
    assert said.key == "e_coli", "the worse stands first"
    assert asked(seen).head == "E. coli was found where there must be none"


def of_its_day(key, verdict=OVER):
    """What today's limits call for no look at."""
    return standing(key, Verdict.WITHIN, then=judged(verdict, limit(key, "2"), "2.5"))


@pytest.mark.parametrize(
    ("verdict", "one", "two"),
    [
        (OVER, "Lead was outside a limit of its day", "2 results were outside limits of their day"),
        (UNSURE, "Whether Lead was within a limit of its day can’t be told",
         "Whether 2 results were within limits of their day can’t be told"),
        (Verdict.ADOPTED,
         "Lead was over a limit that was adopted on its day and did not bind yet",
         "2 results were over limits that were adopted on their day and did not bind yet"),
        (NEAR, "Lead was close to a limit of its day",
         "2 results were close to limits of their day"),
    ],
)  # fmt: skip
def test_what_only_the_limits_of_its_day_call_for_is_said_as_that(verdict, one, two):
    said = asked(of_its_day("lead", verdict))
    assert (said.verdict, said.head, said.key) == (verdict, one, "lead")
    assert asked(of_its_day("lead", verdict), of_its_day("iron", verdict)).head == two


def test_what_is_over_now_is_never_counted_with_what_only_was():
    said = asked(as_of("nitrate", OVER), of_its_day("lead"))
    assert said.head == "Nitrate is outside its health limit"
    assert said.rest == "By the limits of their day also: Lead. Latest test: 4 May 2026."


def test_four_results_are_named_and_of_more_it_is_said_how_many():
    four = asked(*(as_of(key, OVER) for key in METALS[:4]))
    names = "; ".join(f"{name(key)} 2.5 mg/L (10 mg/L)" for key in METALS[:4])
    assert four.detail == f"{names}."
    six = asked(*(as_of(key, OVER) for key in METALS))
    assert six.detail == f"{names}; and 2 more."
    assert six.head == "6 results are outside health limits"
    assert asked(*(as_of(key, OVER) for key in METALS[:5])).detail == f"{names}; and 1 more."


def test_others_to_look_at_are_named_below_and_none_of_those_told_above():
    told = asked(
        as_of("lead", OVER),
        *(as_of(key, NEAR, value="9") for key in METALS[:5]),
        as_of("nitrate", Verdict.WITHIN, value="1"),
    )
    names = ", ".join(name(key) for key in METALS[:4])
    assert told.rest == f"Also to look at: {names} and 1 more. Latest test: 4 May 2026."
    four = asked(as_of("lead", OVER), *(as_of(key, NEAR, value="9") for key in METALS[:4]))
    assert four.rest == f"Also to look at: {names}. Latest test: 4 May 2026."


def test_a_sum_is_not_told_beside_a_part_of_it_that_is_as_bad_and_leads_nowhere_alone():
    nitrate = as_of("nitrate", OVER)
    with_part = asked(nitrate, sums=(nitrogen(),))
    assert with_part.head == "Nitrate is outside its health limit"
    assert name("nitrate_nitrite") in with_part.rest
    alone = asked(as_of("lead", OVER), sums=(nitrogen(),))
    assert alone.head == "2 results are outside health limits"
    assert f"{name('nitrate_nitrite')} 10.5 mg/L as N (10 mg/L as N)" in alone.detail
    assert alone.key == "lead"
    only = asked(as_of("nitrate", Verdict.WITHIN, value="1"), sums=(nitrogen(),))
    assert only.key == ""
    assert only.detail.startswith("10.5 mg/L as N on 4 May 2026. That is over the limit of 10")


def test_the_latest_test_is_the_latest_of_all():
    early = as_of("lead", OVER, latest=result("lead", day=date(2020, 1, 2)))
    late = as_of("iron", Verdict.WITHIN, latest=result("iron", day=date(2025, 6, 7)))
    assert asked(early, late).rest == "Latest test: 7 Jun 2025."


def ahead(key):
    day = date(2030, 5, 1)
    crossing = Crossing(Way.RISES_ABOVE, 10.0, day, date(2029, 5, 1), date(2032, 5, 1))
    first = Forecast(crossing, limit(key), "mg/L as N", 21)
    return (first, replace(first, crossing=replace(crossing, limit=50.0)))


def test_where_it_goes_is_said_of_the_first_that_may_be_drawn_on_named_among_several():
    line = (
        "If it goes on like this, the long-run level rises above 10 mg/L as N (US EPA primary "
        "drinking water rules) about May 2030 (90 % interval from May 2029 to May 2032; line of "
        "21 tests). Single tests can be over it earlier."
    )
    one = asked(as_of("nitrate", NEAR, value="9", forecasts=ahead("nitrate")))
    assert one.detail.endswith(f". {line}")
    calm = as_of("lead", NEAR, value="9")
    two = asked(calm, as_of("nitrate", NEAR, value="9", forecasts=ahead("nitrate")))
    assert two.detail.endswith(f". Nitrate: {line}")
    assert "goes on" not in asked(calm).detail


def test_a_limit_is_said_in_the_unit_of_the_result():
    shown = standing(
        "lead", OVER, limit("lead", "0.015"), "0.02", latest=result("lead", "20", "µg/L")
    )
    said = asked(shown)
    assert "20 µg/L on 4 May 2026. That is over the limit of 15 µg/L" in said.detail


def test_what_cant_be_told_for_want_of_a_limit_is_told_without_one():
    unread = replace(standing("lead", UNSURE), now=judged(UNSURE), then=BARE)
    said = asked(unread)
    assert said.head == "Whether Lead is within its limit can’t be told"
    assert said.detail == "2.5 mg/L on 4 May 2026."


@pytest.mark.parametrize("kind", LimitKind)
@pytest.mark.parametrize("verdict", Verdict)
def test_how_a_reading_stands_to_a_limit_says_del_and_al_in_spanish(verdict, kind):
    """`de el` and `a el` are contracted. Common grammar, no source."""
    with translation.using(translation.read_language(resources() / "languages", "es")):
        said = verdicts.standing(judged(verdict, limit("lead", kind=kind)), "15 µg/L", "Norma")
    assert not re.search(r"\b(de|a) el\b", said), said
