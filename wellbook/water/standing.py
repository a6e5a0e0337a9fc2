"""Where one parameter at one point stands: its latest result, both verdicts, and its trend."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time

from wellbook.water.beside import Samples
from wellbook.water.catalogue import Catalogue
from wellbook.water.judgement import Judgement, Verdict
from wellbook.water.parameters import Parameter
from wellbook.water.readings import Kind
from wellbook.water.results import Result
from wellbook.water.trends import Trend, trend
from wellbook.water.verdicts import badness, then_and_now


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a parameter stands.

    Attributes:
        parameter: The parameter.
        n: How many results there are, those not analysed left out.
        latest: The latest of them.
        then: How it stood to the limits of its sampling day.
        now: How it stands to the limits of today.
        trend: What the whole history says.
    """

    parameter: Parameter
    n: int
    latest: Result
    then: Judgement
    now: Judgement
    trend: Trend


def stand(
    history: Sequence[Result],
    parameter: Parameter,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    *,
    beside: Samples,
) -> Standing:
    """Where a parameter stands by its history at one point, in any order.

    Where the latest day holds several results (duplicates, total and dissolved, a first draw and a
    flushed sample), the one that is outside a limit counts, then the total, then the first draw,
    then the worst; they are never averaged.

    Args:
        history: Its results at the point; at least one.
        parameter: The parameter.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
        beside: What else was found in each sample, see `asked_beside`.

    Raises:
        ValueError: There is no result at all.
    """
    if not history:
        raise ValueError(f"no result of {parameter.key}")
    analysed = [result for result in history if result.reading.kind is not Kind.NONE]
    last = max(result.collected.day for result in analysed or history)
    judged = [
        (
            result,
            *then_and_now(result, catalogue, sets, today, beside=beside.get(result.sample, ())),
        )
        for result in analysed or history
        if result.collected.day == last
    ]
    latest, then, now = max(judged, key=_weight)
    return Standing(parameter, len(analysed), latest, then, now, trend(history, parameter))


def _weight(
    judged: tuple[Result, Judgement, Judgement],
) -> tuple[bool, bool, bool, int, tuple[date, time], int]:
    result, _, now = judged
    return (
        now.verdict is Verdict.OUTSIDE,
        result.reading.fraction != "dissolved",
        result.draw == "first draw",
        badness(now.verdict),
        result.collected.order(),
        result.id,
    )
