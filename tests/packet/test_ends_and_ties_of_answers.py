"""Where answers and letters of page one turn: ties, ends of a count, several wells, one or many."""
# ruff: noqa: F811  the fixture of the other module is an argument here

from dataclasses import replace
from datetime import date

import household
import pytest
from test_answers_in_sentences import (  # noqa: F401  a fixture
    CATALOGUE,
    CAUTIONS,
    TODAY,
    coli,
    metal,
    told,
    with_log,
)

from wellbook.book.rows import Event, TreatmentUnit
from wellbook.packet.answers import answer, bacteria_runs, case_words, gaps, house, unknowns
from wellbook.packet.gather import gather
from wellbook.packet.letters import letter, sentences
from wellbook.sharing.excerpt import LeftOut
from wellbook.sharing.sources import LeftBehind, Source
from wellbook.water.values.judgement import Judgement, Verdict


@pytest.fixture
def filled(tmp_path):
    """The history of a book that a function has filled."""

    def gathered(fill, *, with_personal=False):
        with household.new_book(tmp_path / f"{len([*tmp_path.iterdir()])}.wellbook") as book:
            fill(book)
            return gather(book.record(), CATALOGUE, TODAY, with_personal=with_personal)

    return gathered


def two_wells(book):
    """Home was tested for arsenic in 2024, the barn, which has a tap of that name, in 2022."""
    for name, day, text in (("Home", "2024-05-03", "0.02"), ("Barn", "2022-05-03", "0.05")):
        well = book.add_well(name, address="4 Fen Road", coordinates=f"44.1, -72.{len(name)}")
        tap = book.add_point(well, "Tap")
        book.add_sample(household.sample(tap, day, metal("arsenic", text)))


def test_of_several_wells_each_point_bears_the_name_of_its_well(filled):
    seen = filled(two_wells)
    assert [name for name, _point in answer.points(seen)] == ["Home: Tap", "Barn: Tap"]
    # 0.05 is five times the limit, 0.02 twice: 40 CFR 141.62.
    assert [said.partition(" on ")[0] for _verdict, _harm, said in answer.standings(seen)] == [
        "Arsenic, Barn: Tap: 0.05 mg/L",
        "Arsenic, Home: Tap: 0.02 mg/L",
    ]
    assert [row.point for row in answer.rows(seen) if row.name == "Arsenic"] == [
        "Home: Tap",
        "Barn: Tap",
    ]
    assert [name for name, _said in letter.letter(seen, sentences.DOCTOR, CAUTIONS).house] == [
        "Home",
        "Barn",
    ]


def test_of_several_wells_each_has_its_gaps_and_the_newest_test_is_of_them_all(filled):
    seen = filled(two_wells)
    said = gaps.told(seen)
    assert said.startswith("Never tested at Home: ")
    assert said.count("Never tested at ") == 2
    assert "Never tested at Barn: " in said
    assert said.endswith("The newest test was drawn on 3 May 2024: it is 2 years and 6 months old.")
    behind = LeftBehind(1, 3, 1, 12, 24, ("one",))
    cut = Source("AB", True, "", "", "", behind, "", (), (), ())  # noqa: FBT003
    said = gaps.told(replace(seen, sources=(cut,)))
    assert said.startswith("Home: Not in what is here, whether or not it was ever tested: ")
    home, _barn = seen.wells
    said = gaps.told(replace(seen, wells=(home,), sources=(cut,)))
    assert said.startswith("Not in what is here, whether or not it was ever tested: ")
    assert gaps.told(replace(seen, wells=())).startswith("Never tested: ")


def test_what_a_choice_leaves_out_was_tested_all_the_same_at_its_own_well(filled):
    seen = filled(two_wells)
    home, barn = seen.wells
    days = {(home.well.id, "lead"): date(2020, 1, 2), (barn.well.id, "iron"): date(2021, 1, 2)}
    part = replace(seen, left_out=LeftOut(1, 2, 0, 0, 1, ("from 2024",), days))
    assert gaps.last_days(part, home) == {"lead": date(2020, 1, 2)}
    assert gaps.last_days(part, barn) == {"iron": date(2021, 1, 2)}
    assert gaps.last_days(seen, barn) == {"arsenic": date(2022, 5, 3)}


