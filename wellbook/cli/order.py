"""The command `order`: the cheapest way to have tested at a lab what is drawn next."""

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
from wellbook.support.translation import N_, _

if TYPE_CHECKING:
    from wellbook.planning.lab.lab_order import LabOrder, PointOrder, VisitOrder

Facts = dict[str, Any]


@click.command("order")
@click.argument("book", type=FILE)
@click.option("--lab", default="", help="Name of the lab; without it, the household’s.")
@output(help=N_("Write what the lab’s submission form asks for to this PDF."))
@PAPER
@click.option("--with-personal", is_flag=True, help="Put names and address on the form.")
@ON
@JSON
def order(
    book: Path, lab: str, output: Path | None, paper: str | None, on: date, **how: bool
) -> None:
    """Say what to order for the next sampling, at the least price, and what the plan costs."""
    from wellbook.planning.lab.lab_order import lab_order
    from wellbook.planning.lab.order_words import order_lines

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
    from wellbook.planning.lab.order_words import lacks

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
             "lacks": lacks(one), "not_listed": one.missing}
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
