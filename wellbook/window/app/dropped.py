"""What files that are dropped on the window are: books, packets, or for the book that is open."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from wellbook.support.translation import _


@dataclass(frozen=True, slots=True)
class Dropped:
    """Files by what is done with them, each in the order of the drop."""

    books: tuple[Path, ...]
    packets: tuple[Path, ...]
    files: tuple[Path, ...]

    @classmethod
    def of(cls, paths: Sequence[Path]) -> Self:
        """Tell books and packets from lab files and documents."""
        from wellbook.packet.receive.packet_file import may_be_packet

        books = tuple(path for path in paths if path.suffix == ".wellbook")
        packets = tuple(path for path in paths if path not in books and may_be_packet(path))
        files = tuple(path for path in paths if path not in books and path not in packets)
        return cls(books, packets, files)

    @property
    def others(self) -> tuple[Path, ...]:
        """All but the first book, which is opened."""
        return (*self.books[1:], *self.packets, *self.files)


def names(paths: Sequence[Path]) -> str:
    """The files' names in a row."""
    return ", ".join(path.name for path in paths)


def one_by_one(packets: Sequence[Path]) -> str:
    """What is said where packets were dropped among other files."""
    said = _("Histories are taken in one by one; drop each alone: {names}.")
    return said.format(names=names(packets))
