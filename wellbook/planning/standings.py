"""Where everything stands, the newest tests first: what whole histories tell is kept or follows.

A first look takes the latest two days of each parameter, in one walk through the tests of a point.
What a history tells (its trend, how unusual the latest step is) takes longer. It is kept from one
look to the next by `kept_histories`; what is not kept is `PENDING` until it was worked out.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from types import MappingProxyType

from wellbook.book.record import Newest, Record, Tests
from wellbook.book.rows import NewResult, Point, result_of
from wellbook.planning import kept_histories
from wellbook.planning.kept_histories import Histories
from wellbook.planning.overview import PointOverview, WellOverview, point_record
from wellbook.planning.settings import yardsticks
from wellbook.water.statistics.outcomes import PENDING
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.latest_change import LatestChange, latest_change
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import (
    HistoryFacts,
    Standing,
    history_facts,
    stand,
    with_history,
)
from wellbook.water.verdicts.sum_status import stand_sums

IN_MEMORY = 50_000  # results that are held at once, about 100 MB
RecordOf = Callable[[int, str], PointRecord]  # by point and parameter


@dataclass(frozen=True, slots=True)
class Look:
    """A book as it stands on a day, as far as it was looked through.

    Attributes:
        wells: What is known of each well; what is due is not among it.
        newest: Where the newest results of each point lie.
    """

    wells: tuple[WellOverview, ...]
    newest: Mapping[int, Newest]

    @property
    def is_pending(self) -> bool:
        """Whether a history is still to be gone through."""
        return any(
            one.trend is PENDING
            for well in self.wells
            for point in well.points
            for one in point.standings
        )


def standings(record: Record, catalogue: Catalogue, today: date) -> tuple[WellOverview, ...]:
    """Everything that is known of each well but what is due.

    Histories of a large record are read one at a time, so that memory does not grow with it.
    """
    look = first_look(record, catalogue, today)
    if look.is_pending:
        held = sum(sum(newest.counts.values()) for newest in look.newest.values())
        read = from_memory if held <= IN_MEMORY else one_history
        look = completed(look, record, catalogue, today, read(record, today))
    return look.wells


def first_look(record: Record, catalogue: Catalogue, today: date) -> Look:
    """Where everything stands by its newest tests; what histories tell as far as it was kept."""
    catalogue, chosen = yardsticks(record.settings, catalogue)
    kept = kept_histories.read(record.digest, catalogue, chosen, today)
    newest = {
        point.id: kept.newest.get(point.id) or record.tests.newest(point.id, today)
        for point in record.points
    }

    def of_point(point: Point) -> PointOverview:
        return _of_point(record, point, newest[point.id], kept, (catalogue, chosen, today))

    wells = (
        WellOverview(well, tuple(map(of_point, record.points_of(well.id)))) for well in record.wells
    )
    return Look(tuple(wells), newest)


def completed(
    look: Look, record: Record, catalogue: Catalogue, today: date, record_of: RecordOf
) -> Look:
    """The look with what each history tells, which is kept for the next one.

    Args:
        look: A first look at the record on that day.
        record: The record.
        catalogue: The reference data.
        today: The day.
        record_of: Gives the results of a parameter at a point, and those of their samples.
    """
    by = (*yardsticks(record.settings, catalogue), today)

    def told(point: int, standing: Standing) -> Standing:
        if standing.trend is not PENDING:
            return standing
        results = record_of(point, standing.parameter.key)
        return with_history(standing, history_facts(results, standing.parameter, *by), *by)

    wells = tuple(
        replace(
            well,
            points=tuple(
                replace(point, standings=tuple(told(point.point.id, s) for s in point.standings))
                for point in well.points
            ),
        )
        for well in look.wells
    )
    facts = {
        (point.point.id, one.parameter.key): HistoryFacts(one.n, one.trend, one.change, one.summary)
        for well in wells
        for point in well.points
        for one in point.standings
    }
    kept_histories.keep(record.digest, by[0], today, Histories(look.newest, facts))
    return replace(look, wells=wells)


def newest_changes(
    record: Record,
    catalogue: Catalogue,
    today: date,
    samples: Collection[int],
    kept: Mapping[int, Sequence[NewResult]] = MappingProxyType({}),
) -> Iterator[tuple[LatestChange | None, ...]]:
    """What changed with the latest tests of each point, of those that are among some samples.

    No trend is worked out for it.

    Args:
        record: The record.
        catalogue: The reference data.
        today: The day.
        samples: Numbers of samples.
        kept: Results of samples that were kept just now, by the samples' numbers. A point where
            they are all there is need not be read again.
    """
    by, read = (*yardsticks(record.settings, catalogue), today), one_history(record, today)
    look = first_look(record, catalogue, today)
    for well in look.wells:
        for point in well.points:
            key = point.point.id
            held = _all_kept(record, key, look.newest[key].counts, kept, today)
            yield tuple(
                latest_change(held or read(key, one.parameter.key), one.parameter, *by)
                for one in point.standings
                if one.latest.sample in samples
            )


def _all_kept(
    record: Record,
    point: int,
    counts: Mapping[str, int],
    kept: Mapping[int, Sequence[NewResult]],
    today: date,
) -> PointRecord | None:
    """Everything at a point, if that is what was kept just now and nothing else; None if not."""
    if sum(map(len, kept.values())) < sum(counts.values()):
        return None
    drawn = [one for one in record.tests.samples(point) if one.collected.day <= today]
    if not all(one.id in kept for one in drawn):
        return None
    held = PointRecord.of(
        result_of(one, new, 0, one.id, one.received) for one in drawn for new in kept[one.id]
    )
    none = Kind.NONE
    analysed = {
        key: sum([one.reading.kind is not none for one in history])
        for key, history in held.histories.items()
    }
    return held if analysed == counts else None


def from_memory(record: Record, today: date) -> RecordOf:
    """Gives the results of a record, all of which are held in memory."""
    points = {point.id: point_record(record, point.id, today) for point in record.points}
    return lambda point, _parameter: points[point]


def _of_point(
    record: Record,
    point: Point,
    newest: Newest,
    kept: Histories,
    by: tuple[Catalogue, tuple[str, ...], date],
) -> PointOverview:
    results = PointRecord.of(record.tests.results_on(point.id, newest.days))
    counts = newest.counts
    return PointOverview(
        point,
        tuple(
            stand(
                results,
                parameter,
                *by,
                of_history=kept.facts.get((point.id, key)) or HistoryFacts(counts[key]),
            )
            for key, parameter in by[0].parameters.items()
            if key in counts
        ),
        (),
        newest.unknown,
        stand_sums(results, *by),
    )


def one_history(record: Record, today: date) -> RecordOf:
    """Gives the results of one parameter at a time, read when they are asked for."""

    def read(point: int, parameter: str) -> PointRecord:
        found = record.tests.results(point, parameter)
        history = tuple(result for result in found if result.collected.day <= today)
        return PointRecord({parameter: history}, _SamplesOf(record.tests, point, history))

    return read


class _SamplesOf(Mapping[int, Collection[Result]]):
    """The whole samples of a history, by their numbers."""

    def __init__(self, tests: Tests, point: int, history: Iterable[Result]) -> None:
        self._tests, self._point = tests, point
        self._days = {result.sample: result.collected.day for result in history}

    def __getitem__(self, sample: int) -> "_Sample":
        return _Sample(self._tests, self._point, sample, self._days[sample])

    def __iter__(self) -> Iterator[int]:
        return iter(self._days)

    def __len__(self) -> int:
        return len(self._days)


class _Sample(Collection[Result]):
    """A whole sample, read when it is gone through: hardly any limit asks for all of it."""

    def __init__(self, tests: Tests, point: int, sample: int, day: date) -> None:
        self._tests, self._point, self._sample, self._day = tests, point, sample, day

    @cached_property
    def _results(self) -> tuple[Result, ...]:
        drawn = self._tests.results_on(self._point, {self._day})
        return tuple(result for result in drawn if result.sample == self._sample)

    def __iter__(self) -> Iterator[Result]:
        return iter(self._results)

    def __len__(self) -> int:
        return len(self._results)

    def __contains__(self, result: object) -> bool:
        return result in self._results
