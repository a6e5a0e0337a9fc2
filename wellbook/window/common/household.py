"""What every page is handed: the open book, the reference data, and what day it is."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.values.catalogue import Catalogue


@dataclass(frozen=True, slots=True)
class Household:
    """An open book with the reference data it is read by.

    Attributes:
        catalogue: The reference data in the language of now.
        why_readonly: Why nothing can be written here; empty if it can.
        as_read: The reference data as it was read, for what is written in another language.
    """

    book: Book
    catalogue: Catalogue
    cautions: Cautions
    clock: Callable[[], date] = date.today
    why_readonly: str = ""
    as_read: Catalogue | None = None

    @property
    def untranslated(self) -> Catalogue:
        """The reference data as it was read: a packet and tables say it in their own language."""
        return self.as_read or self.catalogue

    @property
    def path(self) -> Path:
        """Where the book lies."""
        return self.book.path

    @property
    def today(self) -> date:
        """The day that everything is judged on."""
        return self.clock()
