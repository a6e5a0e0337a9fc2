"""Seasons: whole months, after the meteorological convention, water years as a naming rule."""

from datetime import date, timedelta
from gettext import NullTranslations
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.support.translation import Language, using
from wellbook.water.values.seasons import (
    NORTHERN,
    SOUTHERN,
    bands,
    coverage,
    read_scheme,
    season_of,
    wet_and_dry,
)
from wellbook.wording.dates import month_of, season_with_year, written

days = st.dates(date(1950, 1, 1), date(2080, 12, 31))
schemes = st.one_of(
    st.sampled_from([NORTHERN, SOUTHERN]),
    st.sets(st.integers(1, 12), min_size=1, max_size=11).map(wet_and_dry),
)


def test_northern_seasons_are_the_meteorological_ones():
    # World Meteorological Organization practice: winter is December to February, and so on.
    names = [season_of(date(2026, month, 1), NORTHERN).name for month in range(1, 13)]
    assert names == (["winter"] * 2 + ["spring"] * 3 + ["summer"] * 3 + ["autumn"] * 3 + ["winter"])


def test_southern_seasons_stand_half_a_year_away():
    opposite = {"winter": "summer", "summer": "winter", "spring": "autumn", "autumn": "spring"}
    for month in range(1, 13):
        day = date(2026, month, 10)
        assert opposite[season_of(day, NORTHERN).name] == season_of(day, SOUTHERN).name


def test_december_belongs_to_the_next_winter():
    # As a water year is named for the year it ends in (AMS Glossary of Meteorology).
    assert season_with_year(date(2025, 12, 1), NORTHERN) == "winter 2026"
    assert season_with_year(date(2026, 2, 28), NORTHERN) == "winter 2026"
    assert season_with_year(date(2025, 12, 31), SOUTHERN) == "summer 2026"


def test_a_wet_season_over_new_year_is_named_for_the_year_it_ends_in():
    scheme = wet_and_dry([11, 12, 1, 2])
    assert season_with_year(date(2025, 11, 1), scheme) == "wet season 2026"
    assert season_with_year(date(2026, 3, 1), scheme) == "dry season 2026"


def test_a_leap_day_is_the_last_day_of_its_winter():
    (band,) = bands(date(2023, 12, 1), date(2024, 2, 29), NORTHERN)
    assert (band.start, band.end) == (date(2023, 12, 1), date(2024, 2, 29))
    assert [
        season_with_year(b.start, NORTHERN)
        for b in bands(date(2024, 2, 29), date(2024, 3, 1), NORTHERN)
    ] == [
        "winter 2024",
        "spring 2024",
    ]


@given(days, st.integers(0, 4000), schemes)
def test_bands_cover_every_day_once_and_in_order(first, length, scheme):
    last = first + timedelta(days=length)
    found = bands(first, last, scheme)
    assert found[0].start == first
    assert found[-1].end == last
    for one, following in pairwise(found):
        assert following.start == one.end + timedelta(days=1)
        assert following.season != one.season
    for band in found:
        assert season_of(band.start, scheme) == season_of(band.end, scheme) == band.season
        assert season_with_year(band.start, scheme) == season_with_year(band.end, scheme)


def test_no_bands_when_the_last_day_comes_first():
    assert bands(date(2026, 2, 1), date(2026, 1, 1), NORTHERN) == ()


def test_coverage_counts_sampling_days_and_not_tests():
    seen = coverage([date(2024, 4, 2), date(2024, 4, 2), date(2025, 7, 9)], NORTHERN)
    assert seen.n == 2
    assert [(season.name, n) for season, n in seen.seasons] == [
        ("winter", 0),
        ("spring", 1),
        ("summer", 1),
        ("autumn", 0),
    ]
    assert [season.name for season in seen.missing] == ["winter", "autumn"]


def test_the_longest_gap_runs_over_new_year():
    seen = coverage([date(2024, 4, 2), date(2025, 7, 9)], NORTHERN)
    assert seen.gap == (8, 9, 10, 11, 12, 1, 2, 3)
    assert seen.months_away(12) == 4
    assert seen.months_away(7) == 0


def test_without_a_test_the_whole_year_is_the_gap():
    seen = coverage([], NORTHERN)
    assert len(seen.gap) == 12
    assert seen.months_away(5) == 12


@given(schemes)
def test_a_scheme_is_read_back_from_its_key(scheme):
    assert read_scheme(scheme.key) == scheme


@pytest.mark.parametrize("text", ["east", "wet", "wet 13", "wet 0", "wet x", "north 3"])
def test_a_scheme_that_makes_no_sense_is_refused_with_a_sentence(text):
    with pytest.raises(ValueError, match=r"[Ww]et"):
        read_scheme(text)


def test_no_word_means_north():
    assert read_scheme("") == NORTHERN


def test_all_months_wet_is_no_division_of_the_year():
    with pytest.raises(ValueError, match="at most eleven"):
        wet_and_dry(range(1, 13))


def test_each_season_knows_its_sampling_days():
    seen = coverage([date(2024, 4, 2), date(2025, 4, 9), date(2025, 7, 9)], NORTHERN)
    assert [seen.of_season(season) for season in NORTHERN.seasons] == [0, 2, 1, 0]


@pytest.mark.parametrize("text", ["wet 1 x", "wet x 1", "wet -1", "wet 1 13"])
def test_one_month_that_makes_no_sense_is_enough_to_refuse(text):
    with pytest.raises(ValueError, match=r"[Ww]et"):
        read_scheme(text)


def test_no_month_lies_before_january():
    with pytest.raises(ValueError, match="numbers from 1 to 12"):
        wet_and_dry([0, 1])
    assert wet_and_dry([1, 12]).of_month[0].key == wet_and_dry([1, 12]).of_month[11].key == "wet"


def test_a_wet_season_of_december_and_january_ends_with_january():
    wet, dry = bands(date(2025, 12, 1), date(2026, 2, 28), wet_and_dry([12, 1]))
    assert (wet.season.key, wet.end) == ("wet", date(2026, 1, 31))
    assert (dry.season.key, dry.start) == ("dry", date(2026, 2, 1))
    assert season_with_year(date(2026, 2, 1), wet_and_dry([12, 1])) == "dry season 2026"


def test_a_month_in_short_is_not_taken_for_its_whole_name():
    """May is both in English; in Spanish `mayo` and `may.` (CLDR, Spanish month names)."""
    words = {"May": "mayo", "May {year}": "may. {year}"}
    with using(Language("es", spoken_as(words))):
        assert month_of(date(2024, 5, 3)) == "may. 2024"
        assert written(date(2024, 5, 3)) == "3 mayo 2024"
    assert (month_of(date(2024, 5, 3)), written(date(2024, 5, 3))) == ("May 2024", "3 May 2024")


def spoken_as(words):
    class Words(NullTranslations):
        def gettext(self, message):
            return words.get(message, message)

    return Words()
