"""The everyday commands: make or open a book, add reports to it, see how its water is, what is due.

`due` exits 3 when something is due.
"""

from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Unpack

import click

from wellbook.cli.common_options import (
    FILE,
    JSON,
    ON,
    open_book,
    read_catalogue,
    said_catalogue,
    said_cautions,
    said_upkeep,
    show,
)
from wellbook.support import paths
from wellbook.support.translation import _

if TYPE_CHECKING:
    from wellbook.book.record import Record
    from wellbook.cli.adding import Chosen
    from wellbook.planning.lab.awaited import Awaited
    from wellbook.water.values.catalogue import Catalogue

DUE = 3  # exit code when something is due
FIRST_SAMPLE = "alder-hollow"


@click.command("open", hidden=True)
@click.argument("book", type=FILE)
@click.pass_context
def open_window(ctx: click.Context, book: Path) -> None:
    """Open the window on a book."""
    from wellbook.window import run

    ctx.exit(run(book))


@click.command()
@click.argument("book", type=FILE)
def new(book: Path) -> None:
    """Make an empty book."""
    from wellbook.book import Book

    Book.create(book).close()
    click.echo(_("Made {book}.").format(book=book))


@click.command()
@click.argument("name", required=False)
@click.argument("book", type=FILE, required=False)
@JSON
def sample(name: str | None, book: Path | None, as_json: bool) -> None:  # noqa: FBT001
    """Copy an invented household into BOOK; without a NAME, list them."""
    if name is None:
        from wellbook.support import examples

        households = examples.known()
        show(
            {"samples": [{"name": key, "about": about} for key, about in households.items()]}
            if as_json
            else (f"{key}: {about}" for key, about in households.items())
        )
        return
    if book is None:
        raise click.UsageError(_("Say where the copy goes: wellbook sample NAME BOOK."))
    from wellbook.support import examples

    examples.copy(name, book)
    show(
        {"sample": name, "book": str(book)}
        if as_json
        else [_("Made {book} from {name}.").format(book=book, name=name)]
    )


@click.command("try")
@click.argument("name", default=FIRST_SAMPLE)
@click.pass_context
def try_out(ctx: click.Context, name: str) -> None:
    """Open an invented household; without a display, do the same job in words."""
    from wellbook.support import examples
    from wellbook.window import run
    from wellbook.window.app.displays import why_no_window

    book = paths.data() / "tryout" / f"{name}.wellbook"
    book.parent.mkdir(exist_ok=True)
    if not book.exists():
        examples.copy(name, book)
    if why_no_window() is None:
        ctx.exit(run(book))
    from wellbook.cli.handover import packet

    packet_file = book.with_suffix(".pdf")
    today = datetime.now().date()
    ctx.invoke(status, book=book, on=today, as_json=False)
    click.echo("")
    _due(book, today, as_json=False)
    click.echo("")
    ctx.invoke(packet.packet, book=book, audience="buyer", output=packet_file, on=today)
    click.echo(
        _("There is no display here: the book {book} was looked at in words instead.").format(
            book=book
        )
    )


