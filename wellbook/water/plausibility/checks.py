"""Whether a report hangs together: with itself, with its well, and with the calendar.

A finding asks a person to look again, with the figures and the likely slip. It never alters a
reading and never stops one from being kept: odd water exists.
"""

from collections.abc import Sequence
from datetime import date

from wellbook.water.chemistry.interval import Bounds, contents
from wellbook.water.plausibility.entry import again, columns, dates, signs
from wellbook.water.plausibility.extremes import beyond
from wellbook.water.plausibility.history import off_habit
from wellbook.water.plausibility.parts import parts
from wellbook.water.plausibility.sums import sums
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Oddity
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind
from wellbook.water.values.results import Result


def check(
    sample_results: Sequence[Result],
    catalogue: Catalogue,
    history: Sequence[Result],
    *,
    today: date | None = None,
    received: LocalTime | None = None,
    bounds: Bounds | None = None,
) -> tuple[Oddity, ...]:
    """Everything odd about one sample, what wants an answer first.

    Args:
        sample_results: The results of one sample.
        catalogue: The reference data.
        history: Results of other samples at the same point, in any order.
        today: The day to take as today; without it no date is in the future.
        received: When the lab received the sample, if known.
        bounds: Intervals of readings that samples share.
    """
    none, rejected = Kind.NONE, Flag.REJECTED  # to look a member up takes as long as the rest
    used = [
        result
        for result in sample_results
        if result.reading.kind is not none and rejected not in result.reading.flags
    ]
    samples = {result.sample for result in used if result.sample}
    others: dict[str, list[Result]] = {}
    for one in history:
        if one.sample not in samples and Flag.REJECTED not in one.reading.flags:
            others.setdefault(one.parameter, []).append(one)
    bounds = bounds or Bounds(catalogue)
    holds = contents(used, catalogue, bounds)
    found = [
        *dates(used, today, received),
        *again(used, others),
        *columns(used, catalogue),
        *beyond(used, catalogue, bounds),
        *parts(used, catalogue, holds),
        *off_habit(used, catalogue, others),
        *signs(used, catalogue, others),
        *sums(used, catalogue, holds, others),
    ]
    return tuple(sorted(found, key=lambda oddity: oddity.severity))
