"""Every choice of a packet in the window, and what comes of it in the file."""

import re
from datetime import date

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLabel, QLineEdit
from reading import pages_of, text_of

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.sharing.excerpt import Scope
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime
from wellbook.window.packet.packet_dialog import PacketDialog

COUNTED_MS, WRITTEN_MS = 20_000, 90_000


def counted(dialog, qtbot):
    qtbot.waitUntil(lambda: dialog.counting.seen is not None, timeout=COUNTED_MS)


@pytest.fixture
def dialog(opened, qtbot):
    opened.do("export_packet")
    made = opened.view.book_actions.dialog
    counted(made, qtbot)
    yield made
    qtbot.waitUntil(lambda: not made.job.running, timeout=WRITTEN_MS)
    made.reject()


@pytest.fixture
def two_wells(tmp_path):
    """A book of two wells, each with a point of the same name and two tests of one reading."""
    path = tmp_path / "two.wellbook"
    with Book.create(path) as book:
        for name in ("Old", "New"):
            point = book.add_point(book.add_well(name), "Tank")
            for day in (date(2020, 3, 1), date(2024, 3, 1)):
                reading = read_reading("1.2", unit="mg/L", basis="as N")
                result = NewResult(parameter="nitrate", name="Nitrate", reading=reading)
                book.add_sample(NewSample(point=point, collected=LocalTime(day), results=(result,)))
    return path


def tick(ticks, *names):
    for name in names:
        [item] = ticks.items.findItems(name, Qt.MatchFlag.MatchExactly)
        item.setCheckState(Qt.CheckState.Checked)


def choose(combo, key):
    combo.setCurrentIndex(combo.findData(key))


def write(dialog, answers, path, qtbot):
    answers.path = path
    dialog.write_button.click()
    qtbot.waitUntil(lambda: not dialog.job.running, timeout=WRITTEN_MS)
    qtbot.waitUntil(lambda: bool(dialog.bar.text), timeout=5000)
    return dialog.bar.text


def squeezed(text):
    return re.sub(r"\s+", " ", text)


def has_reports(path):
    """Whether lab reports are attached, under whatever names they have there."""
    names = [one.name for one in PdfReader(path).attachment_list]
    return any("mossback" in name for name in names)


def test_at_first_the_whole_history_goes_in_and_nothing_personal(dialog):
    chosen = dialog.choices()
    assert chosen.audience == "buyer"
    assert chosen.scope == Scope()
    assert (chosen.language, chosen.units, chosen.closing) == ("en", "household", None)
    assert (chosen.with_personal, chosen.with_originals, chosen.append_originals) == (
        False,
        False,
        False,
    )
    assert "The whole history goes in: tests 31" in dialog.told.text()
    assert dialog.scope.isHidden()
    assert not dialog.scope.everything.isEnabled()


@pytest.mark.timeout(240)
def test_page_one_says_what_was_left_out_as_the_dialog_did(dialog, answers, qtbot, tmp_path):
    dialog.reader.audience.button(1).click()
    choose(dialog.reader.paper, "a4")
    choose(dialog.reader.units, "european")
    dialog.reader.closing.setText("2027-01-31")
    dialog.fold.click()
    tick(dialog.scope.parameters, "Nitrate", "Hardness")
    dialog.scope.since.setText("2015")
    dialog.scope.until.setText("2024-06")
    counted(dialog, qtbot)
    said = re.search(r"leaves out (\d+) of (\d+) tests and (\d+) of (\d+)", dialog.told.text())
    assert int(said[2]) == 31
    assert 0 < int(said[1]) < 31
    path = tmp_path / "part.pdf"
    assert str(path) in write(dialog, answers, path, qtbot)
    reader = PdfReader(path)
    cover = squeezed(text_of(path, last=1))
    assert f"leaves out {said[1]} of {said[2]} tests and {said[3]} of {said[4]} readings" in cover
    assert "no test drawn before 1 Jan 2015" in cover
    assert "no test drawn after 30 Jun 2024" in cover
    assert [round(float(side)) for side in reader.pages[0].mediabox[2:]] == [595, 842]  # ISO 216
    text = squeezed(text_of(path))
    assert "Ages on 31 Jan 2027, the closing day" in text
    assert "mmol/L" in text
    assert "for a consultant" in cover
    assert not has_reports(path)


