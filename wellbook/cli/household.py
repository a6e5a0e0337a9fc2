"""The commands about the household's choices, and those that put right what was entered."""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from wellbook.cli.common_options import FILE, JSON, open_book, read_catalogue, show
from wellbook.support.errors import Fault
from wellbook.support.translation import _

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from wellbook.book import Book
    from wellbook.book.rows import Sample

# What people are called in the commands, and in the book.
_PEOPLE = {
    "infant": "infant",
    "pregnant": "pregnancy",
    "child": "child",
    "low-sodium": "diet",
    "immune": "immune",
    "dialysis": "dialysis",
    "animals": "animals",
}


@click.command()
@click.argument("book", type=FILE)
@click.option("--set", "changes", multiple=True, help="KEY=VALUE; may be repeated.")
@JSON
def settings(book: Path, changes: tuple[str, ...], **how: Any) -> None:
    """Show or change country, state, limit sets, people, seasons and interval."""
    with open_book(book, readonly=not changes) as opened:
        if changes:
            with opened.together():
                for change in changes:
                    _change(opened, change)
        kept = _kept(opened)
    show(kept if how["as_json"] else (f"{name}: {_said(value)}" for name, value in kept.items()))


def _said(value: str | list[str]) -> str:
    return ",".join(value) if isinstance(value, list) else value


def _kept(book: "Book") -> dict[str, Any]:
    from wellbook.planning.lab_route import read_habits
    from wellbook.planning.settings import interval, scheme, sets

    kept = book.record().settings
    habits = read_habits(kept)
    ticked = kept.get("people", "").split()
    return {
        "country": habits.country,
        "state": habits.subdivision,
        "limit-sets": list(sets(kept, read_catalogue())),
        "people": [word for word, key in _PEOPLE.items() if key in ticked],
        "seasons": scheme(kept).key,
        "interval": str(interval(kept)),
    }


def _change(book: "Book", change: str) -> None:
    name, is_pair, value = change.partition("=")
    changers: Mapping[str, Callable[[Book, str], None]] = {
        "country": lambda book, value: _habit(book, "country", value),
        "state": lambda book, value: _habit(book, "subdivision", value),
        "limit-sets": _limit_sets,
        "people": _people,
        "seasons": _seasons,
        "interval": _interval,
    }
    if not is_pair or name not in changers:
        raise click.UsageError(
            _("Write KEY=VALUE; the keys are: {known}.").format(known=", ".join(changers))
        )
    changers[name](book, value.strip())


def _habit(book: "Book", name: str, value: str) -> None:
    from wellbook.planning.lab_route import changed, read_habits, to_keep

    known = read_habits(book.record().settings)
    book.set_settings(to_keep(known, changed(known, {name: value})))


def _limit_sets(book: "Book", value: str) -> None:
    known = {key for key, one in read_catalogue().sets.items() if one.standing == "in force"}
    book.set_setting("limit_sets", " ".join(_of(value, known)))


def _people(book: "Book", value: str) -> None:
    words = _of(value, _PEOPLE) if value else []
    book.set_setting("people", " ".join(_PEOPLE[word] for word in words))


def _of(value: str, known: Any) -> list[str]:
    """The words with commas between, all of them known."""
    words = [word for word in value.replace(",", " ").split() if word]
    strange = [word for word in words if word not in known]
    if strange or not words:
        raise Fault(
            _("{words} is not among: {known}.").format(
                words=", ".join(strange) or "“”", known=", ".join(sorted(known))
            )
        )
    return words


def _seasons(book: "Book", value: str) -> None:
    from wellbook.water.values.seasons import read_scheme

    try:
        scheme = read_scheme(value)
    except ValueError as error:
        raise Fault(str(error)) from error
    book.set_setting("seasons", scheme.key)


def _interval(book: "Book", value: str) -> None:
    if not value.isdigit() or not 1 <= int(value) <= 240:  # noqa: PLR2004  as a plan allows
        raise Fault(_("The interval is a number of months from 1 to 240."))
    book.set_setting("interval", value)


@click.command()
@click.argument("book", type=FILE)
@click.option("--sample", "number", required=True, help="The lab's number of the sample.")
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
@click.option("--sample", "number", required=True, help="The lab's number of the sample.")
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
    """Take back the last entry that stands."""
    _take_back(book, _("Nothing is left to undo."), _("Undone: {what}."), "undo")


@click.command()
@click.argument("book", type=FILE)
def redo(book: Path) -> None:
    """Enter again what was taken back last."""
    _take_back(book, _("Nothing is left to redo."), _("Redone: {what}."), "redo")


def _take_back(path: Path, nothing: str, done: str, way: str) -> None:
    with open_book(path, readonly=False) as book:
        what = book.undo() if way == "undo" else book.redo()
    if not what:
        raise Fault(nothing)
    click.echo(done.format(what=what))
