"""A file from this computer as a document of the book."""

import mimetypes
from pathlib import Path

from wellbook.book.rows import NewDocument
from wellbook.book.samples import LARGEST_DOCUMENT
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import TooLarge, read_whole, shown_name

_PDF = b"%PDF"


def is_picture(path: Path) -> bool:
    """Whether a file is a picture by its name, such as a photo of a report."""
    kind, _unused = mimetypes.guess_type(path.name)
    return kind is not None and kind.startswith("image/")


def is_report(path: Path) -> bool:
    """Whether a file is a page to look at, a PDF or a picture, and no table that can be read."""
    if is_picture(path):
        return True
    try:
        with path.open("rb") as file:
            return path.is_file() and file.read(len(_PDF)) == _PDF
    except OSError:
        return False


def new_document(path: Path) -> NewDocument:
    """Read a file whole.

    Raises:
        Fault: It can't be read, or it is too large.
    """
    try:
        content = read_whole(path, LARGEST_DOCUMENT)
    except TooLarge as found:
        raise Fault(
            _(
                "{path} has {size} MB; a book takes documents of up to {most} MB. Save a "
                "smaller scan (300 dpi, grey) and add that."
            ).format(path=path, size=round(found.size / 1e6), most=round(LARGEST_DOCUMENT / 1e6))
        ) from None
    except OSError as error:
        raise Fault(
            _("{path} can’t be read: {why}. Choose it again.").format(path=path, why=error.strerror)
        ) from error
    kind, _unused = mimetypes.guess_type(path.name)
    media_type = kind or "application/octet-stream"
    is_photo = media_type.startswith("image/")
    return NewDocument(shown_name(path), media_type, content, "photo" if is_photo else "lab report")
