"""The three-field diagram of Piper: where a water lies between the kinds of salts.

Cations in the left triangle, anions in the right one, both projected into the diamond above them
(A. M. Piper, Transactions of the American Geophysical Union 25, 1944; from memory). Lengths are in
sides of a triangle.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from wellbook.support.translation import ngettext
from wellbook.water.chemistry.major_ions import Majors

HEIGHT = math.sqrt(3) / 2
GAP = 0.24  # between the triangles
WIDE, HIGH = 2 + GAP, HEIGHT * (2 + GAP)
MOST_UNSURE = 5.0  # percent; with more hidden in non-detects a place would be a guess
_NITRATE_TOLD = 5.0  # percent of the anions

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Water:
    """One sample to be placed.

    Attributes:
        label: How it is called in the packet, e.g. `7`.
        treated: Whether it was drawn after treatment.
        latest: Whether it is the latest of its point.
        majors: Its main ions.
    """

    label: str
    treated: bool
    latest: bool
    majors: Majors


@dataclass(frozen=True, slots=True)
class Placed:
    """A sample in the three fields."""

    label: str
    treated: bool
    latest: bool
    cation: Spot
    anion: Spot
    both: Spot


@dataclass(frozen=True, slots=True)
class Piper:
    """The diagram of several samples, with what must be said beside it."""

    placed: tuple[Placed, ...]
    sentence: str


def piper(waters: Sequence[Water]) -> Piper:
    """Describe the diagram; samples whose non-detects hide too much are told, not placed."""
    clear = [one for one in waters if one.majors.unsure <= MOST_UNSURE]
    placed = [_place(one) for one in clear]
    return Piper(tuple(placed), _sentence(clear, len(waters) - len(clear)))


def cation_spot(calcium: float, magnesium: float, sodium_potassium: float) -> Spot:
    """Place in the left triangle; percent."""
    whole = calcium + magnesium + sodium_potassium
    return (sodium_potassium + magnesium / 2) / whole, HEIGHT * magnesium / whole


def anion_spot(chloride: float, sulfate: float, bicarbonate: float) -> Spot:
    """Place in the right triangle; percent."""
    whole = chloride + sulfate + bicarbonate
    return 1 + GAP + (chloride + sulfate / 2) / whole, HEIGHT * sulfate / whole


def diamond_spot(cation: Spot, anion: Spot) -> Spot:
    """Where the lines along the sides of the two triangles meet."""
    steep = math.sqrt(3)
    x = (steep * (cation[0] + anion[0]) + anion[1] - cation[1]) / (2 * steep)
    return x, cation[1] + steep * (x - cation[0])


def _place(one: Water) -> Placed:
    cation, anion = cation_spot(*one.majors.cations), anion_spot(*one.majors.anions)
    return Placed(one.label, one.treated, one.latest, cation, anion, diamond_spot(cation, anion))


def _sentence(shown: Sequence[Water], hidden: int) -> str:
    said = [
        ngettext(
            "{n:,} sample with all main ions, in percent of meq/L.",
            "{n:,} samples with all main ions, in percent of meq/L.",
            len(shown),
        ).format(n=len(shown))
    ]
    rich = [one.label for one in shown if one.majors.beside > _NITRATE_TOLD]
    if rich:
        said.append(
            ngettext(
                "Nitrate, which has no place here, is over {percent:.0f} % of the anions in {n:,} "
                "sample.",
                "Nitrate, which has no place here, is over {percent:.0f} % of the anions in {n:,} "
                "samples.",
                len(rich),
            ).format(
                n=len(rich),
                percent=_NITRATE_TOLD,
            )
        )
    if hidden:
        said.append(
            ngettext(
                "Left out because non-detects hide too much: {n:,} sample.",
                "Left out because non-detects hide too much: {n:,} samples.",
                hidden,
            ).format(n=hidden)
        )
    return " ".join(said)
