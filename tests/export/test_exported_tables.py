"""The open tables: RFC 4180, a dictionary for every column, nothing that a spreadsheet runs."""

import csv
import hashlib
import io
import os
import shutil

import household
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wellbook.export import open_tables
from wellbook.sharing.formula_guard import formula_guarded, restored
from wellbook.sharing.tables import file_names
from wellbook.sharing.tables import tables as extracted
from wellbook.support.errors import Fault


@pytest.fixture(scope="module")
def folder(book, catalogue, tmp_path_factory):
    where = tmp_path_factory.mktemp("export") / "made" / "here"
    open_tables.export(book.record(), catalogue, where)
    return where


def rows(folder, name):
    with (folder / name).open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def test_export_tells_every_file_that_it_wrote(book, catalogue, tmp_path):
    written = open_tables.export(book.record(), catalogue, tmp_path)
    assert sorted(written) == sorted(one for one in tmp_path.rglob("*") if one.is_file())


def test_every_reading_is_in_the_results_as_it_was_reported(folder, book):
    table = rows(folder, "results.csv")
    kept = book.results(with_struck=True)
    assert [row["reported"] for row in table] == [one.reading.text for one in kept]
    assert [row["unit"] for row in table] == [one.reading.unit for one in kept]
    assert [row["qualifier"] for row in table] == [one.qualifier for one in kept]


def test_a_bound_has_its_comparator_in_a_column_of_its_own(folder):
    row = next(row for row in rows(folder, "results.csv") if row["reported"] == "<0.05")
    assert (row["comparator"], row["number"], row["kind"]) == ("<", "0.05", "below")


def test_converted_figures_carry_no_more_digits_than_the_lab_s(folder):
    # 31.9 mg/L of nitrate as NO3 is 31.9 * 14.007 / 62.005 as N (molar masses: IUPAC 2021).
    row = next(row for row in rows(folder, "results.csv") if row["reported"] == "31.9")
    assert (row["usual_number"], row["usual_unit"], row["usual_basis"]) == ("7.21", "mg/L", "as N")


def test_a_struck_sample_is_there_and_marked(folder):
    assert [row["struck"] for row in rows(folder, "results.csv")].count("yes") == 1
    assert any("mixed up" in row["struck"] for row in rows(folder, "samples.csv"))


def test_the_dictionary_explains_every_column_of_every_table(folder):
    told = {(row["file"], row["column"]) for row in rows(folder, "dictionary.csv")}
    for path in folder.glob("*.csv"):
        with path.open(encoding="utf-8-sig", newline="") as file:
            for column in next(csv.reader(file)):
                assert (path.name, column) in told
    assert all(row["meaning"] for row in rows(folder, "dictionary.csv"))


def test_originals_lie_beside_the_tables_byte_for_byte(folder):
    (row,) = rows(folder, "documents.csv")
    content = (folder / row["file"]).read_bytes()
    assert content == household.REPORT
    assert hashlib.sha256(content).hexdigest() == row["sha256"]


def test_lines_end_and_cells_are_quoted_as_rfc_4180_says(folder):
    raw = (folder / "samples.csv").read_bytes().decode("utf-8-sig")
    assert raw.endswith("\r\n")
    assert "\n" not in raw.replace("\r\n", "")
    assert '"\'=HYPERLINK(""x"",""y"")"' in raw  # RFC 4180, 2.7: a quote is doubled


def test_a_note_that_is_a_formula_is_exported_inert_and_read_back_the_same(folder):
    notes = [row["note"] for row in rows(folder, "samples.csv")]
    assert f"'{household.FORMULA}" in notes
    assert household.FORMULA in map(restored, notes)


@pytest.mark.parametrize(
    "text", ["=1+1", "+1 802 555 0100", "-2+3", "@SUM(A1)", "\t=1", " =1", "＝1", "'=1", "\r=1"]
)
def test_what_a_spreadsheet_would_run_is_guarded(text):
    # Characters that start a formula: OWASP, CSV injection (from memory).
    assert formula_guarded(text) == f"'{text}"


@pytest.mark.parametrize("text", ["-0.5", "+3", "-1e-3", "0.020", "absent", "<0.005", ""])
def test_plain_figures_and_words_stay_as_they_are(text):
    assert formula_guarded(text) == text


@given(st.text())
def test_every_text_is_read_back_the_same(text):
    assert restored(formula_guarded(text)) == text


@given(st.lists(st.text(alphabet=st.characters(exclude_categories=["Cs"])), min_size=1))
def test_a_row_survives_writing_and_reading(cells):
    file = io.StringIO(newline="")
    csv.writer(file).writerow([formula_guarded(cell) for cell in cells])
    (row,) = csv.reader(io.StringIO(file.getvalue(), newline=""), strict=True)
    assert [restored(cell) for cell in row] == cells


def test_an_impersonal_extract_has_no_column_and_no_row_about_people(book, catalogue):
    made = extracted(book.record(), catalogue, with_personal=False, named={})
    whole = b"".join(table.content() for table in made).decode()
    for word in (*household.PRIVATE_WORDS, "sampler", "coordinates"):
        assert word not in whole


@pytest.mark.parametrize(
    "name", ["../../etc/passwd", "a/b\\c:d?.pdf", "..", "x" * 300 + ".pdf", "CON", "n\0ul"]
)
def test_a_document_s_name_can_t_lead_out_of_the_folder(name, tmp_path):
    from wellbook.book.rows import Document

    document = Document(3, 1, None, "lab report", name, "application/pdf", 1, "0" * 64)
    (path,) = file_names([document]).values()
    assert (tmp_path / path).resolve().parent == (tmp_path / "documents").resolve()
    assert len(path) < 200


def test_a_folder_that_is_a_file_is_one_clear_sentence(book, catalogue, tmp_path):
    (tmp_path / "taken").write_text("a file")
    with pytest.raises(Fault, match="choose another folder"):
        open_tables.export(book.record(), catalogue, tmp_path / "taken")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_read_only_folder_is_one_clear_sentence(book, catalogue, tmp_path):
    tmp_path.chmod(0o500)
    with pytest.raises(Fault, match="can’t be written"):
        open_tables.export(book.record(), catalogue, tmp_path)


def test_exporting_twice_gives_the_same_bytes(book, catalogue, tmp_path):
    first = {p.name: p.read_bytes() for p in open_tables.export(book.record(), catalogue, tmp_path)}
    shutil.rmtree(tmp_path)
    again = {p.name: p.read_bytes() for p in open_tables.export(book.record(), catalogue, tmp_path)}
    assert first == again
