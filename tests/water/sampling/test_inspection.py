"""What an inspection found bad stays on the list until it was mended or seen to be good."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.water.sampling.inspection import ANSWERS, Seen, read_checklist, to_mend

RESOURCES = Path(__file__).parents[3] / "resources"
CHECKLIST = read_checklist(RESOURCES)
TODAY = date(2026, 11, 28)
DAYS = st.one_of(
    st.dates(date(2020, 1, 1), TODAY).map(date.isoformat),
    st.sampled_from(["2024", "2025", "2025-06", "2026-04"]),
)
SEEN = st.builds(
    Seen,
    st.integers(1, 99),
    st.sampled_from(["cap", "slope"]),
    st.sampled_from(ANSWERS),
    DAYS,
    st.just(""),
    st.one_of(st.just(""), DAYS),
)


def bad(day, mended="", item="cap"):
    return Seen(1, item, "bad", day, "cracked", mended)


def items(*seen, today=TODAY):
    return [(fault.item, fault.since) for fault in to_mend(seen, today)]


def test_the_checklist_looks_at_what_agencies_name():
    # Cornell Cooperative Extension Sullivan County, annual check-up: cap, vent, casing at least 12
    # inches above ground, nothing mixed or stored near, animals 50 ft away; CDC: each spring.
    keys = {item.key for item in CHECKLIST}
    assert keys >= {"cap", "vent", "casing-height", "casing", "slope", "wiring", "animals"}
    assert keys >= {"septic-tank", "drain-field", "fuel", "pesticides", "stored", "unused-well"}
    assert len(keys) == len(CHECKLIST)
    assert "12 in" in next(item.line for item in CHECKLIST if item.key == "casing-height")
    for item in CHECKLIST:
        assert item.line.endswith("."), item.key
        assert item.do.endswith("."), item.key
        assert item.source, item.key


@pytest.mark.parametrize("key", ["cap", "vent", "wiring", "pit", "lid"])
def test_where_electricity_or_air_can_kill_the_line_says_so_and_sends_for_a_professional(key):
    item = next(item for item in CHECKLIST if item.key == key)
    assert "owner" not in item.who
    assert "kill" in item.caution or "don’t open" in item.caution


def test_what_was_bad_stays_until_it_was_mended():
    assert items(bad("2026-04-10")) == [("cap", date(2026, 4, 10))]
    assert items(bad("2026-04-10", mended="2026-05-02")) == []
    assert items(bad("2026-04-10", mended="2026-04")) == []


def test_it_is_not_mended_by_a_day_before_it_was_found_or_after_today_or_by_none():
    for mended in ("2026-04-09", "2025", "2026-12-24", "soon"):
        assert items(bad("2026-04-10", mended=mended)) == [("cap", date(2026, 4, 10))], mended


def test_a_later_inspection_that_finds_it_good_ends_it_and_one_that_did_not_look_does_not():
    later = Seen(2, "cap", "good", "2026-06-01")
    assert items(bad("2026-04-10"), later) == []
    assert items(bad("2026-04-10"), Seen(2, "cap", "not seen", "2026-06-01")) != []
    assert items(bad("2026-04-10"), Seen(2, "slope", "good", "2026-06-01")) != []


def test_where_the_good_one_may_be_the_earlier_the_bad_one_stands():
    for day in ("2026", "2026-04", "2026-04-10"):
        assert items(bad("2026-04-10"), Seen(2, "cap", "good", day)), day
    assert items(bad("2026"), Seen(2, "cap", "good", "2026-06-01"))


def test_what_was_found_again_counts_from_the_first_time():
    (fault,) = to_mend([bad("2025-04-10"), bad("2026-04-12")], TODAY)
    assert fault.since == date(2025, 4, 10)
    assert [seen.day for seen in fault.seen] == ["2025-04-10", "2026-04-12"]


def test_a_bad_one_whose_day_can_not_be_read_stands():
    assert items(bad("")) == [("cap", None)]


@given(st.lists(SEEN, max_size=6), DAYS)
def test_one_more_bad_answer_never_shortens_the_list(seen, day):
    before = {item for item, _since in items(*seen)}
    assert before <= {item for item, _since in items(*seen, bad(day))}
    assert before | {"cap"} == {item for item, _since in items(*seen, bad(TODAY.isoformat()))}


@given(st.lists(SEEN, max_size=6), st.integers(0, 400))
def test_time_alone_mends_nothing_that_was_found(seen, days):
    """Only what was entered for a later day changes anything."""
    known = [one for one in seen if not one.mended and len(one.day) == len("2026-04-10")]
    later = TODAY + timedelta(days)
    assert items(*known) == items(*known, today=later)


def test_a_row_that_makes_no_sense_is_named(tmp_path):
    text = (RESOURCES / "inspection.csv").read_text(encoding="utf-8")
    (tmp_path / "inspection.csv").write_text(text.replace(",stored\n", ",perhaps\n", 1), "utf-8")
    with pytest.raises(ValueError, match=r"inspection\.csv, row 2, column checked"):
        read_checklist(tmp_path)
