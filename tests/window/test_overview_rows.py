"""The lines of the overview: groups and their order, what each cell says and tells on asking."""

from dataclasses import replace

import pytest
from made_standings import BARE, DAY, judged, limit, nitrogen, result, standing, trend
from waters import CATALOGUE

from wellbook.water.statistics.outcomes import Direction
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import LimitKind, Rule
from wellbook.window.pages.overview.overview_rows import Group, Line, columns, lines, order

WITHIN = ("arsenic", "barium", "boron", "cadmium", "calcium", "chloride", "chromium", "cobalt",
          "copper", "fluoride", "iron", "lead", "lithium", "manganese", "mercury", "nickel",
          "selenium", "silica", "silver")  # fmt: skip
HEADS = ("Parameter", "Latest result", "Sampled", "Standing now", "Limit", "Trend", "Tests",
         "Over the years", "Share of the limit")  # fmt: skip


def share(key, value, verdict=Verdict.WITHIN):
    return standing(key, verdict, value=value)


def many(n=19):
    """Results within limits of 10, the first in the list furthest within."""
    return [share(key, f"{place / 10:.1f}") for place, key in enumerate(WITHIN[:n], start=1)]


def column(title):
    (found,) = [one for one in columns(CATALOGUE) if one.title == title]
    return found


def cells(line):
    return dict(zip(HEADS, (one.text(line) for one in columns(CATALOGUE)), strict=True))


def tips(line):
    return dict(zip(HEADS, (one.more(line) for one in columns(CATALOGUE)), strict=True))


def said(told):
    return [line.head or line.key for line in told]


def test_what_needs_a_look_stands_first_then_what_is_within_then_what_has_no_limit():
    told = lines(
        [
            standing("calcium", Verdict.NO_LIMIT),
            share("arsenic", "1"),
            share("nitrate", "9", Verdict.NEAR),
            share("lead", "12", Verdict.OUTSIDE),
            share("barium", "3"),
        ]
    )
    assert said(told) == [
        "Look at these first", "lead", "nitrate",
        "Within the limits", "barium", "arsenic",
        "No limit to compare with", "calcium",
    ]  # fmt: skip
    groups = [Group.FIRST] * 3 + [Group.WITHIN] * 3 + [Group.BARE] * 2
    assert [line.group for line in told] == groups
    assert {line.is_open for line in told} == {None}, "so few are never folded"
    assert [line.key for line in told if line.head] == ["head first", "head within", "head bare"]


def test_no_head_stands_above_nothing():
    assert lines([]) == ()
    assert said(lines([share("lead", "1")])) == ["Within the limits", "lead"]


def test_eighteen_lines_are_shown_and_of_nineteen_eleven_within_are_folded():
    bare = standing("hardness", Verdict.NO_LIMIT)
    whole = lines([*many(17), bare])
    assert len([line for line in whole if line.standing]) == 18
    folded = lines([*many(18), bare])
    assert said(folded) == [
        "Within the limits", *reversed(WITHIN[10:18]),
        "▸ More within the limits (10)", "▸ No limit to compare with (1)",
    ]  # fmt: skip
    assert [line.is_open for line in folded if line.head] == [None, False, False]


def test_a_group_that_is_opened_shows_its_lines_below_its_head():
    bare = standing("hardness", Verdict.NO_LIMIT)
    told = lines([*many(18), bare], opened={Group.MORE: True})
    assert said(told)[9:] == [
        "▾ More within the limits (10)", *reversed(WITHIN[:10]), "▸ No limit to compare with (1)",
    ]  # fmt: skip
    assert {line.group for line in told[9:20]} == {Group.MORE}
    shut = lines([*many(18), bare], opened={Group.MORE: False, Group.BARE: True})
    assert said(shut)[9:] == [
        "▸ More within the limits (10)", "▾ No limit to compare with (1)", "hardness",
    ]  # fmt: skip


def test_nineteen_of_which_eight_are_within_fold_none_of_those():
    first = [share(key, "12", Verdict.OUTSIDE) for key in WITHIN[8:]]
    told = lines([*many(8), *first])
    assert said(told)[-9:] == ["Within the limits", *reversed(WITHIN[:8])]
    assert not any("More" in line.head for line in told)


def test_what_is_looked_for_is_found_by_name_family_and_what_labs_print_and_never_folded():
    known = [*many(), share("nitrate", "2"), standing("nitrite", Verdict.NO_LIMIT)]
    assert said(lines(known, "NITR")) == [
        "Within the limits", "nitrate", "No limit to compare with", "nitrite",
    ]  # fmt: skip
    assert said(lines(known, "Nitrate Nitrogen")) == ["Within the limits", "nitrate"]  # as printed
    metals = lines(known, "metals")
    assert len(metals) > 9
    assert all(line.is_open is None for line in metals)
    assert lines(known, "no such parameter") == ()


def test_the_order_of_the_pages_holds_what_is_folded_and_no_sum():
    bare = standing("hardness", Verdict.NO_LIMIT)
    found = order([nitrogen(), *many(18), bare])
    assert found == (*reversed(WITHIN[:18]), "hardness")


