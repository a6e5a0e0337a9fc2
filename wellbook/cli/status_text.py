"""What `status` and `due` answer: once as plain data (the JSON contract), once as lines to read."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from wellbook.book.copies import Preview
from wellbook.book.rows import Point, Well
from wellbook.planning.overview import WellOverview
from wellbook.water.sampling.intervals import PanelDue
from wellbook.water.values.limits import Limit, LimitSet, Rule
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding

Facts = dict[str, Any]
Dues = Sequence[tuple[Well, Point, Sequence[PanelDue]]]


def status_facts(name: str, on: date, wells: Sequence[WellOverview]) -> Facts:
    """Per point and parameter the latest reading, both verdicts and the trend."""
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
                            _standing(each) for each in one.by_urgency if isinstance(each, Standing)
                        ],
                        "sums": [
                            _sum(each) for each in one.by_urgency if isinstance(each, SumStanding)
                        ],
                        "unknown": list(one.unknown),
                    }
                    for one in well.points
                ],
            }
            for well in wells
        ],
    }


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
        },
        "then": _judgement(standing.then),
        "now": _judgement(standing.now),
        "trend": {
            "says": trend.says,
            "test": trend.test,
            "n": trend.n,
            "p": trend.p,
            "slope_per_year": trend.slope_per_year,
            "unit": trend.unit,
        },
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
    }


def _judgement(judgement: Judgement) -> Facts:
    limit = judgement.limit
    facts: Facts = {"verdict": str(judgement.verdict), "why": judgement.why}
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
    """A limit's figure without its unit: `10`, `6.5 to 8.5`, `absent`."""
    if limit.rule is Rule.ABSENT:
        return "absent"
    if limit.rule is Rule.RANGE:
        return f"{limit.low} to {limit.high}"
    return str(limit.high)


def due_facts(on: date, dues: Dues) -> Facts:
    """What is due on a day; panels that are planned for later are left out."""
    return {
        "on": on.isoformat(),
        "due": [
            {
                "well": well.name,
                "point": point.name,
                "panel": one.panel.name,
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
        ],
    }


def status_lines(
    on: date, wells: Sequence[WellOverview], sets: Mapping[str, LimitSet]
) -> Iterator[str]:
    """The same facts to read, each verdict with its limit, source and date."""
    yield f"As of {on.isoformat()}. Limits bind public supplies; here they are yardsticks."
    for well in wells:
        for one in well.points:
            side = "treated water" if one.point.treated else "raw water"
            yield ""
            yield f"{well.well.name}, {one.point.name} ({side})"
            for standing in one.by_urgency:
                if isinstance(standing, Standing):
                    yield from _standing_lines(standing, sets)
                else:
                    yield from _sum_lines(standing, sets)
            for name in one.unknown:
                yield f"  {name}: kept as printed; Wellbook has no limits for this name"


def _standing_lines(standing: Standing, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    latest = standing.latest
    shown = " ".join(filter(None, (latest.reading.text, latest.reading.unit, latest.reading.basis)))
    plural = "s" if standing.n > 1 else ""
    yield (
        f"  {standing.parameter.name}: {shown} on {latest.collected.day.isoformat()} "
        f"({standing.n} test{plural})"
    )
    yield f"      now: {judgement_line(standing.now, sets)}"
    if standing.then != standing.now:
        yield f"      on the sampling day: {judgement_line(standing.then, sets)}"
    if standing.trend.sentence:
        yield f"      trend: {standing.trend.sentence}"


def _sum_lines(standing: SumStanding, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    yield f"  {standing.parameter.name}, added up from the tests of {standing.day.isoformat()}"
    yield f"      now: {judgement_line(standing.now, sets)}"
    if standing.then != standing.now:
        yield f"      on the sampling day: {judgement_line(standing.then, sets)}"


def judgement_line(judgement: Judgement, sets: Mapping[str, LimitSet]) -> str:
    """A verdict with its limit, set, source and date, and why where that needs saying."""
    limit = judgement.limit
    if limit is None:
        return "no limit in the chosen sets"
    figure = " ".join(filter(None, (limit_text(limit), limit.unit, limit.basis)))
    name = sets[limit.set].name
    since = f", since {limit.start}" if limit.start else ""
    why = f" ({judgement.why})" if judgement.why else ""
    word = "not detected" if judgement.verdict is Verdict.UNDETECTED else str(judgement.verdict)
    return f"{word}, {limit.kind} {figure}, {name}{since}: {limit.source}{why}"


def due_lines(on: date, dues: Dues) -> Iterator[str]:
    """What is due, and after it what comes next."""
    planned = [(well, point, one) for well, point, panels in dues for one in panels]
    now = [row for row in planned if row[2].due <= on]
    if not planned:
        yield "Nothing is planned yet: add a test, and its panels are planned from then on."
    elif not now:
        yield f"Nothing is due on {on.isoformat()}."
    for well, point, one in now:
        yield f"Due since {one.due.isoformat()}: {one.panel.name} at {well.name}, {point.name}."
        yield f"  {one.why}"
    for well, point, one in planned:
        if one.due > on:
            yield f"Next: {one.panel.name} at {well.name}, {point.name} on {one.due.isoformat()}."


def preview_lines(seen: Preview) -> Iterator[str]:
    """What going back to a copy would lose and gain."""
    if seen.trouble:
        yield f"The book itself can't be read: {seen.trouble}"
        yield f"The copy holds {len(seen.gained)} entries of its journal."
        return
    for word, entries in (("lost", seen.lost), ("gained", seen.gained)):
        plural = "" if len(entries) == 1 else "s"
        yield f"{len(entries)} change{plural} would be {word}."
        for entry in entries:
            yield f"  {entry.at[:16].replace('T', ' ')} UTC: {entry.action}"
