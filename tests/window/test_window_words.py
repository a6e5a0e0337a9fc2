"""Readings, limits and days in the words of the screen, and days as a person types them."""

from datetime import date, time, timedelta
from decimal import Decimal

import pytest
from made_standings import limit, nitrogen
from PySide6.QtCore import QLocale
from waters import CATALOGUE

from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import read_language, using
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.limits import Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag, Kind, Reading
from wellbook.window.common import typed_days, words

LEAD = CATALOGUE.parameters["lead"]
DAY = date(2026, 5, 4)


@pytest.fixture
def country():
    """The country of the person's computer."""
    before = QLocale()
    yield lambda code: QLocale.setDefault(
        QLocale(QLocale.Language.English, QLocale.codeToTerritory(code))
    )
    QLocale.setDefault(before)


@pytest.fixture
def spanish():
    with using(read_language(paths.resources() / "languages", "es")):
        yield


@pytest.mark.parametrize(
    ("unit", "more", "said"),
    [
        ("µg/L", {}, "10000 µg/L"),
        ("ug/L", {"unit": "µg/L"}, "10 µg/L"),
        ("mg/L", {"unit": "µg/L", "high": "15"}, "0.015 mg/L"),
        ("pCi/L", {}, "10 mg/L"),
        ("", {}, "10 mg/L"),
        ("something", {}, "10 mg/L"),
        ("µg/L", {"low": "0.5", "rule": Rule.RANGE}, "500 to 10000 µg/L"),
        ("µg/L", {"low": "6", "high": None, "rule": Rule.RANGE}, "at least 6000 µg/L"),
        ("µg/L", {"low": None, "rule": Rule.RANGE}, "10000 µg/L"),
        ("µg/L", {"rule": Rule.ABSENT, "high": None}, "must be absent"),
    ],
)
def test_a_limit_stands_in_the_unit_of_the_reading_where_it_converts(unit, more, said):
    against = limit("lead", **{"high": "10"} | more)
    reading = Reading("1", Kind.NUMBER, Decimal(1), unit)
    assert words.limit_beside(against, reading, LEAD) == said


def test_a_limit_of_what_is_not_known_stands_as_published():
    reading = Reading("1", Kind.NUMBER, Decimal(1), "µg/L")
    assert words.limit_beside(limit("lead"), reading, None) == "10 mg/L"
    assert words.limit_beside(None, reading, LEAD) == ""


@pytest.mark.parametrize(
    ("figure", "printed", "said"),
    [
        ("9", "0.009", "9.0"), ("9", "0.0090", "9.0"), ("12.346", "1.234", "12.35"),
        ("1234.5", "12", "1.2E+3"), ("0.0123456", "123", "0.0123"), ("0", "12", "0"),
        ("9", None, "9"), ("99.96", "999", "100.0"),
    ],
)  # fmt: skip
def test_a_converted_figure_has_as_many_digits_as_were_printed_and_two_at_least(
    figure, printed, said
):
    found = words.as_exact_as(Decimal(figure), None if printed is None else Decimal(printed))
    assert str(found) == said


def test_a_figure_is_written_out_with_a_point():
    assert words.number_words(Decimal("1.2E+3")) == "1200"
    assert words.number_words(Decimal("0.50")) == "0.50"
    assert words.number_words(None) == ""


@pytest.mark.parametrize(
    ("text", "unit", "basis", "said"),
    [
        ("9.2", "mg/L", "as N", "9.2 mg/L as N"),
        ("9.2", "mg/L as N", "as N", "9.2 mg/L as N"),
        ("9.2", "MG/L AS N", "as N", "9.2 MG/L AS N"),
        ("present", "per 100 mL", "", "present"),
        ("absent", "per 100 mL", "", "absent"),
        ("0 (absent)", "CFU/100 mL", "", "0 (absent) CFU/100 mL"),
        ("TNTC", "CFU/100 mL", "", "TNTC CFU/100 mL"),
        ("not analysed", "mg/L", "", "not analysed"),
        ("", "mg/L", "", "not analysed"),
    ],
)
def test_a_reading_is_said_as_printed_with_its_unit_once(text, unit, basis, said):
    assert words.reading_words(read_reading(text, unit=unit, basis=basis)) == said


def test_that_something_is_there_keeps_its_unit_where_it_is_counted():
    counted = Reading("present, 12", Kind.PRESENT, None, "CFU/100 mL")
    assert words.reading_words(counted) == "present, 12 CFU/100 mL"


def test_a_sum_is_said_with_its_unit():
    assert words.sum_words(nitrogen().sum) == "10.5 mg/L as N"


def test_a_reading_told_before_its_report_is_marked():
    reading = Reading("9", Kind.NUMBER, Decimal(9), "mg/L", flags=frozenset({Flag.PRELIMINARY}))
    assert words.reading_words(reading) == "9 mg/L (preliminary)"


@pytest.mark.parametrize(
    ("kind", "number", "unit", "said"),
    [
        (Kind.NUMBER, "9", "mg/L", "9 mg/L"),
        (Kind.NUMBER, "7", "", "7"),
        (Kind.BELOW, "0.5", "mg/L", "not detected, below 0.5 mg/L"),
        (Kind.BELOW, None, "", "not detected, below ?"),
        (Kind.ABOVE, "200", "MPN/100 mL", "more than 200 MPN/100 mL"),
        (Kind.ABOVE, None, "MPN/100 mL", "too many to count"),
        (Kind.PRESENT, None, "", "present"),
        (Kind.ABSENT, None, "", "absent"),
        (Kind.NONE, None, "", "not analysed"),
        (Kind.TEXT, None, "", "not understood, kept as printed"),
    ],
)
def test_what_a_result_is_taken_for_is_said_for_every_kind(kind, number, unit, said):
    figure = None if number is None else Decimal(number)
    assert words.understood_words(Reading("?", kind, figure, unit)) == said


