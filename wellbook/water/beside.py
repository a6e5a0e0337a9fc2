"""What else was found in the same sample: some limits can't be judged without it."""

from collections.abc import Iterable, Mapping, Sequence

from wellbook.water.catalogue import Catalogue
from wellbook.water.possible import NET_OF_URANIUM
from wellbook.water.results import Result

Samples = Mapping[int, Sequence[Result]]  # results by the number of their sample


def by_sample(results: Iterable[Result]) -> dict[int, list[Result]]:
    """Results by the number of their sample, in their order."""
    found: dict[int, list[Result]] = {}
    for result in results:
        found.setdefault(result.sample, []).append(result)
    return found


def asked_beside(parameter: str, catalogue: Catalogue) -> tuple[str, ...]:
    """Keys of the parameters that the verdict on a parameter asks for in the same sample."""
    limits = catalogue.limits_of(parameter)
    net = any(limit.condition.startswith(NET_OF_URANIUM) for limit in limits)
    return ("uranium",) if net else ()
