"""Entries of the journal in plain words: what was done, to what, what it said before and after."""

import json
from datetime import date

import pytest
from household import result as reading
from household import sample
from waters import CATALOGUE

from wellbook.book.journal import Entry
from wellbook.book.rows import InspectionAnswer
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.clock_words import since_words
from wellbook.window.common.journal_words import (
    Names,
    action_words,
    deed_words,
    detail_words,
    short_words,
)

NOTHING = Names()
WORDS = {"seasons", "country", "paper"}  # keys that are a word for themselves


def entry(action, *changes):
    return Entry(1, "2026-11-01T12:00:00+00:00", action, "", None, json.dumps(changes), "")


@pytest.fixture
def book(home):
    return home.book


def written(book, since=0):
    """The entries since one, newest last, and the names of now."""
    names = Names.of(book.record(), CATALOGUE)
    return [one for one in book.journal() if one.seq > since], names


def details(book, since=0):
    entries, names = written(book, since)
    return [detail_words(one, names) for one in entries]


def test_each_entry_of_a_household_says_what_it_was_done_to(book):
    assert details(book) == [
        "Tamarack Hill; depth; casing",
        "Pressure tank",
        "Kitchen tap",
        "Softener",
        "Softener, new media",
        (
            "Larkspur Laboratory; Larkspur Laboratory: accreditation “State programme 4471”; "
            "valid from “2012”; valid to “2020-06-30”"
        ),
        "flood 20 Apr 2019",
        "pregnancy February 2020",
        "test of 3 May 2004; 4 readings",
        "test of 12 Sep 2012, 07:15; 4 readings",
        "test of 2 May 2019, 06:40; Vexley report.pdf; 5 readings",
        "test of 2 May 2019, 06:50; 2 readings",
        "test of 7 Jan 2020; 1 reading",
        "test of 7 Jan 2020: struck out because “The bottle was mixed up with a neighbour’s.”",
        "Iron, test of 3 May 2004: reading “0.42” became “0.24”",
    ]


def test_a_change_says_before_and_after_by_the_names_of_now(book):
    since = book.last_entry()
    book.change_point(2, place=3)
    book.change_event(1, day="2019-04")
    book.change_well(1, note="")
    book.set_plan(1, "lead_copper", 12)
    book.set_plan(1, "lead_copper", 6, reason="two a year")
    book.correct_sample(1, "The form says so", lab="Fenmoor Analytics", point=2)
    book.correct_sample(3, "The form says so", collected=LocalTime(date(2019, 5, 3)))
    assert details(book, since) == [
        "Kitchen tap: place in the flow “2” became “3”",
        "flood April 2019: day “2019-04-20” became “2019-04”",
        "Tamarack Hill: remark “The gate is at 17 Quillwort Lane, Fernbank.” taken away",
        "Lead and copper at the tap",
        "Lead and copper at the tap: months “12” became “6”; reason “two a year”",
        (
            "Fenmoor Analytics; test of 3 May 2004: lab “Larkspur Laboratory” became "
            "“Fenmoor Analytics”; point “Pressure tank” became “Kitchen tap”"
        ),
        "test of 3 May 2019: drawn on “2019-05-02T06:40” became “2019-05-03”",
    ]


def test_what_is_kept_under_a_key_is_said_in_words_and_what_hangs_on_it_not_again(book):
    since = book.last_entry()
    book.add_service(1, "bypass", "2021")
    book.add_expense(1, "power", "2020-01", cost="20", currency="USD")
    book.set_interval(1, "cap", 12)
    seen = [InspectionAnswer(0, 0, "cap", "bad", "loose", "")]
    book.add_inspection(1, "2024-05", seen)
    book.mend(1, "2024-06")
    book.remove("event", 2)
    assert details(book, since) == [
        "Softener, bypassed",
        "power",
        "",
        "inspection of wellhead and surroundings May 2024",
        "put right “2024-06”",
        "pregnancy February 2020",
    ]


def test_a_change_of_what_was_noted_says_of_what_and_a_plan_that_is_gone_was_no_key(book):
    since = book.last_entry()
    book.set_plan(1, "lead_copper", 12)
    (plan,) = book.plans()
    book.remove("plan", plan.id)
    book.change_service(1, text="New resin")
    paid = book.add_expense(1, "power", "2020-01", cost="20", currency="USD")
    book.change_expense(paid, cost="21")
    book.set_plan(1, "of an older book", 12)
    assert details(book, since) == [
        "Lead and copper at the tap",
        "Lead and copper at the tap",
        "Softener, new media: text “Resin changed” became “New resin”",
        "power",
        "power: cost “20” became “21”",
        "of an older book",
    ]


def test_a_changed_setting_is_named_with_what_it_said_before_and_after(book):
    since = book.last_entry()
    book.set_setting("near", "60")
    book.set_setting("near", "70")
    book.set_settings({"near": "", "currency": "EUR"})
    book.set_setting("currency", "USD")
    book.undo()
    book.set_setting("lab_decisions", '{"Hollin": {"order": "month first"}}')
    book.set_setting("lab_decisions", '{"Hollin": {"order": "day first"}}')
    assert details(book, since) == [
        "share of a limit that counts as close",
        "share of a limit that counts as close: choice “60” became “70”",
        "share of a limit that counts as close: choice “70” taken away",
        "currency of costs",
        "currency of costs: choice “EUR” became “USD”",
        "currency of costs: choice “USD” became “EUR”",
        "what was decided about files of labs",
        "what was decided about files of labs: changed",
    ]


