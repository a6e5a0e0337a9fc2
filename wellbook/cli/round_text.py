"""What `round` and `habits` answer: once as plain data, once as lines to read."""

from collections.abc import Iterator, Sequence
from dataclasses import fields
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

if TYPE_CHECKING:
    from wellbook.planning.lab.awaited import Awaited
    from wellbook.planning.lab.lab_route import RoundHabits
    from wellbook.planning.rounds import Round

Facts = dict[str, Any]


def round_facts(on: date, rounds: Sequence["Round"]) -> Facts:
    """The next round at each point, the one to be made first in front."""
    return {"on": on.isoformat(), "rounds": [_facts(one) for one in rounds]}


def _facts(one: "Round") -> Facts:
    from wellbook.wording import sampling_day

    journey, slack = one.search.journey, one.search.slack
    return {
        "well": one.well.name,
        "point": one.point.name,
        "panels": [
            {"panel": due.panel.name, "due": due.due.isoformat(), "why": due.why}
            for due in one.panels
        ],
        "from": one.search.window[0].isoformat(),
        "to": one.search.window[1].isoformat(),
        "limit_hours": _hours(one.search.limit),
        "draw": journey.draw.isoformat() if journey else None,
        "hand_in": journey.hand_in.isoformat() if journey else None,
        "arrival": journey.arrival.isoformat() if journey else None,
        "test_started_by": journey.start.isoformat() if journey else None,
        "age_hours": _hours(journey.age) if journey else None,
        "slack_hours": _hours(slack) if slack is not None else None,
        "why": one.search.told,
        "steps": [
            {
                "at": step.at.isoformat(),
                "task": str(step.task),
                "text": sampling_day.text(step.task, softens=one.softens),
            }
            for step in one.steps
        ],
        "bottles": [
            {
                "bottle": bottle.name,
                "parameters": list(keys),
                "aerator": bottle.aerator,
                "rinse": bottle.rinse,
                "fill": bottle.fill,
            }
            for bottle, keys in one.bottles
        ],
    }


def round_lines(rounds: Sequence["Round"], catalogue: Catalogue) -> Iterator[str]:
    """The first round in full, and a line for each that follows."""
    from wellbook.wording import sampling_day
    from wellbook.wording.dues import bacteria_rule

    if not rounds:
        yield _("Nothing is planned yet: add a test, and its panels are planned from then on.")
        return
    first, *others = rounds
    yield f"{first.well.name}, {first.point.name}"
    yield f"  {first.search.told}"
    for due in first.panels:
        yield f"  {due.panel.name}: {due.why}"
        if due.panel.why == bacteria_rule():
            yield f"    {due.panel.why}"
    yield _("Hour by hour")
    for step in first.steps:
        name = sampling_day.name(step.task)
        how = sampling_day.text(step.task, softens=first.softens)
        yield f"  {step.at:%Y-%m-%d %H:%M}  {name}: {how}"
    yield _("Bottle by bottle")
    for bottle, keys in first.bottles:
        names = ", ".join(catalogue.parameters[key].name for key in keys)
        yield (
            "  "
            + _("{bottle} ({names}): aerator {aerator}; rinse: {rinse}.").format(
                bottle=bottle.name, names=names, aerator=_(bottle.aerator), rinse=_(bottle.rinse)
            )
        )
        yield f"    {bottle.before} {bottle.fill}"
    for one in others:
        names = ", ".join(due.panel.name for due in one.panels)
        when = one.search.day.isoformat() if one.search.day else _("no day found")
        yield _("Also: {well}, {point}, {when}: {names}.").format(
            well=one.well.name, point=one.point.name, when=when, names=names
        )


def habit_facts(habits: "RoundHabits") -> dict[str, str]:
    """Each habit by its name, as it is written."""
    from wellbook.planning.lab.lab_route import written

    return {field.name: written(getattr(habits, field.name)) for field in fields(habits)}


def awaited_facts(found: "Sequence[Awaited]") -> list[Facts]:
    """The samples that were drawn and are not reported yet, as plain data."""
    return [
        {
            "well": one.well.name,
            "point": one.point.name,
            "drawn": one.sample.collected.iso(),
            "lab": one.sample.lab,
            "parameters": list(one.parameters),
            "preliminary": list(one.preliminary),
            "expected": one.expected.isoformat(),
            "expected_by": one.basis,
            "late": one.is_late,
            "age_hours": _hours(one.age) if one.age is not None else None,
            "limit_hours": _hours(one.limit),
            "too_old": one.is_too_old,
        }
        for one in found
    ]


def awaited_lines(found: "Sequence[Awaited]") -> Iterator[str]:
    """The same to read."""
    for one in found:
        yield from one.lines()


def _hours(span: timedelta) -> float:
    return round(span / timedelta(hours=1), 2)
