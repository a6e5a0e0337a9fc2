"""Taking entries back by keys, the menu and the message bar of a window with a book open."""

import json

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.local_time import LocalTime

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def press(frame, key, modifiers=CONTROL):
    frame.activateWindow()
    QApplication.processEvents()  # a window is active once the system has told so
    QTest.keyClick(frame, key, modifiers)


def button(owner, text):
    found = [b for b in owner.findChildren(QPushButton) if b.text() == text and b.isVisible()]
    assert found, f"no button {text!r} is visible"
    return found[0]


def click(owner, text):
    QTest.mouseClick(button(owner, text), Qt.MouseButton.LeftButton)


def count(frame):
    return len(frame.view.household.book.samples())


def enter_event(frame, text):
    """Type an event as a person does; the dialog stays open if it was not kept."""
    press(frame, Qt.Key.Key_E)
    dialog = frame.view.book_actions.dialog
    QTest.keyClick(dialog.kind, Qt.Key.Key_Down)
    QTest.keyClicks(dialog.text, text)
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    return dialog


def events(frame):
    return [event.text for event in frame.view.household.book.events()]


def menu_line(frame, key):
    menu = frame.menuBar().actions()[1].menu()
    menu.popup(frame.mapToGlobal(frame.rect().center()))
    text = frame.actions_by_key[key][1].text()
    menu.close()
    return text


def last_test(path):
    """The point, the day and the number of readings of the test that the journal names last."""
    with Book.open(path, readonly=True) as book:
        entry = [e for e in book.journal() if e.action == "add a sample"][-1]
        changes = json.loads(entry.changes)
        row = next(new for table, _, _, new in changes if table == "sample")
        point = next(p.name for p in book.points() if p.id == row["point"])
        return point, sum(1 for table, *_ in changes if table == "result")


def keep_a_test(frame, figure, name="Nitrate"):
    book = frame.view.household.book
    reading = read_reading(figure, unit="mg/L", basis="as N")
    book.add_sample(
        NewSample(
            point=book.points()[0].id,
            collected=LocalTime.parse("2026-11-20"),
            results=(NewResult(parameter="nitrate", name=name, reading=reading),),
        )
    )


def test_a_book_just_opened_loses_no_test_to_one_key_press(opened):
    before = count(opened)
    for _ in range(4):
        press(opened, Qt.Key.Key_Z)
    assert count(opened) == before
    assert "entered on" in opened.bar.text
    assert button(opened.bar, "Undo that")


def test_what_lies_further_back_is_named_before_it_is_taken_back(frame, household):
    path = household()
    point, readings = last_test(path)
    frame.open_book(path)
    before = count(frame)
    said = ""
    for _ in range(40):  # the last entries of the household may be no tests
        press(frame, Qt.Key.Key_Z)
        said = frame.bar.text
        click(frame.bar, "Undo that")
        if count(frame) < before:
            break
    assert f"{point} ({readings} readings)" in said
    assert "test of " in said
    assert f"{point} ({readings} readings)" in frame.bar.text
    assert frame.bar.text.startswith("Undone: test of ")
    click(frame.bar, "Redo")
    assert count(frame) == before


def test_the_message_on_one_reading_counts_one(opened):
    keep_a_test(opened, "7.1")
    press(opened, Qt.Key.Key_Z)
    assert opened.bar.text.endswith(" (1 reading).")


def test_what_was_entered_since_the_book_was_opened_is_taken_back_at_once(opened):
    enter_event(opened, "Lightning")
    assert "Lightning" in events(opened)
    press(opened, Qt.Key.Key_Z)
    assert "Lightning" not in events(opened)
    assert opened.bar.text.startswith("Undone: event added (")
    click(opened.bar, "Redo")
    assert "Lightning" in events(opened)
    assert opened.bar.text.startswith("Redone: event added (")


def test_the_menu_says_what_it_would_take_back_and_enter_again(opened):
    keep_a_test(opened, "7.1")
    line = menu_line(opened, "undo")
    assert line.startswith("&Undo: test of ")
    assert "2026" in line
    press(opened, Qt.Key.Key_Z)
    assert menu_line(opened, "redo") == line.replace("&Undo", "&Redo")
    assert menu_line(opened, "undo") != line


def test_a_new_entry_asks_before_it_ends_entering_again_of_several(opened):
    for figure in ("7.1", "7.2", "7.3"):
        keep_a_test(opened, figure)
    before = count(opened)
    for _ in range(3):
        press(opened, Qt.Key.Key_Z)
    dialog = enter_event(opened, "Lightning")
    assert dialog.isVisible()
    assert "You have undone 3 entries" in dialog.bar.text
    assert "Lightning" not in events(opened)
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    QTest.mouseClick(dialog.bar._then, Qt.MouseButton.LeftButton)
    for _ in range(3):
        press(opened, Qt.Key.Key_Z, CONTROL | SHIFT)
    assert count(opened) == before


def test_a_new_entry_is_kept_when_it_was_asked(opened):
    for figure in ("7.1", "7.2"):
        keep_a_test(opened, figure)
    for _ in range(2):
        press(opened, Qt.Key.Key_Z)
    dialog = enter_event(opened, "Lightning")
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible()
    assert "Lightning" in events(opened)


def test_a_new_entry_after_one_taking_back_asks_nothing(opened):
    keep_a_test(opened, "7.1")
    press(opened, Qt.Key.Key_Z)
    assert not enter_event(opened, "Lightning").isVisible()
    assert "Lightning" in events(opened)


def test_one_test_kept_from_a_file_is_said_in_the_singular(opened, tmp_path, answers, qtbot):
    file = tmp_path / "arsenic.csv"
    file.write_text("Sample date,Parameter,Result,Unit\n2026-11-20,Arsenic,0.9,µg/L\n")
    answers.paths = [file]
    press(opened, Qt.Key.Key_L)
    qtbot.waitUntil(lambda: opened.view.book_actions.dialog is not None)
    dialog = opened.view.book_actions.dialog
    [field] = dialog.places.fields.values()
    field.setFocus()
    QTest.keyClick(field, Qt.Key.Key_Down)
    QTest.mouseClick(dialog.keep_button, Qt.MouseButton.LeftButton)
    assert not dialog.isVisible(), dialog.bar.text
    assert opened.bar.text == "1 test is kept from arsenic.csv."
