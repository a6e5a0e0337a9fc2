"""The commands: every main job without a screen, for scripts, tests and support.

Thin: each command opens what it needs, calls one function, prints. Exit 0 on success, 2 on bad
usage, 1 with one clear line when the job can't be done; `due` exits 3 when something is due.
The table here says where each command is; it is loaded when it is asked for, so that `--help` is
quick, and heavy imports stand inside the commands.
"""

import gc
import sys
from contextlib import suppress
from pathlib import Path
from typing import Any

import click

from wellbook import __version__
from wellbook.cli import outcomes
from wellbook.cli.language import LANGUAGE, Listed, TranslatedGroup
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _

COMMANDS = {
    "open": Listed("everyday:open_window", N_("Open the window on a book."), hidden=True),
    "new": Listed("everyday:new", N_("Make an empty book.")),
    "sample": Listed(
        "everyday:sample", N_("Copy an invented household into BOOK; without a NAME, list them.")
    ),
    "try": Listed(
        "everyday:try_out",
        N_("Open an invented household; without a display, do the same job in words."),
    ),
    "add": Listed(
        "everyday:add",
        N_(
            "Read lab FILES, or folders of them, and print what was understood; "
            "store with --accept."
        ),
    ),
    "status": Listed(
        "everyday:status",
        N_("Show each parameter: latest reading, both verdicts with limit and source, trend."),
    ),
    "due": Listed(
        "everyday:due", N_("Say what is due and when to test; exit code 3 when something is.")
    ),
    "cases": Listed(
        "cases:cases", N_("List what bad results opened: why, what comes next, and what closes it.")
    ),
    "treatment": Listed(
        "cases:treatment",
        N_("Say which methods of treatment usually serve for the raw water, and what comes first."),
    ),
    "sources": Listed(
        "cases:sources", N_("Say where salt and nitrate in the raw water may come from.")
    ),
    "enter": Listed(
        "enter.group:enter",
        N_("Enter into BOOK what is no lab’s test: a well, a point, an event, a plan and so on."),
    ),
    "settings": Listed(
        "household:settings",
        N_(
            "Show or change what the household chose: place, kind of well, people, "
            "limit sets and so on."
        ),
    ),
    "decisions": Listed(
        "household:decisions",
        N_("Show what was decided about the files of labs, numbered, and forget one of it."),
    ),
    "correct": Listed(
        "household:correct", N_("Correct a reading; what was entered first stays in the journal.")
    ),
    "strike": Listed(
        "household:strike",
        N_("Strike out a sample: it stays in the book and is no longer counted."),
    ),
    "undo": Listed("household:undo", N_("Undo the last entry that stands.")),
    "redo": Listed("household:redo", N_("Redo what was undone last.")),
    "round": Listed(
        "sampling:round_",
        N_("Plan the next sampling: panels, day, hours, bottles, and its field sheet."),
    ),
    "order": Listed(
        "order:order",
        N_("Say what to order for the next sampling, at the least price, and what the plan costs."),
    ),
    "calendar": Listed(
        "sampling:calendar", N_("Write reminders as a file that any calendar program reads (.ics).")
    ),
    "labels": Listed(
        "sampling:labels",
        N_(
            "Write labels for the bottles of the next sampling and a card for "
            "the pressure tank (PDF)."
        ),
    ),
    "postpone": Listed(
        "sampling:postpone", N_("Put a PANEL that is due off to another day, with the reason.")
    ),
    "habits": Listed(
        "sampling:habits", N_("Show or change the lab’s days and hours and the way to it.")
    ),
    "signin": Listed(
        "sampling:signin",
        N_("Look at sign-in whether a test is due in BOOK, too, and tell it on the desktop."),
    ),
    "remind": Listed(
        "sampling:remind",
        N_("Tell on the desktop what is due in each book that is looked at at sign-in."),
        hidden=True,
    ),
    "chart": Listed(
        "handover.packet:chart", N_("Draw one PARAMETER over time into a .png, .svg or .pdf file.")
    ),
    "packet": Listed(
        "handover.packet:packet", N_("Write the history PDF for a buyer or a consultant.")
    ),
    "verify": Listed(
        "handover.packet:verify",
        N_("Check a packet: does it agree with itself, is it the file whose code you were told."),
    ),
    "receive": Listed(
        "handover.receive:receive",
        N_("Make BOOK from the record that travels in a packet; go on from there."),
    ),
    "export": Listed(
        "handover.packet:export",
        N_("Write everything as open tables, with a data dictionary and the original documents."),
    ),
    "page": Listed(
        "handover.letter:page", N_("Write the history as one web page that needs no network.")
    ),
    "letter": Listed(
        "handover.letter:letter",
        N_(
            "Write a letter of one page on the results, to a doctor, a dealer or a health "
            "department."
        ),
    ),
    "check": Listed(
        "maintenance:check",
        N_("Look a book over: is the file whole, do its facts agree with its journal."),
    ),
    "backup": Listed("maintenance:backup", N_("Make a dated copy of a book and read it back.")),
    "restore": Listed(
        "maintenance:restore",
        N_("Show what going back to a COPY would lose and gain; go back with --accept."),
    ),
    "rescue": Listed(
        "maintenance:rescue", N_("Save what can be read of a damaged BOOK into NEW_BOOK.")
    ),
}

