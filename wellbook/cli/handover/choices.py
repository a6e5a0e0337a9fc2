"""What the commands share that hand a history over: their options, and what is private in it."""

from datetime import date
from typing import TYPE_CHECKING, Any, TypedDict, TypeVar, Unpack

import click

from wellbook.cli.common_options import PAPER, Day, read_catalogue, show
from wellbook.support import translation
from wellbook.support.translation import N_, _

if TYPE_CHECKING:
    from collections.abc import Callable

    from wellbook.book.record import Record
    from wellbook.packet.options import PacketOptions

_Command = TypeVar("_Command", bound="Callable[..., Any]")

_LANGUAGE = click.option(
    "--language",
    type=click.Choice(list(translation.LANGUAGES)),
    help=N_("Of the pages; tables stay as they are. Without it as the settings of the book say."),
)
_UNITS = click.option(
    "--units",
    help=N_(
        "Units to show figures in, such as household or european; without it as the settings of "
        "the book say."
    ),
)
_PERSONAL = click.option(
    "--personal",
    is_flag=True,
    help=N_("Put in what is private as well: names, address, place, costs."),
)
_SHOW = click.option(
    "--show",
    "shown",
    multiple=True,
    metavar="WORD",
    help=N_("A word that is not to be covered; may be repeated."),
)
_SINCE = click.option("--since", type=Day(), help=N_("Only tests drawn on this day or later."))
_UNTIL = click.option("--until", type=Day(), help=N_("Only tests drawn on this day or earlier."))
_WELL = click.option("--well", "wells", multiple=True, help=N_("Only this well; may be repeated."))
_POINT = click.option(
    "--point", "points", multiple=True, help=N_("Only this point; may be repeated.")
)
_PARAMETER = click.option(
    "--parameter", "parameters", multiple=True, help=N_("Only this one; may be repeated.")
)
_SETS = click.option(
    "--sets", default="", help=N_("Limit sets to compare with, separated by commas.")
)


class Chosen(TypedDict, total=False):
    """What the options hold, by their names; each command has those that it needs."""

    audience: str
    paper: str | None
    language: str | None
    units: str | None
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
    shown: tuple[str, ...]


def _all(command: _Command, *options: "Callable[[_Command], _Command]") -> _Command:
    for option in reversed(options):
        command = option(command)
    return command


def how_told(command: _Command) -> _Command:
    """The options that say how it is told: language, units, what is private."""
    return _all(command, _LANGUAGE, _UNITS, _PERSONAL, _SHOW)


def what_part(command: _Command) -> _Command:
    """The options that say which part of the book goes in."""
    return _all(command, _SINCE, _UNTIL, _WELL, _POINT, _PARAMETER, _SETS)


def on_paper(command: _Command) -> _Command:
    """The option that says on which paper."""
    return PAPER(command)


def options_of(record: "Record", **chosen: Unpack[Chosen]) -> "PacketOptions":
    """What a command was told, and where it was told nothing, what the settings of the book say."""
    from wellbook.packet.options import PacketOptions
    from wellbook.planning import settings
    from wellbook.sharing.excerpt import Scope

    kept = record.settings
    everything = chosen.get("all_originals", False)
    appends = chosen.get("append_originals", False)
    return PacketOptions(
        audience=chosen.get("audience", "buyer"),
        paper=chosen.get("paper") or settings.paper(kept),
        with_personal=chosen.get("personal", False),
        with_originals=chosen.get("originals") or (everything and not appends) or None,
        all_originals=everything,
        append_originals=appends,
        closing=chosen.get("closing"),
        language=chosen.get("language") or settings.language(kept) or translation.ENGLISH.key,
        units=chosen.get("units") or settings.units(kept),
        shown=chosen.get("shown", ()),
        scope=Scope(
            wells=chosen.get("wells", ()),
            points=chosen.get("points", ()),
            parameters=chosen.get("parameters", ()),
            sets=tuple(filter(None, (one.strip() for one in chosen.get("sets", "").split(",")))),
            since=chosen.get("since"),
            until=chosen.get("until"),
        ),
    )


def tell_private(record: "Record", options: "PacketOptions") -> None:
    """Show where private words stand, before anything is written."""
    from wellbook.packet.packet import private_places
    from wellbook.sharing.covered import hit_words

    places = private_places(record, read_catalogue(), options)
    if places:
        click.echo(_("These places may tell who people are; what is private in them is covered:"))
        show(map(hit_words, places))
        click.echo(_("To have a word shown all the same, name it with --show."))
