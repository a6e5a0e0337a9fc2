"""What is said of a draft before it is kept: what stops it, what the water asks, what changed.

40 CFR 141.62(b): nitrate 10 mg/L as N. 40 CFR 141.63: E. coli absent.
"""

from pathlib import Path

import pytest
from household import result, sample
from waters import CATALOGUE

from wellbook.intake import Place
from wellbook.intake.draft import Draft, DraftSample, Mark
from wellbook.intake.tables.tables import NotTaken
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.judgement import Verdict
from wellbook.water.verdicts.latest_change import Step
from wellbook.window.common import advice
from wellbook.window.dialogs.draft.draft_findings import (
    DraftChanges,
    HandChanges,
    finding_lines,
)
from wellbook.window.dialogs.draft.draft_places import DraftPlaces

RAW, TAP = "Pressure tank", "Kitchen tap"
STOP, NOTE = Severity.STOP, Severity.NOTE


def nitrate(text="12.5"):
    return result("nitrate", "Nitrate-N", text, "mg/L", basis="as N")


def drafted(point, day, *results, findings=(), row=1):
    marks = (Mark(Place(row=row + n)) for n in range(len(results)))
    return DraftSample(point, sample(0, day, *results), findings, tuple(marks))


def draft(*samples, **more):
    return Draft(Path("a.csv"), samples, **more)


@pytest.fixture
def changes(home, qtbot):
    def of(*printed):
        places = DraftPlaces(home, printed or (RAW, TAP), {})
        qtbot.addWidget(places)
        return DraftChanges(home, places)

    return of


def arsenic(text="0.9"):
    return result("arsenic", "Arsenic", text, "mg/L")


def test_what_changed_is_told_in_lines_that_lead_to_the_reading(changes):
    iron = result("iron", "Iron", "0.3", "mg/L")
    told = changes().lines(draft(drafted(RAW, "2020-05-02", iron, arsenic(), row=7)))
    assert told[0] == ("New in the latest test, 2 May 2020", None)
    (line,) = [one for one in told if one[0].startswith("Arsenic: Found again")]
    assert line[1] == Place(row=8)


def test_of_several_points_each_line_names_its_own_and_each_is_told_by_its_latest_test(changes):
    found = changes()
    old = drafted(RAW, "2020-05-02", nitrate("1"), row=1)
    new = drafted(RAW, "2021-05-02", arsenic(), row=3)
    tap = drafted(TAP, "2021-05-03", result("ph", "pH", "4.0", "pH units"), row=5)
    told = found.lines(draft(new, old, tap))
    assert all(text.startswith((f"{RAW}: ", f"{TAP}: ")) for text, _place in told)
    heads = [text for text, _place in told if "New in the latest test" in text]
    assert heads[0] == f"{RAW}: New in the latest test, 2 May 2021"
    assert {place.row for _text, place in told if place and place.row < 5} == {3}


def test_a_test_without_a_named_point_is_told_without_a_name(changes):
    found = changes("", TAP)
    told = found.lines(draft(drafted("", "2020-05-02", arsenic()), drafted(TAP, "2020-05-02")))
    assert not any(text.startswith(": ") for text, _place in told)


def test_what_is_outside_a_limit_is_named_once_and_whether_for_the_first_time(changes):
    found = changes()
    one = draft(
        drafted(RAW, "2020-05-02", nitrate("12.5"), result("lead", "Lead", "90", "µg/L"),
                result("", "Unobtainium", "9", "mg/L"), result("zinc", "Zinc", "1", "mg/L")),
        drafted(TAP, "2020-05-02", result("lead", "Lead", "90", "µg/L")),
    )  # fmt: skip
    assert found.outside(one) == "Outside a limit: Nitrate, Lead."
    first = draft(drafted(TAP, "2020-05-02", result("ph", "pH", "11", "pH units")))
    assert found.outside(first) == "Outside a limit: pH (for the first time)."
    assert found.outside(draft(drafted(RAW, "2020-05-02", nitrate("1")))) == ""


def test_of_two_tests_of_a_day_the_later_of_the_file_counts(changes):
    found = changes()
    twice = draft(
        drafted(RAW, "2020-05-02", nitrate("60")), drafted(RAW, "2020-05-02", nitrate("1"))
    )
    assert found.outside(twice) == ""
    back = draft(
        drafted(RAW, "2020-05-03", nitrate("60")), drafted(RAW, "2020-05-02", nitrate("1"))
    )
    assert found.outside(back) == "Outside a limit: Nitrate."


def test_how_readings_stand_is_told_of_each_in_its_order(changes):
    one = draft(drafted(RAW, "2020-05-02", result("zinc", "Zinc", "1", "mg/L"), nitrate("60")))
    assert [outlook.now.verdict for outlook in changes().outlooks(one, 0)][1] is Verdict.OUTSIDE


def test_each_change_is_a_paragraph_with_what_happened_in_between(changes):
    found = changes()
    one = draft(drafted(RAW, "2020-05-02", nitrate("60")), drafted("?", "2020-05-02", nitrate("1")))
    assert found.sentences(one, 0).keys() == {"nitrate"}
    since = draft(drafted(RAW, "2019-05-01", result("arsenic", "Arsenic", "0.9", "mg/L")))
    assert "The creek stood over the cap, 20 Apr 2019." in found.sentences(since, 0)["arsenic"]
    assert found.sentences(one, 1) == {}, "nobody knows yet which tests were before it"


