"""The commands that hand a history over: packet, chart and tables out, a packet checked and taken.

Bad usage is found before a book is opened; what a packet is made of is told in `packet`.
"""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from wellbook.cli.common_options import FILE, JSON, ON, OUTPUT, Day, open_book, read_catalogue, show
from wellbook.support import translation
from wellbook.support.translation import _, ngettext

if TYPE_CHECKING:
    from wellbook.packet.options import PacketOptions


class _Chosen(TypedDict):
    """What the options of `packet` hold, by their names."""

    audience: str
    paper: str
    language: str
    units: str
    personal: bool
    originals: bool
    all_originals: bool
    append_originals: bool
    since: date | None
    until: date | None
    wells: tuple[str, ...]
    points: tuple[str, ...]
    parameters: tuple[str, ...]
    sets: str
    closing: date | None


@click.command()
@click.argument("book", type=FILE)
@click.argument("parameter")
@click.option("--point", default="", help="Name of the sampling point; without it, the first.")
@OUTPUT
@ON
def chart(book: Path, parameter: str, point: str, output: Path, on: date) -> None:
    """Draw one PARAMETER over time into a .png, .svg or .pdf file."""
    from wellbook.export.chart_image import chart_of

    with open_book(book, readonly=True) as opened:
        chart_of(opened, read_catalogue(), parameter, output, point=point, today=on)
    click.echo(_("Made {output}.").format(output=output))


@click.command()
@click.argument("book", type=FILE)
@click.option(
    "--for", "audience", type=click.Choice(["buyer", "consultant"]), required=True, help="Reader."
)
@click.option("--paper", type=click.Choice(["letter", "a4"]), default="letter", show_default=True)
@click.option(
    "--language",
    type=click.Choice(list(translation.LANGUAGES)),
    default=translation.ENGLISH.key,
    show_default=True,
    help="Of the pages; tables stay as they are.",
)
@click.option(
    "--units",
    default="usual",
    show_default=True,
    help="Units to show figures in, such as household or european.",
)
@click.option(
    "--personal", is_flag=True, help="Put in what is private as well: names, address, place, costs."
)
@click.option("--originals", is_flag=True, help="Attach the lab reports, photos and other files.")
@click.option("--all-originals", is_flag=True, help="Also those that show or may show names.")
@click.option("--append-originals", is_flag=True, help="Put the pages of reports at the end.")
@click.option("--since", type=Day(), help="Only tests drawn on this day or later.")
@click.option("--until", type=Day(), help="Only tests drawn on this day or earlier.")
@click.option("--well", "wells", multiple=True, help="Only this well; may be repeated.")
@click.option("--point", "points", multiple=True, help="Only this point; may be repeated.")
@click.option("--parameter", "parameters", multiple=True, help="Only this one; may be repeated.")
@click.option("--sets", default="", help="Limit sets to compare with, separated by commas.")
@click.option("--closing-date", "closing", type=Day(), help="Tell how old each test is on it.")
@OUTPUT
@ON
def packet(book: Path, output: Path, on: date, **chosen: Unpack[_Chosen]) -> None:
    """Write the history PDF for a buyer or a consultant.

    A packet that leaves out tests says so on its first page.
    """
    from wellbook.packet.packet import write

    options = _options(**chosen)
    with open_book(book, readonly=True) as opened:
        behind = write(opened, read_catalogue(), output, options, today=on)
    click.echo(_("Made {output}.").format(output=output))
    if behind:
        said = ngettext(
            "{n} of the lab reports and other files doesn’t go along whole: under “Documents” the "
            "packet says which and why.",
            "{n} of the lab reports and other files don’t go along whole: under “Documents” the "
            "packet says which and why.",
            behind,
        )
        click.echo(said.format(n=behind))


