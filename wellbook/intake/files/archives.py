"""Guard against workbooks that would swell beyond all bounds when unpacked or laid out.

Nothing that an archive states about itself is trusted: every part is unpacked once, piece by
piece, and thrown away, and the reach of a sheet is counted from its cells.
"""

import io
import re
import zipfile
import zlib
from collections.abc import Iterator
from xml.etree import ElementTree as ET

from wellbook.support.errors import Fault
from wellbook.support.translation import _

LARGEST = 200_000_000  # bytes unpacked; our own bound, some 500,000 rows of results
TALLEST = 250_000  # rows of a sheet; our own bound
WIDEST = 20_000_000  # cells between the corners of a sheet; our own bound
_DEEPEST = 200  # elements within elements of a document, tables within tables; our own bound
_STEP = 1 << 20
_OVERLAP = 200  # a cell's tag may lie across two steps
_LOCAL_HEADER = 30  # bytes before the name (PKWARE APPNOTE 4.3.7), lengths at 26 and 28

# A cell of SpreadsheetML (ECMA-376 part 1, 18.3.1.4) says where it stands: r="XFD1048576".
_CELL = re.compile(rb'<(?:\w+:)?c\s[^<>]*?\br="([A-Z]{1,3})(\d{1,7})"')
# Rows and cells of OpenDocument (OASIS ODF 1.3 part 3, 9.1.3 and 9.1.4) may stand for many.
_ODS = re.compile(rb"<table:(table-row|table-cell|covered-table-cell)\b([^<>]*)>")
_REPEATED = re.compile(rb'number-(?:rows|columns)-repeated="(\d{1,12})"')


def members(content: bytes, name: str) -> frozenset[str]:
    """Names of the parts of a zipped workbook, after it was seen to unpack within bounds.

    Raises:
        Fault: The archive is damaged or too large.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            parts = archive.infolist()
        total = 0
        for part in parts:
            total = _check(content, part, total, name)
    except (zipfile.BadZipFile, zlib.error, NotImplementedError, ValueError):
        raise damaged(name) from None
    return frozenset(part.filename for part in parts)


def damaged(name: str) -> Fault:
    """That the parts of a file can't be had."""
    said = _("{name} is damaged: its parts can’t be unpacked. Ask for the file again.")
    return Fault(said.format(name=name))


def part_of(content: bytes, part: str) -> bytes:
    """One part of an archive whose size was seen before; empty if it can't be unpacked."""
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as archive:
            return archive.read(part)
    except (
        zipfile.BadZipFile,
        zlib.error,
        KeyError,
        NotImplementedError,
        RuntimeError,
        EOFError,
        OSError,
        ValueError,
    ):
        return b""


def document_in(content: bytes, part: str, name: str) -> ET.Element:
    """The text of an office program's document: one part of an archive, as elements.

    Raises:
        Fault: It is damaged, or its elements lie in one another beyond all bounds.
    """
    text = part_of(content, part)
    try:
        root = ET.fromstring(b"" if b"<!ENTITY" in text else text)  # noqa: S314  nothing can swell
    except (ET.ParseError, ValueError, LookupError):
        root = None
    if root is None or _is_deep(root):
        said = _("{name} is damaged: its text can’t be read. Ask for the file again.")
        raise Fault(said.format(name=name))
    return root


def _is_deep(root: ET.Element) -> bool:
    level = [root]
    for _unused in range(_DEEPEST):
        level = [inner for one in level for inner in one]
    return bool(level)


def _check(content: bytes, part: zipfile.ZipInfo, total: int, name: str) -> int:
    """Unpack one part and throw it away; returns the size of all parts so far."""
    reach = _Reach()
    rest = b""
    for piece in _pieces(content, part):
        total += len(piece)
        if total > LARGEST:
            raise _too_large(
                name, _("unpacks to more than {largest} MB").format(largest=LARGEST // 1_000_000)
            )
        if part.filename.endswith(".xml"):
            rest = reach.take(rest + piece)
        if reach.rows * reach.columns > WIDEST or reach.rows > TALLEST:
            raise _too_large(
                name,
                _("spreads over {rows} rows and {columns} columns").format(
                    rows=reach.rows, columns=reach.columns
                ),
            )
    return total


def _too_large(name: str, how: str) -> Fault:
    return Fault(
        _("{name} {how}: too large for a lab’s report. Ask for the results as CSV.").format(
            name=name, how=how
        )
    )


def _pieces(content: bytes, part: zipfile.ZipInfo) -> Iterator[bytes]:
    at = part.header_offset
    lengths = (int.from_bytes(content[at + i : at + i + 2], "little") for i in (26, 28))
    start = at + _LOCAL_HEADER + sum(lengths)
    packed = content[start : start + part.compress_size]
    if part.compress_type == zipfile.ZIP_STORED:
        yield packed
        return
    unpack = zlib.decompressobj(-zlib.MAX_WBITS)
    while packed and not unpack.eof:
        yield unpack.decompress(packed, _STEP)
        packed = unpack.unconsumed_tail


class _Reach:
    """How far the cells of a sheet reach."""

    def __init__(self) -> None:
        self.rows = self.columns = 0
        self._row = self._next_row = self._column = 0

    def take(self, text: bytes) -> bytes:
        """Count the cells in a piece of a sheet; returns what the next piece is put after."""
        end = 0
        for cell in _CELL.finditer(text):
            self.columns = max(self.columns, _number(cell[1]))
            self.rows = max(self.rows, int(cell[2]))
            end = cell.end()
        for tag in _ODS.finditer(text):
            self._opened(tag[1], tag[2])
            end = tag.end()
        return text[max(end, len(text) - _OVERLAP) :]

    def _opened(self, kind: bytes, attributes: bytes) -> None:
        found = _REPEATED.search(attributes)
        times = int(found[1]) if found else 1
        if kind == b"table-row":
            self._row = self._next_row
            self._next_row = self._row + times
            self._column = 0
            return
        self._column += times
        if b"value-type" in attributes:
            self.rows = max(self.rows, self._next_row)
            self.columns = max(self.columns, self._column)


def _number(letters: bytes) -> int:
    """The number of a column that spreadsheets call by letters: A is 1, AA is 27."""
    number = 0
    for letter in letters:
        number = number * 26 + letter - ord("A") + 1
    return number