def test_wells_whose_names_are_covered_keep_their_own_gaps(filled):
    """Both are called `[covered: personal]`, and only one was tested for arsenic."""

    def fill(book):
        for name, key in (("Ada Brock", "arsenic"), ("Bo Larch", "lead")):
            tap = book.add_point(book.add_well(name), "Tap")
            book.add_sample(household.sample(tap, "2024-05-03", metal(key, "0.001"), sampler=name))

    seen = filled(fill)
    assert len({facts.well.name for facts in seen.wells}) == 1
    assert [[*gaps.last_days(seen, facts)] for facts in seen.wells] == [["arsenic"], ["lead"]]


@pytest.mark.parametrize("names", [7, 8, 9, 10])
def test_eight_names_are_told_and_the_others_counted(told, names):
    seen = told()
    keys = [*CATALOGUE.parameters][:names]
    (panel, *_others) = CATALOGUE.panels.values()
    panels = {"one": replace(panel, core=tuple(keys))}
    said = gaps.told(replace(seen, catalogue=replace(CATALOGUE, panels=panels)))
    shown = ", ".join(CATALOGUE.parameters[key].name for key in keys[:8])
    more = f" and {names - 8} more" if names > 8 else ""
    assert said == f"Never tested: {shown}{more}."


def test_what_can_hurt_is_named_before_other_groups(told):
    seen, panels = told(), CATALOGUE.panels
    cores = {
        "minerals": "zinc",
        "fluoride": "fluoride",
        "radon": "radon_222",
        "before_sale": "lead",
    }
    chosen = {key: replace(panels[key], core=(one,)) for key, one in cores.items()}
    said = gaps.told(replace(seen, catalogue=replace(CATALOGUE, panels=chosen)))
    assert said == "Never tested: Lead, Radon-222, Fluoride, Zinc."


@pytest.mark.parametrize(("n", "parts"), [(1, 1), (2, 2), (5, 5), (6, 4)])
def test_five_findings_of_a_run_are_told_one_by_one(told, n, parts):
    """Of six the first, the worst and the last, after their number."""
    texts = ["9", "2", "3", "99", "4", "5"]
    rows = [(f"2021-0{k}-10", coli(text)) for k, text in enumerate(texts[:n], start=1)]
    (said,) = answer.happened(told(*rows))
    told_there = said.partition(". No test")[0].removeprefix("Tap: ").split("; ")
    assert len(told_there) == parts
    assert ("bacteria were found in 6 tests" in said) is (n > 5)
    assert told_there[-1].startswith(f"E. coli {texts[n - 1]} MPN/100 mL found on 10 ")
    if n > 5:
        assert told_there[2].startswith("E. coli 99 ")


def test_the_first_and_the_last_of_a_long_run_are_told_once_where_they_are_the_worst(told):
    rows = [(f"2021-0{k}-10", coli("9" if k == 1 else "2")) for k in range(1, 7)]
    (said,) = answer.happened(told(*rows))
    assert said.count("found on") == 2
    alike = [(f"2021-0{k}-10", coli("9" if k in {3, 4} else "2")) for k in range(1, 7)]
    (said,) = answer.happened(told(*alike))
    assert "9 MPN/100 mL found on 10 Mar 2021" in said, "of two alike the first"


def test_tests_that_say_nothing_are_counted_after_the_clean_ones(told):
    """A bound above one leaves open whether there were any: common practice, no source."""
    found, clean = ("2021-07-20", coli("4.2")), ("2021-09-01", coli("<1"))
    silent = [(f"2022-0{k}-10", coli("<10")) for k in (1, 2)]
    (said,) = answer.happened(told(found, clean, silent[0]))
    assert said.endswith(", on 1 Sep 2021. 1 more test says nothing either way.")
    (said,) = answer.happened(told(found, clean, *silent))
    assert said.endswith(", on 1 Sep 2021. 2 more tests say nothing either way.")
    (said,) = answer.happened(told(found, silent[0], ("2022-03-10", coli("2"))))
    assert "found on 20 Jul 2021; E. coli 2 MPN/100 mL found on 10 Mar 2022" in said
    assert "10 Jan" not in said, "it found nothing"
    assert said.endswith("No test since has shown that it ended.")
    assert answer.happened(told(silent[0])) == []


def test_findings_of_one_test_are_named_once_and_what_was_not_found_is_not(told):
    (said,) = answer.happened(
        told(("2021-07-20", coli("<1"), coli("7", "total_coliform"), coli("7", "total_coliform")))
    )
    assert said.startswith("Tap: Total coliform 7 MPN/100 mL found on 20 Jul 2021.")
    two = told(("2021-07-20", coli("3"), coli("7", "total_coliform")))
    (said,) = answer.happened(two)
    assert "E. coli 3 MPN/100 mL, Total coliform 7 MPN/100 mL found on" in said


