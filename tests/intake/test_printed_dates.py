"""Dates as labs print them. ISO 8601 for the year-month-day forms; the rest common practice."""

from datetime import date, time, timedelta

import pytest
from drafts import TODAY, keys
from hypothesis import given
from hypothesis import strategies as st

from wellbook.intake.draft import NO_DAY
from wellbook.intake.words.dates import Order, clock, order_of, taken_apart, tells_day
from wellbook.water.values.local_time import LocalTime

TABLE = "Analyte,Result,Units,Collected\nIron,1,mg/L,{}\n"


@pytest.mark.parametrize(
    "text",
    [
        "2024-05-13",
        "2024/05/13",
        "20240513",
        "5/13/2024",
        "05-13-24",
        "13.05.2024",
        "13-May-2024",
        "13 May 24",
        "May 13, 2024",
        "Monday, May 13th, 2024",
        "13MAY2024",
        "2024-May-13",
        "2024 mai 13",
        "lundi 13 mai 2024",
        "lunes, 13 de mayo de 2024",
        "mayo 13 de 2024",
        "Montag, 13. Mai 2024",
        "Mo, 13.05.2024",
        "lun. 13/05/2024",
        "el 13 de mayo de 2024",
    ],
)
def test_a_day_that_can_mean_only_one_thing_is_read(draft_of, text):
    draft = draft_of(TABLE.format(f'"{text}"'))
    assert draft.samples[0].sample.collected == LocalTime(date(2024, 5, 13))
    assert keys(draft) == []


@pytest.mark.parametrize(
    ("text", "at", "offset"),
    [
        ("2024-05-13 07:15", time(7, 15), None),
        ("2024-05-13T07:15:00-04:00", time(7, 15), -240),
        ("5/13/2024 7:15 AM", time(7, 15), None),
        ("5/13/2024 7:15:00 PM", time(19, 15), None),
        ("5/13/2024 12:05 a.m.", time(0, 5), None),
        ("5/13/2024 12:05 pm EST", time(12, 5), -300),
        ("5/13/2024 at 7:15", time(7, 15), None),
        ("5/13/2024 @ 07:15", time(7, 15), None),
        ("13/05/2024 à 7h15", time(7, 15), None),
        ("13/05/2024 07 h 15", time(7, 15), None),
        ("13.05.2024 um 07:15 Uhr", time(7, 15), None),
        ("13/05/2024 a las 7:15 horas", time(7, 15), None),
        ("13/05/2024 (07:15)", time(7, 15), None),
        ("5/13/2024 0:00", None, None),
        ("2024-05-13 00:00:00", None, None),
    ],
)
def test_a_time_may_stand_after_the_day_and_midnight_is_no_time(draft_of, text, at, offset):
    collected = draft_of(TABLE.format(text)).samples[0].sample.collected
    assert (collected.at, collected.offset) == (at, offset)


@pytest.mark.parametrize(
    ("text", "at"),
    [("7:15", time(7, 15)), ("0715", time(7, 15)), ("7 pm", time(19)), ("07:15:59", time(7, 15))],
)
def test_a_time_in_a_column_of_its_own(draft_of, text, at):
    draft = draft_of(f"Analyte,Result,Units,Sampled,Time\nIron,1,mg/L,2024-05-13,{text}\n")
    assert draft.samples[0].sample.collected.at == at


def test_one_date_beyond_the_twelfth_decides_for_the_whole_file(draft_of):
    draft = draft_of(
        "Analyte,Result,Units,Collected,Analyzed\n"
        "Iron,1,mg/L,03/05/2024,13/05/2024\nLead,1,ug/L,04/06/2024,\n"
    )
    assert [s.sample.collected.day for s in draft.samples] == [date(2024, 5, 3), date(2024, 6, 4)]
    assert keys(draft) == []


def test_the_month_comes_first_where_the_day_first_would_lie_in_the_future(draft_of):
    draft = draft_of(TABLE.format("02/12/2026"))  # the second of December is yet to come
    assert draft.samples[0].sample.collected.day == date(2026, 2, 12)
    assert keys(draft) == []


def test_a_month_first_in_the_future_is_never_turned_round_in_silence(draft_of):
    draft = draft_of(TABLE.format("12/02/2026"))
    assert ("future_date", "stop") in [(f.key, f.severity) for f in draft.findings]


def test_a_date_that_can_mean_two_days_is_asked_about(draft_of):
    draft = draft_of(TABLE.format("03/05/2024"))
    (finding,) = draft.findings
    assert (finding.key, finding.severity) == ("date_order", "stop")
    assert "5 March 2024" in finding.text
    assert "3 May 2024" in finding.text


def test_a_person_can_say_which_comes_first(draft_of):
    draft = draft_of(TABLE.format("03/05/2024"), order=Order.DAY_FIRST)
    assert draft.samples[0].sample.collected.day == date(2024, 5, 3)
    assert keys(draft) == []


def test_the_same_number_twice_needs_no_question(draft_of):
    assert keys(draft_of(TABLE.format("05/05/2024"))) == []


