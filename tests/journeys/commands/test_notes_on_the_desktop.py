"""Reminders at sign-in under a real notification service, in a virtual display."""

import json
import os
import shutil
import subprocess
import sys
import textwrap

import pytest

pytestmark = [
    pytest.mark.timeout(300),
    *(
        pytest.mark.skipif(shutil.which(tool) is None, reason=f"{tool} is not installed")
        for tool in ("Xvfb", "dbus-run-session", "dunst", "dunstctl")
    ),
]
DAY = "2026-11-25"
SESSION = textwrap.dedent("""
    Xvfb -displayfd 5 -screen 0 800x400x24 5>display 2>/dev/null & x=$!
    until [ -s display ]; do sleep 0.1; done
    export DISPLAY=:$(cat display)
    dunst -config /dev/null >/dev/null 2>&1 & notes=$!
    until dunstctl is-paused >/dev/null 2>&1; do sleep 0.1; done
    sh words
    dunstctl close-all
    until dunstctl count displayed | grep -qx 0; do sleep 0.1; done
    dunstctl history
    kill $notes $x
""")


@pytest.fixture
def desk(tmp_path):
    """Says what a desktop showed while some commands ran there, title and text of each note."""
    env = {
        **{key: value for key, value in os.environ.items() if key != "DBUS_SESSION_BUS_ADDRESS"},
        "HOME": str(tmp_path),
        "XDG_CONFIG_HOME": str(tmp_path / "config"),
        "XDG_DATA_HOME": str(tmp_path / "data"),
        "QT_QPA_PLATFORM": "",
    }

    def shown(*commands):
        lines = [f'"{sys.executable}" -m wellbook {command} >>said 2>&1' for command in commands]
        (tmp_path / "words").write_text("\n".join(lines))
        (tmp_path / "display").unlink(missing_ok=True)
        done = subprocess.run(
            ["dbus-run-session", "bash", "-c", SESSION],
            cwd=tmp_path, env=env, capture_output=True, text=True, check=False, timeout=240,
        )  # fmt: skip
        history = json.loads(done.stdout)["data"][0]
        return [(one["summary"]["data"], one["body"]["data"]) for one in history]

    return shown


def test_what_is_due_in_each_book_is_shown_once_a_day_without_a_tray(desk):
    notes = desk(
        "sample first-year one.wellbook",
        "sample alder-hollow two.wellbook",
        "signin one.wellbook",
        "signin two.wellbook",
        f"remind --on {DAY}",
        f"remind --on {DAY}",
    )
    assert len(notes) == 2
    assert {title for title, _text in notes} == {
        "A water test is due: one", "A water test is due: two",
    }  # fmt: skip
    assert all(text.startswith("Due at ") for _title, text in notes)


def test_a_book_that_is_gone_says_so_once(desk, tmp_path):
    notes = desk("sample first-year one.wellbook", "signin one.wellbook")
    assert notes == []
    (tmp_path / "one.wellbook").rename(tmp_path / "moved.wellbook")
    ((title, text),) = desk(f"remind --on {DAY}", f"remind --on {DAY}")
    assert title == "A book is gone"
    assert "one.wellbook is no longer in" in text
    assert desk(f"remind --on {DAY}") == []


def test_a_book_that_can_not_be_read_says_why(desk, tmp_path):
    desk("sample first-year one.wellbook", "signin one.wellbook")
    (tmp_path / "one.wellbook").write_bytes(b"no book")
    ((title, text),) = desk(f"remind --on {DAY}", f"remind --on {DAY}")
    assert title == "one"
    assert "one.wellbook" in text
