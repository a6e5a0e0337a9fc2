"""What is due at a sampling point: the value, and the codes of what is said with it."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum
from typing import TYPE_CHECKING

from wellbook.support.message import Message, message
from wellbook.water.values.catalogue import Catalogue, Panel
from wellbook.water.values.seasons import Scheme

if TYPE_CHECKING:
    from wellbook.water.sampling.lab_calendar import Calendar

_FETCHED = 2  # days until a bottle has been fetched at the lab or the health department
_STRETCH = timedelta(days=14)


class Occasion(StrEnum):
    """What asks for a panel that was made for the occasion."""

    BACTERIA = "bacteria were found"
    BACTERIA_RAW = "bacteria were found behind treatment"
    NO_EVIDENCE = "the last sample is no evidence"
    OVER = "over a limit"
    OUTSIDE = "outside its limits"
    NEAR = "near a limit"
    HAPPENING = "something happened"


class Because(StrEnum):
    """Why a test is due, and when."""

    NEVER_TESTED = "never tested"
    PARTLY_TESTED = "partly tested"
    TESTED = "tested"
    OVERDUE = "overdue"
    SHIPPED = "can be shipped"
    DRIVEN = "can be driven"
    NO_DAY = "no day suits"
    THE_SOONER = "the sooner the better"
    FIRST_OF_ALL = "no season is known"
    FIRST_IN_SEASON = "a season's first"
    LEADS_ON = "leads on to a season"
    FAR_FROM_TESTED = "far from the months tested"
    NO_GAP = "no gap in reach"
    ADVISED_INTERVAL = "the advised interval is shorter"
    VAGUE_DAY = "its day is vague"
    TEXT = "as the reference data has it"
    FOUND = "found"
    FOUND_AGAIN = "found again"
    SECOND_SAMPLE = "draw a second sample"
    MEND = "mend the way in"
    MENDED = "the last work"
    NOT_MENDED = "no work noted"
    STRIP_FIRST = "test when no chlorine is left"
    ONE_CLEAN = "one clean sample"
    NO_REPAIR = "no repair noted"
    TWO_CLEAN = "two clean samples"
    WET_SEASON = "one of the wet season is wanted"
    WELL_OR_HOUSE = "raw water tells the well from the house"
    NO_EVIDENCE = "the last sample is no evidence"
    CONFIRM = "confirm it"
    DO = "what else is to be done"
    FLUSHED_BESIDE = "a flushed sample beside the first draw"
    PROVE = "prove the treatment"
    PROVE_TANKS = "prove tanks in series"
    CLEAR = "below the limit so far"
    STILL_OVER = "still over"
    NEAR = "near its limit"
    SAME_VISIT = "drawn on an earlier visit"


_OF_DAYS = frozenset({Because.SHIPPED, Because.DRIVEN, Because.NO_DAY})


class ClosingRule(StrEnum):
    """A rule by which a case closes, or why a panel was made for the occasion."""

    BACTERIA = "clean samples of bacteria"
    NO_EVIDENCE = "no evidence"
    FIGURE = "results below a limit"
    NEAR = "near its limit"
    TEXT = "as the reference data has it"


@dataclass(frozen=True, slots=True)
class PanelDue:
    """When a panel is due, and what is suggested.

    `wording.dues.worded` says the messages: it puts the sentence into `why`, and name and reason
    into a panel that was made for the occasion.

    Attributes:
        panel: The panel; one made for the occasion where an event or a find asks for it.
        last: Oldest among the last days of its core parameters; None if one was never tested.
        due: The day it falls due.
        overdue_days: Days past `due`; 0 while not overdue.
        window: First and last day of the suggested stretch, both included.
        day: The day on which it is drawn: the first in it that can be tested in time, or that of
            the visit on which it is drawn with others; None if there is none.
        reasons: Why it is due, and when.
        earliest: From this day on it may be drawn along with others.
        wanted: The same where bottles are at hand; None for `earliest`.
        urgent: Whether it comes before everything else.
        private: Whether it tells of a person: never handed on.
        case: Key of the case that asks for it; empty without one.
        occasion: What a panel made for the occasion is called; None for one of the catalogue.
        rule: Why such a panel is tested.
        why: The reasons, said.
        drawn: Day on which it was drawn, its result being awaited; None if it was not.
        visit: Which visit to its well draws it, from 1; 0 while visits are not planned, and for
            what was drawn.
        is_new: Whether none of its core parameters was ever tested here.
    """

    panel: Panel
    last: date | None
    due: date
    overdue_days: int
    window: tuple[date, date]
    day: date | None
    reasons: tuple[Message, ...]
    earliest: date
    urgent: bool = False
    private: bool = False
    case: str = ""
    occasion: Message | None = None
    rule: Message | None = None
    why: str = ""
    drawn: date | None = None
    wanted: date | None = None
    visit: int = 0
    is_new: bool = False

    def along_from(self, first: "PanelDue") -> date:
        """From which day on it may be drawn along with what comes first.

        Whoever fetches bottles for an urgent sample fetches those of the others, too.
        """
        return min(self.earliest, self.wanted or self.earliest) if first.urgent else self.earliest

    def may_wait_until(self, day: date) -> bool:
        """Whether a day is not too late: for what is urgent its own, for others its stretch."""
        return day <= (self.day if self.urgent and self.day else self.window[1])

    def put_off(self, until: date, outlook: "Outlook") -> "PanelDue":
        """The same, not before a day."""
        window = until, max(until, self.window[1])
        found = outlook.calendar_for(self.panel)
        off = replace(self, due=until, overdue_days=0, window=window, earliest=until, wanted=until)
        return off.on(found.first_day(*window), found)

    def on(self, day: date | None, way: "Calendar", visit: int = 0) -> "PanelDue":
        """The same, drawn on a day, with what is said of it."""
        if day is None:
            return replace(self, day=None, visit=visit)
        window = min(self.window[0], day), max(self.window[1], day)
        reasons = [one for one in self.reasons if one.code not in _OF_DAYS]
        early = [message(Because.SAME_VISIT)] if day < self.window[0] else []
        said = (*reasons, *early, day_reason(day, way))
        return replace(self, day=day, window=window, reasons=said, visit=visit)


@dataclass(frozen=True, slots=True)
class Outlook:
    """What every question about the next test is asked with."""

    today: date
    scheme: Scheme
    calendar: "Calendar"
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

    def calendar_for(self, panel: Panel) -> "Calendar":
        """The days on which the most perishable of a panel's core parameters can be tested."""
        return self.calendar.within(self.limit(panel.core))