def test_dates_that_prove_both_orders_stop_the_file(draft_of):
    draft = draft_of(
        "Analyte,Result,Units,Collected\nIron,1,mg/L,13/05/2024\nIron,1,mg/L,05/13/2024\n"
    )
    assert ("mixed_dates", "stop") in [(f.key, f.severity) for f in draft.findings]


@pytest.mark.parametrize("text", ["2026-03-02", "12/31/2093", "Mar 2 26"])
def test_a_day_in_the_future_stops_the_file_and_names_the_row(draft_of, text):
    (finding,) = draft_of(TABLE.format(text)).findings
    assert (finding.key, finding.severity, finding.where) == ("future_date", "stop", "row 2")


def test_today_is_not_the_future(draft_of):
    assert keys(draft_of(TABLE.format(TODAY))) == []


def test_two_digits_of_a_year_are_never_in_the_future(draft_of):
    draft = draft_of("Analyte,Result,Units,Collected\nIron,1,mg/L,5/13/64\nIron,1,mg/L,5/13/25\n")
    assert [s.sample.collected.day.year for s in draft.samples] == [1964, 2025]


@pytest.mark.parametrize("text", ["", "soon", "31/31/2024", "2024-02-30"])
def test_a_day_that_is_missing_or_none_stops_the_file(draft_of, text):
    draft = draft_of(TABLE.format(text))
    assert draft.samples[0].sample.collected.day == NO_DAY
    assert [f.severity for f in draft.findings] == ["stop"]


def test_a_time_that_is_none_leaves_the_day(draft_of):
    draft = draft_of(TABLE.format("2024-05-13 27:99"))
    assert draft.samples[0].sample.collected == LocalTime(date(2024, 5, 13))
    assert keys(draft) == ["bad_time"]


def test_a_bare_word_date_in_a_column_is_taken_for_sampling_and_noted(draft_of):
    draft = draft_of("Analyte,Result,Units,Date\nIron,1,mg/L,2024-05-13\n")
    assert [(f.key, f.severity) for f in draft.findings] == [("some_date", "note")]


def test_a_bare_word_date_above_the_table_is_asked_about(draft_of):
    draft = draft_of("Date: 2024-05-13\nAnalyte,Result,Units\nIron,1,mg/L\n")
    assert [(f.key, f.severity) for f in draft.findings] == [("some_date", "ask")]


def test_the_date_of_the_report_is_never_taken_for_that_of_sampling(draft_of):
    draft = draft_of("Report date: 2024-05-20\nAnalyte,Result,Units\nIron,1,mg/L\n")
    assert keys(draft) == ["no_date"]


def test_a_time_above_the_table_stays_with_the_date_above_the_table(draft_of):
    draft = draft_of(
        "Collected: 2024-05-13\nTime: 07:15\nAnalyte,Result,Units,Sampled\nIron,1,mg/L,2024-05-14\n"
        "Lead,1,ug/L,\n"
    )
    assert draft.samples[0].sample.collected == LocalTime(date(2024, 5, 14))


@given(st.dates(date(1930, 1, 1), TODAY), st.sampled_from(["/", "-", "."]), st.booleans())
def test_any_day_is_read_back_once_the_order_is_known(day, mark, is_day_first):
    a, b = (day.day, day.month) if is_day_first else (day.month, day.day)
    printed = taken_apart(f"{a}{mark}{b:02d}{mark}{day.year}", TODAY)
    order = Order.DAY_FIRST if is_day_first else Order.MONTH_FIRST
    assert printed is not None
    assert printed.day(order) == day


@given(st.lists(st.dates(date(2001, 1, 1), TODAY), min_size=1), st.booleans())
def test_an_order_that_is_found_is_the_true_one(days, is_day_first):
    form = "%d/%m/%Y" if is_day_first else "%m/%d/%Y"
    order, is_mixed = order_of([f"{day:{form}}" for day in days], TODAY)
    assert not is_mixed
    assert order in {Order.UNKNOWN, Order.DAY_FIRST if is_day_first else Order.MONTH_FIRST}


@given(st.times(), st.sampled_from(["%H:%M", "%I:%M %p", "%H%M", "%H:%M:%S"]))
def test_any_time_is_read_back(at, form):
    assert clock(at.strftime(form)) == (time(at.hour, at.minute), None)


@given(st.text(max_size=30))
def test_no_text_whatever_breaks_the_reading_of_dates(text):
    printed = taken_apart(text, TODAY)
    assert printed is None or printed.year < TODAY.year + timedelta.max.days
    clock(text)


@pytest.mark.parametrize(
    "line",
    [
        "results for the sample taken 2024-08-19:",
        "Thank you for the water that was drawn on August 19, 2024 at the kitchen tap.",
        "The bottle you brought in on 19 August 2024 is reported here.",
    ],
)
def test_a_day_told_within_a_sentence_is_the_day_of_sampling(draft_of, line):
    text = f"Hello,\n\n{line}\n\nNitrate-N: 2.7 mg/L\nChloride: 19 mg/L\nArsenic: <1 ug/L\n"
    (sample,) = draft_of(text, "mail.txt").samples
    assert sample.sample.collected.iso() == "2024-08-19"