@pytest.mark.parametrize(("code", "said"), [("US", "3:05 PM"), ("DE", "15:05")])
def test_a_time_is_told_by_the_clock_of_the_person_s_country(country, code, said):
    country(code)
    assert words.moment_words(LocalTime(DAY, time(15, 5))) == f"4 May 2026, {said}"
    assert words.moment_words(LocalTime(DAY)) == "4 May 2026"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("2026-05-04", "4 May 2026"), ("2026-05", "May 2026"), ("2026", "2026"), ("", ""),
        ("in spring", "in spring"),
    ],
)  # fmt: skip
def test_a_day_a_month_and_a_year_are_said_as_far_as_they_are_known(text, said):
    assert words.partial_words(text) == said


@pytest.mark.usefixtures("spanish")
def test_months_are_said_in_the_language_of_the_window():
    assert words.partial_words("2026-05") == "mayo de 2026"
    assert words.edit_format(1) == "MMMM 'de' yyyy"


def test_a_field_shows_no_more_of_a_day_than_is_known():
    assert [words.edit_format(known) for known in range(3)] == ["d MMM yyyy", "MMMM yyyy", "yyyy"]


def refused(read, text):
    with pytest.raises(Fault) as found:
        read(text)
    return str(found.value)


def test_a_day_is_read_in_iso_and_in_other_writings_where_they_say_one_day():
    assert typed_days.read_day(" 2026-05-04 ") == DAY
    assert typed_days.read_day("25.5.2026") == date(2026, 5, 25)
    assert typed_days.read_day("4 May 2026") == DAY
    assert typed_days.read_day("") is typed_days.read_day("  ") is None
    for wrong in ("2026-02-30", "soon", "2026-05"):
        said = refused(typed_days.read_day, wrong)
        assert said == f"“{wrong}” is no day: write it like 2019-05-31."


def test_a_day_that_can_be_two_is_asked_for_and_never_guessed():
    for read in (typed_days.read_day, typed_days.read_partial, typed_days.read_drawn):
        assert refused(read, "03/04/2026") == (
            "“03/04/2026” can be 4 Mar 2026 or 3 Apr 2026: write 2026-03-04 or 2026-04-03."
        )


def test_a_day_that_can_be_two_is_asked_for_with_its_time():
    assert refused(typed_days.read_moment, "03/04/2026 07:30") == (
        "“03/04/2026 07:30” can be 4 Mar 2026 or 3 Apr 2026: "
        "write 2026-03-04 07:30 or 2026-04-03 07:30."
    )


def test_a_month_and_a_year_are_read_with_their_first_and_last_day():
    assert typed_days.read_partial(" 2024-02 ") == "2024-02"
    assert typed_days.read_partial("") == ""
    assert typed_days.read_first_day("2024-02") == date(2024, 2, 1)
    assert typed_days.read_last_day("2024-02") == date(2024, 2, 29)
    assert typed_days.read_last_day("2024") == date(2024, 12, 31)
    assert typed_days.read_first_day("") is typed_days.read_last_day("") is None
    assert refused(typed_days.read_partial, "soon") == (
        "“soon” is no day: write 2019, 2019-05 or 2019-05-31."
    )


def test_a_moment_is_read_with_its_time_and_keeps_the_offset_it_had_only_with_a_time():
    before = LocalTime(DAY, time(1), timedelta(hours=-5))
    read = typed_days.read_moment
    assert read("2026-05-04 07:30") == LocalTime(DAY, time(7, 30))
    assert read("2026-05-04  07:30:59") == LocalTime(DAY, time(7, 30))
    assert read("2026-05-04 07:30", before) == LocalTime(DAY, time(7, 30), before.offset)
    assert read("2026-05-04", before) == LocalTime(DAY)
    assert read("2026-05-04") == LocalTime(DAY)
    assert read("", before) is None
    for wrong in ("2026-05", "2026-05-04 25:00", "soon"):
        assert refused(read, wrong) == (
            f"“{wrong}” is no day: write 2019-05-31 or 2019-05-31 07:30."
        )


@pytest.mark.parametrize("text", ["2026", "2026-05", "2026-05-04", "2026-05-04 07:30", ""])
def test_when_a_sample_was_drawn_is_written_as_it_is_read(text):
    assert typed_days.written(typed_days.read_drawn(text)) == text


def test_a_month_is_read_as_a_month_where_a_sample_may_be_known_to_it_only():
    may = read_partial_date("2026-05")
    assert typed_days.read_drawn("2026-05") == LocalTime.within(may)
    before = LocalTime(DAY, time(1), timedelta(hours=-5))
    assert typed_days.read_drawn("2026-05-04 07:30", before).offset == before.offset


def test_the_fields_say_how_days_are_written():
    assert typed_days.day_hint() == "2019-05-31"
    assert typed_days.partial_hint() == "2019, 2019-05 or 2019-05-31"
    assert typed_days.moment_hint() == "2019-05-31 or 2019-05-31 07:30"
    assert typed_days.drawn_hint() == "2019-05-31, 2019-05-31 07:30, 2019-05 or 2019"
    assert words.reason_hint() == "Needed: a few words are enough"
