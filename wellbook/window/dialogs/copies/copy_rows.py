"""Copies of a book in words: their days and places, what going back would do."""

from collections.abc import Sequence
from pathlib import Path

from wellbook.book.copies import Copy, Preview, on_same_disk
from wellbook.book.journal import Entry
from wellbook.support.translation import _
from wellbook.window.common.clock_words import since_words
from wellbook.window.common.journal_words import action_words
from wellbook.window.common.words import day_words, language
from wellbook.window.widgets.table_model import Column

_NAMED = 4  # entries that are named one by one


def columns() -> tuple[Column, ...]:
    """How a copy is set."""
    return (
        Column(_("As it was before"), lambda copy: day_words(copy.day)),
        Column(_("Size"), _size),
        Column(_("Folder"), lambda copy: str(copy.path.parent)),
    )


def _size(copy: Copy) -> str:
    try:
        return language().formattedDataSize(copy.path.stat().st_size)
    except OSError:
        return ""


def warning_words(book: Path, copies: Sequence[Copy]) -> str:
    """A warning if a broken disk would take the book and all its copies along."""
    if not copies:
        return _("The book has no copy yet: put one on a stick or on another disk.")
    try:
        is_alone = all(on_same_disk(book, copy.path) for copy in copies)
    except OSError:
        return ""
    if not is_alone:
        return ""
    return _(
        "All copies lie on the disk of the book itself. If it breaks, they are gone with it: put "
        "one on a stick or on another disk."
    )


def preview_words(copy: Copy, found: Preview) -> str:
    """What going back to a copy would lose and gain."""
    if found.trouble:
        said = _("The book itself can’t be read. Entries in this copy: {count}.")
        return said.format(count=len(found.gained))
    if not found.lost and not found.gained:
        return _("The book holds the same as this copy: nothing to go back for.")
    day = day_words(copy.day)
    parts = [_("Going back to the copy of {day}.").format(day=day)]
    if found.lost:
        said = _("Entries made since that would be lost: {count} ({which}).")
        parts.append(said.format(count=len(found.lost), which=_which(found.lost)))
    if found.gained:
        said = _("Entries that would come back: {count} ({which}).")
        parts.append(said.format(count=len(found.gained), which=_which(found.gained)))
    parts.append(_("The book as it is now is kept beside the copies."))
    return " ".join(parts)


def _which(entries: Sequence[Entry]) -> str:
    newest = [
        _("{when}: {what}").format(when=since_words(entry.at), what=action_words(entry.action))
        for entry in entries[-_NAMED:]
    ]
    more = ["…"] if len(entries) > _NAMED else []
    return "; ".join([*more, *newest])
