"""The cheapest order at a lab that covers everything that is due."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

_NOTHING = Decimal(0)
_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Offer:
    """What a lab sells for one price: a package of tests, or a single test.

    Attributes:
        name: As the lab's price list prints it.
        price: In the currency of the list; never negative.
        parameters: Keys of the parameters it measures.
    """

    name: str
    price: Decimal
    parameters: frozenset[str]


@dataclass(frozen=True, slots=True)
class Order:
    """What to order.

    Attributes:
        offers: What to order, in the order of the price list.
        price: Their sum, without shipping.
        extra: Parameters that come along and were not asked for.
        missing: Parameters asked for that nothing in the list measures.
    """

    offers: tuple[Offer, ...]
    price: Decimal
    extra: frozenset[str]
    missing: frozenset[str]


def cheapest(wanted: Iterable[str], offers: Sequence[Offer]) -> Order:
    """The cheapest set of offers that measures everything wanted that the lab can measure.

    The answer is exact: parameters that the same offers measure are counted as one, offers that
    another one replaces for no more money are left out, and what remains is searched with a bound.
    Of two orders of one price the one with fewer offers is taken, then the one with more extra.

    Args:
        wanted: Keys of the parameters that are due.
        offers: The lab's price list.
    """
    asked = frozenset(wanted)
    sold = frozenset().union(*(offer.parameters for offer in offers))
    useful = _undominated(offers, asked)
    best = _search(asked & sold, useful)
    taken = tuple(offer for offer in offers if any(offer is one for one in best))
    measured = frozenset().union(*(offer.parameters for offer in taken))
    price = sum((offer.price for offer in taken), _NOTHING)
    return Order(taken, price, measured - asked, asked - sold)


def _undominated(offers: Sequence[Offer], asked: frozenset[str]) -> tuple[Offer, ...]:
    """Offers that no other one replaces: as much of what is asked for, for no more money."""
    kept: list[Offer] = []
    for offer in sorted(offers, key=_by_price_and_size):
        covers = offer.parameters & asked
        if covers and not any(covers <= other.parameters for other in kept):
            kept.append(offer)
    return tuple(kept)


def _by_price_and_size(offer: Offer) -> tuple[Decimal, int]:
    return offer.price, -len(offer.parameters)


def _search(asked: frozenset[str], offers: Sequence[Offer]) -> tuple[Offer, ...]:
    """Depth first over the parameter that fewest offers measure, cut by a lower bound."""
    best: tuple[tuple[Decimal, int, int], tuple[Offer, ...]] | None = None

    def rank(chosen: tuple[Offer, ...]) -> tuple[Decimal, int, int]:
        extra = frozenset().union(*(offer.parameters for offer in chosen)) - asked
        return sum((offer.price for offer in chosen), _NOTHING), len(chosen), -len(extra)

    def go(left: frozenset[str], chosen: tuple[Offer, ...]) -> None:
        nonlocal best
        if not left:
            found = (rank(chosen), chosen)
            best = min(best, found, key=lambda one: one[0]) if best else found
            return
        spent = sum((offer.price for offer in chosen), _NOTHING)
        # A share of a price is rounded in its last digit; a cent is far above that.
        if best and spent + _bound(left, offers) > best[0][0] + _CENT:
            return
        for offer in _who_measures_the_rarest(left, offers):
            go(left - offer.parameters, (*chosen, offer))

    go(asked, ())
    return best[1] if best else ()


def _bound(left: frozenset[str], offers: Sequence[Offer]) -> Decimal:
    """No order for the rest costs less: each parameter's smallest share of an offer's price."""
    shares: dict[str, Decimal] = {}
    for offer in offers:
        covers = offer.parameters & left
        for parameter in covers:
            share = offer.price / len(covers)
            shares[parameter] = min(share, shares.get(parameter, share))
    return sum(shares.values(), _NOTHING)


def _who_measures_the_rarest(left: frozenset[str], offers: Sequence[Offer]) -> Iterator[Offer]:
    choices = {
        parameter: [offer for offer in offers if parameter in offer.parameters]
        for parameter in sorted(left)
    }
    rarest = min(choices, key=lambda parameter: len(choices[parameter]))
    yield from sorted(choices[rarest], key=lambda offer: offer.price)
