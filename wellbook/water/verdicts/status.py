"""Where one parameter at one point stands: its latest result, both verdicts, and its trend."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, time

from wellbook.water.statistics.outcomes import PENDING, Summary, Trend
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.forecasts import Forecast, forecasts
from wellbook.water.verdicts.judge import assess, badness
from wellbook.water.verdicts.latest_change import LatestChange, latest_change
from wellbook.water.verdicts.point_record import Assessed, PointRecord, TwoVerdicts


@dataclass(frozen=True, slots=True)
class Standing(TwoVerdicts):
    """Where a parameter stands.

    Attributes:
        parameter: The parameter.
        n: How many tests there are, those in which it was not analysed left out.
        latest: The latest of them.
        then: How it stood to the limits of its sampling day.
        now: How it stands to the limits of today.
        trend: What the whole history says.
        forecasts: When its line reaches each limit of today, the weightiest first.
        change: What changed since the test before; None where no test has a usable figure.
        summary: The history in a few figures; None with too few tests.
        all_now: How the latest stands to each limit of today.
        beside: The other results of the day of the latest.
        before: Those of the sampling day before, the one that counts first.
    """

    parameter: Parameter
    n: int
    latest: Result
    then: Judgement
    now: Judgement
    trend: Trend
    forecasts: tuple[Forecast, ...] = ()
    change: LatestChange | None = None
    summary: Summary | None = None
    all_now: tuple[Judgement, ...] = ()
    beside: tuple[Assessed, ...] = ()
    before: tuple[Assessed, ...] = ()


@dataclass(frozen=True, slots=True)
class HistoryFacts:
    """What a whole history tells, while its latest tests tell the rest of a standing.

    Attributes:
        n: How many tests there are, those in which it was not analysed left out.
        trend: What the history says.
        change: What changed since the test before; None where no test has a usable figure.
        summary: The history in a few figures; None with too few tests.
    """

    n: int
    trend: Trend = PENDING
    change: LatestChange | None = None
    summary: Summary | None = None

    @property
    def is_pending(self) -> bool:
        """Whether the history was not gone through yet."""
        return self.trend is PENDING


def history_facts(
    record: PointRecord,
    parameter: Parameter,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> HistoryFacts:
    """Go through the whole history of a parameter; see `stand` for the arguments."""
    # Not loaded where it is known already what the histories tell.
    from wellbook.water.statistics.series import counted_series
    from wellbook.water.statistics.summary import summary_of
    from wellbook.water.statistics.trend import trend_of

    history = record.history(parameter.key)
    found = counted_series(history, parameter)
    return HistoryFacts(
        len({result.sample for result in history if result.reading.kind is not Kind.NONE}),
        trend_of(found, parameter),
        latest_change(record, parameter, catalogue, sets, today, found=found),
        summary_of(found, parameter),
    )


def stand(
    record: PointRecord,
    parameter: Parameter,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    *,
    of_history: HistoryFacts | None = None,
) -> Standing:
    """Where a parameter stands by its history at one point.

    Where the latest day holds several results (duplicates, total and dissolved, a first draw and a
    flushed sample), the one that is outside a limit counts, then the total, then the first draw,
    then the worst; they are never averaged.

    Args:
        record: All results at the point; at least one of the parameter.
        parameter: The parameter.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day of the second verdict.
        of_history: What the whole history tells, where that is known: the results then need be
            those of the latest two days on which the parameter was analysed. By default it is
            worked out.

    Raises:
        ValueError: There is no result at all.
    """
    history = record.history(parameter.key)
    if not history:
        raise ValueError(f"no result of {parameter.key}")
    analysed = [result for result in history if result.reading.kind is not Kind.NONE]
    days = sorted({result.collected.day for result in analysed or history})[-2:]

    def of_day(day: date) -> list[Assessed]:
        drawn = [result for result in analysed or history if result.collected.day == day]
        return sorted(assess(drawn, record, catalogue, sets, today), key=_weight, reverse=True)

    latest, *beside = of_day(days[-1])
    told = of_history or history_facts(record, parameter, catalogue, sets, today)
    return Standing(
        parameter,
        told.n,
        latest.result,
        latest.then,
        latest.now,
        told.trend,
        forecasts(told.trend, parameter, catalogue, sets, today),
        told.change,
        told.summary,
        latest.all_now,
        tuple(beside),
        tuple(of_day(days[0])) if len(days) > 1 else (),
    )


def with_history(
    standing: Standing,
    told: HistoryFacts,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> Standing:
    """A standing to which the history was added that it was to wait for."""
    ahead = forecasts(told.trend, standing.parameter, catalogue, sets, today)
    return replace(
        standing,
        n=told.n,
        trend=told.trend,
        forecasts=ahead,
        change=told.change,
        summary=told.summary,
    )


def _weight(
    assessed: Assessed,
) -> tuple[bool, bool, bool, int, tuple[date, time], int]:
    result, now = assessed.result, assessed.now
    return (
        now.verdict is Verdict.OUTSIDE,
        result.reading.fraction != "dissolved",
        result.draw == "first draw",
        badness(now.verdict),
        result.collected.order(),
        result.id,
    )