@pytest.mark.parametrize("kind", ["repair", "pump", "disinfection", "treatment"])
def test_what_mends_a_well_is_told_after_a_finding_and_never_as_its_cause(told, kind):
    events = [(kind, "2021-07-01", ""), (kind, "2021-08-01", ""), ("flood", "2021-08-02", "")]
    (said,) = answer.happened(told(("2021-07-20", coli("4")), events=events))
    assert "Before it" not in said
    assert "(1 Aug 2021)" in said.partition("After it: ")[2]
    assert "Jul 2021)" not in said.partition("After it: ")[2]
    assert "2 Aug" not in said


def test_several_events_are_told_one_after_another_each_as_it_was_written(told):
    events = [("flood", "2021-07-01", "Cap under water.."), ("flood", "2021-07", "")]
    (said,) = answer.happened(told(("2021-07-20", coli("4")), events=events))
    assert "Before it: " in said
    assert "flood, Cap under water (1 Jul 2021)" in said
    assert "flood (Jul 2021)" in said
    assert said.count(";") == 1


def test_bacteria_of_a_point_are_no_finding_of_another(filled):
    def fill(book):
        well = book.add_well("Home")
        for name, text in (("Tank", "4"), ("Tap", "<1")):
            point = book.add_point(well, name)
            book.add_sample(household.sample(point, "2021-07-20", coli(text)))

    (said,) = answer.happened(filled(fill))
    assert said.startswith("Tank: E. coli 4 ")


def test_a_finding_without_a_figure_of_its_own_is_told_by_its_name(told):
    seen = told(("2021-07-20", coli("4")))
    (point,) = seen.wells[0].overview.points
    tests = bacteria_runs.tests_at(seen, point)
    (found,) = bacteria_runs.bacteria_tests([one.result for one in tests[0].results], CATALOGUE)
    assert bacteria_runs._finding([], found) == "E. coli found on 20 Jul 2021"
    assert bacteria_runs._worst_of([], [found, found]) == 0


def lead(text, draw=""):
    return household.result("lead", "Lead", text, "µg/L", draw=draw)


def test_how_a_sample_was_drawn_stands_with_its_point(told):
    seen = told(("2024-05-03", lead("40", "first draw")))
    ((_verdict, _harm, said),) = answer.standings(seen)
    assert said.startswith("Lead, Tap, first draw: 40 µg/L on 3 May 2024. ")
    (row,) = [row for row in answer.rows(seen) if row.name == "Lead"]
    assert row.point == "Tap, first draw"
    (shown,) = letter.letter(seen, sentences.DOCTOR, CAUTIONS).rows
    assert shown.point == "Tap, first draw"
    since = told(("2024-05-03", lead("40", "first draw")), ("2025-05-03", lead("1", "first draw")))
    (once,) = answer.happened(since)
    assert once.startswith("Lead, Tap, first draw: over a limit for health in 1 test, 40 µg/L on")


def test_two_readings_of_one_test_are_one_test(told):
    rows = [("2014-05-03", lead("40", "first draw"), lead("30", "flushed")),
            ("2015-05-03", lead("1", "first draw"), lead("2", "flushed"))]  # fmt: skip
    (once,) = answer.happened(told(*rows))
    assert "over a limit for health in 1 test, 40 µg/L on 3 May 2014" in once
    assert once.endswith("It was not over in 1 test since.")


def test_a_sum_that_needs_attention_is_told_as_ours_with_its_limit(told):
    """Nitrate and nitrite together: 10 mg/L as N (40 CFR 141.62)."""
    parts = [household.result(key, key, text, "mg/L", basis="as N")
             for key, text in (("nitrate", "9.6"), ("nitrite", "0.9"))]  # fmt: skip
    said = [said for _verdict, _harm, said in answer.standings(told(("2024-05-03", *parts)))]
    assert said[0].startswith("Nitrate + nitrite, Tap: 10.5 mg/L as N on 3 May 2024. ")
    assert said[0].endswith(
        "Limit: up to 10 mg/L as N (health). Added up here, no lab reported it."
    )
    assert not any("Added up" in one for one in said[1:])


