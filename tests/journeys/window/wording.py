"""Every word that the window shows, tells or reads out, while every sentence of ours is loud."""

import csv
import html
import re
from zoneinfo import available_timezones

import doors
import hand
import openpyxl
from loud import WORD, unsaid_in, written_in
from PySide6.QtCore import QLocale, QObject, Qt, QTimeZone
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QComboBox, QListWidget, QTableView, QWidget
from shiboken6 import isValid

from wellbook.planning.flow_test import FLOW_UNITS
from wellbook.planning.lab.lab_route import states_of
from wellbook.support import examples, paths

SAID = ("text", "title", "windowTitle", "toolTip", "statusTip", "whatsThis", "placeholderText",
        "accessibleName", "accessibleDescription", "prefix", "suffix", "currentText", "plainText",
        "toPlainText")  # fmt: skip
ROLES = [
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
]


def every_place(told):
    known = written_in(told.books[0]) | of_the_platform() | in_lab_file(told)
    known |= of_the_units()
    known |= {word for name in examples.known() for word in WORD.findall(name.title())}
    unsaid = {}

    def look(place):
        told.note(place)
        for text in texts_in_front():
            if left := unsaid_in(html.unescape(re.sub(r"<[^<>]*>", " ", text)), known):
                unsaid.setdefault(text, (place, left))

    look("first look")
    for name in doors.PLACES:
        yield from doors.to_place(name, told)
        look(name)
    yield from hand.leave_dialogs()
    yield from hand.press("Ctrl+W")
    look("first page")
    told.facts["unsaid"] = unsaid


def in_lab_file(told):
    """The words of the lab's file, which is shown beside what was read of it."""
    path = next(told.folder.glob(f"{told.books[0].stem}-*"))
    if path.suffix != ".xlsx":
        return set(WORD.findall(path.read_text(encoding="utf-8", errors="replace")))
    opened = openpyxl.load_workbook(path)
    cells = [
        str(cell) for sheet in opened for row in sheet.iter_rows(values_only=True) for cell in row
    ]
    return {word for text in (*opened.sheetnames, *cells) for word in WORD.findall(text)}


def of_the_units():
    """The units that limits are published in, and those of a flow."""
    with (paths.resources() / "limits.csv").open(encoding="utf-8", newline="") as file:
        units = [*FLOW_UNITS, *(row["unit"] for row in csv.DictReader(file))]
    return {word for unit in units for word in WORD.findall(unit)}


def of_the_platform():
    """Names of keys, months, days, countries, states and time zones, as libraries give them."""
    place = QLocale("es")  # the tag of the loud language
    forms = (QLocale.FormatType.LongFormat, QLocale.FormatType.ShortFormat)
    names = [place.monthName(n, form) for n in range(1, 13) for form in forms]
    names += [place.standaloneMonthName(n, form) for n in range(1, 13) for form in forms]
    names += [place.dayName(n, form) for n in range(1, 8) for form in forms]
    anything = QLocale.Language.AnyLanguage, QLocale.Script.AnyScript, QLocale.Country.AnyCountry
    names += [one.nativeTerritoryName() for one in QLocale.matchingLocales(*anything)]
    names += states_of("US").values()
    zones = map(QTimeZone, QTimeZone.availableTimeZoneIds())
    as_told = QTimeZone.TimeType.StandardTime, QTimeZone.NameType.LongName
    names += [zone.displayName(*as_told, place) for zone in zones]
    names += [*available_timezones(), "Ctrl Shift Alt Tab Left Right Up Down Esc Return"]
    return {word for name in names for word in WORD.findall(name)}


def texts_in_front():
    """Every text of what is in front, shown or not: tips and what is read out, too."""
    front = hand.front()
    for widget in [front, *front.findChildren(QObject)]:
        if not isValid(widget) or (isinstance(widget, QWidget) and not widget.isVisible()):
            continue
        if isinstance(widget, QWidget | QAction):
            yield from _said_by(widget)
        if isinstance(widget, QComboBox):
            yield from (widget.itemText(n) for n in range(widget.count()))
        if isinstance(widget, QListWidget):
            yield from (widget.item(n).text() for n in range(widget.count()))
        if isinstance(widget, QTableView) and widget.model() is not None:
            yield from _cells(widget.model())


def _said_by(widget):
    for name in SAID:
        read = getattr(widget, name, None)
        if callable(read):
            text = read()
            if isinstance(text, str) and text:
                yield text


def _cells(model):
    for column in range(model.columnCount()):
        for role in ROLES:
            yield str(model.headerData(column, Qt.Orientation.Horizontal, role) or "")
            for row in range(model.rowCount()):
                yield str(model.index(row, column).data(role) or "")