@click.command()
@click.argument("book", type=FILE)
@click.argument("files", type=FILE, nargs=-1, required=True)
@click.option("--well", default="", help="Name of the well, for an empty book.")
@click.option("--point", default="", help="Name of the sampling point the tests were drawn at.")
@click.option(
    "--dates",
    type=click.Choice(["day-first", "month-first"]),
    help="How the file writes 03/05/2025, where nothing in it tells.",
)
@click.option("--password", default="", help="With which a locked PDF opens.")
@click.option(
    "--column",
    "columns",
    multiple=True,
    help="A column of the file that is a sample of your water, where nothing tells so.",
)
@click.option("--again", is_flag=True, help="Store it though the book has it, so that both stand.")
@click.option(
    "--take",
    is_flag=True,
    help="Take a later report on a test of the book: correct that, and add what is new.",
)
@click.option(
    "--preliminary",
    type=click.Choice(["keep", "withdrawn"]),
    help="What becomes of a finding told before that the report denies.",
)
@click.option("--accept", is_flag=True, help="Store what was read, each file on its own.")
@JSON
def add(book: Path, files: tuple[Path, ...], **chosen: Unpack["Chosen"]) -> None:
    """Read lab FILES, or folders of them, and print what was understood; store with --accept."""
    from wellbook.cli import adding, draft_text

    catalogue = read_catalogue()
    with open_book(book, readonly=not chosen["accept"]) as opened:
        taken = adding.add(opened, catalogue, files, chosen)
        stored = {number for one in taken.stored for number in one.ids}
        is_told = not chosen["as_json"]
        new = list(adding.news(opened, catalogue, stored, taken.kept)) if is_told else []
    show(draft_text.draft_facts(taken) if chosen["as_json"] else draft_text.draft_lines(taken))
    show(new)
    if taken.failed:
        raise adding.left_out(taken, accepted=chosen["accept"])


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
def status(book: Path, on: date, as_json: bool) -> None:  # noqa: FBT001
    """Show each parameter: latest reading, both verdicts with limit and source, trend."""
    from wellbook.cli import status_text
    from wellbook.cli.round_text import awaited_facts, awaited_lines
    from wellbook.planning.advice import told
    from wellbook.planning.consulting import powers
    from wellbook.planning.standings import standings
    from wellbook.planning.upkeep.costs import by_year

    catalogue = said_catalogue()
    with open_book(book, readonly=True) as opened:
        record = opened.record()
        wells = standings(record, catalogue, on)
        said = told(record, wells, said_cautions(), on)
        paid = by_year(record, on)
        owed = _awaited(record, catalogue, on)
        more = powers(record, wells, on)
    if as_json:
        facts = status_text.status_facts(book.name, on, wells, said, more)
        facts |= {"costs": status_text.cost_facts(paid), "awaited": awaited_facts(owed)}
        show(facts)
        return
    show(awaited_lines(owed))
    show(status_text.status_lines(record, on, wells, catalogue.sets, said, more))
    if paid:
        from wellbook.planning.upkeep.words import cost_lines

        show(["", _("What water cost, by year:"), *(f"  {line}" for line in cost_lines(paid))])


def _awaited(record: "Record", catalogue: "Catalogue", on: date) -> "tuple[Awaited, ...]":
    """What the lab has still to say; nothing is loaded for it where nothing was drawn."""
    if not record.drawn:
        return ()
    from wellbook.planning.lab.awaited import awaited

    return awaited(record, catalogue, on)


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
@click.option("--notify", is_flag=True, help="Tell it on the desktop, too, once a day.")
@click.pass_context
def due(ctx: click.Context, /, book: Path, on: date, *, notify: bool, as_json: bool) -> None:
    """Say what is due and when to test; exit code 3 when something is."""
    is_due = _due(book, on, as_json=as_json)
    if is_due and notify:
        from wellbook.cli.sampling import notify as tell

        tell(book, on)
    if is_due:
        ctx.exit(DUE)


def _due(book: Path, on: date, *, as_json: bool) -> bool:
    from wellbook.cli import status_text
    from wellbook.cli.round_text import awaited_facts, awaited_lines
    from wellbook.planning.overview import due as dues_of
    from wellbook.planning.upkeep.due import upkeep_items

    with open_book(book, readonly=True) as opened:
        record = opened.record()
        dues = dues_of(record, said_catalogue(), on)
        owed = _awaited(record, said_catalogue(), on)
        upkeep = upkeep_items(record, said_upkeep(), on)
    facts = status_text.due_facts(on, dues, upkeep)
    if as_json:
        show(facts | {"awaited": awaited_facts(owed)})
    else:
        show((*awaited_lines(owed), *status_text.due_lines(on, dues, upkeep)))
    return bool(facts["due"])
