"""What the page of a parameter tells of its history: change, long run, where it goes."""

import pytest

from wellbook.wording.latest_change import latest_test


@pytest.fixture
def page(opened):
    """The page of a parameter of the opened household, as a person walks to it."""

    def walk(key):
        for _ in opened.view.point.standings:
            opened.do("next_parameter")
            page = opened.view.at("parameter")
            if page._standing.parameter.key == key:
                return page
        raise LookupError(key)

    return walk


def test_the_rising_nitrate_says_when_it_reaches_its_limit_and_draws_it(page):
    nitrate = page("nitrate")
    assert "rises above 10 mg/L as N" in nitrate.sentence.text()
    fan = nitrate.chart.fan
    assert fan.days[0] == nitrate.chart.marks[-1].day
    assert nitrate.chart.last >= fan.days[-1]
    assert all(
        low <= middle <= high
        for low, middle, high in zip(fan.lows, fan.middles, fan.highs, strict=True)
    )


def test_the_change_since_the_test_before_is_told_with_what_lies_between(page):
    turbidity = page("turbidity")
    assert turbidity.change.isVisibleTo(turbidity)
    assert "since 12 Apr 2022" in turbidity.change.text()
    assert "Between the two: " in turbidity.change.text()


def test_too_few_tests_say_how_many_more_would_tell(page):
    turbidity = page("turbidity")
    assert "Half of 5 tests lay at or below 0.42 NTU" in turbidity.long_run.text()
    assert "more test" in turbidity.long_run.text()


def test_the_long_run_is_told_with_its_method_and_its_certainty(page):
    arsenic = page("arsenic").long_run.text()
    assert "(4 non-detects among them, counted in by Kaplan-Meier)" in arsenic
    assert "below 5 µg/L with 90 % confidence: at most 5 µg/L (8 tests, taken as in" in arsenic
    assert "The long-run median" not in page("nitrate").long_run.text(), "it rises"


def test_raw_water_says_where_it_may_come_from_and_what_takes_it_out(page):
    nitrate = page("nitrate")
    assert nitrate.origin.isVisibleTo(nitrate)
    assert "stands beside chloride (27.2 mg/L)" in nitrate.origin.text()
    assert "no proof" in nitrate.origin.text()
    assert not nitrate.fit.isVisibleTo(nitrate), "it is within its limit"
    hardness = page("hardness")
    assert "Usually serve: ion exchange softener" in hardness.fit.text()
    assert "NSF/ANSI 44" in hardness.fit.text()
    assert not hardness.origin.isVisibleTo(hardness)


def test_germs_have_no_long_run(page):
    coliform = page("total_coliform")
    assert not coliform.long_run.isVisibleTo(coliform)


def test_the_overview_tells_what_is_new_in_the_latest_test(frame, household):
    frame.open_book(household("salt-lane"))
    overview = frame.view.overview
    told = overview.changes.text()
    assert bool(told) is overview.changes.isVisibleTo(overview)
    assert told == latest_test(one.change for one in frame.view.point.standings)
