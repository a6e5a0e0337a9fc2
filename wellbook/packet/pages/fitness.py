"""How old each part of the record is, who drew it, and what lenders and states usually ask."""

from datetime import date

from reportlab.platypus import Spacer

from wellbook.packet.context import Desk, Story, text
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.sampling.sale_rules import Age, Drawer, SaleRule
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.results import Result
from wellbook.wording import paper, vocabulary

_PARTS = (
    Column(N_("Usual group"), 110),
    Column(N_("Oldest of its latest tests"), 92),
    Column(N_("Age"), 66),
    Column(N_("Drawn by"), 110),
    Column(N_("Purpose"), 80),
)
_RULES = (
    Column(N_("Who asks"), 84),
    Column(N_("Takes a test"), 56),
    Column(N_("Age here"), 80),
    Column(N_("Drawn by"), 72),
    Column(N_("What to know, source, and when it was read"), 220),
)
_AGES = {
    Age.YOUNG: N_("young enough"),
    Age.ASK: N_("some take it, ask"),
    Age.OLD: N_("too old, test again"),
    Age.OPEN: N_("ask for the age"),
    Age.LATER: N_("drawn after that day"),
}
_DRAWERS = {
    Drawer.ACCEPTED: N_("usually accepted"),
    Drawer.ASK: N_("ask"),
    Drawer.REFUSED: N_("not accepted"),
}

Test = tuple[Result, str, str]  # a result with the sampler's standing and the purpose
Latest = dict[str, Test]  # the latest of each parameter


def fitness(desk: Desk) -> Story:
    """The age of each part at each point, then the usual rules beside it."""
    on = desk.closing or desk.history.today
    story: Story = [desk.heading(_("How old the tests are"), "fitness"), text(_told(desk, on))]
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
        _("Ages on {day}, the closing day, counted from the day of the draw.").format(
            day=paper.day(on)
        )
        if desk.closing
        else _("Ages on {day}, the day of this packet, counted from the day of the draw.").format(
            day=paper.day(on),
        )
    )
    rest = _(
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
        vocabulary.drawn_by(standing) or _("not known"),
        vocabulary.purpose(purpose),
    ]


def _oldest(keys: tuple[str, ...], latest: Latest) -> Test:
    return min((latest[key] for key in keys), key=_when)


def _age(day: date, on: date) -> str:
    days = (on - day).days
    return (
        ngettext("{n:,} day", "{n:,} days", days).format(n=days) if days >= 0 else _("drawn later")
    )


def _rules(desk: Desk, known: dict[int, Latest], on: date) -> Story:
    story: Story = [
        *desk.over(
            _("What is usually asked at a sale"),
            "sale-rules",
            grid(_RULES, [_rule(desk, rule, known, on) for rule in desk.sale_rules], desk.width),
        ),
    ]
    return [
        *story,
        Spacer(1, 5),
        text(
            _(
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
    day = min(result.collected.day for result, _unused, _unused2 in tests)
    age = f"{_(_AGES[rule.age(day, on)])} ({_age(day, on)})"
    standings = {standing: rule.drawer(standing) for _unused, standing, _unused2 in tests}
    drawer = max(standings.values(), key=list(_DRAWERS).index)
    names = [
        vocabulary.drawn_by(standing) or _("not known")
        for standing, one in standings.items()
        if one is drawer
    ]
    return [rule.name, rule.takes(), age, f"{', '.join(names)}: {_(_DRAWERS[drawer])}", read]


def _asked(desk: Desk, rule: SaleRule) -> str:
    """What to know of a rule, what is tested for it, and who says so."""
    names = desk.history.catalogue.parameters
    parameters = ", ".join(names[key].name for key in rule.parameters)
    asked = (
        _("Usually asked: {parameters}, before treatment.").format(parameters=parameters)
        if rule.water
        else _("Usually asked: {parameters}.").format(parameters=parameters)
    )
    read = paper.day(rule.read)
    source = _("Source: {source}. Read {day}.").format(source=rule.source, day=read)
    return f"{rule.says} {asked} {source}"


def _best(desk: Desk, rule: SaleRule, known: dict[int, Latest]) -> list[Test]:
    """The tests at the point where all was tested and the oldest of them is the youngest."""
    found = [
        [known[point.point.id][key] for key in rule.parameters]
        for _unused, point in points_of(desk)
        if not (rule.water and point.point.treated)
        and set(rule.parameters) <= known.get(point.point.id, {}).keys()
    ]
    return max(found, key=lambda tests: min(_when(test) for test in tests), default=[])


def _lacking(desk: Desk, rule: SaleRule, known: dict[int, Latest]) -> str:
    """What is missing at the point that lacks least."""
    lacks = [
        [key for key in rule.parameters if key not in known.get(point.point.id, {})]
        for _unused, point in points_of(desk)
        if not (rule.water and point.point.treated)
    ]
    names = desk.history.catalogue.parameters
    missing = ", ".join(names[key].name for key in min(lacks, key=len, default=rule.parameters))
    if desk.history.is_part:
        return _("not in this packet: {parameters}").format(parameters=missing)
    return _("not tested: {parameters}").format(parameters=missing)


def _when(test: Test) -> date:
    return test[0].collected.day
