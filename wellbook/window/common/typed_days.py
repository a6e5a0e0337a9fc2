"""Days and times as a person types them."""

from datetime import date, time

from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.partial_date import YEARS, read_partial_date
from wellbook.wording.dates import loose_day, outside_years

_DAY = len("2019-05-31")


def partial_hint() -> str:
    """How a day is written that may be known to the month or the year only."""
    return _("2019, 2019-05 or 2019-05-31")


def moment_hint() -> str:
    """How a day with or without its time is written."""
    return _("2019-05-31 or 2019-05-31 07:30")


def _in_iso(text: str) -> str:
    """What was typed, as ISO writes it where it is a day in another writing.

    Raises:
        Fault: Day and month can be meant in either order, or no book can hold the day.
    """
    said = _meant(text)
    partial = read_partial_date(said[:_DAY])
    if partial is not None and partial.year not in YEARS:
        raise Fault(f"{outside_years(f'“{text}”')}.")
    return said


def _meant(text: str) -> str:
    said = text.strip()
    if not said or read_partial_date(said):
        return said
    from wellbook.intake import in_iso

    meant = in_iso(said)
    if len(meant) > 1:
        one, other = (loose_day(day[:_DAY]) for day in meant)
        asked = _("“{text}” can be {one} or {other}: write {one_so} or {other_so}.")
        raise Fault(
            asked.format(text=said, one=one, other=other, one_so=meant[0], other_so=meant[1])
        )
    return meant[0] if meant else said


def read_partial(text: str) -> str:
    """A day, a month or a year, or nothing.

    Raises:
        Fault: It is something else, or there is no such day.
    """
    said = _in_iso(text)
    if not said or read_partial_date(said):
        return said
    raise Fault(_("“{text}” is no day: write 2019, 2019-05 or 2019-05-31.").format(text=text))


def day_hint() -> str:
    """How a day is written that must be known."""
    return _("2019-05-31")


def read_day(text: str) -> date | None:
    """A day, or nothing.

    Raises:
        Fault: It is something else, or there is no such day.
    """
    said = _in_iso(text)
    try:
        return date.fromisoformat(said) if said else None
    except ValueError as error:
        said = _("“{text}” is no day: write it like 2019-05-31.")
        raise Fault(said.format(text=text)) from error


def read_first_day(text: str) -> date | None:
    """The first day of a day, month or year; faults as `read_partial`."""
    partial = read_partial_date(read_partial(text))
    return partial.first if partial else None


def read_last_day(text: str) -> date | None:
    """The last day of a day, month or year; faults as `read_partial`."""
    partial = read_partial_date(read_partial(text))
    return partial.last if partial else None


def read_moment(text: str, before: LocalTime | None = None) -> LocalTime | None:
    """A day, perhaps with its time; the offset from UTC stays as it was `before`.

    Raises:
        Fault: It is something else, or there is no such day.
    """
    said = _in_iso(text)
    if not said:
        return None
    day, _unused, clock = said.partition(" ")
    try:
        at = time.fromisoformat(clock.strip()).replace(second=0) if clock.strip() else None
        return LocalTime(date.fromisoformat(day), at, before.offset if before and at else None)
    except ValueError as error:
        raise Fault(
            _("“{text}” is no day: write 2019-05-31 or 2019-05-31 07:30.").format(text=text)
        ) from error


def drawn_hint() -> str:
    """How the day of sampling is written, which may be known to the month or the year only."""
    return _("2019-05-31, 2019-05-31 07:30, 2019-05 or 2019")


def read_drawn(text: str, before: LocalTime | None = None) -> LocalTime | None:
    """The day of sampling, perhaps with its time, or the month or year alone.

    Raises:
        Fault: It is something else, or there is no such day.
    """
    partial = read_partial_date(_in_iso(text))
    if partial is not None and partial.is_vague:
        return LocalTime.within(partial)
    return read_moment(text, before)


def written(moment: LocalTime | None) -> str:
    """A moment as `read_moment` and `read_drawn` read it."""
    if moment is None:
        return ""
    if moment.known is not None:
        return str(moment.known)
    return f"{moment.day.isoformat()} {moment.at:%H:%M}" if moment.at else moment.day.isoformat()
