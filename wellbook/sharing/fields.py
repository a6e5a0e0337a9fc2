"""What a field and a table declare of themselves; those of the record are in `record_fields`."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Field:
    """One fact of a row.

    Attributes:
        name: Column of the exported table.
        meaning: What stands in it, as the dictionary of the tables says.
        unit: Its unit or notation, likewise.
        at: Where the row holds it, a dot leading into a value; as in `name` if empty. The last
            part is its column in the book, by which the journal knows it.
        label: What people read where it was changed; empty where another field tells the change.
        is_number: Whether it is a number that a book gives; another book gives its own.
        is_personal: Left out unless facts about people are wanted.
        is_free: Somebody's own words, in which private words are covered.
        stays_behind: Never taken over from the packet of another household.
        since: Version of books from which on it is there; an older record may lack it.
    """

    name: str
    meaning: str
    unit: str = ""
    at: str = ""
    label: str = ""
    is_number: bool = False
    is_personal: bool = False
    is_free: bool = False
    stays_behind: bool = False
    since: int = 1

    @property
    def path(self) -> str:
        """Where a row holds it."""
        return self.at or self.name

    @property
    def key(self) -> str:
        """The attribute of a row, and the name in a record, that it lies under."""
        return self.path.partition(".")[0]

    @property
    def column(self) -> str:
        """Its column in the book."""
        return self.path.rpartition(".")[2]


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of one sort.

    Attributes:
        key: The table in the book.
        file: The exported file.
        meaning: What one row is.
        fields: In the order of the exported columns.
        row: What is made of a row of a record that is taken in; None where that is nothing.
    """

    key: str
    file: str
    meaning: str
    fields: tuple[Field, ...]
    row: type | None = None
