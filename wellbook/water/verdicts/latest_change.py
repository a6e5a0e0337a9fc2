"""What changed from the test before to the latest one, for one parameter at one point."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from itertools import pairwise
from statistics import median

from wellbook.water.statistics.mann_kendall import below
from wellbook.water.statistics.series import CensoredValue, Series, label, series
from wellbook.water.units import conversion
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.figures import plain
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Limit
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import headline, judge_all
from wellbook.water.verdicts.point_record import PointRecord

# Of two tests of steady water with normal scatter, one step in ten is more than this many times
# the middle step: 1.645 over 0.6745, quantiles of the normal curve.
_UNUSUAL = 2.44
_LIMIT_DIGITS = 3  # of a reporting limit; more differ by conversion alone
LEAST_STEPS = 4  # earlier steps from which a usual one can be told


class Step(StrEnum):
    """Which way the figure went."""

    FIRST = "first"
    UP = "up"
    DOWN = "down"
    SAME = "same"
    NEW = "new"  # detected, and never before
    DETECTED = "detected"  # detected, and not the time before
    GONE = "gone"  # not detected, and detected the time before
    NOT_DETECTED = "not detected"  # both times
    OPEN = "open"  # the bounds overlap


class Crossed(StrEnum):
    """How the verdict by today's limits moved."""

    NO = "no"
    FIRST_OVER = "first over"
    OVER_AGAIN = "over again"
    FIRST_UNDER = "first under"
    UNDER_AGAIN = "under again"


@dataclass(frozen=True, slots=True)
class LatestChange:
    """The latest test of a parameter beside the one before.

    Attributes:
        parameter: The parameter.
        day: Day of the latest test.
        before: Day of the test before; None where there is none.
        step: Which way the figure went.
        size: How far, in `unit`; None where a bound hides it.
        usual: Middle of the earlier steps from test to test; None with fewer than four.
        steps: How many earlier steps there are.
        rounding: Whether the step is no more than the last printed digit.
        unit: Unit and basis of the sizes.
        crossed: How the verdict moved.
        lab: Lab before and now, where they differ.
        method: Method before and now, where they differ.
        reporting_limit: Reporting limit before and now as printed, where they differ.
        limit: The limit of the earlier day and of the latest, where it moved between them.
    """

    parameter: Parameter
    day: date
    before: date | None
    step: Step
    size: float | None = None
    usual: float | None = None
    steps: int = 0
    rounding: bool = False
    unit: str = ""
    crossed: Crossed = Crossed.NO
    lab: tuple[str, str] | None = None
    method: tuple[str, str] | None = None
    reporting_limit: tuple[str, str] | None = None
    limit: tuple[Limit, Limit] | None = None

    @property
    def unusual(self) -> bool | None:
        """Whether the step is larger than this point's own scatter makes likely; None if open."""
        if self.size is None or self.usual is None:
            return None
        return self.size > _UNUSUAL * self.usual and not self.rounding

    @property
    def is_notable(self) -> bool:
        """Whether a person should hear of it without asking for it."""
        moved = self.step in {Step.NEW, Step.DETECTED, Step.GONE}
        return moved or bool(self.unusual) or self.crossed is not Crossed.NO or bool(self.limit)


def latest_change(
    record: PointRecord,
    parameter: Parameter,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    *,
    found: Series | None = None,
) -> LatestChange | None:
    """Compare the latest test of a parameter with the one before; None without a test.

    Where a day holds several results, their median counts, as in a trend; total and dissolved,
    first draws and flushed samples are not mixed.

    Args:
        record: All results at the point.
        parameter: The parameter.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day whose limits hold.
        found: Its series, where that was made already.
    """
    history = record.history(parameter.key)
    if parameter.scale == "presence":
        tested = [result for result in history if result.reading.kind is not Kind.NONE]
        days = sorted({result.collected.day for result in tested})
        spans: tuple[CensoredValue, ...] = ()
    else:
        found = found or series(history, parameter)
        days, spans = list(found.days), found.spans
    if not days:
        return None
    if len(days) == 1:
        return LatestChange(parameter, days[-1], None, Step.FIRST, unit=label(parameter))
    before, day = days[-2], days[-1]
    old = [result for result in history if result.collected.day == before]
    new = [result for result in history if result.collected.day == day]
    step, size = _step(spans) if spans else _step_of_words(history, days)
    sizes = _earlier_steps(spans)
    return LatestChange(
        parameter=parameter,
        day=day,
        before=before,
        step=step,
        size=size,
        usual=median(sizes) if len(sizes) >= LEAST_STEPS else None,
        steps=len(sizes),
        rounding=size is not None and size <= _last_digit([*old, *new], parameter),
        unit=label(parameter),
        crossed=_crossed(record, history, catalogue, sets, today),
        lab=_moved(old, new, lambda result: result.lab),
        method=_moved(old, new, lambda result: result.method),
        reporting_limit=_moved(old, new, lambda result: _reporting_limit(result, parameter)),
        limit=_limit(old, new, catalogue, sets, record),
    )


def _step(spans: Sequence[CensoredValue]) -> tuple[Step, float | None]:
    *_earlier, last, now = spans
    if last.exact and now.exact:
        size = abs(now.low - last.low)
        return (Step.SAME if not size else Step.UP if now.low > last.low else Step.DOWN), size
    return _step_of_bounds(spans), None


