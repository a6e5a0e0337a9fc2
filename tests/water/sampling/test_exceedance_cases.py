"""A figure over a limit is confirmed, watched, treated, and let go by a stated rule.

Days, months and taps stand with their sources in exceedances.csv; many are our own default.
"""

import os
import random
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest
from waters import CATALOGUE, TODAY, USUAL, result
from way_to_the_lab import way

from wellbook.support.paths import resources
from wellbook.water.cautions.findings import GERMS
from wellbook.water.sampling.due import Outlook
from wellbook.water.sampling.exceedance_due import CaseAt, exceedance_dues, near_due
from wellbook.water.sampling.exceedances import (
    Step,
    exceedance_cases,
    looks,
    read_exceedances,
    step,
)
from wellbook.water.sampling.followups import Tap
from wellbook.water.values.limits import ADVISED_KINDS, Rule
from wellbook.water.values.seasons import NORTHERN, add_months
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording.dues import closes_when, worded

ROWS = {row.key: row for row in read_exceedances(resources() / "exceedances.csv")}
NOBODY = frozenset()


def of(*rows):
    """A record from days and readings, each day a sample of its own."""
    made = [
        result(
            *row[1:5], draw=row[5] if len(row) > 5 else "", number=n, day=date.fromisoformat(row[0])
        )
        for n, row in enumerate(rows, 1)
    ]

    return PointRecord.of(replace(one, sample=n) for n, one in enumerate(made, 1))


def of_days(*rows):
    """The same, the readings of a day in one sample."""

    days = sorted({row[0] for row in rows})
    made = (
        result(*row[1:5], number=n, day=date.fromisoformat(row[0])) for n, row in enumerate(rows, 1)
    )
    return PointRecord.of(
        replace(one, sample=days.index(row[0]) + 1) for one, row in zip(made, rows, strict=True)
    )


def cases_of(key, *rows, people=NOBODY, sets=USUAL, today=TODAY):
    seen = looks(ROWS[key], of(*rows), CATALOGUE, sets, today, people)
    return exceedance_cases(ROWS[key], seen)


def dues(key, *rows, people=NOBODY, taps=None, treated=None, today=TODAY):
    (case,) = cases_of(key, *rows, people=people)
    days = {}
    for row in rows:
        days.setdefault(row[1], []).append(date.fromisoformat(row[0]))
    raw = Tap(1, treated=False, place=1, days=days)
    at = CaseAt(case, raw, (raw, *(taps or ())), treated, people)
    ahead = Outlook(today, NORTHERN, way(), CATALOGUE)
    return dict(exceedance_dues(at, ahead))


def test_every_row_names_known_parameters_and_its_source():
    for row in ROWS.values():
        assert {*row.parameters, *row.companions} <= CATALOGUE.parameters.keys(), row.key
        assert row.source
        assert row.confirm_days
        assert 0 < row.watch_months <= row.then_months
        assert row.clean_n >= 1


def test_every_parameter_with_a_figure_for_health_has_a_row():
    """Bacteria have cases of their own."""
    advised = {limit.parameter for limit in CATALOGUE.limits if limit.kind in ADVISED_KINDS}
    served = {key for row in ROWS.values() for key in row.parameters}
    assert advised - GERMS - {"bromide"} <= served


def test_no_parameter_has_two_rows():
    served = [key for row in ROWS.values() for key in row.parameters]
    assert len(served) == len(set(served))


@pytest.mark.parametrize(
    ("key", "row", "days"),
    [
        ("nitrate", ("2026-01-12", "nitrate", "14.8", "mg/L", "as N"), 14),
        ("arsenic", ("2026-01-12", "arsenic", "35", "µg/L", ""), 30),
        ("uranium", ("2026-01-12", "uranium", "60", "µg/L", ""), 30),
        ("lead", ("2026-01-12", "lead", "40", "µg/L", "", "first draw"), 14),
        ("manganese", ("2026-01-12", "manganese", "0.5", "mg/L", ""), 30),
        ("copper", ("2026-01-12", "copper", "2", "mg/L", "", "first draw"), 30),
        ("pfas", ("2026-01-12", "pfos", "35", "ng/L", ""), 60),
        ("methane", ("2026-01-12", "methane", "31", "mg/L", ""), 7),
        ("radon", ("2026-01-12", "radon_222", "20000", "pCi/L", ""), 60),
    ],
)
def test_one_figure_over_a_limit_asks_for_a_second_sample_in_time(key, row, days):
    (due,) = dues(key, row).values()
    assert due.due == date(2026, 1, 12) + timedelta(days=days)
    assert row[1] in due.panel.core
    assert due.case.startswith(key)


