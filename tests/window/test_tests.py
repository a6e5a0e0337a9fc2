"""The page of tests: readings, documents, striking out and counting again."""

import pytest

from wellbook.water.values.judgement import Verdict
from wellbook.window.widgets.table_model import VERDICT_ROLE


def texts(model, column):
    return [model.index(row, column).data() for row in range(model.rowCount())]


def test_every_sample_is_listed_the_newest_first(opened):
    view = opened.view
    book = view.household.book
    assert view.at("tests").model.rowCount() == len(book.samples(with_struck=True))
    assert texts(view.at("tests").model, 0)[0].startswith("7 Oct 2025")


def test_the_chosen_test_shows_its_readings_as_printed(opened):
    page = opened.view.at("tests")
    opened.do("go_tests")
    page.table.pick(1)
    wanted = opened.view.household.book.results(sample=page.sample.id)
    assert page.readings_model.rowCount() == len(wanted)
    assert "9.20 mg/L as N" in texts(page.readings_model, 1)


def test_a_document_is_saved_byte_for_byte(opened, answers, tmp_path):
    page, book = opened.view.at("tests"), opened.view.household.book
    page.table.pick(0)
    answers.path = tmp_path / "copy.xlsx"
    page.documents.save_button.click()
    document = book.documents(sample=page.sample.id)[0]
    assert answers.path.read_bytes() == book.content(document.id)
    page.documents.open_button.click()
    assert answers.shown[-1].read_bytes() == book.content(document.id)


def test_a_place_that_can_not_be_written_is_said(opened, answers, tmp_path):
    page = opened.view.at("tests")
    page.table.pick(0)
    answers.path = tmp_path / "no such folder" / "copy.xlsx"
    page.documents.save_button.click()
    assert "can’t be written" in opened.bar.text


def test_striking_out_wants_a_reason_and_can_be_taken_back(opened):
    view = opened.view
    view.at("tests").table.pick(1)
    struck = view.at("tests").sample
    view.at("tests").strike_button.click()
    dialog = view.book_actions.dialog
    dialog.accept()
    assert dialog.isVisible()
    assert "reason" in dialog.bar.text
    dialog.reason.setPlainText("Bottle was from the neighbour’s tap")
    dialog.accept()
    assert view.household.book.sample(struck.id).struck
    assert "struck out: Bottle was from the neighbour’s tap" in texts(view.at("tests").model, 7)
    assert "9.20 mg/L as N" not in texts(view.overview.model, 1)
    assert view.at("tests").sample.id == struck.id, "the chosen row stays chosen"
    assert view.at("tests").strike_button.text() == "Count it again"
    view.at("tests").strike_button.click()
    assert not view.household.book.sample(struck.id).struck
    assert "9.20 mg/L as N" in texts(view.overview.model, 1)


def test_the_list_says_which_tests_had_something_outside_a_limit_that_day(opened, qtbot):
    page = opened.view.at("tests")
    opened.do("go_tests")
    qtbot.waitUntil(lambda: "…" not in texts(page.model, 8), timeout=30000)
    marks = []
    for place, said in enumerate(texts(page.model, 8)):
        page.table.pick(place)
        named = {verdict: [] for verdict in Verdict}
        for reading in page.readings_model.rows:
            named[reading.judgement.verdict].append(reading.parameter.name)
        over = named[Verdict.OUTSIDE]
        untold = [name for name in named[Verdict.UNDECIDABLE] if name not in over]
        wanted = [*over, *([f"can’t be told: {', '.join(untold)}"] if untold else [])]
        assert said == "; ".join(filter(None, (", ".join(over), *wanted[len(over) :])))
        marks.append(page.model.index(place, 8).data(VERDICT_ROLE))
        assert marks[-1] == (Verdict.OUTSIDE if over else Verdict.UNDECIDABLE if untold else None)
    assert {Verdict.OUTSIDE, None} <= set(marks)
    assert page.table.horizontalHeader().visualIndex(8) == 1


def test_a_button_for_a_reading_says_that_one_is_to_be_chosen_first(opened):
    page = opened.view.at("tests")
    opened.do("go_tests")
    for button in (page.reading_button, page.report_button):
        assert not button.isEnabled()
        assert "Choose a reading" in button.toolTip()
    page.readings.pick(0)
    assert page.reading_button.isEnabled()
    assert "Choose" not in page.reading_button.toolTip() + page.report_button.toolTip()


@pytest.mark.parametrize("size", [(1024, 700), (911, 512)])
def test_a_narrow_page_leaves_columns_out_and_scrolls_nowhere_to_the_side(opened, qtbot, size):
    opened.resize(*size)
    opened.do("go_tests")
    page = opened.view.at("tests")
    qtbot.waitUntil(lambda: all(line.passed is not None for line in page.model.rows))
    qtbot.waitUntil(lambda: page.table.horizontalScrollBar().maximum() == 0)
    shown = page.table.column_titles().values()
    assert "Outside a limit that day" in shown
    assert not page.table.isColumnHidden(8), "what was outside is never left out"