def test_a_line_says_result_day_verdict_limit_trend_tests_and_share():
    shown = share("nitrate", "9.2", Verdict.NEAR)
    shown = replace(
        shown,
        latest=result("nitrate", "9.2", name="Nitrate-N", lab="Larkspur Laboratory"),
        n=1204,
        trend=trend(Direction.RISING, n=12),
    )
    assert cells(Line(standing=shown)) == {
        "Parameter": "Nitrate",
        "Latest result": "9.2 mg/L as N",
        "Sampled": "4 May 2026",
        "Standing now": "close",
        "Limit": "10 mg/L as N, health",
        "Trend": "rising",
        "Tests": "1204",
        "Over the years": "1,204 tests",
        "Share of the limit": "92 %",
    }


def test_the_tips_of_a_line_say_why_what_was_printed_and_where_the_limit_stands():
    against = limit("nitrate", note="Counted as nitrogen.")
    shown = standing("nitrate", Verdict.NEAR, against, "9.2")
    printed = result("nitrate", "9.2", name="Nitrate-N", lab="Larkspur Laboratory")
    shown = replace(shown, latest=printed, trend=trend(Direction.PENDING))
    told = tips(Line(standing=shown))
    assert told["Parameter"] == CATALOGUE.parameters["nitrate"].why
    assert told["Latest result"] == ("9.2 mg/L as N, reported as “Nitrate-N”, Larkspur Laboratory")
    source = (
        "10 mg/L as N. health. US EPA primary drinking water rules. 40 CFR 141.62(b). "
        "Counted as nitrogen."
    )
    assert (told["Limit"], told["Share of the limit"]) == (source, source)
    assert told["Trend"] == told["Over the years"] == "The trend is being worked out."
    assert told["Standing now"] == "close"
    without = replace(shown, latest=result("nitrate", "9.2", name="Nitrate-N"))
    assert tips(Line(standing=without))["Latest result"] == "9.2 mg/L as N, reported as “Nitrate-N”"


def test_a_verdict_says_its_reason_on_asking_and_marks_the_line():
    from wellbook.support.message import message
    from wellbook.water.verdicts.reasons import Reason

    reason = message(Reason.NOT_ANALYSED)
    unknown = replace(judged(Verdict.UNDECIDABLE, limit("lead")), reasons=(reason,))
    line = Line(standing=standing("lead", then=BARE, against=limit("lead")))
    line = replace(line, standing=replace(line.standing, now=unknown))
    verdict = column("Standing now")
    assert verdict.text(line) == "can’t be told"
    assert verdict.more(line) not in {"", "can’t be told"}
    assert verdict.verdict(line) is Verdict.UNDECIDABLE, "today's verdict, not that of the day"


def test_a_sum_says_that_nobody_reported_it_and_has_no_trend_and_no_count():
    line = Line(standing=nitrogen())
    assert line.group is Group.FIRST, "until it is told otherwise"
    assert cells(line) == {
        "Parameter": CATALOGUE.parameters["nitrate_nitrite"].name,
        "Latest result": "10.5 mg/L as N",
        "Sampled": "4 May 2026",
        "Standing now": "over",
        "Limit": "10 mg/L as N, health",
        "Trend": "",
        "Tests": "",
        "Over the years": "",
        "Share of the limit": "105 %",
    }
    told = tips(line)
    assert told["Latest result"] == "Added up here, no lab reported it"
    assert told["Trend"] == told["Over the years"] == ""
    assert column("Sampled").sort(line) == DAY
    assert column("Standing now").verdict(line) is Verdict.OUTSIDE


def test_a_head_says_its_words_once_and_nothing_in_any_other_cell():
    line = Line("Within the limits", None, Group.WITHIN)
    assert cells(line) == dict.fromkeys(HEADS, "") | {"Parameter": "Within the limits"}
    assert tips(line) == dict.fromkeys(HEADS, "") | {"Parameter": "Within the limits"}
    assert column("Sampled").sort(line) is None
    assert column("Standing now").verdict(line) is None


def test_what_has_no_limit_names_none_and_takes_no_share():
    line = Line(standing=standing("calcium", Verdict.NO_LIMIT))
    told, more = cells(line), tips(line)
    assert (told["Limit"], told["Share of the limit"], told["Standing now"]) == ("", "", "no limit")
    assert (more["Limit"], more["Share of the limit"]) == ("", "")
    assert column("Sampled").sort(line) == DAY


def test_a_limit_is_said_in_the_unit_of_the_result_so_that_both_can_be_compared():
    against = limit("lead", "0.015", LimitKind.ACTION)
    shown = standing("lead", Verdict.WITHIN, against, "0.002")
    line = Line(standing=replace(shown, latest=result("lead", "2", "µg/L")))
    assert cells(line)["Limit"] == "15 µg/L, action level"
    assert tips(line)["Limit"].startswith("0.015 mg/L. action level. ")


@pytest.mark.parametrize(
    ("rule", "said_of"),
    [(Rule.ABSENT, "must be absent, health"), (Rule.RANGE, "6 to 10 mg/L as N, health")],
)
def test_other_rules_than_a_maximum_are_said_and_take_no_share(rule, said_of):
    low, high = (None, None) if rule is Rule.ABSENT else ("6", "10")
    against = limit("nitrate", high, low=low, rule=rule)
    line = Line(standing=standing("nitrate", Verdict.WITHIN, against, "7"))
    assert (cells(line)["Limit"], cells(line)["Share of the limit"]) == (said_of, "")
