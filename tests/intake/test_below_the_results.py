"""Lines below a table that are no results: who signed, what marks mean, the lab's own checks.

Common practice, no source.
"""

import pytest

HEAD = "Parameter,Unit,Result,LOQ,Method\n"
ROWS = "Chloride,mg/L,96,2,EPA 300.0\nLead,ug/L,7.3,0.5,EPA 200.8\n"


@pytest.mark.parametrize(
    "line",
    [
        "n.d.,,non détecté",
        "Responsable du laboratoire,L. Oberhain",
        "Director técnico,,,A. Quesnay",
        "M. Harrowgate,,,,Laboratory Manager",
    ],
)
def test_who_signed_and_what_a_mark_means_is_no_result(results_of, line):
    assert list(results_of(HEAD + ROWS + line + "\n")) == ["Chloride", "Lead"]


@pytest.mark.parametrize("title", ["Batch QC", "QC Summary", "More"])
def test_a_table_of_checks_below_the_results_is_none_of_them(results_of, title):
    checks = "Analyte,Method Blank,LCS % Recovery,Duplicate RPD %\nIron,ND,93,8.4\nZinc,ND,88,7.2\n"
    assert list(results_of(f"{HEAD}{ROWS}\n{title}\n{checks}")) == ["Chloride", "Lead"]


def test_the_heading_of_checks_below_the_results_asks_nothing_of_them(draft_of):
    checks = "QC Summary\nAnalyte,Method Blank,LCS % Recovery,Duplicate RPD %\nIron,ND,93,8.4\n"
    (sample,) = draft_of(f"Collected,2026-02-04\n{HEAD}{ROWS}\n{checks}").samples
    assert all(mark.is_certain for mark in sample.marks)


def test_results_go_on_below_a_table_of_checks(results_of):
    checks = "Analyte,Method Blank,LCS % Recovery,Duplicate RPD %\nIron,ND,93,8.4\n"
    more = HEAD + "Zinc,mg/L,1.2,0.1,EPA 200.8\n"
    assert list(results_of(f"{HEAD}{ROWS}\n{checks}\n{more}")) == ["Chloride", "Lead", "Zinc"]


def test_a_parameter_without_a_result_is_listed_and_an_unknown_one_with_a_unit_too(draft_of):
    draft = draft_of(HEAD + ROWS + "Sodium,mg/L,,,EPA 200.8\nFrobnium,mg/L,3.2,1,EPA 200.8\n")
    names = [result.name for result in draft.samples[0].sample.results]
    assert {"Chloride", "Lead", "Frobnium"} <= set(names)


def test_days_under_an_unknown_word_are_not_those_of_sampling(draft_of):
    draft = draft_of(
        "Sampled: 2025-03-19\nParameter,Unit,Result,Bearbeitungsstand\n"
        "Lead,ug/L,7.3,2025-03-22\nIron,mg/L,0.4,2025-03-22\nZinc,mg/L,1.2,2025-03-22\n"
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2025-03-19"]


def test_the_day_of_the_report_is_none_of_sampling_though_that_stands_above_it(draft_of):
    draft = draft_of(
        "Collection Date  April 19, 2016\nReport Date  April 28, 2016\n"
        "Your nitrate nitrogen was 3.24 mg/L and your cadmium was 2.16 ug/L.\n",
        "letter.txt",
    )
    assert [one.sample.collected.iso() for one in draft.samples] == ["2016-04-19"]


def test_what_a_mark_means_is_no_result_of_the_first_sample(draft_of):
    draft = draft_of(
        "Analito,D22-4666,S25-7614,Unidades\nFecha de toma,19/04/2014,25/08/2018\n"
        "Plomo,11.8,3.7,ug/L\nCobre,0.2,0.3,mg/L\nn.d.,no detectado\n"
    )
    assert [len(one.sample.results) for one in draft.samples] == [2, 2]
