"""The command `order`: the cheapest way to have tested at a lab what is drawn next."""

from collections.abc import Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import (
    FILE,
    JSON,
    ON,
    PAPER,
    open_book,
    output,
    said_catalogue,
    show,
)
from wellbook.support.translation import _, ngettext

if TYPE_CHECKING:
    from decimal import Decimal

    from wellbook.planning.lab.lab_order import LabOrder, PointOrder, VisitOrder
    from wellbook.water.values.catalogue import Catalogue

Facts = dict[str, Any]


@click.command("order")
@click.argument("book", type=FILE)
@click.option("--lab", default="", help="Name of the lab; without it, the household's.")
@output(help="Write what the lab's submission form asks for to this PDF.")
@PAPER
@click.option("--with-personal", is_flag=True, help="Put names and address on the form.")
@ON
@JSON
def order(
    book: Path, lab: str, output: Path | None, paper: str | None, on: date, **how: bool
) -> None:
    """Say what to order for the next sampling, at the least price, and what the plan costs."""
    from wellbook.planning.lab.lab_order import lab_order

    catalogue = said_catalogue()
    with open_book(book, readonly=True) as opened:
        record = opened.record().loaded()
    found = lab_order(record, catalogue, on, lab)
    show(order_facts(on, found) if how["as_json"] else order_lines(found, catalogue))
    if output is None:
        return
    from wellbook.export.order_form import write
    from wellbook.planning.settings import paper as own_paper

    write(output, record, found, catalogue, today=on, paper=paper or own_paper(record.settings),
          with_personal=how["with_personal"])  # fmt: skip
    click.echo(_("Made {output}.").format(output=output), err=how["as_json"])


def order_facts(on: date, found: "LabOrder") -> Facts:
    """The order as plain data; sums are null where nothing of them is known."""
    ahead = found.ahead
    return {
        "on": on.isoformat(),
        "lab": found.lab,
        "currency": found.currency,
        "listed": found.listed,
        "visits": [_visit_facts(visit) for visit in found.visits],
        "years_ahead": {
            "until": ahead.until.isoformat(),
            "visits": ahead.visits,
            "price": str(ahead.price),
            "lacks": list(ahead.lacks),
        },
        "others": [
            {"lab": one.lab, "currency": one.currency, "price": str(one.price),
             "lacks": _lacks(one), "not_listed": one.missing}
            for one in found.others
        ],
    }  # fmt: skip


def _visit_facts(visit: "VisitOrder") -> Facts:
    shipping = visit.shipping
    return {
        "day": visit.day.isoformat() if visit.day else None,
        "points": [_point_facts(one) for one in visit.points],
        "shipping": {"name": shipping.name, "price": shipping.amount} if shipping else None,
        "price": str(visit.price),
        "lacks": list(visit.lacks),
    }


def _point_facts(one: "PointOrder") -> Facts:
    offers = [*((each, str(each.price)) for each in one.order.offers),
              *((each, None) for each in one.unpriced)]  # fmt: skip
    return {
        "well": one.well.name,
        "point": one.point.name,
        "treated": one.point.treated,
        "wanted": list(one.wanted),
        "order": [
            {"name": offer.name, "price": price, "parameters": sorted(offer.parameters)}
            for offer, price in offers
        ],
        "price": str(one.order.price),
        "along": sorted(one.order.extra),
        "not_listed": [{"parameter": key, "labs": list(labs)} for key, labs in one.elsewhere],
    }


def order_lines(found: "LabOrder", catalogue: "Catalogue") -> Iterator[str]:
    """The order to read."""
    said = _("Order at {lab}, by its list of {day}.") if found.listed else _("Order at {lab}.")
    yield said.format(lab=found.lab, day=found.listed)
    if not found.visits:
        yield _("Nothing is planned yet: add a test, and its panels are planned from then on.")
    for visit in found.visits:
        yield from _visit_lines(visit, found.currency, catalogue)
    ahead = found.ahead
    if ahead.visits:
        yield ""
        said = ngettext(
            "The plan until {until}, {n} visit: {sum}",
            "The plan until {until}, {n} visits: {sum}",
            ahead.visits,
        )
        told = _sum(ahead.price, found.currency, ahead.lacks)
        yield said.format(until=ahead.until.isoformat(), n=ahead.visits, sum=told)
        yield "  " + _("By this list; what a bad result would ask for is not in it.")
    for one in found.others:
        yield _("The same at {lab}: {sum}").format(
            lab=one.lab, sum=_sum(one.price, one.currency, _lacks(one))
        )


def _visit_lines(visit: "VisitOrder", currency: str, catalogue: "Catalogue") -> Iterator[str]:
    yield ""
    day = visit.day.isoformat() if visit.day else _("no day found")
    yield _("For the visit of {day}:").format(day=day)
    for one in visit.points:
        side = _("treated water") if one.point.treated else _("raw water")
        yield f"{one.well.name}, {one.point.name} ({side})"
        for offer in one.order.offers:
            wanted = _names(offer.parameters & {*one.wanted}, catalogue)
            yield f"  {offer.name}, {offer.price} {currency}: {wanted}"
        for offer in one.unpriced:
            wanted = _names(offer.parameters & {*one.wanted}, catalogue)
            yield f"  {offer.name}, " + _("price not known: {names}").format(names=wanted)
        if one.order.extra:
            extra = _names(one.order.extra, catalogue)
            yield "  " + _("Comes along for nothing: {names}.").format(names=extra)
        for labs in dict.fromkeys(labs for _key, labs in one.elsewhere):
            names = _names((key for key, who in one.elsewhere if who == labs), catalogue)
            other = (
                _("Not on this list: {names}. On the list of: {labs}.")
                if labs
                else _("Not on this list, nor on any other: {names}.")
            )
            yield "  " + other.format(names=names, labs=", ".join(labs))
    if visit.shipping:
        yield f"{visit.shipping.name}: {visit.shipping.amount} {currency}"
    yield _("Sum: {sum}").format(sum=_sum(visit.price, currency, visit.lacks))


def _sum(price: "Decimal", currency: str, lacks: Iterable[str]) -> str:
    """A sum with what it lacks; one that lacks something is only the least."""
    more = "; ".join(lacks)
    if not more:
        return f"{price} {currency}."
    if not price:
        return _("not known ({lacks}).").format(lacks=more)
    return _("at least {price} {currency} ({lacks}).").format(
        price=price, currency=currency, lacks=more
    )


def _lacks(found: "LabOrder") -> list[str]:
    return list(dict.fromkeys(lack for visit in found.visits for lack in visit.lacks))


def _names(keys: Iterable[str], catalogue: "Catalogue") -> str:
    known = catalogue.parameters
    return ", ".join(sorted(known[key].name if key in known else key for key in keys))
