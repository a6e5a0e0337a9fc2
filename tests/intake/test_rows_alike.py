"""Rows that differ in the figure alone are made faster, and come out the same."""

from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

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
