"""Rows that differ in the figure alone, or in nothing, come out as each does by itself."""

from datetime import date

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from wellbook import intake
from wellbook.book import Book
from wellbook.intake.reviewing import results_of as as_kept
from wellbook.intake.reviewing import verdicts
from wellbook.intake.storing import placed_in_file
from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.point_record import PointRecord

HEAD = "Analyte,Result,Qual,Units,RL,Collected\n"
ROW = "{name},{figure},{flag},{unit},{limit},2024-05-13\n"
FIGURES = st.sampled_from(
    ["0.5", "12", "<0.5", "<3", "0", "0.0", "007", "1e3", ">5", "999999", "12.50"]
)


@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    FIGURES,
    FIGURES,
    st.sampled_from(["Iron", "Nitrate", "Total Coliform", "Frobnium", "pH", "Radon"]),
    st.sampled_from(["", "U", "J", "UJ", "H", "E", "R"]),
    st.sampled_from(["mg/L", "furlongs", "", "per 100 mL", "pCi/L"]),
    st.sampled_from(["", "0.1", "<0.1", "none"]),
)
@example("0.5", "12.50", "Iron", "U", "mg/L", "0.1")
def test_a_row_after_another_reads_as_it_does_alone(
    draft_of, first, second, name, flag, unit, limit
):
    rows = [
        ROW.format(name=name, figure=figure, flag=flag, unit=unit, limit=limit)
        for figure in (first, second)
    ]
    alone = draft_of(HEAD + rows[1], "alone.csv")
    after = draft_of(HEAD + "".join(rows), "after.csv")
    assert after.samples[0].sample.results[1] == alone.samples[0].sample.results[0]
    assert {f.key for f in alone.findings} <= {f.key for f in after.findings}


# The same rows in samples of other days, other uranium and other draws.
SAMPLES = "Sample ID,Collected,Analyte,Result,Units,Analysed,Draw\n" + "".join(
    f"{number},{day},{name},{figure},{unit},2024-05-14,\n"
    for number, day, uranium in (("A", "2024-05-13", "20"), ("B", "2024-05-09", "1"))
    for name, figure, unit in (
        ("Gross Alpha", "20", "pCi/L"),
        ("Uranium", uranium, "ug/L"),
        ("Total Coliform", "absent", "per 100 mL"),
        ("Lead", "0.012", "mg/L"),
        ("Nitrate as N", "12", "mg/L"),
        ("Frobnium", "1", "mg/L"),
    )
)


def test_rows_alike_are_judged_as_beside_their_own_sample(draft_of, catalogue):
    sets, today = ("us-epa-primary",), date(2026, 1, 1)
    samples = draft_of(SAMPLES).samples
    alone = []
    for one in samples:
        results = as_kept(one.sample)
        judged = assess(results, PointRecord.of(results), catalogue, sets, today)
        alone.append(tuple(each.now.verdict for each in judged))
    assert verdicts(samples, catalogue, sets, today) == alone
    (alpha, _uranium, germs, *_rest), (other_alpha, _other, other_germs, *_others) = alone
    assert alpha != other_alpha, "less uranium leaves more alpha"
    assert germs != other_germs, "the second sample was held for days"


def test_rows_alike_are_kept_and_journaled_as_one_by_one(draft_of, tmp_path):
    draft = draft_of(SAMPLES)
    told = []
    for name in ("together", "one by one"):
        with Book.create(tmp_path / f"{name}.wellbook") as book:
            point = book.add_point(book.add_well("My well"), "Kitchen tap")
            if name == "together":
                intake.store(draft, book)
            else:
                for one in draft.samples:
                    book.add_sample(placed_in_file(one, point=point))
            told.append((book.results(), [entry.changes for entry in book.journal()]))
            assert all(result.place for result in book.results())
            assert not book.doubts()
    assert told[0] == told[1]
