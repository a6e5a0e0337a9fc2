"""What a record leaves open: what was never tested at a well, and how old its newest test is."""

from collections.abc import Iterable
from datetime import date

from wellbook.packet.gather import History, WellFacts
from wellbook.support.translation import _, ngettext
from wellbook.water.values.readings import Kind
from wellbook.wording import paper

# Groups whose parameters are named first, what can hurt before the rest.
_FIRST = ("before_baby", "before_sale", "lead_copper", "radioactivity", "radon", "fluoride")
_FEW = 8  # names in one sentence
_MONTHS_TOLD = 24  # up to here an age is told in months

LastDays = dict[str, date]


def last_days(history: History, facts: WellFacts) -> LastDays:
    """The last day each parameter was tested at a well, in tests that are left out, too."""
    left_out = history.left_out
    here = {one.point.id for one in facts.overview.points}  # names of wells may be covered
    if left_out is not None:
        return {key: day for (one, key), day in left_out.tested.items() if one == facts.well.id}
    return {
        one.result.parameter: test.sample.collected.day
        for test in history.tests
        if test.sample.point in here
        for one in test.results
        if one.result.reading.kind is not Kind.NONE
    }


def told(history: History) -> str:
    """What was never tested and how old the newest test is, in a few sentences."""
    known = [(facts.well.name, last_days(history, facts)) for facts in history.wells]
    several = len(known) > 1
    said = [_never(history, last, name if several else "") for name, last in known or [("", {})]]
    days = [day for _unused, last in known for day in last.values()]
    return " ".join(filter(None, (*said, _newest(max(days), history.today) if days else "")))


def is_cut(history: History) -> bool:
    """Whether tests may have been made that a packet before this one left out."""
    return any(one.left_out for one in history.sources)


def _never(history: History, last: Iterable[str], well: str) -> str:
    """The parameters that the usual groups can't do without and that have no result."""
    catalogue = history.catalogue
    panels = catalogue.panels
    order = [panels[key] for key in _FIRST if key in panels]
    keys = dict.fromkeys(key for panel in (*order, *panels.values()) for key in panel.core)
    names = [catalogue.parameters[key].name for key in keys if key not in last]
    if not names:
        return ""
    few, more = ", ".join(names[:_FEW]), len(names) - _FEW
    shown = _("{names} and {more} more").format(names=few, more=more) if more > 0 else few
    if is_cut(history):
        said = _("Not in what is here, whether or not it was ever tested: {names}.").format(
            names=shown
        )
        return f"{well}: {said}" if well else said
    if well:
        return _("Never tested at {well}: {names}.").format(well=well, names=shown)
    return _("Never tested: {names}.").format(names=shown)


def _newest(day: date, today: date) -> str:
    if day >= today:
        return _("The newest test was drawn on {day}.").format(day=paper.day(day))
    return _("The newest test was drawn on {day}: it is {age} old.").format(
        day=paper.day(day),
        age=age(day, today),
    )


def age(day: date, today: date) -> str:
    """How long ago a day was: in days, months, or years and months."""
    months = (today.year - day.year) * 12 + today.month - day.month - (today.day < day.day)
    if months < 1:
        return ngettext("{n:,} day", "{n:,} days", (today - day).days).format(n=(today - day).days)
    if months < _MONTHS_TOLD:
        return ngettext("{n:,} month", "{n:,} months", months).format(n=months)
    years = ngettext("{n:,} year", "{n:,} years", months // 12).format(n=months // 12)
    rest = months % 12
    if not rest:
        return years
    return _("{years} and {months}").format(
        years=years, months=ngettext("{n:,} month", "{n:,} months", rest).format(n=rest)
    )
