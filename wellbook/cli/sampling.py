"""The commands about the next test: the round, reminders, putting off, the way to the lab."""

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wellbook.cli.common_options import (
    FILE,
    JSON,
    ON,
    OUTPUT,
    PAPER,
    Day,
    open_book,
    output,
    read_catalogue,
    said_catalogue,
    said_cautions,
    said_upkeep,
    show,
)
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _, ngettext

if TYPE_CHECKING:
    from wellbook.book.record import Record
    from wellbook.planning.rounds import Round
    from wellbook.water.values.catalogue import Catalogue


@click.command("round")
@click.argument("book", type=FILE)
@click.option("--point", default="", help="Name of the sampling point; without it, the first.")
@output(help=N_("Write the field sheet to this PDF."))
@PAPER
@ON
@JSON
def round_(
    book: Path, point: str, output: Path | None, on: date, *, paper: str | None, as_json: bool
) -> None:
    """Plan the next sampling: panels, day, hours, bottles, and its field sheet."""
    from wellbook.cli import round_text
    from wellbook.planning.settings import paper as own_paper
    from wellbook.planning.settings import printing

    catalogue = said_catalogue()
    with open_book(book, readonly=True) as opened:
        record = opened.record().loaded()
    planned = _planned(record, catalogue, on, point)
    if point and not planned:
        raise Fault(
            _("Nothing is planned at a point called {point!r} in {book}.").format(
                point=point, book=book
            )
        )
    show(
        round_text.round_facts(on, planned)
        if as_json
        else round_text.round_lines(planned, catalogue)
    )
    if output is None:
        return
    if not planned:
        raise Fault(
            _("Nothing is planned in {book}, so there is no field sheet to write.").format(
                book=book
            )
        )
    with printing(record.settings):
        _write_sheet(record, output, on, point=point, paper=paper or own_paper(record.settings))
    click.echo(_("Made {output}.").format(output=output), err=as_json)


def _planned(record: "Record", catalogue: "Catalogue", on: date, point: str) -> "tuple[Round, ...]":
    from wellbook.planning.rounds import rounds

    planned = rounds(record, catalogue, on)
    return tuple(one for one in planned if point in {"", one.point.name})


def _write_sheet(record: "Record", output: Path, on: date, *, point: str, paper: str) -> None:
    """Write the field sheet of the next visit in the language of here and now."""
    from wellbook.export.field_sheet import write
    from wellbook.planning.advice import at_the_well, told
    from wellbook.planning.overview import overview
    from wellbook.planning.rounds import visit_of

    catalogue, cautions = said_catalogue(), said_cautions()
    found = _planned(record, catalogue, on, point)
    visit = visit_of(found, found[0])
    care = told(record, overview(record, catalogue, on, with_due=False), cautions, on)
    said = [line for one in visit for line in at_the_well(care[one.point.id], cautions)]
    write(output, visit, catalogue, today=on, paper=paper, said=said)


@click.command("labels")
@click.argument("book", type=FILE)
@OUTPUT
@PAPER
@ON
def labels(book: Path, output: Path, paper: str | None, on: date) -> None:
    """Write labels for the bottles of the next sampling and a card for the pressure tank (PDF)."""
    from wellbook.export.labels import write
    from wellbook.planning.settings import paper as own_paper
    from wellbook.planning.settings import printing

    with open_book(book, readonly=True) as opened:
        record = opened.record().loaded()
    with printing(record.settings):
        catalogue = said_catalogue()
        planned = _planned(record, catalogue, on, "")
        size = paper or own_paper(record.settings)
        written = write(output, planned, catalogue, today=on, paper=size)
    said = ngettext("Made {output}: {n} label.", "Made {output}: {n} labels.", written)
    click.echo(said.format(output=output, n=written))


@click.command("calendar")
@click.argument("book", type=FILE)
@OUTPUT
@ON
def calendar(book: Path, output: Path, on: date) -> None:
    """Write reminders as a file that any calendar program reads (.ics)."""
    from wellbook.export.calendar_file import write
    from wellbook.planning.settings import printing

    with open_book(book, readonly=True) as opened:
        record = opened.record()
        with printing(record.settings):
            written = write(record, said_catalogue(), output, today=on, upkeep=said_upkeep())
    said = ngettext("Made {output}: {n} reminder.", "Made {output}: {n} reminders.", written)
    click.echo(said.format(output=output, n=written))


