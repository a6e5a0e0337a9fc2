"""A report denies what the lab told before it, or what an earlier report says: a person decides."""

from datetime import date

import costing
import doors
import hand
from PySide6.QtWidgets import QComboBox

from wellbook.book import Book
from wellbook.planning.overview import cases
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue

REPORT = (
    "Sample ID,{number}\nCollected,{day} 07:10\nReceived,{day} 15:00\nSample Location,{point}\n\n"
    "Analyte,Result,Units\nE. coli,{found},per 100 mL\nTotal coliform,Absent,per 100 mL\n"
)


def _e_coli(told):
    """Each finding of E. coli of today as it lies on the disk: its words and flags."""
    with Book.open(told.books[0], readonly=True) as book:
        rows = [one for one in book.results() if one.parameter == "e_coli"]
        return sorted(
            [one.reading.text.casefold(), "preliminary" in one.reading.flags,
             "rejected" in one.reading.flags]
            for one in rows if one.collected.day == date.today()
        )  # fmt: skip


def _open_cases(told):
    with Book.open(told.books[0], readonly=True) as book:
        found = cases(book.record().loaded(), read_catalogue(resources()), date.today())
        return [one.opened for one in found if one.closed is None and one.opened == date.today()]


def _report(told, number, found):
    with Book.open(told.books[0], readonly=True) as book:
        point = book.points()[0].name
    path = told.folder / f"{number}-{found}.csv"
    day = date.today().isoformat()
    path.write_text(REPORT.format(number=number, day=day, point=point, found=found))
    return path


def _drop(told, number, found):
    yield from hand.drop([_report(told, number, found)], hand.main_window())
    yield lambda: hand.dialog() is not None
    yield hand.Rest()
    yield from doors.choose_point()
    yield from hand.press("Ctrl+Return")


def whom_to_believe(told):
    yield from doors.to("round", told)
    yield from hand.push("It was drawn…")
    yield from hand.push("It is on its way")
    yield from hand.leave_dialogs()
    yield from doors.to("lab telephones", told)
    yield from hand.push("E. coli found")
    yield from hand.push("Keep as preliminary")
    told.facts["told"] = [_e_coli(told), len(_open_cases(told))]
    yield from _typed(told)
    yield from _drop(told, "n-1", "Absent")
    told.facts["asked"] = hand.dialog().bar.text
    told.facts["nothing stored"] = _e_coli(told)
    yield from hand.press("Ctrl+Return")
    told.facts["asked again"] = hand.dialog() is not None
    yield from hand.push("Keep both")
    told.facts["both"] = [_e_coli(told), len(_open_cases(told))]
    yield from hand.press("Ctrl+Z")
    yield from _drop(told, "n-1", "Absent")
    yield from hand.push("The lab has withdrawn it")
    told.facts["withdrawn"] = [_e_coli(told), len(_open_cases(told))]
    yield from hand.press("Ctrl+Z")
    told.note("two answers")
    yield from _by_telephone(told)


def _typed(told):
    """The same report on paper, typed in: it is asked as a file is, and taken back."""
    yield from doors.to("by hand", told)
    yield from hand.write(date.today().isoformat())
    yield from hand.click(costing._field("Parameter, line 1"))
    yield from hand.enter("E. coli", "Absent")
    yield from hand.keep()
    told.facts["typed, asked"] = hand.dialog().bar.text
    told.facts["typed, nothing stored"] = _e_coli(told)
    yield from hand.press("Ctrl+Return")
    told.facts["typed, asked again"] = hand.dialog() is not None
    yield from hand.push("The lab has withdrawn it")
    told.facts["typed, withdrawn"] = [_e_coli(told), len(_open_cases(told))]
    yield from hand.press("Ctrl+Z")
    told.facts["typed, taken back"] = _e_coli(told)
    told.note("typed")


def _by_telephone(told):
    """The lab calls again: it was another household's water."""
    yield from doors.to("lab telephones", told)
    field = next(
        box for box in hand.visible(QComboBox, hand.dialog()) if box.itemText(0) == "nothing"
    )
    yield from hand.click(field)
    yield from hand.press("Down")
    yield from hand.press("Return")
    yield from hand.push("Keep as preliminary")
    told.facts["taken back"] = [_e_coli(told), len(_open_cases(told))]
    yield from _drop(told, "n-1", "Absent")
    told.facts["completed"] = _e_coli(told)
    yield from _drop(told, "n-1", "Present")
    told.facts["same number"] = hand.dialog().bar.text
    yield from hand.push("Keep it as well")
    told.facts["as well"] = [_e_coli(told), len(_open_cases(told))]
    told.note("an amended report")
