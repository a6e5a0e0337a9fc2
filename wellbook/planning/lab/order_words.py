"""What to order at a lab, in sentences: the same in the window and in the commands."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from decimal import Decimal

from wellbook.planning.lab.lab_order import LabOrder, PointOrder, VisitOrder
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue

SayDay = Callable[[date], str]
Line = tuple[str, str, str]  # what is ordered, its price, what it is wanted for


def head(found: LabOrder, say_listed: Callable[[str], str] = str) -> str:
    """Where it is ordered, and by which list."""
    said = _("Order at {lab}, by its list of {day}.") if found.listed else _("Order at {lab}.")
    return said.format(lab=found.lab, day=say_listed(found.listed))


def nothing_planned() -> str:
    """What is said where nothing is to be ordered."""
    return _("Nothing is planned yet: add a test, and its panels are planned from then on.")


def visit_head(visit: VisitOrder, say_day: SayDay = date.isoformat) -> str:
    """Which visit it is for."""
    day = say_day(visit.day) if visit.day else _("no day found")
    return _("For the visit of {day}:").format(day=day)


def point_head(one: PointOrder) -> str:
    """Whose water it is."""
    side = _("treated water") if one.point.treated else _("raw water")
    return f"{one.well.name}, {one.point.name} ({side})"


def offers(one: PointOrder, currency: str, catalogue: Catalogue) -> Iterator[Line]:
    """What is ordered for a point; what has no known price comes last."""
    wanted = {*one.wanted}
    for offer in one.order.offers:
        yield offer.name, f"{offer.price} {currency}", _names(offer.parameters & wanted, catalogue)
    for offer in one.unpriced:
        yield offer.name, _("price not known"), _names(offer.parameters & wanted, catalogue)


def beside(one: PointOrder, catalogue: Catalogue) -> Iterator[str]:
    """What comes along for nothing, and what this lab does not list."""
    if one.order.extra:
        extra = _names(one.order.extra, catalogue)
        yield _("Comes along for nothing: {names}.").format(names=extra)
    for labs in dict.fromkeys(labs for _key, labs in one.elsewhere):
        names = _names((key for key, who in one.elsewhere if who == labs), catalogue)
        said = (
            _("Not on this list: {names}. On the list of: {labs}.")
            if labs
            else _("Not on this list, nor on any other: {names}.")
        )
        yield said.format(names=names, labs=", ".join(labs))


def visit_sum(visit: VisitOrder, currency: str) -> Iterator[str]:
    """The parcel and the sum of a visit."""
    if visit.shipping:
        yield f"{visit.shipping.name}: {visit.shipping.amount} {currency}"
    yield _("Sum: {sum}").format(sum=_sum(visit.price, currency, visit.lacks))


def ahead(found: LabOrder, say_day: SayDay = date.isoformat) -> tuple[str, ...]:
    """What the plan costs in the years ahead; nothing where nothing is planned."""
    years = found.ahead
    if not years.visits:
        return ()
    said = ngettext(
        "The plan until {until}, {n} visit: {sum}",
        "The plan until {until}, {n} visits: {sum}",
        years.visits,
    )
    told = _sum(years.price, found.currency, years.lacks)
    return (
        said.format(until=say_day(years.until), n=years.visits, sum=told),
        _("By this list; what a bad result would ask for is not in it."),
    )


def others(found: LabOrder) -> Iterator[str]:
    """What the same costs at the other labs that have a list."""
    for one in found.others:
        told = _sum(one.price, one.currency, lacks(one))
        yield _("The same at {lab}: {sum}").format(lab=one.lab, sum=told)


def order_lines(found: LabOrder, catalogue: Catalogue) -> Iterator[str]:
    """The whole order to read, line by line."""
    yield head(found)
    if not found.visits:
        yield nothing_planned()
    for visit in found.visits:
        yield ""
        yield visit_head(visit)
        for one in visit.points:
            yield point_head(one)
            for name, price, names in offers(one, found.currency, catalogue):
                yield f"  {name}, {price}: {names}"
            for line in beside(one, catalogue):
                yield f"  {line}"
        yield from visit_sum(visit, found.currency)
    if years := ahead(found):
        yield ""
        yield years[0]
        yield f"  {years[1]}"
    yield from others(found)


def lacks(found: LabOrder) -> list[str]:
    """What the sums of an order lack, each once."""
    return list(dict.fromkeys(lack for visit in found.visits for lack in visit.lacks))


def _sum(price: Decimal, currency: str, lacking: Iterable[str]) -> str:
    """A sum with what it lacks; one that lacks something is only the least."""
    more = "; ".join(lacking)
    if not more:
        return f"{price} {currency}."
    if not price:
        return _("not known ({lacks}).").format(lacks=more)
    return _("at least {price} {currency} ({lacks}).").format(
        price=price, currency=currency, lacks=more
    )


def _names(keys: Iterable[str], catalogue: Catalogue) -> str:
    known = catalogue.parameters
    return ", ".join(sorted(known[key].name if key in known else key for key in keys))
