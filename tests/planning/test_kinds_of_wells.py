"""Ground and depth set how often a well is tested; the intervals are common practice, no source."""

import pytest

from wellbook.planning.frequencies import advised, kinds_of_wells, standings
from wellbook.planning.settings import WELL_KINDS


def months(panel, settings=None, **log):
    return [one.months for one in advised(settings or {}, log, panel)]


@pytest.mark.parametrize(
    ("log", "expected"),
    [
        ({"kind": "drilled", "depth": "185 ft"}, []),
        ({"kind": "drilled", "depth": "98 ft"}, ["shallow"]),  # 29.9 m
        ({"kind": "drilled", "depth": "99 ft"}, []),  # 30.2 m
        ({"kind": "drilled", "depth": "22 m"}, ["shallow"]),
        ({"kind": "drilled", "depth": "about 90"}, []),  # feet or metres, nobody knows
        ({"kind": "dug", "depth": "22 ft"}, []),  # its kind asks for more already
        ({"rock": "limestone, karst with sinkholes"}, ["karst"]),
        ({"rock": "limestone and shale"}, []),
        ({"note": "on the flood plain"}, ["flood-prone"]),
        ({"kind": "drilled", "depth": "20 m", "rock": "Karst"}, ["karst", "shallow"]),
    ],
)
def test_the_log_tells_of_ground_and_depth(log, expected):
    assert list(standings({}, log)) == expected


def test_what_is_ticked_of_the_ground_holds_like_what_the_log_tells():
    chosen = {"ground": "karst flood-prone"}
    assert standings(chosen, {"kind": "drilled"}) == ("karst", "flood-prone")
    assert months("bacteria", {"ground": "flood-prone"}) == [6]
    assert months("bacteria", chosen, rock="karst") == [3, 6]


def test_karst_asks_for_bacteria_four_times_a_year_whatever_the_kind():
    assert months("bacteria", kind="drilled", depth="185 ft") == []
    assert months("bacteria", kind="drilled", depth="185 ft", rock="karst") == [3]
    assert months("nitrate", rock="karst") == [6]


def test_the_strictest_comes_first_and_each_reason_is_kept():
    said = advised({"country": "CA", "subdivision": "ON"}, {"kind": "dug", "rock": "karst"},
                   "bacteria")  # fmt: skip
    assert [one.months for one in said] == [3, 3, 4]
    assert any("karst" in one.why for one in said)
    assert any("dug" in one.why for one in said)


def test_only_how_a_well_was_made_is_offered_as_its_kind():
    assert kinds_of_wells().keys() == set(WELL_KINDS)
