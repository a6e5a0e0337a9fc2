"""The commands about the household's choices, and those that put right what was entered."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, JSON, open_book, read_catalogue, show
from wellbook.support.errors import Fault
from wellbook.support.translation import _

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wellbook.book import Book
    from wellbook.book.record import Record
    from wellbook.book.rows import Sample

_IN_WORDS = frozenset({"ask", "emergency"})  # what a place says of them is a sentence to translate


@click.command()
@click.argument("book", type=FILE)
@click.option("--set", "changes", multiple=True, help="KEY=VALUE; may be repeated.")
@JSON
def settings(book: Path, changes: tuple[str, ...], **how: Any) -> None:
    """Show or change what the household chose: place, kind of well, people, limit sets and so on.

    What it did not choose follows from country and state; an empty VALUE goes back to that.
    """
    pairs = [_pair(change) for change in changes]
    with open_book(book, readonly=not changes) as opened:
        if pairs:
            _keep(opened, pairs)
        kept = _facts(opened.record())
    show(kept if how["as_json"] else _lines(kept))


def _pair(change: str) -> tuple[str, str]:
    from wellbook.planning.place.choices import SETTINGS

    key, is_pair, value = change.partition("=")
    if not is_pair or not key.strip():
        known = ", ".join(one.key for one in SETTINGS)
        raise click.UsageError(_("Write KEY=VALUE; the keys are: {known}.").format(known=known))
    return key.strip(), value.strip()


def _keep(book: "Book", pairs: "list[tuple[str, str]]") -> None:
    from wellbook.planning.place.choices import changed
    from wellbook.planning.settings import wells_described

    record = book.record()
    changes = changed(record.settings, read_catalogue(), pairs)
    if not changes:
        return
    with book.together("change settings"):
        book.set_settings(changes)
        for well, log in wells_described(record.wells, changes.get("well_kind", "")):
            book.change_well(well, construction=log)


def _facts(record: "Record") -> dict[str, Any]:
    from wellbook.planning.place.choices import SETTINGS

    kept, catalogue = record.settings, read_catalogue()
    now = {one.key: one.now(kept, catalogue) for one in SETTINGS}
    return {
        **{key: list(value) if isinstance(value, tuple) else value for key, value in now.items()},
        "origin": {one.key: one.origin(kept, catalogue) for one in SETTINGS},
    }


def _lines(facts: dict[str, Any]) -> "Iterator[str]":
    said = {"from the place": _("from the place"), "usual": _("usual")}
    for key, origin in facts["origin"].items():
        value = facts[key]
        text = ",".join(value) if isinstance(value, list) else value
        if text and key in _IN_WORDS and origin == "from the place":
            text = _(text)
        yield f"{key}: {text}" + (f" ({said[origin]})" if text and origin in said else "")


@click.command()
@click.argument("book", type=FILE)
@click.option("--forget", "number", type=int, help="Forget the decision with this number.")
@JSON
def decisions(book: Path, number: int | None, **how: Any) -> None:
    """Show what was decided about the files of labs, numbered, and forget one of it."""
    from dataclasses import asdict

    from wellbook.intake.decisions import decisions_in, forget, said_source

    with open_book(book, readonly=number is None) as opened:
        found = decisions_in(opened, read_catalogue())
        if number is not None:
            if not 1 <= number <= len(found):
                said = _("There is no decision {number}; there are {n}.")
                raise Fault(said.format(number=number, n=len(found)))
            forget(opened, found[number - 1])
            said = _("Forgotten: {said}. It is asked again at the lab’s next file.")
            click.echo(said.format(said=found[number - 1].said))
            return
    if how["as_json"]:
        show({"decisions": [asdict(one) for one in found]})
        return
    lines = [f"{n}  {said_source(one.lab)}: {one.said}" for n, one in enumerate(found, 1)]
    show(lines or [_("Nothing was decided about the files of labs yet.")])


@click.command()
@click.argument("book", type=FILE)
@click.option("--sample", "number", required=True, help="The lab’s number of the sample.")
@click.option("--parameter", required=True, help="Key or name of the parameter.")
@click.option("--result", "text", required=True, help="The result as the lab printed it.")
@click.option("--reason", required=True, help="What was wrong; kept in the book.")
def correct(book: Path, number: str, parameter: str, text: str, reason: str) -> None:
    """Correct a reading; what was entered first stays in the journal."""
    from dataclasses import replace

    from wellbook.book.rows import NewResult
    from wellbook.water.parsing.printed import read_reading

    catalogue = read_catalogue()
    known = catalogue.parameters.get(parameter) or catalogue.find(parameter)
    with open_book(book, readonly=False) as opened:
        sample = _sample(opened, number)
        found = [
            one
            for one in opened.results(sample=sample.id)
            if known and one.parameter == known.key
        ]  # fmt: skip
        if len(found) != 1:
            raise Fault(
                _("The sample {number} has {n} results of {parameter}; name one that it has once.")
                .format(number=number, n=len(found), parameter=parameter)
            )  # fmt: skip
        old = found[0]
        reading = read_reading(text, unit=old.reading.unit, basis=old.reading.basis)
        new = NewResult(
            old.parameter,
            old.name,
            replace(reading, fraction=old.reading.fraction),
            method=old.method,
            reporting_limit=old.reporting_limit,
            detection_limit=old.detection_limit,
            qualifier=old.qualifier,
            lab="" if old.lab == sample.lab else old.lab,
            analysed=old.analysed,
            draw="" if old.draw == sample.draw else old.draw,
        )
        opened.correct_result(old.id, new, reason)
    click.echo(
        _("Corrected: {name} is {new}, first entered as {old}.").format(
            name=old.name, new=text, old=old.reading.text
        )
    )


@click.command()
@click.argument("book", type=FILE)
@click.option("--sample", "number", required=True, help="The lab’s number of the sample.")
@click.option("--reason", required=True, help="Why it is not to be counted; kept in the book.")
def strike(book: Path, number: str, reason: str) -> None:
    """Strike out a sample: it stays in the book and is no longer counted."""
    with open_book(book, readonly=False) as opened:
        opened.strike_sample(_sample(opened, number).id, reason)
    click.echo(_("Struck out: the sample {number}.").format(number=number))


def _sample(book: "Book", number: str) -> "Sample":
    found = [one for one in book.samples() if one.lab_number == number]
    if len(found) == 1:
        return found[0]
    known = ", ".join(one.lab_number for one in book.samples() if one.lab_number)
    said = (
        _("Several samples have the number {number}.")
        if found
        else _("No sample has the number {number}. There are: {known}.")
    )
    raise Fault(said.format(number=number, known=known))


@click.command()
@click.argument("book", type=FILE)
def undo(book: Path) -> None:
    """Undo the last entry that stands."""
    _take_back(book, _("Nothing is left to undo."), _("Undone: {what}."), "undo")


@click.command()
@click.argument("book", type=FILE)
def redo(book: Path) -> None:
    """Redo what was undone last."""
    _take_back(book, _("Nothing is left to redo."), _("Redone: {what}."), "redo")


def _take_back(path: Path, nothing: str, done: str, way: str) -> None:
    with open_book(path, readonly=False) as book:
        what = book.undo() if way == "undo" else book.redo()
    if not what:
        raise Fault(nothing)
    click.echo(done.format(what=what))
