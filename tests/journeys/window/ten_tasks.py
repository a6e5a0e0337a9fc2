"""Tasks of a household, done the shortest way that the window offers, and counted.

One click, one key and one field typed is an action each; a dialog that asks for a file is two.
"""

import hand
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPlainTextEdit, QTableView
from recorder import entries
from reportlab.pdfgen.canvas import Canvas

DAY = "2026-11-24"  # after the lab’s file
PAPER = ("Nitrate", "Chloride", "Iron", "Manganese", "Sodium", "Sulfate", "Fluoride", "Arsenic")
PAPER += ("Calcium", "Magnesium", "Potassium", "Alkalinity")


class Counted:
    """A hand whose actions are counted."""

    def __init__(self):
        self.count = 0

    def press(self, keys):
        self.count += 1
        yield from hand.press(keys)

    def push(self, text):
        self.count += 1
        yield from hand.push(text)

    def write(self, text):
        self.count += 1
        yield from hand.write(text)

    def row(self, view, place, *, double=False):
        self.count += 1
        yield from hand.click_row(view, place, double=double)

    def file(self, path):
        self.count += 2
        yield from hand.answer(path)

    def drop(self, path):
        self.count += 1
        yield from hand.drop([path], hand.main_window())


def shown():
    yield lambda: hand.dialog() is not None
    yield hand.Rest()


def ready(text):
    """Wait until a button can be pressed."""
    yield lambda: hand.button(text) is not None
    yield hand.Rest()


def leave(by, key):
    """Press a key until it leads elsewhere: the first may take the name that is offered."""
    at = QApplication.focusWidget()
    while QApplication.focusWidget() is at:
        yield from by.press(key)


def choose_points(by):
    for field in hand.visible(QComboBox, hand.dialog()):
        if field.isEnabled() and not field.isEditable() and field.currentIndex() < 0:
            by.count += 1  # a click on the list and one on its line are one choice by key
            yield from hand.click(field)
            yield from hand.press("Down")
            yield from hand.press("Return")


def add_a_csv(told, by):
    yield from by.drop(next(told.folder.glob(f"{told.books[0].stem}-*")))
    yield from shown()
    yield from choose_points(by)
    yield from by.push("Keep it")


def add_a_pdf(told, by):
    """A report whose words can be read, as a lab mails it."""
    page = Canvas(str(told.folder / "report.pdf"))
    page.drawString(60, 700, "Date collected: 2026-10-06")
    rows = (("Parameter", "Result", "Units"), ("Chloride", "27", "mg/L"), ("Iron", "0.1", "mg/L"))
    for line, row in enumerate(rows):
        for x, text in zip((60, 200, 300), row, strict=True):
            page.drawString(x, 660 - 18 * line, text)
    page.save()
    yield from by.drop(told.folder / "report.pdf")
    yield from shown()
    yield from choose_points(by)
    yield from by.push("Keep it")


def begin_by_hand(by):
    """Open the dialog, type the day, go to the first line."""
    yield from by.press("Ctrl+T")
    yield from to_the_first_line(by)


def to_the_first_line(by):
    yield from shown()
    yield from by.write(DAY)
    first = next(
        field.lineEdit()
        for field in hand.visible(QComboBox)
        if field.accessibleName() == "Parameter, line 1"
    )
    by.count += 1
    yield from hand.click(first)


def keep(by):
    """Keep it, all the same if an odd figure is asked about."""
    yield from hand.keep(by.press)


def type_a_report(told, by):
    """The day; then line after line as it is printed, Return between them.

    What changed since the test before is told while it is typed, and of the kept test alike.
    """
    yield from begin_by_hand(by)
    for name in PAPER:
        basis = " as N" if name == "Nitrate" else ""
        yield from by.write(f"{name} 3 mg/L{basis}")
        yield from leave(by, "Return")
    before = new_lines()
    yield from keep(by)
    yield hand.Rest()
    after = new_lines()
    if not before or after != before:
        told.fail(
            f"before only {[*set(before) - {*after}]}, after only {[*set(after) - {*before}]}"
        )


def new_lines():
    """What is told to be new in the latest test, line by line."""
    head = "New in the latest test"
    texts = [label.text() for label in hand.visible(QLabel)]
    return [line for text in texts if head in text for line in text[text.index(head) :].split("\n")]


def see_when_nitrate_first_passed(_told, by):
    table = next(
        view
        for view in hand.visible(QTableView)
        if view.accessibleName() == "Parameters at this point"
    )
    names = [table.model().index(n, 0).data() for n in range(hand.table_rows(table))]
    yield from by.row(table, names.index("Nitrate"), double=True)


