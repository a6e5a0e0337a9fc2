"""What is asked beside a round: a day to put a test off to, the lab's hours and the way to it."""

from collections.abc import Mapping
from dataclasses import fields as fields_of
from datetime import date, timedelta

from PySide6.QtCore import QCoreApplication, QLocale, QTimeZone
from PySide6.QtWidgets import QWidget

from wellbook.book.rows import Point
from wellbook.planning.lab_route import CAR, PARCEL, ZONE, change_habits, read_habits, written
from wellbook.planning.postponing import postpone
from wellbook.support.errors import Fault
from wellbook.water.sampling.due import PanelDue
from wellbook.window.common.household import Household
from wellbook.window.common.words import day_words, language
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values

translate = QCoreApplication.translate
_LATER = timedelta(days=30)
_DAYS = ("lab_takes_on", "lab_open_on")


def postpone_dialog(
    household: Household, point: Point, one: PanelDue, parent: QWidget
) -> FieldsDialog:
    """Ask until when a test is put off, and why."""

    def write(values: Values) -> str:
        try:
            until = date.fromisoformat(values["until"])
        except ValueError as error:
            raise Fault(translate("Round", "Write the day like 2027-01-31.")) from error
        book, catalogue, today = household.book, household.catalogue, household.today
        postpone(book, catalogue, today, point, one, until=until, why=values["why"])
        said = translate("Round", "{name} is put off to {day}.")
        return said.format(name=one.panel.name, day=day_words(until))

    return FieldsDialog(
        (translate("Round", "Put a test off"), translate("Round", "Put it off")),
        (
            Field(
                "until",
                translate("Round", "&Until"),
                (household.today + _LATER).isoformat(),
                hint="2027-01-31",
            ),
            Field("why", translate("Round", "&Why"), kind="text"),
        ),
        write,
        parent,
        intro=f"{one.panel.name}. {one.panel.why}",
    )


def habits_dialog(household: Household, parent: QWidget) -> FieldsDialog:
    """Ask when the lab takes samples, and how they get there."""
    kept = read_habits(household.book)
    values = {field.name: written(getattr(kept, field.name)) for field in fields_of(kept)}
    own = bytes(QTimeZone.systemTimeZoneId().data()).decode()
    if kept.home_zone == ZONE and household.book.setting("round_home_zone") == "" and own:
        values["home_zone"] = own
    for key in _DAYS:
        values[key] = _day_names(values[key])

    def write(entered: Values) -> str:
        changes = {**entered, **{key: _day_numbers(entered[key]) for key in _DAYS}}
        change_habits(household.book, changes)
        return translate("Round", "The lab and the way to it are kept.")

    title = translate("Round", "The lab and the way to it")
    return FieldsDialog(
        (title, translate("Round", "Keep")),
        _fields(values),
        write,
        parent,
        intro=translate(
            "Round",
            "Ask the lab for these: a bacteria sample has to be tested within hours of the draw.",
        ),
    )


def _fields(values: Mapping[str, str]) -> list[Field]:
    names = {
        "lab": translate("Round", "&Lab"),
        "lab_takes_on": translate("Round", "Takes &bacteria on"),
        "lab_open_on": translate("Round", "&Open on"),
        "lab_opens": translate("Round", "Open &from"),
        "lab_cut_off": translate("Round", "Latest arrival for a &test the same day"),
        "lab_starts": translate("Round", "Those tests are &started by"),
        "lab_closures": translate("Round", "&Closed besides holidays"),
        "hold_hours": translate("Round", "Bacteria samples keep for … &hours"),
        "lab_zone": translate("Round", "Time &zone of the lab"),
        "home_zone": translate("Round", "Time zone of the &well"),
        "way": translate("Round", "The &way"),
        "pickup": translate("Round", "Parcel: picked &up at"),
        "transit_days": translate("Round", "Parcel: da&ys on the way"),
        "delivered": translate("Round", "Parcel: at the lab b&y"),
        "drive_minutes": translate("Round", "Car: &minutes to the lab"),
        "earliest": translate("Round", "We can draw f&rom"),
        "latest": translate("Round", "We can draw unt&il"),
        "rises": translate("Round", "First at the tap in the mornin&g"),
        "lead_days": translate("Round", "&Days until bottles are here"),
        "country": translate("Round", "Holidays of (co&untry)"),
        "subdivision": translate("Round", "State or &province"),
        "sampler": translate("Round", "Dra&wn by (private)"),
    }
    days = ", ".join(_week())
    hints = {
        "lab_takes_on": days,
        "lab_open_on": days,
        "lab_closures": "2026-07-03 2026-12-24..2027-01-01",
        "lab_zone": "America/Denver",
        "home_zone": "America/Denver",
        "country": "US, CA, DE …",
        "subdivision": "MA, ON, BY …",
    }
    ways = {PARCEL: translate("Round", "by parcel"), CAR: translate("Round", "by car")}
    return [
        Field(
            key,
            label,
            values[key],
            "choice" if key == "way" else "line",
            ways if key == "way" else {},
            hints.get(key, ""),
        )
        for key, label in names.items()
    ]


def _week() -> list[str]:
    """Short names of the weekdays, Monday first, in the language of the window."""
    short = QLocale.FormatType.ShortFormat
    return [language().standaloneDayName(day, short) for day in range(1, 8)]


def _day_names(numbers: str) -> str:
    week = _week()
    return ", ".join(week[int(number)] for number in numbers.split())


def _day_numbers(names: str) -> str:
    """Numbers of weekdays from their names or the beginnings of them.

    Raises:
        Fault: A word begins none of them.
    """
    week = [name.casefold() for name in _week()]
    found: set[int] = set()
    for word in names.replace(",", " ").casefold().split():
        near = [n for n, name in enumerate(week) if name.startswith(word) or word.startswith(name)]
        if not near:
            said = translate("Round", "“{word}” is no weekday: write {days}.")
            raise Fault(said.format(word=word, days=", ".join(_week())))
        found.update(near)
    return " ".join(map(str, sorted(found)))
