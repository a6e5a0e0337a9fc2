"""The well with its log, points, treatment, labs, plans and documents; what changed since."""

import sqlite3

import pytest
from PySide6.QtCore import QDate

from wellbook.window.app.book_pages import Page


def texts(model, column):
    return [model.index(row, column).data() for row in range(model.rowCount())]


@pytest.fixture
def page(opened):
    opened.do("go_well")
    assert opened.view.page == Page.WELL
    return opened.view.at("well")


def section(page, title):
    found = next(view for view in page.sections if view.section.title == title)
    page.list.setCurrentRow(1 + page.sections.index(found))  # below what is seen at a glance
    return found


def fill(opened, button, **values):
    """Open a section's dialog, type into it and keep it; returns the dialog."""
    button.click()
    dialog = opened.view.book_actions.dialog
    for key, value in values.items():
        field = dialog.fields[key]
        if hasattr(field, "setCurrentText"):
            field.setCurrentText(value)
        elif hasattr(field, "setValue"):
            field.setValue(value)
        elif hasattr(field, "setPlainText"):
            field.setPlainText(value)
        else:
            field.setText(value)
    dialog.accept()
    return dialog


def well(opened):
    return opened.view.household.book.wells()[0]


def test_the_well_log_is_kept_in_its_own_words(opened, page):
    log = section(page, "Well log")
    assert ("depth", "185 ft") in log.model.rows
    fill(opened, log.add_button, item="static water level", text="ca. 38 ft (in drought 44)")
    assert "has static level already" in opened.view.book_actions.dialog.bar.text
    opened.view.book_actions.dialog.discard()
    fill(opened, log.add_button, item="colour of the cap", text="green, vermin-proof")
    assert well(opened).construction["colour of the cap"] == "green, vermin-proof"
    log.table.pick(log.model.rows.index(("depth", "185 ft")))
    fill(opened, log.change_button, text="187 ft")
    assert well(opened).construction["depth"] == "187 ft"
    log.remove_button.click()
    assert "depth" not in well(opened).construction
    assert "is taken out" in opened.bar.text
    opened.do("undo")
    assert well(opened).construction["depth"] == "187 ft"
    assert "well changed" in opened.bar.text


def test_a_well_has_a_name_and_private_facts(opened, page):
    page.facts_button.click()
    dialog = opened.view.book_actions.dialog
    dialog.fields["name"].setText("")
    dialog.accept()
    assert "needs a name" in dialog.bar.text
    dialog.fields["name"].setText("Hill well")
    dialog.fields["note"].setPlainText("Behind the barn")
    dialog.accept()
    assert (well(opened).name, well(opened).note) == ("Hill well", "Behind the barn")
    assert page.name.text() == "Hill well"
    assert page.about.text().startswith("Behind the barn")


def test_points_are_added_and_changed_but_stay(opened, page):
    points = section(page, "Sampling points")
    assert not points.remove_button.isEnabled()
    assert "tests belong to it" in points.remove_button.toolTip()
    fill(opened, points.add_button, name="Garden tap", place=4)
    assert texts(points.model, 0)[-1] == "Garden tap"
    points.table.pick(points.model.rowCount() - 1)
    fill(opened, points.change_button, name="Barn tap")
    assert opened.view.household.book.points()[-1].name == "Barn tap"
    assert "Barn tap (untreated)" in [
        opened.view.head.points.itemText(n) for n in range(opened.view.head.points.count())
    ]


def test_a_treatment_unit_says_what_it_is_meant_for_and_when_it_was_bypassed(opened, page):
    units = section(page, "Treatment units")
    dialog = fill(opened, units.add_button, name="Lamp", kind="ultraviolet lamp", target="Light")
    assert "is no parameter" in dialog.bar.text
    dialog.fields["target"].setText("E. coli, Total coliform")
    dialog.fields["installed"].setText("spring 2020")
    dialog.accept()
    assert "is no day" in dialog.bar.text
    dialog.fields["installed"].setText("2020-04")
    dialog.accept()
    lamp = next(u for u in opened.view.household.book.units() if u.name == "Lamp")
    assert (lamp.kind, lamp.target, lamp.installed) == (
        "ultraviolet lamp",
        "e_coli total_coliform",
        "2020-04",
    )
    services = section(page, "Service and bypasses")
    fill(opened, services.add_button, unit="Lamp", kind="bypassed", day="2021-03-02")
    assert "since 2 Mar 2021" in texts(services.model, 0)
    row = texts(services.model, 0).index("since 2 Mar 2021")
    services.table.pick(row)
    fill(opened, services.change_button, until="2021-03-09")
    assert "2 Mar 2021 – 9 Mar 2021" in texts(services.model, 0)
    found = opened.view.household.book.services(lamp.id)
    assert [(one.kind, one.until) for one in found] == [("bypass", "2021-03-09")]
    services.table.pick(texts(services.model, 0).index("2 Mar 2021 – 9 Mar 2021"))
    services.remove_button.click()
    assert opened.view.household.book.services(lamp.id) == []


