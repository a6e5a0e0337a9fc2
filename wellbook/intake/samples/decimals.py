"""Whether a comma in a file's numbers is a decimal mark, by the numbers that allow only one."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

COMMA = "comma"
_NUMBER = re.compile(r"^[<>≤≥~=\s]*[-+]?(\d[\d.,]*)")
_COMMA_IS_DECIMAL = re.compile(
    r"^(0\d*,\d+|\d+,\d{1,2}|\d+,\d{4,}|\d{1,3}(\.\d{3})+,\d*|\d{4,},\d+)$"
)
_POINT_IS_DECIMAL = re.compile(
    r"^(0?\d*\.\d{1,2}|0\.\d+|\d+\.\d{4,}|\d{1,3}(,\d{3})+\.\d*|\d{4,}\.\d+)$"
)
_OPEN = re.compile(r"^[1-9]\d{0,2},\d{3}$")


@dataclass(frozen=True, slots=True)
class Commas:
    """What a comma means in the numbers of a file.

    Attributes:
        are_decimal: Whether it is taken for the decimal mark.
        open: A number that can be read both ways, where no other number decides; or empty.
        clash: A number that speaks against the others; or empty.
    """

    are_decimal: bool = False
    open: str = ""
    clash: str = ""


def commas(texts: Iterable[str], usual: str = "") -> Commas:
    """What a comma means, from the distinct results and limits of one file.

    Args:
        texts: The results and limits.
        usual: What the household's labs write, `comma` or `point`; it decides where they don't,
            and leaves them open all the same.
    """
    numbers = [found[1].rstrip(".,") for text in texts if (found := _NUMBER.match(text))]
    decimal = next((n for n in numbers if "," in n and _COMMA_IS_DECIMAL.match(n)), "")
    point = next((n for n in numbers if "." in n and _POINT_IS_DECIMAL.match(n)), "")
    either = next((n for n in numbers if _OPEN.match(n)), "")
    if decimal:
        return Commas(are_decimal=True, clash=point)
    is_open = bool(either) and not point
    return Commas(are_decimal=is_open and usual == COMMA, open=either if is_open else "")
