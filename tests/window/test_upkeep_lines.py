"""What units and wellhead need, a line each below the answer; the fields of a well's facts."""

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtWidgets import QLabel, QPushButton
from waters import TODAY

from wellbook.book.rows import Lab, Plan, Point, Service, TreatmentUnit, Well
from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.window.common.theme import em
from wellbook.window.pages.overview.upkeep_lines import UpkeepLines
from wellbook.window.pages.well import well_fields

WELL = Well(1, "Low Field")
CAP = UpkeepItem(
    WELL, None, "cap", "cap", "the cap", "Look whether it sits tight.", "owner", "", "", "", None,
    was_done=False, due=date(2026, 11, 1), is_dated=True, overdue_days=0,
)  # fmt: skip
FAULT = replace(CAP, part="the vent", faults=(1,), due=date(2026, 10, 2))


@pytest.fixture
def lines(qtbot):
    def make(*items, why=""):
        made = UpkeepLines(why)
        qtbot.addWidget(made)
        made.show_items(items, TODAY)
        return made

    return make


def shown(made):
    """Each row: its words, and its buttons."""
    rows = [made.layout().itemAt(place).widget() for place in range(made.layout().count())]
    return [
        ([one.text() for one in row.findChildren(QLabel)],
         [one.text() for one in row.findChildren(QPushButton)])
        for row in rows
    ]  # fmt: skip


def test_each_thing_to_do_is_a_sentence_with_a_button(lines):
    made = lines(CAP, FAULT)
    first = "The cap: due since 1 Nov 2026."
    second = "The vent: found bad on 2 Oct 2026, not mended yet."
    assert shown(made) == [([first], ["Done today…"]), ([second], ["Put right…"])]
    assert made.lines == (first, second)
    assert [one.accessibleName() for one in made.buttons] == [
        f"Done today… {first}", f"Put right… {second}",
    ]  # fmt: skip
    (label,) = made.findChildren(QLabel)[:1]
    assert label.accessibleDescription() == "Look whether it sits tight. Who does it: owner."
    assert not made.isHidden()


def test_two_are_shown_and_how_many_more_there_are_is_said_beside_the_last(lines):
    three = shown(lines(CAP, FAULT, CAP))
    assert [buttons for _said, buttons in three] == [
        ["Done today…"], ["1 more thing to see to…", "Put right…"],
    ]  # fmt: skip
    assert shown(lines(*[CAP] * 5))[1][1][0] == "3 more things to see to…"


def test_nothing_to_do_takes_no_room(lines, qtbot):
    new = UpkeepLines("")
    qtbot.addWidget(new)
    assert (new.lines, new.buttons) == ((), [])
    made = lines(CAP)
    made.show_items((), TODAY)
    assert (made.isHidden(), made.lines, made.buttons, shown(made)) == (True, (), [], [])


def test_a_button_carries_its_item_and_the_other_leads_to_all_of_it(lines, qtbot):
    made = lines(CAP, FAULT, CAP)
    with qtbot.waitSignal(made.done) as caught:
        made.buttons[1].click()
    assert caught.args == [FAULT]
    (more,) = [one for one in made.findChildren(QPushButton) if "more" in one.text()]
    with qtbot.waitSignal(made.all_wanted):
        more.click()


def test_where_nothing_can_be_written_the_buttons_are_shut_and_say_why(lines):
    made = lines(CAP, why="The book is open elsewhere.")
    assert not made.buttons[0].isEnabled()
    assert "The book is open elsewhere." in made.buttons[0].toolTip()
    assert lines(CAP).buttons[0].isEnabled()


def test_lines_stand_close_together_and_at_the_edge(lines):
    made = lines(CAP, FAULT)
    rows = made.layout()
    assert rows.spacing() == em(made) // 4
    margins = [one.contentsMargins() for one in (rows, rows.itemAt(0).widget().layout())]
    assert all((m.left(), m.top(), m.right(), m.bottom()) == (0, 0, 0, 0) for m in margins)
    row = rows.itemAt(0).widget().layout()
    assert [row.stretch(place) for place in range(row.count())] == [1, 0], "the words have the room"


def asked(fields):
    return {one.key: one.value for one in fields}


