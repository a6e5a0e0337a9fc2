"""The lines of a draft under review: what was printed, what was understood, what is asked."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal
from pathlib import Path

import pytest
from made_standings import BARE, judged, limit
from waters import CATALOGUE

from wellbook.book.rows import NewResult, NewSample
from wellbook.intake import Place
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Mark
from wellbook.intake.reviewing import Outlook
from wellbook.support.message import message
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Rule
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.reasons import Reason
from wellbook.window.dialogs.draft import draft_rows
from wellbook.window.dialogs.draft.draft_rows import ReadingLine, unit_words

WHERE = Place(row=4, column=3)
LEAD = CATALOGUE.parameters["lead"]
OVER = judged(Verdict.OUTSIDE, limit("lead", "10", unit="µg/L"), "12")


def new(text="12", unit="µg/L", *, key="lead", name="Lead, Pb", basis="", **more):
    flags = more.pop("flags", frozenset())
    reading = read_reading(text, unit=unit, basis=basis)
    return NewResult(key, name, replace(reading, flags=reading.flags | flags), **more)


def line(result=None, *doubts, now=BARE, is_first=False, change=""):
    result = result or new()
    known = CATALOGUE.parameters.get(result.parameter)
    return ReadingLine(0, result, known, Mark(WHERE, doubts), Outlook(now, is_first), change)


def cells(shown):
    return {one.title: one.text(shown) for one in draft_rows.reading_columns()}


def tips(shown):
    return {one.title: one.more(shown) for one in draft_rows.reading_columns()}


def draft_sample(*results, day=date(2026, 5, 4), at=None, marks=None, findings=(), point="Tap 1"):
    sample = NewSample(
        0, LocalTime(day, at), results=results, lab="Larkspur Laboratory", lab_number="A-17"
    )
    places = (Place(row=row) for row in range(1, len(results) + 1))
    return DraftSample(point, sample, findings, marks or tuple(map(Mark, places)))


def test_a_sample_says_day_point_lab_number_and_how_much_is_in_it():
    findings = (
        Finding("a", "ask"),
        Finding("b", "stop", severity=Severity.STOP),
        Finding("c", "note", severity=Severity.NOTE),
    )
    marks = (Mark(WHERE), Mark(WHERE, ("near_name", "no_unit")), Mark(WHERE, ("comma",)))
    one = draft_sample(new(), new(), new(), at=time(7, 5), marks=marks, findings=findings)
    (shown,) = draft_rows.sample_lines(Draft(Path("a.csv"), (one,)))
    assert {c.title: c.text(shown) for c in draft_rows.sample_columns()} == {
        "Sampled": "4 May 2026, 07:05",
        "Point as printed": "Tap 1",
        "Lab": "Larkspur Laboratory",
        "Lab’s number": "A-17",
        "Readings": "3",
        "To look at": "4",  # what stops, what asks, two readings in doubt; no note
    }


def test_a_sample_without_a_day_says_so_and_one_in_order_asks_nothing():
    draft = Draft(Path("a.csv"), (draft_sample(new()), draft_sample(day=NO_DAY)))
    first, second = draft_rows.sample_lines(draft)
    assert (first.place, second.place) == (0, 1)
    said = [[c.text(one) for c in draft_rows.sample_columns()] for one in (first, second)]
    assert (said[0][0], said[0][5]) == ("4 May 2026", "")
    assert (said[1][0], said[1][4]) == ("day not given", "0")


def test_every_reading_is_found_by_its_place_in_the_file():
    draft = Draft(Path("a.csv"), (draft_sample(new(), new()), draft_sample(new())))
    assert draft_rows.marks_of(draft) == [
        (Place(row=1), (0, 0)), (Place(row=2), (0, 1)), (Place(row=1), (1, 0)),
    ]  # fmt: skip


def test_readings_stand_in_the_order_of_the_file_with_what_changed_since():
    sample = draft_sample(new(), new(key="", name="Unobtainium"), new(key="iron", name="Iron"))
    outlooks = [Outlook(OVER), Outlook(BARE), Outlook(BARE, is_first=True)]
    told = draft_rows.reading_lines(sample, CATALOGUE, outlooks, {"iron": "It rose."})
    assert [(one.place, one.name, one.change) for one in told] == [
        (0, "Lead", ""), (1, "", ""), (2, "Iron", "It rose."),
    ]  # fmt: skip
    assert [one.mark.place.row for one in told] == [1, 2, 3]
    assert [one.outlook for one in told] == outlooks
    bare = ReadingLine(0, new(), LEAD, Mark(WHERE), Outlook(BARE))
    assert bare.change == ""


def test_a_reading_over_its_limit_says_by_which_and_whether_for_the_first_time():
    told = cells(line(now=OVER, is_first=True))
    assert told == {
        "Parameter": "Lead",
        "Result": "12",
        "Unit": "µg/L",
        "Against today’s limit": "over 10 µg/L, first time",
        "To decide": "",
    }
    assert cells(line(now=OVER))["Against today’s limit"] == "over 10 µg/L"
    more = tips(line(now=OVER))
    assert more["Parameter"] == "printed “Lead, Pb”, C4"
    assert more["Result"] == "printed “12”, understood as: 12 µg/L"
    assert more["Against today’s limit"] == "Over the limit. 10 µg/L"
    (verdict,) = [one for one in draft_rows.reading_columns() if one.verdict]
    assert verdict.verdict(line(now=OVER)) is Verdict.OUTSIDE


@pytest.mark.parametrize(
    ("now", "said"),
    [
        (judged(Verdict.OUTSIDE, limit("e_coli", None, rule=Rule.ABSENT)), "present"),
        (judged(Verdict.OUTSIDE, limit("ph", "8", low="6", rule=Rule.RANGE), "5"), "too low"),
        (judged(Verdict.NEAR, limit("lead"), "9"), "close"),
        (judged(Verdict.OUTSIDE), "off the range"),
        (BARE, "no limit"),
    ],
)
def test_other_verdicts_are_said_in_their_own_word(now, said):
    assert cells(line(now=now))["Against today’s limit"] == said


def test_a_verdict_tells_its_reason_on_asking():
    why = replace(judged(Verdict.UNDECIDABLE), reasons=(message(Reason.NOT_ANALYSED),))
    told = tips(line(now=why))["Against today’s limit"]
    assert told.startswith("Can’t be told. ")
    assert len(told) > len("Can’t be told. ")


def test_a_name_that_is_not_known_stands_as_printed_and_says_what_becomes_of_it():
    shown = line(new(key="", name="Unobtainium"), "unknown_parameter")
    assert cells(shown)["Parameter"] == "Unobtainium"
    assert tips(shown)["Parameter"] == (
        "printed “Unobtainium”, C4: not known: kept as printed, not compared"
    )
    assert cells(shown)["To decide"] == "which parameter?"


@pytest.mark.parametrize(
    ("doubts", "text", "said"),
    [
        (("no_unit",), "12", "which unit?"),
        (("no_unit", "unknown_unit", "no_basis"), "12", "which unit? counted as what?"),
        (("near_name",), "12", "printed “Lead, Pb”: is it this parameter?"),
        (("comma",), "1,234", "1,234: point or thousands?"),
        (("comma",), "1.2", "point or thousands?"),
        (("comma", "near_name"), "1,234",
         "1,234: printed “Lead, Pb”: point or thousands? is it this parameter?"),
        (("something new",), "12", "look at it"),
    ],
)  # fmt: skip
def test_what_is_doubted_is_asked_once_beside_what_was_printed(doubts, text, said):
    shown = line(new(text), *doubts)
    assert cells(shown)["To decide"] == said
    assert tips(shown)["To decide"] == said


def test_every_doubt_has_its_question_and_those_of_a_cell_lead_into_it():
    for key in draft_rows.CELLS:
        assert draft_rows._DOUBTS[key].endswith("?")
    cells_of = {
        "unknown_parameter": 0, "near_name": 0, "unknown_unit": 2, "no_unit": 2, "unfit_unit": 2,
        "other_unit": 2, "no_basis": 2, "two_bases": 2, "odd_basis": 2, "usual_unit": 2,
    }  # fmt: skip
    assert cells_of == draft_rows.CELLS
    titles = [one.title for one in draft_rows.reading_columns()]
    assert titles[draft_rows.NAME] == "Parameter"
    assert titles[draft_rows.RESULT] == "Result"
    assert titles[draft_rows.UNIT] == "Unit"
    assert titles[draft_rows.VERDICT] == "Against today’s limit"
    assert titles[draft_rows.DOUBT] == "To decide"


def test_what_the_lab_said_beside_a_reading_is_told_on_asking():
    flags = frozenset({Flag.HELD_TOO_LONG, Flag.ESTIMATED})
    shown = line(new("<0.5", flags=flags, qualifier="J", reporting_limit="0.5", method="EPA 200.8"))
    remarks = "estimated, held too long, J, reporting limit 0.5, EPA 200.8"
    assert tips(shown)["To decide"] == remarks
    assert tips(shown)["Result"] == (
        f"printed “<0.5”, understood as: not detected, below 0.5 µg/L; {remarks}"
    )
    assert tips(line())["To decide"] == ""


def test_a_result_that_was_printed_as_nothing_says_what_it_is_taken_for():
    assert cells(line(new("")))["Result"] == "not analysed"


@pytest.mark.parametrize(
    ("unit", "basis", "said"),
    [
        ("mg/L", "as N", "mg/L as N"), ("mg/L as N", "as N", "mg/L as N"), ("1", "", ""),
        ("1", "as N", "as N"), ("", "", ""), ("MG/L AS N", "as N", "MG/L AS N"),
    ],
)  # fmt: skip
def test_a_unit_stands_with_its_basis_once(unit, basis, said):
    assert unit_words(line(new("1", unit, basis=basis))) == said


def test_the_points_of_a_reviewed_draft_are_called_as_they_were_printed():
    printed = Draft(Path("a.csv"), (draft_sample(new(), point="TAP 1"), draft_sample(point="B")))
    reviewed = Draft(
        Path("a.csv"), (draft_sample(new("13"), point="Kitchen"), draft_sample(point="Tank"))
    )
    found = draft_rows.with_printed_names(reviewed, printed)
    assert [one.point_name for one in found.samples] == ["TAP 1", "B"]
    assert found.samples[0].sample.results[0].reading.number == Decimal(13)
