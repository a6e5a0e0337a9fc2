"""Every write is one transaction and stands in the journal, which shows what was altered."""

import json
import sqlite3
from dataclasses import replace
from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from wellbook.book import Book, journal
from wellbook.book.check import check
from wellbook.book.reader import facts as facts_of
from wellbook.book.rows import InspectionAnswer, NewDocument, NewResult, NewSample, Plan, Price
from wellbook.book.session import OpenBook
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Kind, Reading

SCAN = NewDocument("report.pdf", "application/pdf", b"%PDF-1.4")
WRONG = NewResult("iron", "Iron", Reading("3.0", Kind.NUMBER, Decimal("3.0"), "mg/L"))
RIGHT = NewResult("iron", "Iron", Reading("0.30", Kind.NUMBER, Decimal("0.30"), "mg/L"))
SAMPLE = NewSample(1, LocalTime.parse("2024-05-03"), lab="Brook Lab", results=(WRONG,))
PHOTO = NewDocument("cap.jpg", "image/jpeg", b"\xff\xd8\xff", "photo")
SLOPE = InspectionAnswer(0, 0, "slope", "good")
CAP = InspectionAnswer(0, 0, "cap", "bad", text="cracked")
PRICE = Price(0, 0, "tests", "Lead", "22.50", "USD", "lead")

# Every public write, in an order in which each can run.
WRITES = {
    "add_well": lambda b: b.add_well("Home", construction={"depth": "185 ft"}),
    "add_point": lambda b: b.add_point(1, "Kitchen tap"),
    "add_unit": lambda b: b.add_unit(1, "Softener", kind="ion exchange", installed="2017-06"),
    "add_service": lambda b: b.add_service(1, "salt", "2018-01"),
    "add_lab": lambda b: b.add_lab("Brook Lab", accreditation="invented 12"),
    "add_event": lambda b: b.add_event(1, "flood", "2019-04-20", text="creek over the lawn"),
    "set_plan": lambda b: b.set_plan(1, "bacteria", 14),
    "set_setting": lambda b: b.set_setting("seasons", "south"),
    "add_sample": lambda b: b.add_sample(SAMPLE),
    "add_samples": lambda b: b.add_samples([SAMPLE]),
    "add_document": lambda b: b.add_document(SCAN, sample=1),
    "strike_sample": lambda b: b.strike_sample(1, "wrong bottle"),
    "restore_sample": lambda b: b.restore_sample(1, "it was the right one"),
    "correct_result": lambda b: b.correct_result(1, RIGHT, "the point was misread"),
    "add_result": lambda b: b.add_result(1, RIGHT, "the second page of the report"),
    "correct_sample": lambda b: b.correct_sample(
        1, "the day was misread", collected=LocalTime.parse("2024-05-04T08:00"), lab="Other Lab"
    ),
    "change_well": lambda b: b.change_well(
        1, note="drilled", construction={"depth": "190 ft", "casing": "6 in", "yield": ""}
    ),
    "change_point": lambda b: b.change_point(1, name="Tank tap", treated=True),
    "change_unit": lambda b: b.change_unit(1, removed="2024"),
    "change_event": lambda b: b.change_event(1, kind="repair", private=True),
    "add_inspection": lambda b: b.add_inspection(
        1, "2025-04-10", [SLOPE, CAP], [PHOTO], text="after the thaw", cost="0", currency="USD"
    ),
    "change_inspection": lambda b: b.change_inspection(
        2, "2025-04-11", [replace(CAP, answer="bad", text="cracked", mended="2025-06")], [SCAN]
    ),
    "mend": lambda b: b.mend(2, "2025-05"),
    "set_interval": lambda b: b.set_interval(1, "softener_salt", 2, unit=1, use="800 L"),
    "change_service": lambda b: b.change_service(1, cost="49.90", currency="USD"),
    "add_expense": lambda b: b.add_expense(1, "salt", "2025-06", cost="12", currency="USD"),
    "change_expense": lambda b: b.change_expense(1, cost="12.50"),
    "remove": lambda b: b.remove("event", 2),
    "set_plans": lambda b: b.set_plans([Plan(0, 1, "nitrate", 12, postponed="2026-09-01")]),
    "set_settings": lambda b: b.set_settings({"interval": "12"}),
    "complete_sample": lambda b: b.complete_sample(1, SAMPLE),
    "set_prices": lambda b: b.set_prices("Brook Lab", [PRICE]),
    "remove_document": lambda b: b.remove_document(b.documents()[0]),
    "undo": lambda b: b.undo(),
    "redo": lambda b: b.redo(),
}


@pytest.fixture(scope="module")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture
def book(tmp_path):
    now = datetime(2026, 1, 2, 3, 4, 5, tzinfo=UTC)
    with Book.create(tmp_path / "home.wellbook", now=lambda: now) as made:
        yield made


def facts(book):
    return facts_of(book._connection)


def test_the_list_of_writes_below_is_complete():
    public = {name for name in {**vars(OpenBook), **vars(Book)} if not name.startswith("_")}
    reading = {"open", "create", "close", "was_changed_elsewhere", "together", "why_readonly"}
    reading |= {"again", "is_in_place", "require_in_place", "ask_before_new"}
    assert public - reading == WRITES.keys()