def test_nitrate_over_with_a_baby_in_the_house_is_confirmed_sooner():
    row = ("2026-01-12", "nitrate", "14.8", "mg/L", "as N")
    (plain,), (sooner,) = (
        dues("nitrate", row).values(),
        dues("nitrate", row, people={"infant"}).values(),
    )
    assert sooner.due < plain.due


def test_nitrate_close_to_its_limit_is_tested_sooner_with_a_baby():
    """Half of 10 mg/L as N: Minnesota Department of Agriculture; three months are our default."""
    seen = looks(
        ROWS["nitrate"], of(("2026-01-12", "nitrate", "6", "mg/L", "as N")), CATALOGUE, USUAL, TODAY
    )
    ahead = Outlook(TODAY, NORTHERN, way(), CATALOGUE)
    assert near_due(ROWS["nitrate"], seen, ahead, {"infant"}).due == date(2026, 4, 12)
    assert near_due(ROWS["nitrate"], seen, ahead, NOBODY).due == date(2027, 1, 12)


def test_a_first_draw_of_lead_asks_for_its_flushed_partner_until_it_has_one():
    first = ("2026-01-12", "lead", "40", "µg/L", "", "first draw")
    again = ("2026-02-12", "lead", "38", "µg/L", "", "first draw")
    flushed = ("2026-02-12", "lead", "3", "µg/L", "", "flushed")
    assert step(cases_of("lead", first)[0], None) is Step.CONFIRM
    assert step(cases_of("lead", first, again)[0], None) is Step.PARTNER
    assert step(cases_of("lead", first, again, flushed)[0], None) is Step.WATCH


def test_any_lead_opens_a_case_where_a_child_drinks_it_and_none_elsewhere():
    row = ("2026-01-12", "lead", "3", "µg/L", "", "first draw")
    assert cases_of("lead", row) == ()
    assert len(cases_of("lead", row, people={"child"})) == 1


def test_while_it_stands_it_is_tested_every_three_months_and_later_every_year():
    rows = [
        (f"202{n // 4}-{n % 4 * 3 + 1:02d}-10", "nitrate", "13", "mg/L", "as N") for n in range(9)
    ]
    (early,) = dues("nitrate", *rows[:3]).values()
    (late,) = dues("nitrate", *rows).values()
    assert early.due == date(2020, 10, 10)
    assert late.due == date(2023, 1, 10)


def test_methane_that_stands_is_never_let_go():
    rows = [(f"20{n}-05-10", "methane", "31", "mg/L", "") for n in range(15, 26)]
    (due,) = dues("methane", *rows).values()
    assert due.due <= date(2026, 5, 10)


def test_carbon_tanks_ask_for_the_sample_between_them():
    between, kitchen = (Tap(n, treated=True, place=n, days={}) for n in (2, 3))
    rows = [(f"2026-0{n}-10", "pfoa", "24", "ng/L", "") for n in (1, 3)]
    asked = dues("pfas", *rows, taps=(between, kitchen), treated=date(2026, 4, 1))
    assert asked.keys() == {1, 2, 3}
    assert asked[2].due == date(2026, 7, 1)


def test_two_results_below_half_a_month_apart_close_nitrate():
    rows = [
        ("2026-01-12", "nitrate", "14.8", "mg/L", "as N"),
        ("2026-02-12", "nitrate", "4", "mg/L", "as N"),
        ("2026-03-12", "nitrate", "4.4", "mg/L", "as N"),
    ]
    (still,) = cases_of("nitrate", *rows[:2])
    assert still.closed is None
    (case,) = cases_of("nitrate", *rows)
    assert case.closed == date(2026, 3, 12)


def test_a_result_that_says_nothing_closes_nothing():
    rows = [
        ("2026-01-12", "arsenic", "35", "µg/L", ""),
        *((f"202{n}-06-12", "arsenic", "<50", "µg/L", "") for n in range(7, 9)),
    ]
    (case,) = cases_of("arsenic", *rows, today=date(2029, 1, 1))
    assert case.closed is None


SEVERAL = sorted(
    (row.key, limit.parameter, next(key for key in row.parameters if key != limit.parameter))
    for row in ROWS.values()
    if len(row.parameters) > 1
    for limit in [
        one
        for one in CATALOGUE.limits
        if one.parameter in row.parameters and one.high and one.rule is Rule.MAX
        if one.set in USUAL and not one.end and one.kind in ADVISED_KINDS
    ][:1]
)


@pytest.mark.parametrize(("key", "found", "other"), SEVERAL)
def test_samples_that_were_not_tested_for_what_was_found_neither_confirm_nor_close(
    key, found, other
):
    limit = next(
        one for one in CATALOGUE.limits_of(found) if one.set in USUAL and one.high and not one.end
    )
    over = ("2020-01-12", found, f"{limit.high * 3:f}", limit.unit, limit.basis)
    rest = [(f"202{n}-06-12", other, "ND", CATALOGUE.parameters[other].unit, "") for n in range(6)]
    (case,) = cases_of(key, over, *rest)
    assert (case.closed, step(case, None)) == (None, Step.CONFIRM)