@pytest.mark.timeout(240)
def test_language_and_attached_reports_reach_the_file(dialog, answers, qtbot, tmp_path):
    choose(dialog.reader.language, "es")
    dialog.private.attach.click()
    path = tmp_path / "es.pdf"
    assert str(path) in write(dialog, answers, path, qtbot)
    assert PdfReader(path).root_object["/Lang"] == "es"
    assert has_reports(path)


@pytest.mark.timeout(240)
def test_pages_of_reports_come_at_the_end_when_ticked(dialog, answers, qtbot, tmp_path):
    dialog.private.append.click()
    assert dialog.choices().append_originals
    path = tmp_path / "end.pdf"
    write(dialog, answers, path, qtbot)
    assert "Original" in pages_of(path)[-1]
    assert not has_reports(path)


def test_reports_that_show_names_go_along_only_where_that_is_ticked(dialog):
    private = dialog.private
    assert not private.everything.isEnabled()  # nothing goes along yet
    private.attach.click()
    assert private.everything.isEnabled()
    assert "stay behind" in private.note.text()
    assert not dialog.choices().all_originals
    private.everything.click()
    assert dialog.choices().all_originals
    assert "names and addresses" in private.note.text()
    private.attach.click()
    assert not dialog.choices().all_originals
    private.append.click()
    private.personal.click()
    assert not private.everything.isEnabled()  # they go along anyway


def test_attaching_follows_the_personal_facts_in_sight_until_a_person_sets_it(dialog):
    private = dialog.private
    private.personal.click()
    assert private.attach.isChecked()
    assert "ticked along with the personal facts" in private.note.text()
    private.personal.click()
    assert not private.attach.isChecked()
    private.attach.click()
    private.attach.click()
    private.personal.click()
    assert not private.attach.isChecked()
    chosen = dialog.choices()
    assert (chosen.with_personal, chosen.with_originals) == (True, False)


def test_a_book_without_documents_offers_none(frame, two_wells, qtbot):
    frame.open_book(two_wells)
    frame.do("export_packet")
    dialog = frame.view.book_actions.dialog
    counted(dialog, qtbot)
    dialog.private.personal.click()
    assert not dialog.private.attach.isEnabled()
    assert not dialog.choices().with_originals
    assert "holds no lab reports" in dialog.private.note.text()
    dialog.reject()


def test_wells_and_points_are_asked_for_only_where_there_are_several(frame, two_wells, qtbot):
    frame.open_book(two_wells)
    frame.do("export_packet")
    dialog = frame.view.book_actions.dialog
    counted(dialog, qtbot)
    dialog.fold.click()
    assert dialog.scope.wells.isVisibleTo(dialog)
    assert not dialog.scope.points.isVisibleTo(dialog)
    tick(dialog.scope.wells, "Old")
    counted(dialog, qtbot)
    assert dialog.choices().scope == Scope(wells=("Old",))
    assert "leaves out 2 of 4 tests and 2 of 4 readings" in dialog.told.text()
    tick(dialog.scope.wells, "New")
    assert dialog.choices().scope == Scope(), "all of them ticked is the whole"
    dialog.reject()


def test_a_point_can_be_chosen_and_everything_put_in_again(dialog, qtbot):
    dialog.fold.click()
    tick(dialog.scope.points, "Kitchen tap")
    tick(dialog.scope.parameters, "Lead")
    dialog.scope.since.setText("2020-02-01")
    tick(dialog.scope.sets, "Maine")
    chosen = dialog.choices().scope
    assert chosen.points == ("Kitchen tap",)
    assert chosen.parameters == ("lead",)
    assert chosen.since == date(2020, 2, 1)
    assert "us-me" in chosen.sets
    dialog.scope.everything.click()
    counted(dialog, qtbot)
    assert dialog.choices().scope == Scope()
    assert "whole history" in dialog.told.text()


