"""The values that go into a book and come out of it. None of them is ever changed in place."""

from dataclasses import dataclass, field

from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Reading
from wellbook.water.values.results import Result
from wellbook.water.values.triggers import EventKind


@dataclass(frozen=True, slots=True)
class Well:
    """A well. A deepened or replaced well is a new one that `replaces` the old.

    Attributes:
        construction: Well log as written, item to text, e.g. `{"depth": "185 ft"}`.
        address: Private: in a packet only if ticked.
        coordinates: Private: in a packet only if ticked.
    """

    id: int
    name: str
    note: str = ""
    address: str = ""
    coordinates: str = ""
    replaces: int | None = None
    construction: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Point:
    """A place on a well where samples are drawn.

    Attributes:
        treated: Whether the water there has passed treatment.
        place: Place in the flow, 1 nearest the well.
    """

    id: int
    well: int
    name: str
    treated: bool = False
    place: int = 1
    note: str = ""


@dataclass(frozen=True, slots=True)
class TreatmentUnit:
    """A treatment unit in the chain of a well, between two days.

    Attributes:
        place: It treats the water of every point whose place in the flow is greater.
        installed: ISO date, month or year; empty if not known.
        removed: Likewise; empty while in use.
        target: Keys of the parameters it is meant to remove, separated by spaces.
        cost: What it cost as a plain figure, with the ISO 4217 code of its currency (private).
    """

    id: int
    well: int
    name: str
    kind: str
    place: int
    installed: str = ""
    removed: str = ""
    target: str = ""
    note: str = ""
    cost: str = ""
    currency: str = ""


@dataclass(frozen=True, slots=True)
class Service:
    """What was done to a treatment unit, or a stretch of time in which it was bypassed.

    Attributes:
        kind: `media`, `cartridge`, `lamp`, `salt`, `sanitised`, `bypass` and so on.
        day: ISO date, month or year; `until` likewise, empty while a bypass lasts.
        cost: What it cost; see `TreatmentUnit`.
        meter: What the unit's meter showed, with its measure, e.g. `12400 gal`; or empty.
    """

    id: int
    unit: int
    day: str
    kind: str
    until: str = ""
    text: str = ""
    cost: str = ""
    currency: str = ""
    meter: str = ""


@dataclass(frozen=True, slots=True)
class Lab:
    """A lab and, if known, its accreditation and the days between which it was valid."""

    id: int
    name: str
    accreditation: str = ""
    valid_from: str = ""
    valid_to: str = ""
    note: str = ""


TESTS, SHIPPING = "tests", "shipping"  # what a price of a lab's list is for


@dataclass(frozen=True, slots=True)
class Price:
    """A price of a lab's list: of a package, a single test, or the way of a parcel (`kind`).

    Attributes:
        amount: A plain figure, e.g. `45.00`; empty where it is not known, which is never free.
        parameters: Keys of what is measured, separated by spaces; `tests` in the list's words.
        day: Day, month or year of the list.
    """

    id: int
    lab: int
    kind: str
    name: str
    amount: str = ""
    currency: str = ""
    parameters: str = ""
    tests: str = ""
    day: str = ""


@dataclass(frozen=True, slots=True)
class Document:
    """A file kept in the book beside a sample or a well. The bytes are read separately.

    Attributes:
        event: Number of the well's event that it belongs to, e.g. a photo of an inspection.
    """

    id: int
    sample: int | None
    well: int | None
    kind: str
    name: str
    media_type: str
    size: int
    sha256: str
    event: int | None = None


@dataclass(frozen=True, slots=True)
class NewDocument:
    """A file about to be kept: `lab report`, `custody`, `well log`, `photo`, `other`."""

    name: str
    media_type: str
    content: bytes
    kind: str = "lab report"


@dataclass(frozen=True, slots=True)
class NewResult:
    """A reading about to be kept with its sample; see `Result` in `water`."""

    parameter: str
    name: str
    reading: Reading
    method: str = ""
    reporting_limit: str = ""
    detection_limit: str = ""
    qualifier: str = ""
    lab: str = ""
    analysed: LocalTime | None = None
    draw: str = ""
    place: str = ""
    report: str = ""


@dataclass(frozen=True, slots=True)
class NewSample:
    """A sample about to be kept, whole: its results and documents go in with it or not at all.

    Attributes:
        point: Number of the sampling point; 0 in a draft whose point is not chosen yet.
        purpose: `routine`, `sale`, `loan`, `new well`, `treatment check`, `complaint`,
            `after an event`, or empty.
        sampler: Who drew it (private).
        standing: `owner`, `lab`, `disinterested professional`, `agency`, or empty.
        temperature: Temperature on receipt as printed, with its unit.
        dispatched: When it was handed to the courier or driven off.
        rain: Rain of the ten days before, as written down, with its unit.
        lab_number: The lab's own number of the sample.
        cost: What the test cost as a plain figure, e.g. `45.00`; empty if not entered (private).
        currency: ISO 4217 code of the cost, e.g. `USD`; empty without a cost (private).
        awaited: Keys of what was ordered and is not reported yet, separated by spaces.
        bottles: Which bottles were filled, in words.
        cooling: What kept it cold on the way: `ice`, `cold packs`, `none`, or empty.
        parcel: Number of the parcel (private).
        form: Number of the lab's form that went along.
    """

    point: int
    collected: LocalTime
    lab: str = ""
    lab_number: str = ""
    received: LocalTime | None = None
    reported: str = ""
    purpose: str = ""
    sampler: str = ""
    standing: str = ""
    draw: str = ""
    temperature: str = ""
    note: str = ""
    results: tuple[NewResult, ...] = ()
    documents: tuple[NewDocument, ...] = ()
    dispatched: LocalTime | None = None
    rain: str = ""
    cost: str = ""
    currency: str = ""
    awaited: str = ""
    bottles: str = ""
    cooling: str = ""
    parcel: str = ""
    form: str = ""


