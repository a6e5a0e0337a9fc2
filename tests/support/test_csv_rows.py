"""Rows of reference data are read by the type hints of a dataclass; a bad cell is named."""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum
from typing import Literal

import pytest

from wellbook.support.csv_rows import IntOrZero, Phrases, Stored, read_rows
from wellbook.water.values.partial_date import PartialDate


class Colour(StrEnum):
    RED = "red"


@dataclass(frozen=True, slots=True)
class Row:
    name: str
    mass: Decimal | None
    read: date
    since: PartialDate | None
    colour: Colour
    tap: Literal["raw", "treated"]
    words: tuple[str, ...]
    months: frozenset[int]
    phrases: Phrases
    months_or_none: IntOrZero
    default: bool
    checked: Stored
    unasked: str = "as it was"


GOOD = {
    "name": " Lead, total ",
    "mass": "207.20",
    "read": "2026-05-03",
    "since": "2024-05",
    "colour": "red",
    "tap": "raw",
    "words": "a b",
    "months": "3 4 3",
    "phrases": "first draw; flushed ;",
    "months_or_none": "14",
    "default": "yes",
    "checked": "memory",
}


def read(tmp_path, **changed):
    cells = {**GOOD, **changed}
    path = tmp_path / "facts.csv"
    path.write_text(",".join(cells) + "\n" + ",".join(f'"{cell}"' for cell in cells.values()))
    (row,) = read_rows(path, Row)
    return row


def test_a_cell_becomes_what_its_field_is(tmp_path):
    assert read(tmp_path) == Row(
        name=" Lead, total ",
        mass=Decimal("207.20"),
        read=date(2026, 5, 3),
        since=PartialDate(2024, 5),
        colour=Colour.RED,
        tap="raw",
        words=("a", "b"),
        months=frozenset({3, 4}),
        phrases=("first draw", "flushed"),
        months_or_none=14,
        default=True,
        checked=False,
    )
    assert str(read(tmp_path).mass) == "207.20", "digits stay as they are written"


def test_an_empty_cell_is_none_or_nothing_or_zero_where_the_field_says_so(tmp_path):
    row = read(tmp_path, mass="", since="", words="", phrases="", months_or_none="")
    assert (row.mass, row.since, row.words, row.phrases) == (None, None, (), ())
    assert row.months_or_none == 0


@pytest.mark.parametrize(
    ("column", "cell"),
    [
        ("mass", "207,2"), ("read", "2026-02-30"), ("since", "May 2024"), ("colour", "blue"),
        ("tap", "hot"), ("months", "3 May"), ("months_or_none", "x"), ("default", "maybe"),
        ("checked", "yes"), ("read", ""), ("colour", ""), ("default", ""),
    ],
)  # fmt: skip
def test_a_cell_that_makes_no_sense_is_named_with_file_row_and_column(tmp_path, column, cell):
    with pytest.raises(ValueError, match=f"facts.csv, row 2, column {column}: '{cell}'"):
        read(tmp_path, **{column: cell})


def test_a_column_that_is_missing_is_named(tmp_path):
    path = tmp_path / "facts.csv"
    path.write_text("name\nLead\n")
    with pytest.raises(ValueError, match=r"facts\.csv, row 2, column mass: there is no such cell"):
        list(read_rows(path, Row))


def test_what_stands_behind_the_last_column_is_named(tmp_path):
    path = tmp_path / "facts.csv"
    path.write_text("name,mass\nLead,207.2,, and more\n")
    with pytest.raises(ValueError, match=r"facts\.csv, row 2: .* behind the last column"):
        list(read_rows(path, Row))


def test_a_cell_that_is_the_same_in_every_row_needs_no_column(tmp_path):
    path = tmp_path / "facts.csv"
    rest = {column: cell for column, cell in GOOD.items() if column != "tap"}
    path.write_text(",".join(rest) + "\n" + ",".join(f'"{cell}"' for cell in rest.values()))
    assert next(read_rows(path, Row, {"tap": "treated"})).tap == "treated"


def test_a_row_that_ends_early_is_named_and_an_empty_cell_at_its_end_is_nobodys(tmp_path):
    path = tmp_path / "facts.csv"
    head, cells = ",".join(GOOD), [f'"{cell}"' for cell in GOOD.values()]
    path.write_text(f"{head}\n{','.join([*cells, ''])}\n\n{','.join(cells[:4])}\n")
    rows = read_rows(path, Row)
    assert next(rows).unasked == "as it was"
    with pytest.raises(ValueError, match=r"row 3, column colour: there is no such cell"):
        next(rows)