PARTS = {
    N_("Start"): ("try", "new", "sample", "receive"),
    N_("Record"): ("add", "enter", "correct", "strike", "undo", "redo", "decisions"),
    N_("Understand and act"): ("status", "cases", "treatment", "sources", "chart"),
    N_("Plan and sample"): (
        *("due", "postpone", "round", "order", "labels", "calendar"),
        *("habits", "signin", "settings"),
    ),
    N_("Hand over"): ("packet", "verify", "page", "letter", "export"),
    N_("Keep the book"): ("check", "backup", "restore", "rescue"),
}


_ALLOCATIONS = 50_000  # between looks for garbage: loading modules makes none


class _Commands(TranslatedGroup):
    """`wellbook BOOK` opens the window, and a fault is one line and exit code 1."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        if args and args[0] not in self.commands and _looks_like_a_book(args[0]):
            args = ["open", *args]
        return super().parse_args(ctx, args)

    def invoke(self, ctx: click.Context) -> Any:
        try:
            return super().invoke(ctx)
        except Fault as fault:
            raise click.ClickException(str(fault)) from fault


def _looks_like_a_book(word: str) -> bool:
    return word.endswith(".wellbook") or ("." in word and _is_file(word))


def _is_file(word: str) -> bool:
    try:
        return Path(word).is_file()
    except OSError:  # too long for a name
        return False


@click.group(cls=_Commands, listed=COMMANDS, parts=PARTS, invoke_without_command=True)
@click.version_option(__version__, prog_name="wellbook")
@LANGUAGE
@click.pass_context
def cli(ctx: click.Context) -> None:
    """Keep the record of a household’s private well.

    Without a command the window opens, on BOOK if one is named.
    """
    if ctx.invoked_subcommand is None:
        from wellbook.window import run

        ctx.exit(run(None))


def main() -> None:
    """Run the commands. A mistake of ours is one line, too, and its trace goes to a file."""
    gc.set_threshold(_ALLOCATIONS)
    outcomes.make_printable()
    try:
        cli()
    except Exception as error:  # noqa: BLE001  the last place where anything can be said
        said = outcomes.told_of_world(error) or _mistake(error)
        with suppress(OSError):  # nobody can be told, then
            click.echo(_("Error: {said}").format(said=said), err=True)
        sys.exit(1)


def _mistake(error: Exception) -> str:
    from wellbook.support.crash_log import write_trace

    trace = write_trace(error)
    said = _("Wellbook made a mistake of its own and stopped. What was in the book is still there.")
    if trace:
        return f"{said} " + _("Please report what {trace} says.").format(trace=trace)
    return f"{said} " + _("Please report it: {name}.").format(name=type(error).__name__)