@click.command()
@click.argument("book", type=FILE)
@click.argument("panel")
@click.option("--until", type=Day(), required=True, help="Day to put it off to.")
@click.option("--because", default="", help="Why; kept in the book.")
@click.option("--point", default="", help="Name of the sampling point; without it, the first.")
@ON
def postpone(book: Path, panel: str, until: date, on: date, *, point: str, because: str) -> None:
    """Put a PANEL that is due off to another day, with the reason."""
    from wellbook.planning import postponing

    with open_book(book, readonly=False) as opened:
        catalogue = read_catalogue()
        record = opened.record()
        found, due = postponing.find_due(record, catalogue, on, panel, point=point)
        opened.set_plans(
            postponing.postponed(record, catalogue, on, found, due, until=until, why=because)
        )
    click.echo(
        _("{panel} at {point} is put off to {until}.").format(
            panel=due.panel.name, point=found.name, until=until.isoformat()
        )
    )


@click.command()
@click.argument("book", type=FILE)
@click.option("--set", "changes", multiple=True, help="NAME=VALUE; may be repeated.")
@JSON
def habits(book: Path, changes: tuple[str, ...], *, as_json: bool) -> None:
    """Show or change the lab’s days and hours and the way to it."""
    from wellbook.cli import round_text
    from wellbook.planning.lab.lab_route import changed, read_habits, to_keep

    with open_book(book, readonly=not changes) as opened:
        known = read_habits(opened.record().settings)
        wanted = changed(known, dict(_pair(change) for change in changes))
        if changes:
            opened.set_settings(to_keep(known, wanted))
        kept = round_text.habit_facts(wanted)
    show(kept if as_json else (f"{name}: {value}" for name, value in kept.items()))


@click.command()
@click.argument("book", type=FILE, required=False)
@click.option("--off", is_flag=True, help="Look at BOOK no more; without a BOOK, at none.")
def signin(book: Path | None, *, off: bool) -> None:
    """Look at sign-in whether a test is due in BOOK, too, and tell it on the desktop."""
    from wellbook.support import sign_in as at_signin
    from wellbook.support import watched_books

    if book is None and not off:
        raise click.UsageError(_("Say which BOOK to look at, or --off."))
    if off:
        at_signin.switch_off(book)
        left = ", ".join(Path(one.path).name for one in watched_books.watched())
        said = _("Still looked at at sign-in: {left}.").format(left=left)
        click.echo(said if left else _("Nothing of Wellbook runs at sign-in."))
    elif book is not None:
        with open_book(book, readonly=False) as opened:
            made = at_signin.switch_on(book, opened.identity())
            kept = opened.setting(watched_books.SETTING)
            if kept != watched_books.AT_SIGN_IN and not opened.is_readonly:
                opened.set_setting(watched_books.SETTING, watched_books.AT_SIGN_IN)
        click.echo(
            _("Made {switch_on}: it runs at sign-in. Undo it with --off.").format(switch_on=made)
        )


@click.command(hidden=True)
@ON
def remind(on: date) -> None:
    """Tell on the desktop what is due in each book that is looked at at sign-in."""
    from wellbook.planning import reminder
    from wellbook.support import watched_books

    for one in watched_books.lost("note"):
        if _on_desktop(_("A book is gone"), reminder.lost_sentence(Path(one.path))):
            watched_books.note_lost(one, "note")
    for one in watched_books.watched():
        path = Path(one.path)
        if path.is_file():
            try:
                notify(path, on)
            except Fault as fault:
                _say_trouble(path, str(fault), on)


def _say_trouble(book: Path, said: str, on: date) -> None:
    """Tell once a day why a book can't be looked at."""
    from wellbook.planning import reminder

    if not reminder.was_told(book, on) and _on_desktop(book.stem, said):
        reminder.note_told(book, on)


def notify(book: Path, on: date) -> None:
    """Tell on the desktop what is due, once a day; without a desktop nothing is told."""
    from wellbook.planning import reminder
    from wellbook.planning.overview import due
    from wellbook.planning.upkeep.due import due_now, upkeep_items

    if reminder.was_told(book, on):
        return
    with open_book(book, readonly=True) as opened:
        record = opened.record()
        tasks = due_now(upkeep_items(record, said_upkeep(), on), on)
        head, text = reminder.note(book, due(record, said_catalogue(), on), on, tasks)
    if text and _on_desktop(head, text):
        reminder.note_told(book, on)


def _on_desktop(title: str, text: str) -> bool:
    """Show a note by the desktop's service, else from the tray; whether there is either."""
    from wellbook.support.notifications import notify as by_service
    from wellbook.window.app import displays

    if by_service(title, text):
        return True
    if displays.why_no_window() is not None:
        return False
    from wellbook.window.app.tray import tell_and_end

    return tell_and_end(text, title=title)


def _pair(text: str) -> tuple[str, str]:
    name, sign, value = text.partition("=")
    if not sign:
        raise click.UsageError(_("--set takes NAME=VALUE, not {text!r}.").format(text=text))
    return name.strip(), value.strip()
