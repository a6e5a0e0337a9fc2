"""How old each part of the record is, who drew it, and what lenders and states usually ask."""

from datetime import date

from reportlab.platypus import Spacer

from wellbook.handover import style, words
from wellbook.handover.desk import Desk, Story, text
from wellbook.handover.glance_pages import points_of
from wellbook.handover.grid import Cell, Column, grid
from wellbook.water.catalogue import Panel
from wellbook.water.fitness import Age, Drawer, SaleRule
from wellbook.water.results import Result

_PARTS = (
    Column("Usual group", 110),
    Column("Oldest of its latest tests", 92),
    Column("Age", 66),
    Column("Drawn by", 110),
    Column("Purpose", 80),
)
_RULES = (
    Column("Who asks", 84),
    Column("Takes a test", 56),
    Column("Age here", 80),
    Column("Drawn by", 72),
    Column("What to know, source, and when it was read", 220),
)
_AGES = {
    Age.YOUNG: "young enough",
    Age.ASK: "some take it, ask",
    Age.OLD: "too old, test again",
    Age.OPEN: "ask for the age",
    Age.LATER: "drawn after that day",
}
_DRAWERS = {
    Drawer.ACCEPTED: "usually accepted",
    Drawer.ASK: "ask",
    Drawer.REFUSED: "not accepted",
}

Test = tuple[Result, str, str]  # a result with the sampler's standing and the purpose
Latest = dict[str, Test]  # the latest of each parameter


def fitness(desk: Desk) -> Story:
    """The age of each part at each point, then the usual rules beside it."""
    on = desk.closing or desk.history.today
    named = "the closing day" if desk.closing else "the day of this packet"
    story: Story = [
        desk.heading("How old the tests are", "fitness"),
        text(
            f"Ages on {words.day(on)}, {named}, counted from the day of the draw. A group is as "
            "old as the oldest of the tests it can’t do without. A test that the owner drew is "
            "good history, but most lenders don’t take it."
        ),
    ]
    known = _latest(desk)
    for name, point in points_of(desk):
        latest = known.get(point.point.id, {})
        panels = [one for one in desk.history.catalogue.panels.values() if one.core]
        rows = [_part(one, latest, on) for one in panels if set(one.core) <= latest.keys()]
        if rows:
            side = "after" if point.point.treated else "before"
            table = grid(_PARTS, rows, desk.width)
            story += desk.over(f"{name} ({side} treatment)", f"fitness-{point.point.id}", table)
    return [*story, *_rules(desk, known, on)]


def _latest(desk: Desk) -> dict[int, Latest]:
    """The latest result of each parameter at each point."""
    found: dict[int, Latest] = {}
    for test in desk.history.tests:
        sample = test.sample
        for one in test.results:
            found.setdefault(sample.point, {})[one.result.parameter] = (
                one.result,
                sample.standing,
                sample.purpose,
            )
    return found


def _part(panel: Panel, latest: Latest, on: date) -> list[Cell]:
    result, standing, purpose = _oldest(panel.core, latest)
    day = result.collected.day
    return [panel.name, words.day(day), _age(day, on), standing or "not known", purpose]


def _oldest(keys: tuple[str, ...], latest: Latest) -> Test:
    return min((latest[key] for key in keys), key=_when)


def _age(day: date, on: date) -> str:
    days = (on - day).days
    return words.count(days, "day") if days >= 0 else "drawn later"


def _rules(desk: Desk, known: dict[int, Latest], on: date) -> Story:
    story: Story = [
        *desk.over(
            "What is usually asked at a sale",
            "sale-rules",
            grid(_RULES, [_rule(desk, rule, known, on) for rule in desk.sale_rules], desk.width),
        ),
    ]
    return [
        *story,
        Spacer(1, 5),
        text(
            "Information, not a promise: lender, state and buyer decide, their rules change, and "
            "some count from the lab’s report. Ask them before you rely on an older test, and "
            "leave time for a fresh one. Earlier results are handed over whatever they say.",
            style.SMALL,
        ),
    ]


def _rule(desk: Desk, rule: SaleRule, known: dict[int, Latest], on: date) -> list[Cell]:
    asked = [desk.history.catalogue.parameters[key].name for key in rule.parameters]
    water = ", before treatment" if rule.water else ""
    told = f"{rule.says} Usually asked: {', '.join(asked)}{water}. Source: {rule.source}."
    read = f"{told} Read {words.loose_day(rule.read)}."
    tests = _best(desk, rule, known)
    if not tests:
        return [rule.name, rule.takes(), _lacking(desk, rule, known), "", read]
    day = min(result.collected.day for result, _, _ in tests)
    age = f"{_AGES[rule.age(day, on)]} ({_age(day, on)})"
    standings = {standing: rule.drawer(standing) for _, standing, _ in tests}
    drawer = max(standings.values(), key=list(_DRAWERS).index)
    names = [standing or "not known" for standing, one in standings.items() if one is drawer]
    return [rule.name, rule.takes(), age, f"{', '.join(names)}: {_DRAWERS[drawer]}", read]


def _best(desk: Desk, rule: SaleRule, known: dict[int, Latest]) -> list[Test]:
    """The tests at the point where all was tested and the oldest of them is the youngest."""
    found = [
        [known[point.point.id][key] for key in rule.parameters]
        for _, point in points_of(desk)
        if not (rule.water and point.point.treated)
        and set(rule.parameters) <= known.get(point.point.id, {}).keys()
    ]
    return max(found, key=lambda tests: min(_when(test) for test in tests), default=[])


def _lacking(desk: Desk, rule: SaleRule, known: dict[int, Latest]) -> str:
    """What is missing at the point that lacks least."""
    lacks = [
        [key for key in rule.parameters if key not in known.get(point.point.id, {})]
        for _, point in points_of(desk)
        if not (rule.water and point.point.treated)
    ]
    names = desk.history.catalogue.parameters
    missing = ", ".join(names[key].name for key in min(lacks, key=len, default=rule.parameters))
    return f"not in this packet: {missing}" if desk.history.is_part else f"not tested: {missing}"


def _when(test: Test) -> date:
    return test[0].collected.day
