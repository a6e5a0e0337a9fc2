"""A day looks the same in every field and sentence, and no line of a label ends within a unit.

The breaks between lines are Qt's, which follow UAX #14 (Unicode line breaking; from memory).
"""

from datetime import date

import pytest
from PySide6.QtCore import QDate, QLocale
from PySide6.QtGui import QFontMetricsF, QTextLayout
from PySide6.QtWidgets import QDateEdit, QLabel

from wellbook.support import paths
from wellbook.support.translation import read_language, using
from wellbook.water.values.catalogue import read_catalogue
from wellbook.window.app.book_pages import Page
from wellbook.window.common.words import day_words, edit_format, language
from wellbook.window.dialogs.event_dialog import EventDialog
from wellbook.window.widgets.date_fields import speak
from wellbook.window.widgets.layouts import Words
from wellbook.wording import facts
from wellbook.wording.units import unbroken

CATALOGUE = read_catalogue(paths.resources())
USED = {(one.unit, one.basis) for one in CATALOGUE.parameters.values()} | {
    (limit.unit, limit.basis) for key in CATALOGUE.parameters for limit in CATALOGUE.limits_of(key)
}


@pytest.mark.parametrize("key", ["en", "es"])
def test_a_field_shows_a_day_as_every_sentence_writes_it_whatever_the_country(qtbot, key):
    before = QLocale()
    try:
        with using(read_language(paths.resources() / "languages", key)):
            for country in ("US", "GB", "CA", "MX"):
                QLocale.setDefault(QLocale(language().language(), QLocale.codeToTerritory(country)))
                field = QDateEdit()
                qtbot.addWidget(field)
                field.setDisplayFormat(edit_format(0))
                speak(field)
                for month in range(1, 13):
                    field.setDate(QDate(2026, month, 9))
                    assert field.text() == day_words(date(2026, month, 9))
    finally:
        QLocale.setDefault(before)


def test_the_dialog_of_an_event_shows_its_day_so(opened, qtbot):
    dialog = EventDialog(opened.view.household, opened)
    qtbot.addWidget(dialog)
    day = dialog.day.date()
    assert dialog.day.text() == day_words(date(day.year(), day.month(), day.day()))


def lines(text, width, font):
    layout = QTextLayout(text, font)
    layout.beginLayout()
    found = []
    while (line := layout.createLine()).isValid():
        line.setLineWidth(width)
        found.append(text[line.textStart() : line.textStart() + line.textLength()])
    layout.endLayout()
    return found


@pytest.mark.parametrize("key", ["en", "es"])
def test_no_line_ends_within_a_unit_or_before_its_basis(qapp, key):
    font = qapp.font()
    with using(read_language(paths.resources() / "languages", key)):
        units = {facts.with_unit("", *used) for used in USED}
        said = {unit for unit in units if unit and ("/" in unit or unit.endswith("L"))}
        assert len(said) > 15
        for unit in said:
            text = unbroken(f"Nitrate 12.3 {unit} is over its limit of 10 {unit}.")
            whole = unbroken(unit)
            width = QFontMetricsF(font).horizontalAdvance(f"{whole}.") + 4
            for more in range(0, 120, 12):
                broken = lines(text, width + more, font)
                assert sum(line.count(whole) for line in broken) == 2, (unit, broken)
    assert len(lines("12.3 mg/L", 50, font)) > 1, "it would be broken"


def test_every_label_that_wraps_keeps_units_whole_and_says_what_it_was_given(opened):
    for page in Page:
        if page is not Page.PARAMETER:
            opened.view.go(page)
    opened.view.show_parameter("nitrate")
    labels = [label for label in opened.findChildren(QLabel) if label.wordWrap()]
    assert len(labels) > 30
    assert [label.text() for label in labels if not isinstance(label, Words)] == []
    assert not any("\u2060" in label.text() for label in labels)
