"""A first look by the newest tests, and what is kept of histories, tell what a full look tells."""

import shutil
from dataclasses import replace
from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning import kept_histories
from wellbook.planning import standings as planning_standings
from wellbook.planning.overview import overview
from wellbook.planning.standings import (
    Look,
    completed,
    first_look,
    from_memory,
    newest_changes,
    standings,
)
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.statistics.outcomes import PENDING
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.verdicts.latest_change import Crossed

TODAY = date(2026, 11, 25)
HOUSEHOLDS = sorted(path.stem for path in paths.sample_wells().glob("*.wellbook"))


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture(autouse=True)
def nothing_kept():
    shutil.rmtree(paths.cache() / "histories", ignore_errors=True)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        yield made


def keep(book, day, *results):
    return book.add_sample(NewSample(1, LocalTime.parse(day), results=results))


def nitrate(text):
    return NewResult("nitrate", "Nitrate", read_reading(text, unit="mg/L", basis="as N"))


def named(name, text):
    return NewResult("", name, read_reading(text, unit="mg/L"))


def kept(record, catalogue, today=TODAY):
    look = first_look(record, catalogue, today)
    return [s.trend is not PENDING for w in look.wells for p in w.points for s in p.standings]


@pytest.mark.parametrize("held", [0, 50_000], ids=["one history at a time", "all in memory"])
@pytest.mark.parametrize("household", HOUSEHOLDS)
def test_histories_worked_out_or_kept_tell_what_the_whole_record_tells(
    household, catalogue, tmp_path, held, monkeypatch
):
    monkeypatch.setattr(planning_standings, "IN_MEMORY", held)
    copy = tmp_path / "copy.wellbook"
    shutil.copy(paths.sample_wells() / f"{household}.wellbook", copy)
    before = copy.read_bytes()
    with Book.open(copy, readonly=True) as book:
        record = book.record()
        days = {sample.collected.day for sample in record.samples()}
        for today in (TODAY, *sorted(days)[:: max(1, len(days) // 4)]):
            whole = overview(record.loaded(), catalogue, today, with_due=False)
            assert standings(record, catalogue, today) == whole
            assert standings(record, catalogue, today) == whole
            assert standings(record.loaded(), catalogue, today) == whole
    assert copy.read_bytes() == before


def test_a_first_look_tells_the_newest_tests_before_any_history(book, catalogue):
    for year in range(2010, 2022):
        keep(book, f"{year}-05-04", nitrate(f"{year - 2006}.0"), named("Odd stuff", "1"))
    keep(book, "2022-05-04", NewResult("nitrate", "Nitrate", read_reading("not analysed")))
    record = book.record().loaded()
    look = first_look(record, catalogue, TODAY)
    (whole,) = overview(record, catalogue, TODAY, with_due=False)[0].points[0].standings
    (seen,) = look.wells[0].points[0].standings
    assert seen == replace(whole, trend=PENDING, forecasts=(), change=None, summary=None)
    assert (seen.n, look.is_pending) == (12, True)
    assert look.wells[0].points[0].unknown == ("Odd stuff",)
    done = completed(look, record, catalogue, TODAY, from_memory(record, TODAY))
    assert done.wells == overview(record, catalogue, TODAY, with_due=False)
    assert not done.is_pending


@pytest.mark.parametrize(("alpha", "looks"), [("", 1), ("20", 4)], ids=["usual", "gross alpha"])
def test_one_history_at_a_time_goes_through_whole_samples_only_where_a_limit_asks_for_them(
    book, catalogue, monkeypatch, alpha, looks
):
    """The limit of gross alpha is net of the uranium of the same sample (40 CFR 141.66)."""
    for day in ("2021-05-04", "2022-05-04"):
        uranium = NewResult("uranium", "Uranium", read_reading("25", unit="µg/L"))
        other = NewResult("gross_alpha", "Alpha", read_reading(alpha, unit="pCi/L"))
        keep(book, day, nitrate("4"), uranium, *([other] if alpha else []))
    whole = overview(book.record().loaded(), catalogue, TODAY, with_due=False)
    monkeypatch.setattr(planning_standings, "IN_MEMORY", 0)
    asked, really = [], book.results_on
    monkeypatch.setattr(book, "results_on", lambda *of: asked.append(of) or really(*of))
    assert standings(book.record(), catalogue, TODAY) == whole
    assert len(asked) == looks


def test_what_changed_with_new_tests_is_told_without_any_trend(book, catalogue, monkeypatch):
    for year in range(2010, 2020):
        keep(book, f"{year}-05-04", nitrate("4.0"), named("Odd stuff", "1"))
    iron = NewResult("iron", "Iron", read_reading("0.1", unit="mg/L"))
    new = keep(book, "2020-05-04", nitrate("14"), iron)
    keep(book, "2020-06-04", NewResult("lead", "Lead", read_reading("1", unit="µg/L")))
    whole = overview(book.record().loaded(), catalogue, TODAY, with_due=False)
    told = {one.parameter.key: one.change for one in whole[0].points[0].standings}
    monkeypatch.setattr("wellbook.water.statistics.trend.trend", None)
    (found,) = newest_changes(book.record(), catalogue, TODAY, {new})
    assert set(found) == {told["nitrate"], told["iron"]}
    assert {change.parameter.key for change in found} == {"nitrate", "iron"}


def test_what_was_just_kept_tells_the_same_without_being_read_again(book, catalogue, monkeypatch):
    coliform = NewResult("total_coliform", "Total coliform", read_reading("absent"))
    days = [f"{year}-05-04T08:30" for year in range(2010, 2020)]
    made = [(nitrate(str(4 + n)), coliform, named("Odd stuff", "1")) for n in range(len(days))]
    kept = {keep(book, day, *results): results for day, results in zip(days, made, strict=True)}
    late = LocalTime.parse("2020-05-07")  # so late a count that none says nothing
    results = (nitrate("<0.1"), coliform, NewResult("iron", "Iron", read_reading("", unit="mg/L")))
    new = NewSample(1, LocalTime.parse("2020-05"), lab="Lab", received=late, results=results)
    kept[book.add_sample(new)] = results
    told = list(newest_changes(book.record(), catalogue, TODAY, kept.keys()))
    assert told[0], "something is told"
    with monkeypatch.context() as patched:
        patched.setattr("wellbook.planning.standings.one_history", lambda *_by: None)
        assert list(newest_changes(book.record(), catalogue, TODAY, kept.keys(), kept)) == told
    keep(book, "2009-05-04", nitrate("60"))
    told = list(newest_changes(book.record(), catalogue, TODAY, kept.keys()))
    assert list(newest_changes(book.record(), catalogue, TODAY, kept.keys(), kept)) == told


def test_a_result_reported_of_a_sum_later_than_its_parts_is_no_part_of_their_day(book, catalogue):
    """The latest day of the parts counts; what a lab added up on that day stands beside them."""
    for day in ("2019-05-04", "2020-05-04"):
        keep(
            book,
            day,
            nitrate("4"),
            NewResult("nitrite", "Nitrite", read_reading("0.5", unit="mg/L", basis="as N")),
        )
        keep(
            book,
            day,
            NewResult("nitrate_nitrite", "Sum", read_reading("11", unit="mg/L", basis="as N")),
        )
    for day in ("2021-05-04", "2022-05-04", "2023-05-04"):
        keep(
            book,
            day,
            NewResult("nitrate_nitrite", "Sum", read_reading("3", unit="mg/L", basis="as N")),
        )
    record = book.record()
    assert standings(record, catalogue, TODAY) == overview(record, catalogue, TODAY, with_due=False)


def test_what_is_kept_counts_until_something_is_written(book, catalogue):
    keep(book, "2020-05-04", nitrate("4"))
    standings(book.record(), catalogue, TODAY)
    assert kept(book.record(), catalogue) == [True]
    assert kept(book.record(), catalogue, date(2029, 1, 1)) == [True]
    assert kept(book.record(), catalogue, date(2020, 5, 4)) == [True]
    keep(book, "2021-05-04", nitrate("12"))
    assert kept(book.record(), catalogue) == [False]


def test_what_another_version_of_the_program_kept_does_not_count(book, catalogue, monkeypatch):
    keep(book, "2020-05-04", nitrate("4"))
    standings(book.record(), catalogue, TODAY)
    kept_histories._made_by.cache_clear()
    assert kept(book.record(), catalogue) == [True]
    kept_histories._made_by.cache_clear()
    monkeypatch.setattr(kept_histories, "__version__", "of tomorrow")
    assert kept(book.record(), catalogue) == [False]
    kept_histories._made_by.cache_clear()


def test_a_look_is_pending_until_the_last_history_was_gone_through(book, catalogue):
    iron = NewResult("iron", "Iron", read_reading("0.1", unit="mg/L"))
    keep(book, "2020-05-04", nitrate("4"), iron)
    done = overview(book.record().loaded(), catalogue, TODAY, with_due=False)[0]
    first, last = done.points[0].standings
    half = replace(done.points[0], standings=(first, replace(last, trend=PENDING)))
    assert Look((replace(done, points=(half,)),), {}).is_pending
    assert not Look((done,), {}).is_pending


def test_nothing_is_kept_of_a_day_before_later_tests(book, catalogue):
    keep(book, "2020-05-04", nitrate("4"))
    keep(book, "2024-05-04", nitrate("12"))
    standings(book.record(), catalogue, date(2022, 1, 1))
    assert kept(book.record(), catalogue) == [False]
    assert kept(book.record(), catalogue, date(2022, 1, 1)) == [False]


def test_a_step_is_held_against_the_limits_of_its_day_again_when_they_move(book, catalogue):
    """Lead at 12 µg/L: below the action level of 15, above that of 10 from 1 Nov 2027 on.

    Source: 40 CFR 141.80(c) as amended by 89 FR 86418.
    """
    for day, text in (("2020-05-04", "2"), ("2021-05-04", "12")):
        keep(book, day, NewResult("lead", "Lead", read_reading(text, unit="ug/L")))
    later, record = date(2027, 12, 1), book.record()
    standings(record, catalogue, TODAY)
    assert kept(record, catalogue, later) == [False]
    (lead,) = standings(record, catalogue, later)[0].points[0].standings
    assert lead.change.crossed is Crossed.FIRST_OVER


def test_a_limit_that_moved_between_two_tests_is_kept_with_the_history(book, catalogue):
    """Arsenic: 50 µg/L until 2006, 10 µg/L from then on (40 CFR 141.62, 66 FR 6976)."""
    for day in ("2004-05-04", "2012-05-04"):
        arsenic = NewResult("arsenic", "Arsenic", read_reading("20", unit="µg/L"))
        keep(book, day, arsenic)
    (worked_out,) = standings(book.record(), catalogue, TODAY)[0].points[0].standings
    before, after = worked_out.change.limit
    assert [f"{one.high} {one.unit}" for one in (before, after)] == ["0.05 mg/L", "0.010 mg/L"]
    (read_again,) = first_look(book.record(), catalogue, TODAY).wells[0].points[0].standings
    assert read_again == worked_out


@pytest.mark.parametrize("harm", ["cut", "bent", "empty", "folder"])
def test_what_is_kept_and_damaged_is_worked_out_anew(book, catalogue, harm):
    for year in range(2010, 2022):
        keep(book, f"{year}-05-04", nitrate(f"{year - 2006}.0"))
    whole = standings(book.record(), catalogue, TODAY)
    (place,) = (paths.cache() / "histories").iterdir()
    text = place.read_text()
    place.unlink()
    if harm == "folder":
        place.mkdir()
    else:
        bent = text.replace("rising", "falling")
        place.write_text({"cut": text[:-40], "bent": bent, "empty": ""}[harm])
    assert kept(book.record(), catalogue) == [False]
    assert standings(book.record(), catalogue, TODAY) == whole


def test_only_the_last_states_are_kept(book, catalogue):
    for year in range(2000, 2020):
        keep(book, f"{year}-05-04", nitrate("4"))
        standings(book.record(), catalogue, TODAY)
    assert len(list((paths.cache() / "histories").iterdir())) == kept_histories._KEPT


def test_a_folder_that_can_not_be_written_keeps_nothing_and_says_nothing(
    book, catalogue, monkeypatch, tmp_path
):
    (tmp_path / "file").write_text("")
    monkeypatch.setattr(paths, "cache", lambda: tmp_path / "file")
    keep(book, "2020-05-04", nitrate("4"))
    assert standings(book.record(), catalogue, TODAY)[0].points[0].standings[0].n == 1


@pytest.mark.parametrize(
    ("kind", "days"), [("installed", ("2010-03-05", "")), ("bypassed", ("2001", "2010"))]
)
def test_a_tap_behind_a_new_or_bypassed_unit_has_no_trend_of_the_water(book, catalogue, kind, days):
    book.add_point(1, "Filtered tap", treated=True, place=3)
    unit = book.add_unit(1, "Filter", place=2, installed=days[0] if kind == "installed" else "2000")
    if kind == "bypassed":
        book.add_service(unit, "bypass", days[0], until=days[1])
    for year in range(2004, 2016):
        for point in (1, 2):
            level = 8.0 if year < 2010 else 1.0
            text = f"{level + year * 7 % 5 / 10:.1f}"
            results = (nitrate(text),)
            book.add_sample(NewSample(point, LocalTime.parse(f"{year}-05-01"), results=results))
    record = book.record()
    raw, treated = overview(record, catalogue, TODAY, with_due=False)[0].points
    assert raw.standings[0].trend.says == "falling"
    assert treated.standings[0].trend.says == "lower since a change"
    assert not treated.standings[0].forecasts
    told = standings(record, catalogue, TODAY)[0].points
    assert [one.standings[0].trend for one in told] == [
        one.standings[0].trend for one in (raw, treated)
    ]
