"""What needs attention, then every parameter in one line."""

from reportlab.platypus import KeepTogether, Spacer, Table, TableStyle

from wellbook.packet.answers import answer, gaps
from wellbook.packet.context import PacketContext, Story, marked, text
from wellbook.pdf import style
from wellbook.pdf.flowables import Marked, PageNumber
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.planning.between import between
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _
from wellbook.water.statistics.outcomes import UNSTEADY, Trend
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


def _chart(context: PacketContext, point: PointOverview, standing: Standing) -> PageNumber | str:
    key = context.chart_key(point.point.id, standing.parameter.key)
    return PageNumber(context.places, key) if key else ""


def points_of(context: PacketContext) -> list[tuple[str, PointOverview]]:
    """Every point that was ever tested, with the name it goes by in the packet."""
    several = len(context.history.wells) > 1
    return [
        (f"{facts.well.name}: {point.point.name}" if several else point.point.name, point)
        for facts in context.history.wells
        for point in facts.overview.points
        if point.standings or point.unknown
    ]


def attention(context: PacketContext) -> Story:
    """Each latest reading that is outside, close to a limit, or can’t be told."""
    story: Story = [context.heading(_("What needs attention"), "attention")]
    found: list[tuple[str, PointOverview, Standing | SumStanding]] = [
        (name, point, standing)
        for name, point in points_of(context)
        for standing in point.by_urgency
        if standing.needs_attention
    ]
    if not found:
        story.append(text(_quiet(context)))
    found.sort(key=lambda one: by_urgency(one[2]))
    return [*story, *(KeepTogether(_case(context, *one)) for one in found)]


def _quiet(context: PacketContext) -> str:
    """What is said where no reading calls for attention: it must not sound like an all-clear."""
    if not context.history.tests:
        said = _("There is no test that could show anything.")
    else:
        said = _(
            "In the latest test of each parameter at each point no reading is outside or close to "
            "a limit of the chosen sets. What was never tested can’t show here: see “What was "
            "never tested”."
        )
    return f"{said} {gaps.told(context.history)}"


def _case(
    context: PacketContext, name: str, point: PointOverview, standing: Standing | SumStanding
) -> Story:
    if isinstance(standing, SumStanding):
        said, day = facts.added(standing.sum), standing.day
    else:
        latest = standing.latest
        said, day = paper.shown(latest.reading, standing.parameter), latest.collected.day
        name = answer.drawn_at(name, latest.draw)
    title = f"{standing.parameter.name}: {said}"
    key = context.chart_key(point.point.id, standing.parameter.key)
    shape, colour = style.SHAPES[standing.headline.verdict]
    cells = [
        Marked(shape, colour, "", 11),
        text(title, style.H3),
        text(f"{name}, {paper.day(day)}", style.CELL),
        PageNumber(context.places, key, _("chart: page")) if key else "",
    ]
    place, page = context.width * 0.38, 72
    head = Table([cells], colWidths=[18, context.width - 18 - place - page, place, page])
    head.setStyle(_LINE)
    told = [
        context.linked(sentence, style.INDENTED)
        for sentence in (
            *_verdicts(context, standing),
            _changed(context, point, standing),
            standing.parameter.why,
        )
        if sentence
    ]
    return [head, *told, Spacer(1, 5)]


def _changed(context: PacketContext, point: PointOverview, standing: Standing | SumStanding) -> str:
    """What changed since the test before, and what happened in between."""
    found = standing.change if isinstance(standing, Standing) else None
    if found is None or found.before is None:
        return ""
    here = [facts for facts in context.history.wells if facts.well.id == point.point.well]
    happened = between(
        [event for facts in here for event in facts.events],
        [service for facts in here for service in facts.services],
        found.before,
        found.day,
    )
    return latest_change.paragraph(found, happened)


def _verdicts(context: PacketContext, standing: Standing | SumStanding) -> list[str]:
    then, now = standing.then, standing.now
    reading = standing.latest.reading if isinstance(standing, Standing) else None
    if then == now:
        return [_sentence(context, now, reading)]
    return [
        verdicts.by_today(_sentence(context, now, reading)),
        verdicts.by_that_day(_sentence(context, then, reading)),
    ]


def _sentence(context: PacketContext, judgement: Judgement, reading: Reading | None) -> str:
    cited = _cited(context, judgement, judgement.limit, reading) if judgement.limit else ""
    parts = (verdicts.sentence(judgement), cited, why(judgement))
    return " ".join(filter(None, parts))


def _cited(
    context: PacketContext, judgement: Judgement, limit: Limit, reading: Reading | None
) -> str:
    catalogue = context.history.catalogue
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
        number=context.number(limit),
    )


def summary(context: PacketContext) -> Story:
    """Every parameter at every point: latest reading, both verdicts, limit, trend, chart page."""
    story: Story = [
        context.heading(_("Every parameter in one line"), "summary"),
        text(
            _(
                "The latest reading of each parameter, held against the limit in force on the "
                "sampling day and against the one in force now. The number in brackets leads to "
                "the limit’s source; the last column to the chart."
            ),
        ),
        legend(context),
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
    for name, point in points_of(context):
        title = paper.with_side(name, treated=point.point.treated)
        table = grid(
            columns, [_line(context, point, one) for one in point.standings], context.width
        )
        story += context.over(title, f"summary-{point.point.id}", table)
        if point.sums:
            rows = [_sum_line(context, one) for one in point.sums]
            story += [Spacer(1, 4), grid(_SUMS, rows, context.width)]
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


def _line(context: PacketContext, point: PointOverview, one: Standing) -> list[Cell]:
    latest = one.latest
    return [
        one.parameter.name,
        str(one.n),
        _way(one.trend),
        paper.shown(latest.reading, one.parameter),
        paper.day(latest.collected.day),
        marked(one.then),
        marked(one.now),
        context.references(one.then, one.now),
        _chart(context, point, one),
    ]


def _way(found: Trend) -> str:
    """Which way a trend goes, in a word; empty if none was found."""
    return verdicts.trend(found.says) if found.says in UNSTEADY else ""


def _sum_line(context: PacketContext, one: SumStanding) -> list[Cell]:
    return [
        one.parameter.name,
        facts.added(one.sum),
        paper.day(one.day),
        marked(one.then),
        marked(one.now),
        context.references(one.then, one.now),
    ]


def legend(context: PacketContext) -> Table:
    """What the shapes mean."""
    shares = [140, 68, 84, 92, 76, 76, 52]
    cells = [
        Marked(*style.SHAPES[verdict], meaning.short)
        for verdict, meaning in verdicts.meanings().items()
    ]
    table = Table([cells], colWidths=[context.width * share / sum(shares) for share in shares])
    table.setStyle(style.PLAIN)
    table.setStyle(TableStyle([("RIGHTPADDING", (0, 0), (-1, -1), 4)]))
    return table