def test_a_sum_over_its_limit_is_closed_by_samples_of_all_its_parts():
    """Nitrate and nitrite together: 10 mg/L as N (40 CFR 141.62)."""

    def rows(*nitrites):
        for n, nitrite in enumerate(nitrites, start=1):
            yield f"2026-0{n}-12", "nitrate", "9.6" if n == 1 else "2", "mg/L", "as N"
            if nitrite:
                yield f"2026-0{n}-12", "nitrite", nitrite, "mg/L", "as N"

    def closed(*nitrites):
        seen = looks(ROWS["nitrate"], of_days(*rows(*nitrites)), CATALOGUE, USUAL, TODAY)
        return exceedance_cases(ROWS["nitrate"], seen)[0].closed

    assert closed("0.9", "", "", "") is None
    assert closed("0.9", "0.1", "", "") is None
    assert closed("0.9", "0.1", "0.1") == date(2026, 3, 12)


def test_what_a_lab_added_up_tells_of_its_parts_and_its_parts_of_it():
    over = ("2026-01-12", "nitrate", "14", "mg/L", "as N")
    added = [(f"2026-0{n}-12", "nitrate_nitrite", "2", "mg/L", "as N") for n in (2, 3)]
    assert cases_of("nitrate", over, *added)[0].closed == date(2026, 3, 12)
    summed = ("2026-01-12", "nitrate_nitrite", "14", "mg/L", "as N")
    apart = [("2026-02-12", "nitrate", "2", "mg/L", "as N")] * 2
    assert cases_of("nitrate", summed, *apart)[0].closed is None
    assert "nitrate" in dues("nitrate", summed)[1].panel.also


def test_a_flushed_sample_over_the_limit_lets_no_first_draws_before_it_count():
    """Lead: 15 µg/L (40 CFR 141.80); a flushed sample holds less lead than a first draw."""
    rows = [
        ("2026-01-12", "lead", "40", "µg/L", "", "first draw"),
        ("2026-02-12", "lead", "1", "µg/L", "", "first draw"),
        ("2026-03-12", "lead", "30", "µg/L", "", "flushed"),
        ("2026-08-12", "lead", "1", "µg/L", "", "first draw"),
    ]
    assert cases_of("lead", *rows)[0].closed is None
    assert cases_of("lead", *rows[:2], *rows[3:])[0].closed == date(2026, 8, 12)


@pytest.mark.parametrize(
    ("key", "text", "unit", "basis"),
    [("nitrate", "7", "mg/L", "as N"), ("arsenic", "6", "µg/L", ""), ("pfas", "2", "ng/L", "")],
)
def test_more_than_a_figure_below_the_limit_may_be_over_it(key, text, unit, basis):
    parameter = ROWS[key].parameters[0]
    assert cases_of(key, ("2026-01-12", parameter, text, unit, basis)) == ()
    (case,) = cases_of(key, ("2026-01-12", parameter, f">{text}", unit, basis))
    assert case.found == (parameter,)


def test_a_figure_near_its_limit_is_watched_until_a_test_tells_that_it_is_not():
    near = ("2026-01-12", "nitrate", "9", "mg/L", "as N")
    nothing = ("2026-02-12", "nitrate", "<50", "mg/L", "as N")
    below = ("2026-03-12", "nitrate", "1", "mg/L", "as N")
    ahead = Outlook(TODAY, NORTHERN, way(), CATALOGUE)

    def due(*rows):
        seen = looks(ROWS["nitrate"], of(*rows), CATALOGUE, USUAL, TODAY)
        return near_due(ROWS["nitrate"], seen, ahead, NOBODY)

    assert due(near, nothing).due == due(near).due
    assert due(near, nothing, below) is None


def test_after_a_closed_case_a_new_finding_opens_another():
    rows = [
        ("2020-01-12", "nitrate", "14.8", "mg/L", "as N"),
        ("2020-02-12", "nitrate", "4", "mg/L", "as N"),
        ("2020-04-12", "nitrate", "4", "mg/L", "as N"),
        ("2024-04-12", "nitrate", "11", "mg/L", "as N"),
    ]
    first, second = cases_of("nitrate", *rows)
    assert (first.closed, second.closed) == (date(2020, 4, 12), None)


def test_the_rule_that_is_printed_names_its_own_figures():
    said = closes_when(ROWS["lead"])
    assert "2 results in a row drawn first" in said
    assert "33 % of the limit" in said
    assert "3 months" in said


