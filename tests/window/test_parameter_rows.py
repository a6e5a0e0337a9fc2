"""The page of a parameter in words: its table, its limits, how it stands, what a mark says."""

from dataclasses import replace
from datetime import date, time
from decimal import Decimal

import pytest
from made_standings import BARE, DAY, judged, limit, result, standing, trend
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget
from waters import CATALOGUE, TODAY

from wellbook.book.rows import Event
from wellbook.charts.model.parts import Chart, Mark, Scale, Series, Shape
from wellbook.support.message import message
from wellbook.water.statistics.outcomes import Crossing, Direction, Way
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.forecasts import Forecast
from wellbook.water.verdicts.point_record import Assessed
from wellbook.water.verdicts.reasons import Reason
from wellbook.window.pages import limit_list
from wellbook.window.pages.parameter import chart_events, parameter_words
from wellbook.window.pages.parameter.result_rows import Line, columns, lines

LEAD, NITRATE = CATALOGUE.parameters["lead"], CATALOGUE.parameters["nitrate"]
NEAR = judged(Verdict.NEAR, limit("lead", "10", unit="µg/L"), "9")


def row(found, figure=None, then=NEAR, now=NEAR):
    return Line(found, None if figure is None else Decimal(figure), then, now)


def cells(line, parameter=LEAD, shown=()):
    return {one.title: one.text(line) for one in columns(parameter, shown or [line])}


def column(title, line, parameter=LEAD):
    (found,) = [one for one in columns(parameter, [line]) if one.title == title]
    return found


def test_a_result_says_all_that_its_report_says_of_it():
    found = replace(
        result("lead", "9", "µg/L", name="Lead, Pb", method="EPA 200.8", lab="Larkspur Laboratory"),
        reporting_limit="0.5",
        draw="first draw",
        place="page 2; line 7",
    )
    reading = replace(
        found.reading, fraction="total", flags=frozenset({Flag.HELD_TOO_LONG, Flag.ESTIMATED})
    )
    line = row(replace(found, reading=reading), "9")
    assert cells(line) == {
        "Sampled": "4 May 2026",
        "As reported": "9 µg/L",
        "Then and now": "close · 10 µg/L",
        "Remarks": "estimated, held too long, reporting limit 0.5, first draw, total",
        "Method": "EPA 200.8",
        "Lab": "Larkspur Laboratory",
        "In the report": "page 2, line 7",
    }
    assert column("As reported", line).more(line) == "Lead, Pb"
    assert column("As reported", line).sort(line) == 9
    assert column("Sampled", line).sort(line) == found.collected.order()


def test_a_result_without_remarks_or_place_leaves_them_empty():
    told = cells(row(result("lead", "9", "µg/L"), "9"))
    assert (told["Remarks"], told["In the report"]) == ("", "")


def test_results_come_newest_first_with_both_verdicts_and_their_figure_in_the_usual_unit():
    at = [
        result("lead", "0.009", "mg/L", day=date(2020, 1, 1), number=1),
        replace(
            result("lead", "8", "µg/L", number=2),
            collected=LocalTime(DAY, time(7, 30)),
        ),
        replace(result("lead", "7", "µg/L", number=3), collected=LocalTime(DAY, time(9))),
    ]
    then, now = judged(Verdict.WITHIN), judged(Verdict.OUTSIDE)
    found = lines([Assessed(one, then, now) for one in at], LEAD)
    assert [line.result.id for line in found] == [3, 2, 1]
    assert [line.figure for line in found] == [7, 8, 9]
    assert {(line.then, line.now) for line in found} == {(then, now)}


def test_figures_in_the_usual_unit_stand_beside_only_where_a_lab_used_another():
    same, other = row(result("lead", "9", "µg/L"), "9"), row(result("lead", "0.0090", "mg/L"), "9")
    assert "In µg/L" not in cells(same)
    shown = [same, other]
    assert cells(other, shown=shown)["In µg/L"] == "9.0", "as exact as it was printed"
    assert cells(same, shown=shown)["In µg/L"] == "9.0"
    below = row(result("lead", "<0.0050", "mg/L"), "5")
    above = row(result("lead", ">0.050", "mg/L"), "50")
    assert cells(below)["In µg/L"] == "<5.0"
    assert cells(above)["In µg/L"] == ">50"
    unread = row(result("lead", "not analysed", ""))
    assert cells(unread, shown=[unread, other])["In µg/L"] == ""
    (figures,) = [one for one in columns(LEAD, shown) if one.title == "In µg/L"]
    assert (figures.sort(below), figures.sort(unread)) == (5, None)


def test_bacteria_have_no_figures_in_another_unit():
    coli = CATALOGUE.parameters["e_coli"]
    line = row(result("e_coli", "present", ""), "1", BARE, BARE)
    assert list(cells(line, coli))[:3] == ["Sampled", "As reported", "Then and now"]


