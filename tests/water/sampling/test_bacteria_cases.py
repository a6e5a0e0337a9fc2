"""From a finding of bacteria to the end of its case.

The order of steps is that of state health departments (Florida, Vermont, Virginia
12VAC5-630-431); the number of clean samples that closes a case is our own, see `wording.dues`.
"""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from way_to_the_lab import way

from wellbook.support.paths import resources
from wellbook.water.parsing.printed import read_reading
from wellbook.water.sampling.case_due import again_due, case_due, raw_too
from wellbook.water.sampling.cases import Step, cases, progress, step, wet_months
from wellbook.water.sampling.dated_events import happening
from wellbook.water.sampling.due import Outlook
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import NORTHERN, SOUTHERN, wet_and_dry
from wellbook.water.verdicts.bacteria import BacteriaTest, Sign, bacteria_tests, sign
from wellbook.wording.dues import worded

CATALOGUE = read_catalogue(resources())


def result(text, parameter="total_coliform", day="2026-05-04", sample=1, **printed):
    reading = read_reading(text, unit=printed.pop("unit", "per 100 mL"), **printed)
    return Result(0, sample, parameter, parameter, reading, LocalTime.parse(day), 1)


def found(day):
    return BacteriaTest(date.fromisoformat(day), Sign.FOUND, ("Total coliform",))


def clean(day, **more):
    return BacteriaTest(date.fromisoformat(day), Sign.CLEAN, **more)


def nothing(day):
    return BacteriaTest(date.fromisoformat(day), Sign.NOTHING)


def done(kind, day):
    return happening("event 1", kind, day)


def outlook(today, scheme=NORTHERN):
    return Outlook(date.fromisoformat(today), scheme, way(), CATALOGUE)


def the_case(*tests, work=(), scheme=NORTHERN):
    (case,) = cases(tests, work, scheme)
    return case


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Present", Sign.FOUND),
        ("3", Sign.FOUND),
        (">2419.6", Sign.FOUND),
        ("Absent", Sign.CLEAN),
        ("0", Sign.CLEAN),
        ("<1", Sign.CLEAN),
        ("<2.2", Sign.CLEAN),  # five tubes, none positive: Standard Methods 9221, from memory
        ("<100", Sign.NOTHING),  # a diluted sample
        ("TNTC", Sign.NOTHING),  # 40 CFR 141.21(c): invalid without a word on coliform
        ("confluent growth", Sign.NOTHING),
    ],
)
def test_what_a_bacteria_result_says(text, expected):
    assert sign(result(text), CATALOGUE) is expected


def test_a_sample_held_too_long_says_nothing_unless_it_finds_something():
    assert sign(result("Absent", qualifier="HT"), CATALOGUE) is Sign.NOTHING
    assert sign(result("Present", qualifier="HT"), CATALOGUE) is Sign.FOUND


def test_one_finding_in_a_sample_is_a_finding():
    rows = [result("Present"), result("Absent", "e_coli"), result("0.3", "iron", unit="mg/L")]
    (test,) = bacteria_tests(rows, CATALOGUE)
    assert (test.sign, test.names) == (Sign.FOUND, ("Total coliform",))


@pytest.mark.parametrize(
    ("coliform", "e_coli", "expected"),
    [
        ("Absent", "Absent", Sign.CLEAN),
        ("<1", "0", Sign.CLEAN),
        ("Absent", "TNTC", Sign.NOTHING),
        ("TNTC", "Absent", Sign.NOTHING),
        ("TNTC", "Present", Sign.FOUND),
    ],
)
def test_a_sample_is_clean_only_if_all_of_it_is(coliform, e_coli, expected):
    rows = [result(coliform), result(e_coli, "e_coli")]
    (test,) = bacteria_tests(rows, CATALOGUE)
    assert (test.sign, test.day) == (expected, date(2026, 5, 4))


def test_samples_come_in_order_of_time_and_others_are_left_out():
    rows = [
        result("Absent", day="2026-05-04", sample=2),
        result("Present", day="2025-05-04", sample=1),
        result("0.3", "iron", day="2024-05-04", sample=3, unit="mg/L"),
        result("not analysed", day="2027-05-04", sample=4),
        result("see note 5", day="2027-06-04", sample=5),
    ]
    tests = bacteria_tests(rows, CATALOGUE)
    assert [test.sign for test in tests] == [Sign.FOUND, Sign.CLEAN]


