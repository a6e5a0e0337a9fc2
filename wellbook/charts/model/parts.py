"""What a chart is made of, before anything is drawn."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from wellbook.support.translation import N_
from wellbook.water.values.limits import LimitKind


class Shape(StrEnum):
    """What a mark says; on a strip the shape also chooses the row."""

    VALUE = "value"  # a figure
    BELOW = "below"  # not detected: open, at the reporting limit, with a thin line down to zero
    ABOVE = "above"  # off scale: an open triangle that points up, at the bound
    PRESENT = "present"
    ABSENT = "absent"
    UNCLEAR = "unclear"  # on a strip: neither present nor absent can be read from it


ROWS = {  # to be said
    Shape.PRESENT: N_("present"),
    Shape.ABSENT: N_("absent"),
    Shape.UNCLEAR: N_("can’t be told"),
}


class Scale(StrEnum):
    """How the figures run up the side."""

    FROM_ZERO = "from zero"
    FREE = "free"
    LOG = "log"
    STRIP = "strip"  # no figures: rows of words


@dataclass(frozen=True, slots=True)
class EventMark:
    """Something that happened to the well, as a chart needs it."""

    day: date
    label: str


@dataclass(frozen=True, slots=True)
class Mark:
    """One result.

    Attributes:
        day: When the sample was drawn.
        value: Figure in the chart's unit; 0 on a strip, where it means nothing.
        shape: What it says.
        label: The result as reported, with its unit and what the lab said beside it.
        estimated: The lab called the figure an estimate.
        late: The sample was held too long before it was run.
        result: Number of the result in its book.
    """

    day: date
    value: float
    shape: Shape
    label: str
    estimated: bool = False
    late: bool = False
    result: int = 0


@dataclass(frozen=True, slots=True)
class Series:
    """The results of one point.

    Attributes:
        name: Name of the point, or empty.
        second: Whether it is the series that is compared with the first.
        marks: In order of time.
        runs: Marks that may be joined by a light line, as (first, last) places in `marks`.
    """

    name: str
    second: bool
    marks: tuple[Mark, ...]
    runs: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Step:
    """A limit's figure between two days, both included.

    Attributes:
        certain: False inside a month or year that is all we know of its first or last day.
    """

    first: date
    last: date
    value: float
    certain: bool = True


@dataclass(frozen=True, slots=True)
class LimitLine:
    """One limit over time: a stepped line that moves on the day the limit moved.

    Attributes:
        kind: What it is for.
        name: Who set it, and what else it is bound to.
        label: Its last figure in short, e.g. `10 mg/L as N`.
        text: Every figure with its days, in words.
        steps: In order of time; none for a rule of absence.
        lower: Whether it is the lower end of a range.
        in_view: Whether the scale reaches to it.
    """

    kind: LimitKind
    name: str
    label: str
    text: str
    steps: tuple[Step, ...]
    lower: bool = False
    in_view: bool = True


@dataclass(frozen=True, slots=True)
class Shade:
    """A stretch of one season. `tone` 0 is left white, 1 is the darkest."""

    first: date
    last: date
    name: str
    tone: int


@dataclass(frozen=True, slots=True)
class TrendLine:
    """The slope found, from the first test to the last."""

    first: date
    last: date
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class Fan:
    """Where the trend goes if it goes on, with its 90 % interval, from the last test on.

    Attributes:
        days: In order of time.
        lows: Lower end of the interval on each day.
        middles: The line itself.
        highs: Upper end of the interval.
    """

    days: tuple[date, ...]
    lows: tuple[float, ...]
    middles: tuple[float, ...]
    highs: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Chart:
    """One parameter over time.

    Attributes:
        title: The parameter's name.
        sentence: What the chart shows, in words: how many tests, when, the latest, the trend.
        unit: Unit and basis of the figures, e.g. `mg/L as N`; empty on a strip.
        scale: How the figures run up the side.
        series: The point's results, then those of a second point.
        limits: Most important first.
        shades: Seasons from `first` to `last`.
        events: In order of time.
        trend: Only where a trend was found.
        fan: Only where it may be drawn on.
        first: First day shown.
        last: Last day shown.
        low: Lowest figure shown.
        high: Highest figure shown.
        notes: What a reader must know besides: results not drawn, limits out of view.
    """

    title: str
    sentence: str
    unit: str
    scale: Scale
    series: tuple[Series, ...]
    limits: tuple[LimitLine, ...]
    shades: tuple[Shade, ...]
    events: tuple[EventMark, ...]
    trend: TrendLine | None
    first: date
    last: date
    low: float
    high: float
    notes: tuple[str, ...] = ()
    fan: Fan | None = None

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Every mark of every series."""
        return tuple(mark for series in self.series for mark in series.marks)
