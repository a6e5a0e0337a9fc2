"""For a consultant: trends with their statistics, changes at events, raw against treated."""

from wellbook.packet.charts import Records, records
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import WellFacts
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.planning.consulting import power
from wellbook.planning.overview import PointOverview
from wellbook.sharing.event_marks import middle
from wellbook.support.translation import N_, _, pgettext
from wellbook.water.statistics.outcomes import (
    LEAST_TOLD,
    MOVING,
    SHIFTED,
    UNSTEADY,
    Change,
    Direction,
    Summary,
    Trend,
)
from wellbook.water.statistics.removal import Removal, removal
from wellbook.water.statistics.step_change import step_change
from wellbook.water.values.figures import chance, plain
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.forecasts import highest_end
from wellbook.water.verdicts.status import Standing
from wellbook.wording import paper, units, verdicts, vocabulary
from wellbook.wording import trends as wording
from wellbook.wording.consulting import levels as level_words
from wellbook.wording.consulting import removals

_UNTOLD = {Direction.FEW, Direction.NOT_FOR_THIS}
_REMOVALS = (
    Column(N_("Parameter"), 92),
    Column(N_("Pairs"), 32, right=True),
    Column(N_("Bounds"), 36, right=True),
    Column("p", 40, right=True),
    Column(N_("In words"), 312),
)
_LEVELS = (
    Column(N_("Parameter"), 92),
    Column("n", 20, right=True),
    Column(N_("Bounds"), 34, right=True),
    Column(N_("Median, 90 % limits"), 100),
    Column(N_("Mean"), 88),
    Column(N_("Unit"), 52),
    Column(N_("Long-run median and today’s limit"), 126),
)
_STEPS = (
    Column(N_("Event"), 118),
    Column(N_("Parameter"), 88),
    Column(N_("n before"), 38, right=True),
    Column(N_("n after"), 34, right=True),
    Column("p", 40, right=True),
    Column(N_("In words"), 202),
)


def trends(context: PacketContext) -> Story:
    """Every trend that could be judged, with its test, its n and its slope."""
    story: Story = [
        context.heading(_("Trends with their statistics"), "trends"),
        text(
            _(
                "Kendall’s rank test over all usable readings of a point, exact where n is small; "
                "within the quarters of the year where each holds enough tests. Where the time of "
                "year moved along with the years, a yearly cycle is taken off first, and S is "
                "Student’s t. From 20 tests on, likeness of successive tests is allowed for; with "
                "fewer a trend that it may explain says so. Non-detects "
                "and off-scale readings enter as bounds, never as half a limit. The slope is Theil "
                "and Sen’s, or Akritas, Theil and Sen’s where there are bounds. With many "
                "parameters some will show a small p by chance alone."
            )
        ),
    ]
    for name, point in points_of(context):
        told = [one for one in point.standings if one.trend.says not in _UNTOLD]
        rows = [_trend(one.parameter, one.trend) for one in told]
        few = [
            f"{one.parameter.name} ({one.trend.n})" for one in point.standings if one not in told
        ]
        key = f"trends-{point.point.id}"
        if rows:
            story += context.over(name, key, grid(_columns(), rows, context.width))
        else:
            story.append(context.second(name, key))
        if few:
            said = _("Too few tests, or no trend for it (n): {parameters}.").format(
                parameters=", ".join(few)
            )
            story.append(text(said, style.SMALL))
        story += _more_tests(point, records(context.history))
    return story


def _more_tests(point: PointOverview, known: Records) -> Story:
    """How many more tests would tell, where too few tests or the season leave it open."""
    found = [
        (one.parameter.name, power(one, known[point.point.id]))
        for one in point.standings
        if point.point.id in known
    ]
    return [
        text(
            _("{parameter}: {sentence}").format(parameter=name, sentence=wording.outlook(more)),
            style.SMALL,
        )
        for name, more in found
        if more
    ]


def _columns() -> tuple[Column, ...]:
    """The columns of trends; their test is one of statistics, elsewhere it is one of water."""
    return (
        Column(N_("Parameter"), 86),
        Column("n", 18, right=True),
        Column(N_("Bounds"), 34, right=True),
        Column(N_("Result"), 77),
        Column(pgettext("statistics", "Test"), 92),
        Column("S", 24, right=True),
        Column("p", 38, right=True),
        Column(N_("Slope a year, 90 % interval"), 143),
    )


def _trend(parameter: Parameter, found: Trend) -> list[Cell]:
    return [
        parameter.name,
        str(found.n),
        str(found.censored),
        verdicts.trend(found.says),
        wording.test_name(found.test).removesuffix(" test"),
        _statistic(found),
        _chance(found.p),
        _slope(found),
    ]


def _statistic(found: Trend) -> str:
    """Kendall's S is a whole number; Student's t is told as such."""
    if found.statistic is None:
        return ""
    whole = found.statistic == round(found.statistic)
    return f"{found.statistic:.0f}" if whole else f"t {found.statistic:.1f}"


def _slope(found: Trend) -> str:
    if found.slope_per_year is None:
        is_open = found.test and found.says not in SHIFTED
        return _("left open by the bounds") if is_open else ""
    low, high = (
        _end(end, is_left_out=end == 0 and found.says in MOVING) for end in (found.low, found.high)
    )
    slope = plain(found.slope_per_year)
    return _("{slope} ({low} to {high}) {unit}").format(
        slope=slope, low=low, high=high, unit=units.said(found.unit)
    )


