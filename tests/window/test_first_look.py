"""The window shows the newest tests at once; what histories tell follows and is kept."""

import shutil

import pytest

from wellbook.support import paths
from wellbook.water.values.judgement import Verdict


@pytest.fixture(autouse=True)
def nothing_kept():
    shutil.rmtree(paths.cache() / "histories", ignore_errors=True)


def trends(frame):
    model = frame.view.overview.model
    return {model.index(row, 5).data() for row in range(model.rowCount()) if model.rows[row].key}


def test_verdicts_are_there_before_any_trend_and_trends_follow(frame, household, qtbot):
    frame.open_book(household())
    view = frame.view
    assert view.look.is_pending
    assert "…" in trends(frame)
    seen = [(one.parameter.key, one.now, one.n) for one in view.point.standings]
    assert any(one.now.verdict is Verdict.NEAR for one in view.point.standings)
    qtbot.waitUntil(lambda: not view.look.is_pending, timeout=60000)
    assert {"rising", "no clear trend"} <= trends(frame)
    assert "…" not in trends(frame)
    assert view.overview.changes.text()
    assert [(one.parameter.key, one.now, one.n) for one in view.point.standings] == seen
    before = trends(frame)
    frame.close_book()
    frame.open_book(view.household.path)
    assert not frame.view.look.is_pending
    assert trends(frame) == before


def test_a_parameter_opened_at_once_gets_its_trend_when_it_is_known(frame, household, qtbot):
    frame.open_book(household())
    frame.view.show_parameter("nitrate")
    page = frame.view.at(frame.view.page)
    assert not page.change.isVisible()
    qtbot.waitUntil(lambda: not frame.view.look.is_pending, timeout=60000)
    assert page.change.isVisible()
    assert page.long_run.isVisible()
