"""The language of the commands: what they answer, their help, and what click itself says.

Without a choice it is the one that the environment asks for, as with other programs; the facts of
`--json` keep their keys in every language.
"""

import gettext
import os
from copy import copy
from inspect import cleandoc
from typing import Any

import click

from wellbook.support import paths
from wellbook.support.translation import (
    DOMAIN,
    ENGLISH,
    LANGUAGES,
    _,
    of_environment,
    read_language,
    use,
)


class TranslatedGroup(click.Group):
    """Says its help, and that of its commands, in the language of now."""

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A command whose help is in the language of now."""
        found = super().get_command(ctx, cmd_name)
        return None if found is None else _translated(found)

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the help of the group itself."""
        super(TranslatedGroup, _translated(self)).format_help(ctx, formatter)


def _translated(command: click.Command) -> Any:
    """A command that differs from another by the language of its help."""
    made: Any = copy(command)
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
    help="Language of what is printed; also WELLBOOK_LANGUAGE or the system's own.",
)
