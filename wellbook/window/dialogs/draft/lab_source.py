"""Where a draft comes from: a lab's file, or a table that was copied."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

from wellbook.book import Book
from wellbook.intake import (
    Draft,
    Locked,
    Order,
    PagePicture,
    Place,
    page_of_file,
    read,
    read_pasted,
    review,
)
from wellbook.intake.decisions import as_remembered, read_as_decided
from wellbook.planning.settings import of_files
from wellbook.sandbox.process import ended_by
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.jobs import Tell

MOST = 500  # files at once; our own bound


@dataclass(frozen=True, slots=True)
class LabSource:
    """A file or a pasted text that can be read again, on another thread.

    Attributes:
        book: The book it may go to, opened anew to compare with its history.
        path: The file; None if `text` was pasted.
        password: With which a PDF opens.
        order: What comes first in its dates, if a person said so.
        columns: Headings of which a person said that they are samples of their water.
    """

    catalogue: Catalogue
    book: Book
    today: date
    path: Path | None
    text: str = ""
    password: str = ""
    order: Order = Order.UNKNOWN
    columns: Mapping[str, bool] = field(default_factory=dict)

    @property
    def name(self) -> str:
        """What it is called."""
        return self.path.name if self.path else _("what was copied")

    def unlocked(self, tell: Tell) -> Draft | None:
        """As `draft`; None where the file opens with another password only."""
        try:
            return self.draft(tell)
        except Locked:
            return None

    def draft(self, tell: Tell) -> Draft:
        """Read it, with everything odd said beside it.

        Raises:
            Locked: It opens with a password only.
            Fault: It can't be read, or holds no table of results.
        """
        tell(0, 2, "")
        with self.book.again() as book, ended_by(partial(tell, 0, 2, "")):
            told = of_files(book.setting)

            def by(order: Order, columns: Mapping[str, bool]) -> Draft:
                return self._read({**told, "columns": columns}, order, tell)

            if self.order or self.columns:
                found = as_remembered(by(self.order, self.columns), book, self.catalogue)
            else:
                found = read_as_decided(book, self.catalogue, by)
            tell(1, 2, "")
            return review(found, self.catalogue, book)

    def _read(self, told: Mapping[str, Any], order: Order, tell: Tell) -> Draft:
        def watch(read: int, count: int) -> None:
            said = _("page {n} of {count}").format(n=read + 1, count=count) if count else ""
            tell(read, count, said)

        today, known = self.today, self.catalogue
        if self.path is None:
            return read_pasted(self.text, known, order=order, today=today, **told)
        return read(
            self.path,
            known,
            order=order,
            today=today,
            watch=watch,
            password=self.password,
            **told,
        )

    def page(self, place: Place, tell: Tell) -> PagePicture:
        """Draw the page on which something stands.

        Raises:
            Fault: It can't be drawn.
        """
        tell(0, 1, "")
        return page_of_file(self.path, place, self.password)


def files_of(paths: Iterable[Path]) -> Iterator[Path]:
    """The files, and those in the folders; what a system hides is left out.

    Raises:
        Fault: A folder holds too many.
    """
    for path in paths:
        if not path.is_dir():
            yield path
            continue
        inside = sorted(one for one in path.rglob("*") if one.is_file() and one.name[0] != ".")
        if not inside or len(inside) > MOST:
            said = _("{path} holds {n} files; name a folder with 1 to {most} lab files.")
            raise Fault(said.format(path=path, n=len(inside), most=MOST))
        yield from inside
