"""A search for a sampling day in plain words: which day and hour, or what would have to change."""

from datetime import UTC, date, datetime, timedelta

from wellbook.support.translation import _
from wellbook.water.sampling.shipping import Desk, Found, Hours, Journey
from wellbook.water.values.seasons import MONTHS, WEEKDAYS
from wellbook.water.verdicts.hold_time import LIMIT


def say(
    found: Found,
    first: date,
    last: date,
    hours: Hours,
    desk: Desk,
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
    return f"{missed} {_by_car(first, last, hours, desk, limit)}"


def _works(best: Journey, slack: timedelta) -> str:
    return _(
        "Draw the sample on {draw}. The test has been started by "
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


def _by_car(first: date, last: date, hours: Hours, desk: Desk, limit: timedelta) -> str:
    """Whether handing the sample in would do, and how long the drive may then be."""
    for step in range((last - first).days + 1):
        day = first + timedelta(days=step)
        if not desk.takes(day):
            continue
        shut = datetime.combine(day, desk.cut_off, desk.zone)
        start = datetime.combine(day, desk.starts, desk.zone)
        fit = [at for at in hours.draws(day) if start - at.astimezone(UTC) <= limit]
        spare = max((shut - at.astimezone(UTC) - hours.packing for at in fit), default=None)
        if spare is not None and spare > timedelta():
            return _(
                "By car it would work if the drive takes no more than {spare}: draw on "
                "{fit} and hand it in by {cut_off:%H:%M}."
            ).format(spare=_hours(spare), fit=_moment(fit[0]), cut_off=desk.cut_off)
    return _("Handing it in by car on one of these days would not do either.")


def _day(day: date) -> str:
    return _("{weekday}, {day} {month}").format(
        weekday=_(WEEKDAYS[day.weekday()]), day=day.day, month=_(MONTHS[day.month - 1])
    )


def _moment(at: datetime) -> str:
    return _("{at}, at {at2:%H:%M}").format(at=_day(at.date()), at2=at)


def _hours(span: timedelta) -> str:
    minutes = round(span / timedelta(minutes=1))
    whole, rest = divmod(minutes, 60)
    if not rest:
        return f"{whole} h"
    return f"{whole} h {rest} min" if whole else f"{rest} min"
