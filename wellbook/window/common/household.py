"""What every page is handed: the open book, the reference data, and what day it is."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import date
from functools import partial
from pathlib import Path

from wellbook.book import Book
from wellbook.book.record import Record
from wellbook.support.watched_books import AT_SIGN_IN, SETTING
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.sampling.upkeep import Upkeep
from wellbook.water.values.catalogue import Catalogue
from wellbook.window.common.jobs import Answer, Tell, apart


class RecordReader:
    """Reads the record of an open book, anew only when the book was written to since.

    Attributes:
        is_lent: Whether another thread has the book; until it is given back, nothing else asks it.
    """

    def __init__(self, book: Book) -> None:
        self._book = book
        self._record: Record | None = None
        self._outline: Record | None = None
        self.is_lent = False

    def read(self) -> Record:
        """The record with its tests in memory: any thread may go through it."""
        if self._record is not None and self.is_lent:
            return self._record
        return self.load()

    def load(self) -> Record:
        """As `read`, by the thread that has the book."""
        if self._record is None or not self._is_as_now(self._record):
            self._record = self.load_outline().loaded()
        return self._record

    @property
    def is_loaded(self) -> bool:
        """Whether the tests are in memory: as they are now, or as they were when it was lent."""
        return self._record is not None and (self.is_lent or self._is_as_now(self._record))

    def _is_as_now(self, record: Record) -> bool:
        return record.digest == self._book.digest()

    def outline(self) -> Record:
        """The record with its tests in the open book: for a first look, on this thread alone."""
        known = self._record or self._outline
        return known if known is not None and self.is_lent else self.load_outline()

    def load_outline(self) -> Record:
        """As `outline`, by the thread that has the book."""
        if self._outline is None or self._outline.digest != self._book.digest():
            self._outline = self._book.record()
        return self._outline

    @contextmanager
    def lent(self) -> Iterator[None]:
        """Lend the book to another thread."""
        self.is_lent = True
        try:
            yield
        finally:
            self.is_lent = False


@dataclass(frozen=True, slots=True)
class Household:
    """An open book with the reference data it is read by.

    Attributes:
        reader: Reads the book's record.
        catalogue: The reference data in the language of now.
        why_readonly: Why nothing can be written here; empty if it can.
        as_read: The reference data as it was read, for what is written in another language.
        upkeep: What is known of upkeep, in the language of now.
    """

    book: Book
    reader: RecordReader
    catalogue: Catalogue
    cautions: Cautions
    clock: Callable[[], date] = date.today
    why_readonly: str = ""
    as_read: Catalogue | None = None
    upkeep: Upkeep = field(default_factory=Upkeep)

    @property
    def record(self) -> Record:
        """What the book holds now, as values; jobs on other threads take them from here."""
        return self.reader.read()

    @property
    def outline(self) -> Record:
        """What the book holds now apart from its tests, without waiting for them."""
        return self.reader.outline()

    def apart(self, work: Callable[[], Answer]) -> Answer:
        """Read or write the open book on another thread; the window goes on painting meanwhile.

        Raises:
            Exception: What the work raised.
        """
        if self.reader.is_lent:
            raise AssertionError("the book is with another thread already")
        with self.reader.lent():
            return apart(work)

    def export(self, folder: Path, tell: Tell) -> list[Path]:
        """Write everything as open tables, from another thread; the book is opened once more.

        Stopping before they lie there leaves what was there.

        Raises:
            Fault: The folder can't be written.
        """
        from wellbook.export.open_tables import export

        with self.book.again() as same:
            record, stop = same.record(), partial(tell, 0, 0, "")
            return export(record, self.untranslated, folder, check_cancelled=stop)

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


def remind_at_sign_in(household: Household, *, wanted: bool) -> None:
    """Have this computer look at the book at sign-in, or no more; the book remembers it.

    Raises:
        Fault: What runs at sign-in, or the book, can't be written.
    """
    from wellbook.support import sign_in

    book = household.book
    if wanted:
        sign_in.switch_on(book.path, book.identity())
    else:
        sign_in.switch_off(book.path, book.identity())
    kept = AT_SIGN_IN if wanted else ""
    if not book.is_readonly and book.setting(SETTING) != kept:
        book.set_setting(SETTING, kept)
