"""The command `enter`: what the window's menu Record can enter, beside a lab's tests."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wellbook.cli.language import Listed, TranslatedGroup
from wellbook.support.translation import N_

if TYPE_CHECKING:
    from wellbook.book import Book

COMMANDS = {
    "well": Listed("enter.facts:well", N_("A well.")),
    "log": Listed(
        "enter.facts:log",
        N_("An item of the well log, or something that belongs to the well and needs upkeep."),
    ),
    "point": Listed(
        "enter.facts:point",
        N_("A place where samples are drawn; the one entered last lies farthest from the well."),
    ),
    "lab": Listed("enter.facts:lab", N_("A lab.")),
    "unit": Listed(
        "enter.facts:unit",
        N_("A treatment unit; with --removed alone, that one of that name was taken out."),
    ),
    "event": Listed(
        "enter.facts:event",
        N_("What happened to the well or in the house; its cautions are told at once."),
    ),
    "flow-test": Listed(
        "enter.facts:flow_test", N_("How much the well gave when it was pumped, and for how long.")
    ),
    "plan": Listed(
        "enter.facts:plan", N_("How often a panel is tested at a point; it adds to what is usual.")
    ),
    "service": Listed("enter.upkeep:service", N_("What was done to a treatment unit.")),
    "inspection": Listed(
        "enter.upkeep:inspection",
        N_("What was seen at the wellhead and around it: look, and don’t open."),
    ),
    "mended": Listed(
        "enter.upkeep:mended", N_("That something an inspection found bad was put right.")
    ),
    "interval": Listed(
        "enter.upkeep:interval",
        N_("The household’s own interval for the upkeep of a unit, or of the well itself."),
    ),
    "cost": Listed(
        "enter.upkeep:cost",
        N_("What else was paid for water; tests, units, services and events carry their own cost."),
    ),
    "prices": Listed(
        "enter.labs:prices",
        N_("A lab’s whole price list from a CSV FILE, in place of the one before."),
    ),
    "price": Listed(
        "enter.labs:price", N_("One price of a lab’s list; one of the same name is changed.")
    ),
    "drawn": Listed(
        "enter.labs:drawn",
        N_("A round that was drawn: its samples are awaited until the lab’s report is stored."),
    ),
    "sent": Listed("enter.labs:sent", N_("That what was drawn has left the house.")),
    "preliminary": Listed(
        "enter.labs:preliminary",
        N_(
            "Bacteria that a lab tells of before its report, as by telephone; a case opens at once."
        ),
    ),
    "withdrawn": Listed(
        "enter.labs:withdrawn",
        N_("That a lab has withdrawn what it told before its report; the finding stays to read."),
    ),
}


@dataclass(frozen=True, slots=True)
class Place:
    """The book that is written to, opened by the command itself."""

    path: Path

    def open(self) -> "Book":
        """The book, for writing."""
        from wellbook.cli.common_options import open_book

        return open_book(self.path, readonly=False)


@click.group("enter", cls=TranslatedGroup, listed=COMMANDS)
@click.argument("book", type=click.Path(path_type=Path))
@click.pass_context
def enter(ctx: click.Context, book: Path) -> None:
    """Enter into BOOK what is no lab’s test: a well, a point, an event, a plan and so on."""
    ctx.obj = Place(book)
