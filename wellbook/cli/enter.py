"""The command `enter`: what the window's menu Enter can enter, beside a lab's tests."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from wellbook.cli.common_options import FILE, open_book, read_catalogue
from wellbook.cli.language import TranslatedGroup
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wellbook.book import Book
    from wellbook.book.rows import Point, TreatmentUnit, Well
    from wellbook.intake.price_list import Unsure

_Found = TypeVar("_Found", "Well", "Point", "TreatmentUnit")
_WELL_KINDS = ("drilled", "driven", "dug", "spring")
_WELL = click.option("--well", "well_name", default="", help=N_("Name of the well."))
_POINT = click.option("--point", "point_name", default="", help=N_("Name of the sampling point."))
_DAY_HELP = N_("A day, a month or a year, like 2026-04-03, 2026-04 or 2026.")
_TEXT = click.option("--text", default="", help=N_("In your own words."))


class PartialDay(click.ParamType[str]):
    """A day, month or year as in ISO 8601, kept as it was written."""

    name = "YYYY[-MM[-DD]]"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Check it, or fail with words."""
        from wellbook.water.values.partial_date import read_partial_date

        if value and read_partial_date(str(value)) is None:
            said = _("{value} is no day; write it like 2026-04-03, 2026-04 or 2026")
            self.fail(said.format(value=value), param, ctx)
        return str(value)


def _day(flag: str, **how: Any) -> Callable[[Any], Any]:
    return click.option(flag, type=PartialDay(), help=_DAY_HELP, **how)


@dataclass(frozen=True, slots=True)
class _Place:
    """The book that is written to, opened by the command itself."""

    path: Path

    def open(self) -> "Book":
        """The book, for writing."""
        return open_book(self.path, readonly=False)


@click.group("enter", cls=TranslatedGroup)
@click.argument("book", type=FILE)
@click.pass_context
def enter(ctx: click.Context, book: Path) -> None:
    """Enter into BOOK what is no lab's test: a well, a point, an event, a plan and so on."""
    ctx.obj = _Place(book)


@enter.command("well")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--kind", type=click.Choice(_WELL_KINDS), help=N_("How it was made."))
@click.option("--depth", default="", help=N_("As the log says it, with its unit."))
@_TEXT
@click.pass_obj
def well(place: _Place, /, name: str, **given: str) -> None:
    """A well."""
    log = {item: given[item] for item in ("kind", "depth") if given.get(item)}
    with place.open() as book:
        book.add_well(name, note=given["text"], construction=log)
    click.echo(_("Kept: the well {name}.").format(name=name))


@enter.command("point")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--water", type=click.Choice(["raw", "treated"]), default="raw", show_default=True,
              help=N_("Whether the water there has passed treatment."))  # fmt: skip
@_WELL
@click.pass_obj
def point(place: _Place, /, name: str, water: str, well_name: str) -> None:
    """A place where samples are drawn; the one entered last lies farthest from the well."""
    with place.open() as book:
        found = _well(book, well_name)
        order = 1 + max((one.place for one in book.points(found.id)), default=0)
        book.add_point(found.id, name, treated=water == "treated", place=order)
    click.echo(_("Kept: the sampling point {name}.").format(name=name))


@enter.command("lab")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--accreditation", default="", help=N_("As the lab prints it."))
@click.pass_obj
def lab(place: _Place, /, name: str, accreditation: str) -> None:
    """A lab."""
    with place.open() as book:
        book.add_lab(name, accreditation=accreditation)
    click.echo(_("Kept: the lab {name}.").format(name=name))


_CURRENCY = click.option(
    "--currency", default="", help=N_("Code of the currency, where the file names none: USD, EUR …")
)
_LAB = click.option("--lab", "lab_name", required=True, help=N_("Name of the lab."))
_LIST_DAY = click.option(
    "--day", type=PartialDay(), default="", help=N_("Day, month or year of the price list.")
)


@enter.command("prices")
@click.argument("file", type=FILE)
@_LAB
@_CURRENCY
@_LIST_DAY
@click.option("--means", multiple=True, metavar="PRINTED=KEY",
              help=N_("What a name of the list means, e.g. 'Nitrogen=nitrate'."))  # fmt: skip
@click.pass_obj
def prices(place: _Place, /, file: Path, lab_name: str, **given: Any) -> None:
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
@_CURRENCY
@click.option("--tests", default="", help=N_("What it measures, with ; between."))
@click.option("--shipping", is_flag=True, help=N_("It is the price of the parcel."))
@_LIST_DAY
@click.pass_obj
def price(place: _Place, /, lab_name: str, name: str, amount: str, **given: Any) -> None:
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


@enter.command("unit")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--kind", required=True, help=N_("What sort of unit, e.g. carbon filter."))
@_day("--installed", default="")
@_day("--removed", default="")
@click.option(
    "--against", default="", help=N_("What it is meant to take out, with commas between.")
)
@click.option("--point", "point_name", default="", help=N_("The sampling point right behind it."))
@_WELL
@click.pass_obj
def unit(place: _Place, /, name: str, **given: str) -> None:
    """A treatment unit."""
    target = " ".join(_parameters(given["against"]))
    with place.open() as book:
        found = _well(book, given["well_name"])
        behind = _point(book, found, given["point_name"]) if given["point_name"] else None
        book.add_unit(
            found.id,
            name,
            kind=given["kind"],
            place=max(1, behind.place - 1) if behind else 1,
            installed=given["installed"],
            removed=given["removed"],
            target=target,
        )
    click.echo(_("Kept: the treatment unit {name}.").format(name=name))


