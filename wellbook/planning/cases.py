"""Open and closed cases of a well: bacteria, and figures over a limit."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from wellbook.book.record import Record
from wellbook.book.rows import Point, TreatmentUnit, Well
from wellbook.planning.settings import yardsticks
from wellbook.support import paths
from wellbook.support.translation import _
from wellbook.water.sampling.cases import Case, cases
from wellbook.water.sampling.dated_events import Happening
from wellbook.water.sampling.due import Outlook, PanelDue
from wellbook.water.sampling.exceedance_due import CaseAt, exceedance_dues, near_due
from wellbook.water.sampling.exceedances import (
    Exceedance,
    ExceedanceCase,
    Step,
    exceedance_cases,
    looks,
    read_exceedances,
)
from wellbook.water.sampling.followups import Tap
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.bacteria import WITH_BACTERIA, BacteriaTest, bacteria_tests
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording.dates import written
from wellbook.wording.dues import bacteria_rule, closes_when
from wellbook.wording.reference import listed

Records = Mapping[int, PointRecord]  # by point
_TANKS = frozenset({"carbon filter", "carbon tank", "arsenic filter", "anion exchange"})


@dataclass(frozen=True, slots=True)
class CaseFacts:
    """A case as people are told of it.

    Attributes:
        key: What tells it from others of its point.
        well: Name of the well.
        point: The sampling point.
        parameters: Keys of what was found.
        names: Their names.
        opened: Day of the sample that opened it.
        closed: Day of the sample that closed it; None while it is open.
        next: What is wanted next, and by when.
        closes_when: The rule by which it closes.
        is_outside: Whether its limits have a lower end, too: nothing is told as over them.
        is_preliminary: Whether it rests on what a lab told before its report.
    """

    key: str
    well: str
    point: Point
    parameters: tuple[str, ...]
    names: tuple[str, ...]
    opened: date
    closed: date | None
    next: tuple[tuple[str, date], ...]
    closes_when: str
    is_outside: bool = False
    is_preliminary: bool = False

    @property
    def why(self) -> str:
        """What opened it, and how it ended."""
        if self.is_outside:
            said = _("{names} found outside its limits on {day}.")
        elif self.is_figure:
            said = _("{names} found over a limit on {day}.")
        else:
            said = _("{names} found on {day}.")
        told = said.format(names=", ".join(self.names), day=written(self.opened))
        if self.is_preliminary:
            told += " " + _("Preliminary, by telephone: the lab’s report is still to come.")
        if self.closed:
            return f"{told} " + _("Closed on {day}.").format(day=written(self.closed))
        return told

    @property
    def is_figure(self) -> bool:
        """Whether it is about a figure over a limit and not about bacteria."""
        return not self.key.startswith("bacteria")


@lru_cache(maxsize=1)
def exceedances() -> tuple[Exceedance, ...]:
    """What figures over a limit ask for."""
    return read_exceedances(paths.resources() / "exceedances.csv")


def figure_dues(
    record: Record,
    well: Well,
    known: Records,
    taps: Sequence[Tap],
    ahead: Outlook,
    who: frozenset[str],
) -> dict[int, list[PanelDue]]:
    """What figures over a limit, or near one, ask for at each point of a well."""
    found: dict[int, list[PanelDue]] = {}
    by = _by(record, ahead)
    for row in exceedances():
        opened: list[CaseAt] = []
        for tap in taps:
            seen = looks(row, known[tap.point], *by, who)
            case = next((one for one in exceedance_cases(row, seen) if not one.closed), None)
            if case is not None:
                units = list(_against(record, well, row))
                since, tanks = _treated_since(units), _has_tanks(units)
                opened.append(CaseAt(case, tap, taps, since, who, tanks))
            elif near := near_due(row, seen, ahead, who):
                found.setdefault(tap.point, []).append(near)
        for point, due in _of_taps(opened, ahead):
            found.setdefault(point, []).append(due)
    return found


def _of_taps(opened: Sequence[CaseAt], ahead: Outlook) -> Iterator[tuple[int, PanelDue]]:
    """The samples that cases of one group ask for; a tap with its own case is left to that."""
    own = {at.tap.point for at in opened}
    asked: set[int] = set()
    for at in opened:
        tested = {tap.point: tap.days for tap in at.taps}
        for point, due in exceedance_dues(at, ahead):
            is_own = point == at.tap.point
            if not is_own and (point in own or point in asked):
                continue
            is_done = at.step is Step.CONFIRM and any(
                day >= at.case.opened
                for key in due.panel.core
                for day in tested[point].get(key, ())
            )
            if is_own or not is_done:
                asked.add(point)
                yield point, due


def case_facts(
    record: Record,
    well: Well,
    known: Records,
    ahead: Outlook,
    dues: Mapping[int, Sequence[PanelDue]],
    who: frozenset[str],
) -> tuple[CaseFacts, ...]:
    """Every case at the points of a well, open ones first, the newest in front.

    Args:
        record: The record.
        well: The well.
        known: The results at its points up to the day of `ahead`.
        ahead: The day, the way to the lab and the reference data.
        dues: What is due at each point, by its number.
        who: Who drinks the water.
    """
    from wellbook.planning.due import happenings

    causes = [one for one in happenings(record, well) if one.first <= ahead.today]
    found: list[CaseFacts] = []
    points, by = record.points_of(well.id), _by(record, ahead)
    within = (well.name, dues, {point.id: point.name for point in points})
    for point in points:
        found += _bacteria(point, known, causes, ahead, within)
        for row in exceedances():
            seen = looks(row, known[point.id], *by, who)
            found += [_figures(point, case, ahead, within) for case in exceedance_cases(row, seen)]
    return tuple(sorted(found, key=lambda one: (one.closed is not None, -one.opened.toordinal())))


# The well's name, what is due at each point, and the points' names.
_Context = tuple[str, Mapping[int, Sequence[PanelDue]], Mapping[int, str]]


def _bacteria(
    point: Point, known: Records, causes: Sequence[Happening], ahead: Outlook, within: _Context
) -> Iterator[CaseFacts]:
    tests = tests_of(known[point.id], ahead.catalogue)
    names = {one.name: key for key, one in ahead.catalogue.parameters.items()}
    for case in cases(tests, causes, ahead.scheme):
        key = f"bacteria {case.opened.isoformat()}"
        parameters = tuple(names[name] for name in case.names if name in names)
        facts = _facts(key, point, (parameters, case.names), case, bacteria_rule(), within)
        yield replace(facts, is_preliminary=_rests_on_words(known[point.id], case))


def _rests_on_words(measured: PointRecord, case: Case) -> bool:
    """Whether no report has confirmed a finding of an open case yet."""
    found = [
        Flag.PRELIMINARY in result.reading.flags
        for key in WITH_BACTERIA
        for result in measured.history(key)
        if result.collected.day in case.findings
        and result.reading.is_detect
        and Flag.REJECTED not in result.reading.flags
    ]
    return case.closed is None and bool(found) and all(found)


def _figures(point: Point, case: ExceedanceCase, ahead: Outlook, within: _Context) -> CaseFacts:
    key = f"{case.row.key} {case.opened.isoformat()}"
    known = ahead.catalogue.parameters
    names = tuple(known[one].name for one in case.found)
    facts = _facts(key, point, (case.found, names), case, closes_when(case.row), within)
    return replace(facts, is_outside=case.row.side == "outside")


def _facts(
    key: str,
    point: Point,
    found: tuple[tuple[str, ...], tuple[str, ...]],
    case: Case | ExceedanceCase,
    rule: str,
    within: _Context,
) -> CaseFacts:
    well, *_rest = within
    wanted = () if case.closed else tuple(_next(key, point, within))
    return CaseFacts(key, well, point, *found, case.opened, case.closed, wanted, rule)


def _next(key: str, point: Point, within: _Context) -> Iterator[tuple[str, date]]:
    """What a case asks for and at which taps, at its own point first."""
    _well, dues, names = within
    taps: dict[tuple[str, date], list[str]] = {}
    for number in sorted(dues, key=lambda number: number != point.id):
        for due in dues[number]:
            if due.case == key:
                step = (f"{due.panel.name}. {due.why}", due.due)
                taps.setdefault(step, []).append(names[number])
    for (what, day), at in taps.items():
        yield _("{points}: {what}").format(points=listed(at), what=what), day


def tests_of(measured: PointRecord, catalogue: Catalogue) -> tuple[BacteriaTest, ...]:
    """The bacteria samples of a point in order of time."""
    results = (result for key in WITH_BACTERIA for result in measured.history(key))
    return bacteria_tests(results, catalogue)


def _by(record: Record, ahead: Outlook) -> tuple[Catalogue, tuple[str, ...], date]:
    return *yardsticks(record.settings, ahead.catalogue), ahead.today


def _against(record: Record, well: Well, row: Exceedance) -> Iterator[TreatmentUnit]:
    """Units in use against a group's parameters, with a day on which they came."""
    for unit in record.units_of(well.id):
        is_against = not unit.removed and set(unit.target.split()) & set(row.parameters)
        if is_against and read_partial_date(unit.installed) is not None:
            yield unit


def _treated_since(units: Iterable[TreatmentUnit]) -> date | None:
    """First day of one of some units; None without one."""
    days = (read_partial_date(unit.installed) for unit in units)
    return min((day.first for day in days if day), default=None)


def _has_tanks(units: Iterable[TreatmentUnit]) -> bool:
    """Whether two of some units hold media and stand in series."""
    return len({unit.place for unit in units if unit.kind.casefold() in _TANKS}) > 1
