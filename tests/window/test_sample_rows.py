"""The page of tests in words: every sample of a book, and the readings of one of them."""

from dataclasses import replace

import pytest
from made_standings import judged, limit, result
from waters import CATALOGUE, TODAY

from wellbook.book.rows import Sample
from wellbook.planning.overview import point_record
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.local_time import LocalTime
from wellbook.window.pages.sample_rows import (
    Line,
    Passed,
    ReadingLine,
    columns,
    lines,
    reading_columns,
    reading_lines,
    to_pass,
)

EPA = ("us-epa-primary",)


def told(line):
    return {one.title: one.text(line) for one in columns()}


def test_every_test_is_listed_newest_first_with_what_belongs_to_it(home):
    found = lines(home, {3: Passed(("Nitrate",))})
    assert [(one.sample.id, one.point, one.readings, one.documents) for one in found] == [
        (5, "Pressure tank", 1, 0),  # struck out
        (4, "Kitchen tap", 2, 0),
        (3, "Pressure tank", 5, 1),
        (2, "Pressure tank", 4, 0),
        (1, "Pressure tank", 4, 0),
    ]
    assert [one.passed for one in found] == [None, None, Passed(("Nitrate",)), None, None]
    assert told(found[2]) == {
        "Sampled": "2 May 2019, 06:40",
        "Point": "Pressure tank",
        "Lab": "Larkspur Laboratory",
        "Lab’s number": "",
        "Purpose": "after an event",
        "Readings": "5",
        "Documents": "1",
        "Remark": "",
        "Outside a limit that day": "Nitrate",
    }
    assert told(found[0])["Remark"] == ("struck out: The bottle was mixed up with a neighbour’s.")
    assert told(found[4])["Remark"] == "Drawn by Ottoline Vexley after a week of rain."
    first = columns()[0]
    assert [first.sort(one) for one in found] == sorted(map(first.sort, found), reverse=True)


def test_what_passed_a_limit_of_its_day_is_named_once_struck_tests_too(home):
    """40 CFR 141.62(b), 141.63: nitrate 10 mg/L as N, arsenic 0.010 mg/L since 23 Jan 2006."""
    asked = []
    found = to_pass(home, EPA)(lambda *words: asked.append(words))
    assert len(asked) == 5
    assert set(asked) == {(0, 0, "")}
    assert found[1].outside == (), "arsenic was under the limit of 2004"
    assert found[2] == Passed((), ("Arsenic",)), "the method did not see low enough"
    assert found[3].outside == ("Nitrate", "E. coli", "Total coliform")
    assert found[4] == Passed()
    assert found[5].outside == ("Nitrate",)


@pytest.mark.parametrize(
    ("passed", "said", "mark", "sort"),
    [
        (None, "…", None, None),
        (Passed(), "", None, 0),
        (Passed(("Lead",)), "Lead", Verdict.OUTSIDE, 1),
        (Passed(("Lead", "Iron"), ("Zinc", "Tin")), "Lead, Iron; can’t be told: Zinc, Tin",
         Verdict.OUTSIDE, 2),
        (Passed((), ("Zinc",)), "can’t be told: Zinc", Verdict.UNDECIDABLE, 0),
    ],
)  # fmt: skip
def test_a_test_bears_the_mark_of_its_worst(passed, said, mark, sort):
    line = Line(Sample(1, 1, LocalTime(TODAY)), "Tap", 1, 0, passed)
    last = columns()[-1]
    assert (last.text(line), last.verdict(line), last.sort(line)) == (said, mark, sort)


def test_readings_stand_in_the_order_of_the_report_judged_by_the_limits_of_their_day(home):
    at = point_record(home.record, 1, TODAY)
    found = reading_lines(home, at, 3, EPA)
    said = [[one.text(line) for one in reading_columns()] for line in found]
    assert [row[:3] for row in said] == [
        ["Nitrate", "11.4 mg/L as N", "over · 10 mg/L as N"],
        ["E. coli", "present", "present · must be absent"],
        ["Total coliform", ">2419.6 MPN/100 mL", "present · must be absent"],
        ["Manganese", "62 µg/L", "no limit"],
        ["pH", "6.1 pH units", "no limit"],
    ]
    assert reading_lines(home, at, 77, EPA) == ()


def test_a_reading_tells_its_printed_name_its_verdict_and_its_place():
    judgement = judged(Verdict.NEAR, limit("lead"), "9")
    printed = result("lead", "9", name="Lead, Pb", method="EPA 200.8")
    found = replace(printed, place="row 4; column 3")
    line = ReadingLine(found, CATALOGUE.parameters["lead"], judgement)
    name, reported, that_day, method, where = reading_columns()
    assert (name.text(line), name.more(line)) == ("Lead", "Lead, Pb")
    assert reported.text(line) == "9 mg/L"
    assert (that_day.text(line), that_day.tip(line)) == ("close · 10 mg/L", "")
    assert that_day.verdict(line) is Verdict.NEAR
    assert (method.text(line), where.text(line)) == ("EPA 200.8", "C4")
    unknown = replace(line, parameter=None)
    assert name.text(unknown) == "Lead, Pb"
