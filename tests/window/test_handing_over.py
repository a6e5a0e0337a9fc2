"""Writing the packet and the tables from the window, on another thread."""

import household
import pytest
from pypdf import PdfReader
from PySide6.QtCore import QThreadPool
from PySide6.QtWidgets import QApplication
from reading import text_of


def start(opened, action="export_packet"):
    opened.do(action)
    return opened.view.book_actions.dialog


def wait(qtbot, job):
    qtbot.waitUntil(lambda: not job.running, timeout=90000)


@pytest.mark.timeout(180)
def test_a_packet_for_a_buyer_is_a_pdf_of_this_well(opened, answers, qtbot, tmp_path):
    dialog = start(opened)
    answers.path = tmp_path / "history.pdf"
    dialog.write_button.click()
    assert dialog.progress.isVisible()
    assert not dialog.write_button.isEnabled()
    wait(qtbot, dialog.job)
    assert str(answers.path) in dialog.bar.text
    text = text_of(answers.path, last=3)
    assert "Alder Hollow" in text
    assert [p.name for p in tmp_path.glob("*.part")] == []
    dialog.bar._then.click()
    assert answers.shown == [tmp_path]
    dialog.reject()
    assert not dialog.isVisible()


@pytest.mark.timeout(180)
def test_a_web_page_shows_private_words_in_their_places_before_it_is_written(
    frame, answers, qtbot, tmp_path
):
    household.furnished(tmp_path / "tamarack.wellbook").close()
    frame.open_book(tmp_path / "tamarack.wellbook")
    dialog = start(frame, "export_page")
    qtbot.waitUntil(dialog.private.covered.isVisible, timeout=20000)
    tree = dialog.private.covered.tree
    words = {tree.topLevelItem(n).text(0) for n in range(tree.topLevelItemCount())}
    assert {household.ADDRESS, household.SAMPLER} <= words
    assert dialog.private.attach.isHidden()
    assert dialog.reader.closing.isHidden()
    answers.path = tmp_path / "history.html"
    dialog.write_button.click()
    wait(qtbot, dialog.job)
    qtbot.waitUntil(lambda: str(answers.path) in dialog.bar.text, timeout=5000)
    text = answers.path.read_text("utf-8")
    assert "Tamarack Hill" in text
    assert "Personal facts are left out." in text
    assert household.ADDRESS not in text
    dialog.private.personal.click()
    dialog.write_button.click()
    wait(qtbot, dialog.job)
    qtbot.waitUntil(lambda: household.SAMPLER in answers.path.read_text("utf-8"), timeout=5000)
    dialog.reject()


@pytest.mark.timeout(180)
def test_a_web_page_of_a_part_says_at_its_head_what_it_leaves_out(opened, answers, qtbot, tmp_path):
    dialog = start(opened, "export_page")
    dialog.fold.click()
    dialog.scope.until.setText("2019-12-31")
    qtbot.waitUntil(lambda: "15 of 31 tests" in dialog.told.text(), timeout=20000)
    answers.path = tmp_path / "part.html"
    dialog.write_button.click()
    wait(qtbot, dialog.job)
    qtbot.waitUntil(answers.path.exists, timeout=5000)
    assert "By choice it leaves out 15 of 31 tests" in answers.path.read_text("utf-8")
    dialog.reject()


@pytest.mark.timeout(180)
def test_a_letter_to_the_health_department_is_one_page_in_the_language_that_is_chosen(
    opened, answers, qtbot, tmp_path
):
    dialog = start(opened, "export_letter")
    assert dialog.reader.audience.button(0).isHidden()
    dialog.recipients.button(2).click()
    dialog.reader.language.setCurrentIndex(dialog.reader.language.findData("es"))
    answers.path = tmp_path / "letter.pdf"
    dialog.write_button.click()
    wait(qtbot, dialog.job)
    qtbot.waitUntil(lambda: str(answers.path) in dialog.bar.text, timeout=5000)
    (page,) = PdfReader(answers.path).pages
    assert "Al departamento de salud" in page.extract_text()
    dialog.reject()


@pytest.mark.timeout(180)
def test_stopping_leaves_the_file_that_was_there(opened, answers, qtbot, tmp_path):
    dialog = start(opened)
    answers.path = tmp_path / "history.pdf"
    answers.path.write_bytes(b"%PDF-1.4 the old one")
    dialog.write_button.click()
    dialog.reject()
    wait(qtbot, dialog.job)
    assert dialog.isVisible(), "the first press stops, the second closes"
    assert "nothing was written" in dialog.bar.text
    assert answers.path.read_bytes() == b"%PDF-1.4 the old one"
    assert [p.name for p in tmp_path.glob("*.part")] == []
    dialog.reject()


@pytest.mark.timeout(180)
def test_a_stopped_web_page_leaves_the_file_that_was_there(opened, answers, qtbot, tmp_path):
    dialog = start(opened, "export_page")
    answers.path = tmp_path / "history.html"
    answers.path.write_text("the old one")
    dialog.write_button.click()
    assert dialog.progress.isVisible()
    dialog.reject()
    wait(qtbot, dialog.job)
    qtbot.waitUntil(lambda: "nothing was written" in dialog.bar.text, timeout=5000)
    assert answers.path.read_text() == "the old one"
    assert [p.name for p in tmp_path.glob("*.part")] == []
    dialog.reject()


def test_stopped_tables_are_said_to_be_stopped_and_nothing_else_is_said_later(
    opened, answers, tmp_path
):
    answers.path = tmp_path / "tables"
    opened.do("export_tables")
    assert opened.bar.text == "Writing tables …"
    opened.bar._then.click()
    assert opened.bar.text.startswith("Stopped;")
    QThreadPool.globalInstance().waitForDone()
    QApplication.processEvents()
    assert opened.bar.text.startswith("Stopped;")


def test_a_folder_that_is_not_there_is_said(opened, answers, qtbot, tmp_path):
    dialog = start(opened)
    answers.path = tmp_path / "nowhere" / "history.pdf"
    dialog.write_button.click()
    wait(qtbot, dialog.job)
    assert str(answers.path.parent) in dialog.bar.text
    dialog.reject()


def test_no_file_chosen_means_nothing_happens(opened, answers):
    dialog = start(opened)
    answers.path = None
    dialog.write_button.click()
    assert not dialog.job.running
    dialog.reject()


def test_tables_are_written_into_the_folder_chosen(opened, answers, qtbot, tmp_path):
    answers.path = tmp_path / "tables"
    opened.do("export_tables")
    wait(qtbot, opened.view.book_actions.job)
    qtbot.waitUntil(lambda: "files are in" in opened.bar.text, timeout=5000)
    assert list(answers.path.glob("*.csv"))