def sample_due(  # noqa: PLR0913  each is a fact that it depends on
    panel: Panel,
    due: date,
    outlook: Outlook,
    reasons: Sequence[Message],
    *,
    last: date | None,
    end: date | None = None,
    along: date | None = None,
    urgent: bool = False,
    case: str = "",
    occasion: Message,
    rule: Message,
) -> PanelDue:
    """A sample that a case asks for.

    Args:
        panel: What is tested.
        due: The day from which on it is wanted.
        outlook: The day, the way to the lab and the reference data.
        reasons: Why it is wanted.
        last: When it was tested last.
        end: Last day on which it serves; None for two weeks.
        along: From this day on it may be drawn along with others; None for not before `due`.
        urgent: Whether it comes before everything else.
        case: Key of the case.
        occasion: What the panel is called.
        rule: Why it is tested.
    """
    soonest = outlook.soonest(urgent=urgent)
    start = max(due, soonest)
    window = (start, max(end or start, start + _STRETCH))
    calendar = outlook.calendar_for(panel)
    day = calendar.first_day(*window)
    return PanelDue(
        panel=panel,
        last=last,
        due=due,
        overdue_days=max(0, (outlook.today - due).days),
        window=window,
        day=day,
        reasons=(*reasons, day_reason(day, calendar)),
        earliest=start if along is None else max(soonest, along),
        wanted=due if along is None else max(outlook.today, along),
        urgent=urgent,
        case=case,
        occasion=occasion,
        rule=rule,
    )


def last_test_reason(last: date | None, overdue: int, *, is_new: bool = False) -> Message:
    """When it was last tested, and for how long it has been due; `is_new` if nothing of it was."""
    if last is None:
        return message(Because.NEVER_TESTED if is_new else Because.PARTLY_TESTED)
    if not overdue:
        return message(Because.TESTED, day=last)
    return message(Because.OVERDUE, day=last, n=overdue)


def day_reason(day: date | None, calendar: "Calendar") -> Message:
    """Whether a day of the suggested stretch suits."""
    if day is None:
        return message(Because.NO_DAY)
    from wellbook.water.sampling.shipping import Drive

    return message(
        Because.DRIVEN if isinstance(calendar.route, Drive) else Because.SHIPPED, day=day
    )