def test_a_duplicate_that_finds_nothing_does_not_undo_a_finding():
    (test,) = bacteria_tests([result("Present"), result("Absent")], CATALOGUE)
    assert test.sign is Sign.FOUND


def test_chlorine_in_the_sample_is_noticed():
    rows = [result("Absent"), result("0.4", "chlorine_residual", unit="mg/L")]
    assert bacteria_tests(rows, CATALOGUE)[0].chlorine
    rows = [result("Absent"), result("<0.1", "chlorine_residual", unit="mg/L")]
    assert not bacteria_tests(rows, CATALOGUE)[0].chlorine


@pytest.mark.parametrize(
    ("found_first", "tested_later", "is_closed"),
    [
        (["total_coliform"], ["e_coli"], False),
        (["total_coliform", "e_coli"], ["e_coli"], False),
        (["e_coli"], ["fecal_coliform"], False),
        (["e_coli"], ["e_coli"], True),
        (["total_coliform", "e_coli"], ["total_coliform"], True),
        (["e_coli", "fecal_coliform"], ["e_coli", "fecal_coliform"], True),
    ],
)
def test_a_case_closes_only_by_samples_that_were_tested_for_what_was_found(
    found_first, tested_later, is_closed
):
    """E. coli and fecal coliforms are coliforms: none of these, none of those (from memory)."""
    rows = [result("Present", key, "2025-01-10") for key in found_first]
    for n, day in enumerate(("2025-02-10", "2025-02-12", "2025-04-12"), start=2):
        rows += [result("Absent", key, day, n) for key in tested_later]
    (case,) = cases(bacteria_tests(rows, CATALOGUE), (), NORTHERN)
    assert bool(case.closed) is is_closed
    assert bool(case.clean) is is_closed


def test_clean_tests_open_no_case():
    assert cases([clean("2025-05-06"), clean("2026-05-05")], (), NORTHERN) == ()


def test_a_finding_asks_for_a_second_sample():
    case = the_case(clean("2025-05-06"), found("2026-07-07"))
    assert step(case, NORTHERN) is Step.CONFIRM
    due = case_due(case, outlook("2026-07-09"))
    assert worded(due).panel.name == "Bacteria found on 7 July 2026: second sample"
    assert due.due == date(2026, 7, 8)
    assert due.day == date(2026, 7, 13)  # fetched by Saturday, drawn on Monday
    assert due.urgent


def test_a_second_finding_asks_for_mending_before_another_test():
    case = the_case(found("2026-07-07"), found("2026-07-14"))
    assert step(case, NORTHERN) is Step.MEND
    why = worded(case_due(case, outlook("2026-07-20"))).why
    assert "7 July 2026 and again on 14 July 2026" in why
    assert "by a licensed person where the local code asks for one" in why


def test_after_a_disinfection_a_week_passes_before_the_test():
    work = [done("repair", "2026-07-20"), done("disinfection", "2026-07-21")]
    case = the_case(found("2026-07-07"), found("2026-07-14"), work=work)
    assert step(case, NORTHERN) is Step.RETEST
    assert case_due(case, outlook("2026-07-22")).due == date(2026, 7, 28)


def test_a_clean_test_while_chlorine_may_be_left_does_not_count():
    work = [done("disinfection", "2026-07-21")]
    early = the_case(found("2026-07-07"), clean("2026-07-22"), work=work)
    assert early.clean == ()
    assert the_case(found("2026-07-07"), clean("2026-07-23"), work=work).clean
    hidden = clean("2026-08-23", chlorine=True)
    assert the_case(found("2026-07-07"), hidden, work=work).clean == ()


def test_two_samples_of_one_day_are_one():
    case = the_case(found("2026-07-07"), clean("2026-07-28"), clean("2026-07-28"))
    assert progress(case, NORTHERN).second is None
    assert step(case, NORTHERN) is Step.RETEST


