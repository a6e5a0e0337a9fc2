"""Runs every test without a screen and away from the person's own folders."""

import os
import shutil
import sys
import tempfile
from pathlib import Path

import pytest
import readers
from hypothesis import settings

pytest_plugins = ("packet_fixtures",)  # a furnished household and its packets, on demand

# On a check run the same examples come every time, so that red means that the code changed; a
# slow machine is no fault of the code.
settings.register_profile("check", derandomize=True, deadline=None, print_blob=True)
settings.register_profile("work", deadline=None)
settings.load_profile("check" if os.environ.get("CI") else "work")

readers.install()

_LONGEST = {
    "test_press_everything_first_year",
    "test_eight_households",
    "test_every_word",
    "test_packet_choices_window",
    "test_packet_commands",
    "test_packet_extremes",
    "test_packet_file",
    "test_packet_languages",
    "test_small_screen",
    "test_sources",
}
_HOME = Path(tempfile.mkdtemp(prefix="wellbook-home-"))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["LANGUAGE"] = "en"  # whatever the language of whoever runs the tests
os.environ["HOME"] = os.environ["USERPROFILE"] = str(_HOME)
for _name, _folder in (
    ("XDG_CONFIG_HOME", "config"),
    ("XDG_CACHE_HOME", "cache"),
    ("XDG_DATA_HOME", "data"),
    ("XDG_STATE_HOME", "state"),
    ("MPLCONFIGDIR", "matplotlib"),
):
    os.environ[_name] = str(_HOME / _folder)
    (_HOME / _folder).mkdir()


def pytest_unconfigure():
    shutil.rmtree(_HOME, ignore_errors=True)


@pytest.fixture(autouse=True)
def no_window_is_left_behind():
    yield
    widgets = sys.modules.get("PySide6.QtWidgets")
    if widgets is None or widgets.QApplication.instance() is None:
        return
    widgets.QApplication.processEvents()
    left = [
        window
        for window in widgets.QApplication.topLevelWidgets()
        if window.isVisible() and window.objectName() != "qtooltip_label"
    ]
    for window in left:
        window.hide()
        window.deleteLater()
    widgets.QApplication.processEvents()
    assert not left, f"windows left open: {left}"


def pytest_collection_modifyitems(items):
    """The longest files begin first, so that no processor waits for one of them at the end.

    A file goes to one processor (`--dist loadfile`); `--no-loadscope-reorder` keeps this order.
    """
    items.sort(key=lambda item: item.path.stem not in _LONGEST)
