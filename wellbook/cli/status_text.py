"""What `status` and `due` answer: once as plain data (the JSON contract), once as lines to read."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import TYPE_CHECKING, Any

from wellbook.book.rows import Point, Well
from wellbook.planning.between import since_test_before
from wellbook.planning.overview import WellOverview
from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.outcomes import AIM, CONFIDENCE, UNSTEADY, Outlook
from wellbook.water.values.limits import Limit, LimitSet, Rule
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.forecasts import highest_end
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.point_record import TwoVerdicts
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.wording import facts, forecasts, latest_change, trends, verdicts
from wellbook.wording.consulting import levels
from wellbook.wording.reasons import why

if TYPE_CHECKING:
    from wellbook.book.record import Record
    from wellbook.planning.advice import Told
    from wellbook.planning.upkeep.costs import YearOfCosts
    from wellbook.planning.upkeep.due import UpkeepItem
    from wellbook.water.sampling.intervals import PanelDue

Facts = dict[str, Any]
Said = Mapping[int, "Told"]  # by point
Powers = Mapping[tuple[int, str], Outlook]  # by point and parameter
Dues = Sequence[tuple[Well, Point, Sequence["PanelDue"]]]


def status_facts(
    name: str, on: date, wells: Sequence[WellOverview], said: Said, powers: Powers
) -> Facts:
    """Per point its cautions, and per parameter the latest reading, both verdicts, the trend."""
    return {
        "book": name,
        "on": on.isoformat(),
        "wells": [
            {
                "name": well.well.name,
                "points": [
                    {
                        "name": one.point.name,
                        "treated": one.point.treated,
                        "parameters": [
                            _standing(each)
                            | {"power": _power(powers.get((one.point.id, each.parameter.key)))}
                            for each in one.by_urgency
                            if isinstance(each, Standing)
                        ],
                        "sums": [
                            _sum(each) for each in one.by_urgency if isinstance(each, SumStanding)
                        ],
                        "unknown": list(one.unknown),
                        "cautions": _cautions(said.get(one.point.id)),
                    }
                    for one in well.points
                ],
            }
            for well in wells
        ],
    }


def _cautions(said: "Told | None") -> list[Facts]:
    if said is None:
        return []
    happened = [
        {"about": [], "text": " ".join((one.text, *one.steps)), "urgent": True, "people": []}
        | {"source": one.source}
        for one in said.situations
    ]
    return happened + [
        {
            "about": list(one.names),
            "text": one.text,
            "urgent": one.urgent,
            "people": list(one.people),
            "source": one.source,
        }
        for one in said.advice
    ]


def _standing(standing: Standing) -> Facts:
    latest, trend = standing.latest, standing.trend
    return {
        "key": standing.parameter.key,
        "name": standing.parameter.name,
        "n": standing.n,
        "latest": {
            "collected": latest.collected.iso(),
            "reported": latest.reading.text,
            "unit": latest.reading.unit,
            "basis": latest.reading.basis,
            "preliminary": Flag.PRELIMINARY in latest.reading.flags,
        },
        "then": _judgement(standing.then),
        "now": _judgement(standing.now),
        "adopted": _judgement(standing.adopted) if standing.adopted else None,
        "trend": {
            "says": trend.says,
            "test": trend.test,
            "n": trend.n,
            "p": trend.p,
            "slope_per_year": trend.slope_per_year,
            "unit": trend.unit,
        },
        "forecast": _forecast(standing),
        "level": _level(standing),
    }


def _level(standing: Standing) -> Facts | None:
    """The history in a few figures; null with too few tests. An end that is open is null.

    `lower` and `upper` are one-sided limits of the median, of what neither rises nor falls.
    """
    if standing.summary is None:
        return None
    spread, level = standing.summary.spread, standing.summary.level
    moves = standing.trend.says in UNSTEADY
    limit = highest_end(standing.now.limit, standing.parameter)
    return {
        "n": spread.n,
        "non_detects": spread.undetected,
        "off_scale": spread.off_scale,
        "lower_quartile": spread.lower_quartile,
        "median": spread.median,
        "upper_quartile": spread.upper_quartile,
        "unit": spread.unit,
        "lower": None if moves else level.lower,
        "upper": None if moves else level.upper,
        "confidence": None if moves else CONFIDENCE,
        "limit": limit,
        "stands": None if moves or limit is None else level.stands(limit),
    }


def _forecast(standing: Standing) -> Facts | None:
    """When the weightiest limit is reached; `to` is null where it lies beyond what can be told."""
    if not standing.forecasts:
        return None
    found = standing.forecasts[0]
    latest = found.crossing.latest
    return {
        "says": str(found.crossing.says),
        "limit": found.crossing.limit,
        "unit": found.unit,
        "set": found.limit.set,
        "day": found.crossing.day.isoformat(),
        "from": found.crossing.earliest.isoformat(),
        "to": None if latest is None else latest.isoformat(),
        "wider_than_90_percent": found.crossing.is_wide,
        "roughly_90_percent": found.crossing.is_rough,
        "tests_in_one_season": found.crossing.one_season,
    }


def _power(found: Outlook | None) -> Facts | None:
    """How many more tests would tell; `tests` is null where no number in reach does."""
    if found is None:
        return None
    return {
        "tests": found.further,
        "years_between": found.pace,
        "slope_per_year": found.slope_per_year,
        "unit": found.unit,
        "chance": AIM,
    }


def _sum(standing: SumStanding) -> Facts:
    added = standing.sum
    return {
        "key": standing.parameter.key,
        "name": standing.parameter.name,
        "day": standing.day.isoformat(),
        "least": str(added.low),
        "most": None if added.high is None else str(added.high),
        "unit": added.unit,
        "basis": added.basis,
        "then": _judgement(standing.then),
        "now": _judgement(standing.now),
        "adopted": _judgement(standing.adopted) if standing.adopted else None,
    }


def _judgement(judgement: Judgement) -> Facts:
    limit = judgement.limit
    facts: Facts = {"verdict": str(judgement.verdict), "why": why(judgement)}
    if limit is None:
        return facts | dict.fromkeys(("limit", "unit", "basis", "set", "kind", "source", "since"))
    return facts | {
        "limit": limit_text(limit),
        "unit": limit.unit,
        "basis": limit.basis,
        "set": limit.set,
        "kind": str(limit.kind),
        "source": limit.source,
        "since": limit.start,
    }


def limit_text(limit: Limit) -> str:
    """A limit's figure without its unit, alike in every language: `10`, `6.5 to 8.5`, `absent`."""
    if limit.rule is Rule.ABSENT:
        return "absent"
    if limit.rule is Rule.RANGE:
        return f"{limit.low} to {limit.high}"
    return str(limit.high)


