"""What a consultant needs to size a treatment: the raw water, the house, and what is not known."""

from collections.abc import Sequence

from reportlab.platypus import Table, TableStyle

from wellbook.packet.answers.house import house, unknown
from wellbook.packet.charts import records
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import WellFacts
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.planning.consulting import consulted
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _
from wellbook.water.cautions.treatment_fit import SIZING_INPUTS, Fit
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording import paper, vocabulary
from wellbook.wording.consulting import treatment_fit

# Lost or changed on the way to a lab: to be measured at the well, common practice, no source.
_AT_THE_WELL = frozenset(
    {"ph", "temperature", "hydrogen_sulfide", "carbon_dioxide", "dissolved_oxygen",
     "redox_potential", "iron_ferrous"}
)  # fmt: skip
_HALF = (
    Column(N_("Raw water"), 92),
    Column(N_("Latest result"), 106),
    Column(N_("Drawn"), 58),
)
_CLOSE = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.6)]
)
_FITS = (
    Column(N_("Over a limit, or asked for"), 92),
    Column(N_("What usually serves"), 230),
    Column(N_("What comes first"), 190),
)


def fit(context: PacketContext) -> Story:
    """Which methods usually serve for the raw water, and what has to come out first."""
    known = records(context.history)
    told: Story = []
    for name, point in points_of(context):
        record = known.get(point.point.id)
        found = consulted(point, record, context.history.catalogue) if record else None
        if found and found.fits:
            rows = [_fit(one) for one in found.fits]
            table = grid(_FITS, rows, context.width)
            told += context.over(name, f"fit-{point.point.id}", table)
    if not told:
        return []
    heading = context.heading(_("What treatment fits the raw water"), "fit")
    return [heading, text(treatment_fit.caution()), *told]


def _fit(one: Fit) -> list[Cell]:
    names = ", ".join(parameter.name for parameter in one.found)
    source = _("Source: {source}.").format(source=_(one.treatment.source))
    first = "\n".join(treatment_fit.firsts(one)) or _("Nothing that was tested.")
    return [names, f"{treatment_fit.methods(one)} {source}", first]


def sizing(context: PacketContext) -> Story:
    """The sizing sheet of each well."""
    story: Story = [
        context.heading(_("Sizing sheet"), "sizing"),
        text(
            _(
                "The water before treatment as it was last tested, and the house, as far as it is "
                "written down. “Not known” is a question for the visit, not a zero. What bears a "
                "star changes on the way to a lab: measure it at the well. Methods stand in the "
                "record."
            )
        ),
    ]
    for facts in context.history.wells:
        story += _well(context, facts)
    return story


def _well(context: PacketContext, facts: WellFacts) -> Story:
    raw = [point for point in facts.overview.points if not point.point.treated]
    known = records(context.history)
    rows = [_row(context, key, raw, known) for key in SIZING_INPUTS]
    lacking = [str(row[0]).rstrip(" *") for row in rows if row[1] == unknown()]
    house_facts = house(facts)
    lacking += [what for what, said in house_facts if said == unknown()]
    names = ", ".join(point.point.name for point in raw)
    title = _("{well}: drawn at {points}").format(well=facts.well.name, points=names or unknown())
    return [
        context.second(title, f"sizing-{facts.well.id}"),
        _beside(rows, context.width),
        context.second(_("The house and its treatment"), f"sizing-house-{facts.well.id}"),
        pairs([*house_facts, *_units(facts)], context.width),
        text(_("To find out before or at a visit: {names}.").format(names=", ".join(lacking)))
        if lacking
        else text(_("Nothing on this sheet is unknown; all of it can have changed since.")),
    ]


def _beside(rows: Sequence[list[Cell]], width: float) -> Table:
    """Rows in two halves side by side, the first half at the left."""
    tall = -(-len(rows) // 2)
    right = [*rows[tall:], *[["", "", ""]] * (2 * tall - len(rows))]
    both = [[*one, *other] for one, other in zip(rows[:tall], right, strict=True)]
    table = grid((*_HALF, *_HALF), both, width)
    table.setStyle(_CLOSE)
    return table


def _row(
    context: PacketContext, key: str, raw: Sequence[PointOverview], known: dict[int, PointRecord]
) -> list[Cell]:
    parameter = context.history.catalogue.parameters[key]
    found = [
        result
        for point in raw
        if point.point.id in known
        for result in known[point.point.id].history(key)
        if result.reading.kind is not Kind.NONE
    ]
    name = f"{parameter.name} *" if key in _AT_THE_WELL else parameter.name
    if not found:
        return [name, unknown(), ""]
    last = max(result.collected.day for result in found)
    latest = [result for result in found if result.collected.day == last]
    said = "\n".join(dict.fromkeys(_said(context, result) for result in latest))
    return [name, said, paper.day(last)]


def _said(context: PacketContext, result: Result) -> str:
    """A result with its fraction and kind of draw: iron in its forms, lead of the first draw."""
    parameter = context.history.catalogue.parameters[result.parameter]
    parts = (
        paper.shown(result.reading, parameter),
        vocabulary.fraction(result.reading.fraction),
        vocabulary.draw(result.draw) if result.draw else "",
    )
    return ", ".join(filter(None, parts))


def _units(facts: WellFacts) -> list[tuple[str, Cell]]:
    units = [unit for unit in facts.units if not unit.removed]
    if not units:
        return [(_("Treatment in use"), _("none is written down"))]
    return [
        (
            unit.name,
            ", ".join(
                filter(None, (vocabulary.treatment(unit.kind), paper.loose_day(unit.installed)
                              if unit.installed else "", unit.note or _("settings not known")))
            ),
        )
        for unit in units
    ]  # fmt: skip
