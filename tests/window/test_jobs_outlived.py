"""Work that outlives its dialog ends in peace, whenever the dialog goes."""

import random
import sys
import threading
import time

import pytest
import shiboken6
from PySide6.QtCore import QEvent, QThreadPool
from PySide6.QtWidgets import QApplication, QDialog

from wellbook.window.common.jobs import Job

TIMES = 300


@pytest.fixture
def unheard(monkeypatch):
    """Errors that no code caught, on any thread."""
    errors = []
    monkeypatch.setattr(threading, "excepthook", lambda told: errors.append(told.exc_value))
    monkeypatch.setattr(sys, "unraisablehook", lambda told: errors.append(told.exc_value))
    monkeypatch.setattr(sys, "excepthook", lambda _kind, error, _trace: errors.append(error))
    return errors


def test_a_dialog_may_go_at_any_moment_of_its_work(qapp, unheard):
    dice = random.Random(7)
    heard = []
    for _time in range(TIMES):
        dialog = QDialog()
        job = Job(dialog)
        job.done.connect(heard.append)
        job.told.connect(lambda *told: heard.append(told))
        begun = threading.Event()
        steps, pause = dice.randrange(4), dice.random() / 1000

        def work(tell, begun=begun, steps=steps, pause=pause):
            begun.set()
            for step in range(steps):
                tell(step, steps, "")
                time.sleep(pause)
            if steps == 3:
                raise ValueError("its own mistake")
            return steps

        job.start(work)
        begun.wait()
        time.sleep(dice.random() / 500)
        if dice.random() < 0.5:
            qapp.processEvents()
        shiboken6.delete(dialog)
        del job, dialog
    QThreadPool.globalInstance().waitForDone()
    QApplication.processEvents()
    assert heard
    assert unheard == []


def test_nothing_is_left_of_work_that_ended(qapp, qtbot):
    job = Job()
    with qtbot.waitSignal(job.done):
        job.start(lambda _tell: 1)
    assert not job.running
    qtbot.waitUntil(lambda: not [one for one in qapp.children() if "_Voice" in str(type(one))])


def test_books_that_were_closed_leave_no_widget_behind(qtbot, frame, household):
    counts = []
    for _time in range(3):
        frame.open_book(household())
        qtbot.waitUntil(lambda: not frame.view.look.is_pending, timeout=60000)
        frame.close_book()
        QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
        QApplication.processEvents()
        counts.append(len(QApplication.allWidgets()))
    assert counts[2] == counts[1]