def test_parameters_are_found_by_any_name_of_theirs_and_stay_ticked_when_not_shown(dialog):
    ticks = dialog.scope.parameters
    tick(ticks, "Nitrate")
    ticks.search.setText("pb")
    rows = range(ticks.items.count())
    shown = [ticks.items.item(row).text() for row in rows if not ticks.items.item(row).isHidden()]
    assert "Lead" in shown
    assert "Nitrate" not in shown
    assert ticks.items.currentItem().text() == shown[0], "the space bar ticks what is seen"
    assert ticks.ticked() == ("nitrate",)
    assert ticks.told.text() == f"1 of {ticks.items.count()} ticked"


def test_name_box_and_space_bar_tick_alike(dialog, qtbot):
    dialog.fold.click()
    items = dialog.scope.points.items
    QApplication.processEvents()
    place = items.visualItemRect(items.item(0))
    name, box = place.center(), QPoint(place.left() + place.height() // 2, place.center().y())
    for where, ticked in ((name, 1), (name, 0), (box, 1), (box, 0)):
        qtbot.mouseClick(items.viewport(), Qt.MouseButton.LeftButton, pos=where)
        assert len(dialog.scope.points.ticked()) == ticked
    items.setFocus()
    items.setCurrentRow(1)
    qtbot.keyClick(items, Qt.Key.Key_Space)
    assert dialog.scope.points.ticked() == ("Kitchen tap",)


@pytest.mark.parametrize(
    ("since", "until", "closing", "said"),
    [
        ("2021", "2019-05", "", "ends on 31 May 2019, before it begins on 1 Jan 2021"),
        ("2021-13", "", "", "“2021-13” is no day"),
        ("", "", "soon", "“soon” is no day: write it like"),
        ("2100", "", "", "None of the 31 tests is in what you chose"),
    ],
)
def test_what_can_t_be_is_said_once_and_nothing_is_written(
    dialog, answers, tmp_path, qtbot, since, until, closing, said
):
    answers.path = tmp_path / "no.pdf"
    dialog.scope.since.setText(since)
    dialog.scope.until.setText(until)
    dialog.reader.closing.setText(closing)
    dialog.write_button.click()
    qtbot.waitUntil(lambda: not dialog.job.running, timeout=COUNTED_MS)
    qtbot.waitUntil(lambda: said in squeezed(dialog.bar.text), timeout=5000)
    assert list(tmp_path.glob("*.p*")) == []
    dialog.scope.since.setText("2015")
    dialog.scope.until.setText("")
    dialog.reader.closing.setText("2027-01-31")
    assert dialog.bar.text == "", "what was mended is not said any longer"


def test_no_limit_set_is_refused_in_words(dialog, answers, tmp_path):
    answers.path = tmp_path / "no.pdf"
    dialog.scope.sets.tick(())
    dialog.write_button.click()
    assert "at least one limit set" in dialog.bar.text


def test_a_part_that_turns_out_empty_is_refused_before_it_was_counted(
    dialog, answers, tmp_path, qtbot
):
    dialog.scope.since.setText("2100")
    assert dialog.counting.seen is None
    said = write(dialog, answers, tmp_path / "no.pdf", qtbot)
    assert "None of the 31 tests" in said
    assert not answers.path.exists()


@pytest.mark.timeout(180)
def test_a_place_that_can_t_be_written_is_named_as_it_was_chosen(dialog, answers, tmp_path, qtbot):
    (tmp_path / "folder.pdf").mkdir()
    said = write(dialog, answers, tmp_path / "folder.pdf", qtbot)
    assert f"{tmp_path / 'folder.pdf'} is a folder: nothing is written over it" in said
    said = write(dialog, answers, tmp_path / "nowhere" / "p.pdf", qtbot)
    assert ".part" not in said
    assert list(tmp_path.glob("*.part")) == []


@pytest.mark.timeout(180)
def test_reader_paper_language_and_units_are_remembered_and_nothing_about_people(
    opened, dialog, answers, preferences, tmp_path, qtbot
):
    dialog.reader.audience.button(1).click()
    choose(dialog.reader.paper, "letter")
    choose(dialog.reader.language, "es")
    choose(dialog.reader.units, "household")
    dialog.private.personal.click()
    dialog.private.append.click()
    write(dialog, answers, tmp_path / "p.pdf", qtbot)
    again = PacketDialog(opened.view.household, answers, preferences, opened)
    chosen = again.choices()
    assert (chosen.audience, chosen.paper) == ("consultant", "letter")
    assert (chosen.language, chosen.units) == ("es", "household")
    private = (chosen.with_personal, chosen.with_originals, chosen.append_originals)
    assert private == (False, False, False)
    again.reject()


def test_what_is_remembered_and_no_longer_known_is_passed_over(opened, answers, preferences):
    preferences.packet = type(preferences.packet)("heir", "foolscap", "xx", "cubits")
    made = PacketDialog(opened.view.household, answers, preferences, opened)
    chosen = made.choices()
    assert (chosen.audience, chosen.language, chosen.units) == ("buyer", "en", "household")
    assert chosen.paper in {"letter", "a4"}
    made.reject()


def test_underlined_letters_are_each_used_once(dialog):
    dialog.fold.click()
    dialog.scope.wells.setVisible(True)
    parts = [*dialog.findChildren(QAbstractButton), *dialog.findChildren(QLabel)]
    texts = [one.text() for one in parts if one.isVisibleTo(dialog)]
    letters = [text[text.index("&") + 1].casefold() for text in texts if "&" in text]
    assert len(letters) == len(set(letters)), sorted(letters)
    assert len(letters) >= 15


def test_tab_goes_from_top_to_bottom(dialog, qtbot):
    dialog.fold.click()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow, timeout=5000)
    scope, private, reader = dialog.scope, dialog.private, dialog.reader
    wanted = [
        reader.audience.button(0), reader.paper, reader.language, reader.units, reader.closing,
        private.personal, private.attach, private.append, dialog.fold, scope.since, scope.until,
        scope.parameters.search, scope.parameters.items, scope.points.items, scope.sets.items,
        dialog.write_button, dialog.pages_button, dialog.print_button, dialog.close_button,
    ]  # fmt: skip
    wanted[0].setFocus()
    met = []
    for _ in wanted:
        at = QApplication.focusWidget()
        met.append(at)
        qtbot.keyClick(at, Qt.Key.Key_Tab)
    assert met == wanted


