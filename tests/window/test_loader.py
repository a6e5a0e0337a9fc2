"""Asking on another thread: only the answer to the latest question is heeded."""

import threading

import pytest

from wellbook.support.errors import Fault
from wellbook.window.common.jobs import Loader


@pytest.fixture
def loader():
    made = Loader()
    made.said = []
    made.failed.connect(made.said.append)
    yield made
    made.stop()


def after(gate, answer):
    """Work that gives its answer when the gate is opened."""

    def work(_tell):
        gate.wait(20)
        if isinstance(answer, Fault):
            raise answer
        return answer

    return work


def test_the_answer_reaches_who_asked(qtbot, loader):
    found = []
    loader.ask(lambda _tell: (1, 2), found.append)
    assert loader.running
    qtbot.waitUntil(lambda: found == [(1, 2)], timeout=20000)
    assert not loader.running


def test_an_answer_that_comes_late_is_not_heeded(qtbot, loader):
    slow, found = threading.Event(), []
    loader.ask(after(slow, "first"), found.append)
    loader.ask(lambda _tell: "second", found.append)
    qtbot.waitUntil(lambda: found == ["second"], timeout=20000)
    slow.set()
    third = []
    loader.ask(lambda _tell: "third", third.append)
    qtbot.waitUntil(lambda: third == ["third"], timeout=20000)
    assert found == ["second"]


def test_a_fault_is_said_only_of_the_latest_question(qtbot, loader):
    slow, found = threading.Event(), []
    loader.ask(after(slow, Fault("the first can't be told")), found.append)
    loader.ask(lambda _tell: "second", found.append)
    qtbot.waitUntil(lambda: found == ["second"], timeout=20000)
    slow.set()
    loader.ask(after(slow, Fault("the last can't be told")), found.append)
    qtbot.waitUntil(lambda: loader.said != [], timeout=20000)
    assert loader.said == ["the last can't be told"]


def test_work_that_is_dropped_ends_at_its_next_step(qtbot, loader):
    begun, asked, went_on = threading.Event(), threading.Event(), []

    def work(tell):
        begun.set()
        asked.wait(20)
        tell(1, 2, "")
        went_on.append(True)

    loader.ask(work, went_on.append)
    assert begun.wait(20)
    loader.drop()
    asked.set()
    found = []
    loader.ask(lambda _tell: "next", found.append)
    qtbot.waitUntil(lambda: found == ["next"], timeout=20000)
    assert went_on == []


def test_nothing_is_asked_after_it_was_stopped(loader):
    loader.stop()
    loader.ask(lambda _tell: pytest.fail("asked"), lambda _answer: pytest.fail("answered"))
    assert not loader.running
