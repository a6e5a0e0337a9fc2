"""The program on a real X server under a real window manager, which is asked by real events."""

import os
import shutil
import subprocess
import time
from contextlib import ExitStack, contextmanager

import pytest

# What the window manager does with windows: frames, focus, and the key that closes one.
FRAMES = """<?xml version="1.0"?>
<openbox_config xmlns="http://openbox.org/3.4/rc">
  <focus><focusNew>yes</focusNew><followMouse>no</followMouse></focus>
  <theme><name>Clearlooks</name></theme>
  <keyboard><keybind key="A-F4"><action name="Close"/></keybind></keyboard>
  <mouse/>
</openbox_config>
"""
LONGEST = 60  # seconds that server and window manager may take to be there on a busy computer

missing = [tool for tool in ("Xvfb", "openbox", "xdotool") if shutil.which(tool) is None]
pytestmark = [
    pytest.mark.skipif(bool(missing), reason=f"not installed: {', '.join(missing)}"),
    pytest.mark.timeout(600),
]


@contextmanager
def running(*command, **how):
    """A program that is ended at the end."""
    process = subprocess.Popen(command, stderr=subprocess.DEVNULL, **how)
    try:
        yield process
    finally:
        process.terminate()
        process.wait()


@pytest.fixture
def desk(tmp_path, monkeypatch):
    """A screen of 1280 x 720 with a window manager; programs started meanwhile appear on it."""
    settings, ready = tmp_path / "frames.xml", tmp_path / "ready"
    settings.write_text(FRAMES)
    with ExitStack() as ends:
        reading, writing = os.pipe()
        size = ("-screen", "0", "1280x720x24", "-nolisten", "tcp", "-noreset")
        ends.enter_context(running("Xvfb", "-displayfd", str(writing), *size, pass_fds=[writing]))
        os.close(writing)
        with open(reading) as told:  # noqa: PTH123  the server writes the number that was free
            display = f":{told.readline().strip()}"
        monkeypatch.setenv("DISPLAY", display)
        monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
        begun = ("--startup", f"touch '{ready}'")
        ends.enter_context(
            running("openbox", "--config-file", settings, *begun, stdout=subprocess.DEVNULL)
        )
        until = time.monotonic() + LONGEST
        while not ready.exists():
            assert time.monotonic() < until, "the window manager does not come"
            time.sleep(0.01)
        yield display


@pytest.mark.usefixtures("desk")
def test_a_visit_to_every_page_two_dialogs_and_a_field_ends_when_the_window_is_closed(use, books):
    report = use("desk:visit", *books("alder-hollow"), platform="xcb")
    assert "\n".join(report["failures"]) == ""
    assert report["facts"] == {"visited": True, "typed": "new pump", "asked": True}
