"""The language of the commands: what they answer, their help, and what click itself says.

Without a choice it is the one that the environment asks for, as with other programs; the facts of
`--json` keep their keys in every language.
"""

import gettext
import os
from collections.abc import Mapping, Sequence
from copy import copy
from importlib import import_module
from inspect import cleandoc
from typing import Any, NamedTuple, TypeVar

import click

from wellbook.support import paths
from wellbook.support.translation import (
    DOMAIN,
    ENGLISH,
    LANGUAGES,
    N_,
    _,
    of_environment,
    read_language,
    use,
)

_Command = TypeVar("_Command", bound=click.Command)


class Listed(NamedTuple):
    """A command as its group lists it before it is loaded.

    Attributes:
        place: Its module under `wellbook.cli` and its name there, e.g. `handover.packet:chart`.
        line: The first line of its help.
        hidden: Whether the group's help passes it over.
    """

    place: str
    line: str
    hidden: bool = False


class TranslatedGroup(click.Group):
    """Says its help, and that of its commands, in the language of now.

    It holds what is listed of its commands; a command is loaded when it is asked for. `parts`
    names, under each heading of its help, the commands that stand there, in this order.
    """

    def __init__(
        self,
        *args: Any,
        listed: Mapping[str, Listed],
        parts: Mapping[str, Sequence[str]] | None = None,
        **attrs: Any,
    ) -> None:
        super().__init__(*args, **attrs)
        shown = [name for name, entry in listed.items() if not entry.hidden]
        self._parts = parts or {N_("Commands"): sorted(shown)}
        self._places = {name: entry.place for name, entry in listed.items()}
        self.commands = {
            name: click.Command(name, help=entry.line, hidden=entry.hidden)
            for name, entry in listed.items()
        }

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A command, loaded now, whose help is in the language of now."""
        if super().get_command(ctx, cmd_name) is None:
            return None
        module, _colon, name = self._places[cmd_name].partition(":")
        loaded: click.Command = getattr(import_module(f"wellbook.cli.{module}"), name)
        return _translated(loaded)

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the help of the group itself."""
        super(TranslatedGroup, _translated(self)).format_help(ctx, formatter)

    def format_commands(self, _ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write what is listed of the commands, each whole line; none is loaded for it."""
        for heading, names in self._parts.items():
            with formatter.section(_(heading)):
                rows = [(name, _(self.commands[name].help or "")) for name in names]
                formatter.write_dl(rows)


def _translated(command: _Command) -> _Command:
    """A command that differs from another by the language of its help."""
    made = copy(command)
    made.help = _(cleandoc(command.help or ""))
    made.params = [_in_words(param) for param in command.params]
    made._help_option = None  # noqa: SLF001  click makes it anew, in the language of now
    return made


def _in_words(param: click.Parameter) -> click.Parameter:
    made = copy(param)
    if isinstance(made, click.Option):
        made.help = _(made.help or "")
    return made


def _speak(ctx: click.Context, _param: click.Parameter, key: str | None) -> None:
    if not ctx.resilient_parsing:
        speak(key or of_environment())


def speak(key: str) -> None:
    """Say everything in a language from now on; click asks gettext for its own words."""
    folder = paths.resources() / "languages"
    use(read_language(folder, key))
    if key == ENGLISH.key:
        gettext.textdomain("messages")
    else:
        os.environ["LANGUAGE"] = key
        gettext.bindtextdomain(DOMAIN, str(folder))
        gettext.textdomain(DOMAIN)


LANGUAGE = click.option(
    "--language",
    type=click.Choice(list(LANGUAGES)),
    envvar="WELLBOOK_LANGUAGE",
    callback=_speak,
    is_eager=True,
    expose_value=False,
    help="Language of what is printed; also WELLBOOK_LANGUAGE or the system’s own.",
)
