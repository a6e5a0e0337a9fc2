"""A sampling day in words: what is done at each hour, and how the day was found."""

from datetime import date, datetime, timedelta

from wellbook.support.translation import N_, _
from wellbook.water.sampling.shipping import Found, Hours, Journey, LabHours, by_car
from wellbook.water.sampling.timetable import Task
from wellbook.water.verdicts.hold_time import LIMIT
from wellbook.wording import dates

_NAMES = {
    Task.PREPARE: N_("The evening before"),
    Task.LAST_USE: N_("Last use of water"),
    Task.FIRST_DRAW: N_("First draw"),
    Task.FLUSH: N_("Flush"),
    Task.VIALS: N_("Glass vials"),
    Task.BACTERIA: N_("Bacteria bottle"),
    Task.OTHERS: N_("Bottles with something in them"),
    Task.LARGE_BOTTLE: N_("Large plain bottle"),
    Task.PACK: N_("Pack"),
    Task.HAND_IN: N_("Hand in"),
}
_TEXTS = {
    Task.PREPARE: N_(
        "Read both pages. Hold the bottles against the list, put ice packs into the freezer, and "
        "write names and point on the labels."
    ),
    Task.LAST_USE: N_(
        "No more water in the house from now on: no tap, toilet, ice maker or washing. "
        "Do not let the tap run before this wait either."
    ),
    Task.FIRST_DRAW: N_(
        "Fill the first-draw bottle with the very first water of the tap, at normal full flow. "
        "Leave the aerator on. Let nothing run before."
    ),
    Task.FLUSH: N_(
        "Take aerator and screens off, disinfect the tap as the lab says, and let cold water run "
        "for five minutes or more, until its temperature is steady."
    ),
    Task.VIALS: N_(
        "Fill the glass vials from a thin, smooth stream, to the brim; no bubble may be left."
    ),
    Task.BACTERIA: N_(
        "Wash hands, gloves on. Fill the sterile bottle to the 100 mL line and no further. Never "
        "rinse it; touch neither cap nor rim. Close it at once and put it on ice."
    ),
    Task.OTHERS: N_(
        "Fill the bottles that have acid or powder in them, to the neck and not over. Never rinse "
        "them: what is in them keeps the sample."
    ),
    Task.LARGE_BOTTLE: N_(
        "Rinse the large plain bottle three times with a third of its volume, then fill it to the "
        "top."
    ),
    Task.PACK: N_(
        "Dry the bottles, bag them, pack them upright between ice packs, not frozen. Write down "
        "the times and sign the form."
    ),
    Task.HAND_IN: N_(
        "By this hour the parcel must be ready for pickup, or the bottles at the lab."
    ),
}
_SOFTENER = {
    Task.PREPARE: N_("Keep the softener from regenerating tonight."),
    Task.LAST_USE: N_("The softener must not regenerate either."),
}


def name(task: Task) -> str:
    """What is to be done, in a word or two."""
    return _(_NAMES[task])


def text(task: Task, *, softens: bool = False) -> str:
    """How it is to be done; `softens` is whether there is a unit that rinses itself."""
    said = _(_TEXTS[task])
    more = _(_SOFTENER[task]) if softens and task in _SOFTENER else ""
    return f"{said} {more}".strip()


def say(
    found: Found,
    first: date,
    last: date,
    hours: Hours,
    lab_hours: LabHours,
    limit: timedelta = LIMIT,
) -> str:
    """The search as sentences, for the days that were searched."""
    if found.best and found.slack is not None:
        return _works(found.best, found.slack)
    if not found.nearest or found.slack is None:
        return _(
            "No day from {first} to {last} works: no sample would reach the lab on a "
            "day on which it takes bacteria. Ask the lab for its days, or search more days."
        ).format(first=_day(first), last=_day(last))
    missed = _missed(found.nearest, limit, first, last)
    return f"{missed} {_by_car(first, last, hours, lab_hours, limit)}"


def _works(best: Journey, slack: timedelta) -> str:
    return _(
        "Draw the sample on {draw}. The lab starts the test by "
        "{start}, {age} after the draw; {slack} are to spare."
    ).format(
        draw=_moment(best.draw),
        start=_moment(best.start),
        age=_hours(best.age),
        slack=_hours(slack),
    )


def _missed(nearest: Journey, limit: timedelta, first: date, last: date) -> str:
    return _(
        "No day from {first} to {last} works: drawn on {draw} the "
        "sample would be {age} old when its test starts, and "
        "{limit} are allowed. The way to the lab would have to be "
        "{age2} shorter: a later pickup with a later draw, an earlier "
        "delivery, or a lab that starts its tests sooner."
    ).format(
        first=_day(first),
        last=_day(last),
        draw=_moment(nearest.draw),
        age=_hours(nearest.age),
        limit=_hours(limit),
        age2=_hours(nearest.age - limit),
    )


def _by_car(first: date, last: date, hours: Hours, lab_hours: LabHours, limit: timedelta) -> str:
    """Whether handing the sample in would do, and how long the drive may then be."""
    found = by_car(first, last, hours, lab_hours, limit)
    if found is None:
        return _("Handing it in by car on one of these days would not do either.")
    draw, spare = found
    return _(
        "By car it would work if the drive takes no more than {spare}: draw on "
        "{fit} and hand it in by {cut_off:%H:%M}."
    ).format(spare=_hours(spare), fit=_moment(draw), cut_off=lab_hours.cut_off)


def _day(day: date) -> str:
    return _("{weekday}, {day} {month}").format(
        weekday=dates.weekday(day), day=day.day, month=dates.month(day.month)
    )


def _moment(at: datetime) -> str:
    return _("{at}, at {at2:%H:%M}").format(at=_day(at.date()), at2=at)


def _hours(span: timedelta) -> str:
    minutes = round(span / timedelta(minutes=1))
    whole, rest = divmod(minutes, 60)
    if not rest:
        return f"{whole} h"
    return f"{whole} h {rest} min" if whole else f"{rest} min"
