"""Whether a window can open here at all, found out before Qt is loaded.

Qt ends the whole process when a system library is missing, without a word to Python. So each one
is tried by name first. The lists follow from what the shipped Qt libraries link to.
"""

import ctypes
import os
import sys
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from wellbook.support.translation import _

WITHOUT_DISPLAY = "wellbook add, status, due, chart, packet, export and check"


@dataclass(frozen=True, slots=True)
class Library:
    """A system library that Qt links to, and the packages that bring it."""

    file: str
    debian: str
    fedora: str


_ALWAYS = (
    Library("libEGL.so.1", "libegl1", "libglvnd-egl"),
    Library("libGL.so.1", "libgl1", "libglvnd-glx"),
    Library("libfontconfig.so.1", "libfontconfig1", "fontconfig"),
    Library("libfreetype.so.6", "libfreetype6", "freetype"),
    Library("libglib-2.0.so.0", "libglib2.0-0", "glib2"),
    Library("libxkbcommon.so.0", "libxkbcommon0", "libxkbcommon"),
    Library("libX11.so.6", "libx11-6", "libX11"),
    Library("libdbus-1.so.3", "libdbus-1-3", "dbus-libs"),
)
_X11 = (
    Library("libxcb-cursor.so.0", "libxcb-cursor0", "xcb-util-cursor"),
    Library("libxcb-icccm.so.4", "libxcb-icccm4", "xcb-util-wm"),
    Library("libxcb-keysyms.so.1", "libxcb-keysyms1", "xcb-util-keysyms"),
    Library("libxcb-image.so.0", "libxcb-image0", "xcb-util-image"),
    Library("libxcb-render-util.so.0", "libxcb-render-util0", "xcb-util-renderutil"),
    Library("libxcb-randr.so.0", "libxcb-randr0", "libxcb"),
    Library("libxcb-shape.so.0", "libxcb-shape0", "libxcb"),
    Library("libxcb-sync.so.1", "libxcb-sync1", "libxcb"),
    Library("libxcb-xfixes.so.0", "libxcb-xfixes0", "libxcb"),
    Library("libxcb-xkb.so.1", "libxcb-xkb1", "libxcb"),
    Library("libxkbcommon-x11.so.0", "libxkbcommon-x11-0", "libxkbcommon-x11"),
    Library("libX11-xcb.so.1", "libx11-xcb1", "libX11-xcb"),
)
_WAYLAND = (
    Library("libwayland-client.so.0", "libwayland-client0", "libwayland-client"),
    Library("libwayland-cursor.so.0", "libwayland-cursor0", "libwayland-cursor"),
)


def why_no_window(
    environ: Mapping[str, str] = os.environ,
    load: Callable[[str], object] = ctypes.CDLL,
    platform: str = sys.platform,
) -> str | None:
    """Why no window can open here, in one sentence; None if one can."""
    if not platform.startswith("linux"):
        return None
    sessions = _sessions(environ)
    if not sessions:
        return _(
            "No display was found, so no window can open; these commands work without one: "
            "{without_display}."
        ).format(without_display=WITHOUT_DISPLAY)
    missing = _missing(_ALWAYS, load)
    if not missing:
        lacks = [_missing(session, load) for session in sessions]
        missing = [] if not all(lacks) else lacks[-1]
    return _sentence(missing) if missing else None


def import_trouble(error: ImportError) -> str:
    """The sentence for an import of Qt that failed all the same."""
    for library in (*_ALWAYS, *_X11, *_WAYLAND):
        if library.file in str(error):
            return _sentence([library])
    return _(
        "The window can’t open because a part of it can’t be loaded ({error}); install Wellbook "
        "again, or use {without_display}."
    ).format(error=error, without_display=WITHOUT_DISPLAY)


def _sessions(environ: Mapping[str, str]) -> list[tuple[Library, ...]]:
    """Libraries of each kind of display that is there, the one with more to ask for last."""
    chosen = environ.get("QT_QPA_PLATFORM", "")
    if chosen:
        by_name = {"xcb": _X11, "wayland": _WAYLAND}
        return [by_name.get(chosen.split(":")[0].split("-")[0], ())]
    found: list[tuple[Library, ...]] = []
    if environ.get("WAYLAND_DISPLAY"):
        found.append(_WAYLAND)
    if environ.get("DISPLAY"):
        found.append(_X11)
    return found


def _missing(libraries: Iterable[Library], load: Callable[[str], object]) -> list[Library]:
    missing = []
    for library in libraries:
        try:
            load(library.file)
        except OSError:
            missing.append(library)
    return missing


def _sentence(missing: list[Library]) -> str:
    debian = " ".join(dict.fromkeys(library.debian for library in missing))
    fedora = " ".join(dict.fromkeys(library.fedora for library in missing))
    return _(
        "The window needs {names}, which this system "
        "lacks: install it with `sudo apt install {debian}` (Debian, Ubuntu) or "
        "`sudo dnf install {fedora}` (Fedora)."
    ).format(names=", ".join(library.file for library in missing), debian=debian, fedora=fedora)
