"""The page of limits: each with its days and source, narrowed down, and its history drawn."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from wellbook.charts.model.limit_history import limit_history
from wellbook.support import translation
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue
from wellbook.wording.reference import cited

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 11, 28)


@pytest.fixture
def page(opened):
    QTest.keyClick(opened, Qt.Key.Key_5, Qt.KeyboardModifier.AltModifier)
    shown = opened.view.at("limits")
    assert shown.isVisible()
    return shown


def cells(page, column):
    return [page.model.index(row, column).data() for row in range(page.model.rowCount())]


def test_it_shows_the_limits_of_the_sets_of_the_book_and_all_others_on_demand(page):
    own = page.model.rowCount()
    assert 0 < own < len(CATALOGUE.limits)
    page.own.click()
    assert page.model.rowCount() == len(CATALOGUE.limits)


def test_what_is_typed_narrows_it_down_by_parameter_name_and_set(page):
    page.own.click()
    QTest.keyClicks(page.wanted, "lead")
    # No copper, although its set is called "action levels for lead and copper".
    assert set(cells(page, 0)) == {"Lead", "Lead-210"}
    page.wanted.clear()
    QTest.keyClicks(page.wanted, "Trinkwasser")
    assert cells(page, 0) == []
    assert "does not say that there is none" in page.more.text()
    page.wanted.clear()
    QTest.keyClicks(page.wanted, "German drinking water ordinance")
    assert set(cells(page, 3)) == {"German drinking water ordinance"}


def test_the_limit_that_is_told_in_full_is_the_one_that_is_marked_in_the_table(page):
    for wanted in ("Uranium", "Lead", "Nitrate"):
        page.wanted.clear()
        QTest.keyClicks(page.wanted, wanted)
        rows = {index.row() for index in page.table.selectionModel().selectedIndexes()}
        assert rows == {page.table.currentIndex().row()}
        assert page.chart.accessibleDescription().startswith(f"{cells(page, 0)[min(rows)]} in ")


def test_words_and_picture_of_the_chosen_limit_are_in_sight_together(page):
    QTest.keyClicks(page.wanted, "Lead")
    within = page.rect()
    for part in (page.table, page.more, page.chart):
        assert within.contains(part.rect().translated(part.mapTo(page, part.rect().topLeft())))


def test_it_says_how_well_the_limits_are_known_and_which_sets_are_partial(page):
    page.own.click()
    QTest.keyClicks(page.wanted, "us-vt")
    rows = [limit for limit in CATALOGUE.limits if limit.set == "us-vt"]
    read = sum(limit.checked for limit in rows)
    told = f"{len(rows)} limits, {read} of them read in a text, {len(rows) - read} from memory."
    assert page.note.text().startswith(told)
    assert "Not the whole published list: Vermont." in page.note.text()
    assert set(cells(page, 5)) == {"read in a text", "from memory"}


def test_the_chosen_limit_is_told_with_its_source_and_its_history_is_drawn(page):
    page.own.click()
    QTest.keyClicks(page.wanted, "us-epa-action-level")
    page.table.selectRow(cells(page, 0).index("Lead"))
    assert page.source.text().startswith("Source: ")
    assert "40 CFR 141.80" in page.source.text()
    kept = "The authority keeps it at: https://www.ecfr.gov/"
    said = page.source.text().splitlines()
    assert any(line.startswith(kept) and line.endswith("(not opened for this)") for line in said)
    assert any(line.startswith("Read in a copy: https://") for line in said)
    assert page.chart.accessibleDescription().startswith("Lead in US EPA action levels")


def test_of_what_must_be_absent_no_picture_without_a_line_is_shown(page):
    # 40 CFR 141.63: E. coli and total coliform have no figure that could have moved.
    QTest.keyClicks(page.wanted, "E. coli")
    page.table.selectRow(0)
    assert "must be absent" in cells(page, 1)[0]
    assert page.chart.isHidden()
    page.wanted.clear()
    QTest.keyClicks(page.wanted, "Nitrate")
    page.table.selectRow(0)
    assert not page.chart.isHidden()


def test_what_was_seen_in_a_text_that_is_no_ground_is_not_called_read(page):
    # Eight Vermont action levels stand on a page of unknown year; the state's own was not found.
    page.own.click()
    QTest.keyClicks(page.wanted, "us-vt")
    page.table.selectRow(cells(page, 0).index("Benzene"))
    said = page.source.text()
    assert "From memory: look it up before you rely on it." in said
    assert "Seen in a text that is not enough to rely on: http" in said
    assert "Read " not in said


def test_the_words_of_a_citation_are_said_and_the_rules_name_stays_as_printed():
    with translation.using(translation.read_language(resources() / "languages", "es")):
        assert cited("NOM-127-SSA1-2021 (DOF 2022-05-02), tables 4 and 5") == (
            "NOM-127-SSA1-2021 (DOF 2022-05-02), tablas 4 y 5"
        )
        assert cited("Directive (EU) 2020/2184, Annex I part B") == (
            "Directive (EU) 2020/2184, Anexo I parte B"
        )
    for limit in CATALOGUE.limits:
        assert cited(limit.source) == limit.source


def test_the_history_steps_on_the_day_on_which_the_limit_moved():
    # 40 CFR 141.11 and 141.62 with 66 FR 6976: arsenic 0.05 mg/L until 2006-01-22, then 0.010.
    chart = limit_history(CATALOGUE.parameters["arsenic"], CATALOGUE, "us-epa-primary", TODAY)
    (line,) = chart.limits
    steps = [(step.first, step.last, step.value) for step in line.steps]
    assert steps == [
        (date(1977, 6, 24), date(2006, 1, 22), 50.0),
        (date(2006, 1, 23), chart.last, 10.0),
    ]
    assert chart.series == ()
    assert chart.first < steps[0][0]


@pytest.mark.parametrize("key", sorted(CATALOGUE.sets))
def test_every_history_runs_forward_in_time_and_says_every_figure(key):
    keys = dict.fromkeys(one.parameter for one in CATALOGUE.limits if one.set == key)
    for parameter in keys:
        chart = limit_history(CATALOGUE.parameters[parameter], CATALOGUE, key, TODAY)
        for line in chart.limits:
            days = [day for step in line.steps for day in (step.first, step.last)]
            assert days == sorted(days), (key, parameter)
        for limit in CATALOGUE.limits_of(parameter):
            if limit.set == key and limit.rule == "max":
                assert f"{limit.high:f}" in chart.sentences[0]
