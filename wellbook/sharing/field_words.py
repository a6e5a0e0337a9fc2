"""What people are told of the fields of the record: which ones changed, which ones are private."""

from collections.abc import Iterable

from wellbook.sharing.fields import Field
from wellbook.sharing.record_fields import RESULTS, TABLES
from wellbook.support.translation import _

_FIGURE = next(field for field in RESULTS.fields if field.path == "reading.number")
_BY_COLUMN = {(table.key, field.column): field for table in TABLES for field in table.fields}


def told(table: str, columns: Iterable[str]) -> dict[str, Field]:
    """Of changed columns of the book those that people are told of, with their fields.

    A figure that was read from a text follows from it, and is told only by itself.
    """
    fields = {column: _BY_COLUMN.get((table, column)) for column in columns}
    return {
        column: field
        for column, field in fields.items()
        if field and field.label and not (field is _FIGURE and "text" in fields)
    }


def personal_words() -> list[str]:
    """What people call the fields that are left out of a packet unless they are asked for."""
    labels = (field.label for table in TABLES for field in table.fields if field.is_personal)
    return [_(label) for label in dict.fromkeys(labels)]
