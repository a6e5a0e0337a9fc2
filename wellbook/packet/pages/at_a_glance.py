"""What needs attention, then every parameter in one line."""

from reportlab.platypus import KeepTogether, Spacer, Table, TableStyle

from wellbook.packet.answers import answer, gaps
from wellbook.packet.context import Desk, Story, marked, text
from wellbook.pdf import style
from wellbook.pdf.flowables import Marked, PageNumber
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.planning.between import between
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _
from wellbook.water.statistics.trend import MOVING, Trend
from wellbook.water.values.limits import Limit
from wellbook.water.values.readings import Reading
from wellbook.water.verdicts.judge import Judgement
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding, by_urgency
from wellbook.wording import facts, latest_change, paper, verdicts
from wellbook.wording.reasons import why

_SUMS = (
    Column(N_("Added up here, no lab reported it"), 150),
    Column(N_("It is"), 130),
    Column(N_("Drawn"), 58),
    Column(N_("On that day"), 66),
    Column(N_("By today’s limits"), 66),
    Column(N_("Limit"), 58),
)
_LINE = TableStyle(
    [
        *style.PLAIN.getCommands(),
        ("RIGHTPADDING", (0, 0), (-1, -1), 4),
        ("TOPPADDING", (0, 0), (-1, -1), 3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
        ("VALIGN", (0, 0), (-1, -1), "MIDDLE"),
        ("ALIGN", (-1, 0), (-1, -1), "RIGHT"),
    ]
)


def _chart(desk: Desk, point: PointOverview, standing: Standing) -> PageNumber | str:
    key = desk.chart_key(point.point.id, standing.parameter.key)
    return PageNumber(desk.places, key) if key else ""


def points_of(desk: Desk) -> list[tuple[str, PointOverview]]:
    """Every point that was ever tested, with the name it goes by in the packet."""
    several = len(desk.history.wells) > 1
    return [
        (f"{facts.well.name}: {point.point.name}" if several else point.point.name, point)
        for facts in desk.history.wells
        for point in facts.overview.points
        if point.standings or point.unknown
    ]


def attention(desk: Desk) -> Story:
    """Each latest reading that is outside, close to a limit, or can’t be told."""
    story: Story = [desk.heading(_("What needs attention"), "attention")]
    found: list[tuple[str, PointOverview, Standing | SumStanding]] = [
        (name, point, standing)
        for name, point in points_of(desk)
        for standing in point.by_urgency
        if standing.needs_attention
    ]
    if not found:
        story.append(text(_quiet(desk)))
    found.sort(key=lambda one: by_urgency(one[2]))
    return [*story, *(KeepTogether(_case(desk, *one)) for one in found)]


def _quiet(desk: Desk) -> str:
    """What is said where no reading calls for attention: it must not sound like an all-clear."""
    if not desk.history.tests:
        said = _("There is no test that could show anything.")
    else:
        said = _(
            "In the latest test of each parameter at each point no reading is outside or close to "
            "a limit of the chosen sets. What was never tested can’t show here: see “What was "
            "never tested”."
        )
    return f"{said} {gaps.told(desk.history)}"


def _case(desk: Desk, name: str, point: PointOverview, standing: Standing | SumStanding) -> Story:
    if isinstance(standing, SumStanding):
        said, day = facts.added(standing.sum), standing.day
    else:
        latest = standing.latest
        said, day = paper.shown(latest.reading, standing.parameter), latest.collected.day
        name = answer.drawn_at(name, latest.draw)
    title = f"{standing.parameter.name}: {said}"
    key = desk.chart_key(point.point.id, standing.parameter.key)
    shape, colour = style.SHAPES[standing.headline.verdict]
    cells = [
        Marked(shape, colour, "", 11),
        text(title, style.H3),
        text(f"{name}, {paper.day(day)}", style.CELL),
        PageNumber(desk.places, key, _("chart: page")) if key else "",
    ]
    place, page = desk.width * 0.38, 72
    head = Table([cells], colWidths=[18, desk.width - 18 - place - page, place, page])
    head.setStyle(_LINE)
    told = [
        desk.linked(sentence, style.INDENTED)
        for sentence in (
            *_verdicts(desk, standing),
            _changed(desk, point, standing),
            standing.parameter.why,
        )
        if sentence
    ]
    return [head, *told, Spacer(1, 5)]


def _changed(desk: Desk, point: PointOverview, standing: Standing | SumStanding) -> str:
    """What changed since the test before, and what happened in between."""
    found = standing.change if isinstance(standing, Standing) else None
    if found is None or found.before is None:
        return ""
    here = [facts for facts in desk.history.wells if facts.well.id == point.point.well]
    happened = between(
        [event for facts in here for event in facts.events],
        [service for facts in here for service in facts.services],
        found.before,
        found.day,
    )
    return latest_change.paragraph(found, happened)


def _verdicts(desk: Desk, standing: Standing | SumStanding) -> list[str]:
    then, now = standing.then, standing.now
    reading = standing.latest.reading if isinstance(standing, Standing) else None
    if then == now:
        return [_sentence(desk, now, reading)]
    return [
        verdicts.by_today(_sentence(desk, now, reading)),
        verdicts.by_that_day(_sentence(desk, then, reading)),
    ]


def _sentence(desk: Desk, judgement: Judgement, reading: Reading | None) -> str:
    cited = _cited(desk, judgement, judgement.limit, reading) if judgement.limit else ""
    parts = (verdicts.sentence(judgement), cited, why(judgement))
    return " ".join(filter(None, parts))


def _cited(desk: Desk, judgement: Judgement, limit: Limit, reading: Reading | None) -> str:
    catalogue = desk.history.catalogue
    parameter = catalogue.parameters[limit.parameter]
    bound = (
        paper.bound_shown(paper.bound(limit), limit, parameter)
        if reading is None
        else paper.bound_beside(reading, limit, parameter)
    )
    return _("Limit: {bound} ({kind}; {set}, {force}) [{number}].").format(
        bound=bound,
        kind=verdicts.kind(limit.kind),
        set=catalogue.sets[limit.set].name,
        force=verdicts.holds(judgement, limit),
        number=desk.number(limit),
    )


def summary(desk: Desk) -> Story:
    """Every parameter at every point: latest reading, both verdicts, limit, trend, chart page."""
    story: Story = [
        desk.heading(_("Every parameter in one line"), "summary"),
        text(
            _(
                "The latest reading of each parameter, held against the limit in force on the "
                "sampling day and against the one in force now. The number in brackets leads to "
                "the limit’s source; the last column to the chart."
            ),
        ),
        legend(desk),
    ]
    columns = (
        Column(N_("Parameter"), 98),
        Column(N_("Tests"), 29, right=True),
        Column(N_("Trend"), 44),
        Column(N_("Latest reading"), 92),
        Column(N_("Drawn"), 58),
        Column(N_("On that day"), 66),
        Column(N_("By today’s limits"), 66),
        Column(N_("Limit"), 32),
        Column(N_("Chart page"), 26, right=True),
    )
    for name, point in points_of(desk):
        title = paper.with_side(name, treated=point.point.treated)
        table = grid(columns, [_line(desk, point, one) for one in point.standings], desk.width)
        story += desk.over(title, f"summary-{point.point.id}", table)
        if point.sums:
            rows = [_sum_line(desk, one) for one in point.sums]
            story += [Spacer(1, 4), grid(_SUMS, rows, desk.width)]
        if point.unknown:
            story.append(
                text(
                    _(
                        "Also tested, under names that the program does not know and so does not "
                        "compare: {names}."
                    ).format(
                        names=", ".join(point.unknown),
                    ),
                    style.SMALL,
                )
            )
    return story


def _line(desk: Desk, point: PointOverview, one: Standing) -> list[Cell]:
    latest = one.latest
    return [
        one.parameter.name,
        str(one.n),
        _way(one.trend),
        paper.shown(latest.reading, one.parameter),
        paper.day(latest.collected.day),
        marked(one.then),
        marked(one.now),
        desk.references(one.then, one.now),
        _chart(desk, point, one),
    ]


def _way(found: Trend) -> str:
    """Which way a trend goes, in a word; empty if none was found."""
    return verdicts.trend(found.says) if found.says in MOVING else ""


def _sum_line(desk: Desk, one: SumStanding) -> list[Cell]:
    return [
        one.parameter.name,
        facts.added(one.sum),
        paper.day(one.day),
        marked(one.then),
        marked(one.now),
        desk.references(one.then, one.now),
    ]


def legend(desk: Desk) -> Table:
    """What the shapes mean."""
    shares = [140, 68, 84, 92, 76, 76, 52]
    cells = [
        Marked(*style.SHAPES[verdict], meaning.short)
        for verdict, meaning in verdicts.meanings().items()
    ]
    table = Table([cells], colWidths=[desk.width * share / sum(shares) for share in shares])
    table.setStyle(style.PLAIN)
    table.setStyle(TableStyle([("RIGHTPADDING", (0, 0), (-1, -1), 4)]))
    return table
