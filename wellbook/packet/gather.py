"""All that a packet tells, gathered once from the record as plain values."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import (
    Document,
    Event,
    InspectionAnswer,
    Lab,
    Sample,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.packet.corrections import (
    Correction,
    Named,
    Names,
    corrections,
    past_corrections,
)
from wellbook.planning.cases import CaseFacts
from wellbook.planning.overview import PointOverview, WellOverview, cases, overview
from wellbook.planning.settings import measured, sets
from wellbook.planning.upkeep.costs import YearOfCosts, by_year
from wellbook.planning.upkeep.due import UpkeepItem, upkeep_items
from wellbook.sharing.excerpt import LeftOut
from wellbook.sharing.record_fields import SAMPLES, WELLS
from wellbook.sharing.redaction import Privacy, privacy, redacted
from wellbook.sharing.sources import Source, sources
from wellbook.sharing.tables import answers_of
from wellbook.support.message import message
from wellbook.support.translation import _
from wellbook.water.sampling.inspection import Item
from wellbook.water.sampling.upkeep import Upkeep
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Judgement, Verdict, assess
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.reasons import Reason

NO_UPKEEP = Upkeep()


@dataclass(frozen=True, slots=True)
class Judged:
    """A result with its two verdicts; `parameter` is None if the catalogue doesn't know it."""

    result: Result
    parameter: Parameter | None
    then: Judgement
    now: Judgement


@dataclass(frozen=True, slots=True)
class SampleFacts:
    """One sample with all that hangs on it.

    Attributes:
        number: Place among the tests of the packet in order of time, from 1.
    """

    number: int
    sample: Sample
    point: str
    well: str
    treated: bool
    results: tuple[Judged, ...]
    documents: tuple[Document, ...]


@dataclass(frozen=True, slots=True)
class WellFacts:
    """One well: how its points stand, what happened to it, how its water is treated.

    Attributes:
        answers: What was seen at those inspections that are among the events.
        upkeep: What its units and the well itself need.
    """

    overview: WellOverview
    events: tuple[Event, ...]
    units: tuple[TreatmentUnit, ...]
    services: tuple[Service, ...]
    private_events: int
    answers: tuple[InspectionAnswer, ...] = ()
    upkeep: tuple[UpkeepItem, ...] = ()

    @property
    def well(self) -> Well:
        """The well itself."""
        return self.overview.well


@dataclass(frozen=True, slots=True)
class History:
    """Everything a packet is made from.

    Attributes:
        tests: Samples that count, in order of time.
        struck: Samples that were struck out.
        later: How many tests that count were drawn after `today`; they are left out.
        changed: UTC time of the last change, ISO 8601; empty for an empty book.
        digest: Digest of the journal's last entry: it names this state of the record.
        left_out: What a choice leaves out; None if nothing was narrowed.
        cases: What bad results opened, open ones first.
        sources: The packets that tests of the book came from, directly or through another one.
        costs: What water cost, by year; nothing where personal facts are left out.
        checklist: The lines of an inspection.
    """

    catalogue: Catalogue
    sets: tuple[str, ...]
    today: date
    wells: tuple[WellFacts, ...]
    tests: tuple[SampleFacts, ...]
    struck: tuple[SampleFacts, ...]
    later: int
    labs: tuple[Lab, ...]
    documents: tuple[Document, ...]
    corrections: tuple[Correction, ...]
    entries: int
    changed: str
    digest: str
    with_personal: bool
    left_out: LeftOut | None = None
    cases: tuple[CaseFacts, ...] = ()
    sources: tuple[Source, ...] = ()
    costs: tuple[YearOfCosts, ...] = ()
    checklist: tuple[Item, ...] = ()

    @property
    def is_part(self) -> bool:
        """Whether tests or readings that count are left out by choice."""
        return self.left_out is not None and not self.left_out.nothing

    def beside(self, point: PointOverview) -> tuple[PointOverview, ...]:
        """The points of the well of a point, with that one."""
        wells = (facts.overview for facts in self.wells if facts.well.id == point.point.well)
        return next(wells).points

    @property
    def title(self) -> str:
        """The wells' names."""
        return ", ".join(facts.well.name for facts in self.wells) or _("A well without a name")


def gather(
    record: Record,
    catalogue: Catalogue,
    today: date,
    *,
    with_personal: bool,
    left_out: LeftOut | None = None,
    upkeep: Upkeep = NO_UPKEEP,
) -> History:
    """Read the whole record; personal facts are left out unless they are to be shown.

    Args:
        record: The record, or an excerpt of it.
        catalogue: Parameters, limits and panels.
        today: The day that is spoken of.
        with_personal: Whether facts about people are in it.
        left_out: What an excerpt leaves out.
        upkeep: What is known of upkeep.
    """
    catalogue = measured(record.settings, catalogue)
    cover = privacy(record, with_personal=with_personal)
    entries = record.archive.journal()
    tests = _tests(record, catalogue, today, cover, with_personal=with_personal)
    counted = [test for test in tests if not test.sample.struck]
    drawn = [test for test in counted if test.sample.collected.day <= today]
    names, came = _names(tests, record, cover), sources(record.settings)
    events = tuple(e for e in record.events if with_personal or not e.is_about_people)
    needs = upkeep_items(replace(record, events=events), upkeep, today)
    shown = {None, *(event.id for event in events)}  # a photo of a private event is private
    own = corrections(entries, names, cover, with_personal=with_personal)
    changed = (*own, *past_corrections(came, names, cover))
    return History(
        catalogue=catalogue,
        sets=sets(record.settings, catalogue),
        today=today,
        wells=tuple(
            _well(one, record, cover, needs, with_personal=with_personal)
            for one in overview(record, catalogue, today)
        ),
        tests=tuple(drawn),
        struck=tuple(test for test in tests if test.sample.struck),
        later=len(counted) - len(drawn),
        labs=tuple(replace(lab, note=cover.cover(lab.note)) for lab in record.labs),
        documents=tuple(_once([d for d in record.documents if d.event in shown])),
        corrections=tuple(sorted(changed, key=lambda one: one.at)),
        entries=len(entries),
        changed=entries[-1].at if entries else "",
        digest=record.digest,
        with_personal=with_personal,
        left_out=left_out,
        cases=cases(record, catalogue, today, with_personal=False),
        sources=came,
        costs=by_year(record, today) if with_personal else (),
        checklist=upkeep.checklist,
    )


