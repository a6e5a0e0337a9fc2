"""The reference data that the window hands down: catalogue, cautions, upkeep."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from wellbook.book import Book
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.cautions.cautions import Cautions, read_cautions
from wellbook.water.sampling.upkeep import Upkeep, read_upkeep
from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.window.common.household import Household, RecordReader
from wellbook.wording.reference import worded, worded_cautions, worded_upkeep


@dataclass(frozen=True, slots=True)
class Reference:
    """What is read once at the start and never changes."""

    catalogue: Catalogue
    cautions: Cautions
    upkeep: Upkeep = field(default_factory=Upkeep)

    def household(self, book: Book, clock: Callable[[], date], why_readonly: str) -> Household:
        """An open book with what it is read by, in the language of now."""
        return self.worded_anew(
            Household(book, RecordReader(book), self.catalogue, self.cautions, clock, why_readonly)
        )

    def worded_anew(self, household: Household) -> Household:
        """The same open book, lent and read as before, in the language of now."""
        return replace(
            household,
            catalogue=worded(self.catalogue),
            cautions=worded_cautions(self.cautions),
            as_read=self.catalogue,
            upkeep=worded_upkeep(self.upkeep),
        )


def read_reference(folder: Path) -> Reference:
    """Read the reference data.

    Raises:
        Fault: A file is missing or makes no sense.
    """
    try:
        cautions = read_cautions(folder / "cautions.toml")
        return Reference(read_catalogue(folder), cautions, read_upkeep(folder))
    except (OSError, ValueError) as error:
        raise Fault(
            _("The reference data in {folder} can’t be read: {error}.").format(
                folder=folder, error=error
            )
        ) from error