def _end(end: float | None, *, is_left_out: bool) -> str:
    """An end of an interval; what keeps away from no change does not hold it."""
    if end is None:
        return pgettext("end of an interval", "open")
    return pgettext("end of an interval", "not 0") if is_left_out else plain(end)


def _chance(p: float | None) -> str:
    return "" if p is None else chance(p).removeprefix("p ").removeprefix("= ")


def levels(context: PacketContext) -> Story:
    """The long-run level of what has no trend, non-detects counted in, beside its limit."""
    story: Story = [
        context.heading(_("Long-run levels"), "levels"),
        text(
            _(
                "Median and mean of what neither rises nor falls, from {least} tests on. The "
                "median counts non-detects in by Kaplan-Meier; its limits are one-sided 90 % "
                "limits by order statistics, each non-detect at its reporting limit. The mean is "
                "by Kaplan-Meier up to half of non-detects, then by robust regression on order "
                "statistics or, from 50 tests on, lognormal likelihood, and none beyond four "
                "fifths (after Helsel, Statistics for Censored Environmental Data, 2012). A limit "
                "is meant for each sample: a level below it excuses no single reading above it."
            ).format(least=LEAST_TOLD)
        ),
    ]
    for name, point in points_of(context):
        rows = [
            _level(one, one.summary)
            for one in point.standings
            if one.summary and one.trend.says not in UNSTEADY
        ]
        if rows:
            story += context.over(
                name, f"levels-{point.point.id}", grid(_LEVELS, rows, context.width)
            )
    if len(story) == 2:  # noqa: PLR2004  heading and text alone
        story.append(text(_("No parameter has enough tests without a trend.")))
    return story


def _level(one: Standing, summary: Summary) -> list[Cell]:
    found, unit = summary.level, summary.spread.unit
    highest = highest_end(one.now.limit, one.parameter)
    return [
        one.parameter.name,
        str(found.n),
        str(found.censored),
        level_words.median(found),
        level_words.mean(found),
        units.said(unit),
        "" if highest is None else level_words.stands(found, highest, unit),
    ]


def treatment(context: PacketContext) -> Story:
    """Raw against treated water: what the units take out, by pairs of one day."""
    story: Story = [
        context.heading(_("Raw against treated water"), "treatment"),
        text(
            _(
                "Pairs drawn before and after treatment on the same day. A non-detect after "
                "treatment gives a least removal, one before leaves it undefined. p is of a sign "
                "test."
            )
        ),
    ]
    known = records(context.history)
    for facts in context.history.wells:
        rows = _removals(facts, known)
        name = facts.well.name
        if rows:
            title = _("{well}: removal by pairs").format(well=name)
            story += context.over(
                title, f"treatment-{facts.well.id}", grid(_REMOVALS, rows, context.width)
            )
        else:
            said = _("{well}: no figures of raw and treated water of one day that can be compared.")
            story.append(text(said.format(well=name)))
    return story


def _removals(facts: WellFacts, known: Records) -> list[list[Cell]]:
    raw, treated = (
        [one for one in facts.overview.points if one.point.treated is side]
        for side in (False, True)
    )
    rows: list[list[Cell]] = []
    for before in raw:
        for after in treated:
            for one in filter(_is_taken_out, after.standings):
                found = _removal(before, after, one, known)
                if found is not None and found.pairs:
                    rows.append(_removal_row(one.parameter, found))
    return rows


def _is_taken_out(one: Standing) -> bool:
    """Whether a share removed makes sense: not for a scale such as pH, temperature or an index."""
    return one.parameter.unit not in {"pH units", "°C", "1"}


def _removal(
    before: PointOverview, after: PointOverview, one: Standing, known: Records
) -> Removal | None:
    key = one.parameter.key
    upstream = known[before.point.id].history(key) if before.point.id in known else ()
    downstream = known[after.point.id].history(key)
    return removal(upstream, downstream, one.parameter) if upstream else None


def _removal_row(parameter: Parameter, found: Removal) -> list[Cell]:
    return [
        parameter.name,
        str(found.n),
        str(found.censored),
        _chance(found.p),
        removals.removal(found),
    ]


def steps(context: PacketContext) -> Story:
    """Before and after each event, where both sides hold enough tests."""
    story: Story = [
        context.heading(_("Before and after events"), "steps"),
        text(
            _(
                "A rank-sum test of the readings before an event against those after it. It shows "
                "that something changed about that time, not that the event did it. What rises or "
                "falls through the whole record is left out, because it looks like a change at "
                "every event."
            )
        ),
    ]
    known = records(context.history)
    rows = [row for facts in context.history.wells for row in _steps(facts, known)]
    if not rows:
        return [*story, text(_("No event has enough tests on both sides."))]
    return [*story, grid(_STEPS, rows, context.width)]


def _is_level(one: Standing) -> bool:
    return one.trend.says not in MOVING


def _steps(facts: WellFacts, known: Records) -> list[list[Cell]]:
    rows: list[list[Cell]] = []
    for event in facts.events:
        day = middle(event.day)
        if day is None:
            continue
        title = f"{vocabulary.event(event.kind)}, {paper.loose_day(event.day)}"
        for point in facts.overview.points:
            for one in filter(_is_level, point.standings):
                found = step_change(
                    known[point.point.id].history(one.parameter.key), one.parameter, day
                )
                if found.says in {Change.HIGHER, Change.LOWER}:
                    rows.append(
                        [
                            title,
                            f"{one.parameter.name}, {point.point.name}",
                            str(found.before),
                            str(found.after),
                            _chance(found.p),
                            wording.step_change(found),
                        ]
                    )
    return rows
