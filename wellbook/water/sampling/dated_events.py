"""What happened to a well and its house, with the days between which it did."""

import calendar as gregorian
from dataclasses import dataclass
from datetime import date

_DAY, _MONTH, _YEAR = len("2024-05-03"), len("2024-05"), len("2024")
_LAST_MONTH = 12


@dataclass(frozen=True, slots=True)
class Happening:
    """Something that may ask for a test.

    Attributes:
        key: What tells it from others in its book, e.g. `event 12`.
        kind: Kind of the event, or `unit installed`, `unit serviced`, `unit in use`.
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
        return len(self.day) < _DAY


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
    began, ended = days_of(day), days_of(until or day)
    if began is None or ended is None:
        return None
    return Happening(
        key, kind, day, began[0], max(began[0], ended[1]), text, private, targets, name
    )


def days_of(text: str) -> tuple[date, date] | None:
    """First and last day that an ISO day, month or year may mean; None if it is none."""
    try:
        if len(text) == _DAY:
            day = date.fromisoformat(text)
            return day, day
        if len(text) == _MONTH:
            first = date.fromisoformat(f"{text}-01")
            return first, first.replace(day=gregorian.monthrange(first.year, first.month)[1])
        if len(text) == _YEAR:
            return date(int(text), 1, 1), date(int(text), _LAST_MONTH, 31)
    except ValueError:
        return None
    return None
