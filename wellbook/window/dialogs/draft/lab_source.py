"""Where a draft comes from: a lab's file, or a table that was copied."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.intake import Draft, Locked, Order, read, read_pasted, review
from wellbook.intake.mending import as_remembered
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.jobs import Tell


@dataclass(frozen=True, slots=True)
class LabSource:
    """A file or a pasted text that can be read again, on another thread.

    Attributes:
        book: The book it may go to, opened anew to compare with its history.
        path: The file; None if `text` was pasted.
        password: With which a PDF opens.
    """

    catalogue: Catalogue
    book: Book
    today: date
    path: Path | None
    text: str = ""
    password: str = ""

    def unlocked(self, order: Order, tell: Tell) -> Draft | None:
        """As `draft`; None where the file opens with another password only."""
        try:
            return self.draft(order, tell)
        except Locked:
            return None

    def draft(self, order: Order, tell: Tell) -> Draft:
        """Read it, with everything odd said beside it.

        Raises:
            Locked: It opens with a password only.
            Fault: It can't be read, or holds no table of results.
        """
        tell(0, 2, "")
        with self.book.again() as book:
            told = {"country": book.setting("country"), "dates": book.setting("dates")}
            if self.path is None:
                found = read_pasted(
                    self.text, self.catalogue, order=order, today=self.today, **told
                )
            else:
                found = read(
                    self.path,
                    self.catalogue,
                    order=order,
                    today=self.today,
                    password=self.password,
                    **told,
                )
            tell(1, 2, "")
            return review(as_remembered(found, book, self.catalogue), self.catalogue, book)