WALK = [
    found("2025-07-08"),
    clean("2025-07-29"),
    clean("2025-08-05"),
    clean("2025-10-07"),
    clean("2026-03-10"),
]


def test_four_clean_samples_walk_a_case_to_its_end():
    steps = [step(the_case(*WALK[:n]), NORTHERN) for n in range(1, 5)]
    assert steps == [Step.CONFIRM, Step.RETEST, Step.WATCH, Step.WET]
    assert the_case(*WALK).closed == date(2026, 3, 10)


def test_the_third_sample_is_wanted_one_to_three_months_after_the_second():
    due = case_due(the_case(*WALK[:3]), outlook("2025-08-10"))
    assert due.due == date(2025, 9, 5)
    assert due.window == (date(2025, 9, 5), date(2025, 11, 5))
    assert not due.urgent


@pytest.mark.parametrize(
    ("scheme", "months"),
    [
        (NORTHERN, {3, 4, 5}),
        (SOUTHERN, {9, 10, 11}),
        (wet_and_dry([11, 12, 1]), {11, 12, 1}),
    ],
)
def test_the_wet_season_is_the_households_own_or_spring(scheme, months):
    assert wet_months(scheme) == months


def test_the_last_sample_is_wanted_in_the_next_wet_season():
    case = the_case(*WALK[:4])
    due = case_due(case, outlook("2025-11-01"))
    assert due.window == (date(2026, 3, 1), date(2026, 5, 31))
    assert case_due(case, outlook("2026-04-10")).window == (date(2026, 4, 17), date(2026, 5, 31))
    own = wet_and_dry([12, 1])
    assert case_due(the_case(*WALK[:4], scheme=own), outlook("2025-11-01", own)).window == (
        date(2025, 12, 1),
        date(2026, 1, 31),
    )


def test_a_sample_in_the_wet_season_may_be_the_later_one_too():
    tests = [found("2026-01-05"), clean("2026-01-12"), clean("2026-01-19"), clean("2026-03-02")]
    assert the_case(*tests).closed == date(2026, 3, 2)


def test_a_finding_in_between_starts_the_count_again():
    case = the_case(*WALK[:4], found("2026-01-06"))
    assert case.clean == ()
    assert case.closed is None
    assert step(case, NORTHERN) is Step.MEND


def test_a_disinfection_in_between_starts_the_count_again():
    case = the_case(*WALK[:4], work=[done("disinfection", "2025-11-11")])
    assert case.clean == ()
    assert step(case, NORTHERN) is Step.RETEST


def test_yearly_autumn_tests_close_an_old_case_after_two_years():
    years = [clean(f"{year}-10-05") for year in (2010, 2011, 2012, 2013)]
    assert the_case(found("2009-10-06"), *years[:3]).closed is None
    assert the_case(found("2009-10-06"), *years).closed == date(2013, 10, 5)


@pytest.mark.parametrize(("last", "closed"), [("2012-10-04", False), ("2012-10-05", True)])
def test_two_years_are_two_whole_years(last, closed):
    days = ("2010-10-05", "2011-10-04", "2011-11-01", last)
    case = the_case(found("2009-10-06"), *map(clean, days))
    # No test fell into spring, so only the long run of clean ones can close it.
    assert (case.closed is not None) is closed


def test_a_later_finding_opens_a_case_of_its_own():
    first, second = cases([*WALK, found("2026-09-01")], (), NORTHERN)
    assert first.closed
    assert second.opened == date(2026, 9, 1)
    assert second.closed is None


def test_a_test_that_says_nothing_neither_helps_nor_harms():
    case = the_case(found("2026-07-07"), clean("2026-07-28"), nothing("2026-08-04"))
    assert case.clean == (date(2026, 7, 28),)


def test_after_a_test_that_says_nothing_a_new_one_is_asked_for():
    due = again_due([clean("2026-05-05"), nothing("2026-07-07")], outlook("2026-07-10"))
    assert due.due == date(2026, 7, 7)
    assert due.urgent
    assert again_due([nothing("2026-05-05"), clean("2026-07-07")], outlook("2026-07-10")) is None
    assert again_due([], outlook("2026-07-10")) is None


