"""What `enter` takes on labs: price lists, samples on their way, words by telephone."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, read_catalogue
from wellbook.cli.enter.facts import PartialDay, Place
from wellbook.cli.enter.upkeep import enter
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wellbook.intake.price_list import Unsure

__all__ = ["enter"]  # the command with all that it takes

CURRENCY_OF_LIST = click.option(
    "--currency", default="", help=N_("Code of the currency, where the file names none: USD, EUR …")
)
_LAB = click.option("--lab", "lab_name", required=True, help=N_("Name of the lab."))
_LIST_DAY = click.option(
    "--day", type=PartialDay(), default="", help=N_("Day, month or year of the price list.")
)


@enter.command("prices")
@click.argument("file", type=FILE)
@_LAB
@CURRENCY_OF_LIST
@_LIST_DAY
@click.option("--means", multiple=True, metavar="PRINTED=KEY",
              help=N_("What a name of the list means, e.g. 'Nitrogen=nitrate'."))  # fmt: skip
@click.pass_obj
def prices(place: Place, /, file: Path, lab_name: str, **given: Any) -> None:
    """A lab's whole price list from a CSV FILE, in place of the one before.

    Columns: name, price, tests (names with ; between), and where wanted currency, kind (tests or
    shipping) and day. An empty price is one that is not known.
    """
    from wellbook.intake.price_list import read_prices

    means = dict(_meaning(text) for text in given["means"])
    currency, day = given["currency"], given["day"]
    listed = read_prices(file, read_catalogue(), currency=currency, day=day, means=means)
    with place.open() as book:
        book.set_prices(lab_name, listed.prices)
    said = ngettext("Kept: {n} price of {lab}.", "Kept: {n} prices of {lab}.", len(listed.prices))
    click.echo(said.format(n=len(listed.prices), lab=lab_name))
    _say_unsure(listed.unsure)


@enter.command("price")
@_LAB
@click.option("--name", required=True, help=N_("The package or test, as the list prints it."))
@click.option("--amount", default="", help=N_("What it costs; without it, not known."))
@CURRENCY_OF_LIST
@click.option("--tests", default="", help=N_("What it measures, with ; between."))
@click.option("--shipping", is_flag=True, help=N_("It is the price of the parcel."))
@_LIST_DAY
@click.pass_obj
def price(place: Place, /, lab_name: str, name: str, amount: str, **given: Any) -> None:
    """One price of a lab's list; one of the same name is changed."""
    from wellbook.book.rows import SHIPPING
    from wellbook.intake.price_list import Typed, read_price

    kind = SHIPPING if given["shipping"] else ""
    typed = Typed(name, amount, given["tests"], given["currency"], kind, given["day"])
    listed, unsure = read_price(typed, read_catalogue())
    with place.open() as book:
        known = book.record().prices_of(lab_name)
        codes = {one.currency for one in known if one.currency and one.name != listed.name}
        if listed.currency and codes - {listed.currency}:
            said = _("The list of {lab} is in {codes}: a list has one currency.")
            raise Fault(said.format(lab=lab_name, codes=", ".join(sorted(codes))))
        book.set_prices(lab_name, [listed], whole=False)
    click.echo(_("Kept: the price of {name} at {lab}.").format(name=listed.name, lab=lab_name))
    _say_unsure(unsure)


def _meaning(text: str) -> tuple[str, str]:
    printed, _sign, key = (part.strip() for part in text.partition("="))
    if key and key not in read_catalogue().parameters:
        raise click.UsageError(_("No parameter is called {name!r}.").format(name=key))
    return printed, key


def _say_unsure(unsure: "Sequence[Unsure]") -> None:
    """Names that were not taken, each with what it may mean."""
    for one in unsure:
        said = (
            _("Not taken, {price}: “{printed}” is no name we know.")
            if not one.near
            else _("Not taken, {price}: is “{printed}” meant to be {near}?")
        )
        click.echo(said.format(price=one.price, printed=one.printed, near=one.near))
    if unsure:
        click.echo(_("Say what a name means with --means 'PRINTED=KEY', and enter the list again."))
