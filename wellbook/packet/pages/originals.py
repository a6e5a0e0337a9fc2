"""The originals that a book holds, which of them come along and how, and the attached files."""

from collections.abc import Sequence

from reportlab.platypus import Table

from wellbook.book import Book
from wellbook.packet.context import Desk, Story, text
from wellbook.packet.gather import History
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.sandbox.originals import Original, originals
from wellbook.support.translation import count, mark, say, say_as
from wellbook.wording import vocabulary

_FINGERPRINT = (Column(mark("Bytes"), 52, right=True), Column(mark("SHA-256"), 170))
_APPENDED = (Column(mark("At the end of this PDF"), 190), Column(mark("Pages"), 322))


def appended(
    book: Book, history: History, words: Sequence[str], *, seconds: float
) -> tuple[tuple[str, Original], ...]:
    """The documents of a packet, looked over, each with the name it has in it.

    Args:
        book: The record, or an excerpt of it.
        history: What is handed over.
        words: Private words; none if every page may be shown.
        seconds: How long it may take to read one document.
    """
    found = originals(book, history.documents, words, seconds=seconds)
    tests = _tests(history)
    return tuple(
        (
            say(
                "Original {place}: {document}, {belongs_to}",
                place=place,
                document=vocabulary.document(one.document.kind),
                belongs_to=tests.get(one.document.id) or _well(),
            ),
            one,
        )
        for place, one in enumerate(found, start=1)
    )


def _tests(history: History) -> dict[int, str]:
    """Which tests a document belongs to, in words."""
    numbers: dict[int, list[str]] = {}
    for test in (*history.tests, *history.struck):
        for document in test.documents:
            numbers.setdefault(document.id, []).append(str(test.number))
    return {
        key: count("test {numbers}", "tests {numbers}", len(found), numbers=", ".join(found))
        for key, found in numbers.items()
    }


def _well() -> str:
    """What a document belongs to that belongs to no test."""
    return say_as("what a document belongs to", "well")


def documents(desk: Desk) -> Story:
    """The originals that the book holds, and the files that are attached to this PDF."""
    story: Story = [
        desk.heading(say("Documents and attached data"), "documents"),
        text(
            say(
                "SHA-256 is a fingerprint: a file with the same one is the same file, to the byte. "
                "Viewers on phones and in browsers often don’t show attached files: open this PDF "
                "in a desktop viewer. “wellbook verify” checks that pages and files still belong "
                "together, “wellbook receive” makes a book from them. The PDF is not tagged for "
                "screen readers; the attached tables hold the same facts as plain text."
            )
        ),
    ]
    if desk.history.documents:
        story.append(desk.second(say("Originals in the book"), "originals"))
        if not desk.with_originals:
            story.append(
                text(
                    say(
                        "The originals are not attached, because they can show names and "
                        "addresses. Ask the household for them; the fingerprint shows whether you "
                        "were given the same files."
                    )
                )
            )
        story.append(_originals(desk))
    story += _appended(desk)
    story.append(desk.second(say("Attached to this PDF"), "attached"))
    rows: list[list[Cell]] = [
        [one.name, one.meaning, f"{len(one.content):,}", _halved(one.sha256)]
        for one in desk.attachments
    ]
    columns = (Column(mark("File"), 110), Column(mark("What it is"), 180), *_FINGERPRINT)
    return [*story, grid(columns, rows, desk.width) if rows else text(say("Nothing."))]


def _originals(desk: Desk) -> Table:
    belongs = _tests(desk.history)
    behind = {one.document.id: one.why for one in desk.originals}
    rows: list[list[Cell]] = []
    for one in desk.history.documents:
        name = vocabulary.document(one.kind)
        why = behind.get(one.id)
        if why:
            name = say("{document}; not attached: {reason}", document=name, reason=say(why))
        elif why is not None:
            name = f"{name}: {one.name}"
        rows.append([name, belongs.get(one.id) or _well(), f"{one.size:,}", _halved(one.sha256)])
    columns = (Column(mark("Document"), 190), Column(mark("Belongs to"), 100), *_FINGERPRINT)
    return grid(columns, rows, desk.width)


def _halved(digest: str) -> str:
    return f"{digest[:32]}\n{digest[32:]}"


def _appended(desk: Desk) -> Story:
    if not desk.appended:
        return []
    rows: list[list[Cell]] = [[name, _pages(one)] for name, one in desk.appended]
    return [
        desk.second(say("Pages of originals"), "appended"),
        text(
            say(
                "They come after the last page of ours, each with a stamp. Scripts, links, forms "
                "and remarks in them are dropped."
            )
        ),
        grid(_APPENDED, rows, desk.width),
    ]


def _pages(one: Original) -> str:
    if one.trouble:
        return say("not appended: {reason}", reason=say(one.trouble))
    left = [(number, why) for number, why in enumerate(one.pages, start=1) if why]
    said = [count("{n:,} page", "{n:,} pages", len(one.pages) - len(left))]
    said += [say("page {n} left out: {reason}", n=number, reason=say(why)) for number, why in left]
    return "; ".join(said)