@pytest.mark.parametrize("key", sorted(ROWS))
def test_what_has_a_lower_limit_too_is_never_told_as_over_or_to_be_kept_below(key):
    row = ROWS[key]
    lower = {limit.parameter for name in row.parameters for limit in CATALOGUE.limits_of(name)
             if limit.low is not None}  # fmt: skip
    assert (row.side == "outside") == bool(lower)
    assert ("below" not in closes_when(row)) == bool(lower)


def test_acid_water_is_outside_its_limits_and_its_case_closes_within_them():
    rows = [("2026-05-12", "ph", "5.4", "pH units", "")]
    (due,) = dues("acid_or_corrosive_water", *rows).values()
    assert worded(due).panel.name == "pH outside its limits on 12 May 2026: confirm it"
    assert "below" not in worded(due).why + worded(due).panel.why


@pytest.mark.parametrize("key", sorted(ROWS))
def test_a_worse_figure_never_gets_a_later_follow_up(key):
    """Held against each figure for health of the usual sets, at shares of it."""
    row = ROWS[key]
    for parameter in row.parameters:
        limits = [
            limit
            for limit in CATALOGUE.limits_of(parameter)
            if limit.set in USUAL and limit.rule is Rule.MAX and limit.high and not limit.end
            if limit.kind in ADVISED_KINDS
        ]
        for limit in limits[:2]:
            found = []
            for share in ("0.1", "0.55", "0.85", "1.1", "3", "50"):
                figure = f"{Decimal(share) * limit.high:f}"
                one = (TODAY.isoformat(), parameter, figure, limit.unit, limit.basis, "first draw")
                opened = cases_of(key, one)
                asked = list(dues(key, one).values()) if opened else []
                found.append(min((due.due for due in asked), default=date.max))
            assert found == sorted(found, reverse=True), (parameter, found)


def household(seed):
    """A decade of one household that draws what it is asked for; its water changes at random."""
    rng = random.Random(seed)
    row = ROWS[rng.choice(["nitrate", "arsenic", "lead", "uranium", "pfas", "methane", "fuel"])]
    parameter = row.parameters[0]
    limit = max(
        (one for one in CATALOGUE.limits_of(parameter) if one.set in USUAL and one.high),
        key=lambda one: one.start,
    )
    day, level, rows = date(2026, 1, 12), Decimal("1.4"), []
    ahead = Outlook(date(2036, 1, 12), NORTHERN, way(), CATALOGUE)
    while day < date(2036, 1, 12):
        level = max(Decimal("0.05"), level * Decimal(str(round(rng.uniform(0.6, 1.35), 2))))
        figure = f"{level * limit.high:.6f}"
        rows.append((day.isoformat(), parameter, figure, limit.unit, limit.basis, "first draw"))
        if row.key == "lead":
            rows.append((day.isoformat(), parameter, figure, limit.unit, limit.basis, "flushed"))
        found = cases_of(row.key, *rows, today=day)
        if not found or found[-1].closed:
            yield row, rows, found, None
            day = add_months(day, 14)
            continue
        days = {parameter: [date.fromisoformat(one[0]) for one in rows]}
        tap = Tap(1, treated=False, place=1, days=days)
        asked = dict(exceedance_dues(CaseAt(found[-1], tap, (tap,), None, NOBODY), ahead))
        yield row, rows, found, asked[1].due
        day = max(asked[1].due, day + timedelta(days=1)) + timedelta(days=rng.randint(0, 20))


@pytest.mark.parametrize("seed", range(int(os.environ.get("WELLBOOK_HOUSEHOLDS", "25"))))
def test_in_a_decade_no_case_stays_silent_and_none_closes_against_its_rule(seed):
    for row, rows, found, due in household(seed):
        last = date.fromisoformat(rows[-1][0])
        case = found[-1] if found else None
        if due is not None:
            longest = max(row.watch_months, row.then_months)
            assert last <= due <= max(add_months(last, longest), last + timedelta(row.confirm_days))
            assert not rule_is_met(row, case.looks), "an open case has a rule that is not met yet"
            if len(case.looks) == 1:
                assert due == case.opened + timedelta(days=row.confirm_days)
        elif case is not None and case.closed == last:
            assert last == case.looks[-1].day
            assert not case.looks[-1].found
            assert rule_is_met(row, case.looks)


def rule_is_met(row, seen):
    """The rule as it is printed: so many in a row below a share, over so many months."""
    rules = [
        (row.clean_n, row.clean_share, row.clean_months),
        (max(4, row.clean_n), max(Decimal(1), row.clean_share), 24),
    ]
    for n, share, months in rules:
        high = [place for place, look in enumerate(seen) if look.found or look.share >= share]
        run = seen[high[-1] + 1 :]
        if len(run) >= n and run[-1].day >= add_months(run[0].day, months):
            return True
    return False
