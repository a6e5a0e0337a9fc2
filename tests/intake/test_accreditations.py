"""What a lab prints of its accreditation is offered with the file, and kept with the lab.

How each body and its numbers are printed: common practice, no source. All numbers are invented.
"""

import pytest
from drafts import TODAY

from wellbook.book import Book
from wellbook.intake import read, review, store
from wellbook.intake.mending import with_accreditation
from wellbook.intake.samples.accreditation import accreditation

PRINTED = [
    ("NATA accredited laboratory number 1234", "NATA accredited laboratory number 1234"),
    ("Testing. NATA Accreditation No. 1234", "NATA Accreditation No. 1234"),
    ("Akkreditiert durch die DAkkS, D-PL-12345-01-00", "DAkkS D-PL-12345-01-00"),
    ("Accréditation COFRAC n° 1-1234, portée", "COFRAC n° 1-1234"),
    ("UKAS testing laboratory no. 1234", "UKAS testing laboratory no. 1234"),
    ("IANZ accredited laboratory no. 321", "IANZ accredited laboratory no. 321"),
    ("Acreditado por ema, a.c. AG-123-456/12", "Acreditado por ema, a.c. AG-123-456/12"),
    ("ENAC nº 123/LE456", "ENAC nº 123/LE456"),
    ("SCC accredited laboratory no. 123", "SCC accredited laboratory no. 123"),
    ("CALA accredited, no. A1234", "CALA accredited, no. A1234"),
    ("NELAP accredited (TNI), certificate E12345", "NELAP accredited (TNI), certificate E12345"),
    ("NJ certified laboratory 12345", "NJ certified laboratory 12345"),
    ("ISO/IEC 17025, A2LA certificate 1234.01", "A2LA certificate 1234.01"),
    ("Lab Certification ID: MA1234", "Lab Certification ID: MA1234"),
]
NOT_ONE = [
    "Certificate of Analysis No. 12345",
    "Total nitrogen (TNI) 0.5",
    "This lab is not NATA accredited, number 1234 is its licence",
    "Nicht akkreditiert durch die DAkkS (D-PL-12345-01-00 ruht)",
    "NELAP certified",
    "lab@cala.org 12",
]


@pytest.mark.parametrize(("line", "said"), PRINTED, ids=[said for _line, said in PRINTED])
def test_the_body_and_its_number_are_read_as_printed(line: str, said: str):
    assert accreditation(line) == said


@pytest.mark.parametrize("line", NOT_ONE)
def test_what_names_no_number_or_denies_it_is_none(line: str):
    assert accreditation(line) == ""


REPORT = """Laboratory,{lab}
Accreditation,NATA accredited laboratory number {number}
Sample Date,2026-02-{day:02}

Parameter,Result,Unit
Nitrate as N,{day},mg/L
"""


def test_an_accreditation_that_is_kept_is_not_listed_as_left_aside_too(draft_of):
    draft = draft_of(
        "Mossback Laboratory\nISO/IEC 17025:2017 accredited by A2LA certificate 1234.01\n"
        "State certified laboratory no. 445\nSample Date,2026-02-03\n"
        "Parameter,Result,Unit\nIron,0.1,mg/L\n"
    )
    assert draft.accreditation == "A2LA certificate 1234.01"
    assert [one.place.row for one in draft.not_taken] == [3]


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        yield made


def draft_of(folder, catalogue, book, *, lab="Creek Lab", number=1234, day=1):
    path = folder / f"report-{day}.csv"
    path.write_text(REPORT.format(lab=lab, number=number, day=day), encoding="utf-8")
    return review(read(path, catalogue, today=TODAY), catalogue, book)


def kept(book):
    return {lab.name: lab.accreditation for lab in book.labs()}


def said(draft):
    return [one.text for one in draft.findings if one.key == "accreditation"]


def test_it_is_told_before_the_file_is_kept_and_stands_with_the_lab_after(
    tmp_path, catalogue, book
):
    draft = draft_of(tmp_path, catalogue, book)
    assert "kept with the lab" in said(draft)[0]
    store(draft, book)
    assert kept(book) == {"Creek Lab": "NATA accredited laboratory number 1234"}


def test_what_a_person_typed_or_emptied_counts(tmp_path, catalogue, book):
    store(with_accreditation(draft_of(tmp_path, catalogue, book), "NATA 99"), book)
    other = draft_of(tmp_path, catalogue, book, lab="Other Lab", day=2)
    store(with_accreditation(other, ""), book)
    assert kept(book)["Creek Lab"] == "NATA 99"
    assert kept(book).get("Other Lab", "") == ""


def test_one_that_the_book_has_stays_and_another_is_told(tmp_path, catalogue, book):
    store(draft_of(tmp_path, catalogue, book), book)
    draft = draft_of(tmp_path, catalogue, book, number=777, day=2)
    assert "which stays" in said(draft)[0]
    store(draft, book)
    assert kept(book)["Creek Lab"].endswith("1234")


def test_it_goes_back_together_with_the_tests_of_the_file(tmp_path, catalogue, book):
    store(draft_of(tmp_path, catalogue, book), book)
    book.undo()
    assert kept(book).get("Creek Lab", "") == ""


def test_a_file_that_names_no_lab_says_so_and_keeps_none(tmp_path, catalogue, book):
    draft = draft_of(tmp_path, catalogue, book, lab="")
    assert "no one lab" in said(draft)[0]
    store(draft, book)
    assert set(kept(book).values()) <= {""}
