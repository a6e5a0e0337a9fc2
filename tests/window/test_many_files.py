"""A folder of files dropped on the window: a line for each, each kept on its own."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QInputDialog, QPushButton
from reportlab.lib.pdfencrypt import StandardEncryption
from reportlab.pdfgen.canvas import Canvas
from test_several_files import LEFT, dialog, drop

from wellbook.window.dialogs.draft.amended_dialog import AmendedDialog
from wellbook.window.dialogs.draft.by_hand_dialog import ByHandDialog
from wellbook.window.dialogs.draft.draft_dialog import DraftDialog
from wellbook.window.dialogs.draft.many_files import ManyFilesDialog, said_of

HEAD = "Location,Sample date,Parameter,Result,Unit\n"


@pytest.fixture
def shoebox(opened, tmp_path):
    folder = tmp_path / "shoebox"
    (folder / "old").mkdir(parents=True)
    point = opened.view.household.book.points()[0].name
    for day in ("01", "02", "03"):
        (folder / f"2026-10-{day}.csv").write_text(
            f"{HEAD}{point},2026-10-{day},Zinc,0.{day},mg/L\n"
        )
    worst = folder / "2026-10-03.csv"
    worst.write_text(f"{worst.read_text()}{point},2026-10-03,Lead,90,ug/L\n")  # far over 15
    (folder / "again.csv").write_text(f"{HEAD}{point},2026-10-01,Zinc,10,ug/L\n")
    (folder / "old" / "doubt.csv").write_text(f"{HEAD}{point},2026-10-09,Mangenese,3,ug/L\n")
    (folder / "letter.txt").write_text("Dear neighbour,\nthe water is fine.\n")
    page = Canvas(str(folder / "photo.pdf"))
    page.drawString(72, 720, "The water is as it was last year.")
    page.save()
    (folder / ".hidden").write_text("nothing")
    return folder


def listed(opened, qtbot, *paths):
    drop(opened, *paths)
    shown = dialog(opened, qtbot, ManyFilesDialog)
    qtbot.waitUntil(lambda: not shown.is_reading, timeout=90000)
    return shown


def said(shown):
    return {line.source.name: said_of(line) for line in shown.lines}


def pick(shown, name):
    names = [line.source.name for line in shown.model.rows]
    index = shown.model.index(names.index(name), 0)
    QTest.mouseClick(shown.table.viewport(), LEFT, pos=shown.table.visualRect(index).center())


def over(shown, kind):
    found = [d for d in shown.findChildren(QDialog) if isinstance(d, kind) and d.isVisible()]
    return found[0] if found else None


def test_a_folder_is_a_list_and_what_is_ready_is_kept_at_once(opened, shoebox, qtbot):
    book = opened.view.household.book
    before = len(book.samples())
    shown = listed(opened, qtbot, shoebox)
    told = said(shown)
    assert len(told) == 7
    assert [told[f"2026-10-0{n}.csv"] for n in (1, 2, 3)] == ["ready"] * 3
    assert told["doubt.csv"] == "1 thing to decide"
    assert "letter.txt" in told["letter.txt"]
    assert len(book.samples()) == before, "nothing is kept unasked"
    QTest.mouseClick(shown.keep_button, LEFT)
    qtbot.waitUntil(lambda: "3 files are kept" in opened.bar.text, timeout=20000)
    assert len(book.samples()) == before + 3
    told = said(shown)
    assert told["again.csv"] == "in the book already", "the same figure in another unit"
    assert told["2026-10-01.csv"] == "kept"
    assert told["2026-10-03.csv"] == "kept, 1 result outside a limit"
    assert "2026-10-03.csv (1 result outside a limit)" in opened.bar.text
    assert "3 kept" in shown.state.text()
    assert "3 files are kept" in opened.bar.text
    shown.reject()


def test_a_doubtful_file_is_looked_over_from_the_list(opened, shoebox, qtbot):
    shown = listed(opened, qtbot, shoebox)
    pick(shown, "doubt.csv")
    QTest.mouseClick(shown.look_button, LEFT)
    review = over(shown, DraftDialog)
    QTest.keyClick(review.readings, Qt.Key.Key_F8)
    QTest.keyClick(review.readings, Qt.Key.Key_Space)
    QTest.mouseClick(review.keep_button, LEFT)
    assert not review.isVisible(), review.bar.text
    assert "1 test is kept" in said(shown)["doubt.csv"]
    shown.reject()


def test_a_report_without_a_table_is_typed_in_from_the_list(opened, shoebox, qtbot):
    shown = listed(opened, qtbot, shoebox)
    pick(shown, "letter.txt")
    assert not shown.type_button.isEnabled()
    assert shown.whole.text() == said(shown)["letter.txt"], "the whole sentence, below the list"
    pick(shown, "photo.pdf")
    QTest.mouseClick(shown.type_button, LEFT)
    typing = over(shown, ByHandDialog)
    assert [path.name for path in typing.documents] == ["photo.pdf"]
    typing.discard()
    shown.reject()


def test_a_locked_file_of_the_list_opens_with_its_password(opened, shoebox, qtbot):
    lock = StandardEncryption("willow", canPrint=1)
    page = Canvas(str(shoebox / "locked.pdf"), encrypt=lock)
    page.drawString(60, 780, "Date collected: 2026-10-20")
    for i, row in enumerate([("Parameter", "Result", "Units"), ("Zinc", "0.2", "mg/L"),
                             ("Iron", "0.1", "mg/L")]):  # fmt: skip
        for x, text in zip((60, 200, 300), row, strict=True):
            page.drawString(x, 740 - 18 * i, text)
    page.save()
    shown = listed(opened, qtbot, shoebox)
    pick(shown, "locked.pdf")
    QTest.mouseClick(shown.look_button, LEFT)
    asked = over(shown, QInputDialog)
    asked.setTextValue("willow")
    asked.accept()
    qtbot.waitUntil(lambda: not shown.is_reading, timeout=90000)
    assert "names no sampling point" in said(shown)["locked.pdf"]
    shown.reject()


def test_reading_can_be_stopped_and_gone_on_with_and_what_was_not_read_is_said(
    opened, shoebox, qtbot
):
    drop(opened, shoebox)
    shown = dialog(opened, qtbot, ManyFilesDialog)
    assert "0 need you, 0 kept. 7 are not read yet." in shown.state.text()
    QTest.mouseClick(shown.stop_button, LEFT)
    assert not shown.is_reading
    n = list(said(shown).values()).count("Not read.")
    assert f"{n} are not read yet" in shown.state.text()
    assert shown.stop_button.text() == "&Read on"
    QTest.mouseClick(shown.stop_button, LEFT)
    qtbot.waitUntil(lambda: not shown.is_reading, timeout=90000)
    assert "Not read." not in said(shown).values()
    assert "not read" not in shown.state.text()
    assert not shown.stop_button.isVisible()
    shown.reject()


def test_of_many_kept_files_those_outside_a_limit_are_named_first_and_the_others_counted(
    opened, tmp_path, qtbot
):
    folder, point = tmp_path / "year", opened.view.household.book.points()[0].name
    folder.mkdir()
    for day in range(1, 13):
        # 40 CFR 141.80: the action level of lead is 15 µg/L.
        lead = 90 if day in {3, 5, 7, 9, 11} else 1
        row = f"{point},2026-10-{day:02},Lead,{lead},ug/L\n"
        (folder / f"{day:02}.csv").write_text(HEAD + row)
    (folder / "doubt.csv").write_text(f"{HEAD}{point},2026-10-20,Mangenese,3,ug/L\n")
    shown = listed(opened, qtbot, folder)
    QTest.mouseClick(shown.keep_button, LEFT)
    qtbot.waitUntil(lambda: "12 files are kept" in opened.bar.text, timeout=20000)
    outside = ", ".join(f"{n}.csv (1 result outside a limit)" for n in ("03", "05", "07", "09"))
    assert opened.bar.text == (
        f"12 files are kept: {outside} and 8 more. Together: 5 results outside a limit."
    )
    QTest.keyClick(shown, Qt.Key.Key_Escape)
    QApplication.processEvents()
    assert opened.bar.text.startswith("1 file is not kept: doubt.csv. 12 files are kept")


def test_an_empty_folder_is_said_and_opens_no_list(opened, tmp_path, qtbot):
    (tmp_path / "nothing").mkdir()
    drop(opened, tmp_path / "nothing")
    qtbot.waitUntil(lambda: "holds 0 files" in opened.bar.text, timeout=20000)
    assert opened.view.book_actions.dialog is None


def test_a_later_report_offers_what_is_new_of_it(opened, tmp_path, qtbot):
    book = opened.view.household.book
    point = book.points()[0].name
    first = f"{HEAD}{point},2026-10-01,Zinc,0.2,mg/L\n"
    for name, text in (
        ("first.csv", first),
        ("final.csv", f"{first}{point},2026-10-01,Tin,3,µg/L\n"),
    ):
        path = tmp_path / name
        path.write_text(text)
        drop(opened, path)
        shown = dialog(opened, qtbot, DraftDialog)
        if shown.leave.isVisible():
            shown.leave.setChecked(True)
        QTest.mouseClick(shown.keep_button, LEFT)
    assert shown.isVisible()
    assert "1 Oct 2026" in shown.bar.text
    (add,) = [b for b in shown.bar.findChildren(QPushButton) if "Add the 1 new reading" in b.text()]
    tests = len(book.samples())
    QTest.mouseClick(add, LEFT)
    QApplication.processEvents()
    assert not shown.isVisible()
    assert len(book.samples()) == tests
    new = [r for r in book.results() if r.collected.day.isoformat() == "2026-10-01"]
    assert len(new) == 2


def test_keeping_can_be_stopped_between_two_files_and_what_was_kept_is_said(opened, shoebox, qtbot):
    book = opened.view.household.book
    before = len(book.samples())
    shown = listed(opened, qtbot, shoebox)
    told = []
    shown.kept.connect(told.append)
    # Pressed as soon as the first file is kept: the window is alive between two files.
    shown.progress.valueChanged.connect(lambda done: stop(shown) if done == 1 else None)
    QTest.mouseClick(shown.keep_button, LEFT)
    qtbot.waitUntil(lambda: bool(told), timeout=20000)
    assert len(book.samples()) - before == told[0].count(".csv") < 3
    assert "3 ready" in shown.state.text()
    shown.reject()


def stop(shown):
    QTest.mouseClick(shown.stop_button, LEFT)


def test_an_amended_report_is_shown_beside_the_test_and_taken(opened, tmp_path, qtbot):
    book = opened.view.household.book
    point = book.points()[0].name
    rows = [f"{point},2026-10-01,{name},{value},mg/L\n"
            for name, value in (("Zinc", "0.2"), ("Iron", "0.1"), ("Copper", "0.3"))]  # fmt: skip
    review = keep_file(opened, qtbot, tmp_path / "first.csv", HEAD + "".join(rows))
    assert not review.isVisible(), review.bar.text
    tests = len(book.samples())
    rows[0] = rows[0].replace("0.2", "0.9")
    review = keep_file(opened, qtbot, tmp_path / "amended.csv", HEAD + "".join(rows))
    amended = over(review, AmendedDialog)
    assert [(line.name, line.there, line.here) for line in amended.model.rows] == [
        ("Zinc", "0.2 mg/L", "0.9 mg/L")
    ]
    QTest.keyClick(amended, Qt.Key.Key_Escape)
    assert review.isVisible()
    assert len(book.samples()) == tests, "Escape leaves all as it is"
    QTest.mouseClick(review.keep_button, LEFT)
    QTest.mouseClick(over(review, AmendedDialog).take_button, LEFT)
    assert not review.isVisible()
    assert len(book.samples()) == tests
    zinc = [r for r in book.results(parameter="zinc") if str(r.collected.day) == "2026-10-01"]
    assert [r.reading.text for r in zinc] == ["0.9"]
    assert "1 reading is corrected." in opened.bar.text
    assert any("amended.csv" in entry.reason for entry in book.journal())


def test_of_an_amended_report_both_can_be_kept(opened, tmp_path, qtbot):
    book = opened.view.household.book
    point = book.points()[0].name
    rows = [f"{point},2026-10-01,{name},{value},mg/L\n"
            for name, value in (("Zinc", "0.2"), ("Iron", "0.1"), ("Copper", "0.3"))]  # fmt: skip
    keep_file(opened, qtbot, tmp_path / "first.csv", HEAD + "".join(rows))
    tests = len(book.samples())
    rows[0] = rows[0].replace("0.2", "0.9")
    review = keep_file(opened, qtbot, tmp_path / "amended.csv", HEAD + "".join(rows))
    QTest.mouseClick(over(review, AmendedDialog).both_button, LEFT)
    assert len(book.samples()) == tests + 1


def keep_file(opened, qtbot, path, text):
    """Drop a file, leave what is doubted, and press Keep."""
    path.write_text(text)
    drop(opened, path)
    review = dialog(opened, qtbot, DraftDialog)
    if review.leave.isVisible():
        review.leave.setChecked(True)
    QTest.mouseClick(review.keep_button, LEFT)
    QApplication.processEvents()
    return review
