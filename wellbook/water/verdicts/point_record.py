"""Everything measured at one point, and what a result amounts to beside its whole sample."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from operator import attrgetter
from typing import Self

from wellbook.water.values.judgement import Judgement, Urgency, Verdict
from wellbook.water.values.results import Result


@dataclass(frozen=True, slots=True)
class PointRecord:
    """Every result at one point up to a day; nothing is filtered out.

    Attributes:
        histories: Results by parameter key, in the order of collection.
        samples: Results by the number of their sample.
        treatment: Days on which the treatment before the point changed.
    """

    histories: Mapping[str, tuple[Result, ...]]
    samples: Mapping[int, Collection[Result]]
    treatment: tuple[date, ...] = ()

    @classmethod
    def of(cls, results: Iterable[Result], treatment: tuple[date, ...] = ()) -> Self:
        """Group results; they stay in their order."""
        histories: dict[str, list[Result]] = {}
        samples: dict[int, list[Result]] = {}
        for result in results:
            histories.setdefault(result.parameter, []).append(result)
            samples.setdefault(result.sample, []).append(result)
        return cls(
            {key: tuple(rows) for key, rows in histories.items()},
            {number: tuple(rows) for number, rows in samples.items()},
            treatment,
        )

    def history(self, parameter: str) -> tuple[Result, ...]:
        """All results of one parameter."""
        return self.histories.get(parameter, ())


class TwoVerdicts:
    """What was judged by the limits of its sampling day and by those of today."""

    __slots__ = ()
    then: Judgement
    now: Judgement
    all_now: tuple[Judgement, ...]

    @property
    def adopted(self) -> Judgement | None:
        """Today's judgement by an adopted limit that does not bind yet and is passed."""
        passed = [one for one in self.all_now if one.verdict is Verdict.ADOPTED]
        return min(passed, key=attrgetter("urgency"), default=None)

    @property
    def needs_attention(self) -> bool:
        """Whether a person has to look at it, by the limits of today or of then."""
        return self.now.needs_attention or self.then.needs_attention

    @property
    def headline(self) -> Judgement:
        """Today's judgement, or the earlier one where only that calls for attention."""
        return self.then if self.then.needs_attention > self.now.needs_attention else self.now

    @property
    def urgency(self) -> tuple[int, Urgency]:
        """Its place in every list: by today's verdict, after them what only then was to look at."""
        is_past = self.headline is not self.now
        calm = not self.headline.needs_attention
        return (calm * 2 + is_past, self.headline.urgency)


@dataclass(frozen=True, slots=True)
class Assessed(TwoVerdicts):
    """A result with both of its verdicts.

    Attributes:
        result: The result.
        then: How it stood to the limits of its sampling day.
        now: How it stands to the limits of today.
        all_now: How it stands to each limit of today.
    """

    result: Result
    then: Judgement
    now: Judgement
    all_now: tuple[Judgement, ...] = ()
