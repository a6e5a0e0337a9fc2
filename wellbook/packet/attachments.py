"""Files that travel inside the PDF: open tables, the whole record as JSON, originals if wanted."""

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from wellbook.book.record import Record
from wellbook.sharing import RECORD, record_json
from wellbook.sharing.attachable import ScreenedOriginal
from wellbook.sharing.tables import file_names, tables
from wellbook.support.translation import ENGLISH, _, using
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording import vocabulary

MANIFEST = "sha256.txt"


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file inside the PDF.

    Attributes:
        relation: What it is to the pages, a value of ISO 32000-2, table 43: the data that they
            show, the source that they were made from, or a supplement.
    """

    name: str
    meaning: str
    media_type: str
    content: bytes
    relation: str = "Data"

    @property
    def sha256(self) -> str:
        """Fingerprint of its content."""
        return hashlib.sha256(self.content).hexdigest()


def attachments(
    record: Record,
    catalogue: Catalogue,
    *,
    with_personal: bool,
    told: Mapping[str, Any],
    originals: Sequence[ScreenedOriginal] = (),
    with_journal: bool = True,
) -> tuple[Attachment, ...]:
    """Everything that goes with a packet, in the order in which it is listed.

    Args:
        record: The record.
        catalogue: Parameters as they are kept, for the figures in usual units.
        with_personal: Whether facts about people are in tables and record.
        told: What the packet says of itself in its record.
        originals: The book's documents that were asked for; those that stay behind are left out.
        with_journal: Whether the journal may go along; it tells of the whole book.
    """
    going = [one for one in originals if not one.why]
    names = file_names(one.document for one in going)
    named = {number: name.replace("/", "-") for number, name in names.items()}
    with using(ENGLISH):  # what programs read
        whole = record_json.extract(
            record,
            with_personal=with_personal,
            named=named,
            with_journal=with_personal and with_journal,
            told=told,
        )
        made_tables = tables(record, catalogue, with_personal=with_personal, named=named)
    meaning = _("The record, from which a new book can go on")
    made = [Attachment(RECORD, meaning, "application/json", whole)]
    made += [
        Attachment(table.file, _(table.meaning), "text/csv", table.content())
        for table in made_tables
        if table.rows
    ]
    made += [
        Attachment(
            named[one.document.id],
            _("Original: {document}").format(document=vocabulary.document(one.document.kind)),
            one.document.media_type or "application/octet-stream",
            one.content,
            "Source",
        )
        for one in going
    ]
    manifest = "".join(f"{one.sha256}  {one.name}\n" for one in made).encode()
    meaning = _("Fingerprints of the other files")
    return (*made, Attachment(MANIFEST, meaning, "text/plain", manifest, "Supplement"))
