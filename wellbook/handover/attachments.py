"""Files that travel inside the PDF: open tables, the whole record as JSON, originals if wanted."""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wellbook.book import Book
from wellbook.book.rows import Document
from wellbook.handover import apart, kept_words, record
from wellbook.handover.extract import tables
from wellbook.handover.originals import shows
from wellbook.handover.privacy import telling_words
from wellbook.handover.tables import file_names
from wellbook.tongue import ENGLISH, say, speaking
from wellbook.water.catalogue import Catalogue

MANIFEST = "sha256.txt"


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file inside the PDF."""

    name: str
    meaning: str
    media_type: str
    content: bytes

    @property
    def sha256(self) -> str:
        """Fingerprint of its content."""
        return hashlib.sha256(self.content).hexdigest()


def attachments(
    book: Book,
    catalogue: Catalogue,
    *,
    with_personal: bool,
    with_originals: bool,
    with_journal: bool = True,
    patience: float = apart.SECONDS,
) -> tuple[Attachment, ...]:
    """Everything that goes with a packet, in the order in which it is listed.

    Args:
        book: The record.
        catalogue: Parameters as they are kept, for the figures in usual units.
        with_personal: Whether facts about people are in tables and record.
        with_originals: Whether the book's documents go along, unchanged; one that can't be
            searched for private words within its bounds stays behind, unless they may be shown.
        with_journal: Whether the journal may go along; it tells of the whole book.
        patience: Seconds that one document may take to be searched.
    """
    private = telling_words(book, with_personal=with_personal)
    held = _held(book, book.documents() if with_originals else (), private, patience)
    names = file_names(one.document for one in held)
    named = {number: name.replace("/", "-") for number, name in names.items()}
    with speaking(ENGLISH):  # what programs read
        whole = record.extract(
            book,
            with_personal=with_personal,
            named=named,
            with_journal=with_personal and with_journal,
        )
        made_tables = tables(book, catalogue, with_personal=with_personal, named=named)
    meaning = say("The record, from which a new book can go on")
    made = [Attachment(record.NAME, meaning, "application/json", whole)]
    made += [
        Attachment(table.file, say(table.meaning), "text/csv", table.content())
        for table in made_tables
        if table.rows
    ]
    made += [
        Attachment(
            named[one.document.id],
            one.meaning(),
            one.document.media_type or "application/octet-stream",
            one.content,
        )
        for one in held
    ]
    manifest = "".join(f"{one.sha256}  {one.name}\n" for one in made).encode()
    meaning = say("Fingerprints of the other files")
    return (*made, Attachment(MANIFEST, meaning, "text/plain", manifest))


@dataclass(frozen=True, slots=True)
class _Held:
    """A document that goes along, and whether it shows what is marked as personal."""

    document: Document
    content: bytes
    shows: bool

    def meaning(self) -> str:
        kind = kept_words.document(self.document.kind)
        if self.shows:
            return say(
                "Original: {document}; it shows words that are marked as personal", document=kind
            )
        return say("Original: {document}", document=kind)


def _held(
    book: Book, documents: Iterable[Document], private: Sequence[str], patience: float
) -> list[_Held]:
    """Each document once, without those that can't be searched within their bounds."""

    def searched(one: Document) -> _Held | None:
        content = contents[one.id]
        try:
            return _Held(one, content, shows(content, private, seconds=patience))
        except apart.Unread:
            return None

    once = {one.id: one for one in documents}
    contents = {number: book.content(number) for number in once}
    return [one for one in apart.each(searched, once.values()) if one is not None]
