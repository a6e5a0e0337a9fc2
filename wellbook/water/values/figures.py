"""Figures of statistics as people read them."""

from decimal import Decimal


def plain(figure: float, digits: int = 2) -> str:
    """A figure to so many significant digits, without exponent and idle zeros."""
    text = f"{Decimal(f'{figure:.{digits}g}'):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def chance(p: float) -> str:
    """A probability, e.g. `p = 0.03`; below one in a thousand only that it is below."""
    return "p < 0.001" if p < 0.001 else f"p = {plain(p)}"  # noqa: PLR2004  stated above


def count(number: int, one: str, many: str) -> str:
    """A number with its noun: `1 test`, `7 tests`."""
    return f"{number} {one if number == 1 else many}"
