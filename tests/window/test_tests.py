"""The page of tests: readings, documents, striking out and counting again."""


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
