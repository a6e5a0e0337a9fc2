"""The words of a PDF by a reader of its own (pdfium), in the file's order or row by row."""

import re
import zlib
from functools import lru_cache
from itertools import pairwise
from pathlib import Path
from typing import NamedTuple

import pikepdf
import pypdfium2
from pypdf import PdfReader

_GAP = 0.2  # of a letter's height; more room than that between two letters parts words
_WIDE = 6  # points; more room than that parts columns
_LEVEL = 3  # points; words whose feet lie nearer than that stand in one row
_HYPHENS = str.maketrans({"\x02": "-", "\ufffe": "-"})  # what pdfium gives at the end of a line


class Word(NamedTuple):
    """A word in its box, in points from the left and from the top of its page."""

    page: int
    left: float
    top: float
    right: float
    bottom: float
    text: str


def words_of(path, last=None):
    """Every word of the first pages, or of all, in the file's order."""
    with pypdfium2.PdfDocument(path) as document:
        for number in range(last or len(document)):
            yield from _words(document[number], number + 1)


def _words(page, number):
    text, height = page.get_textpage(), page.get_height()
    letters = []
    for place in range(text.count_chars()):
        sign = chr(pypdfium2.raw.FPDFText_GetUnicode(text, place)).translate(_HYPHENS)
        left, bottom, right, top = text.get_charbox(place, loose=True)
        one = Word(number, left, height - top, right, height - bottom, sign)
        if letters and _parts(letters[-1], one):
            yield _joined(letters)
            letters = []
        if sign.strip():
            letters.append(one)
    if letters:
        yield _joined(letters)


def _parts(before, after):
    room = _GAP * (before.bottom - before.top)
    same_row = abs(after.bottom - before.bottom) < _LEVEL
    near = -room < after.left - before.right < room
    return not after.text.strip() or not same_row or not near


def _joined(letters):
    return Word(
        letters[0].page,
        min(one.left for one in letters),
        min(one.top for one in letters),
        max(one.right for one in letters),
        max(one.bottom for one in letters),
        "".join(one.text for one in letters),
    )


def text_of(path, *, rows=False, last=None):
    """The text of the first pages, or of all; each page ends with a form feed.

    In the file's order, or with what stands on one level of the paper in one line.
    """
    about = Path(path).stat()
    return _text_of(Path(path), rows, last, about.st_mtime_ns, about.st_size)


@lru_cache(maxsize=128)
def _text_of(path, rows, last, *_as_it_is_now):
    """What was read of a file is kept: many tests ask for the words of the same one."""
    if rows:
        return _rows(words_of(path, last))
    with pypdfium2.PdfDocument(path) as document:
        pages = [document[n].get_textpage() for n in range(last or len(document))]
        said = "".join(f"{page.get_text_range()}\f" for page in pages)
    return said.translate(_HYPHENS).replace("\r\n", "\n")


def pages_of(path):
    """The text of each page, each run of white space as one space."""
    return [" ".join(page.split()) for page in text_of(path).split("\f")[:-1]]


def _rows(words):
    pages = {}
    for word in words:
        pages.setdefault(word.page, []).append(word)
    return "".join(
        "\n".join(map(_line, _levels(found))) + "\f" for _, found in sorted(pages.items())
    )


def _levels(words):
    levels = []
    for word in sorted(words, key=lambda one: one.bottom):
        if levels and word.bottom - levels[-1][0].bottom < _LEVEL:
            levels[-1].append(word)
        else:
            levels.append([word])
    return levels


def _line(level):
    level = sorted(level, key=lambda one: one.left)
    said = level[0].text
    for before, after in pairwise(level):
        said += (" " if after.left - before.right < _WIDE else "   ") + after.text
    return said


def complaints(path):
    """What another program (qpdf, in pikepdf) finds wrong with a PDF."""
    with pikepdf.open(path) as document:
        return document.check_pdf_syntax()


def everything(path):
    """All that a packet holds: every stream unpacked, every string, every attached file."""
    raw = path.read_bytes()
    # Where objects begin is told by ten digits each, which may hold any number.
    parts = [re.sub(rb"\d{10} \d{5} [nf] ?\r?\n", b"", raw)]
    for start in re.finditer(rb"stream\r?\n", raw):
        try:
            parts.append(zlib.decompressobj().decompress(raw[start.end() :]))
        except zlib.error:
            continue
    reader = PdfReader(path)
    parts.append(text_of(path).encode())
    parts += [one.content for one in reader.attachment_list]
    return b"\n".join(parts)
