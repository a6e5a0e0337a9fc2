"""How old each part of the record is, who drew it, and what lenders and states usually ask."""

from datetime import date
from typing import TYPE_CHECKING

from reportlab.platypus import Spacer

from wellbook.book.rows import covers
from wellbook.packet.answers.gaps import age
from wellbook.packet.context import Desk, Story, text
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.sampling.sale_rules import Age, Drawer, SaleRule
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.results import Result
from wellbook.wording import paper, reference, vocabulary

if TYPE_CHECKING:
    from wellbook.packet.gather import Judged
    from wellbook.water.values.judgement import Urgency

_PARTS = (
    Column(N_("Usual group"), 110),
    Column(N_("Oldest of its latest tests"), 92),
    Column(N_("Age"), 66),
    Column(N_("Drawn by"), 110),
    Column(N_("Purpose"), 80),
)
_RULE = (
    Column(N_("Asked"), 96),
    Column(N_("Latest result"), 96),
    Column(N_("Drawn"), 98),
    Column(N_("Age"), 66),
    Column(N_("Drawn by"), 76),
    Column(N_("Lab that day"), 60),
    Column(N_("To this reader"), 100),
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

_DAYS_TOLD = 366  # lenders ask for a test of so many days, none for an older one than a year

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
    """The latest result of each parameter at each point; of one day the first draw, then the worst.

    The limits of lead and copper are meant for the first draw.
    """
    found: dict[int, dict[str, tuple[date, Judged, Test]]] = {}
    for test in desk.history.tests:
        sample = test.sample
        for one in test.results:
            there = found.setdefault(sample.point, {})
            known = there.get(one.result.parameter)
            day = sample.collected.day
            is_worse = known and known[0] == day and _weight(known[1]) <= _weight(one)
            if not is_worse:
                told = (one.result, sample.standing, sample.purpose)
                there[one.result.parameter] = (day, one, told)
    return {
        point: {key: told for key, (_unused, _unused2, told) in there.items()}
        for point, there in found.items()
    }


def _weight(one: "Judged") -> "tuple[bool, bool, Urgency]":
    is_over = one.now.verdict is Verdict.OUTSIDE
    return not is_over, one.result.draw != "first draw", one.now.urgency


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


def _age(day: date, on: date) -> str:
    """An age as the rules count it: in days up to a year, then as everywhere."""
    days = (on - day).days
    if days < 0:
        return _("drawn later")
    if days > _DAYS_TOLD:
        return age(day, on)
    return ngettext("{n:,} day", "{n:,} days", days).format(n=days)


def _oldest(keys: tuple[str, ...], latest: Latest) -> Test:
    return min((latest[key] for key in keys), key=_when)


def _rules(desk: Desk, known: dict[int, Latest], on: date) -> Story:
    story: Story = [
        desk.second(_("What is usually asked at a sale"), "sale-rules"),
        text(
            _(
                "Information, not a promise: lender, state and buyer decide, their rules change, "
                "and some count from the lab’s report. Ask them before you rely on an older test, "
                "and leave time for a fresh one. Earlier results are handed over whatever they say."
            ),
            style.SMALL,
        ),
    ]
    for rule in desk.sale_rules:
        rows = [_asked_row(desk, rule, key, known, on) for key in rule.parameters]
        title = _("{rule}: takes a test {age} old").format(
            rule=rule.name, age=reference.takes(rule)
        )
        story += desk.over(title, f"sale-{rule.key}", grid(_RULE, rows, desk.width))
        story += [text(_source(rule), style.SMALL), Spacer(1, 5)]
    return story


def _asked_row(
    desk: Desk, rule: SaleRule, key: str, known: dict[int, Latest], on: date
) -> list[Cell]:
    """One asked parameter: its latest test where the rule wants it drawn, and its worth."""
    parameter = desk.history.catalogue.parameters[key]
    places = [
        (name, known[point.point.id][key])
        for name, point in points_of(desk)
        if not (rule.water and point.point.treated) and key in known.get(point.point.id, {})
    ]
    if not places:
        lacks = _("not in this packet") if desk.history.is_part else _("not tested")
        return [parameter.name, lacks, "", "", "", "", _("test it")]
    name, (result, standing, _unused) = max(places, key=lambda place: _when(place[1]))
    day = result.collected.day
    drawer = rule.drawer(standing)
    verdict = f"{_(_AGES[rule.age(day, on)])}; {_(_DRAWERS[drawer])}"
    return [
        parameter.name,
        ", ".join(filter(None, (paper.shown(result.reading, parameter), _draw(result)))),
        f"{paper.day(day)}, {name}",
        _age(day, on),
        vocabulary.drawn_by(standing) or _("not known"),
        _lab_then(desk, result),
        verdict,
    ]


def _draw(result: Result) -> str:
    return vocabulary.draw(result.draw) if result.draw else ""


def _lab_then(desk: Desk, result: Result) -> str:
    """Whether the lab's accreditation, as it was entered, held on the day."""
    lab = next((one for one in desk.history.labs if one.name == result.lab), None)
    if lab is None or not lab.accreditation or not (lab.valid_from or lab.valid_to):
        return _("not known")
    return _("valid") if covers(lab, result.collected.day) else _("not shown to be valid")


def _source(rule: SaleRule) -> str:
    """What to know of a rule, and who says so."""
    raw = _("Asked of the water before treatment.") if rule.water else ""
    read = paper.day(rule.read)
    source = _("Source: {source}. Read {day}.").format(source=rule.source, day=read)
    return " ".join(filter(None, (rule.says, raw, source)))


def _when(test: Test) -> date:
    return test[0].collected.day
