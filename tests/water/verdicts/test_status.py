"""Where a parameter stands by its history at one point."""

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import stand
from wellbook.wording.reasons import why

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
SETS = ("us-epa-primary", "us-epa-secondary")


def result(number, day, text, parameter="arsenic", **printed):
    reading = read_reading(text, **({"unit": "ug/L"} | printed))
    return Result(number, number, parameter, parameter, reading, LocalTime.parse(day), 1)


def standing(*history, parameter="arsenic", sets=SETS, beside=()):
    return stand(
        PointRecord.of((*history, *beside)),
        CATALOGUE.parameters[parameter],
        CATALOGUE,
        sets,
        TODAY,
    )


def test_the_latest_result_counts_whatever_the_order():
    one = standing(
        result(1, "2024-05-01", "4"), result(2, "2001-05-01", "12"), result(3, "2019-05-01", "6")
    )
    assert (one.n, one.latest.id, one.now.value) == (3, 1, Decimal("0.004"))


def test_an_old_result_has_two_verdicts():
    """Arsenic: 0.05 mg/L until 2006-01-22, 0.010 mg/L since (66 FR 6976)."""
    one = standing(result(1, "2001-05-01", "12"))
    assert (one.then.verdict, one.now.verdict) == (Verdict.WITHIN, Verdict.OUTSIDE)
    assert (one.then.limit.high, one.now.limit.high) == (Decimal("0.05"), Decimal("0.010"))


def test_what_was_not_analysed_is_neither_counted_nor_the_latest():
    one = standing(result(1, "2023-05-01", "4"), result(2, "2024-05-01", "not tested"))
    assert (one.n, one.latest.id) == (1, 1)


def test_a_parameter_never_analysed_is_undecidable():
    one = standing(result(1, "2024-05-01", "pending"))
    assert (one.n, one.now.verdict) == (0, Verdict.UNDECIDABLE)
    assert why(one.now) == "It was not analysed."


def test_of_duplicates_the_higher_one_counts():
    """Duplicates are kept apart and the higher is judged: common practice, no source."""
    for order in (("4", "11"), ("11", "4")):
        history = [result(n, "2024-05-01T08:00", text) for n, text in enumerate(order)]
        assert standing(*history).latest.reading.text == "11"


def test_of_total_and_dissolved_the_total_counts_unless_the_dissolved_is_outside():
    total = result(1, "2024-05-01", "5", fraction="Total")
    dissolved = result(2, "2024-05-01", "4", fraction="Dissolved")
    assert standing(dissolved, total).latest is total
    worse = result(3, "2024-05-01", "12", fraction="Dissolved")
    assert standing(worse, total).latest is worse


def test_a_timed_result_is_later_than_one_without_a_time_on_its_day():
    one = standing(result(1, "2024-05-01T07:00", "4"), result(2, "2024-05-01", "5"))
    assert one.latest.id == 1


def test_a_first_draw_over_the_action_level_is_not_hidden_by_a_flushed_sample_of_the_day():
    """Lead 0.015 mg/L is meant for a first draw (40 CFR 141.80(c), 141.86)."""
    first = replace(result(1, "2024-05-01T06:30", "18.3", "lead"), draw="first draw")
    flushed = replace(result(2, "2024-05-01T07:00", "1.4", "lead"), draw="flushed")
    sets = ("us-epa-action-level",)
    for history in ((first, flushed), (flushed, first)):
        one = standing(*history, parameter="lead", sets=sets)
        assert (one.latest.id, one.now.verdict) == (1, Verdict.OUTSIDE)
    within = replace(result(3, "2024-05-01T06:30", "2", "lead"), draw="first draw")
    one = standing(within, flushed, parameter="lead", sets=sets)
    assert (one.latest.id, one.now.verdict) == (3, Verdict.WITHIN)


def test_a_first_draw_and_a_flushed_result_of_one_sample_are_one_test():
    first = replace(result(1, "2024-05-01", "18.3", "lead"), draw="first draw")
    flushed = replace(result(2, "2024-05-01", "1.4", "lead"), draw="flushed", sample=1)
    other = result(3, "2024-05-01", "2", "lead")
    assert standing(first, flushed, parameter="lead").n == 1
    assert standing(first, flushed, other, parameter="lead").n == 2


def test_uranium_of_the_same_sample_helps_gross_alpha():
    alpha = result(1, "2024-05-01", "20", "gross_alpha", unit="pCi/L")
    uranium = replace(result(2, "2024-05-01", "10", "uranium", unit="pCi/L"), sample=1)
    assert standing(alpha, parameter="gross_alpha").now.verdict is Verdict.UNDECIDABLE
    helped = standing(alpha, parameter="gross_alpha", beside=[uranium])
    assert helped.now.verdict is Verdict.WITHIN


def test_uranium_of_another_sample_of_the_day_does_not_help_gross_alpha():
    alpha = result(1, "2024-05-01T07:00", "20", "gross_alpha", unit="pCi/L")
    other = result(2, "2024-05-01T09:00", "5", "gross_alpha", unit="pCi/L")
    uranium = replace(result(3, "2024-05-01T09:00", "10", "uranium", unit="pCi/L"), sample=2)
    one = standing(alpha, other, parameter="gross_alpha", beside=[uranium])
    assert (one.latest.id, one.now.verdict) == (1, Verdict.UNDECIDABLE)


def test_the_trend_is_that_of_the_whole_history():
    one = standing(*(result(n, f"{2000 + n}-05-01", f"{4 + n}") for n in range(12)))
    assert (one.trend.says, one.trend.n) == ("rising", 12)


def test_no_result_at_all_has_no_standing():
    with pytest.raises(ValueError, match="no result"):
        standing()
