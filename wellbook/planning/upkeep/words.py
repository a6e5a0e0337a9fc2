"""What is due at units and wellheads, and what water cost, in sentences."""

from collections.abc import Iterable
from datetime import date

from wellbook.planning.upkeep.costs import PaidFor, YearOfCosts
from wellbook.planning.upkeep.due import UpkeepItem
from wellbook.support.translation import _, ngettext, pgettext
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
    due = dates.day(item.due)
    if item.is_fault:
        if not item.is_dated:
            return _("found bad, not mended yet")
        return _("found bad on {day}, not mended yet").format(day=due)
    if not item.is_dated:
        return _("nobody wrote down when this was last done")
    if item.overdue_days:
        return _("due since {day}, past the longest interval").format(day=due)
    if item.due <= today:
        return _("due since {day}").format(day=due)
    return _("next on {day}").format(day=due)


def head(item: UpkeepItem, today: date) -> str:
    """One line: what it is done to, and since when."""
    said = _("{place}: {standing}").format(place=place(item), standing=standing(item, today))
    return f"{said}."


def advice(item: UpkeepItem) -> str:
    """What to do, who does it, what can hurt someone."""
    who = _("Who does it: {who}.").format(who=item.who) if item.who else ""
    sooner = _("Sooner: {sign}").format(sign=item.sign) if item.sign else ""
    return " ".join(filter(None, (item.what, sooner, who, item.caution)))


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
