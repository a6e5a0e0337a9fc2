"""What is asked beside a round: a day to put a test off to, the lab's hours and the way to it."""

from collections.abc import Mapping
from dataclasses import fields as fields_of
from datetime import date, timedelta

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QComboBox, QWidget

from wellbook.book.rows import Point
from wellbook.planning.lab.lab_route import (
    CAR,
    PARCEL,
    changed,
    read_habits,
    to_keep,
    written,
)
from wellbook.planning.postponing import postponed
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.due import PanelDue
from wellbook.window.common.household import Household
from wellbook.window.common.words import day_words, language
from wellbook.window.dialogs.fields_dialog import Field, FieldsDialog, Values
from wellbook.window.dialogs.household.place_fields import countries, states
from wellbook.window.dialogs.round import time_zones

_LATER = timedelta(days=30)
_DAYS = ("lab_takes_on", "lab_open_on")
_ZONES = ("lab_zone", "home_zone")
_OF_WAY = {PARCEL: ("pickup", "transit_days", "delivered"), CAR: ("drive_minutes",)}


def postpone_dialog(
    household: Household, point: Point, one: PanelDue, parent: QWidget
) -> FieldsDialog:
    """Ask until when a test is put off, and why."""

    def write(values: Values) -> str:
        try:
            until = date.fromisoformat(values["until"])
        except ValueError as error:
            raise Fault(_("Write the day like 2027-01-31.")) from error
        record, catalogue, today = household.record, household.catalogue, household.today
        plans = postponed(record, catalogue, today, point, one, until=until, why=values["why"])
        household.book.set_plans(plans)
        said = _("{name} is put off to {day}.")
        return said.format(name=one.panel.name, day=day_words(until))

    return FieldsDialog(
        (_("Put a test off"), _("Put it off")),
        (
            Field(
                "until",
                _("&Until"),
                (household.today + _LATER).isoformat(),
                hint="2027-01-31",
            ),
            Field("why", _("&Why"), kind="text"),
        ),
        write,
        parent,
        intro=f"{one.panel.name}. {one.panel.why}",
    )


def habits_dialog(household: Household, parent: QWidget) -> FieldsDialog:
    """Ask when the lab takes samples, and how they get there."""
    settings = household.record.settings
    kept = read_habits(settings)
    values = {field.name: written(getattr(kept, field.name)) for field in fields_of(kept)}
    usual = time_zones.usual(*(settings.get(key, "") for key in ("country", "subdivision")))
    values |= {key: usual for key in _ZONES if not settings.get(f"round_{key}")}
    for key in _DAYS:
        values[key] = _day_names(values[key])

    def write(entered: Values) -> str:
        changes = {**entered, **{key: _day_numbers(entered[key]) for key in _DAYS}}
        known = read_habits(household.record.settings)
        household.book.set_settings(to_keep(known, changed(known, changes)))
        return _("The lab and the way to it are kept.")

    title = _("The lab and the way to it")
    made = FieldsDialog(
        (title, _("Keep")),
        _fields(values),
        write,
        parent,
        intro=_(
            "Ask the lab for these: a bacteria sample has to be tested within hours of the draw."
        ),
    )
    way = made.fields["way"]
    if isinstance(way, QComboBox):
        way.currentIndexChanged.connect(lambda: _show_way(made, str(way.currentData())))
        _show_way(made, str(way.currentData()))
    return made


def _show_way(made: FieldsDialog, way: str) -> None:
    """Ask only for what belongs to the chosen way."""
    for one, keys in _OF_WAY.items():
        for key in keys:
            made.form.setRowVisible(made.fields[key], one == way)


def _fields(values: Mapping[str, str]) -> list[Field]:
    days = ", ".join(_week())
    hints = {
        "lab_takes_on": days,
        "lab_open_on": days,
        "lab_closures": "2026-07-03 2026-12-24..2027-01-01",
    }
    country = values["country"]
    zones = time_zones.offered(country, *(values[key] for key in _ZONES))
    choices = {
        "way": {PARCEL: _("by parcel"), CAR: _("by car")},
        **dict.fromkeys(_ZONES, zones),
        "country": countries(),
        "subdivision": states(country),
    }
    kinds = dict.fromkeys(choices, "choice") | {"country": "open", "subdivision": "open"}
    return [
        Field(
            key,
            label,
            values.get(key, ""),
            kinds.get(key, "line") if key in values else "head",
            choices.get(key, {}),
            hints.get(key, ""),
        )
        for key, label in _labels().items()
    ]


def _labels() -> dict[str, str]:
    """The fields and, above each group of them, a heading."""
    return {
        "of the lab": _("The lab"),
        "lab": _("&Lab"),
        "lab_takes_on": _("Takes &bacteria on"),
        "lab_open_on": _("&Open on"),
        "lab_opens": _("Open &from"),
        "lab_cut_off": _("Latest arrival for a &test the same day"),
        "lab_starts": _("Those tests are &started by"),
        "lab_closures": _("&Closed besides holidays"),
        "hold_hours": _("Bacteria samples keep for … &hours"),
        "lab_zone": _("Time &zone of the lab"),
        "of the way": _("The way there"),
        "way": _("The &way"),
        "pickup": _("Parcel: picked &up at"),
        "transit_days": _("Parcel: da&ys on the way"),
        "delivered": _("Parcel: at the lab b&y"),
        "drive_minutes": _("Car: &minutes to the lab"),
        "at home": _("At the well"),
        "earliest": _("We can draw f&rom"),
        "latest": _("We can draw unt&il"),
        "rises": _("First at the tap in the mornin&g"),
        "lead_days": _("&Days until bottles are here"),
        "home_zone": _("Time zone of the &well"),
        "country": _("Holidays of (co&untry)"),
        "subdivision": _("State or &province"),
        "sampler": _("Dra&wn by (private)"),
    }


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
            said = _("“{word}” is no weekday: write {days}.")
            raise Fault(said.format(word=word, days=", ".join(_week())))
        found.update(near)
    return " ".join(map(str, sorted(found)))
