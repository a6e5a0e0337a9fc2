"""The window says why it can't open before Qt gets the chance to end the process."""

import os
import subprocess
import sys

import pytest

from wellbook.window.app import displays


def all_there(_file):
    return object()


def without(*missing):
    def load(file):
        if file in missing:
            raise OSError(file)
        return object()

    return load


def test_no_display_names_the_commands_that_work_without_one():
    said = displays.why_no_window({}, all_there, "linux")
    assert "No display" in said
    assert "wellbook add, status" in said
    assert "\n" not in said


def test_a_display_and_all_libraries_are_no_trouble():
    assert displays.why_no_window({"DISPLAY": ":0"}, all_there, "linux") is None
    assert displays.why_no_window({"WAYLAND_DISPLAY": "wayland-0"}, all_there, "linux") is None
    assert displays.why_no_window({"QT_QPA_PLATFORM": "offscreen"}, all_there, "linux") is None


def test_other_systems_always_have_a_display():
    assert displays.why_no_window({}, without("libEGL.so.1"), "win32") is None


# Package names: packages.debian.org and packages.fedoraproject.org file lists, from memory.
@pytest.mark.parametrize(
    ("file", "debian", "fedora"),
    [
        ("libEGL.so.1", "libegl1", "libglvnd-egl"),
        ("libGL.so.1", "libgl1", "libglvnd-glx"),
        ("libxcb-cursor.so.0", "libxcb-cursor0", "xcb-util-cursor"),
    ],
)
def test_a_missing_library_is_named_with_its_package(file, debian, fedora):
    said = displays.why_no_window({"DISPLAY": ":0"}, without(file), "linux")
    assert file in said
    assert f"apt install {debian}`" in said
    assert f"dnf install {fedora}`" in said


def test_libraries_of_x11_do_not_matter_offscreen_or_where_wayland_is_whole():
    lacking = without("libxcb-cursor.so.0")
    assert displays.why_no_window({"QT_QPA_PLATFORM": "offscreen"}, lacking, "linux") is None
    both = {"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}
    assert displays.why_no_window(both, lacking, "linux") is None
    assert "xcb" in displays.why_no_window({"QT_QPA_PLATFORM": "xcb"}, lacking, "linux")


def test_where_neither_display_is_whole_the_libraries_of_x11_are_asked_for():
    both = {"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}
    said = displays.why_no_window(
        both, without("libxcb-cursor.so.0", "libwayland-client.so.0"), "linux"
    )
    assert "libxcb-cursor0" in said
    assert "wayland" not in said


@pytest.mark.parametrize("chosen", ["wayland", "wayland-egl", "wayland:more", "xcb:more-words"])
def test_a_platform_is_known_by_its_first_word(chosen):
    lacking = without("libxcb-cursor.so.0", "libwayland-client.so.0")
    said = displays.why_no_window({"QT_QPA_PLATFORM": chosen}, lacking, "linux")
    assert ("libxcb" if chosen.startswith("xcb") else "libwayland") in said


def test_an_import_that_fails_for_another_reason_says_what_to_do():
    said = displays.import_trouble(ImportError("no module named PySide6"))
    assert said == (
        "The window can’t open because a part of it can’t be loaded (no module named PySide6); "
        f"install Wellbook again, or use {displays.WITHOUT_DISPLAY}."
    )


def test_an_import_that_fails_for_a_library_names_its_package():
    error = ImportError("libEGL.so.1: cannot open shared object file: No such file or directory")
    assert "apt install libegl1" in displays.import_trouble(error)


def test_the_real_program_says_so_in_one_line_and_exits_with_1():
    environ = {k: v for k, v in os.environ.items() if k not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    environ.pop("QT_QPA_PLATFORM", None)
    code = "import sys; from wellbook.window import run; sys.exit(run(None))"
    done = subprocess.run(
        [sys.executable, "-c", code], env=environ, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "No display" in done.stderr
