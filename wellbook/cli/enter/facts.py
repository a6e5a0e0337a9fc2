"""What `enter` takes on the well and the house: wells, points, labs, units, events, plans."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar

import click

from wellbook.cli.common_options import read_catalogue, said_upkeep
from wellbook.cli.enter.group import Place
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wellbook.book import Book
    from wellbook.book.rows import Point, TreatmentUnit, Well

_Found = TypeVar("_Found", "Well", "Point", "TreatmentUnit")
_WELL_KINDS = ("drilled", "driven", "dug", "spring")
WELL = click.option("--well", "well_name", default="", help=N_("Name of the well."))
POINT = click.option("--point", "point_name", default="", help=N_("Name of the sampling point."))
_DAY_HELP = N_("A day, a month or a year, like 2026-04-03, 2026-04 or 2026.")
TEXT = click.option("--text", default="", help=N_("In your own words."))


class PartialDay(click.ParamType[str]):
    """A day, month or year as in ISO 8601, kept as it was written."""

    name = "YYYY[-MM[-DD]]"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> str:
        """Check it, or fail with words."""
        from wellbook.water.values.partial_date import YEARS, read_partial_date
        from wellbook.wording.dates import outside_years

        day = read_partial_date(str(value))
        if day is None and (value or (param is not None and param.required)):
            said = _("{value} is no day; write it like 2026-04-03, 2026-04 or 2026")
            self.fail(said.format(value=value or "“”"), param, ctx)
        if day is not None and day.year not in YEARS:
            self.fail(outside_years(value), param, ctx)
        return str(value)


def _day(flag: str, **how: Any) -> Callable[[Any], Any]:
    return click.option(flag, type=PartialDay(), help=_DAY_HELP, **how)


DAY_ON = _day("--on", required=True)
COST = click.option("--cost", default="", help=N_("What it cost, a plain figure like 49.90."))
CURRENCY = click.option(
    "--currency", default="", help=N_("Its currency, like USD; the one used last if left out.")
)


@click.command("well")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--kind", type=click.Choice(_WELL_KINDS), help=N_("How it was made."))
@click.option("--depth", default="", help=N_("As the log says it, with its unit."))
@click.option(
    "--rock", default="", help=N_("Rock and soil, as the log says it; karst asks for more tests.")
)
@TEXT
@click.pass_obj
def well(place: Place, /, name: str, **given: str) -> None:
    """A well."""
    log = {item: given[item] for item in ("kind", "depth", "rock") if given.get(item)}
    with place.open() as book:
        book.add_well(name, note=given["text"], construction=log)
    click.echo(_("Kept: the well {name}.").format(name=name))


@click.command("log")
@click.option("--item", required=True, help=N_("What of the well, e.g. casing or gas detector."))
@click.option("--text", required=True, help=N_("As the log says it, with its unit."))
@WELL
@click.pass_obj
def log(place: Place, /, item: str, text: str, well_name: str) -> None:
    """An item of the well log, or something that belongs to the well and needs upkeep."""
    with place.open() as book:
        found = well_named(book, well_name)
        before = found.construction.get(item, "")
        book.change_well(found.id, construction={**found.construction, item: text})
    click.echo(_("Kept: {item} of {name}.").format(item=item, name=found.name))
    if before:
        click.echo(_("It said before: {text}").format(text=before))


@click.command("point")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--water", type=click.Choice(["raw", "treated"]), default="raw", show_default=True,
              help=N_("Whether the water there has passed treatment."))  # fmt: skip
@WELL
@click.pass_obj
def point(place: Place, /, name: str, water: str, well_name: str) -> None:
    """A place where samples are drawn; the one entered last lies farthest from the well."""
    with place.open() as book:
        found = well_named(book, well_name)
        order = 1 + max((one.place for one in book.points(found.id)), default=0)
        book.add_point(found.id, name, treated=water == "treated", place=order)
    click.echo(_("Kept: the sampling point {name}.").format(name=name))


@click.command("lab")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--accreditation", default="", help=N_("As the lab prints it."))
@click.pass_obj
def lab(place: Place, /, name: str, accreditation: str) -> None:
    """A lab."""
    with place.open() as book:
        book.add_lab(name, accreditation=accreditation)
    click.echo(_("Kept: the lab {name}.").format(name=name))


@click.command("unit")
@click.option("--name", required=True, help=N_("What you call it."))
@click.option("--kind", default="", help=N_("What sort of unit, e.g. carbon filter."))
@_day("--installed", default="")
@_day("--removed", default="")
@COST
@CURRENCY
@click.option(
    "--against", default="", help=N_("What it is meant to take out, with commas between.")
)
@click.option("--point", "point_name", default="", help=N_("The sampling point right behind it."))
@WELL
@click.pass_obj
def unit(place: Place, /, name: str, **given: str) -> None:
    """A treatment unit; with --removed alone, that one of that name was taken out."""
    from wellbook.water.sampling.upkeep import WELL as OF_WELL
    from wellbook.water.sampling.upkeep import of_kind

    target = " ".join(parameters_named(given["against"]))
    with place.open() as book:
        found = well_named(book, given["well_name"])
        same = [one for one in book.units(found.id) if one.name == name and not one.removed]
        if same and given["removed"] and not given["kind"]:
            book.change_unit(same[0].id, removed=given["removed"])
            said = _("Kept: {name} was taken out on {day}.")
            click.echo(said.format(name=name, day=given["removed"]))
            return
        if same:
            said = _(
                "A treatment unit called {name} is in use already: say when it was taken out "
                "(--name {name} --removed DAY, without --kind), or give this one another name."
            )
            raise Fault(said.format(name=name))
        if not given["kind"]:
            raise click.UsageError(_("Say what sort of unit it is (--kind)."))
        behind = point_named(book, found, given["point_name"]) if given["point_name"] else None
        book.add_unit(
            found.id,
            name,
            kind=given["kind"],
            place=max(1, behind.place - 1) if behind else 1,
            installed=given["installed"],
            removed=given["removed"],
            target=target,
            **paid(book, given["cost"], given["currency"]),
        )
    click.echo(_("Kept: the treatment unit {name}.").format(name=name))
    tasks = said_upkeep().tasks
    if not of_kind(tasks, given["kind"]):
        known = ", ".join(dict.fromkeys(task.of for task in tasks if task.of != OF_WELL))
        said = _("Wellbook knows no upkeep for the kind {kind}; it does for: {known}.")
        click.echo(said.format(kind=given["kind"], known=known))


@click.command("event")
@click.option("--kind", required=True, help=N_("What happened, e.g. flood, repair, birth."))
@DAY_ON
@_day("--until", default="")
@click.option("--private", is_flag=True, help=N_("About people: never handed on."))
@COST
@CURRENCY
@TEXT
@WELL
@click.pass_obj
def event(place: Place, /, kind: str, on: str, until: str, **given: Any) -> None:
    """What happened to the well or in the house; its cautions are told at once."""
    known = _event_kinds()
    if kind not in known:
        raise click.UsageError(
            _("There is no event {kind!r}. There are: {known}.").format(
                kind=kind, known=", ".join(known)
            )
        )
    with place.open() as book:
        found = well_named(book, given["well_name"])
        text, private = given["text"], given["private"]
        money = paid(book, given["cost"], given["currency"])
        book.add_event(found.id, kind, on, until=until, text=text, private=private, **money)
    click.echo(_("Kept: {kind} on {day}.").format(kind=kind, day=on))
    for said in _cautions_of(kind):
        click.echo(said)


@click.command("flow-test")
@DAY_ON
@click.option("--flow", required=True, help=N_("How much the well gave, e.g. 5.2."))
@click.option("--flow-unit", type=click.Choice(["gal/min", "L/min"]), required=True)
@click.option("--hours", default="", help=N_("For how long it was pumped, e.g. 4."))
@click.option("--drawdown", default="", help=N_("By how much the water level fell, e.g. 12."))
@click.option("--drawdown-unit", type=click.Choice(["ft", "m"]), default=None)
@click.option("--by", "done_by", default="", help=N_("Who did it: a trade or firm."))
@COST
@CURRENCY
@TEXT
@WELL
@click.pass_obj
def flow_test(place: Place, /, on: str, **given: str) -> None:
    """How much the well gave when it was pumped, and for how long."""
    from wellbook.planning.flow_test import read_flow_test
    from wellbook.water.values.triggers import EventKind

    tested = read_flow_test(
        given["flow"], given["flow_unit"], given["hours"], given["drawdown"],
        given["drawdown_unit"] or "", given["done_by"],
    )  # fmt: skip
    with place.open() as book:
        found = well_named(book, given["well_name"])
        money = paid(book, given["cost"], given["currency"])
        kind = str(EventKind.FLOW_TEST)
        book.add_event(found.id, kind, on, text=given["text"], private=False, **tested, **money)
    click.echo(
        _("Kept: flow test of {well} on {day}, {flow} {unit}.").format(
            well=found.name, day=on, flow=tested["flow"], unit=tested["flow_unit"]
        )
    )


@click.command("plan")
@click.option("--panel", required=True, help=N_("Key of a panel, e.g. bacteria or pfas."))
@click.option("--months", type=click.IntRange(0, 240), help=N_("How often; 0 for once."))
@click.option("--drop", is_flag=True, help=N_("Let a usual panel go; needs a --reason."))
@click.option("--reason", default="", help=N_("Why; kept in the book."))
@POINT
@WELL
@click.pass_obj
def plan(place: Place, /, panel: str, months: int | None, **given: Any) -> None:
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
        at = point_named(book, well_named(book, given["well_name"]), given["point_name"])
        book.set_plan(at.id, panel, 0 if given["drop"] else months or 0, reason=given["reason"])
    click.echo(_("Kept: the plan for {panel} at {point}.").format(panel=panel, point=at.name))


def paid(book: "Book", cost: str, currency: str) -> dict[str, str]:
    """A cost and its currency as they are kept; without a code that which was used last."""
    from wellbook.planning.upkeep.costs import usual_currency
    from wellbook.support.money import read_cost

    code = currency or (usual_currency(book.record()) if cost.strip() else "")
    figure, code = read_cost(cost, code)
    return {"cost": figure, "currency": code}


def _event_kinds() -> tuple[str, ...]:
    """Kinds of event that ask for something or are asked for, and one for the rest."""
    from wellbook.water.sampling.upkeep import WELL as OF_WELL
    from wellbook.water.values.triggers import EventKind

    asking = sorted({one.kind for one in read_catalogue().triggers} & set(EventKind))
    upkeep = (task.done_as for task in said_upkeep().tasks if task.of == OF_WELL)
    return tuple(dict.fromkeys((*asking, *upkeep, EventKind.OTHER)))


def _cautions_of(kind: str) -> list[str]:
    """What is said at once because of an event."""
    from wellbook.cli.common_options import said_cautions
    from wellbook.water.cautions.cautions import happening_situations

    found = happening_situations(said_cautions(), [(kind, 0)])
    return [line for one in found for line in (one.text, *(f"- {step}" for step in one.steps))]


def well_named(book: "Book", name: str) -> "Well":
    """The well that is named, or the only one."""
    return _named(book.wells(), name, _("well"))


def point_named(book: "Book", of: "Well", name: str) -> "Point":
    """The sampling point that is named, or the only one."""
    return _named(book.points(of.id), name, _("sampling point"))


def unit_named(book: "Book", of: "Well", name: str) -> "TreatmentUnit":
    """The treatment unit that is named, or the only one."""
    return _named(book.units(of.id), name, _("treatment unit"))


def _named(known: "Sequence[_Found]", name: str, what: str) -> "_Found":
    """The one that is named, or the only one."""
    found = [one for one in known if not name or one.name == name]
    found = [one for one in found if not getattr(one, "removed", "")] or found
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


def parameters_named(text: str) -> list[str]:
    """Keys of parameters from their keys or names."""
    catalogue, keys = read_catalogue(), []
    for name in filter(None, (part.strip() for part in text.split(","))):
        known = catalogue.parameters.get(name) or catalogue.find(name)
        if known is None:
            raise click.UsageError(_("No parameter is called {name!r}.").format(name=name))
        keys.append(known.key)
    return keys