@pytest.mark.parametrize(("way", "is_told"), [(1, True), (-1, False)])
def test_only_what_rises_is_said_to_rise(told, way, is_told):
    years = range(2010, 2024)[::way]
    rows = [(f"{year}-05-03", metal("arsenic", f"0.0{20 + k}")) for k, year in enumerate(years)]
    ((_verdict, _harm, said),) = answer.standings(told(*sorted(rows)))
    assert said.endswith("It is rising over the years.") is is_told


def test_what_was_over_by_the_limit_of_either_day_was_over(told):
    """Arsenic: 0.05 mg/L until 2006, 0.010 since (40 CFR 141.62); iron is a matter of taste."""
    rows = [("2003-05-03", metal("arsenic", "0.030"), metal("iron", "9")),
            ("2010-05-03", metal("arsenic", "<0.001"), metal("iron", "0.1"))]  # fmt: skip
    (said,) = answer.happened(told(*rows))
    assert said.startswith("Arsenic, Tap: over a limit for health in 1 test, 0.030 mg/L on 3 May")
    still = [("2003-05-03", metal("arsenic", "0.030")), ("2010-05-03", metal("arsenic", "0.020"))]
    assert answer.happened(told(*still)) == [], "it is over now, and told as that"


def test_the_most_of_what_has_no_limit_any_more_is_told_all_the_same(told):
    """Nickel: 0.1 mg/L from 17 Jan 1994 until it was taken back on 9 Feb 1995 (40 CFR 141.62)."""
    rows = [(day, metal("nickel", text)) for day, text in
            (("1994-02-03", "0.3"), ("1994-08-03", "0.2"))]  # fmt: skip
    (said,) = answer.happened(told(*rows, settings={"limit_sets": "us-epa-primary"}))
    assert "over a limit for health in 2 tests, at most 0.3 mg/L on 3 Feb 1994." in said
    assert answer.happened(told(*rows)) == [], "over an advisory level now, and told as that"
    since = told(*rows, ("2000-05-03", metal("nickel", "0.4")),
                 settings={"limit_sets": "us-epa-primary"})  # fmt: skip
    (said,) = answer.happened(since)
    assert said.endswith("No test since has shown that it ended."), "no limit was there to show it"


def test_the_most_is_the_most_water_in_whatever_unit_it_was_reported(told):
    rows = [("2010-05-03", metal("arsenic", "0.045")),
            ("2011-05-03", household.result("arsenic", "Arsenic", "30", "µg/L")),
            ("2012-05-03", metal("arsenic", "<0.001"))]  # fmt: skip
    (said,) = answer.happened(told(*rows))
    assert "in 2 tests, at most 0.045 mg/L on 3 May 2010." in said


def test_what_only_tastes_by_now_was_over_for_health_all_the_same_and_is_not_any_more(told):
    """Copper: action level 1.3 mg/L (40 CFR 141.80), 1.0 mg/L for taste (143.3)."""

    def copper(text):
        return household.result("copper", "Copper", text, "mg/L", draw="first draw")

    first = ("2010-05-03", copper("2.0"))
    (said,) = answer.happened(told(first, ("2020-05-03", copper("1.1"))))
    assert said == (
        "Copper, Tap, first draw: over a limit for health in 1 test, 2.0 mg/L on 3 May 2010. "
        "It was not over in 1 test since."
    )
    assert answer.happened(told(first, ("2020-05-03", copper("1.4")))) == []


def test_what_was_once_over_is_told_beside_bacteria_and_what_is_over_now(told):
    rows = [("2010-05-03", coli("<1"), metal("arsenic", "0.030"), metal("lead", "0.1")),
            ("2011-05-03", coli("<1"), metal("arsenic", "<0.001"), metal("lead", "0.001"),
             household.result("nitrate", "N", "20", "mg/L", basis="as N"))]  # fmt: skip
    said = answer.happened(told(*rows))
    assert {one.partition(",")[0] for one in said} == {"Arsenic", "Lead"}


def test_of_two_alike_the_later_was_the_most_and_only_later_days_count_as_since(told):
    rows = [("2010-05-03", metal("arsenic", "0.030")), ("2011-05-03", metal("arsenic", "0.030")),
            ("2011-05-03T09:00", metal("arsenic", "0.001")),
            ("2012-05-03", metal("arsenic", "0.009"))]  # fmt: skip
    (said,) = answer.happened(told(*rows))
    assert "in 2 tests, at most 0.030 mg/L on 3 May 2011." in said
    assert said.endswith("It was not over in 1 test since."), "close to a limit is not over it"


