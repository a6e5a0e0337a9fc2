"""A price list is dropped, typed and put right, and what to order is found and written."""

import doors
import hand
from PySide6.QtWidgets import QApplication, QComboBox, QDialog, QLabel

from wellbook.book import Book

LIST = """name,price,currency,tests,kind,day
Home package,55.00,USD,"Nitrate as N; E. coli; Total coliform; pH; Hardness",,2026-03-01
Bacteria,30.00,USD,E. coli; Total coliform,,2026-03-01
Nitrogen (nitrate),18.00,USD,Nitrogenium,,2026-03-01
Overnight parcel,21.40,USD,,shipping,2026-03-01
"""
OTHER = "name,price,tests\nAll of it,90,Nitrate; E. coli; Total coliform; Arsenic\n"


def _prices(told):
    """Every price in the file on the disk, by lab and name."""
    with Book.open(told.books[0], readonly=True) as book:
        labs = {lab.id: lab.name for lab in book.record().labs}
        return {
            f"{labs[one.lab]}/{one.name}": [one.amount, one.parameters]
            for one in book.record().prices
        }


def _said():
    return [label.text() for label in hand.visible(QLabel, hand.dialog()) if label.text()]


def _named(kind, name):
    return next(w for w in hand.visible(kind) if name in w.accessibleName())


def _labelled(text):
    """The field that a label leads to."""
    labels = hand.visible(QLabel, hand.dialog())
    return next(one.buddy() for one in labels if hand.plain(one.text()) == hand.plain(text))


def a_list_is_dropped_on_the_window(told):
    """It is a lab's list and no report: it is shown to be kept; two are read one by one."""
    first, second = told.folder / "prices.csv", told.folder / "more.csv"
    first.write_text(LIST)
    second.write_text(OTHER)
    yield from hand.drop([first, second], hand.main_window())
    yield lambda: hand.dialog() is not None
    told.facts["title"] = hand.dialog().windowTitle()
    told.facts["shown"] = [row.price.name for row in hand.dialog().model.rows]
    yield from hand.click(_labelled("Lab"))
    yield from hand.press("Ctrl+A")
    yield from hand.write("Brook Lab")
    yield from hand.press("Ctrl+Return")
    told.facts["kept"] = sorted(_prices(told))
    told.facts["said"] = hand.main_window().bar.text
    told.note("dropped on the window")


def a_list_is_dropped_and_ordered_from(told):
    (told.folder / "prices.csv").write_text(LIST)
    (told.folder / "other.csv").write_text(OTHER)
    (told.folder / "harmed.csv").write_text("name,price\nBacteria,dear\n")
    yield from doors.to("order", told)
    told.facts["without a list"] = " ".join(_said())
    yield from hand.push("Price list")
    yield from hand.press("Ctrl+Return")
    told.facts["nothing typed"] = [hand.dialog().bar.text, _prices(told)]
    yield from hand.click(_labelled("Lab"))
    yield from hand.write("Brook Lab")
    yield from hand.drop([told.folder / "harmed.csv"], hand.dialog())
    told.facts["harmed"] = hand.dialog().bar.text
    yield from hand.drop([told.folder / "prices.csv"], hand.dialog())
    told.note("dropped")
    yield from _say_what_it_means("Nitrogenium", "Nitrate")
    yield from hand.press("Ctrl+Return")
    told.facts["kept"] = _prices(told)
    told.facts["order"] = _said()
    told.note("ordered")
    yield from hand.push("Price list")
    yield from hand.push("Add")
    yield from hand.write("Home package by car")
    yield from hand.press("Tab")
    yield from hand.write("50.50")
    yield from hand.press("Tab")
    yield from hand.press("Tab")
    yield from hand.write("Nitrate as N; E. coli; Total coliform; pH; Hardness")
    yield from hand.press("Ctrl+Return")
    yield from hand.press("Ctrl+Return")
    told.facts["after a price was typed"] = _said()
    yield from hand.push("Form for the lab")
    yield from hand.answer(told.folder / "form.pdf")
    told.facts["form"] = (told.folder / "form.pdf").read_bytes()[:5].decode()
    yield from _another_lab(told)


def _another_lab(told):
    """A list that names no currency, beside the lab on the page of the well; the order tells it."""
    yield from hand.leave_dialogs()
    yield from doors.to("Price lists, add", told)
    yield from hand.write("Hollin Labs")
    yield from hand.push("From a file")
    yield from hand.answer(told.folder / "other.csv")
    yield from hand.press("Ctrl+Return")
    told.facts["two lists"] = sorted({name.split("/")[0] for name in _prices(told)})
    yield from doors.to("order", told)
    told.facts["elsewhere"] = [line for line in _said() if line.startswith("The same at")]
    yield from hand.leave_dialogs()
    yield from hand.press("Ctrl+Z")
    told.facts["taken back"] = sorted({name.split("/")[0] for name in _prices(told)})


def _say_what_it_means(printed, meaning):
    field = _named(QComboBox, f"“{printed}”")
    yield from hand.click(field)
    for _ in range(field.findText(meaning)):
        yield from hand.press("Down")
    yield from hand.press("Return")
    assert field.currentText() == meaning, field.currentText()
    assert isinstance(QApplication.activeModalWidget(), QDialog)