def test_what_is_new_starts_empty_and_at_the_next_place():
    assert asked(well_fields.of_point(None, 3)) == {
        "name": "", "treated": "", "place": "3", "note": "",
    }  # fmt: skip
    assert asked(well_fields.of_unit(None, 4)) == {
        "name": "", "kind": "", "place": "4", "installed": "", "removed": "", "target": "",
        "note": "",
    }  # fmt: skip
    assert asked(well_fields.of_log(None)) == {"item": "", "text": ""}
    plan = asked(well_fields.of_plan(None, {"7": "Tap"}, {"bacteria": "Bacteria"}))
    assert plan == {"panel": "bacteria", "point": "7", "months": "14", "reason": ""}
    bare = asked(well_fields.of_plan(None, {}, {"bacteria": "Bacteria"}))
    assert bare["point"] == ""
    assert asked(well_fields.of_lab(None, "by the state")) == {
        "name": "", "accreditation": "", "valid_from": "", "valid_to": "", "note": "",
    }  # fmt: skip
    assert asked(well_fields.of_service(None, {"2": "Softener"})) == {
        "unit": "2", "kind": "", "day": "", "until": "", "text": "",
    }  # fmt: skip
    assert asked(well_fields.of_service(None, {}))["unit"] == ""


def test_what_is_there_is_asked_for_with_what_is_known_of_it():
    well = Well(2, "Low Field", "Deepened", "17 Quillwort Lane", "44.1, -72.5", 1)
    assert asked(well_fields.of_well(well, {})) == {
        "name": "Low Field", "address": "17 Quillwort Lane", "coordinates": "44.1, -72.5",
        "replaces": "1", "note": "Deepened",
    }  # fmt: skip
    assert asked(well_fields.of_well(WELL, {}))["replaces"] == ""
    point = Point(1, 1, "Tap", treated=True, place=2, note="below the sink")
    assert asked(well_fields.of_point(point, 9)) == {
        "name": "Tap", "treated": "1", "place": "2", "note": "below the sink",
    }  # fmt: skip
    raw = replace(point, treated=False)
    assert asked(well_fields.of_point(raw, 9))["treated"] == ""
    unit = TreatmentUnit(1, 1, "Softener", "ion exchange", 2, "2015-04", "2020", "iron", "blue")
    assert asked(well_fields.of_unit(unit, 9)) == {
        "name": "Softener", "kind": "ion exchange", "place": "2", "installed": "2015-04",
        "removed": "2020", "target": "iron", "note": "blue",
    }  # fmt: skip
    assert asked(well_fields.of_log(("depth", "185 ft"))) == {"item": "depth", "text": "185 ft"}
    plan = Plan(1, 1, "bacteria", 6, "two a year")
    known = asked(well_fields.of_plan(plan, {"1": "Tap"}, {"bacteria": "Bacteria"}))
    assert known == {"months": "6", "reason": "two a year"}, "panel and point stay"
    lab = Lab(1, "Larkspur", "State programme 4471", "2012", "2020", "by post")
    assert asked(well_fields.of_lab(lab, "")) == {
        "accreditation": "State programme 4471", "valid_from": "2012", "valid_to": "2020",
        "note": "by post",
    }  # fmt: skip
    service = Service(1, 5, "2021-03", "bypass", "2021-04", "Resin")
    assert asked(well_fields.of_service(service, {"2": "A", "5": "B"})) == {
        "unit": "5", "kind": "bypass", "day": "2021-03", "until": "2021-04", "text": "Resin",
    }  # fmt: skip


def test_days_of_facts_may_be_known_to_the_month_and_the_fields_say_so():
    hints = [
        one.hint
        for fields in (
            well_fields.of_unit(None, 1),
            well_fields.of_lab(None, ""),
            well_fields.of_service(None, {}),
        )
        for one in fields
        if one.key in {"installed", "removed", "valid_from", "valid_to", "day"}
    ]
    assert hints == ["2019, 2019-05 or 2019-05-31"] * 5
    (_item, written) = well_fields.of_log(None)
    assert written.hint == "as the log says it, with its unit: 185 ft"
    hint = {one.key: one.hint for one in well_fields.of_lab(None, "the state")}
    assert hint["accreditation"] == "the state"