def test_nine_findings_are_counted_from_the_ninth_on(told):
    rows = [(f"{year}-05-03", coli("3" if year % 2 else "<1")) for year in range(2001, 2021)]
    said = answer.happened(told(*rows))
    assert said[-1] == "And 2 more such findings: see “All tests in order”."
    assert len(said) == 9


def unit(name, installed="", removed=""):
    return TreatmentUnit(1, 1, name, "ion exchange", 1, installed, removed)


def test_a_well_is_told_with_what_treats_its_water_now(told):
    bare = told().wells[0]
    assert answer.well_words(bare) == "Nothing of how it was built. No treatment is written down."
    facts = with_log(told(), depth="185 ft", casing="steel")
    units = (unit("Softener", "2015-04"), unit("Filter"), unit("Old one", "2001", "2010"))
    assert answer.well_words(replace(facts, units=units)) == (
        "depth: 185 ft; casing: steel. Treatment: Softener since Apr 2015; Filter."
    )
    assert answer.well_words(replace(facts, units=units[2:])).endswith(
        "No treatment is written down."
    )


FLOW = Event(1, 1, "flow test", "2020-01-02", "", "", flow="6", flow_unit="gal/min", hours="4")


def test_a_flow_test_is_the_flow_and_stands_before_what_the_log_says(told):
    bare = told()
    log = {"Pump yield": "8 gpm", "Outlet": "230 V", "Power": "ask", "Bathrooms": "2"}
    facts = replace(with_log(bare, **log), events=(FLOW,))
    rows = dict(house.house(facts))
    assert rows["Flow, steady and at most"].startswith("flow test of 2 Jan 2020: 6 gal/min, pumped")
    assert rows["Flow, steady and at most"].endswith("; Pump yield: 8 gpm")
    assert rows["Power at the place"] == "Outlet: 230 V; Power: ask"
    assert rows["People and bathrooms"] == "Bathrooms: 2"
    assert rows["Pressure, on and off"] == "not known"
    tested = replace(bare, wells=(replace(bare.wells[0], events=(FLOW,)),))
    assert unknowns.not_known(tested)[-1] == (
        "Not written down: distance to the septic system, water pressure."
    )


def test_a_reader_asks_for_what_is_missing_and_for_the_lab_s_own_reports(told):
    seen = told(("2024-05-03", coli("<1"), metal("arsenic", "0.001")))
    asked = unknowns.to_ask(seen)
    assert asked[1:] == ["A test of what is missing above: Nitrate, Lead."]
    whole = told(("2024-05-03", coli("<1"), *(metal(k, "0.001") for k in ("arsenic", "lead")),
                  household.result("nitrate", "N", "1", "mg/L", basis="as N")))  # fmt: skip
    assert len(unknowns.to_ask(whole)) == 1
    with_reports = unknowns.to_ask(replace(whole, documents=("a report",)))
    assert with_reports[1:] == ["The lab’s own reports, to compare with what stands here."]


def test_only_a_letter_with_personal_facts_names_its_sender_each_line_once(filled):
    for with_personal in (False, True):
        seen = filled(two_wells, with_personal=with_personal)
        written = letter.letter(seen, sentences.DOCTOR, CAUTIONS, ["infant"] * with_personal)
        lines = ("4 Fen Road", "44.1, -72.4") if with_personal else ()
        assert written.sender == lines, "both wells lie at the same address"
        assert bool(written.people) is with_personal
    asks = [letter.letter(seen, one, CAUTIONS).asks_of_people for one in sentences.RECIPIENTS]
    assert dict(zip(sentences.RECIPIENTS, asks, strict=True)) == {
        sentences.DOCTOR: True, sentences.DEALER: False, sentences.DEPARTMENT: True,
    }  # fmt: skip


def test_only_a_dealer_reads_of_the_house(told):
    seen = told(("2024-05-03", metal("iron", "0.9")))
    doctor, dealer = (
        [name for name, _said in letter.letter(seen, one, CAUTIONS).house]
        for one in (sentences.DOCTOR, sentences.DEALER)
    )
    assert doctor == ["Well and treatment"]
    assert dealer[:2] == ["Well and treatment", "Flow, steady and at most"]
    assert len(dealer) == 7