def test_both_verdicts_stand_in_two_columns_where_a_limit_has_moved_or_a_verdict_differs():
    moved = judged(Verdict.NEAR, limit("lead", "15", unit="µg/L"), "9")
    for then in (moved, replace(NEAR, verdict=Verdict.OUTSIDE)):
        line = row(result("lead", "9", "µg/L"), "9", then=then)
        told = cells(line)
        assert "Then and now" not in told
        assert told["By today’s limits"] == "close · 10 µg/L"
        assert column("On that day", line).verdict(line) is then.verdict
        assert column("By today’s limits", line).verdict(line) is Verdict.NEAR
    assert cells(row(result("lead", "9", "µg/L"), "9", then=moved))["On that day"] == (
        "close · 15 µg/L"
    )
    found = result("lead", "9", "µg/L")
    shown = [row(found, "9", then=moved), row(found, "9")]
    assert "On that day" in cells(shown[1], shown=shown), "one that moved is enough"
    other_set = replace(NEAR, limit=replace(NEAR.limit, start="2020"))
    assert "Then and now" in cells(row(result("lead", "9", "µg/L"), "9", then=other_set))


def test_a_verdict_tells_its_reason_and_where_its_limit_stands():
    line = row(result("lead", "9", "µg/L"), "9")
    assert column("Then and now", line).more(line) == "40 CFR 141.62(b)"
    why = replace(NEAR, reasons=(message(Reason.NOT_ANALYSED),))
    told = column("Then and now", line).tip(row(line.result, "9", why, why))
    assert told.endswith(". 40 CFR 141.62(b)")
    bare = row(line.result, "9", BARE, BARE)
    assert column("Then and now", bare).tip(bare) == ""
    assert cells(bare)["Then and now"] == "no limit"


def picture(*marks, second=()):
    series = (Series("Tap", second=False, marks=marks), Series("Tank", second=True, marks=second))
    return Chart(
        "Nitrate", (), "mg/L as N", Scale.FROM_ZERO, series, (), (), (), (), None, DAY, TODAY,
        0.0, 20.0, (),
    )  # fmt: skip


def dot(day, verdict=Verdict.WITHIN, label="9 mg/L as N", shape=Shape.VALUE):
    return Mark(day, 9.0, shape, label, verdict=verdict)


def test_the_picture_in_words_passings_direction_and_where_it_goes():
    crossing = Crossing(Way.RISES_ABOVE, 10.0, date(2030, 5, 1), date(2029, 5, 1), date(2032, 5, 1))
    ahead = Forecast(crossing, limit("nitrate"), "mg/L as N", 21)
    later = replace(ahead, crossing=replace(crossing, limit=50.0))
    stands = standing("nitrate", trend=trend(Direction.RISING, 1021), forecasts=(ahead, later))
    marks = [
        dot(date(2026, 1, 1), Verdict.OUTSIDE, "12 mg/L as N"),
        dot(date(2020, 1, 1), Verdict.OUTSIDE, "11 mg/L as N"),
        dot(date(2019, 1, 1)),
    ]
    shown = picture(*marks, second=[dot(date(2010, 1, 1), Verdict.OUTSIDE)])
    said = parameter_words.short(shown, stands, CATALOGUE.sets, TODAY)
    assert said.startswith(
        "Outside a limit in 2 of 3 results, first on 1 Jan 2020: 11 mg/L as N. "
        "Direction by 1,021 tests: rising. "
        "If it goes on like this, the long-run level rises above 10 mg/L as N"
    )
    assert "above 50" not in said, "the weightiest alone"


def test_a_picture_that_shows_nothing_special_says_the_direction_alone():
    stands = standing("nitrate", trend=trend(Direction.FEW, 1))
    said = parameter_words.short(picture(dot(DAY)), stands, CATALOGUE.sets, TODAY)
    assert said == "Direction by 1 test: too few tests."
    none = standing("nitrate", trend=trend(Direction.NOT_FOR_THIS))
    assert parameter_words.short(picture(dot(DAY)), none, CATALOGUE.sets, TODAY) == ""


@pytest.mark.parametrize(
    ("mark", "unit", "lab", "said"),
    [
        (dot(DAY), "mg/L as N", "", "4 May 2026: 9 mg/L as N; within the limit"),
        (dot(DAY, Verdict.NEAR), "", "Larkspur",
         "4 May 2026: 9 mg/L as N; within, but close; Larkspur"),
        (dot(DAY, None), "mg/L as NO3", "", "4 May 2026: 9 mg/L as N; 9 mg/L as NO3"),
        (dot(DAY, None, "<9 mg/L as N", Shape.BELOW), "mg/L as NO3", "",
         "4 May 2026: <9 mg/L as N"),
    ],
)  # fmt: skip
def test_a_mark_in_a_line(mark, unit, lab, said):
    assert parameter_words.mark(mark, unit, lab) == said


