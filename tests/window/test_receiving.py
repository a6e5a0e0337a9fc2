"""A packet in the window: looked over, made into a book, taken into the book that is open."""

import json
import shutil
from datetime import date

import pytest
from forging import drawn_over, in_form, pages, renewed, with_files
from packet_fixtures import TODAY
from pypdf import PdfReader, PdfWriter
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QAccessible, QDropEvent
from PySide6.QtWidgets import QAbstractButton, QPushButton, QWidget

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.packet import packet
from wellbook.support import paths as places
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime

pytestmark = pytest.mark.timeout(180)
SAMPLE = "first-year"


@pytest.fixture(scope="session")
def written(reference, tmp_path_factory):
    """The packet of a household with one test more than its book had."""
    path = tmp_path_factory.mktemp("handed") / "history.wellbook"
    shutil.copyfile(places.sample_wells() / f"{SAMPLE}.wellbook", path)
    with Book.open(path) as book:
        reading = read_reading("4.4", unit="mg/L", basis="as N")
        result = NewResult(parameter="nitrate", name="Nitrate", reading=reading)
        moment = LocalTime(date(2026, 11, 2))
        book.add_sample(NewSample(book.points()[0].id, moment, "Larkspur", results=(result,)))
        made = path.with_suffix(".pdf")
        packet.write(
            book.record(), reference.catalogue, made, packet.PacketOptions("buyer"), today=TODAY
        )
    return made


def rewritten(path, target, name, changed):
    """A copy of a packet in which one attached file is another one, sealed anew."""
    (found,) = [one.content for one in PdfReader(path).attachment_list if one.name == name]
    return with_files(path, target, {name: changed(found)})


def slow(packet_file, path):
    """A packet whose first page draws more than anybody reads."""

    def change(objects, trailer):
        drawn_over(objects, pages(objects, trailer)[1][0], b"q 1 0 0 1 0 0 cm Q\n" * 4_000_000)

    path.write_bytes(renewed(in_form(packet_file.read_bytes(), change)))
    return path


def done(dialog, qtbot):
    qtbot.waitUntil(lambda: not dialog.job.running, timeout=60000)
    return dialog


def shown(frame, answers, qtbot, path, key="look_over_packet"):
    answers.path = path
    frame.do(key)
    return done(frame.reception.dialog, qtbot)


def readings(path):
    with Book.open(path, readonly=True) as book:
        return [(one.name, one.reading.text, one.collected.day) for one in book.results()]


def lines(dialog):
    return [dialog.checks.item(row).text() for row in range(dialog.checks.count())]


def drop(frame, *paths):
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    nothing, no_key = Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
    frame.dropEvent(QDropEvent(QPointF(9, 9), Qt.DropAction.CopyAction, data, nothing, no_key))


def test_the_first_page_leads_from_a_packet_to_a_book_of_one_s_own(
    frame, answers, qtbot, written, tmp_path
):
    answers.path = written
    buttons = frame.first_page.findChildren(QPushButton)
    next(one for one in buttons if one.text() == "New book from a packet…").click()
    dialog = frame.reception.dialog
    assert dialog.progress.isVisible()
    assert dialog.close_button.text() == "&Stop"
    done(dialog, qtbot)
    cover = PdfReader(written).pages[0].extract_text()
    assert dialog.code.text().removeprefix("Check code ") in cover
    assert "agrees with itself" in dialog.verdict.text
    assert "tests: 4." in dialog.content.text()
    assert {line.split(":")[0] for line in lines(dialog)} == {"Agrees with itself", "Can’t be told"}
    answers.path = tmp_path / "mine.wellbook"
    dialog.way.click()
    qtbot.waitUntil(lambda: frame.view is not None, timeout=60000)
    assert frame.view.household.path == answers.path
    assert "mine.wellbook was made from history.pdf" in frame.bar.text
    assert frame.bar._then.text() == "Who lives there now…"
    assert readings(answers.path) == readings(written.with_suffix(".wellbook"))
    assert "2 Nov 2026" in frame.view.at("tests").model.index(0, 0).data()
    assert frame.reception.dialog is None


def test_a_file_that_is_there_is_never_written_over(frame, answers, qtbot, written, tmp_path):
    dialog = shown(frame, answers, qtbot, written, "go_on_packet")
    answers.path = tmp_path / "mine.wellbook"
    answers.path.write_bytes(b"mine")
    dialog.way.click()
    assert "exists already: choose another name" in dialog.bar.text
    assert answers.path.read_bytes() == b"mine"
    answers.path = tmp_path / "nowhere" / "mine.wellbook"
    dialog.way.click()
    done(dialog, qtbot)
    assert "choose another folder" in dialog.bar.text
    answers.path = None
    dialog.way.click()
    assert not dialog.job.running
    dialog.reject()
    assert frame.view is None


