"""Rows of a CSV file as values of a frozen dataclass, read by the type hints of its fields."""

import csv
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import MISSING, fields
from datetime import date
from functools import cache
from pathlib import Path
from types import MappingProxyType, UnionType
from typing import Annotated, Any, Literal, TypeVar, get_args, get_origin, get_type_hints

_Row = TypeVar("_Row")
_NOWHERE = sys.maxsize  # place of a column that is not there

# A second word says how a cell is read: what parts its phrases, its words for yes and no, or what
# an empty one stands for.
Phrases = Annotated[tuple[str, ...], ";"]
PhraseSet = Annotated[frozenset[str], ";"]
Stored = Annotated[bool, "stored memory"]
IntOrZero = Annotated[int, "0"]


def read_rows(
    path: Path, kind: type[_Row], same: Mapping[str, str] = MappingProxyType({})
) -> Iterator[_Row]:
    """Values of a kind, one for each row; each field stands in the column of its name.

    A cell is a text, a number, a day, an enum's value, a word of a `Literal`, `yes` or `no`, words
    of a tuple or frozenset, or anything with a `parse`; an empty one is None where a field may be
    None. Fields with a default need no column.

    Args:
        path: The file, in UTF-8.
        kind: A dataclass.
        same: Cells that are the same in every row, by column.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A cell or a row makes no sense; the text names file, row and column.
    """
    hints = get_type_hints(kind, include_extras=True)
    optional = {field.name for field in fields(kind) if field.default is not MISSING}  # type: ignore[arg-type]
    # Most cells of a column say what others say, too: each text is read once.
    readers = {name: cache(_reader(hint)) for name, hint in hints.items()}
    with path.open(encoding="utf-8", newline="") as file:
        lines = filter(None, csv.reader(file))
        head = next(lines, [])
        fixed = _fixed(path, same, hints)
        columns = [
            (name, head.index(name) if name in head else _NOWHERE, read)
            for name, read in readers.items()
            if name not in same and (name in head or name not in optional)
        ]
        for number, cells in enumerate(lines, start=2):
            if any(cells[len(head) :]):
                said = f"{cells[len(head)]!r} stands behind the last column; a comma needs quotes"
                raise ValueError(f"{path.name}, row {number}: {said}")
            try:
                values = {name: read(cells[place]) for name, place, read in columns} | fixed
            except (ValueError, ArithmeticError, LookupError) as problem:
                where = f"{path.name}, row {number}"
                raise ValueError(f"{where}, {_trouble(hints, columns, cells)}") from problem
            try:
                yield kind(**values)
            except ValueError as problem:
                raise ValueError(f"{path.name}, row {number}: {problem}") from problem


def _fixed(path: Path, same: Mapping[str, str], hints: Mapping[str, Any]) -> dict[str, Any]:
    """The values of cells that are the same in every row; a bad one is told of the first row."""
    alike = [(name, place, _reader(hints[name])) for place, name in enumerate(same)]
    cells = tuple(same.values())
    try:
        return {name: read(cells[place]) for name, place, read in alike}
    except (ValueError, ArithmeticError, LookupError) as problem:
        raise ValueError(f"{path.name}, row 2, {_trouble(hints, alike, cells)}") from problem


def _trouble(
    hints: Mapping[str, Any],
    columns: Iterable[tuple[str, int, Callable[[str], Any]]],
    cells: Sequence[str],
) -> str:
    """The first column of a row that can't be read, and why."""
    for name, place, read in columns:
        if place >= len(cells):
            return f"column {name}: there is no such cell"
        try:
            read(cells[place])
        except (ValueError, ArithmeticError, LookupError):
            return f"column {name}: {cells[place]!r} can't be read as {_name(hints[name])}"
    raise AssertionError(columns)


@cache
def _reader(hint: Any, how: str = "") -> Callable[[str], Any]:
    """What reads a cell as a kind; `how` is the second word of `Annotated`."""
    origin, inner = get_origin(hint), get_args(hint)
    if origin is Annotated:
        return _reader(inner[0], inner[1])
    if origin in {tuple, frozenset, UnionType}:
        read = _reader(inner[0])
        if origin is UnionType:
            return lambda cell: read(cell) if cell else None
        words = (lambda cell: map(str.strip, cell.split(how))) if how else str.split
        return lambda cell: origin(map(read, filter(None, words(cell))))
    if origin is Literal or hint is bool:
        choices = {word: word for word in inner}
        yes, no = (how or "yes no").split()
        return (choices or {yes: True, no: False}).__getitem__
    read = date.fromisoformat if hint is date else getattr(hint, "parse", hint)
    return (lambda cell: read(cell or how)) if how else read


def _name(hint: Any) -> str:
    named = " or ".join(map(repr, get_args(hint))) if get_origin(hint) is Literal else ""
    return named or getattr(hint, "__name__", str(hint))
