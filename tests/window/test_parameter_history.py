"""What the page of a parameter tells of its history: change, long run, where it goes."""

import itertools

import commands
import pytest
from reading import text_of

from wellbook.water.statistics.series import label
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


def lines_of(status, name):
    """What `status` says of a parameter, by the word before each colon."""
    lines = status[status.index(f"\n  {name}: ") + 1 :].splitlines()[1:]
    own = itertools.takewhile(lambda line: line.startswith(" " * 6), lines)
    return dict(line.strip().split(": ", 1) for line in own if ": " in line)


def squeezed(text):
    """Text without the spaces at which lines were broken."""
    return "".join(text.split())


def test_status_page_chart_and_packet_say_the_same_of_every_parameter(opened, page, tmp_path):
    path, on = opened.view.household.book.path, opened.view.household.today.isoformat()
    status = commands.run("status", path, "--on", on, check=True).stdout
    packet = tmp_path / "packet.pdf"
    commands.run("packet", path, "--for", "consultant", "-o", packet, "--on", on, check=True)
    printed = squeezed(text_of(packet))
    status = status[status.index(opened.view.point.point.name) :]
    told = set()
    for standing in opened.view.point.standings:
        shown = page(standing.parameter.key)
        said = lines_of(status, standing.parameter.name)
        assert said.get("since the test before", "") in {"", shown.change.text()}
        assert shown.long_run.text().startswith(said.get("in the long run", ""))
        if standing.parameter.scale == "presence":
            said.pop("trend")  # its picture is a strip of days, without a direction
        if shown.chart.unit != label(standing.parameter):
            continue  # drawn and printed in the unit that was chosen for it
        assert said.get("ahead", "") in shown.short.text()
        assert said.get("ahead", "") in shown.chart.sentence
        assert said.get("trend", "") in shown.chart.sentence
        if "ahead" in said:  # what has few tests is printed without a picture
            for key in ("trend", "ahead", "in the long run"):
                assert squeezed(said[key]) in printed, (standing.parameter.key, key)
        told |= said.keys()
    assert told >= {"trend", "ahead", "in the long run", "since the test before"}
