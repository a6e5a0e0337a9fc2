"""What `status` and `due` answer as plain data: the JSON contract."""

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from wellbook.book.rows import Point, Well
from wellbook.planning.advice import Told
from wellbook.planning.overview import WellOverview
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.costs import YearOfCosts
from wellbook.planning.upkeep.due import UpkeepItem, due_now
from wellbook.water.sampling.intervals import PanelDue
from wellbook.water.statistics.trend_power import AIM, Outlook
from wellbook.water.values.limits import Limit, Rule
from wellbook.water.values.readings import Flag
from wellbook.water.verdicts.judge import Judgement
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.wording.reasons import why

Facts = dict[str, Any]
Said = Mapping[int, Told]  # by point
Powers = Mapping[tuple[int, str], Outlook]  # by point and parameter
Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]


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
                        "cautions": caution_facts(said.get(one.point.id)),
                    }
                    for one in well.points
                ],
            }
            for well in wells
        ],
    }


def caution_facts(said: Told | None) -> list[Facts]:
    """What is said of a point's water; nothing where nothing was told."""
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


def cost_facts(years: Sequence[YearOfCosts]) -> list[Facts]:
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


def due_facts(on: date, dues: Dues, upkeep: Sequence[UpkeepItem] = ()) -> Facts:
    """What is due on a day, panels before upkeep; what is planned for later is left out."""
    return {
        "on": on.isoformat(),
        "due": [*_panel_facts(on, dues), *(_upkeep(item, on) for item in due_now(upkeep, on))],
    }


def _upkeep(item: UpkeepItem, on: date) -> Facts:
    """Upkeep has no point, parameters or case; `upkeep` is `mend` for what was found bad."""
    asked = max(item.due, on).isoformat()
    why = words.head(item, on)
    return {
        "well": item.well.name,
        "point": "",
        "upkeep": item.done_as if item.is_fault else item.key,
        "unit": item.unit.name if item.unit else "",
        "item": item.key if item.is_fault else "",
        "done_as": item.done_as,
        "what": item.what,
        "who": item.who,
        "caution": item.caution,
        "source": item.source,
        "parameters": [],
        "case": "",
        "last": item.last.isoformat() if item.last else None,
        "due": item.due.isoformat(),
        "overdue_days": item.overdue_days,
        "used": _used(item),
        "suggested": {"from": asked, "to": asked, "day": None, "why": why},
    }


def _used(item: UpkeepItem) -> Facts | None:
    """How much of what it lasts for is used; `measured` is None where no meter was read."""
    used = item.used
    if used is None:
        return None
    told = None if used.measured is None else f"{used.measured:.0f} {used.of.measure}"
    return {"of": str(used.of), "measured": told, "until": used.day.isoformat()}


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