def _judged(
    rows: Sequence[Result], catalogue: Catalogue, chosen: Sequence[str], today: date
) -> list[Judged]:
    """The results at one point with their verdicts by the limits of their day and of today."""
    found = []
    for assessed in assess(rows, PointRecord.of(rows), catalogue, chosen, today):
        parameter = catalogue.parameters.get(assessed.result.parameter)
        then, now = assessed.then, assessed.now
        if parameter is None:
            then = now = Judgement(Verdict.NO_LIMIT, reasons=(message(Reason.UNKNOWN_PARAMETER),))
        found.append(Judged(assessed.result, parameter, then, now))
    return found


def _tests(
    record: Record, catalogue: Catalogue, today: date, cover: Privacy, *, with_personal: bool
) -> list[SampleFacts]:
    chosen = sets(record.settings, catalogue)
    points = {point.id: point for point in record.points}
    names = {well.id: cover.cover(well.name) for well in record.wells}
    results: dict[int, list[Judged]] = {}
    for point in record.points:
        rows = record.results(point.id, with_struck=True)
        for judged in _judged(rows, catalogue, chosen, today):
            results.setdefault(judged.result.sample, []).append(judged)
    held: dict[int, list[Document]] = {}
    for document in record.documents:
        if document.sample is not None:
            held.setdefault(document.sample, []).append(document)
    reported = (  # what the lab has said nothing of yet is no test
        sample
        for sample in record.samples(with_struck=True)
        if sample.id in results or not sample.awaited
    )
    return [
        SampleFacts(
            number=number,
            sample=redacted(SAMPLES, sample, cover, with_personal=with_personal),
            point=cover.cover(points[sample.point].name),
            well=names[points[sample.point].well],
            treated=points[sample.point].treated,
            results=tuple(results.get(sample.id, ())),
            documents=tuple(held.get(sample.id, ())),
        )
        for number, sample in enumerate(reported, start=1)
    ]


def _well(
    one: WellOverview,
    record: Record,
    cover: Privacy,
    needs: Sequence[UpkeepItem],
    *,
    with_personal: bool,
) -> WellFacts:
    well = replace(
        redacted(WELLS, one.well, cover, with_personal=with_personal),
        construction={
            cover.cover(item): cover.cover(text) for item, text in one.well.construction.items()
        },
    )
    events = record.events_of(one.well.id)
    shown = [
        replace(event, text=cover.cover(event.text), done_by=cover.cover(event.done_by))
        for event in events
        if with_personal or not event.is_about_people
    ]
    points = tuple(
        replace(
            point,
            point=replace(
                point.point,
                name=cover.cover(point.point.name),
                note=cover.cover(point.point.note),
            ),
        )
        for point in one.points
    )
    units = tuple(
        replace(unit, name=cover.cover(unit.name), note=cover.cover(unit.note))
        for unit in record.units_of(one.well.id)
    )
    named = {unit.id: unit for unit in units}
    return WellFacts(
        overview=replace(one, well=well, points=points),
        events=tuple(shown),
        units=units,
        services=tuple(
            replace(service, text=cover.cover(service.text))
            for unit in units
            for service in record.services_of(unit.id)
        ),
        private_events=len(events) - len(shown),
        answers=tuple(
            replace(answer, text=cover.cover(answer.text)) for answer in answers_of(record, shown)
        ),
        upkeep=tuple(
            item if item.unit is None else replace(item, unit=named.get(item.unit.id, item.unit))
            for item in needs
            if item.well.id == well.id
        ),
    )


def _once(documents: Sequence[Document]) -> list[Document]:
    """Each document once, however many samples or wells it belongs to."""
    return list({document.id: document for document in reversed(documents)}.values())[::-1]


def _names(tests: Sequence[SampleFacts], record: Record, cover: Privacy) -> Names:
    """How the packet calls each sample and result."""
    called = {("point", point.id): cover.cover(point.name) for point in record.points}
    called |= {("lab", lab.id): lab.name for lab in record.labs}
    names: Names = {place: Named(0, name, name) for place, name in called.items()}
    for test in tests:
        number, sample = test.number, test.sample.id
        words = _("Test {number}").format(number=number)
        names["sample", sample] = Named(sample, words, _("the test itself"))
        for one in test.results:
            reading = one.result.name
            words = _("{reading} in test {number}").format(reading=reading, number=number)
            names["result", one.result.id] = Named(sample, words, reading)
    return names
