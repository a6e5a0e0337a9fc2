"""Which part of a record a packet speaks of, and the record seen through that choice."""

from collections import Counter
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.record import Loaded, Record
from wellbook.book.rows import Document, Point, Sample, Well
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.wording import paper
from wellbook.wording.reference import listed


@dataclass(frozen=True, slots=True)
class Scope:
    """What a person chose to hand over; what is empty was not narrowed.

    Attributes:
        wells: Names of wells.
        points: Names of sampling points.
        parameters: Keys or printed names of parameters.
        sets: Keys of limit sets to compare with, in place of the household's own.
        since: First day of the tests.
        until: Last day of the tests.
    """

    wells: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    parameters: tuple[str, ...] = ()
    sets: tuple[str, ...] = ()
    since: date | None = None
    until: date | None = None


@dataclass(frozen=True, slots=True)
class LeftOut:
    """What a choice leaves out.

    Attributes:
        tests: Tests that count of which no reading is shown.
        of_tests: Tests that count in the whole book.
        struck: Struck tests that are not shown.
        readings: Readings that are not shown, those of these tests included.
        of_readings: Readings of tests that count in the whole book.
        chosen: What was chosen, in words.
        tested: The last day each parameter was tested at a well of the excerpt, in the whole book.
    """

    tests: int
    of_tests: int
    struck: int
    readings: int
    of_readings: int
    chosen: tuple[str, ...]
    tested: dict[tuple[int, str], date]

    @property
    def nothing(self) -> bool:
        """Whether all that counts is shown."""
        return not self.tests and not self.readings

    @property
    def is_whole(self) -> bool:
        """Whether struck tests are shown, too."""
        return self.nothing and not self.struck


def excerpt(record: Record, scope: Scope, catalogue: Catalogue) -> Record:
    """The part of a record that a person chose, with its tests in memory.

    What is said of a well and its treatment stays whole; the choice is one of tests and readings.

    Raises:
        Fault: Something chosen is not in the record or the catalogue; the sentence lists what is.
    """
    parameters = frozenset(_key(name, catalogue) for name in scope.parameters)
    points = _points(record, scope)
    _require(scope.sets, list(catalogue.sets), _("limit set"))
    tests = _tests(record, scope, parameters, points)
    wells = _wells(record, scope, points)
    numbers = {well.id for well in wells}
    units = {unit.id: unit for unit in record.units if unit.well in numbers}
    labs = {sample.lab for sample in tests.kept_samples}
    labs |= {result.lab for result in tests.kept_results}
    numbered = {lab.id for lab in record.labs if lab.name in labs}
    at = {point.id for point in points}
    events = tuple(event for event in record.events if event.well in numbers)
    happened = {event.id for event in events}
    return replace(
        record,
        wells=wells,
        points=points,
        units=tuple(units.values()),
        services=tuple(service for service in record.services if service.unit in units),
        labs=tuple(lab for lab in record.labs if lab.name in labs),
        prices=tuple(price for price in record.prices if price.lab in numbered),
        events=events,
        plans=tuple(plan for plan in record.plans if plan.point in at),
        expenses=tuple(expense for expense in record.expenses if expense.well in numbers),
        intervals=tuple(interval for interval in record.intervals if interval.well in numbers),
        answers=tuple(answer for answer in record.answers if answer.event in happened),
        documents=_documents(record, tests, numbers),
        settings={**record.settings, "limit_sets": " ".join(scope.sets)}
        if scope.sets
        else record.settings,
        tests=tests,
        drawn=tuple(one for one in tests.kept_samples if one.awaited and not one.struck),
        whole=record.whole or record,
    )


def _points(record: Record, scope: Scope) -> tuple[Point, ...]:
    wells = {well.id: well.name for well in record.wells}
    _require(scope.wells, list(wells.values()), "well")
    _require(scope.points, [point.name for point in record.points], _("sampling point"))
    return tuple(
        point
        for point in record.points
        if (not scope.points or point.name in scope.points)
        and (not scope.wells or wells[point.well] in scope.wells)
    )


