"""A newer packet beside a book that is there: the same test is known, whatever its figures."""

import shutil

import household
import pytest
from packet_fixtures import TODAY

from wellbook.book import Book
from wellbook.packet import packet
from wellbook.packet.receive import merge, receive
from wellbook.packet.receive.same_test import Answer
from wellbook.support.errors import Fault


@pytest.fixture(scope="module")
def handed_over(tmp_path_factory, packets):
    """A folder with a source book and a book made from its packet."""
    folder = tmp_path_factory.mktemp("pair")
    household.furnished(folder / "source.wellbook").close()
    receive.receive(packets(), folder / "mine.wellbook")
    return folder


@pytest.fixture
def pair(tmp_path, catalogue, handed_over):
    """A source book, a book made from its packet, and what makes the next packet of it."""

    def hand_over(name, **choices):
        path = tmp_path / f"{name}.pdf"
        with Book.open(source, readonly=True) as book:
            packet.write(
                book.record(),
                catalogue,
                path,
                packet.PacketOptions("buyer", **choices),
                today=TODAY,
            )
        return path

    source, mine = tmp_path / "source.wellbook", tmp_path / "mine.wellbook"
    for book in (source, mine):
        shutil.copyfile(handed_over / book.name, book)
    return source, mine, hand_over


def nitrate_of(book):
    return [one for one in book.results(with_struck=True) if one.parameter == "nitrate"]


def corrected(source, text="9.9"):
    """Correct the first nitrate of the source; returns what it was."""
    with Book.open(source) as book:
        old = nitrate_of(book)[0]
        new = household.result("nitrate", old.name, text, old.reading.unit,
                               basis=old.reading.basis, fraction=old.reading.fraction,
                               draw=old.draw)  # fmt: skip
        book.correct_result(old.id, new, "misread")
    return old


def shape(path):
    with Book.open(path, readonly=True) as book:
        return (
            [(one.collected, one.lab_number, one.struck) for one in book.samples(with_struck=True)],
            [(one.sample, one.name, one.reading.text) for one in book.results(with_struck=True)],
        )


def test_a_corrected_test_is_asked_about_and_never_kept_twice(pair):
    source, mine, hand_over = pair
    old = corrected(source)
    second = hand_over("second")
    told = merge.preview(second, mine)
    assert told.tests == 0
    (difference,) = told.differences
    (change,) = difference.changes
    assert (change.here, change.there) == (
        f"{old.reading.text} mg/L {old.reading.basis}",
        f"9.9 mg/L {old.reading.basis}",
    )
    before = shape(mine)
    with pytest.raises(Fault, match="Nothing was changed"):
        merge.merge(second, mine)
    assert shape(mine) == before


@pytest.mark.parametrize(
    ("answer", "texts", "tests"),
    [(Answer.TAKE, ["9.9"], 0), (Answer.KEEP, [None], 0), (Answer.BOTH, [None, "9.9"], 1)],
)
def test_what_is_answered_is_done_as_one_entry_that_is_undone_as_one(pair, answer, texts, tests):
    source, mine, hand_over = pair
    old = corrected(source)
    before = shape(mine)
    merge.merge(hand_over("second"), mine, answers={1: answer})
    with Book.open(mine) as book:
        same_time = [one.reading.text for one in nitrate_of(book) if one.collected == old.collected]
        assert sorted(same_time) == sorted(text or old.reading.text for text in texts)
        assert len(book.samples(with_struck=True)) == len(before[0]) + tests
        if answer is not Answer.KEEP:
            assert book.journal()[-1].action == "take in a packet"
            book.undo()
    assert shape(mine) == before


def test_a_corrected_way_of_drawing_changes_readings_and_doubles_none(pair):
    source, mine, hand_over = pair
    for path in (source, mine):
        with Book.open(path) as book:
            number = book.samples()[0].id
            book.correct_sample(number, "not entered", lab_number="A-7")
    for draw in ("first draw", "flushed"):
        with Book.open(source) as book:
            book.correct_sample(book.samples()[0].id, "misread", draw=draw)
        readings = [one[1:] for one in shape(mine)[1]]
        packet_now = hand_over(draw)
        (difference,) = merge.preview(packet_now, mine).differences
        assert {one.there.rpartition(", ")[2] for one in difference.changes} == {draw}
        merge.merge(packet_now, mine, answers={1: Answer.TAKE})
        assert [one[1:] for one in shape(mine)[1]] == readings
        with Book.open(mine, readonly=True) as book:
            assert {one.draw for one in book.results(sample=difference.sample)} == {draw}
        assert merge.preview(packet_now, mine).nothing


def test_a_strike_and_its_taking_back_are_offered(pair):
    source, mine, hand_over = pair
    with Book.open(source) as book:
        number = book.samples()[0].id
        book.strike_sample(number, "Bottle was warm.")
    second = hand_over("second")
    (difference,) = merge.preview(second, mine).differences
    assert "Bottle was warm." in difference.changes[0].there
    merge.merge(second, mine, answers={1: Answer.TAKE})
    with Book.open(mine, readonly=True) as book:
        assert "Bottle was warm." in {one.struck for one in book.samples(with_struck=True)}
    with Book.open(source) as book:
        book.restore_sample(number)
    merge.merge(hand_over("third"), mine, answers={1: Answer.TAKE})
    with Book.open(mine, readonly=True) as book:
        assert "Bottle was warm." not in {one.struck for one in book.samples(with_struck=True)}


def test_another_unit_of_the_same_value_is_no_difference(pair):
    source, mine, hand_over = pair
    with Book.open(source) as book:
        old = next(one for one in nitrate_of(book) if one.reading.text == "11.4")
        new = household.result("nitrate", old.name, "11400", "µg/L", basis=old.reading.basis,
                               fraction=old.reading.fraction, draw=old.draw)  # fmt: skip
        book.correct_result(old.id, new, "as the lab printed it")
    assert merge.preview(hand_over("second"), mine).nothing


def test_a_corrected_number_of_the_lab_or_time_is_still_the_same_test(pair):
    source, mine, hand_over = pair
    with Book.open(source) as book:
        first, second = book.samples()[:2]
        book.correct_sample(first.id, "misread", lab_number="ZZ-1")
        later = household.sample(1, "2001-01-01T06:15").collected
        book.correct_sample(second.id, "misread", collected=later)
    told = merge.preview(hand_over("second"), mine)
    assert told.tests == 0 or all(one.changes for one in told.differences)
    assert len(told.differences) + told.tests <= 2
    assert len(told.differences) >= 1


def test_originals_complete_tests_that_are_known(pair):
    _source, mine, hand_over = pair
    full = hand_over("full", with_originals=True, all_originals=True)
    told = merge.preview(full, mine)
    assert told.documents == 1
    assert not told.differences
    assert merge.merge(full, mine) == told
    with Book.open(mine, readonly=True) as book:
        contents = [book.content(one.id) for one in book.documents()]
    assert household.REPORT in contents
    assert merge.preview(full, mine).nothing
