"""The originals that a book holds, which of them come along and how, and the attached files."""

from reportlab.platypus import Table

from wellbook.book import Book
from wellbook.handover import words
from wellbook.handover.desk import Desk, Story, text
from wellbook.handover.grid import Cell, Column, grid
from wellbook.handover.history import History
from wellbook.handover.originals import Original, originals
from wellbook.handover.privacy import telling_words

_FINGERPRINT = (Column("Bytes", 52, right=True), Column("SHA-256", 170))
_APPENDED = (Column("At the end of this PDF", 190), Column("Pages", 322))


def appended(book: Book, history: History) -> tuple[tuple[str, Original], ...]:
    """The documents of a packet, looked over, each with the name it has in it."""
    private = telling_words(book, with_personal=history.with_personal)
    found = originals(book, history.documents, private)
    tests = _tests(history)
    return tuple(
        (f"Original {place}: {one.document.kind}, {tests.get(one.document.id, 'well')}", one)
        for place, one in enumerate(found, start=1)
    )


def _tests(history: History) -> dict[int, str]:
    """Which tests a document belongs to, in words."""
    numbers: dict[int, list[str]] = {}
    for test in (*history.tests, *history.struck):
        for document in test.documents:
            numbers.setdefault(document.id, []).append(str(test.number))
    return {key: f"test {', '.join(found)}" for key, found in numbers.items()}


def documents(desk: Desk) -> Story:
    """The originals that the book holds, and the files that are attached to this PDF."""
    story: Story = [
        desk.heading("Documents and attached data", "documents"),
        text(
            "SHA-256 is a fingerprint: a file with the same one is the same file, to the byte. "
            "Viewers on phones and in browsers often don’t show attached files: open this PDF "
            "in a desktop viewer. “wellbook verify” checks that pages and files still belong "
            "together, “wellbook receive” makes a book from them. The PDF is not tagged for screen "
            "readers; the attached tables hold the same facts as plain text."
        ),
    ]
    if desk.history.documents:
        story.append(desk.second("Originals in the book", "originals"))
        if not desk.with_originals:
            story.append(
                text(
                    "The originals are not attached, because they can show names and addresses. "
                    "Ask the household for them; the fingerprint shows whether you were given the "
                    "same files."
                )
            )
        story.append(_originals(desk))
    story += _appended(desk)
    story.append(desk.second("Attached to this PDF", "attached"))
    rows: list[list[Cell]] = [
        [one.name, one.meaning, f"{len(one.content):,}", _halved(one.sha256)]
        for one in desk.attachments
    ]
    columns = (Column("File", 110), Column("What it is", 180), *_FINGERPRINT)
    return [*story, grid(columns, rows, desk.width) if rows else text("Nothing.")]


def _originals(desk: Desk) -> Table:
    belongs = _tests(desk.history)
    rows: list[list[Cell]] = []
    for one in desk.history.documents:
        name = f"{one.kind}: {one.name}" if desk.with_originals else one.kind
        rows.append([name, belongs.get(one.id, "well"), f"{one.size:,}", _halved(one.sha256)])
    columns = (Column("Document", 190), Column("Belongs to", 100), *_FINGERPRINT)
    return grid(columns, rows, desk.width)


def _halved(digest: str) -> str:
    return f"{digest[:32]}\n{digest[32:]}"


def _appended(desk: Desk) -> Story:
    if not desk.appended:
        return []
    rows: list[list[Cell]] = [[name, _pages(one)] for name, one in desk.appended]
    return [
        desk.second("Pages of originals", "appended"),
        text(
            "They come after the last page of ours, each with a stamp. Scripts, links, forms and "
            "remarks in them are dropped."
        ),
        grid(_APPENDED, rows, desk.width),
    ]


def _pages(one: Original) -> str:
    if one.trouble:
        return f"not appended: {one.trouble}"
    left = [(number, why) for number, why in enumerate(one.pages, start=1) if why]
    said = words.count(len(one.pages) - len(left), "page")
    return "; ".join([said, *(f"page {number} left out: {why}" for number, why in left)])
