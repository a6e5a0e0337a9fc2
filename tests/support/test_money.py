"""A cost is a plain figure with the ISO 4217 code of its currency; nothing is guessed."""

import pytest

from wellbook.support.errors import Fault
from wellbook.support.money import CURRENCIES, read_cost


@pytest.mark.parametrize(
    ("figure", "currency", "kept"),
    [
        ("85.50", "USD", ("85.50", "USD")),
        (" 85,5 ", "eur", ("85.5", "EUR")),
        ("85", " cad ", ("85", "CAD")),
        ("1.250", "BHD", ("1.250", "BHD")),  # a thousandth of a dinar: ISO 4217, three decimals
        ("", "USD", ("", "")),
        ("  ", "", ("", "")),
    ],
)
def test_a_cost_is_kept_with_the_digits_that_were_typed(figure, currency, kept):
    assert read_cost(figure, currency) == kept


@pytest.mark.parametrize(
    "figure", ["$85", "85 USD", "-5", "1,234", "1,234.50", "1e3", "٨٥", "8.5.0"]
)
def test_what_is_no_plain_figure_is_asked_for_anew(figure):
    with pytest.raises(Fault, match="can’t be read as a cost"):
        read_cost(figure, "USD")


@pytest.mark.parametrize("currency", ["", "$", "US", "DOLLARS", "U5D", "ÄÖÜ"])
def test_a_cost_without_the_code_of_a_currency_is_refused(currency):
    with pytest.raises(Fault, match="in which currency"):
        read_cost("85", currency)


def test_the_currencies_that_are_offered_can_be_kept():
    assert [read_cost("1", code)[1] for code in CURRENCIES] == list(CURRENCIES)
