"""What is odd about a draft's samples is said before they are stored."""

from wellbook import intake
from wellbook.book import Book

HEAD = "Collected,Received,Analyte,Result,Units\n"


def test_receipt_before_sampling_is_asked_about(draft_of, catalogue):
    draft = draft_of(HEAD + "2024-05-13,2024-05-12,Iron,1,mg/L\n")
    assert draft.samples[0].findings == ()
    (sample,) = intake.review(draft, catalogue).samples
    assert [(f.key, f.severity) for f in sample.findings] == [("after_receipt", "ask")]


def test_a_sound_sample_gives_no_question(draft_of, catalogue):
    draft = draft_of(HEAD + "2024-05-13,2024-05-13,Iron,1,mg/L\n")
    assert intake.review(draft, catalogue).samples[0].findings == ()


def test_a_figure_far_off_the_wells_own_history_is_asked_about(draft_of, catalogue, tmp_path):
    with Book.create(tmp_path / "home.wellbook") as book:
        years = "".join(f"{year}-05-13,,Chloride,2{year % 5},mg/L\n" for year in range(2010, 2020))
        intake.store(draft_of(HEAD + years, "old.csv"), book)
        draft = draft_of(HEAD + "2024-05-13,,Chloride,22000,mg/L\n", "new.csv")
        (sample,) = intake.review(draft, catalogue, book).samples
    assert sample.findings
    assert sample.findings[0].results == (1,)


def test_reviewing_changes_no_fact(draft_of, catalogue):
    draft = draft_of(HEAD + "2024-05-13,2024-05-12,Iron,1,mg/L\n")
    reviewed = intake.review(draft, catalogue)
    assert [s.sample for s in reviewed.samples] == [s.sample for s in draft.samples]
