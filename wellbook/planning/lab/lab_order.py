"""What to order at a lab for the next sampling, and what the plan costs in the years ahead.

Prices come from the lab's list as the household keeps it. A price that is not known is never taken
for nothing: what it would buy is named, and a sum without it is said to be one.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from wellbook.book.record import Record
from wellbook.book.rows import SHIPPING, TESTS, Point, Price, Well
from wellbook.planning.due import days_tested, planned
from wellbook.planning.lab.lab_route import CAR, read_habits
from wellbook.planning.lab.order import Offer, Order, cheapest
from wellbook.planning.overview import due, point_record
from wellbook.planning.rounds import Round, rounds, visit_of
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.seasons import add_months

YEARS_AHEAD = 5
_MONTHS = 12
_ALONG = 1  # months by which a panel is drawn earlier with another one
_NOTHING = Decimal(0)

Elsewhere = tuple[str, tuple[str, ...]]  # key of a parameter, names of labs that list it


@dataclass(frozen=True, slots=True)
class PointOrder:
    """What to order for one point.

    Attributes:
        wanted: Keys of what is to be tested there.
        order: The cheapest of the prices that are known.
        unpriced: What is to be ordered besides, whose price is not known.
        elsewhere: What this lab does not list, and who does.
    """

    well: Well
    point: Point
    wanted: tuple[str, ...]
    order: Order
    unpriced: tuple[Offer, ...]
    elsewhere: tuple[Elsewhere, ...]


@dataclass(frozen=True, slots=True)
class VisitOrder:
    """What to order for everything that is drawn on one day.

    Attributes:
        day: The day of the draw; None if no day was found.
        points: In the order of the flow; raw and treated water are bottles of their own.
        shipping: The price of the parcel; None where the list has none or it goes by car.
        price: Sum of what is known, shipping included.
        lacks: What the sum lacks, in words; empty if it is whole.
    """

    day: date | None
    points: tuple[PointOrder, ...]
    shipping: Price | None
    price: Decimal
    lacks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class YearsAhead:
    """What the household's plan costs by today's list.

    Attributes:
        until: Last day that is looked at.
        visits: How often somebody draws until then.
        price: Sum of what is known.
        lacks: What the sum lacks, in words.
    """

    until: date
    visits: int
    price: Decimal
    lacks: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class LabOrder:
    """What to order at a lab.

    Attributes:
        lab: Its name.
        currency: ISO 4217 code of its list.
        listed: Day, month or year of the oldest price in it; empty if not known.
        visits: The next visit to each well, the first in front.
        ahead: The years ahead.
        others: Other labs with a list, each with the orders for the same visits.
    """

    lab: str
    currency: str
    listed: str
    visits: tuple[VisitOrder, ...]
    ahead: YearsAhead
    others: tuple["LabOrder", ...] = ()

    @property
    def price(self) -> Decimal:
        """Sum of what is known of the visits."""
        return sum((visit.price for visit in self.visits), _NOTHING)

    @property
    def missing(self) -> int:
        """How many parameters at points the lab does not list."""
        return sum(len(one.order.missing) for visit in self.visits for one in visit.points)


class _List:
    """A lab's price list, asked again and again."""

    def __init__(self, record: Record, lab: str) -> None:
        listed = record.prices_of(lab)
        self.lab = lab
        self.currency = next((one.currency for one in listed if one.currency), "")
        self.day = min((one.day for one in listed if one.day), default="")
        tests = [one for one in listed if one.kind == TESTS]
        self.priced = [_offer(one) for one in tests if one.amount]
        self.unpriced = [_offer(one) for one in tests if not one.amount]
        self.sold = {key for one in (*self.priced, *self.unpriced) for key in one.parameters}
        self.by_car = read_habits(record.settings).way == CAR
        ways = [one for one in listed if one.kind == SHIPPING]
        known = [one for one in ways if one.amount]
        self.shipping = min(known, key=lambda one: Decimal(one.amount), default=None)
        self._known: dict[frozenset[str], tuple[Order, tuple[Offer, ...]]] = {}

    def cover(self, wanted: Collection[str]) -> tuple[Order, tuple[Offer, ...]]:
        """The cheapest order, and what must be ordered at a price that is not known."""
        asked = frozenset(wanted)
        if asked not in self._known:
            order = cheapest(asked, self.priced)
            more = cheapest(
                order.missing, [replace(one, price=Decimal(1)) for one in self.unpriced]
            )
            missing = order.missing - {key for one in more.offers for key in one.parameters}
            self._known[asked] = replace(order, missing=frozenset(missing)), more.offers
        return self._known[asked]


def lab_order(record: Record, catalogue: Catalogue, today: date, lab: str = "") -> LabOrder:
    """The cheapest order for what is drawn next, at a lab or at the one that suits best.

    Without a name the household's lab is taken if it has a list, else the lab that lists most of
    what is wanted, the cheapest among those.

    Raises:
        Fault: No lab has a price list, or this one has none.
    """
    numbers = {price.lab for price in record.prices}
    lists = {one.name: _List(record, one.name) for one in record.labs if one.id in numbers}
    usual = read_habits(record.settings).lab
    _require_list(lists, lab)
    found = rounds(record, catalogue, today)
    ahead = list(_visits_ahead(record, catalogue, today))
    orders = [_at(one, lists, found, ahead, today) for one in lists.values()]
    orders.sort(key=lambda one: (one.lab != (lab or usual), one.missing, one.price, one.lab))
    return replace(orders[0], others=tuple(orders[1:]))


