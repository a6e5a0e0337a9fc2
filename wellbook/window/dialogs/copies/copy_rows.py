"""Copies of a book in words: their days and places, what going back would do."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from wellbook.book.copies import Copy, Preview, on_same_disk
from wellbook.book.rows import Entry
from wellbook.window.common.clock_words import since_words
from wellbook.window.common.journal_words import action_words
from wellbook.window.common.words import day_words, language
from wellbook.window.widgets.table_model import Column

translate = QCoreApplication.translate
_NAMED = 4  # entries that are named one by one


def columns() -> tuple[Column, ...]:
    """How a copy is set."""
    return (
        Column(translate("Copies", "As it was before"), lambda copy: day_words(copy.day)),
        Column(translate("Copies", "Size"), _size),
        Column(translate("Copies", "Folder"), lambda copy: str(copy.path.parent)),
    )


def _size(copy: Copy) -> str:
    try:
        return language().formattedDataSize(copy.path.stat().st_size)
    except OSError:
        return ""


def warning_words(book: Path, copies: Sequence[Copy]) -> str:
    """A warning if a broken disk would take the book and all its copies along."""
    if not copies:
        return translate(
            "Copies", "The book has no copy yet: put one on a stick or on another disk."
        )
    try:
        is_alone = all(on_same_disk(book, copy.path) for copy in copies)
    except OSError:
        return ""
    if not is_alone:
        return ""
    return translate(
        "Copies",
        "All copies lie on the disk of the book itself. If it breaks, they are gone with it: put "
        "one on a stick or on another disk.",
    )


def preview_words(copy: Copy, found: Preview) -> str:
    """What going back to a copy would lose and gain."""
    if found.trouble:
        said = translate("Copies", "The book itself can’t be read. Entries in this copy: {count}.")
        return said.format(count=len(found.gained))
    if not found.lost and not found.gained:
        return translate("Copies", "The book holds the same as this copy: nothing to go back for.")
    day = day_words(copy.day)
    parts = [translate("Copies", "Going back to the copy of {day}.").format(day=day)]
    if found.lost:
        said = translate("Copies", "Entries made since that would be lost: {count} ({which}).")
        parts.append(said.format(count=len(found.lost), which=_which(found.lost)))
    if found.gained:
        said = translate("Copies", "Entries that would come back: {count} ({which}).")
        parts.append(said.format(count=len(found.gained), which=_which(found.gained)))
    parts.append(translate("Copies", "The book as it is now is kept beside the copies."))
    return " ".join(parts)


def _which(entries: Sequence[Entry]) -> str:
    newest = [
        translate("Copies", "{when}: {what}").format(
            when=since_words(entry.at), what=action_words(entry.action)
        )
        for entry in entries[-_NAMED:]
    ]
    more = ["…"] if len(entries) > _NAMED else []
    return "; ".join([*more, *newest])