def cost_facts(years: "Sequence[YearOfCosts]") -> list[Facts]:
    """What was paid, by year and currency; `year` is null for what has no date."""
    return [
        {
            "year": one.year,
            "currency": one.currency,
            "total": f"{one.total:f}",
            "n": one.n,
            "parts": {str(what): f"{amount:f}" for what, amount in one.parts.items()},
        }
        for one in years
    ]


def due_facts(on: date, dues: Dues, upkeep: "Sequence[UpkeepItem]" = ()) -> Facts:
    """What is due on a day, panels before upkeep; what is planned for later is left out."""
    from wellbook.cli.upkeep_text import upkeep_facts
    from wellbook.planning.upkeep.due import due_now

    return {
        "on": on.isoformat(),
        "due": [*_panel_facts(on, dues), *(upkeep_facts(item, on) for item in due_now(upkeep, on))],
    }


def _panel_facts(on: date, dues: Dues) -> list[Facts]:
    return [
        {
            "well": well.name,
            "point": point.name,
            "panel": one.panel.name,
            "parameters": list(one.panel.core),
            "case": one.case,
            "last": one.last.isoformat() if one.last else None,
            "due": one.due.isoformat(),
            "overdue_days": one.overdue_days,
            "suggested": {
                "from": one.window[0].isoformat(),
                "to": one.window[1].isoformat(),
                "day": one.day.isoformat() if one.day else None,
                "why": one.why,
            },
        }
        for well, point, panels in dues
        for one in panels
        if one.due <= on
    ]


def status_lines(
    record: "Record",
    on: date,
    wells: Sequence[WellOverview],
    sets: Mapping[str, LimitSet],
    told: Said,
    powers: Powers,
) -> Iterator[str]:
    """The same facts to read, each verdict with its limit, source and date."""
    yield _("As of {on}. Limits bind public supplies; here they are yardsticks.").format(
        on=on.isoformat()
    )
    for well in wells:
        for one in well.points:
            side = _("treated water") if one.point.treated else _("raw water")
            yield ""
            yield f"{well.well.name}, {one.point.name} ({side})"
            for caution in _cautions(told.get(one.point.id)):
                about = f"{', '.join(caution['about'])}: " if caution["about"] else ""
                yield f"  ! {about}{caution['text']}"
            for standing in one.by_urgency:
                if isinstance(standing, Standing):
                    happened = _happened(record, well.well.id, standing)
                    yield from _standing_lines(standing, sets, on, happened)
                    more = powers.get((one.point.id, standing.parameter.key))
                    if more:
                        sentence = trends.outlook(more)
                        yield "      " + _("more tests: {sentence}").format(sentence=sentence)
                else:
                    yield from _sum_lines(standing, sets)
            if not (one.by_urgency or one.unknown):
                yield "  " + _("No test of this water is in the book.")
            for name in one.unknown:
                said = _("{name}: kept as printed; Wellbook has no limits for this name")
                yield f"  {said.format(name=name)}"


