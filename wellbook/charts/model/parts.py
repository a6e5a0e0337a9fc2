"""What a chart is made of, before anything is drawn."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from wellbook.support.translation import N_, _, pgettext
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import LimitKind
from wellbook.water.values.readings import Fraction
from wellbook.water.values.results import Draw
from wellbook.wording import vocabulary


class Shape(StrEnum):
    """What a mark says; on a strip the shape also chooses the row."""

    VALUE = "value"  # a figure
    BELOW = "below"  # not detected: open, at the reporting limit, with a thin line down to zero
    ABOVE = "above"  # off scale: an open triangle that points up, at the bound
    PRESENT = "present"
    ABSENT = "absent"
    UNCLEAR = "unclear"  # on a strip: neither present nor absent can be read from it


class Sort(StrEnum):
    """Which water a mark is of; different sorts are never joined."""

    ALIKE = "alike"  # nothing tells the samples apart
    FIRST = "first draw"
    FLUSHED = "flushed"
    UNTOLD = "draw not told"
    TOTAL = "total"
    DISSOLVED = "dissolved"


def sort_words(sort: Sort) -> str:
    """A sort of water in words; empty where nothing tells the samples apart."""
    said = {
        Sort.FIRST: vocabulary.draw(Draw.FIRST),
        Sort.FLUSHED: vocabulary.draw(Draw.FLUSHED),
        Sort.UNTOLD: pgettext("how a sample was drawn", "draw not told"),
        Sort.TOTAL: vocabulary.fraction(Fraction.TOTAL),
        Sort.DISSOLVED: vocabulary.fraction(Fraction.DISSOLVED),
    }
    return said.get(sort, "")


ROWS = {  # to be said
    Shape.PRESENT: N_("present"),
    Shape.ABSENT: N_("absent"),
    Shape.UNCLEAR: N_("unclear"),
}


def mark_words(mark: "Mark") -> str:
    """A mark in words: as reported, or by its row where that tells less than a figure."""
    return _(ROWS[mark.shape]) if mark.shape in ROWS else mark.label


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
        sort: Which water it is of.
        verdict: How it stands to the limits of today, or to those of its day where only those call
            for attention; None where it was not judged.
        sample: Number of its test in its book.
    """

    day: date
    value: float
    shape: Shape
    label: str
    estimated: bool = False
    late: bool = False
    result: int = 0
    sort: Sort = Sort.ALIKE
    verdict: Verdict | None = None
    sample: int = 0


@dataclass(frozen=True, slots=True)
class Series:
    """The results of one point and one sort of water.

    Attributes:
        name: Name of the point, or empty.
        second: Whether it is of the point that is compared with the first.
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
    """The slope found at a point, from the first test to the last.

    Attributes:
        name: Name of the point, or empty where there is one only.
        second: Whether it is of the point that is compared with the first.
    """

    first: date
    last: date
    start: float
    end: float
    name: str = ""
    second: bool = False


@dataclass(frozen=True, slots=True)
class Fan:
    """Where the trend goes if it goes on, with its interval, from the last test on.

    Attributes:
        days: In order of time.
        lows: Lower end of the interval on each day.
        middles: The line itself.
        highs: Upper end of the interval.
        is_wide: The interval is one of at least 90 %.
        is_rough: It is one of roughly 90 %.
    """

    days: tuple[date, ...]
    lows: tuple[float, ...]
    middles: tuple[float, ...]
    highs: tuple[float, ...]
    is_wide: bool = False
    is_rough: bool = False


@dataclass(frozen=True, slots=True)
class Chart:
    """One parameter over time.

    Attributes:
        title: The parameter's name.
        sentences: What the chart shows, in words, for each point: the latest of each sort of
            water, how it stands to the limits, and the trend; named where there are two points.
        unit: Unit and basis of the figures, e.g. `mg/L as N`; empty on a strip.
        scale: How the figures run up the side.
        series: The point's results, then those of a second point; a series for each sort.
        limits: Most important first.
        shades: Seasons from `first` to `last`.
        events: In order of time.
        trends: A line for each point at which a trend was found.
        fan: Where the first point's trend goes, only where it may be drawn on.
        first: First day shown.
        last: Last day shown.
        low: Lowest figure shown.
        high: Highest figure shown.
        notes: What a reader must know besides: results not drawn, limits out of view.
        passing: The first result of the point outside a limit; None where there is none.
    """

    title: str
    sentences: tuple[str, ...]
    unit: str
    scale: Scale
    series: tuple[Series, ...]
    limits: tuple[LimitLine, ...]
    shades: tuple[Shade, ...]
    events: tuple[EventMark, ...]
    trends: tuple[TrendLine, ...]
    first: date
    last: date
    low: float
    high: float
    notes: tuple[str, ...] = ()
    fan: Fan | None = None
    passing: Mark | None = None

    @property
    def sentence(self) -> str:
        """What the chart shows, in words, in one piece."""
        return " ".join(self.sentences)

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Every mark of every series."""
        return tuple(mark for series in self.series for mark in series.marks)
