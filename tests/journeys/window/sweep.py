"""Press everything: each button, link, menu entry and key on each page and in each dialog.

What is found by being visible is pressed by its place. A dialog that opens is swept in turn. What
stands beside every page (a link of the running head, a key that opens a dialog) is pressed on one
of them; with `WELLBOOK_SWEEPS=1` on each.
"""

import os

import doors
import hand
import shiboken6
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QFileDialog,
)

LAST = {
    "Quit": "it ends the program, and with it the journey",
    "Close the book": "it is pressed when all else was tried",
}
ON_EACH_PAGE = "WELLBOOK_SWEEPS" in os.environ
DEEPEST = 3  # a dialog of a dialog of a page


class Sweep:
    """Presses what is visible, place by place.

    Attributes:
        swept: Titles of the dialogs that were swept.
        gone: Controls that were no longer there when their turn came.
    """

    def __init__(self, told):
        self.told, self.swept, self.gone = told, set(), []
        self.opening = set()  # keys that opened a dialog from one page, as they do from all
        self.files = {
            "book": told.books[0],
            "lab": next(told.folder.glob(f"{told.books[0].stem}-*")),
            "packet": told.folder / "packet.pdf",
        }
        self.count = 0

    def at_home(self, page):
        """The page, with the household's own book open."""

        def arrive():
            yield from hand.leave_dialogs()
            if hand.main_window().windowTitle() != self.told.books[0].stem:
                yield from hand.press("Ctrl+O")
                yield from hand.answer(self.told.books[0])
            yield from doors.walk(doors.PAGES[page], {})

        return arrive

    def place(self, name, arrive, depth=0, without=frozenset()):
        """Press all but the controls that were pressed `without` this place; return all of it."""
        yield from arrive()
        shown = hand.front()
        there = set(controls())
        names = [key for key, _ in controls()]
        known = {key for key, _ in there & without}
        for what in (key for key in names if key not in known):
            if hand.front() is not shown or [key for key, _ in controls()] != names:
                yield from arrive()
                shown = hand.front()
            found = dict(controls()).get(what)
            if found is None:
                self.gone.append(f"{name} › {what}")
                continue
            yield from self.press(found, f"{name} › {what}")
            yield from self.look_into(name, what, arrive, depth)
        return there

    def press(self, control, what):
        shown = hand.front()
        try:
            yield from hand.click(control)
            if isinstance(control, QComboBox):
                yield from hand.press("Down")
                yield from hand.press("Return")
            popup = QApplication.activePopupWidget()
            if popup is not None and popup is not shown and hasattr(popup, "actions"):
                yield from hand.press("Escape")
        except hand.OutOfReachError as far:
            self.told.fail(f"{what}: {far}")
        yield from self.answer_files()
        self.told.note(what)

    def answer_files(self):
        """Give what is asked for, whether it is to be read or to be written."""
        asked = hand.dialog()
        if isinstance(asked, QPrintDialog):  # the system's own: nothing is printed here
            yield from hand.press("Escape")
        if not isinstance(asked, QFileDialog):
            return
        modes = QFileDialog.FileMode
        self.count += 1
        if asked.fileMode() is modes.Directory:
            folder = self.told.folder / f"folder {self.count}"
            folder.mkdir()
            yield from hand.answer(folder)
        elif asked.fileMode() is modes.AnyFile:
            yield from hand.answer(self.told.folder / f"made {self.count}")
        elif "ook" in asked.windowTitle():
            yield from hand.answer(self.files["book"])
        else:
            yield from hand.answer(
                self.files["packet" if "packet" in asked.windowTitle() else "lab"]
            )

    def look_into(self, name, what, arrive, depth):
        """Sweep a dialog that was opened, if it was not swept before."""
        shown = hand.dialog()
        if shown is None or shown.windowTitle() in self.swept or depth == DEEPEST:
            return
        title = shown.windowTitle()
        self.swept.add(title)

        def again():
            yield from arrive()
            found = dict(controls()).get(what)
            if found is not None:
                yield from hand.click(found)
                yield from self.answer_files()

        yield from self.keys(f"{name} › {title}", closes=False)
        yield from self.place(f"{name} › {title}", again, depth + 1)

    def keys(self, name, *, closes=True):
        """Every shortcut; a dialog lets none of them through."""
        for action in hand.main_window().actions_by_key.values():
            keys, text = action[1].shortcut().toString(), action[0].plain
            if not keys or text in LAST or (closes and keys in self.opening):
                continue
            shown = hand.dialog()
            yield from hand.press(keys)
            yield from self.answer_files()
            self.told.note(f"{name} › {keys}")
            if not closes and hand.dialog() is not shown:
                self.told.fail(f"{name}: {keys} reaches through the dialog")
                return
            if closes:
                if hand.dialog() is not None and not ON_EACH_PAGE:
                    self.opening.add(keys)
                yield from hand.leave_dialogs()

    def menus(self, home):
        """Every entry of every menu, opened with the mouse."""
        bar = hand.main_window().menuBar()
        for owned in hand.main_window()._menus:
            title = owned.menuAction()
            for number in range(len(owned.actions())):
                yield from home()
                menu = yield from hand.open_menu(bar, title)
                entry = menu.actions()[number]
                if entry.isSeparator():
                    yield from hand.leave_dialogs()
                    continue
                what = f"menu › {entry.text().replace('&', '')}"
                if not entry.isEnabled() or what.split(" › ")[1].rstrip("…") in LAST:
                    yield from hand.press("Escape")
                    continue
                yield from hand.click(menu, spot=menu.actionGeometry(entry).center())
                yield from self.answer_files()
                self.told.note(what)
                yield from self.dialog_of_menu(bar, title, number, home)

    def dialog_of_menu(self, bar, title, number, home):
        shown = hand.dialog()
        if shown is None or shown.windowTitle() in self.swept:
            return
        name = shown.windowTitle()
        self.swept.add(name)

        def again():
            yield from home()
            menu = yield from hand.open_menu(bar, title)
            spot = menu.actionGeometry(menu.actions()[number]).center()
            yield from hand.click(menu, spot=spot)
            yield from self.answer_files()

        yield from self.keys(name, closes=False)
        yield from self.place(name, again, 1)