def test_how_it_stands_is_said_with_day_and_limit_and_by_whose_limits():
    own = standing("nitrate", Verdict.NEAR)
    first = "Within the limit, but close to it. Sampled on 4 May 2026; limit: 10 mg/L as N."
    assert parameter_words.standing(own, own) == first
    bare = standing("nitrate", Verdict.NO_LIMIT)
    assert parameter_words.standing(bare, bare) == (
        "No limit to compare with. Sampled on 4 May 2026."
    )
    chosen = standing("nitrate", Verdict.OUTSIDE, limit("nitrate", "2"))
    assert parameter_words.standing(chosen, own) == (
        "Over the limit. Sampled on 4 May 2026; limit: 2 mg/L as N. That is by the limits chosen "
        "on this page; by those of the household: Within the limit, but close to it."
    )
    other = standing("nitrate", Verdict.NEAR, limit("nitrate", "11"))
    assert "by those of the household" in parameter_words.standing(other, own)


def test_events_are_marks_on_their_day_or_in_the_middle_of_what_is_known():
    events = [
        Event(1, 1, "flood", "2026-05-04"),
        Event(2, 1, "flood", "2026-05", text="The creek"),
        Event(3, 1, "flood", "some time"),
    ]
    found = chart_events.marks(events)
    assert [(one.day.day, one.label) for one in found] == [(4, "flood"), (15, "The creek")]


class _Only:
    """The part of a household that the list of limits asks."""

    def __init__(self, *limits):
        self.catalogue, self.today = self, TODAY
        self.sets, self._limits = CATALOGUE.sets, limits

    def limits_of(self, _key):
        return self._limits


def listed(qtbot, chosen, *limits):
    """The labels of the limits of nitrate, each with whether it is in the second ink."""
    page = QWidget()
    qtbot.addWidget(page)
    rows = QVBoxLayout(page)
    rows.addWidget(QLabel("of the parameter before"))
    limit_list.fill(rows, NITRATE, _Only(*limits), chosen)
    labels = [rows.itemAt(place).widget() for place in range(rows.count())]
    assert all(isinstance(label, QLabel) for label in labels)
    quiet = QPalette.ColorRole.PlaceholderText
    return [(label.text(), label.foregroundRole() == quiet) for label in labels]


EPA, WHO = "us-epa-primary", next(k for k in CATALOGUE.sets if k.startswith("who"))
YARDSTICKS = (
    "These limits bind public supplies. For a private well they are yardsticks: your health "
    "department may advise others."
)


def test_limits_in_force_come_first_then_those_to_come_then_past_ones_the_newest_first(qtbot):
    def of(start, end="", into=EPA):
        return replace(limit("nitrate", start=start, end=end), set=into)

    told = listed(
        qtbot, [WHO, EPA],
        of("1962", "1977-06-23"), of("1977-06-24", "1992-07-29"), of("1992-07-30"),
        of("2030"), of("", into=WHO), of("", "2028-01"), of("1950", into="us-mn"),
    )  # fmt: skip
    forces = [text.partition(". ")[0] for text, is_quiet in told if is_quiet][:-1]
    assert forces == [
        "Start not known",
        "In force since 30 Jul 1992",
        "In force until January 2028",
        "Not in force yet: from 2030",
        "In force from 24 Jun 1977 to 29 Jul 1992",
        "In force from 1962 to 23 Jun 1977",
    ]
    name = CATALOGUE.sets[WHO].name
    assert told[0] == (f"{name}: 10 mg/L as N (health)", False)
    assert told[1] == ("Start not known. 40 CFR 141.62(b).", True)
    assert told[-1] == (YARDSTICKS, True)
    assert len(told) == 13


def test_a_limit_that_ends_today_holds_and_one_that_starts_today_holds_already(qtbot):
    today, tomorrow, before = "2026-11-25", "2026-11-26", "2026-11-24"
    told = listed(
        qtbot, [EPA],
        limit("nitrate", start="2000", end=before), limit("nitrate", start=tomorrow),
        limit("nitrate", start=today), limit("nitrate", start="2000", end=today),
    )  # fmt: skip
    assert [text.partition(". ")[0] for text, is_quiet in told if is_quiet][:-1] == [
        "In force since 25 Nov 2026",
        "In force from 2000 to 25 Nov 2026",
        "Not in force yet: from 26 Nov 2026",
        "In force from 2000 to 24 Nov 2026",
    ]


def test_condition_and_note_of_a_limit_are_said_before_its_source(qtbot):
    one = replace(limit("nitrate", kind=LimitKind.ADVISORY), condition="first draw", note="Old.")
    told = listed(qtbot, [EPA], one)
    assert told[0][0].endswith("(advisory)")
    assert told[1][0] == "In force since 30 Jul 1992. first draw. Old. 40 CFR 141.62(b)."


def test_sets_without_a_limit_say_so(qtbot):
    assert listed(qtbot, [EPA]) == [
        ("The chosen limit sets have none for it.", True), (YARDSTICKS, True),
    ]  # fmt: skip
