"""A sample that was drawn before, or told of by telephone, and the report that comes later."""

from datetime import date
from decimal import Decimal

import pytest

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample
from wellbook.book.samples import denies, told_moment
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading

TOLD = frozenset({Flag.PRELIMINARY})
PRESENT = Reading("present", Kind.PRESENT, flags=TOLD)
ABSENT = Reading("absent", Kind.ABSENT)
DRAWN = LocalTime(date(2026, 3, 2))


def number(text, **more):
    return Reading(text, Kind.NUMBER, Decimal(text), "mg/L", **more)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        made.add_point(made.add_well("Home"), "Kitchen tap")
        made.add_sample(
            NewSample(
                1,
                DRAWN,
                awaited="ecoli iron lead",
                results=(
                    NewResult("ecoli", "E. coli", PRESENT),
                    NewResult("iron", "Iron", number("0.9", flags=TOLD)),
                ),
            )
        )
        yield made


def reported(book, *results, withdrawn=False):
    """Complete the sample; what then stands, by parameter."""
    book.complete_sample(1, NewSample(1, DRAWN, results=results), withdrawn=withdrawn)
    found = {}
    for result in book.results():
        found.setdefault(result.parameter, []).append(result.reading)
    return found


def test_a_finding_that_the_report_bears_out_stands_once_and_is_preliminary_no_more(book):
    found = reported(book, NewResult("iron", "Iron", number("0.95")))
    assert [(one.text, one.flags) for one in found["iron"]] == [("0.95", frozenset())]
    assert book.sample(1).awaited == "ecoli lead"


def test_a_finding_that_the_report_denies_stays_beside_it_unless_the_lab_withdrew_it(book):
    found = reported(book, NewResult("ecoli", "E. coli", ABSENT))
    assert [(one.text, one.flags) for one in found["ecoli"]] == [
        ("present", TOLD),
        ("absent", frozenset()),
    ]


def test_a_finding_that_the_lab_withdrew_is_rejected_and_what_it_did_not_deny_stands(book):
    found = reported(book, NewResult("ecoli", "E. coli", ABSENT), withdrawn=True)
    assert found["ecoli"][0].flags == TOLD | {Flag.REJECTED}
    assert found["iron"][0].flags == TOLD


def test_nothing_zero_and_less_than_deny_and_any_figure_does_not():
    below = Reading("<1", Kind.BELOW, Decimal(1), "mg/L")
    assert all(denies(one) for one in (ABSENT, below, number("0"), number("0.0")))
    assert not any(denies(one) for one in (PRESENT, number("1"), number("0.001")))


@pytest.mark.parametrize(
    ("known", "told"), [("year", "2019"), ("month", "2019-04"), ("", "2019-04-01")]
)
def test_the_journal_tells_no_day_that_nobody_knows(known, told):
    moment = told_moment({"collected": "2019-04-01", "known_to": known})
    assert moment == LocalTime.parse(told)
