"""Which kind of file it is, by its first bytes and never by its name."""

import io
import re
import zipfile
from collections.abc import Iterator
from enum import StrEnum
from pathlib import Path

from wellbook.book.samples import LARGEST_DOCUMENT
from wellbook.intake.files import (
    archives,
    flat_workbooks,
    messages,
    open_documents,
    word_documents,
)
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import NotAFile, TooLarge, read_whole

_ZIP, _OLE, _PDF = b"PK\x03\x04", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"%PDF"
_PICTURES = (b"\xff\xd8\xff", b"\x89PNG\r\n", b"GIF8", b"II*\x00", b"MM\x00*", b"BM")
_XLSX, _ODS = "xl/workbook.xml", "content.xml"
_PAGE = re.compile(
    rb"\A\s*(?:<!--.*?-->\s*)*(?:<!doctype html|<html|<head|<body|<table)",
    re.IGNORECASE | re.DOTALL,
)
_XML = re.compile(rb"\A\s*<\?xml|\A\s*<[A-Za-z_][\w:.-]*[\s>]")
_LONGEST_NAME = 150  # letters of a name within an archive that are shown
_MOST_FILES = 50  # in an archive or a mail; our own bound


class Kind(StrEnum):
    """What a file is."""

    XLSX = "xlsx"
    ODS = "ods"
    XLS = "xls"
    DOCX = "docx"
    ODT = "odt"
    ARCHIVE = "archive"
    MESSAGE = "message"
    PDF = "pdf"
    PICTURE = "picture"
    PAGE = "web page"
    XML = "xml"
    JSON = "json"
    TEXT = "text"


# Endings that the names of such files usually have, the most frequent kinds first.
ENDINGS = {
    Kind.PDF: ("pdf",),
    Kind.TEXT: ("csv", "tsv", "txt"),
    Kind.XLSX: ("xlsx", "xlsm"),
    Kind.XLS: ("xls",),
    Kind.ODS: ("ods",),
    Kind.DOCX: ("docx",),
    Kind.ODT: ("odt",),
    Kind.PAGE: ("html", "htm"),
    Kind.MESSAGE: ("eml",),
    Kind.ARCHIVE: ("zip",),
    Kind.JSON: ("json",),
    Kind.XML: ("xml",),
    Kind.PICTURE: ("jpg", "jpeg", "png", "tif", "tiff", "heic", "webp", "gif", "bmp"),
}


def kind_of(content: bytes, name: str) -> Kind:
    """The kind of a file.

    Raises:
        Fault: It is an archive that is damaged or swells beyond all bounds.
    """
    if content.startswith(_ZIP):
        return _of_archive(archives.members(content, name), content)
    if content.startswith(_OLE):
        return Kind.XLS
    if content.startswith(_PDF) or _PDF in content[:1024]:
        return Kind.PDF
    if content.startswith(_PICTURES) or (content[:4] == b"RIFF" and content[8:12] == b"WEBP"):
        return Kind.PICTURE
    if content[4:12] in {b"ftypheic", b"ftypheix", b"ftypmif1"}:
        return Kind.PICTURE
    return _of_text(content)


def _of_archive(parts: frozenset[str], content: bytes) -> Kind:
    if _XLSX in parts:
        return Kind.XLSX
    if _ODS in parts:
        told = open_documents.MIMETYPE
        said = archives.part_of(content, told) if told in parts else b""
        return Kind.ODT if said.startswith(open_documents.TEXT) else Kind.ODS
    return Kind.DOCX if word_documents.DOCUMENT in parts else Kind.ARCHIVE


def _of_text(content: bytes) -> Kind:
    start = content[:4096].removeprefix(b"\xef\xbb\xbf")
    if _PAGE.match(start):
        return Kind.PAGE
    if messages.is_message(content):
        return Kind.MESSAGE
    if _XML.match(start):
        if flat_workbooks.is_workbook(start):
            return Kind.XML
        return (
            Kind.PAGE
            if re.search(
                rb"<(?:html|table|body|div|span|p|br|ul|h[1-6])[\s/>]", start, re.IGNORECASE
            )
            else Kind.XML
        )
    if re.match(rb"\s*[\[{]\s*[\[{\"\]}]", start):
        return Kind.JSON
    return Kind.TEXT


# What Python's reader of mails raises where their lines of heads are harmed.
_HARMED_HEAD = (RecursionError, LookupError, AttributeError, ValueError)


def files_in(content: bytes, kind: Kind, name: str) -> Iterator[tuple[str, bytes]]:
    """The files in an archive or a mail, by their names.

    Raises:
        Fault: There are too many, or the archive is damaged.
    """
    if kind is Kind.MESSAGE:
        try:
            yield from [(_in_a_line(own), part) for own, part in messages.parts(content)]
        except _HARMED_HEAD:
            raise archives.damaged(name) from None
        return
    with zipfile.ZipFile(io.BytesIO(content)) as archive:  # seen to be whole before
        # A damaged archive has parts without a name, of which the library can't say what they are.
        parts = [
            part
            for part in archive.infolist()
            if part.file_size and not part.filename.endswith("/")
        ]
    if len(parts) > _MOST_FILES:
        raise Fault(
            _("{name} holds {n} files; up to {most} can be taken in at once. Split it.").format(
                name=name, n=len(parts), most=_MOST_FILES
            )
        )
    for part in parts:
        if not part.filename.startswith("__MACOSX/"):
            yield _in_a_line(part.filename), archives.part_of(content, part.filename)


def _in_a_line(name: str) -> str:
    """A name that others gave, as it can be shown within a sentence."""
    shown = "".join(sign if sign.isprintable() else " " for sign in name)
    return " ".join(shown.split())[:_LONGEST_NAME]


def content_of(path: Path) -> bytes:
    """All of a lab's file.

    Raises:
        Fault: It is none, is too large or empty, or can't be read.
    """
    try:
        content = read_whole(path, LARGEST_DOCUMENT)
    except NotAFile as found:
        raise Fault(
            _("{path} is {found}: name the lab’s file instead.").format(path=path, found=found.what)
        ) from None
    except TooLarge as found:
        raise Fault(
            _(
                "{path} has {size:.0f} MB; up to {largest_document:.0f} MB can be "
                "taken in at once. Split it, for example by year."
            ).format(path=path, size=found.size / 1e6, largest_document=LARGEST_DOCUMENT / 1e6)
        ) from None
    except OSError as error:
        raise Fault(
            _("{path} can’t be read: {problem}.").format(path=path, problem=error.strerror or error)
        ) from None
    if not content.strip():
        raise Fault(_("{path} is empty. Ask for the file again.").format(path=path.name))
    return content