def test_nothing_is_cut_off_and_the_screen_is_kept_to(dialog):
    for _ in range(2):
        QApplication.processEvents()
        room = dialog.screen().availableGeometry()
        assert dialog.width() <= room.width()
        assert dialog.height() <= room.height()
        assert dialog.area.horizontalScrollBar().maximum() == 0
        for kind in (QAbstractButton, QComboBox, QLineEdit, QLabel):
            for one in dialog.findChildren(kind):
                if one.isVisibleTo(dialog):
                    assert one.width() >= one.minimumSizeHint().width(), one
        dialog.fold.click()


def test_private_words_are_shown_in_their_places_before_anything_is_written(
    frame, answers, qtbot, tmp_path
):
    path = tmp_path / "o.wellbook"
    with Book.create(path) as book:
        well = book.add_well("Home", address="17 Quillwort Lane", note="Gate at Quillwort Ln.")
        point = book.add_point(well, "Tank")
        result = NewResult("nitrate", "Nitrate", read_reading("1.2", unit="mg/L", basis="as N"))
        book.add_sample(NewSample(point, LocalTime(date(2024, 3, 1)), results=(result,)))
    frame.open_book(path)
    frame.do("export_packet")
    dialog = frame.view.book_actions.dialog
    counted(dialog, qtbot)
    (item,) = [dialog.private.covered.tree.topLevelItem(0)]
    assert item.text(0) == "Quillwort"
    assert "Gate at Quillwort Ln." in item.child(0).text(0)
    for name, state in (("a.pdf", Qt.CheckState.Unchecked), ("b.pdf", Qt.CheckState.Checked)):
        item.setCheckState(0, state)
        write(dialog, answers, tmp_path / name, qtbot)
        said = text_of(tmp_path / name)
        assert ("Quillwort" in said) is (state is Qt.CheckState.Checked)
    dialog.reject()