def _step_of_bounds(spans: Sequence[CensoredValue]) -> Step:
    *earlier, last, now = spans
    if now.undetected and last.undetected:
        return Step.NOT_DETECTED
    if below(last, now):
        if not last.undetected:
            return Step.UP
        return Step.NEW if all(span.undetected for span in earlier) else Step.DETECTED
    if below(now, last):
        return Step.GONE if now.undetected else Step.DOWN
    return Step.OPEN


def _step_of_words(history: Sequence[Result], days: Sequence[date]) -> tuple[Step, None]:
    """Presence and absence: whether anything was found on a day."""
    found = [
        any(result.reading.is_detect for result in history if result.collected.day == day)
        for day in days
    ]
    if found[-1]:
        if found[-2]:
            return Step.SAME, None
        return (Step.DETECTED if any(found[:-1]) else Step.NEW), None
    return (Step.GONE if found[-2] else Step.NOT_DETECTED), None


def _earlier_steps(spans: Sequence[CensoredValue]) -> list[float]:
    exact = [span.low for span in spans[:-1] if span.exact]
    return [abs(later - earlier) for earlier, later in pairwise(exact)]


def _last_digit(results: Sequence[Result], parameter: Parameter) -> float:
    """The coarsest last digit that was printed, in the unit shown; 0 if it can't be told."""
    digits = []
    for result in results:
        reading = result.reading
        if reading.kind is Kind.NUMBER and reading.number is not None:
            exponent = reading.number.as_tuple().exponent
            one = Decimal(1).scaleb(exponent) if isinstance(exponent, int) else Decimal(0)
            try:
                shown = conversion.convert(
                    one, reading.unit, reading.basis, *parameter.shown_in, parameter
                )
            except conversion.NoConversion:
                continue
            digits.append(abs(float(shown.number)))
    return max(digits, default=0.0) * (1 + 1e-9)


def _crossed(
    record: PointRecord,
    history: Sequence[Result],
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> Crossed:
    """Of the days that could be judged, whether the latest is on another side than before."""
    none = Kind.NONE
    by_day: dict[date, list[Result]] = {}
    for result in history:
        if result.reading.kind is not none:
            by_day.setdefault(result.collected.day, []).append(result)
    # From the latest day backwards, and no further than the answer needs.
    sides = (_side(by_day[day], record, catalogue, sets, today) for day in sorted(by_day)[::-1])
    latest = next(sides, None)
    if latest is None:
        return Crossed.NO
    before = next((side for side in sides if side is not None), None)
    if before is None or latest is before:
        return Crossed.NO
    been_here = any(side is latest for side in sides)
    if latest:
        return Crossed.OVER_AGAIN if been_here else Crossed.FIRST_OVER
    return Crossed.UNDER_AGAIN if been_here else Crossed.FIRST_UNDER


def _side(
    results: Sequence[Result],
    record: PointRecord,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
) -> bool | None:
    """Whether a day's results are outside a limit; None where that can't be told."""
    verdicts = {
        headline(
            judge_all(result, catalogue, sets, today, beside=record.samples[result.sample])
        ).verdict
        for result in results
    }
    if Verdict.OUTSIDE in verdicts:
        return True
    return False if verdicts - {Verdict.UNDECIDABLE, Verdict.NO_LIMIT} else None


def _moved(
    old: Sequence[Result], new: Sequence[Result], printed: Callable[[Result], str]
) -> tuple[str, str] | None:
    """What is printed on both days and has nothing in common."""
    before, now = ({printed(result) for result in part} - {""} for part in (old, new))
    plain_before, plain_now = (set(map(_plainly, part)) for part in (before, now))
    if not before or not now or plain_before & plain_now:
        return None
    return ", ".join(sorted(before)), ", ".join(sorted(now))


def _plainly(name: str) -> str:
    """A name without spaces, signs and capitals: `SM 9223 B` and `SM9223b` are one method."""
    return "".join(filter(str.isalnum, name.casefold()))


def _reporting_limit(result: Result, parameter: Parameter) -> str:
    """In the unit shown and without idle zeros, so that only another limit looks like another."""
    try:
        figure, reading = Decimal(result.reporting_limit), result.reading
    except InvalidOperation:
        return ""
    try:
        shown = conversion.convert(
            figure, reading.unit, reading.basis, *parameter.shown_in, parameter
        )
    except conversion.NoConversion:
        return f"{figure.normalize():f} {reading.unit}".strip()
    return f"{plain(float(shown.number), _LIMIT_DIGITS)} {label(parameter)}".strip()


def _limit(
    old: Sequence[Result],
    new: Sequence[Result],
    catalogue: Catalogue,
    sets: Sequence[str],
    record: PointRecord,
) -> tuple[Limit, Limit] | None:
    """The limit that judges the latest result on either day, where its figure moved."""
    result = new[0]
    beside = record.samples[result.sample]
    then, now = (
        headline(judge_all(result, catalogue, sets, on, beside=beside)).limit
        for on in (old[0].collected.day, result.collected.day)
    )
    if then is None or now is None or then.set != now.set or then.kind != now.kind:
        return None
    return None if (then.low, then.high) == (now.low, now.high) else (then, now)
