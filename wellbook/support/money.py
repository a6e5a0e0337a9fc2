"""Sums of money as people type them: a plain figure, and the ISO 4217 code of its currency."""

import re

from wellbook.support.errors import Fault
from wellbook.support.translation import _

_FIGURE = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,4}|,[0-9]{1,2})?")
_CODE = re.compile(r"[A-Z]{3}")
CURRENCIES = ("USD", "CAD", "MXN", "EUR", "GBP")  # offered; any code can be typed


def read_cost(figure: str, currency: str) -> tuple[str, str]:
    """A cost as it is kept: a figure with a point, and a code; both empty where none was typed.

    Raises:
        Fault: It is no plain figure, or its currency is not named by its code.
    """
    figure, code = figure.strip(), currency.strip().upper()
    if not figure:
        return "", ""
    if not _FIGURE.fullmatch(figure):
        raise Fault(
            _(
                "{figure} can’t be read as a cost: enter a plain figure such as 85 or 85.50, "
                "without a sign and without marks between the thousands."
            ).format(figure=figure)
        )
    if not _CODE.fullmatch(code):
        raise Fault(_("Say in which currency the cost is: three letters, such as USD, CAD or EUR."))
    return figure.replace(",", "."), code
