"""What a person chooses for a packet."""

from dataclasses import dataclass
from datetime import date

from wellbook.sandbox import process
from wellbook.sharing.excerpt import Scope
from wellbook.support.translation import ENGLISH
from wellbook.water.values.unit_choices import USUAL

AUDIENCES = ("buyer", "consultant")
PAPERS = ("letter", "a4")
EVERYTHING = Scope()


@dataclass(frozen=True, slots=True)
class PacketOptions:
    """What a person chooses for a packet.

    Attributes:
        audience: `buyer`, in plain words, or `consultant`, with all technical data.
        paper: `letter` or `a4`.
        with_personal: Whether private events and fields declared as personal are shown.
        with_originals: Whether the book's documents are attached; they can show names and
            addresses, so `None` is to attach them only where those are shown anyway.
        append_originals: Whether the pages of the book's PDF documents come at the end.
        all_originals: Whether documents and pages also go along that show words marked as
            personal or can't be searched for them; where personal facts are shown they do.
        scope: Which wells, points, parameters and days.
        closing: The day of a sale, on which the age of each test is told.
        language: Tag of the language of the pages; the attached tables stay as they are.
        units: Key of the choice of units in which figures are shown beside the reported ones.
        shown: Private words that the household lets be shown all the same.
        patience: Seconds of the processor that one original may take to be read.

    Raises:
        ValueError: There is no such audience or paper.
    """

    audience: str
    paper: str = "letter"
    with_personal: bool = False
    with_originals: bool | None = None
    append_originals: bool = False
    all_originals: bool = False
    scope: Scope = EVERYTHING
    closing: date | None = None
    language: str = ENGLISH.key
    units: str = USUAL
    shown: tuple[str, ...] = ()
    patience: float = process.SECONDS

    def __post_init__(self) -> None:
        if self.audience not in AUDIENCES or self.paper not in PAPERS:
            raise ValueError(f"no audience {self.audience!r} or paper {self.paper!r}")

    @property
    def is_technical(self) -> bool:
        """Whether the reader is a consultant."""
        return self.audience == "consultant"

    @property
    def is_whole(self) -> bool:
        """Whether nothing is left out."""
        return self.scope == EVERYTHING

    @property
    def originals(self) -> bool:
        """Whether the book's documents are attached."""
        return self.with_personal if self.with_originals is None else self.with_originals
