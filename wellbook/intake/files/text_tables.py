"""Text files of separated values: encoding, separator, rows of cells."""

import codecs
import csv
import io
import re
from collections.abc import Callable

from wellbook.intake.files.sheets import Cells
from wellbook.support.errors import Fault
from wellbook.support.translation import _

SEPARATORS = (",", ";", "\t", "|")
_KNOWN = 200_000  # texts of cells that are told apart; our own bound
_LOOK = 60_000  # characters from which the separator is decided
_CONTROLS = re.compile(r"[\x00-\x08\x0e-\x1b\x7f]")
_GUARDED = re.compile(r'^="(.*)"$')  # a way to keep a spreadsheet from eating leading zeros
_MARKS = {
    codecs.BOM_UTF8: "utf-8-sig",
    codecs.BOM_UTF16_LE: "utf-16",
    codecs.BOM_UTF16_BE: "utf-16",
}
# Two names with their figures, parted by more than a blank.
_PAIR = (
    r"[^\W\d_][^\d\n;/,=:]{0,30}(?:: ?| ?= ?| )[<>]? ?\d[\d.,]*"
    r"(?: ?[^\s\d,;/]{1,6}(?:/[^\s,;]{1,8})?)?"
)
_SEVERAL = re.compile(rf"{_PAIR}\s*(?:\n|;\s|,\s|\s/\s){_PAIR}")
_UNNAMED = {(True, False): "utf-16-be", (False, True): "utf-16-le"}  # by where the zeros stand


def decode(content: bytes, name: str) -> str:
    """The text of a file in UTF-8, UTF-16 or Windows-1252.

    Raises:
        Fault: It is not text.
    """
    try:
        text = content.decode(_encoding(content))
    except UnicodeDecodeError:
        try:
            text = content.decode("cp1252")
        except UnicodeDecodeError as error:
            raise _not_text(name, _("byte {start}").format(start=error.start + 1)) from None
    found = _CONTROLS.search(text)
    if found:
        line = text.count("\n", 0, found.start()) + 1
        raise _not_text(name, _("line {line}").format(line=line))
    return text


def _not_text(name: str, where: str) -> Fault:
    return Fault(
        _(
            "{name} is not a table that can be read, or it is damaged: {where} is "
            "not text. Ask the lab for a CSV or XLSX file."
        ).format(name=name, where=where)
    )


def _encoding(content: bytes) -> str:
    for mark, encoding in _MARKS.items():
        if content.startswith(mark):
            return encoding
    start = content[:200]
    even, odd = start[::2], start[1::2]
    zeros = (even.count(0) > len(even) // 2, odd.count(0) > len(odd) // 2)
    return _UNNAMED.get(zeros, "utf-8")


def split(text: str, name: str, likeness: Callable[[list[Cells]], int]) -> list[Cells]:
    """Cells of a text, by the separator under which it looks most like a table of results.

    Args:
        text: The whole file.
        name: Its name, for the message.
        likeness: How much some rows look like such a table.

    Raises:
        Fault: A quotation mark is never closed, or a cell is beyond all bounds.
    """
    rows = _split(text, name, likeness)
    if '="' in text:
        return [[_GUARDED.sub(r"\1", cell) for cell in row] for row in rows]
    return rows


def with_several_in_cells(
    text: str, name: str, likeness: Callable[[list[Cells]], int]
) -> list[Cells]:
    """The rows of a table with cells such as `pH 7.1; iron 0.3 ppm`; none for other texts."""
    if len(text) > _LOOK or not _SEVERAL.search(text):
        return []
    try:
        rows = split(text, name, likeness)
    except Fault:
        return []
    told = likeness(rows[:1])
    return rows if told > 1 and any(_SEVERAL.search(cell) for row in rows for cell in row) else []


def _split(text: str, name: str, likeness: Callable[[list[Cells]], int]) -> list[Cells]:
    told = re.match(r"sep=(.)\r?\n", text, re.IGNORECASE)
    if told:
        return [[], *_parse(text[told.end() :], told[1], name)]
    start = text[:_LOOK]
    return _parse(text, max(SEPARATORS, key=lambda s: _rank(start, s, likeness)), name)


def _rank(
    start: str, separator: str, likeness: Callable[[list[Cells]], int]
) -> tuple[int, int, int]:
    try:
        rows = list(csv.reader(_lines(start), delimiter=separator, skipinitialspace=True))
    except csv.Error:
        return (0, 0, 0)
    widths = [len(row) for row in rows if len(row) > 1]
    return (likeness(rows), len(widths), max(widths, default=0))


def _lines(text: str) -> io.StringIO:
    return io.StringIO(text, newline="")


def _parse(text: str, separator: str, name: str) -> list[Cells]:
    rows, line = list[Cells](), 0
    known: dict[str, str] = {}  # a text that stands in many cells is kept once
    reader = csv.reader(_lines(text), delimiter=separator, skipinitialspace=True, strict=True)
    try:
        for row in reader:
            line = reader.line_num
            rows.append(list(map(known.setdefault, row, row)) if len(known) < _KNOWN else row)
    except csv.Error as error:
        raise _damage(name, line + 1, str(error)) from None
    return rows


def _damage(name: str, line: int, error: str) -> Fault:
    if "end of data" in error:
        what = _("a quotation mark opened in line {} is never closed")
    elif "field limit" in error:
        what = _("line {} holds a cell too long for a table of results")
    else:
        what = _("line {} has a quotation mark in the middle of a cell")
    return Fault(
        _(
            "{name} is damaged: {format}. Ask for the file again, or open it in a "
            "spreadsheet program, mend that line and save it as CSV."
        ).format(name=name, format=what.format(line))
    )
