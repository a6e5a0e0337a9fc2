"""The window's loop goes on while the book is written and read on another thread."""

from threading import Event, current_thread, main_thread

import pytest
from PySide6.QtCore import Qt, QTimer

from tests.window.test_taking_back import enter_event, events, press
from wellbook.support.errors import Fault
from wellbook.window.common.jobs import apart

PATIENCE = 20  # seconds until a loop that stands still is told


@pytest.mark.usefixtures("qapp")
def test_a_timer_is_heard_while_work_waits_for_it():
    ticked = Event()
    QTimer.singleShot(0, ticked.set)
    assert apart(lambda: ticked.wait(PATIENCE) and current_thread() is not main_thread())


@pytest.mark.usefixtures("qapp")
def test_what_goes_wrong_is_raised_where_the_answer_is_awaited():
    def work():
        raise Fault("The disk is full.")

    with pytest.raises(Fault, match="disk is full"):
        apart(work)


def test_the_loop_goes_on_while_an_entry_is_kept_and_closing_waits_for_it(opened):
    enter_event(opened, "Lightning")
    press(opened, Qt.Key.Key_Z)
    ticked, seen = Event(), []

    def close():
        opened.close()
        seen.append(opened.view is not None)
        ticked.set()

    def keep_waiting(_undone):  # the book asks this on the thread that writes
        QTimer.singleShot(0, opened, close)
        seen.append(ticked.wait(PATIENCE))

    opened.view.household.book.before_new = keep_waiting
    enter_event(opened, "Thunder")
    assert seen == [True, True]
    assert "Thunder" in events(opened)
