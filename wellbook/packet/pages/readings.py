"""For a consultant: every reading by parameter with its conversion, indices, open questions."""

from collections.abc import Iterator

from wellbook.intake.said import short_where
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import Judged, SampleFacts
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.packet.pages.results import as_reported
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid
from wellbook.planning.overview import PointOverview
from wellbook.sharing.rounding import shown_number
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.chemistry.indices import Index, indices
from wellbook.water.plausibility.checks import check
from wellbook.water.values.findings import Severity
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Verdict
from wellbook.wording import findings, paper, units
from wellbook.wording import indices as indexes
from wellbook.wording.facts import bounds, with_unit
from wellbook.wording.reasons import why

_READINGS = (
    Column(N_("Parameter"), 84),
    Column(N_("Test"), 24, right=True),
    Column(N_("Drawn"), 53),
    Column(N_("As reported"), 85),
    Column(N_("In one unit"), 85),
    Column(N_("Reporting limit"), 44),
    Column(N_("Detection limit"), 44),
    Column(N_("Method"), 50),
    Column(N_("Lab"), 20, right=True),
    Column(N_("In the report"), 39),
)
_INDICES = (
    Column(N_("Index"), 112),
    Column(N_("Value"), 84),
    Column(N_("Test"), 26, right=True),
    Column(N_("What it says"), 110),
    Column(N_("Caution and source"), 180),
)
_FINDINGS = (
    Column(N_("Test"), 26, right=True),
    Column(N_("Kind"), 50),
    Column(N_("What looks odd"), 436),
)
_BOUND = {Kind.BELOW: "< ", Kind.ABOVE: "> "}


def readings(context: PacketContext) -> Story:
    """Every reading at each point, by parameter and day."""
    story: Story = [
        context.heading(_("Readings by parameter"), "readings"),
        text(
            _(
                "As reported, and converted to one unit and basis for each parameter; a conversion "
                "is left out where it would need a guess. Non-detects stay bounds. Labs stand by "
                "their number in the list of labs; where a reading stands in its report is told by "
                "page and line, or by cell. The same figures are attached as results.csv."
            )
        ),
    ]
    labs = {lab.name: number for number, lab in enumerate(context.history.labs, start=1)}
    for name, point in points_of(context):
        rows = [_reading(one, test, labs) for one, test in _ordered(context, point)]
        story += context.over(
            name, f"readings-{point.point.id}", grid(_READINGS, rows, context.width)
        )
    return story


def _ordered(context: PacketContext, point: PointOverview) -> list[tuple[Judged, SampleFacts]]:
    """A point's readings in the catalogue's order of parameters, each by day."""
    order = {key: place for place, key in enumerate(context.history.catalogue.parameters)}
    found = [
        (one, test)
        for test in context.history.tests
        if test.sample.point == point.point.id
        for one in test.results
    ]
    return sorted(found, key=lambda row: order.get(row[0].result.parameter, len(order)))


def _reading(one: Judged, test: SampleFacts, labs: dict[str, int]) -> list[Cell]:
    result, parameter = one.result, one.parameter
    usual = ""
    number = shown_number(result, parameter)
    if parameter is not None and number is not None:
        figure = f"{_BOUND.get(result.reading.kind, '')}{number:f}"
        usual = with_unit(figure, *parameter.shown_in)
    return [
        parameter.name if parameter else result.name,
        str(test.number),
        str(test.sample.collected.day),
        as_reported(one),
        usual,
        result.reporting_limit,
        result.detection_limit,
        result.method,
        str(labs[result.lab]) if result.lab in labs else "",
        short_where(result.place),
    ]


def index_tables(context: PacketContext) -> Story:
    """Indices of hardness, scale, corrosion and salts, from the latest sample that gives each."""
    story: Story = [
        context.heading(_("Indices"), "indices"),
        text(
            _(
                "Worked out from the latest sample of a point that holds what each index needs. A "
                "range comes from non-detects, or from a temperature that nobody measured."
            )
        ),
    ]
    for name, point in points_of(context):
        latest: dict[str, tuple[int, Index]] = {}
        for test in context.history.tests:
            if test.sample.point == point.point.id:
                results = [one.result for one in test.results]
                for index in indices(results, context.history.catalogue):
                    latest[index.key] = (test.number, index)
        if latest:
            rows = [_index(number, index) for number, index in latest.values()]
            table = grid(_INDICES, rows, context.width)
            story += context.over(name, f"indices-{point.point.id}", table)
    return story