def correct_a_value(_told, by):
    yield from by.press("Alt+2")
    readings = next(
        view
        for view in hand.visible(QTableView)
        if view.accessibleName() == "Readings of the chosen test"
    )
    yield from by.row(readings, 0)
    yield from by.press("F2")
    yield from shown()
    figure = next(field for field in hand.visible(QLineEdit) if field.text())
    by.count += 1
    yield from hand.click(figure)
    yield from hand.press("Ctrl+A")
    yield from hand.write("7.1")
    (reason,) = hand.visible(QPlainTextEdit)
    by.count += 1
    yield from hand.click(reason)
    yield from by.write("misread")
    yield from keep(by)


def print_the_field_sheet(told, by):
    yield from by.press("Ctrl+R")
    yield from ready("Field sheet")
    yield from by.push("Field sheet")
    yield from by.file(told.folder / "sheet.pdf")
    assert (told.folder / "sheet.pdf").exists()


def begin_a_book(told, by):
    """From the start page to the first test of one result."""
    yield from hand.press("Ctrl+W")
    yield from by.push("Type in a paper report")
    yield from to_the_first_line(by)
    yield from by.write("Iron 0.2 mg/L")
    yield from keep(by)
    yield from kept_first(told, "my-well")


def kept_first(told, name):
    """The new book has the one test, and asks about the household."""
    yield lambda: hand.button("Say who drinks it, and where") is not None
    if hand.main_window().windowTitle() != name:
        told.fail(f"{hand.main_window().windowTitle()} is shown, not {name}")


def begin_with_a_file(told, by):
    """A lab's file is dropped on the start page of somebody who has no book yet."""
    yield from hand.press("Ctrl+W")
    file = told.folder / "first.csv"
    file.write_text("Sample Date,Analyte,Result,Units\n2026-10-01,Chloride,11,mg/L\n")
    yield from by.drop(file)
    yield from by.push("Read into a new book")
    yield from ready("Keep it")
    yield from by.push("Keep it")
    yield from kept_first(told, "my-well-2")


def hand_over(told, by):
    yield from _write(told, by, "Ctrl+H", "packet.pdf")


def hand_a_page_over(told, by):
    yield from _write(told, by, "Ctrl+Shift+W", "page.html")


def _write(told, by, keys, name):
    """Write the file that keys offer to hand on."""
    yield from by.press(keys)
    yield from ready("Write the file")
    yield from by.push("Write the file")
    yield from by.file(told.folder / name)
    yield lambda: hand.button("Open the folder") is not None


def print_a_table(told, by):
    yield from hand.press("Alt+2")
    yield from by.press("Ctrl+P")
    if not isinstance(hand.dialog(), QPrintDialog):
        told.fail("nothing is asked before a table is printed")
    by.count += 1  # Return prints; here is no printer
    yield from hand.press("Escape")


def receive(told, by):
    yield from hand.press("Ctrl+W")
    yield from by.drop(told.folder / "packet.pdf")
    yield from ready("Make a book from it")
    yield from by.push("Make a book from it")
    yield from by.file(told.folder / "theirs.wellbook")
    yield lambda: hand.main_window().windowTitle() == "theirs"


def undo(_told, by):
    yield from by.press("Ctrl+Z")


TASKS = {
    "when nitrate first passed": (see_when_nitrate_first_passed, False),
    "add a lab's CSV": (add_a_csv, True),
    "add a lab's PDF": (add_a_pdf, True),
    "a paper report, 12 results": (type_a_report, True),
    "correct a value": (correct_a_value, True),
    "due, and the field sheet": (print_the_field_sheet, False),
    "undo": (undo, True),
    "buyer's packet": (hand_over, False),
    "buyer's web page": (hand_a_page_over, False),
    "print a table": (print_a_table, False),
    "receive a packet": (receive, False),
    "empty start to the first test": (begin_a_book, False),
    "empty start to a lab's file": (begin_with_a_file, False),
}


CLOSING = {"add a lab's CSV", "add a lab's PDF", "correct a value"}  # their dialog closes at last


def all_of_them(told):
    for name, (task, writes) in TASKS.items():
        yield from hand.leave_dialogs()
        if hand.main_window().windowTitle() == told.books[0].stem:
            yield from hand.press("Alt+1")
        before, by = entries(told.books[0]), Counted()
        yield from task(told, by)
        yield hand.Rest()
        told.facts[name] = by.count
        told.note(f"{name}: {by.count}")
        if hand.dialog() is not None and name in {
            "add a lab's CSV",
            "add a lab's PDF",
            "correct a value",
        }:
            told.fail(f"{name}: {hand.dialog().windowTitle()} is still open: {_said()}")
        if writes and entries(told.books[0]) == before:
            told.fail(f"{name}: nothing was written; {_said()}")
    yield from hand.leave_dialogs()


def _said():
    bar = getattr(hand.dialog() or hand.main_window(), "bar", None)
    return bar.text if bar is not None else ""
