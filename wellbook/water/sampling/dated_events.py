"""What happened to a well and its house, with the days between which it did."""

from dataclasses import dataclass
from datetime import date

from wellbook.water.values.partial_date import read_partial_date


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that may ask for a test.

    Attributes:
        key: What tells it from others in its book, e.g. `event 12`.
        kind: Kind of the event; or `unit installed`, `unit serviced`, `unit failed`, `unit in
            use`; or, with the line of the checklist as its text, `found bad`, `put right`.
        day: When it began, as written: an ISO day, month or year.
        first: First day on which it may have happened.
        last: Last day of it, or on which it may have ended.
        text: What was written beside it.
        private: Whether it tells of a person.
        targets: Keys of the parameters it is about, for a treatment unit.
        name: What it is called if not by its day, for a treatment unit.
    """

    key: str
    kind: str
    day: str
    first: date
    last: date
    text: str = ""
    private: bool = False
    targets: tuple[str, ...] = ()
    name: str = ""

    @property
    def is_vague(self) -> bool:
        """Whether its day is not known."""
        day = read_partial_date(self.day)
        return day is None or day.is_vague


def happening(  # noqa: PLR0913  each is a fact of it
    key: str,
    kind: str,
    day: str,
    *,
    until: str = "",
    text: str = "",
    private: bool = False,
    targets: tuple[str, ...] = (),
    name: str = "",
) -> Happening | None:
    """A happening from its written days; None if they can't be read."""
    began, ended = read_partial_date(day), read_partial_date(until or day)
    if began is None or ended is None:
        return None
    first, last = began.first, max(began.first, ended.last)
    return Happening(key, kind, day, first, last, text, private, targets, name)
