"""How old a test is on a day, and what lenders and programmes usually ask of it at a sale.

Information, never a promise: whoever lends or signs decides, and rules change.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from pathlib import Path

from wellbook.support.csv_rows import PhraseSet, read_rows
from wellbook.water.values.seasons import add_months


class Age(StrEnum):
    """How the age of a test stands to a rule."""

    YOUNG = "young enough"
    ASK = "ask"
    OLD = "too old"
    OPEN = "no age given"
    LATER = "drawn later"


class Drawer(StrEnum):
    """Whether a rule accepts who drew a sample."""

    ACCEPTED = "accepted"
    REFUSED = "not accepted"
    ASK = "ask"


@dataclass(frozen=True, slots=True)
class SaleRule:
    """What a lender or a state usually asks of a test at a sale.

    Attributes:
        key: Stable key.
        places: Codes of ISO 3166 of the countries or parts of them where it holds; none for all.
        name: Plain name.
        parameters: Keys of what is usually tested for it.
        days: A test up to so many days old is taken; None if no number is given.
        most_days: Up to so many days some take it; None if the rule is one number.
        months: A test up to so many calendar months old is taken.
        drawn_by: Standings of samplers that are accepted; empty if nothing is said.
        water: `raw` if it must be drawn before treatment, or empty.
        says: What else a reader must know.
        source: Who says so.
        read: Day on which that was read.
    """

    key: str
    places: tuple[str, ...]
    name: str
    parameters: tuple[str, ...]
    days: int | None
    most_days: int | None
    months: int | None
    drawn_by: PhraseSet
    water: str
    says: str
    source: str
    read: date

    def holds_in(self, country: str, state: str) -> bool:
        """Whether it holds in a state of a country, or, without a state, in one of them."""
        if not self.places or country in self.places or f"{country}-{state}" in self.places:
            return True
        return not state and any(place.startswith(f"{country}-") for place in self.places)

    def age(self, drawn: date, on: date) -> Age:
        """How old a test is to this rule on a day, counted from the day it was drawn."""
        if drawn > on:
            return Age.LATER
        if self.months is not None:
            return Age.YOUNG if on <= add_months(drawn, self.months) else Age.OLD
        if self.days is None:
            return Age.OPEN
        days = (on - drawn).days
        if days <= self.days:
            return Age.YOUNG
        return Age.ASK if self.most_days is not None and days <= self.most_days else Age.OLD

    def drawer(self, standing: str) -> Drawer:
        """Whether a sampler of that standing is accepted; what is not known is to be asked."""
        if not self.drawn_by or not standing:
            return Drawer.ASK
        return Drawer.ACCEPTED if standing in self.drawn_by else Drawer.REFUSED


def read_sale_rules(path: Path) -> tuple[SaleRule, ...]:
    """The rules of a file, in its order.

    Raises:
        OSError: The file is missing or can't be read.
        ValueError: A row makes no sense; the text names it.
    """
    return tuple(read_rows(path, SaleRule))
