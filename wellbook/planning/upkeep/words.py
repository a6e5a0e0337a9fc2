"""What is due at units and wellheads, and what water cost, in sentences."""

from collections.abc import Iterable
from datetime import date

from wellbook.planning.upkeep.costs import PaidFor, YearOfCosts
from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.sampling.upkeep import Task, of_kind
from wellbook.wording import dates

ANSWERS = {
    "good": lambda: pgettext("inspection", "good"),
    "bad": lambda: pgettext("inspection", "bad"),
    "not seen": lambda: pgettext("inspection", "not seen"),
}


def place(item: UpkeepItem) -> str:
    """What it is done to: the unit and its part, or the part of the well."""
    if item.unit is None:
        return item.part
    return _("{unit}, {part}").format(unit=item.unit.name, part=item.part)


def standing(item: UpkeepItem, today: date) -> str:
    """Since when it has been due, or when it is."""
    day = dates.day(item.due)
    if item.is_fault:
        if not item.is_dated:
            return _("found bad, not mended yet")
        return _("found bad on {day}, not mended yet").format(day=day)
    if not item.is_dated:
        return _("nobody wrote down when this was last done")
    return _when(item, today).format(day=day)


def _when(item: UpkeepItem, today: date) -> str:
    """Whether time or use makes it due, and whether it is yet; with a place for the day."""
    is_due = item.due <= today
    if item.is_at_once:
        return _("due at once, since {day}")
    if item.is_used_up_first:
        return _("used up since about {day}") if is_due else _("used up about {day}")
    if item.overdue_days:
        return _("due since {day}, past the longest interval")
    return _("due since {day}") if is_due else _("next on {day}")


def head(item: UpkeepItem, today: date) -> str:
    """One line: what it is done to, and since when."""
    said = _("{place}: {standing}").format(place=place(item), standing=standing(item, today))
    return f"{said}."


def advice(item: UpkeepItem) -> str:
    """What to do, who does it, what can hurt someone."""
    who = _("Who does it: {who}.").format(who=item.who) if item.who else ""
    sooner = _("Sooner: {sign}").format(sign=item.sign) if item.sign else ""
    return " ".join(filter(None, (item.what, use(item), sooner, who, item.caution)))


def asked_after(tasks: Iterable[Task], of: str, service: str) -> str:
    """What something noted of a kind of unit asks for at once; empty where it asks for nothing."""
    asked = (task for task in of_kind(tasks, of) if task.asked_after == service)
    return " ".join(said for task in asked for said in (task.task, task.caution) if said)


def use(item: UpkeepItem) -> str:
    """How much of what it lasts for is used, and by when all of it is; or empty."""
    used = item.used
    if used is None:
        return ""
    day = dates.day(used.day)
    if used.measured is None or used.told is None:
        said = _("It lasts for {lasts}: by the use a day until about {day}.")
        return said.format(lasts=used.of, day=day)
    said = _("By its meter {used} of {lasts} were used on {told}: it lasts until about {day}.")
    return said.format(
        used=f"{used.measured:.0f}", lasts=used.of, told=dates.day(used.told), day=day
    )


def answer(seen: str) -> str:
    """What was seen of a line of the checklist."""
    return ANSWERS[seen]() if seen in ANSWERS else seen


def paid_for(what: PaidFor) -> str:
    """What money went to."""
    return {
        PaidFor.TESTS: pgettext("what money went to", "tests"),
        PaidFor.UNITS: pgettext("what money went to", "treatment units"),
        PaidFor.SERVICES: pgettext("what money went to", "services"),
        PaidFor.EVENTS: pgettext("what money went to", "work at the well"),
        PaidFor.OTHER: pgettext("what money went to", "other costs"),
    }[what]


def year(one: YearOfCosts) -> str:
    """The year that costs belong to."""
    return str(one.year) if one.year else _("without a date")


def parts(one: YearOfCosts) -> str:
    """What a year's sum is made of."""
    return ", ".join(
        f"{paid_for(what)} {one.parts[what]:f}" for what in PaidFor if what in one.parts
    )


def cost_lines(years: Iterable[YearOfCosts]) -> tuple[str, ...]:
    """The sums by year, a line each, with how many figures they were added from."""
    said = []
    for one in years:
        line = ngettext(
            "{year}: {total} {currency} ({n} figure: {parts})",
            "{year}: {total} {currency} ({n} figures: {parts})",
            one.n,
        )
        said.append(
            line.format(
                year=year(one),
                total=f"{one.total:f}",
                currency=one.currency,
                n=one.n,
                parts=parts(one),
            )
        )
    return tuple(said)