def controls():
    """What can be pressed in front, by name; equal names are numbered.

    Where a file is written, what is chosen from lists comes first: once its pages are shown, each
    choice makes them anew.
    """
    found, seen = [], {}
    kinds = [QAbstractButton, QComboBox]
    if hand.button("Write the file"):
        kinds.reverse()
    for widget in [widget for kind in kinds for widget in hand.visible(kind)]:
        if not shiboken6.isValid(widget):  # the look at another one took it away
            continue
        inside = widget.parentWidget()
        if not widget.isEnabled() or isinstance(inside, QAbstractItemView | QComboBox):
            continue
        name = hand.label(widget)
        seen[name] = seen.get(name, 0) + 1
        found.append((f"{name} {seen[name]}" if seen[name] > 1 else name, widget))
    return found


def everything(told):
    sweep = Sweep(told)
    yield from sweep.menus(sweep.at_home("Overview"))
    before = frozenset()
    for page in doors.PAGES:
        home = sweep.at_home(page)
        yield from home()
        yield from sweep.keys(page)
        pressed = yield from sweep.place(page, home, without=before)
        if not ON_EACH_PAGE:
            before |= pressed
        if page == "Well":
            for name in (*doors.SECTIONS, "Documents"):
                yield from sweep.place(
                    f"Well, {name}", _section(home, name), without=before | pressed
                )
    yield from sweep.at_home("Overview")()
    yield from hand.press("Ctrl+W")
    told.note("Ctrl+W")
    yield from sweep.place("first page", _first_page)
    told.facts.update(swept=sorted(sweep.swept), gone=sweep.gone)
    yield from hand.leave_dialogs()


def _section(home, name):
    def arrive():
        yield from home()
        yield from doors.section(name)

    return arrive


def _first_page():
    yield from hand.leave_dialogs()
    if hand.main_window().windowTitle() != "Start page":
        yield from hand.press("Ctrl+W")
