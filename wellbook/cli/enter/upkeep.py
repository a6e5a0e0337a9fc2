"""What `enter` takes on upkeep and money: services, inspections, intervals, costs."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, said_upkeep
from wellbook.cli.enter.facts import (
    COST,
    CURRENCY,
    DAY_ON,
    TEXT,
    WELL,
    paid,
    unit_named,
    well_named,
)
from wellbook.cli.enter.group import Place
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _

if TYPE_CHECKING:
    from wellbook.book import Book
    from wellbook.book.rows import InspectionAnswer, NewDocument
    from wellbook.water.sampling.inspection import Item
    from wellbook.water.sampling.upkeep import Task

_ANSWERS = ("good", "bad", "not-seen")
_UNIT = click.option("--unit", "unit_name", default="", help=N_("Name of the unit."))


@click.command("service")
@_UNIT
@click.option(
    "--kind",
    required=True,
    help=N_("What was done, e.g. cartridge, media, lamp, salt; meter: it was only read."),
)
@click.option(
    "--meter", default="", help=N_("What its meter shows, like '12400 gal'; also L, m3, h.")
)
@DAY_ON
@COST
@CURRENCY
@TEXT
@WELL
@click.pass_obj
def service(place: Place, /, unit_name: str, kind: str, on: str, **given: str) -> None:
    """What was done to a treatment unit."""
    from wellbook.planning.upkeep.amounts import read_amount
    from wellbook.water.sampling.upkeep import METER

    meter = read_amount(given["meter"])
    if kind == METER and not meter:
        raise click.UsageError(_("Say what the meter shows (--meter), like '12400 gal'."))
    with place.open() as book:
        found = unit_named(book, well_named(book, given["well_name"]), unit_name)
        money = paid(book, given["cost"], given["currency"])
        book.add_service(found.id, kind, on, text=given["text"], meter=meter, **money)
    click.echo(_("Kept: {kind} of {name} on {day}.").format(kind=kind, name=found.name, day=on))
    for said in filter(None, (*_counts_for(kind, found.kind), _asked_after(kind, found.kind))):
        click.echo(said)


def _asked_after(kind: str, of: str) -> str:
    from wellbook.planning.upkeep import words

    return words.asked_after(said_upkeep().tasks, of, kind)


def _counts_for(kind: str, of: str) -> list[str]:
    """What of the upkeep of a kind of unit a service does not count for."""
    from wellbook.water.sampling.upkeep import METER, of_kind

    tasks = of_kind(said_upkeep().tasks, of)
    known = {one for task in tasks for one in (task.done_as, task.asked_after)}
    if not tasks or kind in {"bypass", "repair", "failed", METER, *known}:
        return []
    kinds = ", ".join(dict.fromkeys(task.done_as for task in tasks))
    said = _("It counts for none of the upkeep that is asked for: {kinds}.")
    return [said.format(kinds=kinds)]


class _Inspection(click.Command):
    """A command with one option for each line of the checklist, read when it is asked for."""

    def get_params(self, ctx: click.Context) -> list[click.Parameter]:
        """Its own options, then those of the checklist."""
        lines = [
            click.Option(
                [f"--{item.key}", _name(item)], type=click.Choice(_ANSWERS), help=item.line
            )
            for item in said_upkeep().checklist
        ]
        *own, last = super().get_params(ctx)
        return [*own, *lines, last]


@click.command("inspection", cls=_Inspection)
@DAY_ON
@click.option("--remark", "remarks", multiple=True, help=N_("LINE=TEXT; may be repeated."))
@click.option("--photo", "photos", type=FILE, multiple=True, help=N_("A picture; repeatable."))
@COST
@CURRENCY
@TEXT
@WELL
@click.pass_obj
def inspection(place: Place, /, on: str, photos: Sequence[Path], **given: Any) -> None:
    """What was seen at the wellhead and around it: look, and don’t open."""
    checklist = said_upkeep().checklist
    remarks = _remarks(given["remarks"], checklist)
    seen = [
        _answer(item, given[_name(item)] or "", remarks.get(item.key, "")) for item in checklist
    ]
    answers = [answer for answer in seen if answer]
    if not answers:
        raise click.UsageError(
            _("Answer at least one line of the checklist, like --cap good; see --help.")
        )
    with place.open() as book:
        found = well_named(book, given["well_name"])
        money = paid(book, given["cost"], given["currency"])
        pictures = [_picture(photo) for photo in photos]
        book.add_inspection(
            found.id,
            on,
            answers,
            pictures,
            text=given["text"],
            cost=money["cost"],
            currency=money["currency"],
        )
    click.echo(_("Kept: the inspection of {name} on {day}.").format(name=found.name, day=on))
    for item in checklist:
        if any(answer.item == item.key and answer.answer == "bad" for answer in answers):
            said = _("{name}: {do} Who does it: {who}. {caution}")
            words = said.format(name=item.name, do=item.do, who=item.who, caution=item.caution)
            click.echo(words.rstrip())
    left = [item.name for item in checklist if not given[_name(item)]]
    if left:
        click.echo(_("Not answered: {names}.").format(names="; ".join(left)))


def _name(item: "Item") -> str:
    return f"line_{item.key.replace('-', '_')}"


def _answer(item: "Item", said: str, remark: str) -> "InspectionAnswer | None":
    from wellbook.book.rows import InspectionAnswer

    if not said and remark:
        raise click.UsageError(
            _("There is a remark on {item}, but no answer: add --{item} good, bad or not-seen.")
            .format(item=item.key)
        )  # fmt: skip
    return InspectionAnswer(0, 0, item.key, said.replace("-", " "), remark) if said else None


def _remarks(said: Sequence[str], checklist: "Sequence[Item]") -> dict[str, str]:
    known = [item.key for item in checklist]
    remarks = {}
    for one in said:
        key, sign, text = one.partition("=")
        if not sign or key.strip() not in known:
            raise click.UsageError(
                _("Write --remark LINE=TEXT; the lines are: {known}.").format(
                    known=", ".join(known)
                )
            )
        remarks[key.strip()] = text.strip()
    return remarks


def _picture(path: Path) -> "NewDocument":
    import mimetypes

    from wellbook.book.rows import NewDocument
    from wellbook.book.samples import LARGEST_DOCUMENT
    from wellbook.support.whole_file import TooLarge, read_whole, shown_name

    kind, _unused = mimetypes.guess_type(path.name)
    if kind is None or not kind.startswith("image/"):
        raise Fault(
            _("{path} is no picture by its name: a photo ends in .jpg, .png or .heic.").format(
                path=path
            )
        )
    try:
        content = read_whole(path, LARGEST_DOCUMENT)
    except TooLarge as found:
        raise Fault(
            _("{path} has {size} MB, more than a book takes: save a smaller picture.").format(
                path=path, size=round(found.size / 1e6)
            )
        ) from None
    except OSError as error:
        raise Fault(
            _("{path} can’t be read: {why}.").format(path=path, why=error.strerror)
        ) from error
    return NewDocument(shown_name(path), kind, content, "photo")


@click.command("mended")
@click.option("--line", required=True, help=N_("Key of the line that was found bad, e.g. cap."))
@DAY_ON
@WELL
@click.pass_obj
def mended(place: Place, /, line: str, on: str, well_name: str) -> None:
    """That something an inspection found bad was put right."""
    from wellbook.planning.upkeep.mending import mended_by, unmended

    checklist = said_upkeep().checklist
    with place.open() as book:
        found = well_named(book, well_name)
        bad = unmended(book.record(), found)
        if line not in bad:
            known = ", ".join(bad) or _("none")
            raise Fault(
                _("Nothing called {line} is on the list of {name}; on it: {known}.").format(
                    line=line, name=found.name, known=known
                )
            )
        with book.together(as_one="mend what was found"):
            for number in mended_by(bad[line], on):
                book.mend(number, on)
    name = next((item.name for item in checklist if item.key == line), line)
    click.echo(_("Kept: {name} was put right on {day}.").format(name=name, day=on))


@click.command("interval")
@click.option("--task", required=True, help=N_("Key of a task, as due --json has it."))
@click.option("--months", type=click.IntRange(0, 240),
              help=N_("Every so many months; 0 for never. Not needed with --use."))  # fmt: skip
@click.option("--use", default="",
              help=N_("What it lasts for, like '1000 gal'; also L, m3, h."))  # fmt: skip
@click.option("--a-day", default="",
              help=N_("How much of that is used in a day, where no meter is read."))  # fmt: skip
@click.option("--reason", default="", help=N_("Why; kept in the book."))
@_UNIT
@WELL
@click.pass_obj
def interval(place: Place, /, task: str, months: int | None, **given: str) -> None:
    """The household’s own interval for the upkeep of a unit, or of the well itself."""
    from wellbook.planning.upkeep.amounts import read_use
    from wellbook.water.sampling.upkeep import WELL as OF_WELL

    known = {one.key: one for one in said_upkeep().tasks if not one.asked_after}
    if task not in known:
        raise click.UsageError(
            _("There is no task {task!r}. There are: {known}.").format(
                task=task, known=", ".join(known)
            )
        )
    if months is None and not given["use"]:
        raise click.UsageError(_("Say how often (--months), or what it lasts for (--use)."))
    every = known[task].months if months is None else months
    use = read_use(given["use"], given["a_day"], every, known[task].measured)
    with place.open() as book:
        well = well_named(book, given["well_name"])
        if known[task].of == OF_WELL:
            unit = None
        else:
            unit = _unit_of(book, well.id, known[task], given["unit_name"])
        number = unit.id if unit else None
        book.set_interval(well.id, task, every, unit=number, reason=given["reason"], **use)
    name = unit.name if unit else well.name
    click.echo(_how_often(use, every).format(task=task, name=name, months=every, lasts=use["use"]))
    if use["use"] and not use["a_day"]:
        click.echo(
            _("How fast it is used is told by its meter (enter service --meter), or by --a-day.")
        )


def _how_often(use: Mapping[str, str], months: int) -> str:
    if use["use"]:
        return _("Kept: {task} at {name} every {months} months or {lasts}, whichever comes first.")
    if months:
        return _("Kept: {task} at {name} every {months} months.")
    return _("Kept: {task} at {name} is not asked for.")


def _unit_of(book: "Book", well: int, task: "Task", name: str) -> Any:
    """The unit that is named, or the only one of the task's kind."""
    from wellbook.water.sampling.upkeep import of_kind

    units = [one for one in book.units(well) if of_kind([task], one.kind)]
    found = [one for one in units if not name or one.name == name]
    if len(found) != 1:
        names = ", ".join(one.name for one in units) or _("none")
        raise Fault(
            _("Say which unit is meant (--unit); of the kind {kind} there is: {names}.").format(
                kind=task.of, names=names
            )
        )
    return found[0]


@click.command("cost")
@click.option("--kind", required=True, help=N_("What was paid for, e.g. bottled water, salt."))
@DAY_ON
@click.option("--cost", required=True, help=N_("What it cost, a plain figure like 49.90."))
@CURRENCY
@TEXT
@WELL
@click.pass_obj
def cost(place: Place, /, kind: str, on: str, **given: str) -> None:
    """What else was paid for water; tests, units, services and events carry their own cost."""
    with place.open() as book:
        found = well_named(book, given["well_name"])
        money = paid(book, given["cost"], given["currency"])
        if not money["cost"]:
            raise click.UsageError(_("Say what it cost (--cost)."))
        book.add_expense(found.id, kind, on, text=given["text"], **money)
    said = _("Kept: {kind} on {day}, {cost} {currency}.")
    click.echo(said.format(kind=kind, day=on, **money))
