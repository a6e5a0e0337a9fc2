"""What is due at each point of a well: planned panels, follow-ups of events, open cases."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import partial

from wellbook.book.record import Record
from wellbook.book.rows import Plan, Point, Well
from wellbook.planning.advice import people
from wellbook.planning.cases import figure_dues, tests_of
from wellbook.planning.frequencies import ONLY_NEAR, Advised, advised
from wellbook.planning.lab.awaited import with_draws
from wellbook.planning.settings import calendar, interval, scheme
from wellbook.planning.visits import on_visits
from wellbook.support.message import message
from wellbook.water.sampling.case_due import again_due, case_due, case_key, raw_too
from wellbook.water.sampling.cases import Step, cases, step
from wellbook.water.sampling.dated_events import Happening, happening
from wellbook.water.sampling.due import Because, Outlook, PanelDue
from wellbook.water.sampling.followups import Tap, follow_ups
from wellbook.water.sampling.inspection import BAD, FOUND_BAD, PUT_RIGHT
from wellbook.water.sampling.intervals import panel_due
from wellbook.water.values.catalogue import Catalogue, Panel
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag, Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.bacteria import says_nothing
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording import dues

ALWAYS = ("bacteria", "nitrate")  # planned from the first day, tested or not
_OPENED = frozenset({"media", "cartridge", "lamp", "membrane", "sanitised"})
_ABOUT = timedelta(days=14)  # a case’s sample so soon after serves as well
_FAILED = "failed"  # what is noted of a unit that did no work for a while

Days = dict[str, list[date]]
Records = Mapping[int, PointRecord]  # by point


def outlook(record: Record, catalogue: Catalogue, today: date) -> Outlook:
    """The household's way of planning, as of a day."""
    return Outlook(today, scheme(record.settings), calendar(record.settings, today), catalogue)


def well_dues(
    record: Record, well: Well, known: Records, ahead: Outlook
) -> dict[int, tuple[PanelDue, ...]]:
    """What is due at each point of a well: what is urgent first, then by day.

    Args:
        record: The record.
        well: The well.
        known: The results at its points up to the day of `ahead`.
        ahead: The day, the way to the lab and the reference data.
    """
    points = record.points_of(well.id)
    postponed = {
        (plan.point, plan.panel): until
        for point in points
        for plan in record.plans_of(point.id)
        if (until := _put_off(plan)) is not None
    }
    days = {point.id: days_tested(known[point.id], ahead.catalogue) for point in points}
    causes = [one for one in happenings(record, well) if one.first <= ahead.today]
    taps = [Tap(point.id, point.treated, point.place, days[point.id]) for point in points]
    asked = follow_ups(causes, taps, ahead, postponed)
    opened = _case_dues(points, known, causes, ahead, postponed)
    figures = figure_dues(record, well, known, taps, ahead, people(record, ahead.today))
    found = {
        point.id: with_draws(
            record,
            ahead.catalogue,
            point,
            (
                *opened.get(point.id, ()),
                *(
                    _postponed(one, postponed.get((point.id, one.panel.key)), ahead)
                    for one in figures.get(point.id, ())
                ),
                *_not_covered(asked.get(point.id, ()), opened.get(point.id, ())),
                *_planned(record, point, days[point.id], ahead),
            ),
            ahead.today,
        )
        for point in points
    }
    return {number: _said_in_order(dues) for number, dues in on_visits(found, ahead).items()}


def _postponed(due: PanelDue, until: date | None, ahead: Outlook) -> PanelDue:
    """A sample of a case, put off as the household wants it."""
    return due if until is None or until <= due.due else due.put_off(until, ahead)


def days_tested(record: PointRecord, catalogue: Catalogue) -> Days:
    """Days on which each parameter was tested, without tests that say nothing."""
    return {
        key: [one.collected.day for one in rows if _counts(one, catalogue)]
        for key, rows in record.histories.items()
    }


def happenings(record: Record, well: Well) -> tuple[Happening, ...]:
    """What happened to a well and its treatment units, as far as its days can be read."""
    found = [
        happening(
            f"event {one.id}",
            one.kind,
            one.day,
            until=one.until,
            text=one.text,
            private=one.is_about_people,
        )
        for one in record.events_of(well.id)
    ]
    for unit in record.units_of(well.id):
        key, text = f"unit {unit.id}", f"{unit.name} {unit.kind}"
        about = partial(happening, text=text, targets=tuple(unit.target.split()), name=unit.name)
        found.append(about(key, "unit installed", unit.installed))
        if not unit.removed:
            found.append(about(key, "unit in use", unit.installed))
            found += [
                about(f"service {one.id}", "unit serviced", one.day, until=one.until)
                for one in record.services_of(unit.id)
                if one.kind in _OPENED
            ]
            found += [
                about(f"service {one.id}", "unit failed", one.day, until=one.until)
                for one in record.services_of(unit.id)
                if one.kind == _FAILED
            ]
    return tuple(filter(None, (*found, *_inspected(record, well))))


def _inspected(record: Record, well: Well) -> Iterator[Happening | None]:
    """What inspections found bad, and that it was put right."""
    days = {event.id: event.day for event in record.events_of(well.id)}
    for one in record.answers:
        if one.event in days and one.answer == BAD:
            yield happening(f"answer {one.id}", FOUND_BAD, days[one.event], text=one.item)
            if one.mended:
                yield happening(f"mended {one.id}", PUT_RIGHT, one.mended, text=one.item)


