"""What happened and what is left open, in sentences of page one; no page is set for that."""

from dataclasses import replace
from datetime import date

import household
import pytest

from wellbook.packet.answers import answer, case_words, gaps, house, unknowns
from wellbook.packet.gather import gather
from wellbook.packet.letters import letter, sentences
from wellbook.sharing.excerpt import LeftOut
from wellbook.support import paths
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Verdict

CATALOGUE = read_catalogue(paths.resources())
CAUTIONS = read_cautions(paths.resources() / "cautions.toml")
TODAY = date(2026, 11, 25)


@pytest.fixture
def told(tmp_path):
    """The history of a tap, for tests as day and results, and events as kind, day and text."""

    def gathered(*tests, events=(), today=TODAY, settings=None):
        with household.new_book(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            well = book.add_well("Home")
            tap = book.add_point(well, "Tap")
            for kind, day, text in events:
                book.add_event(well, kind, day, text=text)
            for day, *results in tests:
                book.add_sample(household.sample(tap, day, *results))
            book.set_settings(settings or {})
            return gather(book.record(), CATALOGUE, today, with_personal=False)

    return gathered


def coli(text, key="e_coli"):
    return household.result(key, CATALOGUE.parameters[key].name, text, "MPN/100 mL")


def metal(key, text):
    return household.result(key, CATALOGUE.parameters[key].name, text, "mg/L")


@pytest.mark.parametrize(
    ("day", "age"),
    [
        ("2026-11-25", "0 days"),
        ("2026-11-24", "1 day"),
        ("2026-10-26", "30 days"),
        ("2026-10-25", "1 month"),
        ("2026-09-26", "1 month"),
        ("2024-11-26", "23 months"),
        ("2024-11-25", "2 years"),
        ("2024-10-26", "2 years"),
        ("2024-10-25", "2 years and 1 month"),
        ("2020-12-25", "5 years and 11 months"),
    ],
)
def test_an_age_is_told_in_days_months_or_years_none_of_them_rounded_up(day, age):
    assert gaps.age(date.fromisoformat(day), TODAY) == age


def test_what_was_never_tested_is_named_what_can_hurt_first_and_counted_from_the_ninth_on(told):
    core = {key for panel in CATALOGUE.panels.values() for key in panel.core}
    said = gaps.told(told(("2024-11-25", coli("absent"), metal("arsenic", "<0.001"))))
    never, newest = said.split(". ", 1)
    names = never.removeprefix("Never tested: ").partition(" and ")[0].split(", ")
    assert len(names) == 8
    assert names[0] == CATALOGUE.parameters[next(iter(CATALOGUE.panels["before_baby"].core))].name
    assert f"and {len(core) - 2 - 8} more" in never
    assert not {"E. coli", "Arsenic"} & {*names}
    assert newest == "The newest test was drawn on 25 Nov 2024: it is 2 years old."
    on_the_day = gaps.told(told(("2026-11-25", coli("absent"))))
    assert on_the_day.endswith("The newest test was drawn on 25 Nov 2026.")


def test_what_was_not_analysed_was_never_tested(told):
    seen = told(("2024-11-25", household.result("e_coli", "E. coli", "")), settings={})
    assert gaps.last_days(seen, seen.wells[0]) == {}
    later = told(("2020-01-02", coli("absent")), ("2021-01-02", coli("absent")))
    assert gaps.last_days(later, later.wells[0]) == {"e_coli": date(2021, 1, 2)}


# In the 120 days up to a finding an event may have led to it: our own bound.
@pytest.mark.parametrize(
    ("event", "said"),
    [
        (("flood", "2021-07-20", ""), "Before it: flood (20 Jul 2021)."),
        (("flood", "2021-03-22", "Creek over the cap."), "flood, Creek over the cap (22 Mar 2021)"),
        (("flood", "2021-03-21", ""), ""),
        (("flood", "2021-07-21", ""), ""),
        (("flood", "2021-77", ""), ""),
        (("repair", "2021-07-20", ""), "After it: repair (20 Jul 2021)."),
        (("repair", "2021-09-01", ""), "After it: repair (1 Sep 2021)."),
        (("repair", "2021-09-02", ""), ""),  # the clean test was drawn before
        (("repair", "2021-07-19", ""), ""),
    ],
)
def test_what_went_before_a_finding_and_what_was_done_until_it_was_clean(told, event, said):
    seen = told(("2021-07-20", coli("4.2")), ("2021-09-01", coli("<1")), events=[event])
    (sentence,) = answer.happened(seen)
    assert said in sentence
    assert ("Before it" in sentence or "After it" in sentence) is bool(said)


def test_how_a_run_of_findings_ended_is_told_with_how_many_tests_show_it(told):
    found = ("2021-07-20", coli("4.2"))
    clean = [(day, coli("<1")) for day in ("2021-09-01", "2022-03-01", "2023-03-01")]
    (said,) = answer.happened(told(found, clean[0]))
    assert said.endswith("Since then none were found in 1 test there, on 1 Sep 2021.")
    (said,) = answer.happened(told(found, *clean))
    assert said.endswith("Since then none were found in 3 tests there, the last on 1 Mar 2023.")
    first, second = answer.happened(told(found, clean[0], ("2022-07-20", coli("2"))))
    assert first.endswith("Next clean test: 1 Sep 2021; bacteria were found again on 20 Jul 2022.")
    assert second.endswith("No test since has shown that it ended.")
    (said,) = answer.happened(told(clean[0], ("2022-01-02", coli("2")), ("2022-01-09", coli("9"))))
    assert said.startswith("Tap: E. coli 2 MPN/100 mL found on 2 Jan 2022; E. coli 9 MPN/100 mL")


@pytest.mark.parametrize("what", ["another kind", "chlorine"])
def test_a_run_of_findings_is_not_ended_by_a_test_that_can_t_show_it(told, what):
    """Chlorine hides bacteria; without E. coli there may be other coliforms (from memory)."""
    found = ("2021-07-20", coli("4", "total_coliform"), coli("<1"))
    chlorine = household.result("chlorine_residual", "Chlorine", "0.4", "mg/L")
    later = {"another kind": [coli("<1")], "chlorine": [coli("<1", "total_coliform"), chlorine]}
    (said,) = answer.happened(told(found, ("2021-09-01", *later[what])))
    assert said.endswith("No test since has shown that it ended.")
    whole = ("2021-10-01", coli("<1", "total_coliform"), coli("<1"))
    (said,) = answer.happened(told(found, ("2021-09-01", *later[what]), whole))
    assert said.endswith("Since then none were found in 1 test there, on 1 Oct 2021.")


def test_the_worst_of_a_long_run_is_the_most_of_the_worst_kind(told):
    rows = [(f"2021-0{n}-10", coli("800", "total_coliform")) for n in range(1, 8)]
    rows[2] = ("2021-03-10", coli("3"), coli("5", "total_coliform"))
    rows[4] = ("2021-05-10", coli("2"), coli("900", "total_coliform"))
    (said,) = answer.happened(told(*rows))
    assert "bacteria were found in 7 tests" in said
    days = [part.partition(" found on ")[2][:11] for part in said.split(";")[1:]]
    assert days == ["10 Jan 2021", "10 Mar 2021", "10 Jul 2021"]


def test_what_was_once_over_is_told_with_its_highest_reading_and_how_often_it_was_not_since(told):
    rows = [("2010-05-03", "0.030"), ("2012-05-03", "0.045"), ("2013-05-03", "<0.05"),
            ("2014-05-03", "0.002"), ("2015-05-03", "<0.001")]  # fmt: skip
    seen = told(*((day, metal("arsenic", text)) for day, text in rows))
    (several,) = answer.happened(seen)
    assert several.endswith("It was not over in 2 tests since.")
    assert several.startswith(
        "Arsenic, Tap: over a limit for health in 2 tests, at most 0.045 mg/L on 3 May 2012."
    )
    (once,) = answer.happened(told(*((day, metal("arsenic", text)) for day, text in rows[1:3])))
    assert once.startswith("Arsenic, Tap: over a limit for health in 1 test, 0.045 mg/L on 3 May")
    assert once.endswith("No test since has shown that it ended."), "the lab could not see it"


def test_more_than_eight_findings_are_counted(told):
    rows = [(f"{year}-05-03", coli("3" if year % 2 else "<1")) for year in range(2001, 2019)]
    assert len(answer.happened(told(*rows[:16]))) == 8
    said = answer.happened(told(*rows))
    assert len(said) == 9
    assert said[-1].startswith("And 1 more such finding:")


def test_of_each_asked_parameter_the_worst_of_its_group_stands_at_each_point(told):
    seen = told(("2024-05-03", coli("<1"), coli("5", "total_coliform"), metal("lead", "0.002")))
    rows = {row.name: row for row in answer.rows(seen)}
    assert rows["Bacteria: Total coliform"].reading == "5 MPN/100 mL"
    assert (rows["Lead"].point, rows["Lead"].day) == ("Tap", date(2024, 5, 3))
    assert rows["Nitrate"].judgement is None
    assert rows["Nitrate"].reading == "never tested"
    part = replace(seen, left_out=LeftOut(1, 2, 0, 0, 1, ("from 2024",), {}))
    assert {row.reading for row in answer.rows(part) if row.judgement is None} == {
        "not in what is here"
    }


def test_open_and_closed_cases_are_told_apart(told):
    seen = told(("2024-06-01", coli("4")), ("2024-07-10", coli("<1")), ("2024-07-20", coli("<1")),
                ("2025-04-20", coli("<1")), ("2026-06-01", metal("arsenic", "0.05")))  # fmt: skip
    assert case_words.open_cases(seen) == ["Open cases: Arsenic, Tap, since 1 Jun 2026."]
    assert case_words.closed_cases(seen) == [
        "Closed cases: E. coli, Tap, 1 Jun 2024 to 20 Apr 2025."
    ]
    assert case_words.open_cases(told()) == case_words.closed_cases(told()) == []


def with_log(history, **log):
    (facts,) = history.wells
    well = replace(facts.well, construction=log)
    return replace(facts, overview=replace(facts.overview, well=well))


def test_what_a_treatment_has_to_fit_is_told_from_the_log_or_not_known(told):
    facts = with_log(told(), **{"Pump yield": "8 gpm", "flow": "6 gpm", "Pipe size": "1 in"})
    rows = dict(house.house(facts))
    assert rows["Flow, steady and at most"] == "Pump yield: 8 gpm; flow: 6 gpm"
    assert rows["Pipe, size and material"] == "Pipe size: 1 in"
    assert rows["Drain for a backwash"] == "not known"


def test_what_nobody_wrote_down_is_asked_for(told):
    bare = told()
    assert unknowns.not_known(bare)[-1] == (
        "Not written down: distance to the septic system, flow, water pressure."
    )
    facts = with_log(bare, **{"Septic tank": "120 ft", "yield": "8 gpm", "pressure": "40 psi"})
    assert not any(
        "Not written down" in said for said in unknowns.not_known(replace(bare, wells=(facts,)))
    )
    assert len(unknowns.to_ask(bare)) == 2, "no report goes along that could be compared"


def rows_of(history, recipient):
    return [row.name for row in letter.letter(history, recipient, CAUTIONS).rows]


def test_a_letter_lists_what_can_harm_first_then_what_its_reader_asks_after(told):
    seen = told(("2024-05-03", metal("iron", "0.9"), metal("arsenic", "0.05"),
                 metal("nitrate", "1"), metal("silica", "12")))  # fmt: skip
    assert rows_of(seen, sentences.DOCTOR) == ["Arsenic", "Nitrate"]
    assert rows_of(seen, sentences.DEALER) == ["Arsenic", "Iron", "Nitrate", "Silica"]
    notes = letter.letter(seen, sentences.DOCTOR, CAUTIONS).notes
    assert "Outside a level for taste, look or operation, too: Iron." in notes
    assert not any("Outside a level" in one for one in
                   letter.letter(seen, sentences.DEALER, CAUTIONS).notes)  # fmt: skip


@pytest.mark.parametrize(("n", "past"), [(3, 3), (4, 4), (6, 4)])
def test_a_letter_tells_three_past_findings_and_counts_the_others(told, n, past):
    rows = [(f"{2000 + k}-05-03", coli("<1" if k % 2 else "3")) for k in range(2 * n)]
    said = letter.letter(told(*rows), sentences.DOCTOR, CAUTIONS).past
    assert len(said) == past
    more = {3: "Tap:", 4: "And 1 more such finding.", 6: "And 3 more such findings."}[n]
    assert said[-1].startswith(more)


def test_no_letter_cautions_a_dealer_and_others_read_what_presses_first(told):
    all_of_it = [coli("4"), *(metal(key, "9") for key in ("iron", "arsenic", "lead", "sodium"))]
    seen = told(("2024-05-03", *all_of_it))
    doctor, department, dealer = (
        letter.letter(seen, one, CAUTIONS).cautions
        for one in (sentences.DOCTOR, sentences.DEPARTMENT, sentences.DEALER)
    )
    assert doctor[0].startswith("E. coli")
    assert (len(doctor), len(department), dealer) == (3, 3, ())


def test_what_can_harm_is_told_before_what_only_tastes_each_with_limit_day_and_trend(told):
    # 40 CFR 141.62 for arsenic and 143.3 for iron.
    seen = told(("2024-05-03", metal("iron", "0.9"), metal("arsenic", "0.05"),
                 metal("lead", "0.001")))  # fmt: skip
    found = answer.standings(seen)
    assert [(verdict, harm) for verdict, harm, _said in found] == [
        (Verdict.OUTSIDE, True),
        (Verdict.OUTSIDE, False),
    ]
    assert found[0][2].startswith("Arsenic, Tap: 0.05 mg/L on 3 May 2024. ")
    assert found[0][2].endswith("Limit: up to 0.010 mg/L (health).")
    assert "Limit: up to 0.3 mg/L (taste" in found[1][2]


def test_a_limit_stands_beside_its_result_in_the_unit_of_that(told):
    arsenic = household.result("arsenic", "Arsenic", "50", "µg/L")
    seen = told(("2024-05-03", arsenic, metal("hardness", "100")))
    (point,) = seen.wells[0].overview.points
    bounds = {one.parameter.key: answer.bound_words(one) for one in point.standings}
    assert bounds["arsenic"].startswith("up to 10 µg/L")
    assert bounds["hardness"] == "–"
    assert {row.name: row.limit for row in answer.rows(seen)}["Arsenic"] == "up to 10 µg/L"


def test_where_nothing_is_missing_nothing_is_said_to_be(told):
    seen = told(("2026-11-25", coli("absent")))
    few = replace(seen, catalogue=replace(seen.catalogue, panels={}))
    assert gaps.told(few) == "The newest test was drawn on 25 Nov 2026."
    facts = with_log(seen, **{"Septic tank": "120 ft"})
    assert unknowns.not_known(replace(seen, wells=(facts,)))[-1] == (
        "Not written down: flow, water pressure."
    )


def test_a_letter_says_where_results_were_left_out_of_it(told):
    seen = told(("2024-05-03", metal("arsenic", "0.05")))
    said = "Results were left out of this letter by choice."
    part = replace(seen, left_out=LeftOut(1, 2, 0, 0, 1, ("from 2024",), {}))
    for history, is_said in ((seen, False), (part, True)):
        assert (said in letter.letter(history, sentences.DOCTOR, CAUTIONS).notes) is is_said


def test_a_letter_counts_each_row_that_has_no_room(told, monkeypatch):
    keys = ("arsenic", "lead", "uranium")
    seen = told(("2024-05-03", *(metal(key, "9") for key in keys)))
    for most, said in ((3, ""), (2, "1 more result is not on"), (1, "2 more results are not on")):
        monkeypatch.setattr(letter, "_MOST_ROWS", most)
        found = letter.letter(seen, sentences.DOCTOR, CAUTIONS)
        assert len(found.rows) == most
        assert any("more result" in note for note in found.notes) is bool(said)
        assert any(note.startswith(said) for note in found.notes)


def test_a_letter_tells_a_sum_that_is_over_though_none_of_its_parts_is(told):
    """Nitrate and nitrite together: 10 mg/L as N (40 CFR 141.62)."""
    parts = [household.result(key, key, text, "mg/L", basis="as N")
             for key, text in (("nitrate", "9.6"), ("nitrite", "0.9"))]  # fmt: skip
    first = letter.letter(told(("2024-05-03", *parts)), sentences.DOCTOR, CAUTIONS).rows[0]
    assert (first.name, first.point, first.day) == ("Nitrate + nitrite", "Tap", date(2024, 5, 3))
    assert (first.reading, first.limit) == ("10.5 mg/L as N", "up to 10 mg/L as N")
    assert first.judgement.verdict is Verdict.OUTSIDE


def test_what_is_over_a_limit_is_told_before_what_is_over_one_to_come(told):
    """Lead at 12 µg/L: over 10 µg/L from 1 Nov 2027 on (40 CFR 141.80(c), 89 FR 86418)."""
    seen = told(("2024-05-03", metal("lead", "0.012"), metal("arsenic", "0.05")))
    found = [(verdict, said.partition(",")[0]) for verdict, _harm, said in answer.standings(seen)]
    assert found == [(Verdict.OUTSIDE, "Arsenic"), (Verdict.ADOPTED, "Lead")]
    assert "It starts on 1 Nov 2027." in answer.standings(seen)[1][2]


@pytest.mark.parametrize(
    ("recipient", "points", "shown"),
    [
        (sentences.DEALER, {"Tank": (False, "1"), "Tap": (True, "400")}, "Tank"),  # raw water
        (
            sentences.DEPARTMENT,
            {"Tank": (False, "1"), "Tap": (True, "400")},
            "Tap",
        ),  # the worse one
        (sentences.DEPARTMENT, {"Tank": (False, "4"), "Tap": (True, "<1")}, "Tank"),
        (sentences.DEALER, {"Tap": (True, "4")}, "Tap"),  # there is no raw water
    ],
)
def test_a_letter_tells_a_dealer_of_raw_water_and_others_of_the_worst(
    tmp_path, recipient, points, shown
):
    """Chloride: 250 mg/L, for taste (40 CFR 143.3)."""
    with household.new_book(tmp_path / "b.wellbook") as book:
        well = book.add_well("Home")
        for name, (treated, text) in points.items():
            tap = book.add_point(well, name, treated=treated)
            book.add_sample(household.sample(tap, "2024-05-03", metal("chloride", text)))
        seen = gather(book.record(), CATALOGUE, TODAY, with_personal=False)
    found = [(name, point, one) for name, point in answer.points(seen) for one in point.by_urgency]
    rows = letter._asked(found, recipient)
    assert [name for name, _point, _one in rows] == [shown]
