"""Fields for a day or a time: in the language of the window, as the person's country writes it."""

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QDateTimeEdit

from wellbook.window.common.words import clock_format, language


def speak(field: QDateTimeEdit) -> None:
    """Have a field name months and days in the language of the window."""
    field.setLocale(language())
    if field.calendarPopup():
        calendar = field.calendarWidget()
        calendar.setLocale(language())
        calendar.setFirstDayOfWeek(QLocale().firstDayOfWeek())


def speak_time(field: QDateTimeEdit) -> None:
    """The same for a time of day."""
    field.setLocale(language())
    field.setDisplayFormat(clock_format())
