"""Sums over the latest samples stand against the limits on sums."""

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
from wellbook.water.verdicts.sum_status import stand_sums

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 25)
SETS = ("us-epa-primary",)


def record(*rows):
    found = []
    for number, (day, parameter, text) in enumerate(rows):
        unit = "pCi/L" if parameter.startswith("radium") else "mg/L"
        basis = "as N" if parameter.startswith("nitr") else ""
        reading = read_reading(text, unit=unit, basis=basis)
        found.append(Result(number, number, parameter, parameter, reading, LocalTime.parse(day), 1))
    return PointRecord.of(found)


def stands(*rows):
    return {one.parameter.key: one for one in stand_sums(record(*rows), CATALOGUE, SETS, TODAY)}


def test_nitrate_and_nitrite_each_within_can_be_outside_together():
    """Nitrate 10, nitrite 1, and their sum 10 mg/L as N (40 CFR 141.62(b))."""
    one = stands(("2024-05-01", "nitrate", "9.6"), ("2024-05-01", "nitrite", "0.9"))
    assert one["nitrate_nitrite"].now.verdict is Verdict.OUTSIDE
    assert one["nitrate_nitrite"].now.value == Decimal("10.5")


def test_only_the_latest_day_counts():
    one = stands(
        ("2019-05-01", "nitrate", "9.6"),
        ("2019-05-01", "nitrite", "0.9"),
        ("2024-05-01", "nitrate", "2"),
        ("2024-05-01", "nitrite", "<0.1"),
    )
    assert one["nitrate_nitrite"].day == date(2024, 5, 1)
    assert one["nitrate_nitrite"].now.verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("first", "later", "stands_still"),
    [
        ([("nitrate", "9.6"), ("nitrite", "0.9")], [("nitrate", "2")], True),
        ([("nitrate", "9.6"), ("nitrite", "0.9")], [("nitrite", "<0.1")], True),
        ([("nitrate", "9.6"), ("nitrite", "0.9")], [("nitrate", "not analysed")], True),
        ([("nitrate", "12"), ("nitrite", "0.9")], [("nitrate", "2")], False),  # nitrate alone
        ([("nitrate", "5"), ("nitrite", "0.9")], [("nitrate", "2")], False),
    ],
)
def test_a_sum_over_its_limit_stands_while_a_part_was_not_tested_again(first, later, stands_still):
    rows = [("2023-05-01", *row) for row in first] + [("2024-05-01", *row) for row in later]
    one = stands(*rows)
    assert ("nitrate_nitrite" in one) is stands_still
    if stands_still:
        assert one["nitrate_nitrite"].day == date(2023, 5, 1)
        assert one["nitrate_nitrite"].now.verdict is Verdict.OUTSIDE


def test_a_sum_that_was_over_the_time_before_is_known_where_no_part_alone_was():
    later = [("2024-05-01", "nitrate", "2"), ("2024-05-01", "nitrite", "<0.1")]
    for nitrate, verdicts in (("9.6", [Verdict.OUTSIDE]), ("12", []), ("5", [])):
        rows = [("2023-05-01", "nitrate", nitrate), ("2023-05-01", "nitrite", "0.9")]
        before = stands(*rows, *later)["nitrate_nitrite"].before
        assert [judgement.verdict for judgement in before] == verdicts


def test_one_radium_alone_can_not_show_that_the_limit_is_met():
    """Radium 5 pCi/L is on the sum of 226 and 228 (40 CFR 141.66(b))."""
    one = stands(("2024-05-01", "radium_226", "2"))
    assert one["radium_combined"].now.verdict is Verdict.UNDECIDABLE
    one = stands(("2024-05-01", "radium_226", "6"))
    assert one["radium_combined"].now.verdict is Verdict.OUTSIDE


def test_a_sum_that_the_lab_reported_itself_is_not_added_up_again():
    rows = [("2024-05-01", key, "3") for key in ("nitrate", "nitrite", "nitrate_nitrite")]
    assert "nitrate_nitrite" not in stands(*rows)


def test_without_parts_there_is_no_sum():
    assert stands(("2024-05-01", "iron", "0.2")) == {}