def _index(number: int, one: Index) -> list[Cell]:
    value = f"{bounds(one.value)} {units.said(one.unit)}".strip()
    source = indexes.source(one)
    said = " ".join(filter(None, (indexes.caution(one), f"{source[:1].upper()}{source[1:]}.")))
    return [indexes.name(one), value, str(number), indexes.meaning(one), said]


def plausibility(context: PacketContext) -> Story:
    """What looks odd in each test: it asks, and nothing was changed because of it."""
    story: Story = [
        context.heading(_("Do the reports hang together"), "plausibility"),
        text(
            _(
                "Each report is held against itself, against the other tests of its point, and "
                "against the calendar. A finding asks a person to look again; no reading was "
                "altered."
            )
        ),
    ]
    rows = [row for test in context.history.tests for row in _odd(context, test)]
    if not rows:
        return [*story, text(_("Nothing was found to ask."))]
    return [*story, grid(_FINDINGS, rows, context.width)]


def _odd(context: PacketContext, test: SampleFacts) -> Iterator[list[Cell]]:
    history = context.history
    others = [
        one.result
        for other in history.tests
        if other.sample.point == test.sample.point and other is not test
        for one in other.results
    ]
    found = check(
        [one.result for one in test.results],
        history.catalogue,
        others,
        today=history.today,
        received=test.sample.received,
    )
    for finding in found:
        kind = _("question") if finding.severity is Severity.ASK else _("note")
        yield [str(test.number), kind, findings.said(finding)]


def questions(context: PacketContext) -> Story:
    """What the record leaves open."""
    story: Story = [context.heading(_("Open questions"), "questions")]
    found = list(_questions(context))
    if not found:
        return [*story, text(_("The record leaves none that the program can see."))]
    return [*story, *(text(f"•  {one}", style.INDENTED) for one in found)]


def _questions(context: PacketContext) -> Iterator[str]:
    tests = context.history.tests
    unknown = dict.fromkeys(
        one.result.name for test in tests for one in test.results if one.parameter is None
    )
    if unknown:
        yield _("Names that the program does not know, so not compared: {names}.").format(
            names=", ".join(unknown),
        )
    yield from _open_verdicts(context)
    yield from _bare(context)
    untimed = [test.number for test in tests if test.sample.collected.at is None]
    if untimed:
        yield ngettext(
            "The time of day was not written down for test {numbers}.",
            "The time of day was not written down for tests {numbers}.",
            len(untimed),
        ).format(
            n=len(untimed),
            numbers=", ".join(map(str, untimed)),
        )
    for facts in context.history.wells:
        if not facts.well.construction:
            yield _("{well}: nothing was entered about how the well was built.").format(
                well=facts.well.name
            )


def _bare(context: PacketContext) -> Iterator[str]:
    """How many readings lack what would let them be compared."""
    rows = [one.result for test in context.history.tests for one in test.results]
    total = len(rows)
    if found := sum(not one.method for one in rows):
        yield ngettext(
            "{n:,} of {total:,} readings has no method.",
            "{n:,} of {total:,} readings have no method.",
            found,
        ).format(
            n=found,
            total=total,
        )
    if found := sum(one.reading.kind is Kind.NUMBER and not one.reading.unit for one in rows):
        yield ngettext(
            "{n:,} of {total:,} readings is a figure without a unit.",
            "{n:,} of {total:,} readings are figures without a unit.",
            found,
        ).format(
            n=found,
            total=total,
        )
    if found := sum(map(_is_bare_non_detect, rows)):
        yield ngettext(
            "{n:,} of {total:,} readings is a non-detect without a reporting limit.",
            "{n:,} of {total:,} readings are non-detects without a reporting limit.",
            found,
        ).format(
            n=found,
            total=total,
        )


def _is_bare_non_detect(one: Result) -> bool:
    below = one.reading.kind is Kind.BELOW and one.reading.number is None
    return below and not one.reporting_limit


def _open_verdicts(context: PacketContext) -> Iterator[str]:
    for name, point in points_of(context):
        for one in point.standings:
            if one.now.verdict is Verdict.UNDECIDABLE:
                yield _("{parameter} at {point}, {day}: {reason}").format(
                    parameter=one.parameter.name,
                    point=name,
                    day=paper.day(one.latest.collected.day),
                    reason=why(one.now),
                )
