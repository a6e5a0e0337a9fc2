"""The commands that hand a history over: packet, chart and tables out, a packet checked and taken.

Bad usage is found before a book is opened; what a packet is made of is told in `packet`.
"""

from datetime import date
from pathlib import Path
from typing import Unpack

import click

from wellbook.cli.common_options import (
    FILE,
    JSON,
    ON,
    OUTPUT,
    Day,
    open_book,
    read_catalogue,
    said_catalogue,
    show,
)
from wellbook.cli.handover.choices import (
    Chosen,
    how_told,
    on_paper,
    options_of,
    tell_private,
    what_part,
)
from wellbook.support.translation import _, ngettext


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
        chart_of(opened.record(), said_catalogue(), parameter, output, point=point, today=on)
    click.echo(_("Made {output}.").format(output=output))


@click.command()
@click.argument("book", type=FILE)
@click.option(
    "--for", "audience", type=click.Choice(["buyer", "consultant"]), required=True, help="Reader."
)
@on_paper
@how_told
@click.option("--originals", is_flag=True, help="Attach the lab reports, photos and other files.")
@click.option("--all-originals", is_flag=True, help="Also those that show or may show names.")
@click.option("--append-originals", is_flag=True, help="Put the pages of reports at the end.")
@what_part
@click.option("--closing-date", "closing", type=Day(), help="Tell how old each test is on it.")
@OUTPUT
@ON
def packet(book: Path, output: Path, on: date, **chosen: Unpack[Chosen]) -> None:
    """Write the history PDF for a buyer or a consultant.

    A packet that leaves out tests says so on its first page.
    """
    from wellbook.packet.packet import write

    with open_book(book, readonly=True) as opened:
        options = options_of(opened.record(), **chosen)
        tell_private(opened.record(), options)
        behind = write(opened.record(), read_catalogue(), output, options, today=on)
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


CODE = click.option(
    "--code", "told", default="", help="The check code that the household told you."
)


@click.command()
@click.argument("packet_file", metavar="FILE.pdf", type=FILE)
@CODE
@JSON
@click.pass_context
def verify(ctx: click.Context, packet_file: Path, told: str, as_json: bool) -> None:  # noqa: FBT001
    """Check a packet: does it agree with itself, is it the file whose code you were told.

    Exit code 1 if something fails, or if nothing can be told of the file.
    """
    from wellbook.packet.receive.verify import Outcome, stands
    from wellbook.packet.receive.verify import verify as look_over

    checks = look_over(packet_file, told)
    is_sound = stands(checks)
    is_compared = is_sound and any(one.outcome is Outcome.HOLDS for one in checks)
    is_untold = any(one.is_whole for one in checks)
    if as_json:
        show(
            {
                "packet": str(packet_file),
                # That a file agrees with itself does not show that nobody changed it.
                "unchanged": is_compared or (None if is_sound or is_untold else False),
                "agrees": is_sound,
                "code_compared": is_compared,
                "checks": [{"outcome": one.outcome, "text": one.text} for one in checks],
            }
        )
    else:
        show(one.said for one in checks)
        show([_summary(is_sound=is_sound, is_compared=is_compared, is_untold=is_untold)])
    ctx.exit(int(not is_sound))


def _summary(*, is_sound: bool, is_compared: bool, is_untold: bool) -> str:
    if is_untold:
        return _("It can’t be told what this file is: don’t rely on it, ask for the original file.")
    if not is_sound:
        return _("Don’t rely on this file: ask for it again.")
    if is_compared:
        return _("This is, byte for byte, the file whose code you were told.")
    return _(
        "This file agrees with itself. That does not show who made it: compare its code with the "
        "household’s, with “wellbook verify FILE.pdf --code CODE”."
    )


@click.command()
@click.argument("book", type=FILE)
@click.option("-o", "--output", type=FILE, required=True, help="Folder to write to.")
def export(book: Path, output: Path) -> None:
    """Write everything as open tables, with a data dictionary and the original documents."""
    from wellbook.export.open_tables import export as export_tables

    with open_book(book, readonly=True) as opened:
        written = export_tables(opened.record(), read_catalogue(), output)
    n = len(written)
    click.echo(
        ngettext("Made {n} file in {output}.", "Made {n} files in {output}.", n).format(
            n=n, output=output
        )
    )
