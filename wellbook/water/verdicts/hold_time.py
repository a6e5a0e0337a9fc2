"""Whether a sample was too old when its test started, told from the times that were written down.

A day without a time leaves a doubt, and the doubt goes to the sample: its age is the least that
the times allow. Without their offsets from UTC two times are taken as of one clock.
"""

from datetime import datetime, time, timedelta

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag
from wellbook.water.values.results import Result

LIMIT = timedelta(hours=30)  # EPA on 40 CFR 141.21(f)(3), see `shipping`
_DAY = timedelta(days=1)
_TOO_MANY_DAYS = 2


def least_age(collected: LocalTime, later: LocalTime) -> timedelta:
    """The least time that can have passed between two moments; never less than none."""
    last = collected.known.last if collected.known else collected.day
    drawn = datetime.combine(last, collected.at or time.min)
    if collected.at is None:
        drawn += _DAY
    passed = datetime.combine(later.day, later.at or time.min) - drawn
    if collected.offset is not None and later.offset is not None:
        passed -= timedelta(minutes=later.offset - collected.offset)
    return max(passed, timedelta())


def age_at_test(result: Result) -> timedelta | None:
    """The least age of the sample at the start of its test; None if no later time is known.

    Where the lab does not print the start, the test cannot have started before the receipt.
    """
    known = filter(None, (result.analysed, result.received))
    return max((least_age(result.collected, later) for later in known), default=None)


def may_be_late(result: Result) -> bool:
    """Whether written days without times leave hardly a way for a bacteria sample to be in time.

    Drawn on one day and tested on the day after the next, it was in time only if it was drawn late
    in the evening and the test began soon after midnight.
    """
    if result.collected.known is not None:
        return False  # nothing tells how old it was
    known = [later for later in (result.analysed, result.received) if later is not None]
    return any(
        (later.day - result.collected.day).days >= _TOO_MANY_DAYS
        and (later.at is None or result.collected.at is None)
        for later in known
    )


def is_late(result: Result, limit: timedelta = LIMIT) -> bool:
    """Whether a bacteria sample was held too long, by the lab's word or by the times."""
    if Flag.HELD_TOO_LONG in result.reading.flags:
        return True
    age = age_at_test(result)
    return age is not None and age > limit
