"""The drawing of a well: what its log tells is drawn to scale, what it does not tell is said."""

import pytest

from wellbook.window.pages.well.well_drawing import not_known, said, well_section

LOG = {
    "depth": "185 ft",
    "casing": "6 in steel to 42 ft",
    "static level": "38 ft",
    "pump": "submersible, set at 150 ft",
}


def test_each_part_lies_as_deep_as_the_log_says():
    section = well_section(LOG)
    parts = (section.level, section.casing, section.pump, section.depth)
    assert parts == pytest.approx((11.5824, 12.8016, 45.72, 56.388))
    assert not section.is_metric


def test_what_the_log_does_not_tell_is_said_and_not_drawn():
    assert not_known(well_section(LOG)) == ("Screen: not known",)
    assert len(not_known(well_section({}))) == len(said(well_section({})))
    unread = well_section({**LOG, "screen": "slotted"})
    assert not_known(unread) == ("Screen: slotted (no depth in it)",)


def test_the_well_is_seen_at_a_glance_with_the_way_of_its_water(opened, qtbot):
    opened.do("go_well")
    page = opened.view.at("well")
    assert page.list.currentItem().text() == "At a glance"
    assert page.glance.isVisible()
    way = [page.glance.flow.itemAt(n).widget().text() for n in range(page.glance.flow.count())]
    assert way[0] == "The well"
    assert [line.split(",")[0] for line in way[1:]] == [
        "↓ Tap at the pressure tank",
        "↓ Softener",
        "↓ Kitchen tap",
    ]
    kinds = {"event", "service", "case", "document"}
    qtbot.waitUntil(lambda: kinds <= {row[1] for row in page.glance.model.rows})
    days = [row[0] for row in page.glance.model.rows]
    assert days == sorted(days, reverse=True)
    assert "Depth: 185 ft" in page.glance.drawing.accessibleDescription()
    page.list.setCurrentRow(1)
    page.grab()