def _require_list(lists: Mapping[str, _List], lab: str) -> None:
    if lab and lab not in lists:
        known = ", ".join(lists) or _("none")
        said = _("There is no price list of {lab} in the book. There are lists of: {known}.")
        raise Fault(said.format(lab=lab, known=known))
    if not lists:
        raise Fault(
            _(
                "There is no price list in the book yet. Ask the lab for its prices, and enter "
                "them with 'wellbook enter BOOK prices FILE.csv --lab LAB'."
            )
        )


def _at(
    listed: _List,
    lists: Mapping[str, _List],
    found: Sequence[Round],
    ahead: Sequence[Sequence[frozenset[str]]],
    today: date,
) -> LabOrder:
    visits = tuple(_visit(listed, lists, group) for group in _together(found))
    until = add_months(today, YEARS_AHEAD * _MONTHS)
    return LabOrder(listed.lab, listed.currency, listed.day, visits, _years(listed, ahead, until))


def _together(found: Sequence[Round]) -> list[tuple[Round, ...]]:
    """Rounds that are drawn on one visit."""
    at = {(one.well.id, one.number): one for one in reversed(found)}
    return [visit_of(found, one) for one in reversed(at.values())]


def _visit(listed: _List, lists: Mapping[str, _List], group: Sequence[Round]) -> VisitOrder:
    points = []
    for one in group:
        wanted = tuple(dict.fromkeys(key for due in one.panels for key in due.panel.core))
        order, unpriced = listed.cover(wanted)
        elsewhere = tuple(
            (key, tuple(name for name, other in lists.items() if key in other.sold))
            for key in wanted
            if key in order.missing
        )
        points.append(PointOrder(one.well, one.point, wanted, order, unpriced, elsewhere))
    price = sum((one.order.price for one in points), _NOTHING)
    shipping = None if listed.by_car else listed.shipping
    lacks = _lacks(listed, [(one.order, one.unpriced) for one in points])
    way = Decimal(shipping.amount) if shipping else _NOTHING
    return VisitOrder(group[0].search.day, tuple(points), shipping, price + way, lacks)


def _lacks(listed: _List, covers: Sequence[tuple[Order, tuple[Offer, ...]]]) -> tuple[str, ...]:
    """What a sum lacks, in words."""
    unpriced = dict.fromkeys(one.name for _unused, offers in covers for one in offers)
    said = [_("the price of {name} is not known").format(name=name) for name in unpriced]
    if any(order.missing for order, _unused in covers):
        said.append(_("what this lab does not list is not in it"))
    if not listed.by_car and listed.shipping is None:
        said.append(_("the price of shipping is not known"))
    return tuple(said)


def _years(listed: _List, ahead: Sequence[Sequence[frozenset[str]]], until: date) -> YearsAhead:
    covers = [listed.cover(keys) for visit in ahead for keys in visit]
    price = sum((order.price for order, _unused in covers), _NOTHING)
    if listed.shipping is not None and not listed.by_car:
        price += Decimal(listed.shipping.amount) * len(ahead)
    return YearsAhead(until, len(ahead), price, _lacks(listed, covers))


def _visits_ahead(
    record: Record, catalogue: Catalogue, today: date
) -> Iterator[list[frozenset[str]]]:
    """What is drawn on each visit of the years ahead, point by point.

    Panels come back after their interval; what falls due within a month of a visit is drawn on it.
    What events and open cases ask for now is in it once; what they will ask for nobody knows.
    """
    until = add_months(today, YEARS_AHEAD * _MONTHS)
    months = _months(record, catalogue, today)
    for well in record.wells:
        next_due = {
            (point.id, one.panel.key): (max(one.due, today), frozenset(one.panel.core))
            for at, point, dues in due(record, catalogue, today)
            if at.id == well.id
            for one in dues
        }
        while next_due and (day := min(when for when, _keys in next_due.values())) <= until:
            drawn: dict[int, frozenset[str]] = {}
            for name, (when, keys) in list(next_due.items()):
                if when > add_months(day, _ALONG):
                    continue
                drawn[name[0]] = drawn.get(name[0], frozenset()) | keys
                if step := months.get(name, 0):
                    next_due[name] = (add_months(day, step), keys)
                else:
                    del next_due[name]
            yield list(drawn.values())


def _months(record: Record, catalogue: Catalogue, today: date) -> dict[tuple[int, str], int]:
    """The interval of each planned panel, by point and panel."""
    return {
        (point.id, plan.panel): plan.months
        for point in record.points
        for plan in planned(
            record,
            catalogue,
            point,
            days_tested(point_record(record, point.id, today), catalogue),
        )
    }


def _offer(price: Price) -> Offer:
    amount = Decimal(price.amount) if price.amount else _NOTHING
    return Offer(price.name, amount, frozenset(price.parameters.split()))
