"""How a book stands on a day, by what the household chose."""

import shutil
from datetime import date

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.planning import settings
from wellbook.planning.overview import due, overview
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.verdicts.judge import Verdict

TODAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        yield made


def result(parameter, text, unit="mg/L", basis=""):
    return NewResult(parameter, parameter, read_reading(text, unit=unit, basis=basis))


def keep(book, day, *results):
    return book.add_sample(NewSample(1, LocalTime.parse(day), results=results))


def test_an_earlier_day_shows_what_was_known_then(book, catalogue):
    keep(book, "2020-05-04", result("nitrate", "4", basis="as N"))
    keep(book, "2024-05-06", result("nitrate", "12", basis="as N"))
    for day, verdict in ((date(2021, 1, 1), Verdict.WITHIN), (TODAY, Verdict.OUTSIDE)):
        (standing,) = overview(book.record(), catalogue, day)[0].points[0].standings
        assert standing.now.verdict is verdict
    assert overview(book.record(), catalogue, date(2020, 1, 1))[0].points[0].standings == ()


def test_uranium_of_the_same_sample_counts_for_gross_alpha(book, catalogue):
    """Gross alpha 15 pCi/L leaves uranium out (40 CFR 141.66(c))."""
    keep(
        book,
        "2024-05-06",
        result("gross_alpha", "20", "pCi/L"),
        result("uranium", "10", "pCi/L"),
    )
    standings = {
        s.parameter.key: s for s in overview(book.record(), catalogue, TODAY)[0].points[0].standings
    }
    assert standings["gross_alpha"].now.verdict is Verdict.WITHIN


def test_what_the_catalogue_does_not_know_is_named_and_sums_are_held_to_their_limit(
    book, catalogue
):
    keep(
        book,
        "2024-05-06",
        result("nitrate", "9.6", basis="as N"),
        result("nitrite", "0.9", basis="as N"),
        NewResult("", "Sparkle", read_reading("much")),
    )
    (point,) = overview(book.record(), catalogue, TODAY)[0].points
    assert point.unknown == ("Sparkle",)
    (total,) = point.sums
    assert (total.parameter.key, total.now.verdict) == ("nitrate_nitrite", Verdict.OUTSIDE)


def test_struck_tests_count_for_nothing(book, catalogue):
    number = keep(book, "2024-05-06", result("nitrate", "12", basis="as N"))
    book.strike_sample(number, "bottle mixed up")
    assert overview(book.record(), catalogue, TODAY)[0].points[0].standings == ()


def test_bacteria_alone_do_not_put_off_the_rest(tmp_path, catalogue):
    path = tmp_path / "home.wellbook"
    shutil.copyfile(paths.sample_wells() / "alder-hollow.wellbook", path)
    with Book.open(path) as book:
        before = {one.panel.key: one.due for one in due(book.record(), catalogue, TODAY)[0][2]}
        book.add_sample(
            NewSample(
                1,
                LocalTime.parse("2026-11-23"),
                results=(result("total_coliform", "absent", ""), result("e_coli", "absent", "")),
            )
        )
        after = {one.panel.key: one.due for one in due(book.record(), catalogue, TODAY)[0][2]}
    assert after["bacteria"] > before["bacteria"]
    assert {k: v for k, v in after.items() if k != "bacteria"} == {
        k: v for k, v in before.items() if k != "bacteria"
    }


def test_the_household_chooses_its_limit_sets_in_the_order_of_the_catalogue(book, catalogue):
    assert settings.sets(book.record().settings, catalogue)[0] == "us-epa-primary"
    book.set_setting("limit_sets", "who us-nj nowhere us-epa-primary")
    chosen = settings.sets(book.record().settings, catalogue)
    assert set(chosen) == {"us-epa-primary", "us-nj", "who"} & catalogue.sets.keys()
    assert list(chosen) == [key for key in catalogue.sets if key in chosen]


def test_the_interval_is_fourteen_months_until_the_household_says_otherwise(book):
    assert settings.interval(book.record().settings) == 14
    book.set_setting("interval", "12")
    assert settings.interval(book.record().settings) == 12


def test_seasons_follow_the_hemisphere_or_the_wet_months(book):
    assert settings.scheme(book.record().settings).key == "north"
    book.set_setting("seasons", "south")
    assert settings.scheme(book.record().settings).key == "south"
