"""Looking at sign-in: the files that Linux, Windows and macOS run, made and removed by one switch.

XDG: Desktop Application Autostart Specification 0.5 and Desktop Entry Specification 1.5 (quoting of
Exec). macOS: property lists read back with `plistlib`.
"""

import configparser
import plistlib
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from wellbook.book.rows import Point, Well
from wellbook.planning import reminder
from wellbook.support import sign_in, watched_books
from wellbook.support.errors import Fault
from wellbook.water.sampling.due import PanelDue
from wellbook.water.values.catalogue import Panel

TODAY = date(2026, 11, 25)


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    monkeypatch.setenv("APPDATA", str(tmp_path / "roaming"))
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    return tmp_path


def on(monkeypatch, system):
    monkeypatch.setattr(sys, "platform", system)


@pytest.mark.parametrize("system", ["linux", "win32", "darwin"])
def test_one_switch_makes_the_file_and_removes_it(home, monkeypatch, system):
    on(monkeypatch, system)
    book, other = home / "home.wellbook", home / "other.wellbook"
    assert not sign_in.is_on(book)
    made = sign_in.switch_on(book)
    sign_in.switch_on(other)
    assert sign_in.is_on(book)
    assert made.is_relative_to(home)
    sign_in.switch_off(book)
    assert (sign_in.is_on(book), sign_in.is_on(other), made.is_file()) == (False, True, True)
    sign_in.switch_off(other)
    assert not made.exists()
    sign_in.switch_off()


@pytest.mark.skipif(not Path("/bin/sh").exists(), reason="the referee is the shell")
@pytest.mark.parametrize("folder", ["python", 'Grandma\'s "old" 50% $HOME `x`\\y ä b'])
def test_the_desktop_entry_runs_wherever_the_program_lies(home, monkeypatch, folder):
    on(monkeypatch, "linux")
    monkeypatch.setattr(sign_in, "itself", lambda: [f"/{folder}/wellbook"])
    made = sign_in.switch_on(home / "home.wellbook")
    assert made == home / "config" / "autostart" / "wellbook-due.desktop"
    entry = configparser.ConfigParser(interpolation=None)
    entry.optionxform = str
    entry.read(made, encoding="utf-8")
    assert entry["Desktop Entry"]["Type"] == "Application"
    line = entry["Desktop Entry"]["Exec"].replace("\\\\", "\\").replace("%%", "%")
    # The shell's double quotes follow the same rules as those of an Exec line.
    said = subprocess.run(
        ["/bin/sh", "-c", f"printf '%s\\n' {line}"], capture_output=True, check=True
    )
    assert said.stdout.decode().splitlines() == [f"/{folder}/wellbook", "remind"]


def test_a_book_is_known_again_where_it_was_moved_and_its_loss_is_said_once(home, monkeypatch):
    on(monkeypatch, "linux")
    old, new = home / "old.wellbook", home / "new.wellbook"
    sign_in.switch_on(old, "digest")
    assert sign_in.is_on(new, "digest")
    (gone,) = watched_books.lost("note")
    watched_books.note_lost(gone, "note")
    assert watched_books.lost("note") == ()
    assert len(watched_books.lost("window")) == 1
    sign_in.switch_on(new, "digest")
    assert [one.path for one in watched_books.watched()] == [str(new)]


def test_a_list_of_books_that_another_program_spoiled_is_no_list(home, monkeypatch):
    on(monkeypatch, "linux")
    made = sign_in.switch_on(home / "home.wellbook")
    (home / "data" / "wellbook" / "reminders.json").write_text('[{"path": 1}')
    assert watched_books.watched() == ()
    sign_in.switch_off()
    assert not made.exists()


def test_the_agent_of_macos_runs_the_same(home, monkeypatch):
    on(monkeypatch, "darwin")
    agent = plistlib.loads(sign_in.switch_on(home / "home.wellbook").read_bytes())
    assert agent["RunAtLoad"] is True
    assert agent["ProgramArguments"] == sign_in.command()


def test_the_command_file_of_windows_runs_the_same(home, monkeypatch):
    on(monkeypatch, "win32")
    monkeypatch.setattr(sign_in, "itself", lambda: ["C:\\50% off\\wellbook.exe"])
    made = sign_in.switch_on(home / "home.wellbook")
    assert made.parent.name == "Startup"
    text = made.read_bytes().decode()
    assert text.startswith("@echo off\r\n")
    assert '"remind"' in text
    assert "50%% off" in text


def test_a_folder_that_can_not_be_written_is_said(home, monkeypatch):
    on(monkeypatch, "linux")
    (home / "config").write_text("a file in the way")
    with pytest.raises(Fault, match="nothing runs at sign-in"):
        sign_in.switch_on(home / "home.wellbook")


def planned(name, due, *, private=False):
    panel = Panel(name, name, (), (), 12, "", "")
    day = date(2026, 12, 2)
    return PanelDue(panel, None, due, 0, (day, day), day, (), day, private=private)


def dues(*panels):
    return [(Well(1, "Fox Orchard"), Point(1, 1, "Kitchen tap"), panels)]


def test_the_reminder_names_what_is_due_and_a_good_day():
    now = [planned(name, TODAY) for name in ("Bacteria", "Nitrate", "Arsenic", "Metals", "Radon")]
    assert reminder.sentence(dues(*now), TODAY) == (
        "Due at Kitchen tap: Bacteria, Nitrate, Arsenic and 2 more. A good day: 2 December 2026."
    )
    later = planned("Bacteria", date(2027, 1, 1))
    assert reminder.sentence(dues(later), TODAY) == ""


def test_the_reminder_tells_nothing_about_people():
    baby = planned("Before a baby drinks the water", TODAY, private=True)
    said = reminder.sentence(dues(baby), TODAY)
    assert said == "Due at Kitchen tap: 1 test. A good day: 2 December 2026."
    both = reminder.sentence(dues(baby, planned("Bacteria", TODAY)), TODAY)
    assert both.startswith("Due at Kitchen tap: Bacteria and 1 more.")


def test_it_is_told_once_a_day_for_each_book(tmp_path):
    one, other = tmp_path / "one.wellbook", tmp_path / "other.wellbook"
    assert not reminder.was_told(one, TODAY)
    reminder.note_told(one, TODAY)
    assert reminder.was_told(one, TODAY)
    assert not reminder.was_told(other, TODAY)
    assert not reminder.was_told(one, date(2026, 11, 26))
