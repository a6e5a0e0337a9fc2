"""Walk seven pages and six dialogs as a screen reader does, over the desktop's own interface.

python tests/bench/read_desktop.py sample_wells/alder-hollow.wellbook [--whole]

The program runs on a display of its own (Xvfb) with a session bus of its own, is led by keys, and
is asked through libatspi what a screen reader would be told. Printed is what takes the focus
without a name or with a role that tells nothing, and for `--whole` everything that is told. Needs
Xvfb, openbox, xdotool, dbus-run-session and at-spi2-core; Linux only.
"""

import ctypes
import os
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).resolve()
DISPLAY = ":97"
PAGES = {
    "overview": "alt+1", "tests": "alt+2", "events": "alt+3", "well": "alt+4", "limits": "alt+5",
    "changes": "alt+0", "parameter": "ctrl+Down",
}  # fmt: skip
DIALOGS = {
    "by hand": "ctrl+t", "event": "ctrl+e", "round": "ctrl+r", "history": "ctrl+h",
    "settings": "ctrl+comma", "words": "F1",
}  # fmt: skip
FOCUSABLE, SHOWING = 11, 25  # AtspiStateType
NOTHING = {"unknown", "invalid", "filler", "panel"}
MANY = {"table", "list", "tree table", "tree"}
CELLS, DEEPEST, LONGEST = 8, 24, 60.0


class Reader:
    """The calls of libatspi that a walk needs."""

    def __init__(self):
        self.lib = ctypes.CDLL("libatspi.so.0")
        for name in ("get_name", "get_role_name"):
            getattr(self.lib, f"atspi_accessible_{name}").restype = ctypes.c_char_p
        for name in ("get_desktop", "accessible_get_child_at_index", "accessible_get_state_set"):
            getattr(self.lib, f"atspi_{name}").restype = ctypes.c_void_p
        self.lib.atspi_init()

    def text(self, what, one):
        said = getattr(self.lib, f"atspi_accessible_{what}")(ctypes.c_void_p(one), None)
        return (said or b"").decode("utf-8", "replace").strip()

    def children(self, one, most=None):
        count = self.lib.atspi_accessible_get_child_count(ctypes.c_void_p(one), None)
        for place in range(count if most is None else min(count, most)):
            found = self.lib.atspi_accessible_get_child_at_index(ctypes.c_void_p(one), place, None)
            if found:
                yield found

    def has(self, one, state):
        states = self.lib.atspi_accessible_get_state_set(ctypes.c_void_p(one))
        return bool(self.lib.atspi_state_set_contains(ctypes.c_void_p(states), state))

    def told(self, one, depth=0):
        """Depth, role, name and whether it takes the focus, of all that is in sight."""
        if depth > DEEPEST or not (depth == 0 or self.has(one, SHOWING)):
            return
        role = self.text("get_role_name", one)
        yield depth, role, self.text("get_name", one), self.has(one, FOCUSABLE)
        for child in self.children(one, CELLS if role in MANY else None):
            yield from self.told(child, depth + 1)

    def forget(self, one):
        """Ask anew: what was told is kept until the desktop says that it changed."""
        self.lib.atspi_accessible_clear_cache(ctypes.c_void_p(one))

    def program(self):
        """The program, once it told the desktop of itself and of its window."""
        until = time.monotonic() + LONGEST
        while time.monotonic() < until:
            for one in self.children(self.lib.atspi_get_desktop(0)):
                if list(self.children(one)):
                    return one
            time.sleep(0.2)
        sys.exit("the program told the desktop nothing")


def settled(reader, program):
    """What is told, once it is told twice alike."""
    until, before = time.monotonic() + LONGEST, None
    while time.monotonic() < until:
        reader.forget(program)
        told = list(reader.told(program))
        if told == before:
            break
        before = told
        time.sleep(0.3)
    return told


def walk(is_whole):
    reader = Reader()
    program = reader.program()
    settled(reader, program)
    wrong = count = 0
    for name, key in (*PAGES.items(), *DIALOGS.items()):
        subprocess.run(["xdotool", "key", key], check=True)
        time.sleep(0.3)
        told = settled(reader, program)
        focus = [one for one in told if one[3]]
        count += len(focus)
        sys.stdout.write(f"== {name}: {len(told)} told, {len(focus)} take the focus\n")
        for depth, role, said, takes in told:
            is_wrong = takes and (not said or role in NOTHING)
            wrong += is_wrong
            if is_wrong or is_whole:
                mark = "! " if is_wrong else ""
                sys.stdout.write(f"{'  ' * depth}{mark}{role}: {said or '(no name)'}\n")
        sys.stdout.flush()
        if name in DIALOGS:
            subprocess.run(["xdotool", "key", "Escape"], check=True)
            time.sleep(0.3)
    sys.stdout.write(f"{count} take the focus, {wrong} without a name or a role\n")


def in_session(book, *rest):
    """On the display and the bus of its own: start the program, walk, end it."""
    started = [["openbox"], [sys.executable, "-m", "wellbook", book]]
    programs = [subprocess.Popen(words) for words in started]
    try:
        walk("--whole" in rest)
    finally:
        for program in reversed(programs):
            program.terminate()
            program.wait()


def main():
    if os.environ.get("DISPLAY") == DISPLAY:
        in_session(*sys.argv[1:])
        return
    with tempfile.TemporaryDirectory() as folder:
        book = shutil.copy(sys.argv[1], folder)
        display = subprocess.Popen(["Xvfb", DISPLAY, "-screen", "0", "1280x800x24"])
        env = os.environ | {
            "DISPLAY": DISPLAY, "HOME": folder, "XDG_CONFIG_HOME": folder, "XDG_DATA_HOME": folder,
            "XDG_RUNTIME_DIR": folder, "QT_QPA_PLATFORM": "xcb",
            "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1",
        }  # fmt: skip
        try:
            session = ["dbus-run-session", "--", sys.executable, HERE, book, *sys.argv[2:]]
            subprocess.run(session, env=env, check=True)
        finally:
            display.terminate()
            display.wait()


if __name__ == "__main__":
    main()
