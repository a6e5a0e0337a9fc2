"""Which part of a record a packet speaks of, and the record seen through that choice."""

from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from wellbook.book import Book
from wellbook.book.rows import (
    Document,
    Event,
    Lab,
    Plan,
    Point,
    Sample,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.wording import paper

if TYPE_CHECKING:
    from wellbook.sharing.redaction import Privacy


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


class Excerpt(Book):
    """A book of which only a part is seen; it can't be written to.

    What is said of a well and its treatment stays whole; the choice is one of tests and readings.

    Attributes:
        whole: The book that it is a part of.
        cover: What covers private words in it; None if nothing does.
    """

    cover: "Privacy | None" = None

    def __init__(self, book: Book, scope: Scope, catalogue: Catalogue) -> None:
        super().__init__(book._connection, book.path, is_readonly=True)  # noqa: SLF001  the same file
        self.whole = book
        self._scope = scope
        self._parameters = frozenset(_key(name, catalogue) for name in scope.parameters)
        self._point_numbers = _point_numbers(book, scope)
        _require(scope.sets, list(catalogue.sets), _("limit set"))

    def wells(self) -> list[Well]:
        """The wells that have a chosen point, or are chosen themselves."""
        kept = {one.well for one in self.points()}
        named, narrowed = self._scope.wells, self._scope.points
        shown = [
            one
            for one in super().wells()
            if one.id in kept or (not narrowed and (not named or one.name in named))
        ]
        numbers = {one.id for one in shown}
        return [one if one.replaces in numbers else replace(one, replaces=None) for one in shown]

    def points(self, well: int | None = None) -> list[Point]:
        """The chosen points."""
        return [one for one in super().points(well) if one.id in self._point_numbers]

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> list[Sample]:
        """The samples at chosen points in the chosen time, with a chosen reading."""
        kept = [
            one
            for one in super().samples(point, with_struck=with_struck)
            if one.point in self._point_numbers and self._in_time(one.collected.day)
        ]
        if not self._parameters:
            return kept
        shown = {one.sample for one in self.results(with_struck=True)}
        return [one for one in kept if one.id in shown]

    def results(
        self,
        point: int | None = None,
        parameter: str | None = None,
        sample: int | None = None,
        *,
        with_struck: bool = False,
    ) -> list[Result]:
        """The chosen readings."""
        return [
            one
            for one in super().results(point, parameter, sample, with_struck=with_struck)
            if one.point in self._point_numbers
            and self._in_time(one.collected.day)
            and (not self._parameters or one.parameter in self._parameters)
        ]

    def documents(self, sample: int | None = None, well: int | None = None) -> list[Document]:
        """Documents of wells, and of tests that are shown whole: another's would tell the rest."""
        wells = {one.id for one in self.wells()}
        shown = _count(self.results(with_struck=True))
        whole = {
            number
            for number, n in _count(super().results(with_struck=True)).items()
            if shown.get(number) == n
        }
        seen = {one.id for one in self.samples(with_struck=True)}
        bare = seen - shown.keys()
        return [
            one
            for one in super().documents(sample, well)
            if one.well in wells or one.sample in (whole | bare) & seen
        ]

    def events(self, well: int | None = None) -> list[Event]:
        """What happened to the wells shown."""
        wells = {one.id for one in self.wells()}
        return [one for one in super().events(well) if one.well in wells]

    def units(self, well: int | None = None) -> list[TreatmentUnit]:
        """The treatment units of the wells shown."""
        wells = {one.id for one in self.wells()}
        return [one for one in super().units(well) if one.well in wells]

    def services(self, unit: int | None = None) -> list[Service]:
        """What was done to these units."""
        units = {one.id for one in self.units()}
        return [one for one in super().services(unit) if one.unit in units]

    def labs(self) -> list[Lab]:
        """The labs that ran a test shown."""
        named = {one.lab for one in self.samples(with_struck=True)}
        named |= {one.lab for one in self.results(with_struck=True)}
        return [one for one in super().labs() if one.name in named]

    def plans(self, point: int | None = None) -> list[Plan]:
        """The plans of the chosen points."""
        return [one for one in super().plans(point) if one.point in self._point_numbers]

    def setting(self, key: str, default: str = "") -> str:
        """A choice of the household, or the limit sets chosen for this packet."""
        if key == "limit_sets" and self._scope.sets:
            return " ".join(self._scope.sets)
        return super().setting(key, default)

    def _in_time(self, day: date) -> bool:
        since, until = self._scope.since, self._scope.until
        return (since is None or since <= day) and (until is None or day <= until)


def left_out(book: Book, excerpt: Excerpt, scope: Scope, catalogue: Catalogue) -> LeftOut:
    """How much of the whole book an excerpt does not show."""
    samples, results = book.samples(), book.results()
    wells = {point.id: point.well for point in book.points()}
    tested: dict[tuple[int, str], date] = {}
    for one in results:
        if one.reading.kind is not Kind.NONE:
            tested[wells[one.point], one.parameter] = one.collected.day  # in order of time
    return LeftOut(
        tests=len(samples) - len(excerpt.samples()),
        of_tests=len(samples),
        struck=_struck(book) - _struck(excerpt),
        readings=len(results) - len(excerpt.results()),
        of_readings=len(results),
        chosen=tuple(_chosen(scope, catalogue)),
        tested=tested,
    )


def _struck(book: Book) -> int:
    return sum(bool(one.struck) for one in book.samples(with_struck=True))


def _chosen(scope: Scope, catalogue: Catalogue) -> list[str]:
    said = []
    if scope.wells:
        said.append(_("of the wells only {names}").format(names=_listed(scope.wells)))
    if scope.points:
        said.append(_("of the sampling points only {names}").format(names=_listed(scope.points)))
    if scope.parameters:
        keys = [_key(name, catalogue) for name in scope.parameters]
        names = [_(catalogue.parameters[key].name) for key in dict.fromkeys(keys)]
        said.append(_("of the parameters only {names}").format(names=_listed(names)))
    if scope.since:
        said.append(_("no test drawn before {day}").format(day=paper.day(scope.since)))
    if scope.until:
        said.append(_("no test drawn after {day}").format(day=paper.day(scope.until)))
    return said


def _listed(names: tuple[str, ...] | list[str]) -> str:
    *others, last = names
    return _("{others} and {last}").format(others=", ".join(others), last=last) if others else last


def _count(results: list[Result]) -> dict[int, int]:
    found: dict[int, int] = {}
    for one in results:
        found[one.sample] = found.get(one.sample, 0) + 1
    return found


def _key(name: str, catalogue: Catalogue) -> str:
    found = catalogue.parameters.get(name) or catalogue.find(name)
    if found is None:
        raise Fault(
            _("Wellbook knows no parameter {name}: 'wellbook status' lists those tested.").format(
                name=name
            )
        )
    return found.key


def _point_numbers(book: Book, scope: Scope) -> frozenset[int]:
    wells = {one.id: one.name for one in book.wells()}
    points = book.points()
    _require(scope.wells, list(wells.values()), "well")
    _require(scope.points, [one.name for one in points], _("sampling point"))
    return frozenset(
        one.id
        for one in points
        if (not scope.points or one.name in scope.points)
        and (not scope.wells or wells[one.well] in scope.wells)
    )


def _require(chosen: tuple[str, ...], known: list[str], what: str) -> None:
    for name in chosen:
        if name not in known:
            raise Fault(
                _("There is no {what} {name}; there is: {known}.").format(
                    what=what, name=name, known=", ".join(known) or _("none")
                )
            )
