"""The command that takes a packet in: a new book, or what a book lacks."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wellbook.cli.common_options import FILE, show
from wellbook.cli.handover.packet import CODE
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext

if TYPE_CHECKING:
    from wellbook.packet.receive.merge import Merged
    from wellbook.packet.receive.same_test import Answer


@click.command()
@click.argument("packet_file", metavar="FILE.pdf", type=FILE)
@click.argument("book", type=FILE)
@click.option("--accept", is_flag=True, help="Add what is new to a BOOK that is there already.")
@click.option(
    "--differing",
    multiple=True,
    metavar="[NUMBER=]take|keep|both",
    help="For tests of which packet and BOOK say other things; may be repeated.",
)
@CODE
def receive(
    packet_file: Path,
    book: Path,
    told: str,
    accept: bool,  # noqa: FBT001
    differing: tuple[str, ...],
) -> None:
    """Make BOOK from the record that travels in a packet; go on from there.

    If BOOK is there already, say what the packet would add to it; add it with --accept. A test of
    which the packet says other things is shown with a number: take what the packet says, keep what
    BOOK says, or have both.
    """
    if not book.exists():
        from wellbook.packet.receive.receive import receive as make

        make(packet_file, book, told)
        click.echo(
            _("Made {book} from {packet_file}: look at it with 'wellbook status {book}'.").format(
                book=book, packet_file=packet_file
            )
        )
        return
    from wellbook.packet.receive import merge

    answers = _answers(differing)
    found = merge.preview(packet_file, book, told)
    click.echo(
        ngettext(
            "{n} test of the packet is in {book} already.",
            "{n} tests of the packet are in {book} already.",
            found.known,
        ).format(n=found.known, book=book)
    )
    if found.nothing:
        click.echo(_("Nothing in the packet is new to it: nothing was changed."))
        return
    show(_differences(found))
    if not accept:
        click.echo(
            _("New in the packet: {new}. Nothing was changed; add them with --accept.").format(
                new=_counted(found)
            )
        )
        return
    given = _given(found, answers)
    merge.merge(packet_file, book, told, given)
    kept = {number for number, answer in given.items() if answer == "keep"}
    taken = tuple(one for one in found.differences if one.number not in kept)
    click.echo(_("Added {new}.").format(new=_counted(replace(found, differences=taken))))


def _given(found: "Merged", answers: "dict[int, Answer]") -> "dict[int, Answer]":
    """An answer for each difference.

    Raises:
        Fault: There is none for some.
    """
    open_yet = [one.number for one in found.differences if {0, one.number}.isdisjoint(answers)]
    if open_yet:
        raise Fault(
            _(
                "Say with --differing what is to become of {numbers}: take, keep or both, for all "
                "or one by one, such as --differing take --differing 2=keep. Nothing was changed."
            ).format(numbers=", ".join(map(str, open_yet)))
        )
    return {
        one.number: answers[one.number if one.number in answers else 0] for one in found.differences
    }


def _answers(differing: tuple[str, ...]) -> "dict[int, Answer]":
    """The answer for each number of a difference; 0 is for all that have none of their own."""
    from wellbook.packet.receive.same_test import Answer

    found = {}
    for said in differing:
        number, _unused, answer = said.rpartition("=")
        if answer not in set(Answer) or not (number.isdecimal() or not number):
            raise click.BadParameter(
                _("{said} is not take, keep or both, nor such as 2=keep.").format(said=said)
            )
        found[int(number or 0)] = Answer(answer)
    return found


def _differences(found: "Merged") -> Iterator[str]:
    for one in found.differences:
        yield f"{one.number}. {one.test}"
        for change in one.changes:
            yield "   " + _("{what}: {here} in the book, {there} in the packet").format(
                what=change.what, here=change.here, there=change.there
            )


def _counted(found: "Merged") -> str:
    counts = (
        ngettext("{n} test", "{n} tests", found.tests).format(n=found.tests),
        ngettext("{n} well", "{n} wells", found.wells).format(n=found.wells),
        ngettext("{n} point", "{n} points", found.points).format(n=found.points),
        ngettext("{n} event", "{n} events", found.events).format(n=found.events),
        ngettext("{n} treatment unit", "{n} treatment units", found.units).format(n=found.units),
        ngettext("{n} lab", "{n} labs", found.labs).format(n=found.labs),
        ngettext("{n} service", "{n} services", found.services).format(n=found.services),
        ngettext("{n} cost", "{n} costs", found.expenses).format(n=found.expenses),
        ngettext("{n} original", "{n} originals", found.documents).format(n=found.documents),
        ngettext("{n} differing test", "{n} differing tests", len(found.differences)).format(
            n=len(found.differences)
        ),
    )
    return ", ".join(counts)
