"""The binding to Qt that is installed here is fit to run the window."""

import sys

import pytest
from PySide6.QtWidgets import QListWidget


@pytest.mark.usefixtures("qapp")
def test_calls_into_qt_leave_python_s_own_none_alone():
    """PySide6 6.12.0 on Python 3.11 lost a reference each time and ended the process at last."""
    items = QListWidget()
    before = sys.getrefcount(None)
    for _ in range(200):
        items.currentItem()
    assert sys.getrefcount(None) > before - 100