def test_several_writes_can_be_one_entry_and_are_undone_as_one(book):
    WRITES["add_well"](book)
    WRITES["add_point"](book)
    before = facts(book)
    with book.together(as_one="take in a packet"):
        WRITES["add_sample"](book)
        WRITES["correct_result"](book)
        WRITES["strike_sample"](book)
    assert [one.action for one in book.journal()][2:] == ["take in a packet"]
    after = facts(book)
    assert book.undo() == "take in a packet"
    assert facts(book) == before
    book.redo()
    assert facts(book) == after


def test_writes_together_within_one_entry_belong_to_it(book):
    with book.together(as_one="take in a packet"):
        with book.together():
            WRITES["add_well"](book)
        with book.together(as_one="something else"):
            WRITES["add_point"](book)
    assert [entry.action for entry in book.journal()] == ["take in a packet"]


def test_each_write_is_one_transaction_with_one_entry_that_tells_all_of_it(book):
    for name, write in WRITES.items():
        statements = []
        book._connection.set_trace_callback(statements.append)
        write(book)
        book._connection.set_trace_callback(None)
        ends = [s for s in statements if s.startswith(("BEGIN", "COMMIT", "ROLLBACK"))]
        assert ends == ["BEGIN IMMEDIATE", "COMMIT"], name
        assert journal.replay(book.journal()) == facts(book), name
    assert len(book.journal()) == len(WRITES)
    assert not list(journal.broken_links(book.journal()))


def test_several_writes_together_are_one_transaction_with_an_entry_each(book):
    statements = []
    book._connection.set_trace_callback(statements.append)
    with book.together():
        for name in ("add_well", "add_point", "add_sample"):
            WRITES[name](book)
    book._connection.set_trace_callback(None)
    ends = [s for s in statements if s.startswith(("BEGIN", "COMMIT", "ROLLBACK"))]
    assert ends == ["BEGIN IMMEDIATE", "COMMIT"]
    assert len(book.journal()) == 3


def test_if_one_of_several_writes_fails_none_is_kept(book):
    WRITES["add_well"](book)
    with pytest.raises(Fault, match="one of that name already"):
        two_writes(book)
    assert not book.events()
    WRITES["add_event"](book)
    assert journal.replay(book.journal()) == facts(book)


def two_writes(book):
    with book.together():
        WRITES["add_event"](book)
        WRITES["add_well"](book)  # that name is taken


def test_a_log_item_that_is_left_empty_is_taken_out_and_the_others_stay(book):
    WRITES["add_well"](book)
    book.change_well(1, construction={"depth": "190 ft", "casing": "6 in"})
    assert book.wells()[0].construction == {"depth": "190 ft", "casing": "6 in"}
    book.change_well(1, construction={"depth": " ", "casing": "6 in"})
    assert book.wells()[0].construction == {"casing": "6 in"}
    book.change_well(1, name="House")
    assert (book.wells()[0].name, book.wells()[0].construction) == ("House", {"casing": "6 in"})
    book.undo()
    book.undo()
    assert book.wells()[0].construction == {"depth": "190 ft", "casing": "6 in"}


def test_what_was_removed_comes_back_as_it_was(book):
    for name in ("add_well", "add_event"):
        WRITES[name](book)
    before = book.events()
    book.remove("event", 1)
    assert book.events() == []
    book.undo()
    assert book.events() == before


def test_an_inspection_is_taken_out_with_its_answers_and_comes_back_with_them(book):
    for name in ("add_well", "add_inspection", "mend"):
        WRITES[name](book)
    before = facts(book)
    book.remove("event", 1)
    assert (book.record().events, book.record().answers) == ((), ())
    assert [document.name for document in book.documents(well=1)] == ["cap.jpg"]
    book.undo()
    assert facts(book) == before
    assert [(one.item, one.mended) for one in book.record().answers] == [
        ("slope", ""),
        ("cap", "2025-05"),
    ]
    assert [document.event for document in book.documents(well=1)] == [1]


def test_an_interval_of_upkeep_is_set_anew_in_place(book):
    for name in ("add_well", "add_unit", "set_interval", "set_interval"):
        WRITES[name](book)
    book.set_interval(1, "wellhead", 6)
    book.set_interval(1, "wellhead", 0)
    assert [(one.unit, one.months) for one in book.record().intervals] == [(1, 2), (None, 0)]


def test_a_whole_price_list_takes_the_place_of_the_old_one_and_single_prices_only_add(book):
    WRITES["add_lab"](book)
    iron = replace(PRICE, name="Iron", amount="12", parameters="iron")
    book.set_prices("Brook Lab", [PRICE, iron])
    book.set_prices("Brook Lab", [replace(PRICE, amount="25")], whole=False)
    assert [(price.name, price.amount) for price in book.prices()] == [
        ("Lead", "25"),
        ("Iron", "12"),
    ]
    book.set_prices("Brook Lab", [iron])
    assert [price.name for price in book.prices()] == ["Iron"]