def test_a_letter_without_tests_says_that_none_could_show_anything(told):
    nothing = "There is no test that could show anything."
    empty = letter.letter(told(), sentences.DOCTOR, CAUTIONS)
    assert empty.notes[0] == nothing
    assert not empty.rows
    full = letter.letter(told(("2024-05-03", metal("lead", "0.001"))), sentences.DOCTOR, CAUTIONS)
    assert nothing not in full.notes


def test_a_row_of_a_letter_says_of_what_its_limit_is_where_that_calls_for_attention(told):
    seen = told(("2024-05-03", metal("arsenic", "0.05"), metal("lead", "0.001"),
                 metal("hardness", "100"), metal("iron", "0.9")))  # fmt: skip
    rows = {row.name: letter.verdict_words(row)
            for row in letter.letter(seen, sentences.DEALER, CAUTIONS).rows}  # fmt: skip
    assert rows["Arsenic"] == "over (health)"
    assert rows["Iron"] == "over (taste, look and stains)"
    assert rows["Hardness"] == "no limit"
    doctor = {row.name: letter.verdict_words(row)
              for row in letter.letter(seen, sentences.DOCTOR, CAUTIONS).rows}  # fmt: skip
    assert doctor["Lead"] == "within"


def test_what_reader_asks_after_and_is_outside_for_taste_stands_after_what_can_harm(told):
    """Manganese, 0.05 mg/L, and chloride, 250 mg/L, are limits of taste (40 CFR 143.3)."""
    seen = told(("2024-05-03", metal("manganese", "0.06"), metal("chloride", "260"),
                 metal("iron", "3"), metal("arsenic", "0.011")))  # fmt: skip
    doctor, department, dealer = (
        letter.letter(seen, one, CAUTIONS)
        for one in (sentences.DOCTOR, sentences.DEPARTMENT, sentences.DEALER)
    )
    assert [row.name for row in doctor.rows] == ["Arsenic", "Manganese"]
    assert "Outside a level for taste, look or operation, too: Iron, Chloride." in doctor.notes
    assert [row.name for row in department.rows] == ["Arsenic", "Manganese", "Chloride"]
    assert [row.name for row in dealer.rows] == ["Arsenic", "Iron", "Manganese", "Chloride"]


def test_of_two_alike_the_later_one_stands_in_a_letter(filled):
    def fill(book):
        well = book.add_well("Home")
        for name, day in (("Tank", "2023-05-03"), ("Tap", "2024-05-03"), ("Barn", "2022-05-03")):
            point = book.add_point(well, name)
            book.add_sample(household.sample(point, day, metal("chloride", "10")))

    (row,) = letter.letter(filled(fill), sentences.DEPARTMENT, CAUTIONS).rows
    assert (row.point, row.day) == ("Tap", date(2024, 5, 3))


def test_a_case_is_told_in_a_letter_while_it_is_open(told):
    seen = told(("2026-11-20", coli("4")))
    notes = letter.letter(seen, sentences.DOCTOR, CAUTIONS).notes
    assert "Open cases: E. coli, Tap, since 20 Nov 2026." in notes


def test_a_letter_cautions_once_what_presses_first_and_what_can_wait_to_a_department(filled):
    """That galvanised pipe gives zinc can wait; dialysis and arsenic can't."""

    def cautions(recipient, *tested):
        def fill(book):
            well = book.add_well("Home")
            for place, one in enumerate(tested):
                tap = book.add_point(well, f"Tap {place}")
                book.add_sample(household.sample(tap, "2024-05-03", one))

        told_there = letter.letter(filled(fill), recipient, CAUTIONS).cautions
        return [" ".join(one.split()[:2]) for one in told_there]

    zinc, arsenic = metal("zinc", "9"), metal("arsenic", "0.05")
    assert cautions(sentences.DOCTOR, zinc) == ["Zinc. For"]
    assert cautions(sentences.DOCTOR, zinc, zinc) == ["Zinc. For"]
    assert cautions(sentences.DEPARTMENT, zinc, zinc) == ["Zinc. For", "Zinc. Galvanised"]
    three = ["Zinc. For", "Arsenic. Use", "Arsenic. For"]
    assert cautions(sentences.DEPARTMENT, zinc, arsenic) == three
    assert cautions(sentences.DEALER, zinc, arsenic) == []