@dataclass(frozen=True, slots=True)
class Sample:
    """A sample as kept. `struck` is the reason it was struck out, empty while it counts."""

    id: int
    point: int
    collected: LocalTime
    lab: str = ""
    lab_number: str = ""
    received: LocalTime | None = None
    reported: str = ""
    purpose: str = ""
    sampler: str = ""
    standing: str = ""
    draw: str = ""
    temperature: str = ""
    note: str = ""
    struck: str = ""
    dispatched: LocalTime | None = None
    rain: str = ""
    cost: str = ""
    currency: str = ""
    awaited: str = ""
    bottles: str = ""
    cooling: str = ""
    parcel: str = ""
    form: str = ""


ABOUT_PEOPLE = frozenset({EventKind.BIRTH, EventKind.ILLNESS, EventKind.PREGNANCY})


@dataclass(frozen=True, slots=True)
class Event:
    """What happened to the well.

    Attributes:
        kind: An `EventKind`, or what an older book has.
        day: ISO date, month or year.
        until: Likewise; empty for a single day.
        private: Ticked as a fact about people; see `is_about_people`.
        cost: What it cost; see `TreatmentUnit`.
        flow: Of a flow test: how much the well gave, in `flow_unit`, a figure or empty.
        hours: Of a flow test: for how long it was pumped.
        drawdown: Of a flow test: by how much the water level fell, in `drawdown_unit`.
        done_by: Who did it, as written.
    """

    id: int
    well: int
    kind: str
    day: str
    until: str = ""
    text: str = ""
    private: bool = False
    cost: str = ""
    currency: str = ""
    flow: str = ""
    flow_unit: str = ""
    hours: str = ""
    drawdown: str = ""
    drawdown_unit: str = ""
    done_by: str = ""

    @property
    def is_about_people(self) -> bool:
        """Whether it tells of people and not of the well: ticked, or of a kind that always does.

        Out of every packet and picture unless asked for.
        """
        return self.private or self.kind.casefold() in ABOUT_PEOPLE


@dataclass(frozen=True, slots=True)
class Plan:
    """How often a panel is to be tested at a point.

    Attributes:
        panel: Key of the panel in the catalogue, or of a follow-up that was put off.
        months: Interval in calendar months, 0 for once.
        reason: Why this interval, in the household's words.
        postponed: ISO date to which the next test was put off, or empty.
        postponed_why: The reason given.
    """

    id: int
    point: int
    panel: str
    months: int
    reason: str = ""
    postponed: str = ""
    postponed_why: str = ""

    @property
    def is_follow_up(self) -> bool:
        """Whether it only puts off what an event or a case asks for, by numbers of this book."""
        return " " in self.panel


@dataclass(frozen=True, slots=True)
class Expense:
    """What else was paid for water, e.g. bottled water; all of it is private."""

    id: int
    well: int
    day: str
    kind: str
    cost: str
    currency: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class UpkeepInterval:
    """The household's own interval for a task of a unit, or of the well itself (`unit` is None).

    Attributes:
        task: Key of the task in `upkeep.csv`.
        months: Interval in calendar months, 0 for never.
        reason: Why, in the household's words.
        use: What it lasts for, whichever comes first, e.g. `1000 gal`; or empty.
        a_day: How much of that is used in a day, e.g. `12 gal`; or empty.
    """

    id: int
    well: int
    unit: int | None
    task: str
    months: int
    reason: str = ""
    use: str = ""
    a_day: str = ""


@dataclass(frozen=True, slots=True)
class InspectionAnswer:
    """What was seen of one line of the checklist at an inspection, which is an event.

    Attributes:
        item: Key of the line in `inspection.csv`.
        answer: `good`, `bad` or `not seen`.
        text: What was seen, in the household's words.
        mended: ISO date, month or year when what was bad was put right; empty while it is not.
    """

    id: int
    event: int
    item: str
    answer: str
    text: str = ""
    mended: str = ""


def result_of(
    sample: "Sample | NewSample",
    new: NewResult,
    place: int = 0,
    number: int = 0,
    received: LocalTime | None = None,
) -> Result:
    """A result about to be kept, or just kept, as the record hands it out.

    Args:
        sample: Its sample.
        new: The result.
        place: The number that tells it from others; 0 where nothing asks for it.
        number: The number of its sample.
        received: When the lab had the sample, where a verdict is to heed it.
    """
    # By place, not by name: a file may hold 100,000.
    return Result(
        place, number, new.parameter, new.name, new.reading, sample.collected, sample.point,
        new.method, new.reporting_limit, new.detection_limit, new.qualifier,
        new.lab or sample.lab, new.analysed, new.draw or sample.draw, received,
    )  # fmt: skip