def _counts(result: Result, catalogue: Catalogue) -> bool:
    reading = result.reading
    if reading.kind is Kind.NONE or Flag.REJECTED in reading.flags:
        return False
    return not says_nothing(result, catalogue)


def _case_dues(
    points: Sequence[Point],
    known: Records,
    causes: Sequence[Happening],
    ahead: Outlook,
    postponed: Mapping[tuple[int, str], date],
) -> dict[int, list[PanelDue]]:
    found: dict[int, list[PanelDue]] = {}
    tests = {point.id: tests_of(known[point.id], ahead.catalogue) for point in points}
    raw = next((point for point in points if not point.treated), None)
    for point in points:
        case = next(
            (one for one in cases(tests[point.id], causes, ahead.scheme) if not one.closed), None
        )
        if case is None:
            found.setdefault(point.id, []).extend(filter(None, [again_due(tests[point.id], ahead)]))
            continue
        now = step(case, ahead.scheme)
        put_off = postponed.get((point.id, case_key(case, now)))
        found.setdefault(point.id, []).append(case_due(case, ahead, put_off))
        if point.treated and raw and now is Step.CONFIRM:
            more = raw_too(case, ahead, tests[raw.id])
            found.setdefault(raw.id, []).extend(filter(None, [more]))
    return found


def _not_covered(asked: Iterable[PanelDue], opened: Sequence[PanelDue]) -> Iterator[PanelDue]:
    """Follow-ups that an open case does not ask for already, about as soon."""
    for one in asked:
        soon = [each for each in opened if each.due <= one.due + _ABOUT]
        if not set(one.panel.core) <= {key for each in soon for key in each.panel.core}:
            yield one


def planned(record: Record, catalogue: Catalogue, point: Point, days: Days) -> tuple[Plan, ...]:
    """The household's plans at a point, and the usual ones (number 0) of other panels.

    A plan never takes another panel's place; one with 0 months (once) lets its own panel go.
    """
    own = tuple(plan for plan in record.plans_of(point.id) if plan.panel in catalogue.panels)
    named = {plan.panel for plan in own}
    kinds = {event.kind for event in record.events_of(point.well)}
    always = ALWAYS if _is_never_left_out(record, point) else ()
    usual = _usual(catalogue, point, days, interval(record.settings), kinds, always)
    return (*own, *(_as_advised(plan, record, point) for plan in usual if plan.panel not in named))


def _as_advised(plan: Plan, record: Record, point: Point) -> Plan:
    """A usual plan, sooner where the kind of well or the place ask for it more than once a year."""
    sooner = _advised(record, point, plan.panel)
    months = min(plan.months, *(one.months for one in sooner)) if sooner else plan.months
    return replace(plan, months=months)


def _advised(record: Record, point: Point, panel: str) -> tuple[Advised, ...]:
    log = next((well.construction for well in record.wells if well.id == point.well), {})
    return advised(record.settings, log, panel)


def _is_never_left_out(record: Record, point: Point) -> bool:
    """Whether what is always planned is planned here: raw water, or the first tap where none is."""
    points = record.points_of(point.well)
    return not point.treated or (all(each.treated for each in points) and point == points[0])


def _planned(record: Record, point: Point, days: Days, ahead: Outlook) -> Iterator[PanelDue]:
    for plan in planned(record, ahead.catalogue, point, days):
        panel = ahead.catalogue.panels[plan.panel]
        found = _with_advice(plan, panel, days, ahead, record.begun)
        if found is not None:
            reasons = _advised(record, point, panel.key)
            is_asked = bool(reasons) and reasons[0].months <= plan.months
            more = [message(Because.TEXT, text=one.why) for one in reasons if is_asked]
            yield replace(found, reasons=(*found.reasons, *more))


def _usual(
    catalogue: Catalogue,
    point: Point,
    days: Mapping[str, Sequence[date]],
    months: int,
    kinds: Collection[str],
    always: Collection[str],
) -> Iterator[Plan]:
    for panel in catalogue.panels.values():
        if ONLY_NEAR.get(panel.key, "") not in {"", *kinds}:
            continue  # its parameters were tested for another reason
        known = panel.months and panel.core and all(days.get(key) for key in panel.core)
        if panel.key in always or known:
            # Slow panels keep their own advice; the others walk through the seasons.
            yield Plan(0, point.id, panel.key, max(months, panel.months))


def _with_advice(
    plan: Plan, panel: Panel, days: Days, ahead: Outlook, begun: date | None
) -> PanelDue | None:
    way = ahead.calendar_for(panel)
    line = (panel, plan.months, days, ahead.today, ahead.scheme, way, _put_off(plan))
    found = panel_due(*line, asked_since=begun)
    if found and 0 < panel.months < plan.months:
        advice = message(Because.ADVISED_INTERVAL, n=panel.months, source=panel.source)
        return replace(found, reasons=(*found.reasons, advice))
    return found


def _put_off(plan: Plan) -> date | None:
    """The day to which a test was put off; the last one that a month or year may mean."""
    postponed = read_partial_date(plan.postponed)
    return postponed.last if postponed else None


def _said_in_order(found: Iterable[PanelDue]) -> tuple[PanelDue, ...]:
    order = sorted(found, key=lambda due: (not due.urgent, due.due, due.panel.key))
    return tuple(map(dues.worded, order))
