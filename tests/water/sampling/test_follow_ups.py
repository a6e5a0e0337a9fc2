"""Tests that happenings ask for. Which happening asks for which parameters: EPA's reasons to test
a private well (2009), CDC on wells after emergencies, Minnesota Department of Health on babies.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from way_to_the_lab import way

from wellbook.support.paths import resources
from wellbook.water.sampling.dated_events import happening
from wellbook.water.sampling.due import Outlook
from wellbook.water.sampling.followups import Tap, follow_ups
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.seasons import NORTHERN
from wellbook.water.values.triggers import SYMPTOM, asked_by
from wellbook.wording.dues import worded

CATALOGUE = read_catalogue(resources())
BACTERIA = ("total_coliform", "e_coli")
FOR_A_BABY = ("lead", "arsenic", "manganese")  # Minnesota Department of Health
RAW, KITCHEN = 1, 2


def event(kind, day, text="", number=1, **more):
    return happening(f"event {number}", kind, day, text=text, **more)


def on(day, *keys):
    return {key: [date.fromisoformat(day)] for key in keys}


def dues(*causes, raw=None, kitchen=None, today="2026-06-10", postponed=None):
    taps = [Tap(RAW, treated=False, place=1, days=raw or {})]
    if kitchen is not None:
        taps.append(Tap(KITCHEN, treated=True, place=3, days=kitchen))
    ahead = Outlook(date.fromisoformat(today), NORTHERN, way(), CATALOGUE)
    found = follow_ups(causes, taps, ahead, postponed or {})
    return {point: tuple(map(worded, rows)) for point, rows in found.items()}


def asked(kind, text=""):
    return {key for one in asked_by(kind, text, CATALOGUE.triggers) for key in one.core}


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("flood", BACTERIA),  # CDC, wells after emergencies
        ("repair", BACTERIA),
        ("pump", BACTERIA),
        ("pregnancy", ("nitrate", *BACTERIA, *FOR_A_BABY)),  # Minnesota Department of Health
        ("birth", ("nitrate", *BACTERIA, *FOR_A_BABY)),
        ("drilling nearby", ("methane", "chloride", "sodium", "barium", "strontium")),  # EPA 2009
        ("road salt", ("chloride", "sodium")),  # EPA 2009
        ("farming nearby", ("nitrate", *BACTERIA)),  # EPA 2009
        ("septic nearby", (*BACTERIA, "nitrate", "chloride")),
        ("radon in air", ("radon_222",)),  # EPA 2009
        ("sale", (*BACTERIA, "nitrate", "nitrite", "lead")),  # HUD texts
    ],
)
def test_a_happening_asks_for_what_it_may_have_changed(kind, expected):
    assert asked(kind) == set(expected)


@pytest.mark.parametrize(
    ("noticed", "expected"),
    [
        # EPA, private wells, reasons to test (2009); common practice where it says nothing.
        ("It smells of rotten eggs in the morning", {"sulfate", "iron"}),
        ("Rust stains in the sink", {"iron", "manganese", "ph"}),
        ("blue-green stains under the tap", {"copper", "ph", "lead"}),
        ("The water tastes salty.", {"chloride", "sodium", "tds"}),
        ("Soap won't lather", {"hardness", "alkalinity"}),
        ("A whiff of diesel", {"benzene", "toluene", "ethylbenzene", "xylenes"}),
        ("The tap spurts", {"methane"}),
        ("Tea-coloured", {"color", "iron", *BACTERIA, "turbidity"}),
        ("Black specks", {"manganese"}),
    ],
)
def test_a_symptom_asks_for_what_makes_it(noticed, expected):
    assert asked(SYMPTOM, noticed) == expected | asked(SYMPTOM, "")


def test_a_change_that_no_symptom_fits_asks_for_a_first_look():
    assert asked(SYMPTOM, "strange today") == {*BACTERIA, "nitrate", "ph", "conductivity"}
    assert asked(SYMPTOM, "it steamed") == asked(SYMPTOM, "")  # `tea` is not in it


def test_every_row_names_known_parameters_and_its_source():
    named = {key for row in CATALOGUE.triggers for key in (*row.core, *row.also)}
    assert named <= CATALOGUE.parameters.keys()
    assert all(one.source and one.why and one.name for one in CATALOGUE.triggers)
    assert all(one.until > one.due for one in CATALOGUE.triggers)
    keys = [one.key for one in CATALOGUE.triggers]
    assert len(keys) == len(set(keys))


def test_a_flood_is_due_at_once_and_comes_first():
    first, again = dues(event("flood", "2026-06-08"))[RAW]
    assert (first.due, first.urgent) == (date(2026, 6, 8), True)
    assert first.panel.name == "After a flood (8 June 2026)"
    assert first.day == date(2026, 6, 15)  # fetched by Friday, drawn on Monday
    assert again.due == date(2026, 7, 23)
    assert not again.urgent


def test_a_follow_up_ends_when_all_its_core_was_tested_after_the_happening():
    flood = event("flood", "2026-05-08", until="2026-05-10")
    names = [one.panel.name for one in dues(flood, raw=on("2026-05-20", *BACTERIA))[RAW]]
    assert names == ["After a flood, once more (8 May 2026)"]
    part = dues(flood, raw=on("2026-05-20", "e_coli"))[RAW]
    assert len(part) == 2
    assert RAW not in dues(flood, raw=on("2026-06-20", *BACTERIA), today="2026-06-25")


def test_a_test_from_during_the_flood_does_not_count():
    flood = event("flood", "2026-05-08", until="2026-05-10")
    assert len(dues(flood, raw=on("2026-05-10", *BACTERIA))[RAW]) == 2


def test_a_follow_up_that_nobody_did_lapses():
    repair = event("repair", "2025-01-07")
    assert dues(repair, today="2025-12-01")[RAW]
    assert RAW not in dues(repair, today="2026-02-01")
    flood = event("flood", "2020-01-07")
    assert dues(flood)[RAW]  # a flood is never forgotten


def test_what_is_still_to_come_asks_for_nothing():
    assert dues(event("flood", "2026-07-01")) == {}


def test_the_test_of_two_works_of_one_week_is_asked_for_once():
    works = [event("repair", "2026-06-01"), event("disinfection", "2026-06-02", number=2)]
    (one,) = dues(*works)[RAW]
    assert one.panel.name == "After a disinfection (2 June 2026)"


def test_the_kitchen_is_asked_about_a_baby_and_the_well_about_a_flood():
    causes = [event("birth", "2026-06-01", private=True), event("flood", "2026-06-01", number=2)]
    found = dues(*causes, kitchen={})
    assert [one.private for one in found[KITCHEN]] == [True]
    assert not any(one.private for one in found[RAW])


def test_the_key_of_a_private_follow_up_tells_nothing():
    (one,) = dues(event("pregnancy", "2026-06-01", private=True))[RAW]
    assert one.panel.key == "event 1 1"
    (public,) = dues(event("repair", "2026-06-01"))[RAW]
    assert public.panel.key == "event 1 repair"


def test_a_vague_day_is_asked_about_now_and_counts_from_its_end():
    repair = event("repair", "2026-05")
    (one,) = dues(repair, raw=on("2026-05-20", *BACTERIA))[RAW]
    assert "known only as May 2026" in one.why
    assert one.window[0] == date(2026, 6, 17)
    assert RAW not in dues(repair, raw=on("2026-06-01", *BACTERIA))


@pytest.mark.parametrize(
    ("day", "told"),
    [("2026-05-08", "8 May 2026"), ("2026-05", "May 2026"), ("2026", "2026")],
)
def test_a_follow_up_is_named_for_the_day_as_far_as_it_is_known(day, told):
    (one, *_) = dues(event("repair", day))[RAW]
    assert one.panel.name == f"After a repair ({told})"


def test_what_was_lately_done_is_not_asked_for_twice_because_of_a_later_wish():
    # The second sample after a flood is no reason to leave out the first.
    flood = event("flood", "2026-04-20")
    assert [one.urgent for one in dues(flood)[RAW]] == [True, False]


def test_salt_is_tested_for_in_late_winter_or_spring():
    (one,) = dues(event("road salt", "2026-07-05"), today="2026-07-10")[RAW]
    assert one.due == date(2027, 2, 1)
    (now,) = dues(event("road salt", "2026-03-05"), today="2026-03-10")[RAW]
    assert now.due == date(2026, 3, 5)


def test_a_baseline_from_before_the_drilling_counts():
    drilling = event("drilling nearby", "2026-06-01")
    keys = ("methane", "chloride", "sodium", "barium", "strontium")
    (after,) = dues(drilling, raw=on("2026-02-10", *keys))[RAW]
    assert after.panel.name.startswith("After drilling nearby")
    assert len(dues(drilling)[RAW]) == 2


def test_a_happening_without_more_words_is_plain():
    plain = happening("event 1", "flood", "2026-05-08")
    assert (plain.first, plain.last) == (date(2026, 5, 8), date(2026, 5, 8))
    assert (plain.text, plain.private, plain.targets, plain.name) == ("", False, (), "")
    assert happening("event 1", "flood", "last spring") is None
    assert happening("event 1", "flood", "2026-02-30") is None
    longer = happening("event 1", "flood", "2026-05-08", until="2026-06")
    assert (longer.first, longer.last) == (date(2026, 5, 8), date(2026, 6, 30))
    year = happening("event 1", "flood", "2024")
    assert (year.first, year.last) == (date(2024, 1, 1), date(2024, 12, 31))
    assert happening("event 1", "flood", "2024-02").last == date(2024, 2, 29)


def unit(kind, day="2026-05-20", text="ion exchange softener", targets=("hardness", "iron")):
    return happening("unit 1", kind, day, text=text, targets=targets, name="Softener")


def test_a_new_unit_is_tested_at_both_taps_after_two_to_four_weeks():
    found = dues(unit("unit installed"), kitchen={})
    for point in (RAW, KITCHEN):
        (one,) = found[point]
        assert one.due == date(2026, 6, 3)
        assert one.panel.core == ("hardness", "iron", "sodium")  # a softener adds sodium
        assert one.panel.name == "Raw and treated pair after the start (Softener)"


def test_what_a_unit_is_meant_for_is_not_asked_for_twice():
    found = dues(unit("unit installed", targets=("total_coliform",)), kitchen={})[RAW]
    assert found[0].panel.core == ("total_coliform", "sodium")
    assert found[0].panel.also == ("e_coli",)


def test_both_taps_of_a_pair_are_drawn_on_one_day():
    core = ("hardness", "iron", "sodium")
    raw, kitchen = on("2026-06-08", *core), on("2026-06-09", *core)
    assert len(dues(unit("unit installed"), raw=raw, kitchen=kitchen)) == 2
    assert dues(unit("unit installed"), raw=raw, kitchen=on("2026-06-08", *core)) == {}


def test_the_pair_comes_again_every_year():
    core = ("hardness", "iron")
    pair = on("2025-06-20", *core)
    (one,) = dues(unit("unit in use", "2020-01-01"), raw=pair, kitchen=pair)[KITCHEN]
    assert (one.last, one.due) == (date(2025, 6, 20), date(2026, 6, 20))


def test_an_event_that_only_says_that_a_unit_came_is_left_to_the_unit():
    said = event("treatment", "2026-05-21")
    found = dues(said, unit("unit installed"), kitchen={})
    assert [one.panel.name for one in found[KITCHEN]] == [
        "Raw and treated pair after the start (Softener)"
    ]
    assert dues(said, kitchen={})[KITCHEN][0].panel.name.startswith("After treatment was put in")


def test_a_postponed_follow_up_is_not_suggested_earlier():
    put_off = {(RAW, "event 1 repair"): date(2026, 9, 1)}
    (one,) = dues(event("repair", "2026-06-01"), postponed=put_off)[RAW]
    assert one.due == date(2026, 9, 1)
    assert one.window[0] >= date(2026, 9, 1)
    assert one.overdue_days == 0


kinds = st.sampled_from(sorted({one.kind for one in CATALOGUE.triggers}))
written_days = st.dates(date(2015, 1, 1), date(2026, 6, 10)).flatmap(
    lambda day: st.sampled_from([day.isoformat(), day.isoformat()[:7], day.isoformat()[:4]])
)
causes = st.lists(
    st.builds(
        lambda kind, day, n: happening(f"event {n}", kind, day, targets=("iron",)),
        kinds, written_days, st.integers(1, 9),
    ),
    max_size=5,
)  # fmt: skip


@given(causes, st.booleans())
def test_what_is_suggested_lies_ahead_and_can_be_tested_in_time(happened, treated):
    today = date(2026, 6, 10)
    for rows in dues(*happened, kitchen={} if treated else None).values():
        for one in rows:
            assert today < one.window[0] <= one.window[1]
            assert one.due <= one.window[0]
            if one.day is not None:
                assert one.window[0] <= one.day <= one.window[1]
                assert way(limit=CATALOGUE.hold(one.panel.core)).suits(one.day)


@given(causes)
def test_testing_everything_later_ends_every_follow_up_but_the_yearly_one(happened):
    later = date(2027, 6, 1)
    keys = {key for one in CATALOGUE.triggers for key in one.core} | {"iron"}
    tested = {key: [later - timedelta(days=1)] for key in keys}
    for rows in dues(*happened, raw=tested, today="2027-06-01").values():
        assert all(one.panel.months for one in rows)
