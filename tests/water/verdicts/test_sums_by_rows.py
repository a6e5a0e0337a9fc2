"""A new authority's sum, index, ratio or single figure is a row, not code."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from wellbook.support.csv_rows import read_rows
from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.water.values.limits import SumRule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict, judge_all
from wellbook.water.verdicts.sums import judge_sums

TODAY = date(2026, 11, 25)
MADE_UP = {
    "parameters.csv": [
        "metals_two,Two metals,metals,,µg/L,,number,,,,A made-up sum.,made up",
        "metals_index,Two metals over their figures,metals,,1,,number,,,,A made-up index.,made up",
    ],
    "limit_sets.csv": ["zz,A made-up authority,ZZ,in force,no,yes,no,zz.example,en,Made up."],
    "sums.csv": [
        "metals_two,sum,µg/L,,lead; arsenic,,no,yes,made up",
        "metals_index,ratios,µg/L,,lead / 10; arsenic / 20,2,no,yes,made up",
        "a_metal,each,µg/L,,metals_two; cadmium,,no,yes,made up",
    ],
    "limits.csv": [
        "zz,metals_two,health,max,,20,µg/L,,,,2020,,made up,,,memory,,",
        "zz,metals_index,health,max,,1,1,,,,2020,,made up,,,memory,,",
        "zz,a_metal,health,max,,15,µg/L,,,,2020,,made up,,,memory,,",
        "zz,arsenic,health,max,,12,µg/L,,,,2020,,made up,,,memory,,",
    ],
}


@pytest.fixture(scope="module")
def catalogue(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    folder = tmp_path_factory.mktemp("data")
    for path in resources().glob("*.csv"):
        shutil.copy(path, folder)
    for name, rows in MADE_UP.items():
        with (folder / name).open("a", encoding="utf-8") as file:
            file.writelines(f"{row}\n" for row in rows)
    return read_catalogue(folder)


def sample(**texts: str) -> list[Result]:
    return [
        Result(n, 1, key, key, read_reading(text, unit="µg/L"), LocalTime(TODAY), 1)
        for n, (key, text) in enumerate(texts.items())
    ]


def of_sums(catalogue: Catalogue, **texts: str) -> dict[str, Verdict]:
    judged = judge_sums(sample(**texts), catalogue, ("zz",), TODAY)
    return {added.rule.key: judgement.verdict for added, judgement in judged}


def test_a_row_makes_a_sum(catalogue: Catalogue):
    assert of_sums(catalogue, lead="9", arsenic="12")["metals_two"] is Verdict.OUTSIDE  # 21 of 20
    assert of_sums(catalogue, lead="<9", arsenic="12")["metals_two"] is Verdict.UNDECIDABLE
    assert of_sums(catalogue, lead="1", arsenic="2")["metals_two"] is Verdict.WITHIN


def test_a_row_makes_an_index_that_counts_from_two_found_on(catalogue: Catalogue):
    over = of_sums(catalogue, lead="6", arsenic="10")  # 0.6 + 0.5
    assert over["metals_index"] is Verdict.OUTSIDE
    under = of_sums(catalogue, lead="3", arsenic="10")  # 0.3 + 0.5, near from 0.8 on
    assert under["metals_index"] is Verdict.NEAR
    alone = of_sums(catalogue, lead="30", arsenic="<1")
    assert alone["metals_index"] is Verdict.NO_LIMIT


def test_a_row_limits_each_of_its_members_that_has_no_row_of_its_own(catalogue: Catalogue):
    figures = {
        key: [
            str(judgement.limit.high)
            for result in sample(**{key: "16"})
            for judgement in judge_all(result, catalogue, ("zz",), TODAY, beside=(result,))
            if judgement.limit and judgement.verdict is Verdict.OUTSIDE
        ]
        for key in ("lead", "arsenic", "cadmium")
    }
    assert figures == {"lead": ["15"], "arsenic": ["12"], "cadmium": ["15"]}


def test_every_single_pesticide_has_the_figure_of_the_directive_but_four_have_a_lower_one():
    # Council Directive 98/83/EC and Directive (EU) 2020/2184, Annex I part B: pesticides 0.10 µg/L;
    # aldrin, dieldrin, heptachlor and heptachlor epoxide 0.030 µg/L; their total 0.50 µg/L.
    catalogue = read_catalogue(resources())
    rule = next(one for one in catalogue.sums if one.key == "pesticides_total")
    for term in rule.members:
        rows = [one for one in catalogue.limits_of(term.parameter) if one.set == "eu-dwd"]
        low = term.parameter in {"aldrin", "dieldrin", "heptachlor", "heptachlor_epoxide"}
        assert [str(one.high) for one in rows] == ["0.030" if low else "0.10"], term


@pytest.mark.parametrize(
    ("members", "problem"),
    [("lead / nothing", "column members"), ("lead / 0", "column members")],
)
def test_a_member_that_makes_no_sense_is_named(tmp_path: Path, members: str, problem: str):
    head = "key,how,unit,basis,members,least_found,speaks_alone,whole,source"
    path = tmp_path / "sums.csv"
    path.write_text(f"{head}\na,sum,µg/L,,{members},,no,yes,made up\n", encoding="utf-8")
    with pytest.raises(ValueError, match=rf"sums\.csv, row 2, {problem}"):
        list(read_rows(path, SumRule))
