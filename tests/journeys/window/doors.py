"""The way to every page and every dialog, as a person goes it.

A step is `press KEY`, `push BUTTON`, `section LINE` (of the list of the Well page), `row TABLE`
(its first one) or `choose FILE` (in the dialog that asks for one).
"""

import hand
from PySide6.QtWidgets import QComboBox, QListWidget, QTableView

PAGES = {
    "Overview": ["press Alt+1"],
    "Tests": ["press Alt+2"],
    "Events": ["press Alt+3"],
    "Well": ["press Alt+4"],
    "Limits": ["press Alt+5"],
    "What changed": ["press Alt+0"],
    "Parameter": ["press Alt+1", "press Ctrl+Down"],
}
SECTIONS = (
    "Well log",
    "Sampling points",
    "Plans",
    "Labs",
    "Price lists",
    "Treatment units",
    "Service and bypasses",
)
UPKEEP = ("Flow tests", "Upkeep", "Intervals", "Inspections", "Costs")
# The first household has none of these.
NO_CHANGE = {
    "Price lists",
    "Treatment units",
    "Service and bypasses",
}
DIALOGS = {
    "by hand": ["press Ctrl+T"],
    "event": ["press Ctrl+E"],
    "point": ["press Ctrl+Shift+N"],
    "lab’s file": ["press Ctrl+L", "choose lab file"],
    "history": ["press Ctrl+H"],
    "round": ["press Ctrl+R"],
    "drawn": ["press Ctrl+R", "push It was drawn"],
    "lab telephones": ["press Ctrl+Shift+T"],
    "order": ["press Ctrl+R", "push What to order"],
    "a price": ["press Ctrl+R", "push What to order", "push Price list", "push Add"],
    "put off": ["press Ctrl+R", "push Put it off"],
    "lab and way": ["press Ctrl+R", "push The lab and the way"],
    "copies": ["press Ctrl+B"],
    "settings": ["press Ctrl+,"],
    "the household": ["press Ctrl+Shift+,"],
    "keys": ["press Ctrl+F1"],
    "first steps and words": ["press F1"],
    "change an event": ["press Alt+3", "row Events", "push Change"],
    "strike out": ["press Alt+2", "push Strike out"],
    "correct a test": ["press Alt+2", "push Correct the test"],
    "correct a reading": [
        "press Alt+2",
        "row Readings of the chosen test",
        "push Correct the reading",
    ],
    "the well": ["press Alt+4", "push Name, address, remarks"],
    **{f"{s}, add": ["press Alt+4", f"section {s}", "push Add"] for s in SECTIONS},
    **{
        f"{s}, change": ["press Alt+4", f"section {s}", "push Change"]
        for s in SECTIONS
        if s not in NO_CHANGE
    },
    "wellhead": ["press Ctrl+Shift+I"],
    "Upkeep, done": ["press Alt+4", "section Upkeep", "push Done today"],
    "Flow tests, add": ["press Alt+4", "section Flow tests", "push Add"],
    "Intervals, change": ["press Alt+4", "section Intervals", "push Change"],
    "Costs, add": ["press Alt+4", "section Costs", "push Add"],
}
PLACES = (
    *PAGES,
    *(f"Well, {name}" for name in ("At a glance", *SECTIONS, *UPKEEP, "Documents")),
    *DIALOGS,
)


def walk(steps, files):
    """Go a way; `files` gives the path for each `choose`."""
    for step in steps:
        verb, _, what = step.partition(" ")
        deeds = {
            "press": hand.press,
            "push": hand.push,
            "section": section,
            "row": first_row,
            "choose": lambda name: hand.answer(files[name]),
        }
        yield from deeds[verb](what)


def section(name):
    """Click a line of the list on the Well page."""
    called = hand.spoken(name)
    (found,) = [w for w in hand.visible(QListWidget) if _row_called(w, called) is not None]
    yield from hand.click_row(found, _row_called(found, called))
    if name in {"Well log", "Sampling points", "Plans", "Labs"}:
        yield from first_row(name)


def _row_called(view, called):
    rows = [hand.plain(view.item(n).text()) for n in range(view.count())]
    return next((n for n, text in enumerate(rows) if text in called), None)


def first_row(name):
    """Click the first row of a table."""
    called = hand.spoken(name)
    table = next(w for w in hand.visible(QTableView) if hand.plain(w.accessibleName()) in called)
    if hand.table_rows(table):
        yield from hand.click_row(table, 0)


def to(name, told):
    """Leave what is open, then go to a page or a dialog from the overview."""
    yield from hand.leave_dialogs()
    yield from hand.press("Alt+1")
    files = {"lab file": next(told.folder.glob(f"{told.books[0].stem}-*"), None)}
    yield from walk({**PAGES, **DIALOGS}[name], files)
    if name in DIALOGS:
        assert hand.dialog() is not None, f"{name} does not open"


def to_place(name, told):
    """Go to a page, a section of the page of the well, or a dialog."""
    page, _, line = name.partition(", ")
    if name in DIALOGS or name in PAGES:
        yield from to(name, told)
    else:
        yield from to(page, told)
        yield from section(line)


def choose_point():
    """Choose the first point for each printed one that has none yet."""
    for field in hand.visible(QComboBox, hand.dialog()):
        if field.isEnabled() and field.currentIndex() < 0:
            yield from hand.click(field)
            yield from hand.press("Down")
            yield from hand.press("Return")
