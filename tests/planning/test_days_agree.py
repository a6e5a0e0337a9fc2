"""What is due and the visits that draw it name one day: in `due`, in a round, in the calendar.

Our own rule, common practice, no source: who comes to the well draws what may be drawn that day.
"""

import os
from datetime import date, timedelta
from pathlib import Path
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning.overview import due
from wellbook.planning.rounds import rounds
from wellbook.planning.visits import visits
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime

CATALOGUE = read_catalogue(resources())
MANY = int(os.environ.get("WELLBOOK_HOUSEHOLDS", "8"))
FIRST = date(2024, 1, 1)
SAMPLE_WELLS = Path(__file__).parents[2] / "sample_wells"
SAMPLES = {
    "bacteria": ("total_coliform", "e_coli"),
    "usual": ("total_coliform", "e_coli", "nitrate"),
    "minerals": ("hardness", "sodium", "ph", "chloride"),
    "metals": ("arsenic", "lead", "copper", "iron"),
}
EVENTS = ("flood", "repair", "pregnancy", "disinfection")


def each_on_its_own_day(record, today):
    """What is due before visits are planned, by point and key."""
    with patch("wellbook.planning.due.on_visits", lambda dues, _ahead: dues):
        return told(due(record, CATALOGUE, today))


def told(dues):
    return {(point.id, one.panel.key): one for _well, point, panels in dues for one in panels}


def check(record, today):
    """The days agree, nothing urgent comes too late and nothing too early."""
    dues = due(record, CATALOGUE, today)
    found, own = told(dues), each_on_its_own_day(record, today)
    assert found.keys() == own.keys()
    for one in rounds(record, CATALOGUE, today):
        for panel in one.panels:
            assert panel == found[one.point.id, panel.panel.key]
            assert panel.day == one.search.day, panel.panel.name
    planned = [(visit, task) for visit in visits(dues) for task in visit.tasks]
    for visit, (point, panel) in planned:
        assert visit.day == (panel.day or visit.reason.window[0])
        alone = own[point.id, panel.panel.key]
        assert panel == found[point.id, panel.panel.key]
        if panel.day is None:
            assert alone.day is None, "what can be drawn is drawn"
            continue
        assert panel.day >= alone.along_from(visit.reason)
        assert panel.window[0] <= panel.day <= panel.window[1]
        assert panel.day <= (alone.day if alone.urgent and alone.day else alone.window[1])
    assert len(planned) == sum(one.drawn is None for one in found.values())


def sample(point, day, kind, is_bad):
    results = []
    for key in SAMPLES[kind]:
        parameter = CATALOGUE.parameters[key]
        text = ("Present" if is_bad else "Absent") if "coli" in key else "20" if is_bad else "0.01"
        reading = read_reading("7" if key == "ph" else text, unit=parameter.unit)
        results.append(NewResult(key, parameter.name, reading))
    return NewSample(point, LocalTime.parse(day.isoformat()), results=tuple(results))


days = st.integers(0, 1000).map(lambda n: FIRST + timedelta(days=n))


@pytest.fixture(scope="module")
def fresh(tmp_path_factory):
    folder = tmp_path_factory.mktemp("households")
    numbers = iter(range(100_000))
    return lambda: Book.create(folder / f"{next(numbers)}.wellbook")


@settings(max_examples=MANY)
@given(
    st.lists(
        st.tuples(st.integers(1, 2), days, st.sampled_from(sorted(SAMPLES)), st.booleans()),
        max_size=4,
    ),
    st.lists(st.tuples(st.sampled_from(EVENTS), days), max_size=2),
    st.sampled_from([{}, {"round_transit_days": "3"}, {"round_lab_takes_on": "0 2"}]),
)
def test_every_panel_is_due_on_the_day_of_the_visit_that_draws_it(fresh, tests, events, habits):
    with fresh() as book:
        well = book.add_well("Thistle Lane")
        book.add_point(well, "Tank tap")
        book.add_point(well, "Kitchen tap", treated=True, place=3)
        for name, value in habits.items():
            book.set_setting(name, value)
        for point, day, kind, is_bad in tests:
            book.add_sample(sample(point, day, kind, is_bad))
        for kind, day in events:
            book.add_event(well, kind, day.isoformat())
        last = max((day for _point, day, *_more in tests), default=FIRST)
        check(book.record().loaded(), last + timedelta(days=9))


@pytest.mark.parametrize("today", [date(2026, 11, 29), date(2027, 6, 15)])
def test_the_days_of_the_sample_households_agree(today):
    for path in sorted(SAMPLE_WELLS.glob("*.wellbook")):
        with Book.open(path, readonly=True) as book:
            check(book.record().loaded(), today)