def test_what_was_worked_out_is_kept_until_another_point_is_chosen(changes):
    found = changes()
    one = draft(drafted(RAW, "2020-05-02", nitrate("60")))
    found.work_out(one)
    first = found.of_sample(one, 0)
    assert first["nitrate"].step is Step.UP
    assert found.of_sample(one, 0) is first
    found.forget()
    again = found.of_sample(one, 0)
    assert again == first
    assert again is not first
    other = draft(drafted(TAP, "2020-05-02", nitrate("60")))
    assert found.of_sample(other, 0)["nitrate"].step is Step.FIRST
    assert found.of_sample(one, 0) == first


def test_a_typed_test_tells_what_was_typed_last_then_what_is_new(home):
    hand = HandChanges(home)
    known = CATALOGUE.parameters["nitrate"]
    usual = hand.said(1, "2020-05-02", [nitrate("11.5")], known)
    assert usual.startswith("Nitrate: ")
    assert "\n" not in usual
    both = hand.said(1, "2020-05-02", [nitrate("11.5"), arsenic()], known).split("\n")
    assert [one.partition(":")[0] for one in both[:3]] == [
        "Nitrate", "New in the latest test, 2 May 2020", "Arsenic",
    ]  # fmt: skip
    new = CATALOGUE.parameters["arsenic"]
    last = hand.said(1, "2020-05-02", [nitrate("11.5"), arsenic()], new).split("\n")
    assert last == both[1:], "what is new is not told twice"
    assert hand.said(1, "2020-05-02", [nitrate("11.5")], None) == ""
    lead = CATALOGUE.parameters["lead"]
    assert hand.said(1, "2020-05-02", [nitrate("11.5")], lead) == ""


def test_a_typed_change_says_what_happened_in_between_to_its_own_well(home):
    iron, known = result("iron", "Iron", "0.25", "mg/L"), CATALOGUE.parameters["iron"]
    here = HandChanges(home).said(1, "2020-05-02", [iron], known)
    assert "Between the two: The creek stood over the cap, 20 Apr 2019." in here
    other = home.book.add_point(home.book.add_well("Old Field"), "Pump")
    home.book.add_sample(sample(other, "2004-05-03", result("iron", "Iron", "0.24", "mg/L")))
    there = HandChanges(home).said(other, "2020-05-02", [iron], known)
    assert there.startswith("Iron: ")
    assert "creek" not in there


@pytest.mark.parametrize(
    ("point", "day"), [(None, "2020-05-02"), (1, ""), (1, "2020-05-"), (1, "?")]
)
def test_a_typed_test_without_point_or_day_tells_nothing_yet(home, point, day):
    known = CATALOGUE.parameters["nitrate"]
    assert HandChanges(home).said(point, day, [nitrate("60")], known) == ""


def test_what_stops_stands_first_then_what_the_water_asks_then_what_changed_then_the_rest(home):
    findings = (
        Finding("a", "An answer is wanted.", "row 3"),
        Finding("b", "It can’t be kept.", severity=STOP),
        Finding("c", "Worth knowing.", severity=NOTE),
        Finding("e", "Worth knowing, too.", severity=NOTE),
    )
    of_sample = (Finding("d", "It lies in the future.", severity=STOP),)
    coli = result("e_coli", "E. coli", "present", "per 100 mL")
    left = (
        NotTaken("77", "No unit is told.", Place(row=9, column=2)),
        NotTaken("10", "It is a limit.", Place(row=9, column=5), is_aside=True),
        NotTaken("20", "It is a limit.", Place(row=9, column=6), is_aside=True),
    )
    one = draft(
        drafted(RAW, "2020-05-02", coli, findings=of_sample), findings=findings, not_taken=left
    )
    told = finding_lines(one, home, (("What changed.", Place(row=5)),))
    texts = [text for text, _place in told]
    assert texts[:2] == ["It can’t be kept.", "It lies in the future."]
    asks = [text for text in texts if text.startswith("E. coli")]
    assert asks
    assert texts[2 : 2 + len(asks)] == asks
    assert texts[2 + len(asks) :] == [
        "What changed.",
        "Not taken: 77 (B9): No unit is told.",
        "row 3: An answer is wanted.",
        "Worth knowing.",
        "Worth knowing, too.",
        "Left aside: 10 (E9); 20 (F9): It is a limit.",
    ]
    places = [place for _text, place in told][2 + len(asks) :]
    assert places == [Place(row=5), Place(row=9, column=2), *[None] * 3, Place(row=9, column=5)]


def test_the_latest_sample_says_what_the_water_asks_and_one_without_readings_nothing(home):
    coli = result("e_coli", "E. coli", "present", "per 100 mL")
    none = result("e_coli", "E. coli", "absent", "per 100 mL")
    later_clean = draft(
        drafted(RAW, "2021-05-02", none),
        drafted(RAW, "2020-05-02", coli),
        drafted(RAW, "2024-01-01"),
    )
    assert finding_lines(later_clean, home, ()) == ()
    later_bad = draft(drafted(RAW, "2020-05-02", none), drafted(RAW, "2021-05-02", coli))
    assert any(text.startswith("E. coli") for text, _place in finding_lines(later_bad, home, ()))
    assert finding_lines(draft(drafted(RAW, "2024-01-01")), home, ()) == ()


def test_only_what_presses_is_asked_before_a_test_is_kept(home):
    """Hardness asks nothing of people; nitrate over its limit does, by name (common practice)."""
    hard = sample(1, "2020-05-02", result("hardness", "Hardness", "300", "mg/L", basis="as CaCO3"))
    assert advice.of_sample(hard, home) == ()
    much = advice.of_sample(sample(1, "2020-05-02", nitrate("60")), home)
    assert much[0].startswith("Nitrate, Nitrate + nitrite: Do not give this water to a baby")