def test_a_changed_packet_is_refused_and_offers_no_way_on(
    frame, household, answers, qtbot, written, tmp_path
):
    path = rewritten(written, tmp_path / "p.pdf", "wells.csv", lambda _: b"x")
    for key in ("go_on_packet", "look_over_packet", "take_in_packet"):
        if key == "take_in_packet":
            frame.open_book(household())
        dialog = shown(frame, answers, qtbot, path, key)
        assert "Don’t rely on it" in dialog.verdict.text
        assert lines(dialog)[0] == "Fails: wells.csv was changed after the packet was made."
        assert not dialog.way.isVisible()
        assert not dialog.code.isVisible(), "a code would lend it weight"
        dialog.reject()


def test_the_code_that_was_told_is_compared(frame, answers, qtbot, written):
    dialog = shown(frame, answers, qtbot, written, "look_over_packet")
    code = dialog.code.text().removeprefix("Check code ")
    for told, said in (
        ("1234-5678-9ABC-DEFG", "does not stand a check"),
        (code.lower().replace("-", " "), "byte for byte, the file whose code you were told"),
        ("", "agrees with itself"),
    ):
        dialog.code_told.setText(told)
        qtbot.mouseClick(dialog.compare_button, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(lambda: not dialog.job.running, timeout=60000)
        assert said in dialog.verdict.text
    dialog.reject()


def newer(content):
    return json.dumps({**json.loads(content), "form": 99}).encode()


def test_what_can_t_be_read_is_one_sentence(frame, answers, qtbot, written, tmp_path):
    other = PdfWriter()
    other.add_blank_page(100, 100)
    other.write(tmp_path / "other.pdf")
    (tmp_path / "torn.pdf").write_bytes(written.read_bytes()[:90_000])
    (tmp_path / "text.pdf").write_text("hello")
    rewritten(written, tmp_path / "newer.pdf", "record.json", newer)
    for name, said in {
        "other.pdf": "is not, byte for byte, a packet of Wellbook",
        "torn.pdf": "torn.pdf",
        "text.pdf": "is not a PDF",
        "newer.pdf": "written by a newer Wellbook",
        "gone.pdf": "does not exist",
    }.items():
        dialog = shown(frame, answers, qtbot, tmp_path / name, "go_on_packet")
        assert said in dialog.bar.text, name
        assert not dialog.page.isVisible()
        assert not dialog.way.isVisible()
        dialog.reject()
        assert frame.reception.dialog is None


def test_only_what_is_new_is_added_and_twice_adds_nothing(
    frame, household, answers, qtbot, written
):
    path = household(SAMPLE)
    frame.open_book(path)
    tests = len(frame.view.household.book.samples())
    assert frame.view.at("tests").model.rowCount() == tests
    dialog = shown(frame, answers, qtbot, written, "take_in_packet")
    assert "New for this book: tests: 1" in dialog.new.text()
    assert f"Tests that it has already: {tests}." in dialog.new.text()
    dialog.way.click()
    qtbot.waitUntil(lambda: "Added from history.pdf: tests: 1" in frame.bar.text, timeout=60000)
    assert frame.view.at("tests").model.rowCount() == tests + 1
    assert "2 Nov 2026" in frame.view.at("tests").model.index(0, 0).data()
    assert sorted(readings(path)) == sorted(readings(written.with_suffix(".wellbook")))
    dialog = shown(frame, answers, qtbot, written, "take_in_packet")
    assert "Nothing in it is new" in dialog.new.text()
    assert not dialog.way.isVisible()
    dialog.reject()
    assert len(frame.view.household.book.samples()) == tests + 1


def test_what_was_added_is_taken_back_like_any_entry(frame, household, answers, qtbot, written):
    frame.open_book(household(SAMPLE))
    tests = len(frame.view.household.book.samples())
    shown(frame, answers, qtbot, written, "take_in_packet").way.click()
    qtbot.waitUntil(lambda: frame.bar.text.startswith("Added"), timeout=60000)
    frame.do("undo")
    assert frame.bar.text.startswith("Undone: packet taken in")
    assert len(frame.view.household.book.samples()) == tests


def test_a_book_that_is_being_written_gets_nothing_half(frame, household, answers, qtbot, written):
    path = household(SAMPLE)
    frame.open_book(path)
    before = readings(path)
    dialog = shown(frame, answers, qtbot, written, "take_in_packet")
    with Book.open(path) as other, other.together():
        dialog.way.click()
        done(dialog, qtbot)
    assert "being written by another window" in dialog.bar.text
    assert readings(path) == before
    dialog.way.click()
    qtbot.waitUntil(lambda: frame.bar.text.startswith("Added"), timeout=60000)
    assert len(readings(path)) == len(before) + 1


def test_a_book_that_can_only_be_read_takes_nothing_in(frame, household, qtbot, written):
    path = household()
    path.chmod(0o444)
    mark = path.with_name(f".{path.name}.open")
    mark.write_text("1\nwellbook\nattic\n")
    frame.open_book(path)
    action = frame.actions_by_key["take_in_packet"][1]
    assert not action.isEnabled()
    assert "attic" in action.toolTip()
    assert frame.actions_by_key["look_over_packet"][1].isEnabled()
    drop(frame, written)
    qtbot.waitUntil(lambda: frame.reception.dialog is not None, timeout=5000)
    dialog = done(frame.reception.dialog, qtbot)
    assert dialog.page.isVisible()
    assert not dialog.way.isVisible()
    assert not dialog.new.isVisible()
    dialog.reject()


def test_a_packet_dropped_on_the_window_is_looked_over(frame, household, qtbot, written, tmp_path):
    drop(frame, written)
    qtbot.waitUntil(lambda: frame.reception.dialog is not None, timeout=5000)
    dialog = done(frame.reception.dialog, qtbot)
    assert dialog.way.text() == "&Make a book from it…"
    dialog.reject()
    frame.open_book(household(SAMPLE))
    drop(frame, written)
    qtbot.waitUntil(lambda: frame.reception.dialog is not None, timeout=5000)
    dialog = done(frame.reception.dialog, qtbot)
    assert dialog.way.text() == "&Add what is new"
    dialog.reject()
    other = PdfWriter()
    other.add_blank_page(100, 100)
    other.write(tmp_path / "other.pdf")
    drop(frame, tmp_path / "other.pdf")
    qtbot.waitUntil(lambda: "No table can be read from" in frame.bar.text, timeout=20000)
    assert frame.reception.dialog is None


def test_reading_is_stopped_and_the_dialog_closes(frame, answers, qtbot, written, tmp_path):
    answers.path = slow(written, tmp_path / "slow.pdf")
    frame.do("look_over_packet")
    dialog = frame.reception.dialog
    qtbot.waitUntil(lambda: dialog.job.running, timeout=60000)
    qtbot.keyClick(dialog, Qt.Key.Key_Escape)
    assert dialog.told.text() == "Stopping …"
    # Left to itself it would be read for minutes.
    qtbot.waitUntil(lambda: frame.reception.dialog is None, timeout=60000)
    assert frame.bar.text == ""


def test_the_window_closes_while_a_packet_is_read(frame, answers, qtbot, written, tmp_path):
    answers.path = slow(written, tmp_path / "slow.pdf")
    frame.do("go_on_packet")
    qtbot.waitUntil(lambda: frame.reception.dialog.job.running, timeout=60000)
    frame.close()
    assert frame.reception.dialog is None


def test_making_a_book_is_stopped_and_leaves_none(frame, answers, qtbot, written, tmp_path):
    dialog = shown(frame, answers, qtbot, written, "go_on_packet")
    answers.path = tmp_path / "mine.wellbook"
    dialog.way.click()
    dialog.reject()
    done(dialog, qtbot)
    assert dialog.isVisible()
    assert dialog.bar.text == "Stopped: nothing was changed."
    assert list(tmp_path.glob("*mine*")) == []
    dialog.reject()
    assert frame.view is None


def test_the_dialog_fits_a_small_screen_and_has_a_letter_for_each_button(
    frame, answers, qtbot, written
):
    dialog = shown(frame, answers, qtbot, written, "go_on_packet")
    room = dialog.screen().availableGeometry()
    assert room.contains(dialog.geometry())
    buttons = [one for one in dialog.findChildren(QAbstractButton) if one.isVisible()]
    letters = [one.text()[one.text().index("&") + 1].casefold() for one in buttons]
    assert sorted(letters) == ["c", "m", "s"]  # compare, make a book, show
    unnamed = [
        one
        for one in dialog.findChildren(QWidget)
        if one.isVisible()
        and one.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not QAccessible.queryAccessibleInterface(one).text(QAccessible.Text.Name)
    ]
    assert unnamed == []
    dialog.reject()


def test_a_test_of_which_the_packet_says_other_things_is_asked_about(
    frame, answers, qtbot, written, tmp_path
):
    mine = tmp_path / "mine.wellbook"
    shutil.copy(written.with_suffix(".wellbook"), mine)
    with Book.open(mine) as book:
        result = book.results()[-1]
        reading = read_reading("77", unit=result.reading.unit, basis=result.reading.basis)
        new = NewResult(result.parameter, result.name, reading, draw=result.draw)
        book.correct_result(result.id, new, "typed wrongly")
    frame.open_book(mine)
    dialog = shown(frame, answers, qtbot, written, "take_in_packet")
    (choice,) = dialog.choices.values()
    assert dialog.way.isVisible()
    assert not dialog.way.isEnabled(), "nothing is done without an answer"
    choice.setCurrentIndex(choice.findText("Take what the packet says"))
    qtbot.mouseClick(dialog.way, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: frame.reception.dialog is None, timeout=60000)
    with Book.open(mine, readonly=True) as book:
        assert book.results()[-1].reading.text == result.reading.text
        assert book.journal()[-1].action == "take in a packet"