def test_a_sum_without_a_limit_has_none_in_a_letter(told):
    parts = [household.result(key, key, text, "mg/L", basis="as N")
             for key, text in (("nitrate", "9.6"), ("nitrite", "0.9"))]  # fmt: skip
    (point,) = told(("2024-05-03", *parts)).wells[0].overview.points
    (one,) = [one for one in point.sums if one.parameter.key == "nitrate_nitrite"]
    bare = replace(one, now=Judgement(Verdict.NO_LIMIT))
    assert letter._row("Tap", bare).limit == "–"
    assert letter._row("Tap", one).limit == "up to 10 mg/L as N"
    assert "Limit:" not in answer._stands("Tap", bare)


def test_a_limit_in_a_row_is_short_where_it_was_published_in_another_unit(told):
    """The action level of lead is published as 0.015 mg/L: 40 CFR 141.80(c)."""
    seen = told(("2024-05-03", lead("40", "first draw")))
    (shown,) = letter.letter(seen, sentences.DOCTOR, CAUTIONS).rows
    (row,) = [row for row in answer.rows(seen) if row.name == "Lead"]
    assert (shown.limit, row.limit) == ("up to 15 µg/L", "up to 15 µg/L")
    ((_verdict, _harm, said),) = answer.standings(seen)
    assert "Limit: up to 15 µg/L, published as 0.015 mg/L (action level)." in said


@pytest.mark.parametrize("n", [14, 15])
def test_a_letter_has_fourteen_rows(told, n):
    """A dealer asks after fourteen things; arsenic over its limit stands there anyhow."""
    rows = [household.result(k, k, "0.0001", "mg/L") for k in letter._ASKED[sentences.DEALER]]
    rows += [metal("arsenic", "9")] * (n == 15)
    found = letter.letter(told(("2024-05-03", *rows)), sentences.DEALER, CAUTIONS)
    assert len(found.rows) == 14
    assert any(note.startswith("1 more result is") for note in found.notes) is (n == 15)


def test_the_flow_test_of_one_well_is_enough_to_have_the_flow_written_down(filled):
    seen = filled(two_wells)
    home, barn = seen.wells
    tested = replace(seen, wells=(home, replace(barn, events=(FLOW,))))
    assert "flow" in unknowns.not_known(seen)[-1]
    assert "flow" not in unknowns.not_known(tested)[-1]


def test_of_intestinal_bacteria_the_day_with_the_most_is_the_worst(told):
    rows = [(f"2021-0{k}-10", coli(text)) for k, text in enumerate(("2", "9", "3"), start=1)]
    seen = told(*rows)
    (point,) = seen.wells[0].overview.points
    tests = bacteria_runs.tests_at(seen, point)
    found = bacteria_runs.bacteria_tests(
        [one.result for test in tests for one in test.results], CATALOGUE
    )
    for key in bacteria_runs.BACTERIA:
        named = [
            replace(test, results=tuple(
                replace(one, result=replace(one.result, parameter=key)) for one in test.results))
            for test in tests
        ]  # fmt: skip
        assert bacteria_runs._worst_of(named, found) == 1


def test_what_was_never_tested_has_a_row_without_a_point_and_what_was_cut_off_says_so(told):
    seen = told(("2024-05-03", coli("<1")))
    rows = {row.name: row for row in answer.rows(seen)}
    assert rows["Arsenic"] == answer.Row("Arsenic", "", None, "never tested", "", None)
    behind = LeftBehind(1, 3, 1, 12, 24, ("one",))
    cut = Source("AB", True, "", "", "", behind, "", (), (), ())  # noqa: FBT003
    whole = replace(cut, left_out=None)
    for source, said in ((cut, "not in what is here"), (whole, "never tested")):
        rows = answer.rows(replace(seen, sources=(source,)))
        assert {row.reading for row in rows if row.judgement is None} == {said}


def test_a_case_that_rests_on_a_word_by_telephone_is_told_as_preliminary(told):
    seen = told(("2026-11-20", coli("4")))
    (case,) = seen.cases
    told_so = replace(seen, cases=(replace(case, is_preliminary=True, names=("E. coli", "Lead")),))
    assert case_words.open_cases(told_so) == [
        "Open cases: E. coli, Lead (preliminary), Tap, since 20 Nov 2026."
    ]
    two = replace(seen, cases=(case, case))
    (said,) = case_words.open_cases(two)
    assert said.count("; ") == 1


