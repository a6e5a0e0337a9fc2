"""The commands that look after a book: is it whole, copies of it, going back, saving a ruin."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from wellbook.cli.common_options import FILE, JSON, ON, read_catalogue, show
from wellbook.support.translation import _, ngettext

if TYPE_CHECKING:
    from wellbook.book.copies import Preview


@click.command()
@click.argument("book", type=FILE)
@ON
@JSON
@click.pass_context
def check(ctx: click.Context, book: Path, on: date, as_json: bool) -> None:  # noqa: FBT001
    """Look a book over: is the file whole, do its facts agree with its journal."""
    from wellbook.book.check import check as look_over
    from wellbook.water.values.findings import Severity

    findings = look_over(book, read_catalogue(), on)
    clean = _("{book} is whole: every fact is as its journal tells.").format(book=book)
    show(
        {
            "book": str(book),
            "findings": [
                {"key": one.key, "severity": one.severity, "text": one.text} for one in findings
            ],
        }
        if as_json
        else [one.text for one in findings] or [clean]
    )
    ctx.exit(int(any(one.severity is Severity.STOP for one in findings)))


@click.command()
@click.argument("book", type=FILE)
@click.option("--to", "folder", type=FILE, help="Folder, for example on a stick.")
@ON
def backup(book: Path, folder: Path | None, on: date) -> None:
    """Make a dated copy of a book and read it back."""
    from wellbook.book import copies

    made = copies.make_copy(book, on, folder)
    click.echo(_("Made {made} and read it back: it is whole.").format(made=made))
    if copies.on_same_disk(book, made):
        click.echo(_("It lies on the same disk as the book: keep one on another disk, too (--to)."))


@click.command()
@click.argument("copy", type=FILE)
@click.argument("book", type=FILE)
@click.option("--accept", is_flag=True, help="Put the copy in the place of the book.")
@ON
def restore(copy: Path, book: Path, on: date, *, accept: bool) -> None:
    """Show what going back to a COPY would lose and gain; go back with --accept."""
    from wellbook.book import copies

    show(_preview_lines(copies.preview(book, copy)))
    if not accept:
        click.echo(_("Nothing was changed. Run it again with --accept to go back."))
        return
    aside = copies.restore(book, copy, on)
    click.echo(_("{book} is now as in {copy}.").format(book=book, copy=copy.name))
    if aside:
        click.echo(_("The book as it was lies in {aside}.").format(aside=aside))


def _preview_lines(seen: "Preview") -> Iterator[str]:
    """What going back to a copy would lose and gain."""
    if seen.trouble:
        yield _("The book itself can’t be read: {trouble}").format(trouble=seen.trouble)
        n = len(seen.gained)
        yield ngettext(
            "The copy holds {n} entry of its journal.",
            "The copy holds {n} entries of its journal.",
            n,
        ).format(n=n)
        return
    lost, gained = len(seen.lost), len(seen.gained)
    told = (
        (ngettext("{n} change would be lost.", "{n} changes would be lost.", lost), seen.lost),
        (
            ngettext("{n} change would be gained.", "{n} changes would be gained.", gained),
            seen.gained,
        ),
    )
    for said, entries in told:
        yield said.format(n=len(entries))
        for entry in entries:
            yield f"  {entry.at[:16].replace('T', ' ')} UTC: {entry.action}"


@click.command()
@click.argument("book", type=FILE)
@click.argument("new_book", type=FILE)
def rescue(book: Path, new_book: Path) -> None:
    """Save what can be read of a damaged BOOK into NEW_BOOK."""
    from wellbook.book.rescue import rescue as save

    saved = save(book, new_book)
    said = ngettext(
        "Made {new_book} from {n} entry of the journal.",
        "Made {new_book} from {n} entries of the journal.",
        saved.entries,
    )
    click.echo(said.format(new_book=new_book, n=saved.entries))
    if saved.lost_entries:
        said = ngettext(
            "{n} later entry could not be saved.",
            "{n} later entries could not be saved.",
            saved.lost_entries,
        )
        click.echo(said.format(n=saved.lost_entries))
    for name in saved.lost_documents:
        click.echo(_("The content of {name} could not be saved.").format(name=name))