def _options(**chosen: Unpack[_Chosen]) -> "PacketOptions":
    from wellbook.packet.options import PacketOptions
    from wellbook.sharing.excerpt import Scope

    everything, appends = chosen["all_originals"], chosen["append_originals"]
    return PacketOptions(
        audience=chosen["audience"],
        paper=chosen["paper"],
        with_personal=chosen["personal"],
        with_originals=chosen["originals"] or (everything and not appends) or None,
        all_originals=everything,
        append_originals=appends,
        closing=chosen["closing"],
        language=chosen["language"],
        units=chosen["units"],
        scope=Scope(
            wells=chosen["wells"],
            points=chosen["points"],
            parameters=chosen["parameters"],
            sets=tuple(filter(None, (one.strip() for one in chosen["sets"].split(",")))),
            since=chosen["since"],
            until=chosen["until"],
        ),
    )


@click.command()
@click.argument("packet_file", metavar="FILE.pdf", type=FILE)
@JSON
@click.pass_context
def verify(ctx: click.Context, packet_file: Path, as_json: bool) -> None:  # noqa: FBT001
    """Check a packet: do its pages and files belong together; exit code 1 if something fails."""
    from wellbook.packet.receive.verify import Outcome
    from wellbook.packet.receive.verify import verify as look_over

    checks = look_over(packet_file)
    failed = [one for one in checks if one.outcome is Outcome.FAILS]
    if as_json:
        show(
            {
                "packet": str(packet_file),
                "unchanged": not failed,
                "checks": [{"outcome": one.outcome, "text": one.text} for one in checks],
            }
        )
    else:
        show(f"{one.outcome}: {one.text}" for one in checks)
        show(
            [
                _(
                    "{packet_file} was changed after it was made: don’t rely on it, ask for it "
                    "again."
                ).format(packet_file=packet_file)
            ]
            if failed
            else [
                _(
                    "What {packet_file} tells is as it was made, as far as it can show itself."
                ).format(packet_file=packet_file)
            ]
        )
    ctx.exit(int(bool(failed)))


@click.command()
@click.argument("packet_file", metavar="FILE.pdf", type=FILE)
@click.argument("book", type=FILE)
@click.option("--accept", is_flag=True, help="Add what is new to a BOOK that is there already.")
def receive(packet_file: Path, book: Path, *, accept: bool) -> None:
    """Make BOOK from the record that travels in a packet; go on from there.

    If BOOK is there already, say what the packet would add to it; add it with --accept.
    """
    if not book.exists():
        from wellbook.packet.receive.receive import receive as make

        make(packet_file, book)
        click.echo(
            _("Made {book} from {packet_file}: look at it with 'wellbook status {book}'.").format(
                book=book, packet_file=packet_file
            )
        )
        return
    from wellbook.packet.receive import merge

    found = (merge.merge if accept else merge.preview)(packet_file, book)
    said = ngettext(
        "{n} test of the packet is in {book} already.",
        "{n} tests of the packet are in {book} already.",
        found.known,
    )
    click.echo(said.format(n=found.known, book=book))
    if found.nothing:
        click.echo(_("Nothing in the packet is new to it: nothing was changed."))
        return
    new = ", ".join(
        (
            ngettext("{n} test", "{n} tests", found.tests).format(n=found.tests),
            ngettext("{n} well", "{n} wells", found.wells).format(n=found.wells),
            ngettext("{n} point", "{n} points", found.points).format(n=found.points),
            ngettext("{n} event", "{n} events", found.events).format(n=found.events),
            ngettext("{n} treatment unit", "{n} treatment units", found.units).format(
                n=found.units
            ),
            ngettext("{n} lab", "{n} labs", found.labs).format(n=found.labs),
        )
    )
    if accept:
        click.echo(_("Added {new}.").format(new=new))
    else:
        click.echo(
            _("New in the packet: {new}. Nothing was changed; add them with --accept.").format(
                new=new
            )
        )


@click.command()
@click.argument("book", type=FILE)
@click.option("-o", "--output", type=FILE, required=True, help="Folder to write to.")
def export(book: Path, output: Path) -> None:
    """Write everything as open tables, with a data dictionary and the original documents."""
    from wellbook.export.open_tables import export as export_tables

    with open_book(book, readonly=True) as opened:
        written = export_tables(opened, read_catalogue(), output)
    n = len(written)
    click.echo(
        ngettext("Made {n} file in {output}.", "Made {n} files in {output}.", n).format(
            n=n, output=output
        )
    )
