"""What every page is handed: the open book, the reference data, and what day it is."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.verdicts.cautions import Cautions


@dataclass(frozen=True, slots=True)
class Household:
    """An open book with the reference data it is read by.

    Attributes:
        why_readonly: Why nothing can be written here; empty if it can.
    """

    book: Book
    catalogue: Catalogue
    cautions: Cautions
    clock: Callable[[], date] = date.today
    why_readonly: str = ""

    @property
    def path(self) -> Path:
        """Where the book lies."""
        return self.book.path

    @property
    def today(self) -> date:
        """The day that everything is judged on."""
        return self.clock()
