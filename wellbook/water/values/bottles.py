"""Which bottles a set of parameters is drawn in, and how each is filled, from `bottles.csv`."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from wellbook.water.values.results import Draw

FIRST_DRAW = Draw.FIRST


@dataclass(frozen=True, slots=True)
class Bottle:
    """A kind of bottle. The rules differ from bottle to bottle: that is why each has its own.

    Attributes:
        key: Stable key.
        name: What it looks like.
        serves: Keys of the parameters tested from it; in the file also `family:metals`.
        draw: `first draw`, or `flushed`.
        aerator: `on` or `off` while it is filled.
        before: What must have happened before.
        rinse: Whether and how it is rinsed.
        fill: How far.
        keep: How it is kept on the way.
        source: Who says so, and as of when.
    """

    key: str
    name: str
    serves: tuple[str, ...]
    draw: Draw
    aerator: Literal["on", "off"]
    before: str
    rinse: str
    fill: str
    keep: str
    source: str


Bottles: TypeAlias = "tuple[tuple[Bottle, tuple[str, ...]], ...]"  # each with its parameters


def bottles_for(
    parameters: Iterable[str], bottles: Sequence[Bottle], *, first_draw: bool
) -> Bottles:
    """The bottles that a set of parameters needs, in the order of filling, each with its share.

    A parameter goes into the first bottle of the list that serves it.
    """
    shares: dict[str, list[str]] = {}
    for parameter in dict.fromkeys(parameters):
        for bottle in bottles:
            if parameter in bottle.serves and (first_draw or bottle.draw != FIRST_DRAW):
                shares.setdefault(bottle.key, []).append(parameter)
                break
    return tuple((one, tuple(shares[one.key])) for one in bottles if one.key in shares)


def with_partners(found: Bottles, bottles: Sequence[Bottle]) -> Bottles:
    """The bottles, and what is drawn first once more in a flushed one.

    Only both together tell pipes from well: common practice, no source.
    """
    first = [key for bottle, keys in found if bottle.draw == FIRST_DRAW for key in keys]
    shares = {bottle.key: keys for bottle, keys in found}
    for bottle, keys in bottles_for(first, bottles, first_draw=False):
        shares[bottle.key] = tuple(dict.fromkeys((*keys, *shares.get(bottle.key, ()))))
    return tuple((one, shares[one.key]) for one in bottles if one.key in shares)