def test_every_setting_that_a_book_keeps_has_words():
    from wellbook.intake import decisions
    from wellbook.planning.place.choices import SETTINGS
    from wellbook.sharing import sources
    from wellbook.wording import vocabulary

    keys = [one.kept for one in SETTINGS] + [decisions.SETTING, sources.SETTING, "reminders"]
    assert [key for key in keys if vocabulary.setting(key) == key and key not in WORDS] == []


def test_a_name_is_what_the_row_is_called_now_even_if_it_was_called_otherwise(book):
    book.change_unit(1, name="Old softener")
    book.change_point(2, name="Sink")
    told = details(book)
    assert told[2:4] == ["Sink", "Old softener"]
    assert told[-1] == "Sink: name “Kitchen tap” became “Sink”"


def test_deeds_name_the_test_its_point_and_how_many_readings(book):
    entries, names = written(book)
    said = [deed_words(one, names) for one in entries]
    assert said[0] == "well added (Tamarack Hill; depth; casing)"
    assert said[8] == "test of 3 May 2004, Pressure tank (4 readings)"
    assert said[12] == "test of 7 Jan 2020, Pressure tank (1 reading)"
    assert said[14] == "reading corrected (Iron, test of 3 May 2004: reading “0.42” became “0.24”)"
    assert deed_words(entry("set an interval of upkeep"), names) == "interval of upkeep set"
    assert deed_words(entries[8], NOTHING) == "test of 3 May 2004 (4 readings)", "no point known"


def test_a_line_of_a_menu_leaves_the_readings_out_and_ends_at_seventy_letters(book):
    entries, names = written(book)
    said = [short_words(one, names) for one in entries]
    assert said[8] == "test of 3 May 2004, Pressure tank"
    assert said[13] == "test struck out (test of 7 Jan 2020: struck out because “The bottle w…"
    assert len(said[13]) == 70
    at_most = entry("a deed", ["document", 1, None, {"name": "n" * (70 - len("a deed ()"))}])
    assert short_words(at_most, NOTHING) == deed_words(at_most, NOTHING)
    longer = entry("a deed", ["document", 1, None, {"name": "n" * (71 - len("a deed ()"))}])
    assert short_words(longer, NOTHING) == f"a deed ({'n' * 61}…"


def test_several_readings_are_counted_and_one_alone_is_named_only_beside_its_test():
    def new(*numbers):
        rows = [["result", number, None, {"sample": 1}] for number in numbers]
        return detail_words(entry("complete a sample", *rows), NOTHING)

    assert new(1) == ""
    assert new(1, 2) == "2 readings"
    gone = [["result", number, {"sample": 1}, None] for number in (1, 2, 3)]
    assert detail_words(entry("complete a sample", *gone), NOTHING) == "3 readings"
    point = ["point", 4, None, {"name": "Tap"}]
    one = ["result", 1, None, {"sample": 1}]
    assert detail_words(entry("add", point, point, one), NOTHING) == "Tap; 1 reading"


def test_what_is_not_known_any_more_is_left_out_and_never_made_up():
    changed = ["result", 9, {"text": "1"}, {"text": "2"}]
    assert detail_words(entry("correct a result", changed), NOTHING) == (
        ", : reading “1” became “2”"
    )
    known = Names(samples={1: LocalTime(date(2020, 1, 7))})
    assert detail_words(entry("correct a result", changed), known).startswith(", : ")
    unheard = ["sample", 9, {"lab": 3}, {"lab": 4}]
    assert detail_words(entry("correct a sample", unheard), NOTHING) == "lab “3” became “4”"
    vague = {"collected": "2020-05-15", "known_to": "month"}
    assert detail_words(entry("x", ["sample", 9, None, vague]), NOTHING) == "test of May 2020"


def test_a_reading_of_no_known_parameter_is_called_as_it_was_printed(book):
    (unknown,) = [one for one in book.results() if one.name == "Unobtainium"]
    since = book.last_entry()
    book.correct_result(unknown.id, reading("", "Unobtainium", "4.4", "mg/L"), "Misread")
    assert details(book, since) == [
        "Unobtainium, test of 12 Sep 2012, 07:15: reading “3.3” became “4.4”"
    ]


def test_tests_and_readings_that_were_struck_out_keep_their_names(book):
    struck = book.results(with_struck=True)[-1]
    names = written(book)[1]
    assert names.samples[struck.sample] == LocalTime(date(2020, 1, 7))
    assert names.parameters[struck.id] == "Nitrate"
    assert names.results[struck.id] == struck.sample


def test_taking_back_and_entering_again_say_of_what():
    assert action_words("undo: add a well") == "undone: well added"
    assert action_words("redo: correct a sample") == "redone: test corrected"
    assert action_words("undo: redo: add a well") == "undone: redone: well added"
    assert action_words("something: add a well") == "well added"
    assert action_words("what an older program wrote") == "what an older program wrote"


def test_every_deed_of_a_book_has_words_of_its_own(book):
    """What is written through every method of a book; none is told by its key."""
    book.add_sample(sample(2, "2024-05-03", reading("nitrate", "Nitrate", "1", "mg/L")))
    book.undo()
    entries, _names = written(book)
    for one in entries:
        assert action_words(one.action) != one.action


def test_a_time_is_said_in_the_time_of_this_computer_and_what_is_none_as_it_stands(monkeypatch):
    import time

    try:
        monkeypatch.setenv("TZ", "UTC+5")  # POSIX: five hours behind UTC
        time.tzset()
        assert since_words("2026-11-01T03:04:05+00:00") == "31 Oct 2026, 22:04"
        assert since_words("2026-11-01T03:04:59.9") == "1 Nov 2026, 03:04"
        assert since_words("long ago") == "long ago"
    finally:
        monkeypatch.undo()
        time.tzset()