def _tests(
    record: Record, scope: Scope, parameters: frozenset[str], points: tuple[Point, ...]
) -> Loaded:
    """The samples at chosen points in the chosen time with a chosen reading, and the readings."""
    at = {point.id for point in points}

    def is_chosen(test: Sample | Result) -> bool:
        day = test.collected.day
        return (
            test.point in at
            and (scope.since is None or scope.since <= day)
            and (scope.until is None or day <= scope.until)
        )

    results = tuple(
        result
        for result in record.results(with_struck=True)
        if is_chosen(result) and (not parameters or result.parameter in parameters)
    )
    shown = {result.sample for result in results}
    samples = tuple(
        sample
        for sample in record.samples(with_struck=True)
        if is_chosen(sample) and (not parameters or sample.id in shown)
    )
    return Loaded(samples, results)


def _wells(record: Record, scope: Scope, points: tuple[Point, ...]) -> tuple[Well, ...]:
    """The wells that have a chosen point, or are chosen themselves."""
    kept = {point.well for point in points}
    shown = [
        well
        for well in record.wells
        if well.id in kept or (not scope.points and (not scope.wells or well.name in scope.wells))
    ]
    numbers = {well.id for well in shown}
    return tuple(
        well if well.replaces in numbers else replace(well, replaces=None) for well in shown
    )


def _documents(record: Record, tests: Loaded, wells: set[int]) -> tuple[Document, ...]:
    """Documents of wells, and of tests that are shown whole: another's would tell the rest."""
    shown = Counter(result.sample for result in tests.kept_results)
    entered = Counter(result.sample for result in record.results(with_struck=True))
    whole = {
        sample.id for sample in tests.kept_samples if shown[sample.id] in {0, entered[sample.id]}
    }
    return tuple(
        document
        for document in record.documents
        if document.well in wells or document.sample in whole
    )


def left_out(record: Record, part: Record, scope: Scope, catalogue: Catalogue) -> LeftOut:
    """How much of a record a part of it does not show."""
    samples, results = record.samples(), record.results()
    wells = {point.id: point.well for point in record.points}
    tested: dict[tuple[int, str], date] = {}
    for one in results:
        if one.reading.kind is not Kind.NONE:
            tested[wells[one.point], one.parameter] = one.collected.day  # in order of time
    return LeftOut(
        tests=len(samples) - len(part.samples()),
        of_tests=len(samples),
        struck=_struck(record) - _struck(part),
        readings=len(results) - len(part.results()),
        of_readings=len(results),
        chosen=tuple(_chosen(scope, catalogue)),
        tested=tested,
    )


def _struck(record: Record) -> int:
    return sum(bool(sample.struck) for sample in record.samples(with_struck=True))


def _chosen(scope: Scope, catalogue: Catalogue) -> list[str]:
    said = []
    if scope.wells:
        said.append(_("of the wells only {names}").format(names=listed(scope.wells)))
    if scope.points:
        said.append(_("of the sampling points only {names}").format(names=listed(scope.points)))
    if scope.parameters:
        keys = [_key(name, catalogue) for name in scope.parameters]
        names = [_(catalogue.parameters[key].name) for key in dict.fromkeys(keys)]
        said.append(_("of the parameters only {names}").format(names=listed(names)))
    if scope.since:
        said.append(_("no test drawn before {day}").format(day=paper.day(scope.since)))
    if scope.until:
        said.append(_("no test drawn after {day}").format(day=paper.day(scope.until)))
    return said


def _key(name: str, catalogue: Catalogue) -> str:
    found = catalogue.parameters.get(name) or catalogue.find(name)
    if found is None:
        raise Fault(
            _("Wellbook knows no parameter {name}: 'wellbook status' lists those tested.").format(
                name=name
            )
        )
    return found.key


def _require(chosen: tuple[str, ...], known: list[str], what: str) -> None:
    for name in chosen:
        if name not in known:
            raise Fault(
                _("There is no {what} {name}; there is: {known}.").format(
                    what=what, name=name, known=", ".join(known) or _("none")
                )
            )