def test_what_can_harm_stands_before_what_is_worse_for_taste_whatever_its_point(filled):
    """Arsenic close to its limit of health, iron at three times its level of taste."""

    def fill(book):
        well = book.add_well("Home")
        for name, one in (("Tank", metal("iron", "0.9")), ("Tap", metal("arsenic", "0.009"))):
            book.add_sample(household.sample(book.add_point(well, name), "2024-05-03", one))

    seen = filled(fill)
    assert [said.partition(",")[0] for _v, _h, said in answer.standings(seen)] == [
        "Arsenic",
        "Iron",
    ]
    dealer = letter.letter(seen, sentences.DEALER, CAUTIONS)
    assert [row.name for row in dealer.rows] == ["Arsenic", "Iron"]


def test_a_letter_notes_nothing_that_is_not_so(told):
    seen = told(("2024-05-03", metal("lead", "0.001")))
    assert letter.letter(seen, sentences.DOCTOR, CAUTIONS).notes == (gaps.told(seen),)


def test_what_went_before_a_run_ends_with_its_first_finding_and_its_cure_with_the_first_clean_test(
    told,
):
    events = [
        ("flood", "2021-04-01", "First"),  # 110 days before the first finding
        ("flood", "2021-08-01", "Second"),
        ("repair", "2021-08-02", "Third"),
        ("repair", "2021-10-01", "Fourth"),
    ]
    found = [("2021-07-20", coli("2")), ("2021-08-20", coli("3"))]
    clean = [("2021-09-01", coli("<1")), ("2021-11-01", coli("<1"))]
    (said,) = answer.happened(told(*found, *clean, events=events))
    assert "Before it: flood, First (1 Apr 2021). After it: repair, Third (2 Aug 2021). " in said
    assert "Second" not in said
    assert "Fourth" not in said


def test_the_next_clean_test_and_the_next_finding_are_the_first_of_several(told):
    rows = [(f"202{year}-05-03", coli("3" if found else "<1"))
            for year, found in enumerate((True, False, False, True, False, True))]  # fmt: skip
    first, second, third = answer.happened(told(*rows))
    assert first.endswith("Next clean test: 3 May 2021; bacteria were found again on 3 May 2023.")
    assert second.endswith("Next clean test: 3 May 2024; bacteria were found again on 3 May 2025.")
    assert third.endswith("No test since has shown that it ended.")


def test_a_finding_tells_bacteria_only_and_weighs_those_only(told):
    """E. coli that was not found, and lead over its limit, don't make a day the worst."""
    rows = [(f"2021-0{k}-10", coli("800", "total_coliform")) for k in range(1, 8)]
    rows[2] = ("2021-03-10", coli("<1"), coli("900", "total_coliform"), metal("lead", "5"))
    rows[4] = ("2021-05-10", coli("10", "total_coliform"), coli("850", "total_coliform"))
    (said,) = answer.happened(told(*rows))
    assert "Total coliform 900 MPN/100 mL found on 10 Mar 2021" in said
    assert "Lead" not in said
    assert "E. coli" not in said


def test_a_finding_without_a_count_weighs_less_than_one_with_a_count(told):
    rows = [(f"2021-0{k}-10", coli("present")) for k in range(1, 8)]
    rows[4] = ("2021-05-10", coli("1"))
    (said,) = answer.happened(told(*rows))
    assert "E. coli 1 MPN/100 mL found on 10 May 2021" in said


def test_one_packet_that_left_tests_out_is_enough_to_leave_open_what_was_tested(told):
    behind = LeftBehind(1, 3, 1, 12, 24, ("one",))
    cut = Source("AB", True, "", "", "", behind, "", (), (), ())  # noqa: FBT003
    whole = replace(cut, left_out=None)
    for sources, is_cut in (((whole, cut), True), ((cut, whole), True), ((whole,), False)):
        assert gaps.is_cut(replace(told(), sources=sources)) is is_cut


def test_enterococci_found_once_are_told_though_no_coliforms_were_found(told):
    """None in 100 mL: Directive (EU) 2020/2184, Annex I, Part A."""
    rows = [(day, coli("<1"), coli(text, "enterococci")) for day, text in
            (("2021-07-20", "4"), ("2022-07-20", "<1"))]  # fmt: skip
    (said,) = answer.happened(told(*rows, settings={"limit_sets": "eu-dwd"}))
    assert "over a limit for health in 1 test, 4 MPN/100 mL on 20 Jul 2021." in said
    assert said.endswith("It was not over in 1 test since.")
