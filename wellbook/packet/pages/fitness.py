"""How old each part of the record is, who drew it, and what lenders and states usually ask."""

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from wellbook.book.record import covers
from wellbook.packet.answers.gaps import age
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.planning import flow_test
from wellbook.planning.upkeep import words as upkeep_words
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.sampling.sale_rules import Age, Drawer, SaleRule
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.partial_date import read_partial_date
from wellbook.water.values.readings import Flag, Kind
from wellbook.water.values.results import Result
from wellbook.wording import paper, reference, vocabulary

if TYPE_CHECKING:
    from wellbook.packet.gather import Judged, SampleFacts, WellFacts
    from wellbook.water.values.judgement import Urgency

_PARTS = (
    Column(N_("Usual group"), 110),
    Column(N_("Oldest of its latest tests"), 92),
    Column(N_("Age"), 66),
    Column(N_("Drawn by"), 110),
    Column(N_("Purpose"), 80),
)
_TESTS = (
    Column(N_("Asked"), 88),
    Column(N_("Latest result"), 100),
    Column(N_("Drawn"), 116),
    Column(N_("Age"), 66),
    Column(N_("Drawn by"), 80),
    Column(N_("Lab that day"), 62),
)
_WAYS = (
    Column(N_("Drawn"), 132),
    Column(N_("Drawn by"), 90),
    Column(N_("Sent off"), 80),
    Column(N_("At the lab"), 90),
    Column(N_("Lab and its number"), 120),
)
_RULE = (
    Column(N_("Who asks"), 84),
    Column(N_("Takes a test"), 60),
    Column(N_("To this reader"), 138),
    Column(N_("What to know"), 230),
)
_MEASURED = ("distance", "septic", "yield", "flow")  # in the names of a log's items
# Lines of the checklist of an inspection that ask for a distance.
_FAR = frozenset(
    {"septic-tank", "drain-field", "sewer-line", "fuel", "animals", "pesticides", "stored"}
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

Weight = tuple[bool, bool, "Urgency"]  # lower comes before others of its day
# A result with the sampler's standing, the purpose, its weight and today's verdict.
Test = tuple[Result, str, str, Weight, Verdict]
Latest = dict[str, Test]  # the latest of each parameter
Asked = tuple[str, tuple[str, Test] | None]  # a parameter, then the point and its latest test


def lenders(context: PacketContext) -> Story:
    """What lenders and states usually ask, a row for each asked parameter."""
    on = context.closing or context.history.today
    return [
        context.heading(_("What is usually asked at a sale"), "sale-rules"),
        *_rules(context, _latest(context), on),
    ]


def ages(context: PacketContext) -> Story:
    """The age of each usual group at each point."""
    on = context.closing or context.history.today
    story: Story = [context.heading(_("How old the tests are"), "ages"), text(_told(context, on))]
    known = _latest(context)
    for name, point in points_of(context):
        latest = known.get(point.point.id, {})
        panels = [one for one in context.history.catalogue.panels.values() if one.core]
        rows = [_part(one, latest, on) for one in panels if set(one.core) <= latest.keys()]
        if rows:
            title = paper.with_side(name, treated=point.point.treated)
            table = grid(_PARTS, rows, context.width)
            story += context.over(title, f"fitness-{point.point.id}", table)
    return story


def _told(context: PacketContext, on: date) -> str:
    ages = (
        _("Ages on {day}, the closing day, counted from the day of the draw.").format(
            day=paper.day(on)
        )
        if context.closing
        else _("Ages on {day}, the day of this packet, counted from the day of the draw.").format(
            day=paper.day(on),
        )
    )
    rest = _(
        "A group is as old as the oldest of the tests it can’t do without. A test that the owner "
        "drew is good history, but most lenders don’t take it."
    )
    return f"{ages} {rest}"


def _latest(context: PacketContext) -> dict[int, Latest]:
    """The latest result of each parameter at each point; of one day the first draw, then the worst.

    The limits of lead and copper are meant for the first draw.
    """
    found: dict[int, dict[str, tuple[date, Judged, Test]]] = {}
    for test in context.history.tests:
        sample = test.sample
        for one in filter(_counts, test.results):
            there = found.setdefault(sample.point, {})
            known = there.get(one.result.parameter)
            day = sample.collected.day
            is_worse = known and known[0] == day and _weight(known[1]) <= _weight(one)
            if not is_worse:
                weight, verdict = _weight(one), one.now.verdict
                told = (one.result, sample.standing, sample.purpose, weight, verdict)
                there[one.result.parameter] = (day, one, told)
    return {
        point: {key: told for key, (_unused, _unused2, told) in there.items()}
        for point, there in found.items()
    }


def _counts(one: "Judged") -> bool:
    """Whether it is a test: what was not analysed, or rejected, makes no older one younger."""
    reading = one.result.reading
    return reading.kind is not Kind.NONE and Flag.REJECTED not in reading.flags


def _weight(one: "Judged") -> Weight:
    is_over = one.now.verdict is Verdict.OUTSIDE
    return not is_over, one.result.draw != "first draw", one.now.urgency


def _part(panel: Panel, latest: Latest, on: date) -> list[Cell]:
    result, standing, purpose, *_unused = _oldest(panel.core, latest)
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


def _rules(context: PacketContext, known: dict[int, Latest], on: date) -> Story:
    asked = {
        (rule.key, key): _asked(context, rule, key, known)
        for rule in context.sale_rules
        for key in rule.parameters
    }
    return [
        text(
            _(
                "Information, not a promise: lender, state and buyer decide, their rules change, "
                "and some count from the lab’s report. Ask them before you rely on an older test, "
                "and leave time for a fresh one. Earlier results are handed over whatever they say."
            ),
            style.SMALL,
        ),
        *_tests(context, list(asked.values()), on),
        *_distances(context),
        *_readers(context, asked, on),
    ]


def _asked(context: PacketContext, rule: SaleRule, key: str, known: dict[int, Latest]) -> Asked:
    """The latest test of an asked parameter where the rule wants it drawn; of a day the worst."""
    places = [
        (name, known[point.point.id][key])
        for name, point in points_of(context)
        if not (rule.water and point.point.treated) and key in known.get(point.point.id, {})
    ]
    return key, min(places, key=lambda place: _latest_then_worst(place[1]), default=None)


def _latest_then_worst(test: Test) -> tuple[int, Weight]:
    return -_when(test).toordinal(), test[3]


def _tests(context: PacketContext, asked: Sequence[Asked], on: date) -> Story:
    """A row for each asked test, then the way of its sample to the lab."""
    rows: dict[tuple[str, int], list[Cell]] = {}
    ways: dict[int, list[Cell]] = {}
    lacks = _("not in this packet") if context.history.is_part else _("not tested")
    tests = {test.sample.id: test for test in context.history.tests}
    for key, found in asked:
        parameter = context.history.catalogue.parameters[key]
        if found is None:
            rows.setdefault((key, 0), [parameter.name, lacks, "", "", "", ""])
            continue
        name, (result, standing, *_unused) = found
        day = result.collected.day
        rows[key, result.id] = [
            parameter.name,
            ", ".join(filter(None, (paper.shown(result.reading, parameter), _draw(result)))),
            f"{paper.day(day)}, {name}",
            _age(day, on),
            vocabulary.drawn_by(standing) or _("not known"),
            _lab_then(context, result),
        ]
        ways.setdefault(result.sample, _way(tests[result.sample], name))
    shown = [rows[key] for key in sorted(rows, key=lambda key: key[1] == 0)]
    way = grid(_WAYS, list(ways.values()), context.width)
    return [
        grid(_TESTS, shown, context.width),
        *context.over(_("From the tap to the lab"), "custody", way),
    ]


def _way(test: "SampleFacts", name: str) -> list[Cell]:
    """Who held a sample when, as far as it was written down."""
    sample, unknown = test.sample, _("not known")
    who = ", ".join(filter(None, (sample.sampler, vocabulary.drawn_by(sample.standing))))
    lab = ", ".join(filter(None, (sample.lab, sample.lab_number)))
    received = paper.moment(sample.received) if sample.received else unknown
    return [
        f"{paper.moment(sample.collected)}, {name}",
        who or unknown,
        paper.moment(sample.dispatched) if sample.dispatched else unknown,
        ", ".join(filter(None, (received, sample.temperature))),
        lab or unknown,
    ]


def _distances(context: PacketContext) -> Story:
    """How far what can spoil the water lies from each well, and what it yields."""
    rows: list[tuple[str, Cell]] = []
    for facts in context.history.wells:
        told = [
            f"{vocabulary.log_item(item)}: {said}"
            for item, said in facts.well.construction.items()
            if any(word in item.casefold() for word in _MEASURED)
        ]
        said = "; ".join(told) or _("nothing written down: ask for a measured distance and flow")
        rows += [(facts.well.name, said), _flow_test(facts, context.history.today)]
        rows += _looked_at(context, facts)
    if not rows:
        return []
    return context.over(_("Distances and flow"), "distances", pairs(rows, context.width))


def _flow_test(facts: "WellFacts", today: date) -> tuple[str, Cell]:
    """The latest flow test of a well with its age, or that there is none."""
    found = flow_test.latest(facts.events)
    if found is None:
        return _("Flow test"), _("none written down: ask for one, with day, hours and drawdown")
    known = read_partial_date(found.day)
    old = age(known.middle, today) if known else _("not known")
    return _("Flow test"), _("{said} (age: {age})").format(said=flow_test.told(found), age=old)


def _looked_at(context: PacketContext, facts: "WellFacts") -> list[tuple[str, Cell]]:
    """What the latest look at the surroundings said of each thing that has a distance."""
    days = {event.id: event.day for event in facts.events}
    latest = {
        one.item: one
        for one in sorted(facts.answers, key=lambda one: (days[one.event], one.id))
        if one.answer != "not seen"
    }
    rows: list[tuple[str, Cell]] = []
    for item in context.history.checklist:
        if item.key not in _FAR or item.key not in latest:
            continue
        one = latest[item.key]
        seen = _("{answer}, by the household’s look on {day}. What was asked: {line}").format(
            answer=upkeep_words.answer(one.answer),
            day=paper.loose_day(days[one.event]),
            line=item.line,
        )
        mended = (
            _("Put right on {day}.").format(day=paper.loose_day(one.mended)) if one.mended else ""
        )
        rows.append((item.name, " ".join(filter(None, (seen, one.text, mended)))))
    return rows


def _readers(context: PacketContext, asked: dict[tuple[str, str], Asked], on: date) -> Story:
    """Each rule in a row: how old a test it takes, and whether each asked test fits it."""
    rows: list[list[Cell]] = []
    for rule in context.sale_rules:
        names: dict[str, list[str]] = {}
        for key in rule.parameters:
            verdict = _verdict(rule, asked[rule.key, key][1], on)
            names.setdefault(verdict, []).append(context.history.catalogue.parameters[key].name)
        told = (f"{', '.join(known)}: {verdict}." for verdict, known in names.items())
        fits = "\n".join(told) or _("It names no test.")
        rows.append([rule.name, reference.takes(rule), fits, _source(rule)])
    return context.over(_("Whether they fit"), "sale-fits", grid(_RULE, rows, context.width))


def _verdict(rule: SaleRule, found: tuple[str, Test] | None, on: date) -> str:
    if found is None:
        return _("test it")
    result, standing, _purpose, _weight_of, verdict = found[1]
    drawer = rule.drawer(standing)
    said = f"{_(_AGES[rule.age(result.collected.day, on)])}; {_(_DRAWERS[drawer])}"
    if verdict is not Verdict.UNDECIDABLE:
        return said
    return f"{said}; {_('whether it is within its limit can’t be told, test again')}"


def _draw(result: Result) -> str:
    return vocabulary.draw(result.draw) if result.draw else ""


def _lab_then(context: PacketContext, result: Result) -> str:
    """Whether the lab's accreditation, as it was entered, held on the day."""
    lab = next((one for one in context.history.labs if one.name == result.lab), None)
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