def test_check_names_damage_that_no_fact_shows(book, catalogue):
    WRITES["add_well"](book)
    book.close()
    with book.path.open("r+b") as file:
        file.seek(36)  # https://www.sqlite.org/fileformat.html: how many pages are free
        file.write((1).to_bytes(4, "big"))
    (finding,) = check(book.path, catalogue, date(2026, 1, 2))
    assert finding.text.startswith("The file is damaged")


def test_a_corrected_sample_keeps_what_was_first_entered(book):
    for name in ("add_well", "add_point", "add_sample", "correct_sample"):
        WRITES[name](book)
    sample = book.sample(1)
    assert (sample.collected.iso(), sample.lab) == ("2024-05-04T08:00", "Other Lab")
    changes = json.loads(book.journal()[-1].changes)
    assert [
        "sample",
        1,
        {"collected": "2024-05-03", "lab": 1},
        {"collected": "2024-05-04T08:00", "lab": 2},
    ] in changes
    with pytest.raises(Fault, match="say what was wrong"):
        book.correct_sample(1, " ", note="x")


def test_a_correction_keeps_the_first_entry_and_the_reason(book):
    for name in ("add_well", "add_point", "add_sample", "correct_result"):
        WRITES[name](book)
    entry = book.journal()[-1]
    (change,) = json.loads(entry.changes)
    assert change[2] == {"text": "3.0", "number": "3.0"}
    assert change[3] == {"text": "0.30", "number": "0.30"}
    assert (entry.reason, entry.at) == ("the point was misread", "2026-01-02T03:04:05+00:00")


def test_undo_and_redo_walk_back_and_forth_over_every_write(book):
    states = [facts(book)]
    for name, write in WRITES.items():
        if name not in {"undo", "redo"}:
            write(book)
            states.append(facts(book))
    for before in reversed(states[:-1]):
        book.undo()
        assert facts(book) == before
    assert book.undo() == ""
    for after in states[1:]:
        book.redo()
        assert facts(book) == after
    assert book.redo() == ""
    assert book.content(1) == SCAN.content
    assert not list(journal.broken_links(book.journal()))


def test_what_undo_would_take_back_is_told_with_the_write_that_it_goes_back_to(book):
    assert book.to_undo() is None
    WRITES["add_well"](book)
    WRITES["add_point"](book)
    assert (book.to_undo().seq, book.to_undo().cause.action) == (2, "add a point")
    book.undo()
    assert book.to_undo().seq == 1


def test_undo_works_after_the_book_was_closed(book):
    WRITES["add_well"](book)
    book.close()
    with Book.open(book.path) as again:
        assert again.undo() == "add a well"
        assert not again.wells()


def test_a_new_write_ends_what_can_be_done_again(book):
    WRITES["add_well"](book)
    book.undo()
    WRITES["set_setting"](book)
    assert book.redo() == ""
    assert not book.wells()


def test_a_clean_book_has_nothing_to_tell(book, catalogue):
    for write in WRITES.values():
        write(book)
    assert check(book.path, catalogue, date(2026, 1, 2)) == ()


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("UPDATE result SET text = '0.03'", "Row 1 of result was changed outside Wellbook: text"),
        ("UPDATE sample SET collected = '2023-05-03'", "Row 1 of sample was changed"),
        ("DELETE FROM plan", "Row 1 of plan was removed outside Wellbook"),
        ("INSERT INTO lab (name) VALUES ('Third Lab')", "Row 3 of lab was added outside"),
        ("UPDATE document_body SET content = x'00'", "content of report.pdf is not what was"),
        ("DELETE FROM document_body", "content of report.pdf is missing"),
        ("CREATE VIEW guests AS SELECT 1", "not those of a book of this version (view guests)"),
        (
            "DROP TRIGGER journal_is_never_changed; UPDATE journal SET reason = '' WHERE seq = 14",
            "Entry 14 of the journal (correct a result",
        ),
        (
            "DROP TRIGGER journal_is_never_shortened; DELETE FROM journal WHERE seq = 3",
            "Entry 3 of the journal is missing",
        ),
    ],
)
def test_check_names_the_row_that_somebody_edited_with_other_tools(
    book, catalogue, statement, words
):
    for name, write in WRITES.items():
        if name not in {"undo", "redo"}:
            write(book)
    book.close()
    other = sqlite3.connect(book.path)
    other.executescript(statement)
    other.close()
    found = [finding.text for finding in check(book.path, catalogue, date(2026, 1, 2))]
    assert any(words in text for text in found), found


def test_check_asks_about_dates_that_can_not_be(book, catalogue):
    WRITES["add_well"](book)
    WRITES["add_point"](book)
    book.add_sample(
        NewSample(1, LocalTime.parse("2027-01-01"), received=LocalTime.parse("2026-12-30"))
    )
    book.strike_sample(1, "its day was misread")  # it may be restored, so it is looked at, too
    texts = [finding.text for finding in check(book.path, catalogue, date(2026, 1, 2))]
    assert texts == [
        "The test of 2027-01-01 lies in the future.",
        "The test of 2027-01-01 was received by the lab before it was drawn.",
    ]
