"""What to say about the water of a point and what happened at its well, to those who drink it."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import ABOUT_PEOPLE, Event, NewSample
from wellbook.planning.overview import PointOverview, WellOverview
from wellbook.planning.settings import yardsticks
from wellbook.planning.upkeep.mending import unmended
from wellbook.water.cautions.advice import Advice, resolve
from wellbook.water.cautions.cautions import (
    CHILD,
    INFANT,
    PEOPLE,
    PREGNANCY,
    Cautions,
    Situation,
    happening_situations,
)
from wellbook.water.cautions.findings import Judged
from wellbook.water.cautions.held_over import held_over
from wellbook.water.cautions.upstream import Before, behind
from wellbook.water.sampling.inspection import FOUND_BAD, KEEPS_OUT
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.results import Result
from wellbook.water.values.seasons import add_months
from wellbook.water.verdicts.judge import Verdict, assess
from wellbook.water.verdicts.point_record import Assessed, PointRecord
from wellbook.water.verdicts.sum_status import stand_sums
from wellbook.wording.reference import worded_advice

EVERYBODY = frozenset(PEOPLE)  # the reader of a packet is not known
# Who is told of by an event, and for how many months.
_BY_EVENT = {
    "birth": ((INFANT, 12), (CHILD, 108)),  # a child counts as small until it is nine
    "pregnancy": ((PREGNANCY, 10),),
}
_FLOOD = "flood"
_GERMS = ("total_coliform", "e_coli")


@dataclass(frozen=True, slots=True)
class Told:
    """What is said at one point.

    Attributes:
        situations: Because of what happened at its well of late.
        advice: Because of its water.
    """

    situations: tuple[Situation, ...]
    advice: tuple[Advice, ...]


def people(record: Record, today: date) -> frozenset[str]:
    """Who drinks the water that needs more care: ticked, or told of by an event. Private."""
    ticked = frozenset(record.settings.get("people", "").split()) & EVERYBODY
    return ticked | people_of_events(record, today)


def people_of_events(record: Record, today: date) -> frozenset[str]:
    """Whom the events tell of: a birth for a year and a childhood, a pregnancy until its end."""
    found: set[str] = set()
    for well in record.wells:
        for event in record.events_of(well.id):
            for who, months in _BY_EVENT.get(event.kind, ()):
                day = read_partial_date(event.day)
                if day is not None and day.first <= today < add_months(day.last, months):
                    found.add(who)
    return frozenset(found)


def judged(point: PointOverview) -> tuple[Judged, ...]:
    """All that was measured at a point, and the sums of it, with each judgement of today."""
    readings = (
        _judged(one.parameter, each.result, each.all_now or (each.now,))
        for one in point.standings
        for each in (Assessed(one.latest, one.then, one.now, one.all_now), *one.beside)
    )
    sums = (Judged(one.parameter, None, one.all_now or (one.now,), one.day) for one in point.sums)
    return (*readings, *sums)


def _judged(parameter: Parameter, result: Result, by: tuple[Judgement, ...]) -> Judged:
    return Judged(parameter, result.reading, by, result.collected.day)


def _before(point: PointOverview) -> tuple[Judged, ...]:
    """The readings of the sampling day before, and sums that were over on it."""
    readings = (
        _judged(one.parameter, each.result, each.all_now or (each.now,))
        for one in point.standings
        for each in one.before
    )
    sums = (Judged(one.parameter, None, one.before, one.day) for one in point.sums if one.before)
    return (*readings, *sums)


def advice_at(
    point: PointOverview,
    points: Iterable[PointOverview],
    cautions: Cautions,
    who: Iterable[str],
    today: date,
) -> tuple[Advice, ...]:
    """The cautions on the water of a point for those who drink it, urgent ones first.

    Args:
        point: The point.
        points: All points of its well: what is found before a tap concerns the tap.
        cautions: The reference data.
        who: Of `PEOPLE` those who drink the water.
        today: The day.
    """
    tap, people = point.point, frozenset(who)
    sample, held = held_over(judged(point), _before(point), cautions)
    before = [
        Before(one.point.name, held_over(judged(one), _before(one), cautions)[0])
        for one in points
        if not one.point.treated
        and one.point.id != tap.id
        and (tap.treated or one.point.place < tap.place)
    ]
    found = (
        *resolve(sample, cautions, people, today),
        *behind(sample, before, cautions, people, is_treated=tap.treated),
    )
    told = sorted(found, key=lambda one: not one.urgent)
    for one in held:
        _put_behind(told, one)
    return tuple(map(worded_advice, told))


def _put_behind(told: list[Advice], held: Advice) -> None:
    """Put the word on what is held over behind what to do about that, and as urgent as that."""
    names = set(held.names)
    about = [place for place, one in enumerate(told) if names & set(one.names)]
    urgent = any(told[place].urgent for place in about)
    alike = [place for place in about if told[place].urgent == urgent]
    told.insert(alike[-1] + 1 if alike else len(told), replace(held, urgent=urgent))


def advice_on(
    sample: NewSample, record: Record, catalogue: Catalogue, cautions: Cautions, today: date
) -> tuple[Advice, ...]:
    """The cautions on a sample that is about to be kept."""
    results = tuple(
        Result(
            n, 1, one.parameter, one.name, one.reading, sample.collected, 0,
            reporting_limit=one.reporting_limit, detection_limit=one.detection_limit,
            analysed=one.analysed, draw=one.draw or sample.draw, received=sample.received,
        )
        for n, one in enumerate(sample.results, start=1)
        if one.parameter
    )  # fmt: skip
    measured, by = PointRecord.of(results), (*yardsticks(record.settings, catalogue), today)
    day = sample.collected.day
    read = [
        Judged(
            catalogue.parameters[one.result.parameter],
            one.result.reading,
            one.all_now or (one.now,),
            day,
        )
        for one in assess(results, measured, *by)
    ]
    added = [
        Judged(one.parameter, None, one.all_now or (one.now,), day)
        for one in stand_sums(measured, *by)
    ]
    found = resolve((*read, *added), cautions, people(record, today), today)
    return tuple(map(worded_advice, found))


def situations(
    record: Record, well: int, points: Iterable[PointOverview], cautions: Cautions, today: date
) -> tuple[Situation, ...]:
    """What is said because of something that happened of late at a well, named by its number."""
    shown = tuple(points)
    events = [
        (event.kind, (today - last).days)
        for event in record.events_of(well)
        if (last := _last(event)) is not None and not _is_over(event, last, shown)
    ]
    standing = [one for at in record.wells if at.id == well for one in unmended(record, at)]
    events += [(FOUND_BAD, 0) for item in standing if item in KEEPS_OUT]  # as long as it is bad
    return happening_situations(cautions, events)


def told(
    record: Record, wells: Iterable[WellOverview], cautions: Cautions, today: date
) -> dict[int, Told]:
    """What is said at each point, by its number."""
    who = people(record, today)
    return {
        point.point.id: Told(
            situations(record, well.well.id, well.points, cautions, today),
            advice_at(point, well.points, cautions, who, today),
        )
        for well in wells
        for point in well.points
    }


def at_the_well(told: Told, cautions: Cautions) -> tuple[str, ...]:
    """What somebody who draws a sample has to know; nothing about who drinks the water."""
    closed = cautions.clashes["disinfect"]
    gas = cautions.of["methane"]
    said = [one.text for one in told.situations if not ABOUT_PEOPLE.issuperset(one.events)]
    said += [one.text for one in told.advice if one.text == closed]
    said += [one.text for one in told.advice if one.text.startswith((gas.over, gas.found))]
    return tuple(dict.fromkeys(said))


def _last(event: Event) -> date | None:
    """The last day of an event; for one that is not over yet the day on which it began counts."""
    day = read_partial_date(event.until or event.day)
    return day.first if day else None


def _is_over(event: Event, last: date, points: Iterable[PointOverview]) -> bool:
    """Whether a flood is done with: bacteria were tested after it, and none were found."""
    if event.kind != _FLOOD:
        return False
    after = [
        one
        for point in points
        for one in point.standings
        if one.parameter.key in _GERMS and one.latest.collected.day > last
    ]
    return bool(after) and all(one.now.verdict is Verdict.UNDETECTED for one in after)
