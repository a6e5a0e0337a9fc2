"""How a book stands on a day: each point, each parameter, and what is due."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book.book import Book
from wellbook.book.choices import calendar, interval, scheme, sets
from wellbook.book.rows import Plan, Point, Well
from wellbook.water.calendars import Calendar
from wellbook.water.catalogue import Catalogue, Panel
from wellbook.water.readings import Flag, Kind
from wellbook.water.results import Result
from wellbook.water.schedule import PanelDue, panel_due
from wellbook.water.seasons import Scheme
from wellbook.water.standing import Standing, stand
from wellbook.water.sum_standing import SumStanding, stand_sums

ALWAYS = ("bacteria", "nitrate")  # planned at a raw point from the first day


@dataclass(frozen=True, slots=True)
class PointOverview:
    """One sampling point: a standing for each parameter ever tested there, and what is due.

    Attributes:
        unknown: Names, as printed, of what the catalogue does not know; kept, never judged.
        sums: Sums over the latest samples that hold their parts, where a limit is on the sum.
    """

    point: Point
    standings: tuple[Standing, ...]
    due: tuple[PanelDue, ...]
    unknown: tuple[str, ...] = ()
    sums: tuple[SumStanding, ...] = ()


@dataclass(frozen=True, slots=True)
class WellOverview:
    """One well with its points in the order of the flow."""

    well: Well
    points: tuple[PointOverview, ...]


def overview(book: Book, catalogue: Catalogue, today: date) -> tuple[WellOverview, ...]:
    """Everything that is known of each well, as it stands on a day.

    Tests drawn after that day are left out, so that an earlier day shows the record of then.
    """
    chosen = sets(book, catalogue)
    return tuple(
        WellOverview(
            well,
            tuple(
                PointOverview(
                    point,
                    _standings(grouped, catalogue, chosen, today),
                    point_due(book, catalogue, point, today, grouped),
                    _unknown(grouped),
                    stand_sums(grouped, catalogue, chosen, today),
                )
                for point in book.points(well.id)
                for grouped in [histories(book, point, today)]
            ),
        )
        for well in book.wells()
    )


def due(
    book: Book, catalogue: Catalogue, today: date
) -> tuple[tuple[Well, Point, tuple[PanelDue, ...]], ...]:
    """What is planned at each point and when it is due, soonest first."""
    return tuple(
        (well, point, point_due(book, catalogue, point, today, histories(book, point, today)))
        for well in book.wells()
        for point in book.points(well.id)
    )


def histories(book: Book, point: Point, today: date) -> dict[str, list[Result]]:
    """All results at a point up to a day, by parameter key, each by day of collection."""
    grouped: dict[str, list[Result]] = {}
    for result in book.results(point=point.id):
        if result.collected.day <= today:
            grouped.setdefault(result.parameter, []).append(result)
    return grouped


def point_due(
    book: Book,
    catalogue: Catalogue,
    point: Point,
    today: date,
    grouped: Mapping[str, Sequence[Result]],
) -> tuple[PanelDue, ...]:
    """What is planned at a point and when it is due, soonest first."""
    days = {key: [r.collected.day for r in rows if _counts(r)] for key, rows in grouped.items()}
    plans = book.plans(point.id)
    chosen = plans or list(_usual(catalogue, point, days, interval(book)))
    if not chosen:
        return ()
    seasons, closed = scheme(book), calendar(book, today)
    found = (
        _with_advice(plan, catalogue.panels[plan.panel], days, today, seasons, closed)
        for plan in chosen
        if plan.panel in catalogue.panels
    )
    return tuple(sorted(filter(None, found), key=lambda one: (one.due, one.panel.key)))


def _standings(
    grouped: Mapping[str, Sequence[Result]],
    catalogue: Catalogue,
    chosen: Sequence[str],
    today: date,
) -> tuple[Standing, ...]:
    samples: dict[int, list[Result]] = {}
    for rows in grouped.values():
        for result in rows:
            samples.setdefault(result.sample, []).append(result)
    return tuple(
        stand(
            grouped[key],
            parameter,
            catalogue,
            chosen,
            today,
            beside=samples[max(grouped[key], key=lambda r: r.collected.order()).sample],
        )
        for key, parameter in catalogue.parameters.items()
        if key in grouped
    )


def _unknown(grouped: Mapping[str, Sequence[Result]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(result.name for result in grouped.get("", ())))


def _counts(result: Result) -> bool:
    reading = result.reading
    return reading.kind is not Kind.NONE and Flag.REJECTED not in reading.flags


def _usual(
    catalogue: Catalogue, point: Point, days: Mapping[str, Sequence[date]], months: int
) -> Iterable[Plan]:
    for panel in catalogue.panels.values():
        always = panel.key in ALWAYS and not point.treated
        known = panel.months and panel.core and all(days.get(key) for key in panel.core)
        if always or known:
            yield Plan(0, point.id, panel.key, months)


def _with_advice(
    plan: Plan,
    panel: Panel,
    days: Mapping[str, Sequence[date]],
    today: date,
    seasons: Scheme,
    closed: Calendar,
) -> PanelDue | None:
    postponed = date.fromisoformat(plan.postponed) if plan.postponed else None
    found = panel_due(panel, plan.months, days, today, seasons, closed, postponed)
    if found and 0 < panel.months < plan.months:
        advice = f"Advised interval: {panel.months} months ({panel.source})."
        return replace(found, why=f"{found.why} {advice}")
    return found