def test_a_lab_whose_accreditation_had_run_out_on_a_sampling_day_is_pointed_out(opened, page):
    labs = section(page, "Labs")
    last = opened.view.household.book.samples()[-1]
    labs.table.pick(next(n for n, lab in enumerate(labs.model.rows) if lab.fact.name == last.lab))
    fill(opened, labs.change_button, accreditation="State programme, no. 0042", valid_to="2023")
    row = next(n for n, lab in enumerate(labs.model.rows) if lab.fact.name == last.lab)
    assert texts(labs.model, 1)[row] == "State programme, no. 0042"
    assert "not valid on the day of tests" in texts(labs.model, 3)[row]
    labs.table.pick(row)
    fill(opened, labs.change_button, valid_from="", valid_to="")
    assert texts(labs.model, 3)[row] == ""


def test_a_plan_names_panel_point_interval_and_reason(opened, page):
    plans = section(page, "Plans")
    before = opened.view.household.book.plans()
    fill(opened, plans.add_button, panel="Fluoride", months=36, reason="Dentist asked")
    assert "Fluoride" in texts(plans.model, 0)
    row = texts(plans.model, 0).index("Fluoride")
    assert [texts(plans.model, n)[row] for n in (2, 3)] == ["36 months", "Dentist asked"]
    plans.table.pick(row)
    fill(opened, plans.change_button, months=24)
    assert texts(plans.model, 2)[row] == "24 months"
    plans.remove_button.click()
    assert opened.view.household.book.plans() == before


def test_documents_lie_beside_the_well_too(opened, page, answers, tmp_path):
    log = tmp_path / "well log.pdf"
    log.write_bytes(b"%PDF-1.4 a log")
    answers.paths = [log]
    page.documents.add_button.click()
    book = opened.view.household.book
    assert "well log.pdf" in [one.name for one in book.documents(well=well(opened).id)]


def test_a_section_of_the_well_is_made_when_it_is_looked_at_and_shows_what_was_entered_before(
    opened, page
):
    assert not any(view.is_made for view in page.sections), "the well is seen at a glance"
    opened.view.household.book.add_point(1, "attic tap", treated=False, place=9)
    opened.view.refresh()
    points = section(page, "Sampling points")
    assert "attic tap" in texts(points.model, 0)
    assert [view for view in page.sections if view.is_made] == [points]


def test_nothing_of_the_well_can_be_changed_in_a_book_that_is_only_read(frame, household):
    path = household()
    raw = sqlite3.connect(path)
    raw.execute("PRAGMA user_version = 99")
    raw.close()
    frame.open_book(path)
    frame.do("go_well")
    page = frame.view.at("well")
    buttons = [page.facts_button, page.documents.add_button]
    for row, view in enumerate(page.sections, start=1):
        page.list.setCurrentRow(row)
        buttons += [view.add_button, view.change_button, view.remove_button]
    assert [b.text() for b in buttons if b.isEnabled()] == []
    assert {b.accessibleDescription() for b in buttons} == {frame.view.household.why_readonly}
    page.sections[0].table.chosen.emit(page.sections[0].table.row())
    assert frame.view.book_actions.dialog is None


def test_what_changed_is_told_in_plain_words_between_two_days(opened):
    book = opened.view.household.book
    event = book.add_event(1, "flood", "2026-11-20", text="Creek over the bank")
    book.change_event(event, day="2026-11-21")
    book.correct_sample(book.samples()[-1].id, "Typed wrong", note="After the flood")
    opened.do("go_changes")
    page = opened.view.at("changes")
    assert opened.view.page == Page.CHANGES
    page.last.setDate(QDate.currentDate())
    page.refresh()
    rows = [[page.model.index(n, c).data() for c in (1, 2, 3)] for n in range(3)]
    assert rows[0] == ["Test corrected", rows[0][1], "Typed wrong"]
    assert rows[0][1].startswith("test of 7 Oct 2025")
    assert rows[0][1].endswith("remark “After the flood”")
    assert rows[1] == [
        "Event changed",
        "flood 21 Nov 2026: day “2026-11-20” became “2026-11-21”",
        "",
    ]
    assert rows[2] == ["Event added", "flood 20 Nov 2026", ""]
    page.first.setDate(QDate(2001, 1, 1))
    page.last.setDate(QDate(2001, 12, 31))
    assert page.model.rowCount() == 0
    assert page.note.text().startswith("Entries: 0")


def test_every_entry_of_the_invented_households_has_plain_words(frame, household):
    for name in ("alder-hollow", "first-year", "salt-lane"):
        frame.open_book(household(name))
        frame.do("go_changes")
        page = frame.view.at("changes")
        page.first.setDate(QDate(2000, 1, 1))
        page.last.setDate(QDate.currentDate())
        told = [texts(page.model, column) for column in (1, 2)]
        assert page.model.rowCount() == len(frame.view.household.book.journal())
        assert [text for text in told[0] if text.startswith(("Add ", "Change ", "Set "))] == []
        assert [text for text in told[1] if text.strip(" ;") != text] == []


def test_the_well_of_an_empty_book_says_why_nothing_stands_there(frame, answers, tmp_path):
    answers.path = tmp_path / "new.wellbook"
    frame.do("new_book")
    for _unused in range(2):
        frame.view.book_actions.dialog.reject()
    frame.do("go_well")
    glance = frame.view.at("well").glance
    assert not glance.way.isVisible(), "no head stands above nothing"
    assert glance.empty.isVisible()
    assert "Nothing is written down yet" in glance.empty.text()
