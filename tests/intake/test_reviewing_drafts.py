"""What is odd about a draft's samples is said before they are stored."""

from datetime import date

from wellbook import intake
from wellbook.book import Book
from wellbook.intake.reviewing import Changes, results_of, with_earlier
from wellbook.intake.said import by_reason, left_words
from wellbook.water.verdicts.latest_change import Crossed

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


def test_what_changed_is_told_of_the_latest_test_only_and_beside_those_of_the_file(
    draft_of, catalogue, tmp_path
):
    today, sets = date(2025, 1, 1), ("us-epa-primary",)
    days = "2021-05-13,,Nitrate,4,mg/L as N\n2022-05-13,,Nitrate,11,mg/L as N\n"
    draft = draft_of(HEAD + days)
    latest = Changes(catalogue, sets, today).by(*with_earlier(draft, 1))["nitrate"]
    assert (latest.before, latest.size) == (date(2021, 5, 13), 7)
    assert latest.crossed is Crossed.FIRST_OVER
    first = Changes(catalogue, sets, today).by(*with_earlier(draft, 0))["nitrate"]
    assert first.before is None
    with Book.create(tmp_path / "home.wellbook") as book:
        intake.store(draft, book)
        history = book.results(book.points()[0].id)
    older = draft_of(HEAD + "2020-05-13,,Nitrate,4,mg/L as N\n", "older.csv")
    told = Changes(catalogue, sets, today).by(*with_earlier(older, 0), history)
    assert told == {}, "later ones are known"


def test_nothing_changed_where_the_file_tells_no_day(draft_of, catalogue):
    draft = draft_of("Analyte,Result,Units\nNitrate,4,mg/L as N\n")
    assert Changes(catalogue, (), date(2025, 1, 1)).by(*with_earlier(draft, 0)) == {}


def test_what_a_decision_leaves_as_it_was_is_told_as_if_worked_out_anew(draft_of, catalogue):
    """Gross alpha is judged less the uranium of its sample (EPA, 40 CFR 141.66)."""
    today, sets = date(2025, 1, 1), ("us-epa-primary",)
    words = "Gross Alpha,{a},pCi/L\nUranium,{u},ug/L\nNitrate,{n},mg/L as N\n"

    def sample(day, a, u, n):
        rows = words.format(a=a, u=u, n=n).splitlines()
        (one,) = draft_of(HEAD + "".join(f"{day},,{row}\n" for row in rows)).samples
        return one.sample

    history = (*results_of(sample("2020-05-13", 5, 2, 4), 7),
               *results_of(sample("2021-05-13", 17, 9, 5), 8))  # fmt: skip
    kept = Changes(catalogue, sets, today)
    crossed = set()
    for typed in ((17, 9, 5), (17, 1, 5), (17, 9, 5), (17, 9, 11), (3, 9, 11), (17, 1, 11)):
        new = sample("2022-05-13", *typed)
        found = kept.by(new, history=history)
        assert found == Changes(catalogue, sets, today).by(new, history=history)
        crossed.add((typed[1], found["gross_alpha"].crossed))
    assert (1, Crossed.FIRST_OVER) in crossed, "less uranium beside it, more of it is left"
    assert (9, Crossed.NO) in crossed


def test_what_is_left_aside_for_one_reason_is_one_line_that_names_all_of_it(draft_of):
    rows = "".join(f"{name},mg/L,1,2,{n}50\n" for n, name in enumerate(("Iron", "Lead", "Zinc"), 1))
    draft = draft_of(f"Parameter,Units,2024-01-05,2025-02-03,MCL\n{rows}")
    (left,) = by_reason(draft.not_taken)
    reason = "“MCL”: a limit or a goal, not a result of your water"
    assert left_words(*left) == f"Left aside: 150 (E2); 250 (E3); 350 (E4): {reason}"
    assert left_words(*left, most=1) == f"Left aside: 150 (E2) and 2 more: {reason}"
