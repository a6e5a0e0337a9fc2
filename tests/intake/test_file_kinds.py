"""Every kind of file of the corpus is read: by its bytes, whatever its name says."""

import io

import pypdfium2
import pytest
from drafts import TODAY, bench

from wellbook import intake
from wellbook.intake.pages.words import Locked
from wellbook.support.errors import Fault

corpus, read_corpus = bench()
FILES = {file.name: file for file in corpus.files()}
TRIED = (
    "long-0.csv", "sheet-by_sample.xlsx", "hidden-row.xlsx", "book-certificate.ods", "book-wide.xls",  # noqa: E501
    "two_columns-0.pdf", "continued-0.pdf", "crosstab-0.pdf", "letter-0.pdf", "rotated-0.pdf",
    "ruled-1.pdf", "report-de.pdf", "page-certificate.xls", "page-long.html", "word-blocks.docx",
    "data-certificate.json", "data-long.xml", "mail-table-0.txt", "mail-pairs-0.txt",
    "message.eml", "words.eml", "all.zip", "years.xlsx",
)  # fmt: skip


@pytest.mark.parametrize("name", TRIED)
def test_a_file_of_each_kind_is_read_and_nothing_of_it_is_lost(name, tmp_path, catalogue):
    found = read_corpus.measured(FILES[name], tmp_path, catalogue)
    assert found["lost"] == found["wrong"] == found["refused"] == 0
    assert found["right"] >= 0.9 * found["figures"]


def test_a_locked_pdf_asks_for_its_password(lab_file, catalogue):
    file = FILES["locked.pdf"]
    path = lab_file(file.content, file.name)
    with pytest.raises(Locked, match="--password"):
        intake.read(path, catalogue)
    with pytest.raises(Locked, match="does not open with this password"):
        intake.read(path, catalogue, password="wrong")  # noqa: S106
    draft = intake.read(path, catalogue, today=TODAY, password=file.password)
    assert draft.taken == len(file.truths)


def test_a_reading_of_a_pdf_knows_its_page_and_its_box(lab_file, catalogue):
    file = FILES["continued-0.pdf"]
    draft = intake.read(lab_file(file.content, file.name), catalogue, today=TODAY)
    places = [mark.place for mark in draft.samples[0].marks]
    assert {place.page for place in places} == {1, 2}
    left, top, right, bottom = places[0].box
    assert 220 <= left < right < 320  # where the bench drew the results, in points
    assert 842 - 750 < top < bottom < 842 - 700


def test_rows_that_a_sheet_hides_are_said(lab_file, catalogue):
    file = FILES["hidden-row.xlsx"]
    draft = intake.read(lab_file(file.content, file.name), catalogue, today=TODAY)
    assert "hidden_row" in {finding.key for finding in draft.findings}


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (
            b"\xff\xd8\xff\xe0 photo",
            "is a picture.*type the results beside the page|Type the results",
        ),
        (b'{"results": [1, 2', "its JSON can’t be read"),
        (b"<?xml version='1.0'?><a><b></a>", "its XML can’t be read"),
        (b"<?xml version='1.0'?><!DOCTYPE a [<!ENTITY b 'c'>]><a>&b;</a>", "declares entities"),
        (b"%PDF-1.7\n%\xe2\xe3", "type them beside the page"),
    ],
)
def test_what_can_not_be_read_names_the_way_on(lab_file, catalogue, content, words):
    with pytest.raises(Fault, match=words):
        intake.read(lab_file(content, "x.bin"), catalogue)


def test_without_the_extra_a_picture_names_it_and_the_way_on(lab_file, catalogue, monkeypatch):
    monkeypatch.setattr("wellbook.intake.pages.words.find_spec", lambda _name: None)
    with pytest.raises(Fault, match=r"wellbook\[scans\]; without it type the results"):
        intake.read(lab_file(b"\xff\xd8\xff\xe0 photo", "photo.jpg"), catalogue)


def test_each_figure_of_a_scan_is_asked_about(lab_file, catalogue, monkeypatch):
    pytest.importorskip("rapidocr")
    file = FILES["ruled-0.pdf"]
    with pypdfium2.PdfDocument(file.content) as paper:
        scan = io.BytesIO()
        paper[0].render(scale=150 / 72).to_pil().convert("L").save(scan, "PNG")
    draft = intake.read(lab_file(scan.getvalue(), "scan.png"), catalogue, today=TODAY)
    marks = [mark for sample in draft.samples for mark in sample.marks]
    assert all("pictured" in mark.doubts and mark.place.page == 1 for mark in marks)
    texts = [result.reading.text for result in draft.samples[0].sample.results]
    right = [truth.text for truth in file.truths if truth.text in texts]
    assert len(right) >= 0.75 * len(file.truths)
    monkeypatch.setattr("wellbook.intake.pages.words.process.ask", None)  # its pages are known
    again = intake.read(lab_file(scan.getvalue(), "scan.png"), catalogue, today=TODAY)
    assert again.samples == draft.samples


def test_cells_of_a_web_page_that_reach_down_stand_beside_each_row(draft_of):
    """HTML Living Standard, 4.9.12: `rowspan`."""
    draft = draft_of(
        "<html><table><tr><th rowspan=2>Probe<th rowspan=2>Entnommen am<th rowspan=2>Analyt"
        "<th colspan=2>Befund</tr><tr><th>Ergebnis<th>Einheit</tr>"
        "<tr><td rowspan=2>P-1<td rowspan=2>02.06.2025<td>Eisen<td>0,44<td>mg/l</tr>"
        "<tr><td>Mangan<td>0,12<td>mg/l</tr>"
        "<tr><td rowspan=2>P-2<td rowspan=2>14.07.2025<td>Eisen<td>&lt;0,02<td>mg/l</tr>"
        "<tr><td>Mangan<td>0,01<td>mg/l</tr></table></html>",
        "befunde.html",
    )
    assert [
        (one.sample.collected.iso(), r.parameter, r.reading.text)
        for one in draft.samples
        for r in one.sample.results
    ] == [
        ("2025-06-02", "iron", "0,44"),
        ("2025-06-02", "manganese", "0,12"),
        ("2025-07-14", "iron", "<0,02"),
        ("2025-07-14", "manganese", "0,01"),
    ]
