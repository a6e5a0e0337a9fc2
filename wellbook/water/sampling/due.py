"""What is due at a sampling point: the value, and the sentences that go with it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from wellbook.support.translation import _, ngettext
from wellbook.water.sampling.lab_calendar import Calendar
from wellbook.water.sampling.shipping import Drive
from wellbook.water.values.catalogue import Catalogue, Panel
from wellbook.water.values.seasons import MONTHS, WEEKDAYS, Scheme

_FETCHED = 2  # days until a bottle has been fetched at the lab or the health department


@dataclass(frozen=True, slots=True)
class PanelDue:
    """When a panel is due, and what is suggested.

    Attributes:
        panel: The panel; one made for the occasion where an event or a find asks for it.
        last: Oldest among the last days of its core parameters; None if one was never tested.
        due: The day it falls due.
        overdue_days: Days past `due`; 0 while not overdue.
        window: First and last day of the suggested stretch, both included.
        day: The first day in it that can be tested in time; None if there is none.
        why: One plain sentence.
        earliest: From this day on it may be drawn along with others.
        urgent: Whether it comes before everything else.
        private: Whether it tells of a person: never handed on.
        case: Key of the case that asks for it; empty without one.
    """

    panel: Panel
    last: date | None
    due: date
    overdue_days: int
    window: tuple[date, date]
    day: date | None
    why: str
    earliest: date
    urgent: bool = False
    private: bool = False
    case: str = ""


@dataclass(frozen=True, slots=True)
class Outlook:
    """What every question about the next test is asked with."""

    today: date
    scheme: Scheme
    calendar: Calendar
    catalogue: Catalogue

    def soonest(self, *, urgent: bool = False) -> date:
        """The first day for which bottles can be had; sent for, or fetched if it is urgent."""
        days = self.calendar.lead_days
        return self.today + timedelta(days=min(days, _FETCHED) if urgent else days)

    def limit(self, parameters: Collection[str]) -> timedelta:
        """How old a sample may be when its test starts; for bacteria the lab may ask for less."""
        known = self.catalogue.parameters
        hold = self.catalogue.hold(parameters)
        is_bacteria = any(known[key].family == "bacteria" for key in parameters if key in known)
        return min(hold, self.calendar.limit) if is_bacteria else hold

    def calendar_for(self, panel: Panel) -> Calendar:
        """The days on which the most perishable of a panel's core parameters can be tested."""
        return self.calendar.within(self.limit(panel.core))


def say_standing(last: date | None, overdue: int) -> str:
    """When it was last tested, and for how long it has been due."""
    if last is None:
        return _("Not all of this was ever tested here.")
    if not overdue:
        return _("Last tested on {day}.").format(day=written(last))
    return ngettext(
        "Last tested on {day}, {n} day overdue.", "Last tested on {day}, {n} days overdue.", overdue
    ).format(
        n=overdue,
        day=written(last),
    )


def say_day(day: date | None, calendar: Calendar) -> str:
    """Whether a day of the suggested stretch suits."""
    if day is None:
        return _("No day in this stretch can be shipped: ask the lab which days it takes bacteria.")
    on = {"weekday": _(WEEKDAYS[day.weekday()]), "day": written(day)}
    if isinstance(calendar.route, Drive):
        return _("{weekday}, {day}, can be driven to an open lab.").format(**on)
    return _("{weekday}, {day}, can be shipped to arrive at an open lab.").format(**on)


def written(day: date) -> str:
    """A day with the month as a word, e.g. `5 August 2021`."""
    month = _(MONTHS[day.month - 1])
    return _("{day} {month} {year}").format(day=day.day, month=month, year=day.year)
