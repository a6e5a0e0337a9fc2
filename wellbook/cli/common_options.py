"""What the commands share: their options, opening a book, printing an answer."""

from datetime import date, datetime, time
from functools import lru_cache
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from wellbook.support import paths
from wellbook.support.translation import N_, _
from wellbook.support.whole_file import require_no_book_name, require_replaceable

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from wellbook.book import Book
    from wellbook.water.cautions.cautions import Cautions
    from wellbook.water.sampling.upkeep import Upkeep
    from wellbook.water.values.catalogue import Catalogue


_AT_ONCE = 1000  # lines
_Command = TypeVar("_Command", bound="Callable[..., Any]")


class Day(click.ParamType[date]):
    """A day, written as in ISO 8601."""

    name = "YYYY-MM-DD"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        """Read it, or fail with words."""
        if isinstance(value, date):
            return value
        from wellbook.water.values.partial_date import YEARS
        from wellbook.wording.dates import outside_years

        try:
            day = date.fromisoformat(value)
        except ValueError:
            self.fail(
                _("{value} is no day; write it like 2026-11-25").format(value=value), param, ctx
            )
        if day.year not in YEARS:
            self.fail(outside_years(value), param, ctx)
        return day


class Clock(click.ParamType[time]):
    """An hour, written as in ISO 8601."""

    name = "HH:MM"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> time:
        """Read it, or fail with words."""
        if isinstance(value, time):
            return value
        try:
            return time.fromisoformat(value)
        except ValueError:
            self.fail(_("{value} is no hour; write it like 07:10").format(value=value), param, ctx)


FILE = click.Path(path_type=Path)
ON = click.option(
    "--on", type=Day(), default=lambda: datetime.now().date(), help=N_("As of this day, not today.")
)
PAPER = click.option(
    "--paper",
    type=click.Choice(["letter", "a4"]),
    help=N_("Without it as the settings of the book say."),
)
JSON = click.option("--json", "as_json", is_flag=True, help=N_("Print the facts as JSON."))


def output(help: str, *, required: bool = False) -> "Callable[[_Command], _Command]":  # noqa: A002  as click calls it
    """The option that says which file is written; a book in that place is refused at once."""

    def free(_unused: click.Context, __: click.Parameter, path: Path | None) -> Path | None:
        if path is not None:
            require_no_book_name(path)
            require_replaceable(path)
        return path

    return click.option("-o", "--output", type=FILE, callback=free, required=required, help=help)


OUTPUT = output(required=True, help=N_("File to write."))


def open_book(path: Path, *, readonly: bool) -> "Book":
    """An open book; the commands that only show something open it for reading."""
    from wellbook.book import Book

    book = Book.open(path, readonly=readonly)
    for doubt in book.doubts():
        click.echo(
            _("Warning: {upper}{doubt} See 'wellbook check'.").format(
                upper=doubt[0].upper(), doubt=doubt[1:]
            ),
            err=True,
        )
    return book


def read_catalogue() -> "Catalogue":
    """The reference data that Wellbook brings; a process reads them once."""
    return _catalogue_in(paths.resources())


@lru_cache(maxsize=1)
def _catalogue_in(folder: Path) -> "Catalogue":
    from wellbook.water.values import catalogue

    return catalogue.read_catalogue(folder)


def said_catalogue() -> "Catalogue":
    """The reference data with its names and explanations in the language of now."""
    from wellbook.wording.reference import worded

    return worded(read_catalogue())


def said_cautions() -> "Cautions":
    """The cautions in the language of now."""
    from wellbook.water.cautions.cautions import read_cautions
    from wellbook.wording.reference import worded_cautions

    return worded_cautions(read_cautions(paths.resources() / "cautions.toml"))


def said_upkeep() -> "Upkeep":
    """What is known of upkeep, in the language of now."""
    from wellbook.water.sampling.upkeep import read_upkeep
    from wellbook.wording.reference import worded_upkeep

    return worded_upkeep(read_upkeep(paths.resources()))


def show(answer: "dict[str, Any] | Iterable[str]") -> None:
    """Print facts as JSON, or lines as they are."""
    if isinstance(answer, dict):
        click.echo(_json(answer))
        return
    lines = iter(answer)
    while some := list(islice(lines, _AT_ONCE)):  # each call of `echo` writes to the disk
        click.echo("\n".join(some))


def _json(answer: "dict[str, Any]") -> str:
    """JSON in plain letters, unless one of them is a byte of a name that is no text."""
    import json

    text = json.dumps(answer, ensure_ascii=False, indent=2)
    try:
        text.encode()
    except UnicodeEncodeError:
        return json.dumps(answer, indent=2)
    return text
