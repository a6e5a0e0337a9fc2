"""What comes out of a lab file before it goes into the book."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import NamedTuple

from wellbook.book.rows import NewSample
from wellbook.intake.files.sheets import Place, Sheet
from wellbook.intake.tables.tables import NotTaken
from wellbook.intake.words.dates import Order
from wellbook.water.values.findings import Finding, Severity

NO_DAY = date.min  # stands in a draft for a sampling day that the file doesn't tell
WHICH_COLUMNS = "which_columns"  # key of the finding that no column is told to be the water
ORDER_ASKED = "date_order"  # key of the finding that nothing tells how dates are to be read
ACCREDITED = "accreditation"  # key of the finding that the file prints the lab's accreditation
ORDER_ASSUMED = {Order.MONTH_FIRST: "date_month_first", Order.DAY_FIRST: "date_day_first"}


class Mark(NamedTuple):  # one for each of 100,000 rows: made in half the time of a dataclass
    """Where a reading stands in its file, and what is doubted about it.

    Attributes:
        place: Its cell, or its box on a page.
        doubts: Keys of the questions about it; none if it is certain.
    """

    place: Place
    doubts: tuple[str, ...] = ()

    @property
    def is_certain(self) -> bool:
        """Whether nothing about the reading is asked."""
        return not self.doubts


@dataclass(frozen=True, slots=True)
class DraftSample:
    """One sample as the file tells it, for a person to review.

    Attributes:
        point_name: Sampling point as printed, or empty; `sample.point` is 0 until it is stored.
        sample: The sample with its results and, as document, the whole file.
        findings: What is odd about this sample alone.
        marks: Place and doubts of each of its results, in their order.
    """

    point_name: str
    sample: NewSample
    findings: tuple[Finding, ...] = ()
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Draft:
    """All samples of one file and what is odd about them.

    Attributes:
        source: The file.
        samples: In the order of the file.
        findings: What is odd about the file; those of one sample stand beside it.
        not_taken: Every figure of the file of which no result was made, with place and reason.
        sheets: The cells of the file, to be shown beside what was made of them; a page has none.
        accreditation: The lab's, as the file prints it or a person said; or empty.
        headings: The words over the columns of its table, by which the layouts of files that name
            no lab are told apart; empty without any.
    """

    source: Path
    samples: tuple[DraftSample, ...]
    findings: tuple[Finding, ...] = ()
    not_taken: tuple[NotTaken, ...] = ()
    sheets: tuple[Sheet, ...] = ()
    accreditation: str = ""
    headings: str = ""

    @property
    def lab(self) -> str:
        """The lab of all its samples; empty if there are several, or none is named."""
        labs = {sample.sample.lab.strip() for sample in self.samples}
        return labs.pop() if len(labs) == 1 else ""

    @property
    def taken(self) -> int:
        """How many figures of the file became results."""
        return sum(bool(r.reading.text.strip()) for s in self.samples for r in s.sample.results)

    @property
    def figures(self) -> int:
        """How many figures the file holds that are, or may be, results of the household's water."""
        return self.taken + sum(not left.is_aside for left in self.not_taken)

    @property
    def open_order(self) -> Order:
        """How dates were read that can be read in two ways; UNKNOWN where there are none."""
        found = {finding.key for finding in self.findings}
        if ORDER_ASKED in found:
            return Order.MONTH_FIRST
        assumed = (order for order, key in ORDER_ASSUMED.items() if key in found)
        return next(assumed, Order.UNKNOWN)

    @property
    def stops(self) -> tuple[Finding, ...]:
        """The findings with which the draft can't be stored."""
        every = (*self.findings, *(f for sample in self.samples for f in sample.findings))
        return tuple(finding for finding in every if finding.severity is Severity.STOP)


@dataclass(frozen=True, slots=True)
class Stored:
    """What `store` did.

    Attributes:
        ids: Numbers of the new samples in the book.
        places: `(well, point)` names where they were put, each once.
        made: Those of `places` that were made for them.
        skipped: Samples of the file that were in the book already, word for word.
        added: Readings that were added to tests of the book.
        corrected: Readings of those that were corrected.
    """

    ids: tuple[int, ...]
    places: tuple[tuple[str, str], ...]
    made: tuple[tuple[str, str], ...] = ()
    skipped: int = 0
    added: int = 0
    corrected: int = 0
