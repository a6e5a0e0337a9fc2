"""What was decided about a lab's file is used at its next one, and can be forgotten."""

import json

from click.testing import CliRunner
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from test_many_files import listed
from test_many_files import said as said_in_list
from test_several_files import LEFT, click, dialog, drop

from wellbook.cli.main import cli
from wellbook.window.app.book_pages import Page
from wellbook.window.dialogs.decisions_dialog import DecisionsDialog
from wellbook.window.dialogs.draft.draft_dialog import DraftDialog

TEXT = (
    "Lab,Location,Sample date,Parameter,Result,Unit\nHollin Ridge,{point},{day},Mangenese,3,ug/L\n"
)


def look_over(opened, qtbot, folder, day):
    """A file of one lab with a name that is asked about, as the review shows it."""
    path = folder / f"{day}.csv"
    path.write_text(TEXT.format(point=opened.view.household.book.points()[0].name, day=day))
    drop(opened, path)
    return dialog(opened, qtbot, DraftDialog)


def doubts(review):
    return [mark.doubts for sample in review.draft.samples for mark in sample.marks]


def keep(review):
    QTest.mouseClick(review.keep_button, LEFT)
    QApplication.processEvents()
    assert not review.isVisible(), review.bar.text


def test_a_decision_is_seen_on_the_page_of_the_well_and_forgotten(opened, qtbot, tmp_path):
    review = look_over(opened, qtbot, tmp_path, "2026-10-01")
    assert doubts(review) == [("near_name",)]
    review.readings.setFocus()
    QTest.keyClick(review.readings, Qt.Key.Key_F8)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    keep(review)

    review = look_over(opened, qtbot, tmp_path, "2026-10-02")
    assert doubts(review) == [()]
    assert any("As you said of this lab before" in text for text in review.finding_lines)
    keep(review)

    book = opened.view.household.path
    answer = CliRunner().invoke(cli, ["decisions", str(book), "--json"])
    (told,) = json.loads(answer.output)["decisions"]
    assert (told["lab"], told["said"]) == ("Hollin Ridge", "“mangenese” is Manganese")

    opened.view.go(Page.WELL)
    page = opened.view.pages.currentWidget()
    names = [page.list.item(row).text() for row in range(page.list.count())]
    page.list.setCurrentRow(names.index("Files of labs"))
    (section,) = [one for one in page.sections if one.section.title == "Files of labs"]
    assert [row.said for row in section.model.rows] == ["“mangenese” is Manganese"]
    click(section, "Forget it")
    assert "Forgotten: “mangenese” is Manganese" in opened.bar.text
    assert not section.model.rows

    review = look_over(opened, qtbot, tmp_path, "2026-10-03")
    assert doubts(review) == [("near_name",)], "it is asked again"
    assert not review.before.isVisible()
    QTest.keyClick(review.readings, Qt.Key.Key_F8)
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Space)
    keep(review)

    review = look_over(opened, qtbot, tmp_path, "2026-10-04")
    assert doubts(review) == [()]
    QTest.mouseClick(review.before, LEFT)
    (shown,) = review.findChildren(DecisionsDialog)
    assert [row.said for row in shown.view.model.rows] == ["“mangenese” is Manganese"]
    click(shown, "Forget it")
    assert not shown.view.model.rows
    QTest.mouseClick(shown.close_button, LEFT)
    qtbot.waitUntil(lambda: doubts(review) == [("near_name",)])
    review.discard()


def test_what_is_left_aside_as_before_is_named_with_its_figures_in_review_and_list(
    opened, qtbot, tmp_path
):
    point = opened.view.household.book.points()[0].name
    rows = ("{point},{day},Zinc,0.3,mg/L", "Barn,{day},Total coliform,{found},per 100 mL")
    head = "Lab,Location,Sample date,Parameter,Result,Unit"
    text = "\n".join((head, *(f"Hollin Ridge,{row}" for row in rows))) + "\n"

    def file(day, found):
        path = tmp_path / f"{day}.csv"
        path.write_text(text.format(point=point, day=day, found=found))
        return path

    drop(opened, file("2026-10-01", "Absent"))
    review = dialog(opened, qtbot, DraftDialog)
    review.samples.pick(1)
    QTest.mouseClick(review.page.not_mine, LEFT)
    keep(review)  # nobody asks where a sample was drawn that is not kept

    drop(opened, file("2026-10-02", "Present"))
    review = dialog(opened, qtbot, DraftDialog)
    told = "As you said of this lab before: “Barn” is not your water (Total coliform Present)."
    assert told in review.finding_lines
    review.discard()

    folder = tmp_path / "folder"
    folder.mkdir()
    file("2026-10-02", "Present").rename(folder / "october.csv")
    shown = listed(opened, qtbot, folder)
    assert said_in_list(shown) == {"october.csv": f"ready – {told}"}
    shown.reject()
