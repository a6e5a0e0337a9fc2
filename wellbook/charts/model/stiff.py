"""The shapes of Stiff: cations to the left, anions to the right, in meq/L.

Waters of one kind have shapes of one kind, stronger waters wider ones (H. A. Stiff, Journal of
Petroleum Technology 3, 1951; from memory).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wellbook.water.chemistry.major_ions import Majors

ROWS = (("Na + K", "Cl"), ("Ca", "HCO₃"), ("Mg", "SO₄"))
_ROUND = (1, 2, 5, 10)


@dataclass(frozen=True, slots=True)
class Shape:
    """One sample: its three cations and three anions from above, meq/L."""

    title: str
    where: str
    cations: tuple[float, float, float]
    anions: tuple[float, float, float]

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """The outline, from the upper left down and round; rows lie at 2, 1 and 0."""
        left = [(-value, 2.0 - row) for row, value in enumerate(self.cations)]
        right = [(value, 2.0 - row) for row, value in enumerate(self.anions)]
        return (*left, *reversed(right))


@dataclass(frozen=True, slots=True)
class Stiff:
    """Several shapes on one scale; `reach` is the round figure at its ends, meq/L."""

    shapes: tuple[Shape, ...]
    reach: float


def stiff(waters: Sequence[tuple[str, str, Majors]]) -> Stiff:
    """Describe the shapes of samples, each with its title and the name of its point."""
    shapes = tuple(
        Shape(
            title,
            where,
            (one.sodium_potassium, one.calcium, one.magnesium),
            (one.chloride, one.bicarbonate, one.sulfate),
        )
        for title, where, one in waters
    )
    most = max((value for one in shapes for value in (*one.cations, *one.anions)), default=1.0)
    power = 10.0 ** math.floor(math.log10(most))
    return Stiff(shapes, next(step * power for step in _ROUND if step * power >= most))
