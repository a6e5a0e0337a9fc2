"""What `enter` takes on labs: price lists, samples on their way, words by telephone."""

from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, Clock, Day, read_catalogue, said_catalogue
from wellbook.cli.enter.facts import (
    POINT,
    TEXT,
    WELL,
    PartialDay,
    parameters_named,
    point_named,
    well_named,
)
from wellbook.cli.enter.group import Place
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date, time

    from wellbook.book.changes import SampleChanges
    from wellbook.intake.price_list import Unsure

CURRENCY_OF_LIST = click.option(
    "--currency", default="", help=N_("Code of the currency, where the file names none: USD, EUR …")
)
_LAB = click.option("--lab", "lab_name", required=True, help=N_("Name of the lab."))
_LIST_DAY = click.option(
    "--day", type=PartialDay(), default="", help=N_("Day, month or year of the price list.")
)


@click.command("prices")
@click.argument("file", type=FILE)
@_LAB
@CURRENCY_OF_LIST
@_LIST_DAY
@click.option("--means", multiple=True, metavar="PRINTED=KEY",
              help=N_("What a name of the list means, e.g. 'Nitrogen=nitrate'."))  # fmt: skip
@click.pass_obj
def prices(place: Place, /, file: Path, lab_name: str, **given: Any) -> None:
    """A lab’s whole price list from a CSV FILE, in place of the one before.

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


@click.command("price")
@_LAB
@click.option("--name", required=True, help=N_("The package or test, as the list prints it."))
@click.option("--amount", default="", help=N_("What it costs; without it, not known."))
@CURRENCY_OF_LIST
@click.option("--tests", default="", help=N_("What it measures, with ; between."))
@click.option("--shipping", is_flag=True, help=N_("It is the price of the parcel."))
@_LIST_DAY
@click.pass_obj
def price(place: Place, /, lab_name: str, name: str, amount: str, **given: Any) -> None:
    """One price of a lab’s list; one of the same name is changed."""
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


_POINT_OR_ALL = click.option(
    "--point", "point_name", default="", help=N_("Name of the point; without it, all of the round.")
)
_CLOCK = N_("Hour on the clock of the well, like 07:10.")
_COOLING = ("ice", "cold-packs", "none")


@click.command("drawn")
@click.option("--on", type=Day(), required=True, help=N_("Day of the draw."))
@click.option("--at", type=Clock(), help=_CLOCK)
@_POINT_OR_ALL
@WELL
@click.option("--tests", default="", help=N_("What is tested, with commas between; without it, "
              "what the round plans."))  # fmt: skip
@click.option("--lab", "lab_name", default="", help=N_("Name of the lab; else the household’s."))
@click.option("--bottles", default="", help=N_("Which bottles were filled."))
@click.option("--cooling", type=click.Choice(_COOLING), help=N_("What keeps them cold."))
@click.option("--sent-at", type=Clock(), help=N_("Hour at which they left, if they did that day."))
@click.option("--parcel", default="", help=N_("Number of the parcel (private)."))
@click.option("--form", default="", help=N_("Number of the lab’s form."))
@TEXT
@click.pass_obj
def drawn(place: Place, /, on: "date", at: "time | None", **given: Any) -> None:
    """A round that was drawn: its samples are awaited until the lab’s report is stored."""
    from wellbook.planning.lab.awaited import NewDraw, awaited, draws
    from wellbook.planning.rounds import rounds, wanted

    draw = NewDraw(
        on, at, given["sent_at"], given["lab_name"], given["bottles"],
        (given["cooling"] or "").replace("-", " "), given["parcel"], given["form"], given["text"],
    )  # fmt: skip
    keys = parameters_named(given["tests"])
    with place.open() as book:
        record, catalogue = book.record(), said_catalogue()
        at_point = None
        if given["point_name"] or keys:
            well = well_named(book, given["well_name"])
            at_point = point_named(book, well, given["point_name"])
        planned = wanted(rounds(record, catalogue, on), at_point) if not keys else []
        if at_point is not None and keys:
            planned = [(at_point, keys)]
        samples = draws(record, catalogue, draw, planned)
        book.add_samples(samples)
        told = awaited(book.record(), catalogue, on)
    said = ngettext("Kept: {n} sample is on its way.", "Kept: {n} samples are on their way.",
                    len(samples))  # fmt: skip
    click.echo(said.format(n=len(samples)))
    for one in told:
        for line in one.lines():
            click.echo(line)


@click.command("sent")
@click.option("--on", type=Day(), required=True, help=N_("Day on which the samples left."))
@click.option("--at", type=Clock(), help=_CLOCK)
@click.option("--parcel", default="", help=N_("Number of the parcel (private)."))
@_POINT_OR_ALL
@click.pass_obj
def sent(place: Place, /, on: "date", at: "time | None", parcel: str, point_name: str) -> None:
    """That what was drawn has left the house."""
    from wellbook.planning.lab.awaited import awaited
    from wellbook.water.values.local_time import LocalTime

    with place.open() as book:
        record = book.record()
        names = {point.id: point.name for point in record.points}
        left = [one for one in record.drawn if one.dispatched is None
                and (not point_name or names[one.point] == point_name)]  # fmt: skip
        if not left:
            raise Fault(_("Nothing that was drawn is waiting to be sent."))
        changes: SampleChanges = {"dispatched": LocalTime(on, at)}
        if parcel:
            changes["parcel"] = parcel
        with book.together():
            for sample in left:
                book.correct_sample(sample.id, _("sent off"), **changes)
        told = awaited(book.record(), said_catalogue(), on)
    for one in told:
        for line in one.lines():
            click.echo(line)


_GERM = click.option("--parameter", required=True, type=click.Choice(["total_coliform", "e_coli",
                     "fecal_coliform"]), help=N_("What the lab says it found."))  # fmt: skip
_DRAWN = click.option(
    "--drawn", "day", type=Day(), help=N_("Day of the draw, where several are awaited.")
)


@click.command("preliminary")
@_GERM
@click.option("--result", default="present", show_default=True, help=N_("As the lab says it."))
@_DRAWN
@click.option("--lab-number", default="", help=N_("The lab’s number of the sample."))
@click.option("--lab", "lab_name", default="", help=N_("Name of the lab; else the household’s."))
@POINT
@WELL
@click.pass_obj
def preliminary(place: Place, /, parameter: str, result: str, **given: Any) -> None:
    """Bacteria that a lab tells of before its report, as by telephone; a case opens at once."""
    from wellbook.cli.adding import news
    from wellbook.cli.cases import case_lines
    from wellbook.intake.by_telephone import keep_finding, sample_told_of
    from wellbook.planning.overview import cases

    with place.open() as book:
        at_point, day = None, given["day"]
        if given["point_name"] or (day and not book.record().drawn):
            well = well_named(book, given["well_name"])
            at_point = point_named(book, well, given["point_name"])
        sample = sample_told_of(book, at_point, day, given["lab_name"], given["lab_number"])
        kept = keep_finding(book, said_catalogue(), parameter, result, sample)
        today = max(datetime.now().date(), sample.collected.day)
        facts = cases(book.record(), said_catalogue(), today)
        new = list(news(book, said_catalogue(), {kept}))
    click.echo(_("Kept as preliminary, until the report is there."))
    for line in new:
        click.echo(line)
    for line in case_lines(today, facts):
        click.echo(line)


@click.command("withdrawn")
@_GERM
@_DRAWN
@click.pass_obj
def withdrawn(place: Place, /, parameter: str, day: "date | None") -> None:
    """That a lab has withdrawn what it told before its report; the finding stays to read."""
    from wellbook.intake.by_telephone import told_before, withdraw

    with place.open() as book:
        standing = told_before(book)
        found = [
            (sample, result)
            for sample, result in standing
            if result.parameter == parameter and (day is None or sample.collected.day == day)
        ]
        if len(found) != 1:
            known = (f"{one.parameter} {sample.collected.day}" for sample, one in standing)
            said = _("Say which finding is meant; told before a report were: {known}.")
            raise Fault(said.format(known=", ".join(known) or _("none")))
        withdraw(book, found[0][1])
    said = _("Withdrawn by the lab: {name}. It stays to read, and counts no more.")
    click.echo(said.format(name=found[0][1].name))