def test_a_finding_behind_treatment_asks_for_raw_water_too():
    case = the_case(found("2026-07-07"))
    ahead = outlook("2026-07-09")
    due = raw_too(case, ahead, [clean("2026-05-05")])
    assert (due.due, due.last, due.overdue_days) == (date(2026, 7, 8), date(2026, 5, 5), 1)
    assert raw_too(case, ahead, []).last is None
    assert raw_too(case, ahead, [clean("2026-07-07")]) is None
    assert raw_too(case, ahead, [clean("2026-05-05"), found("2026-07-08")]) is None
    assert raw_too(case, ahead, [nothing("2026-07-08")]) is not None


def test_the_reason_tells_what_was_found_when_and_what_is_next():
    first = BacteriaTest(date(2026, 7, 7), Sign.FOUND, ("Total coliform", "E. coli"))
    work = [done("disinfection", "2026-07-21")]
    steps = {
        (): "Total coliform, E. coli found on 7 July 2026. Draw a second sample with a clean",
        (found("2026-07-14"),): "found on 7 July 2026 and again on 14 July 2026. Find the way in",
        (clean("2026-07-28"),): "The sample of 28 July 2026 found nothing; a second one has to",
        (clean("2026-07-28"), clean("2026-08-04")): "Two samples found nothing since.",
    }
    for more, said in steps.items():
        assert said in worded(case_due(the_case(first, *more), outlook("2026-09-07"))).why
    mended = case_due(the_case(first, work=work), outlook("2026-07-22"))
    assert "Last work on the well: 21 July 2026." in worded(mended).why
    assert mended.last == date(2026, 7, 7)
    unmended = case_due(the_case(first, clean("2026-07-28")), outlook("2026-07-30"))
    assert "No repair is noted: look for the way in all the same." in worded(unmended).why
    assert unmended.last == date(2026, 7, 28)
    once = the_case(first, clean("2026-07-28"), work=work)
    assert "No repair" not in worded(case_due(once, outlook("2026-07-30"))).why


def test_a_case_is_not_overdue_before_its_day():
    case = the_case(found("2026-07-07"))
    assert case_due(case, outlook("2026-07-07")).overdue_days == 0
    assert case_due(case, outlook("2026-07-08")).overdue_days == 0
    assert case_due(case, outlook("2026-07-11")).overdue_days == 3


def test_a_postponed_sample_of_a_case_is_not_suggested_earlier():
    due = case_due(the_case(found("2026-07-07")), outlook("2026-07-09"), date(2026, 8, 3))
    assert due.due == date(2026, 8, 3)
    assert due.day == date(2026, 8, 3)


days = st.integers(0, 1500).map(lambda n: date(2020, 1, 1) + timedelta(days=n))
histories = st.lists(
    st.builds(BacteriaTest, days, st.sampled_from(Sign)), max_size=12, unique_by=lambda t: t.day
).map(lambda tests: sorted(tests, key=lambda test: test.day))
works = st.lists(
    st.builds(
        lambda kind, day: done(kind, day.isoformat()),
        st.sampled_from(["repair", "disinfection", "flood"]),
        days,
    ),
    max_size=4,
)


@given(histories, works, st.sampled_from([NORTHERN, SOUTHERN, wet_and_dry([4, 5])]))
def test_a_case_is_open_until_the_stated_rule_is_met(tests, work, scheme):
    opened = cases(tests, work, scheme)
    assert all(case.closed for case in opened[:-1])
    for case in opened:
        if case.closed is None:
            due = case_due(case, outlook("2024-06-03", scheme))
            assert due.window[0] <= due.window[1]
            assert worded(due).why.endswith(".")
            continue
        inside = [test for test in tests if case.findings[-1] < test.day <= case.closed]
        assert not any(test.sign is Sign.FOUND for test in inside)
        assert len(case.clean) >= 3
        assert case.clean[-1] == case.closed
        assert (case.clean[-1] - case.clean[0]).days > 28


@given(histories, works)
def test_every_finding_belongs_to_exactly_one_case(tests, work):
    told = [day for case in cases(tests, work, NORTHERN) for day in case.findings]
    assert told == [test.day for test in tests if test.sign is Sign.FOUND]