@enter.command("service")
@click.option("--unit", "unit_name", default="", help=N_("Name of the unit."))
@click.option("--kind", required=True, help=N_("What was done, e.g. cartridge, media, lamp, salt."))
@_day("--on", required=True)
@_TEXT
@_WELL
@click.pass_obj
def service(place: _Place, /, unit_name: str, kind: str, on: str, **given: str) -> None:
    """What was done to a treatment unit."""
    with place.open() as book:
        found = _unit(book, _well(book, given["well_name"]), unit_name)
        book.add_service(found.id, kind, on, text=given["text"])
    click.echo(_("Kept: {kind} of {name} on {day}.").format(kind=kind, name=found.name, day=on))


@enter.command("event")
@click.option("--kind", required=True, help=N_("What happened, e.g. flood, repair, birth."))
@_day("--on", required=True)
@_day("--until", default="")
@click.option("--private", is_flag=True, help=N_("About people: never handed on."))
@_TEXT
@_WELL
@click.pass_obj
def event(place: _Place, /, kind: str, on: str, until: str, **given: Any) -> None:
    """What happened to the well or in the house; its cautions are told at once."""
    known = _event_kinds()
    if kind not in known:
        raise click.UsageError(
            _("There is no event {kind!r}. There are: {known}.").format(
                kind=kind, known=", ".join(known)
            )
        )
    with place.open() as book:
        found = _well(book, given["well_name"])
        text, private = given["text"], given["private"]
        book.add_event(found.id, kind, on, until=until, text=text, private=private)
    click.echo(_("Kept: {kind} on {day}.").format(kind=kind, day=on))
    for said in _cautions_of(kind):
        click.echo(said)


@enter.command("plan")
@click.option("--panel", required=True, help=N_("Key of a panel, e.g. bacteria or pfas."))
@click.option("--months", type=click.IntRange(0, 240), help=N_("How often; 0 for once."))
@click.option("--drop", is_flag=True, help=N_("Let a usual panel go; needs a --reason."))
@click.option("--reason", default="", help=N_("Why; kept in the book."))
@_POINT
@_WELL
@click.pass_obj
def plan(place: _Place, /, panel: str, months: int | None, **given: Any) -> None:
    """How often a panel is tested at a point; it adds to what is usual."""
    panels = read_catalogue().panels
    if panel not in panels:
        raise click.UsageError(
            _("There is no panel {panel!r}. There are: {known}.").format(
                panel=panel, known=", ".join(panels)
            )
        )
    if given["drop"] and not given["reason"].strip():
        raise click.UsageError(_("A usual panel is let go with a reason: say why (--reason)."))
    if months is None and not given["drop"]:
        raise click.UsageError(_("Say how often (--months), or let it go (--drop)."))
    if months == 0 and panels[panel].months and not given["drop"]:
        raise click.UsageError(
            _("{panel} is usually tested again and again: let it go with --drop, if you mean it.")
            .format(panel=panel)
        )  # fmt: skip
    with place.open() as book:
        at = _point(book, _well(book, given["well_name"]), given["point_name"])
        book.set_plan(at.id, panel, 0 if given["drop"] else months or 0, reason=given["reason"])
    click.echo(_("Kept: the plan for {panel} at {point}.").format(panel=panel, point=at.name))


def _event_kinds() -> tuple[str, ...]:
    """Kinds of event that ask for something, and one for the rest."""
    kinds = {trigger.kind for trigger in read_catalogue().triggers}
    return (*sorted(kind for kind in kinds if not kind.startswith("unit ")), "other")


def _cautions_of(kind: str) -> list[str]:
    """What is said at once because of an event."""
    from wellbook.cli.common_options import said_cautions
    from wellbook.water.cautions.cautions import happening_situations

    found = happening_situations(said_cautions(), [(kind, 0)])
    return [line for one in found for line in (one.text, *(f"- {step}" for step in one.steps))]


def _well(book: "Book", name: str) -> "Well":
    return _named(book.wells(), name, _("well"))


def _point(book: "Book", of: "Well", name: str) -> "Point":
    return _named(book.points(of.id), name, _("sampling point"))


def _unit(book: "Book", of: "Well", name: str) -> "TreatmentUnit":
    return _named(book.units(of.id), name, _("treatment unit"))


def _named(known: "Sequence[_Found]", name: str, what: str) -> "_Found":
    """The one that is named, or the only one."""
    found = [one for one in known if not name or one.name == name]
    if len(found) == 1:
        return found[0]
    names = ", ".join(one.name for one in known)
    if not known:
        raise Fault(_("There is no {what} in the book yet: enter one first.").format(what=what))
    said = (
        _("There is no {what} called {name!r}. There are: {names}.")
        if name
        else _("Say which {what} is meant. There are: {names}.")
    )
    raise Fault(said.format(what=what, name=name, names=names))


def _parameters(text: str) -> list[str]:
    """Keys of parameters from their keys or names."""
    catalogue, keys = read_catalogue(), []
    for name in filter(None, (part.strip() for part in text.split(","))):
        known = catalogue.parameters.get(name) or catalogue.find(name)
        if known is None:
            raise click.UsageError(_("No parameter is called {name!r}.").format(name=name))
        keys.append(known.key)
    return keys
