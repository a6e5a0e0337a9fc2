"""Where a draft comes from: a lab's file, or a table that was copied."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.intake import Draft, Order, read, read_pasted, review
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.jobs import Tell


@dataclass(frozen=True, slots=True)
class LabSource:
    """A file or a pasted text that can be read again, on another thread.

    Attributes:
        book: The book it may go to, opened anew to compare with its history.
        path: The file; None if `text` was pasted.
    """

    catalogue: Catalogue
    book: Book
    today: date
    path: Path | None
    text: str = ""

    def draft(self, order: Order, tell: Tell) -> Draft:
        """Read it, with everything odd said beside it.

        Raises:
            Fault: It can't be read, or holds no table of results.
        """
        tell(0, 2, "")
        if self.path is None:
            found = read_pasted(self.text, self.catalogue, order=order, today=self.today)
        else:
            found = read(self.path, self.catalogue, order=order, today=self.today)
        tell(1, 2, "")
        with self.book.again() as book:
            return review(found, self.catalogue, book)