def test_a_day_on_which_something_else_happened_is_none(draft_of):
    text = (
        "Hello,\n\nWe moved to our new rooms on 19 August 2024.\n\n"
        "Nitrate-N: 2.7 mg/L\nChloride: 19 mg/L\nArsenic: <1 ug/L\n"
    )
    assert "no_date" in keys(draft_of(text, "mail.txt"))


@pytest.mark.parametrize(
    ("text", "is_day", "is_whole"),
    [
        ("2024-05-13", True, True),
        ("2024-05-13 00:00:00", True, True),
        ("5/13/2024 kitchen tap", True, False),
        ("2024-05-13 14:30", True, False),
        ("May 2024", True, True),
        ("2024", True, True),
        ("Kitchen", False, False),
        ("", False, False),
    ],
)
def test_a_day_is_whole_where_nothing_stands_behind_it(text, is_day, is_whole):
    assert tells_day(text, TODAY) == is_day
    assert tells_day(text, TODAY, is_whole=True) == is_whole


def test_mar_before_a_day_and_a_year_is_the_month_and_before_a_whole_date_the_weekday():
    assert taken_apart("Mar 13, 2024", TODAY).day(Order.DAY_FIRST) == date(2024, 3, 13)
    assert taken_apart("Mar 13 2024", TODAY).day(Order.DAY_FIRST) == date(2024, 3, 13)
    assert taken_apart("mar. 14/05/2024", TODAY).day(Order.DAY_FIRST) == date(2024, 5, 14)
    assert taken_apart("mar 14 mai 2024", TODAY).day(Order.DAY_FIRST) == date(2024, 5, 14)


OPEN = "Probe vom 03.05.2022\n  {iron}  0,3 mg/l\n  {manganese}  0,06 mg/l\n{line}\n"


def test_another_line_of_the_file_tells_the_order_of_day_and_month(draft_of):
    draft = draft_of(
        OPEN.format(iron="Iron", manganese="Manganese", line="Filter changed 14.08.2022"), "a.txt"
    )
    assert draft.samples[0].sample.collected == LocalTime(date(2022, 5, 3))
    assert not {"date_order", "date_order_assumed"} & set(keys(draft))


def test_names_in_another_language_tell_how_dates_are_written(draft_of):
    draft = draft_of(OPEN.format(iron="Eisen", manganese="Mangan", line="Filter neu"), "a.txt")
    assert draft.samples[0].sample.collected == LocalTime(date(2022, 5, 3))
    draft = draft_of(OPEN.format(iron="Iron", manganese="Manganese", line="Filter new"), "a.txt")
    assert draft.stops


def test_a_number_of_a_sample_is_no_day_of_a_year_before_1000(draft_of):
    (sample,) = draft_of(
        "Sample ID,10-24-0619\nCollected,October 22 2024 6:10 AM by owner\n"
        "Parameter,Result,Unit\nIron,0.31,mg/L\n"
    ).samples
    assert sample.sample.collected.iso() == "2024-10-22T06:10"


@pytest.mark.parametrize(
    ("line", "day"),
    [
        ("Report of Analysis 25-01180 issued 17/02/2025", "2025-02-03"),
        ("Invoice paid 2/17/2025", "2025-03-02"),
    ],
)
def test_any_day_of_the_file_proves_what_its_days_put_first(draft_of, line, day):
    draft = draft_of(f"{line}\nDate sampled,03/02/2025\nParameter,Result,Unit\nIron,0.31,mg/L\n")
    assert [one.sample.collected.iso() for one in draft.samples] == [day]
    assert "date_order" not in keys(draft)


def test_days_beside_the_results_that_prove_both_orders_prove_none(draft_of):
    draft = draft_of(
        "Ordered 17/02/2025 and paid 2/18/2025\nNext due,01/06/2026\nDate sampled,03/02/2025\n"
        "Parameter,Result,Unit\nIron,0.31,mg/L\n"
    )
    assert "date_order" in keys(draft)


def test_a_day_ahead_beside_the_results_proves_no_order(draft_of):
    draft = draft_of(
        "Next test due,01/06/2026\nDate sampled,03/02/2025\nParameter,Result,Unit\nIron,0.31,mg/L\n"
    )
    assert "date_order" in keys(draft)


def test_a_whole_day_goes_before_the_year_beside_it(draft_of):
    draft = draft_of(
        "Year,Date,Nitrate-N (mg/L),Coliform\n2014,2014-06-09,1.2,absent\n"
        "2018,2018-06-11,1.9,present\n2018,2018-07-02,,absent\n"
    )
    days = [one.sample.collected.iso() for one in draft.samples]
    assert days == ["2014-06-09", "2018-06-11", "2018-07-02"]
