"""A file from this computer as a document of the book."""

import mimetypes
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from wellbook.book.rows import NewDocument
from wellbook.faults import Fault

translate = QCoreApplication.translate
MOST_BYTES = 25_000_000  # a book is one file that people mail and copy


def new_document(path: Path) -> NewDocument:
    """Read a file whole.

    Raises:
        Fault: It can't be read, or it is too large.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Fault(
                translate(
                    "Attaching", "{path} is larger than 25 MB: keep a smaller scan of it."
                ).format(path=path)
            )
        content = path.read_bytes()
    except OSError as error:
        raise Fault(
            translate("Attaching", "{path} can’t be read: {why}. Choose it again.").format(
                path=path, why=error.strerror
            )
        ) from error
    kind, _ = mimetypes.guess_type(path.name)
    media_type = kind or "application/octet-stream"
    is_photo = media_type.startswith("image/")
    return NewDocument(path.name, media_type, content, "photo" if is_photo else "lab report")
