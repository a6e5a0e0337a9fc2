"""The originals that a book holds, which of them come along and how, and the attached files."""

from collections.abc import Sequence

from reportlab.platypus import Table

from wellbook.book.record import Record
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import History
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.sandbox.originals import Original, originals
from wellbook.support.translation import N_, _, ngettext, pgettext
from wellbook.wording import vocabulary

_FINGERPRINT = (Column(N_("Bytes"), 52, right=True), Column(N_("SHA-256"), 170))
_APPENDED = (Column(N_("At the end of this PDF"), 190), Column(N_("Pages"), 322))


def appended(
    record: Record, history: History, words: Sequence[str], *, seconds: float
) -> tuple[tuple[str, Original], ...]:
    """The documents of a packet, looked over, each with the name it has in it.

    Args:
        record: The record, or an excerpt of it.
        history: What is handed over.
        words: Private words; none if every page may be shown.
        seconds: How long it may take to read one document.
    """
    found = originals(record, history.documents, words, seconds=seconds)
    tests = _tests(history)
    return tuple(
        (
            _("Original {place}: {document}, {belongs_to}").format(
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
        key: ngettext("test {numbers}", "tests {numbers}", len(found)).format(
            n=len(found), numbers=", ".join(found)
        )
        for key, found in numbers.items()
    }


def _well() -> str:
    """What a document belongs to that belongs to no test."""
    return pgettext("what a document belongs to", "well")


def documents(context: PacketContext) -> Story:
    """The originals that the book holds, and the files that are attached to this PDF."""
    story: Story = [
        context.heading(_("Documents and attached data"), "documents"),
        text(
            _(
                "SHA-256 is a fingerprint: a file with the same one is the same file, to the byte. "
                "Viewers on phones and in browsers often don’t show attached files: open this PDF "
                "in a desktop viewer. “wellbook verify” checks that pages and files still belong "
                "together, “wellbook receive” makes a book from them. The PDF is not tagged for "
                "screen readers; the attached tables hold the same facts as plain text."
            )
        ),
    ]
    if context.history.documents:
        story.append(context.second(_("Originals in the book"), "originals"))
        if not context.with_originals:
            story.append(
                text(
                    _(
                        "The originals are not attached, because they can show names and "
                        "addresses. Ask the household for them; the fingerprint shows whether you "
                        "were given the same files."
                    )
                )
            )
        story.append(_originals(context))
    story += _appended(context)
    story.append(context.second(_("Attached to this PDF"), "attached"))
    rows: list[list[Cell]] = [
        [one.name, one.meaning, f"{len(one.content):,}", _halved(one.sha256)]
        for one in context.attachments
    ]
    columns = (Column(N_("File"), 110), Column(N_("What it is"), 180), *_FINGERPRINT)
    last = _(
        "words.txt is there, too: the words of these pages as plain text, with the fingerprint of "
        "each page. It is made last and so not in this list; the check code covers it."
    )
    return [*story, grid(columns, rows, context.width) if rows else text(_("Nothing.")), text(last)]


def _originals(context: PacketContext) -> Table:
    belongs = _tests(context.history)
    behind = {one.document.id: one.why for one in context.originals}
    rows: list[list[Cell]] = []
    for one in context.history.documents:
        name = vocabulary.document(one.kind)
        why = behind.get(one.id)
        if why:
            name = _("{document}; not attached: {reason}").format(document=name, reason=_(why))
        elif why is not None:
            name = f"{name}: {one.name}"
        rows.append([name, belongs.get(one.id) or _well(), f"{one.size:,}", _halved(one.sha256)])
    columns = (Column(N_("Document"), 190), Column(N_("Belongs to"), 100), *_FINGERPRINT)
    return grid(columns, rows, context.width)


def _halved(digest: str) -> str:
    return f"{digest[:32]}\n{digest[32:]}"


def _appended(context: PacketContext) -> Story:
    if not context.appended:
        return []
    rows: list[list[Cell]] = [[name, _pages(one)] for name, one in context.appended]
    return [
        context.second(_("Pages of originals"), "appended"),
        text(
            _(
                "They come after the last page of ours, each with a stamp. Scripts, links, forms "
                "and remarks in them are dropped."
            )
        ),
        grid(_APPENDED, rows, context.width),
    ]


def _pages(one: Original) -> str:
    if one.trouble:
        return _("not appended: {reason}").format(reason=_(one.trouble))
    left = [(number, why) for number, why in enumerate(one.pages, start=1) if why]
    said = [
        ngettext("{n:,} page", "{n:,} pages", len(one.pages) - len(left)).format(
            n=len(one.pages) - len(left)
        )
    ]
    said += [
        _("page {n} left out: {reason}").format(n=number, reason=_(why)) for number, why in left
    ]
    return "; ".join(said)