def _happened(record: "Record", well: int, standing: Standing) -> list[str]:
    """What happened to a well since the test before of a parameter, in words."""
    return since_test_before(record, well, standing.change) if standing.change else []


def _standing_lines(
    standing: Standing, sets: Mapping[str, LimitSet], on: date, happened: Sequence[str]
) -> Iterator[str]:
    latest = standing.latest
    reading = latest.reading
    shown = facts.marked(facts.with_unit(reading.text, reading.unit, reading.basis), reading)
    said = ngettext(
        "{parameter}: {shown} on {day} ({n} test)",
        "{parameter}: {shown} on {day} ({n} tests)",
        standing.n,
    )
    day = str(latest.collected.day)
    yield "  " + said.format(parameter=standing.parameter.name, shown=shown, day=day, n=standing.n)
    yield from _both_lines(standing, sets)
    yield "      " + _("trend: {sentence}").format(sentence=trends.trend(standing.trend))
    if standing.summary and standing.summary.spread.least is not None:
        told = levels.summary(standing)
        yield "      " + _("in the long run: {sentence}").format(sentence=told)
    if standing.change and standing.change.before:
        changed = latest_change.paragraph(standing.change, happened)
        yield "      " + _("since the test before: {sentence}").format(sentence=changed)
    for found in standing.forecasts[:1]:
        told = forecasts.sentence(found, sets, today=on)
        yield "      " + _("ahead: {sentence}").format(sentence=told)


def _sum_lines(standing: SumStanding, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    yield (
        "  "
        + _("{parameter}, added up from the tests of {day}").format(
            parameter=standing.parameter.name, day=standing.day.isoformat()
        )
    )
    yield from _both_lines(standing, sets)


def _both_lines(both: TwoVerdicts, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    yield f"      {verdicts.by_today(judgement_line(both.now, sets))}"
    if both.adopted and both.adopted != both.now:
        yield "      " + _("By a limit to come: {judgement_line}").format(
            judgement_line=judgement_line(both.adopted, sets)
        )
    if both.then != both.now:
        yield f"      {verdicts.by_that_day(judgement_line(both.then, sets))}"


def judgement_line(judgement: Judgement, sets: Mapping[str, LimitSet]) -> str:
    """A verdict with its limit, set, source and date, and why where that needs saying."""
    limit = judgement.limit
    if limit is None:
        return " ".join(filter(None, (_("no limit in the chosen sets"), why(judgement))))
    name = sets[limit.set].name
    begins = _("starts on {day}") if judgement.verdict is Verdict.ADOPTED else _("since {day}")
    since = ", " + begins.format(day=limit.start) if limit.start else ""
    told = f" ({why(judgement)})" if judgement.reasons else ""
    word, kind = verdicts.word(judgement), verdicts.kind(limit.kind)
    return f"{word}, {facts.bound(limit)} ({kind}), {name}{since}: {limit.source}{told}"


def due_lines(on: date, dues: Dues, upkeep: "Sequence[UpkeepItem]" = ()) -> Iterator[str]:
    """What is due, tests before upkeep, and after it what comes next."""
    from wellbook.planning.upkeep import words
    from wellbook.planning.upkeep.due import due_now

    planned = [(well, point, one) for well, point, panels in dues for one in panels]
    now = [row for row in planned if row[2].due <= on]
    waiting = due_now(upkeep, on)
    if not planned:
        yield _("Nothing is planned yet: add a test, and its panels are planned from then on.")
    elif not now and not waiting:
        yield _("Nothing is due on {on}.").format(on=on.isoformat())
    elif not now:
        yield _("No test is due on {on}.").format(on=on.isoformat())
    for well, point, one in now:
        yield _("Due since {due}: {panel} at {well}, {point}.").format(
            due=one.due.isoformat(), panel=one.panel.name, well=well.name, point=point.name
        )
        yield f"  {one.why}"
    for item in waiting:
        yield _("Upkeep at {well}: {item}").format(well=item.well.name, item=words.head(item, on))
        yield f"  {words.advice(item)}"
    for well, point, one in planned:
        if one.due > on:
            yield _("Next: {panel} at {well}, {point} on {due}.").format(
                panel=one.panel.name, well=well.name, point=point.name, due=one.due.isoformat()
            )
    for item in upkeep:
        if item not in waiting:
            yield _("Next upkeep at {well}: {item}").format(
                well=item.well.name, item=words.head(item, on)
            )
