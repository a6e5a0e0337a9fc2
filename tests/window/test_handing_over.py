"""Writing the packet and the tables from the window, on another thread."""

import pytest
from pypdf import PdfReader


def start(opened):
    opened.do("export_packet")
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
    text = "".join(page.extract_text() for page in PdfReader(answers.path).pages[:3])
    assert "Alder Hollow" in text
    assert [p.name for p in tmp_path.glob("*.part")] == []
    dialog.bar._then.click()
    assert answers.shown == [tmp_path]
    dialog.reject()
    assert not dialog.isVisible()


@pytest.mark.timeout(180)
def test_the_history_is_written_as_a_web_page_without_personal_facts(
    opened, answers, qtbot, tmp_path
):
    answers.path = tmp_path / "history.html"
    opened.do("export_page")
    wait(qtbot, opened.view.book_actions.job)
    qtbot.waitUntil(lambda: "is written" in opened.bar.text, timeout=5000)
    text = answers.path.read_text("utf-8")
    assert "Alder Hollow" in text
    assert "Personal facts are left out." in text
    assert str(answers.path) in opened.bar.text


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
