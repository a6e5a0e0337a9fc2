"""Rows of a CSV file as values of a frozen dataclass, read by the type hints of its fields."""

import csv
from collections.abc import Callable, Iterator, Mapping
from dataclasses import MISSING, fields
from datetime import date
from functools import cache
from pathlib import Path
from types import MappingProxyType, UnionType
from typing import Annotated, Any, Literal, TypeVar, get_args, get_origin, get_type_hints

_Row = TypeVar("_Row")

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
    with path.open(encoding="utf-8", newline="") as file:
        for number, row in enumerate(csv.DictReader(file), start=2):
            cells, where = {**row, **same}, f"{path.name}, row {number}"
            values = {
                name: _value(hint, cells.get(name), f"{where}, column {name}")
                for name, hint in hints.items()
                if name in cells or name not in optional
            }
            try:
                yield kind(**values)
            except ValueError as problem:
                raise ValueError(f"{where}: {problem}") from problem


def _value(hint: Any, cell: str | None, where: str) -> Any:
    if cell is None:
        raise ValueError(f"{where}: there is no such cell")
    if hint is str:
        return cell
    try:
        return _reader(hint)(cell)
    except (ValueError, ArithmeticError, LookupError) as problem:
        raise ValueError(f"{where}: {cell!r} can't be read as {_name(hint)}") from problem


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
    return lambda cell: read(cell or how)


def _name(hint: Any) -> str:
    named = " or ".join(map(repr, get_args(hint))) if get_origin(hint) is Literal else ""
    return named or getattr(hint, "__name__", str(hint))
