"""How old each part of the record is, who drew it, and what lenders and states usually ask."""

from datetime import date

from reportlab.platypus import Spacer

from wellbook.packet.context import Desk, Story, text
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.support.translation import count, mark, say
from wellbook.water.sampling.sale_rules import Age, Drawer, SaleRule
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.results import Result
from wellbook.wording import paper, vocabulary

_PARTS = (
    Column(mark("Usual group"), 110),
    Column(mark("Oldest of its latest tests"), 92),
    Column(mark("Age"), 66),
    Column(mark("Drawn by"), 110),
    Column(mark("Purpose"), 80),
)
_RULES = (
    Column(mark("Who asks"), 84),
    Column(mark("Takes a test"), 56),
    Column(mark("Age here"), 80),
    Column(mark("Drawn by"), 72),
    Column(mark("What to know, source, and when it was read"), 220),
)
_AGES = {
    Age.YOUNG: mark("young enough"),
    Age.ASK: mark("some take it, ask"),
    Age.OLD: mark("too old, test again"),
    Age.OPEN: mark("ask for the age"),
    Age.LATER: mark("drawn after that day"),
}
_DRAWERS = {
    Drawer.ACCEPTED: mark("usually accepted"),
    Drawer.ASK: mark("ask"),
    Drawer.REFUSED: mark("not accepted"),
}

Test = tuple[Result, str, str]  # a result with the sampler's standing and the purpose
Latest = dict[str, Test]  # the latest of each parameter


def fitness(desk: Desk) -> Story:
    """The age of each part at each point, then the usual rules beside it."""
    on = desk.closing or desk.history.today
    story: Story = [desk.heading(say("How old the tests are"), "fitness"), text(_told(desk, on))]
    known = _latest(desk)
    for name, point in points_of(desk):
        latest = known.get(point.point.id, {})
        panels = [one for one in desk.history.catalogue.panels.values() if one.core]
        rows = [_part(one, latest, on) for one in panels if set(one.core) <= latest.keys()]
        if rows:
            title = paper.with_side(name, treated=point.point.treated)
            table = grid(_PARTS, rows, desk.width)
            story += desk.over(title, f"fitness-{point.point.id}", table)
    return [*story, *_rules(desk, known, on)]


def _told(desk: Desk, on: date) -> str:
    ages = (
        say("Ages on {day}, the closing day, counted from the day of the draw.", day=paper.day(on))
        if desk.closing
        else say(
            "Ages on {day}, the day of this packet, counted from the day of the draw.",
            day=paper.day(on),
        )
    )
    rest = say(
        "A group is as old as the oldest of the tests it can’t do without. A test that the owner "
        "drew is good history, but most lenders don’t take it."
    )
    return f"{ages} {rest}"


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
    return [
        panel.name,
        paper.day(day),
        _age(day, on),
        vocabulary.drawn_by(standing) or say("not known"),
        vocabulary.purpose(purpose),
    ]


def _oldest(keys: tuple[str, ...], latest: Latest) -> Test:
    return min((latest[key] for key in keys), key=_when)


def _age(day: date, on: date) -> str:
    days = (on - day).days
    return count("{n:,} day", "{n:,} days", days) if days >= 0 else say("drawn later")


def _rules(desk: Desk, known: dict[int, Latest], on: date) -> Story:
    story: Story = [
        *desk.over(
            say("What is usually asked at a sale"),
            "sale-rules",
            grid(_RULES, [_rule(desk, rule, known, on) for rule in desk.sale_rules], desk.width),
        ),
    ]
    return [
        *story,
        Spacer(1, 5),
        text(
            say(
                "Information, not a promise: lender, state and buyer decide, their rules change, "
                "and some count from the lab’s report. Ask them before you rely on an older test, "
                "and leave time for a fresh one. Earlier results are handed over whatever they say."
            ),
            style.SMALL,
        ),
    ]


def _rule(desk: Desk, rule: SaleRule, known: dict[int, Latest], on: date) -> list[Cell]:
    read = _asked(desk, rule)
    tests = _best(desk, rule, known)
    if not tests:
        return [rule.name, rule.takes(), _lacking(desk, rule, known), "", read]
    day = min(result.collected.day for result, _, _ in tests)
    age = f"{say(_AGES[rule.age(day, on)])} ({_age(day, on)})"
    standings = {standing: rule.drawer(standing) for _, standing, _ in tests}
    drawer = max(standings.values(), key=list(_DRAWERS).index)
    names = [
        vocabulary.drawn_by(standing) or say("not known")
        for standing, one in standings.items()
        if one is drawer
    ]
    return [rule.name, rule.takes(), age, f"{', '.join(names)}: {say(_DRAWERS[drawer])}", read]


def _asked(desk: Desk, rule: SaleRule) -> str:
    """What to know of a rule, what is tested for it, and who says so."""
    names = desk.history.catalogue.parameters
    parameters = ", ".join(names[key].name for key in rule.parameters)
    asked = (
        say("Usually asked: {parameters}, before treatment.", parameters=parameters)
        if rule.water
        else say("Usually asked: {parameters}.", parameters=parameters)
    )
    read = paper.loose_day(rule.read)
    source = say("Source: {source}. Read {day}.", source=rule.source, day=read)
    return f"{rule.says} {asked} {source}"


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
    if desk.history.is_part:
        return say("not in this packet: {parameters}", parameters=missing)
    return say("not tested: {parameters}", parameters=missing)


def _when(test: Test) -> date:
    return test[0].collected.day
