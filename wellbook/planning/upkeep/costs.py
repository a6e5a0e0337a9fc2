"""What the household paid for its water, and the sums by year; each currency on its own."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import StrEnum

from wellbook.book.record import Record
from wellbook.planning.settings import currency
from wellbook.water.values.partial_date import read_partial_date


class PaidFor(StrEnum):
    """What money went to."""

    TESTS = "tests"
    UNITS = "treatment units"
    SERVICES = "services"
    EVENTS = "work at the well"
    OTHER = "other costs"


@dataclass(frozen=True, slots=True)
class Cost:
    """One sum that was paid.

    Attributes:
        paid_for: What it went to.
        day: ISO date, month or year; empty where none was entered.
        amount: Plain figure.
        currency: ISO 4217 code.
    """

    paid_for: PaidFor
    day: str
    amount: Decimal
    currency: str


@dataclass(frozen=True, slots=True)
class YearOfCosts:
    """The sum of a year in one currency.

    Attributes:
        year: None for what has no date.
        currency: ISO 4217 code.
        parts: What it is made of, by what it went to.
        n: How many sums were added.
    """

    year: int | None
    currency: str
    parts: dict[PaidFor, Decimal]
    n: int

    @property
    def total(self) -> Decimal:
        """All of it."""
        return sum(self.parts.values(), Decimal(0))


def costs(record: Record, today: date) -> tuple[Cost, ...]:
    """Every sum that was entered up to a day; what was struck out does not count."""
    found = []
    for paid_for, day, cost, code in _entered(record):
        known = read_partial_date(day)
        if cost and (known is None or known.first <= today):
            found.append(Cost(paid_for, day, Decimal(cost), code))
    return tuple(found)


def usual_currency(record: Record) -> str:
    """The code that the household chose, used for its latest sum, or that its place suggests."""
    chosen = record.settings.get("currency", "")
    latest = max(_entered(record), key=lambda row: (bool(row[2]), row[1]), default=None)
    return chosen or (latest[3] if latest else "") or currency(record.settings)


def by_year(record: Record, today: date) -> tuple[YearOfCosts, ...]:
    """The sums by year and currency, the latest year first, what has no date last."""
    groups: dict[tuple[int | None, str], list[Cost]] = {}
    for cost in costs(record, today):
        known = read_partial_date(cost.day)
        groups.setdefault((known.year if known else None, cost.currency), []).append(cost)
    made = [_sum(year, currency, members) for (year, currency), members in groups.items()]
    return tuple(sorted(made, key=lambda one: (-(one.year or 0), one.currency)))


def _sum(year: int | None, currency: str, members: list[Cost]) -> YearOfCosts:
    parts: dict[PaidFor, Decimal] = {}
    for cost in members:
        parts[cost.paid_for] = parts.get(cost.paid_for, Decimal(0)) + cost.amount
    return YearOfCosts(year, currency, parts, len(members))


def _entered(record: Record) -> Iterator[tuple[PaidFor, str, str, str]]:
    for sample in record.tests.paid():
        yield PaidFor.TESTS, str(sample.collected.day), sample.cost, sample.currency
    for unit in record.units:
        yield PaidFor.UNITS, unit.installed, unit.cost, unit.currency
    for service in record.services:
        yield PaidFor.SERVICES, service.day, service.cost, service.currency
    for event in record.events:
        yield PaidFor.EVENTS, event.day, event.cost, event.currency
    for expense in record.expenses:
        yield PaidFor.OTHER, expense.day, expense.cost, expense.currency
