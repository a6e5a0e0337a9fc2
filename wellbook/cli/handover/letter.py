"""The commands that hand over less than a packet: a web page, and a letter of one page."""

from datetime import date
from pathlib import Path
from typing import Unpack

import click

from wellbook.cli.common_options import FILE, ON, OUTPUT, open_book, read_catalogue
from wellbook.cli.handover.choices import (
    Chosen,
    how_told,
    on_paper,
    options_of,
    tell_private,
    what_part,
)
from wellbook.support.translation import _


@click.command()
@click.argument("book", type=FILE)
@click.option(
    "--to",
    "recipient",
    type=click.Choice(["doctor", "dealer", "health-department"]),
    required=True,
    help="Whom it goes to; the dealer is one in water treatment.",
)
@on_paper
@how_told
@what_part
@OUTPUT
@ON
def letter(book: Path, recipient: str, output: Path, on: date, **chosen: Unpack[Chosen]) -> None:
    """Write a letter of one page on the results, to a doctor, a dealer or a health department.

    It leaves room for names and tells of no person, unless --personal is given.
    """
    from wellbook.packet.letters.paper import write_letter

    with open_book(book, readonly=True) as opened:
        record = opened.record()
        options = options_of(record, **chosen)
        tell_private(record, options)
        write_letter(record, read_catalogue(), output, recipient, options, today=on)
    click.echo(_("Made {output}.").format(output=output))


@click.command()
@click.argument("book", type=FILE)
@click.option(
    "--for",
    "audience",
    type=click.Choice(["buyer", "consultant"]),
    default="buyer",
    show_default=True,
    help="Reader; a consultant gets every chart.",
)
@how_told
@what_part
@OUTPUT
@ON
def page(book: Path, output: Path, on: date, **chosen: Unpack[Chosen]) -> None:
    """Write the history as one web page that needs no network.

    A page that leaves out tests says so at its head.
    """
    from wellbook.packet.web_page import write_page

    with open_book(book, readonly=True) as opened:
        record = opened.record()
        options = options_of(record, **chosen)
        tell_private(record, options)
        write_page(record, read_catalogue(), output, options, today=on)
    click.echo(_("Made {output}.").format(output=output))
