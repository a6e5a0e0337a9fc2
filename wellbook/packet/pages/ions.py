"""For a consultant: the main ions of the samples in the two usual diagrams."""

from reportlab.platypus import Spacer

from wellbook.charts.draw.ions import stiff_height
from wellbook.charts.model.piper import Piper, Water, piper
from wellbook.charts.model.stiff import Stiff, stiff
from wellbook.packet.charts import records
from wellbook.packet.context import PacketContext, Story, text
from wellbook.packet.gather import History, SampleFacts
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.flowables import ChartSpace
from wellbook.planning.consulting import consulted
from wellbook.support.translation import _, ngettext
from wellbook.water.chemistry.major_ions import majors
from wellbook.wording import paper
from wellbook.wording.consulting import salt_sources

_INCH = 72
_PIPER = 0.72  # of its width
_WIDE = 0.62  # of the page, for the diagram itself
_MOST_SHAPES = 12


def ion_diagrams(history: History) -> tuple[Piper | Stiff, ...]:
    """Both diagrams, or none where no sample holds all main ions."""
    known = [
        (test, found)
        for test in history.tests
        if (found := majors([one.result for one in test.results], history.catalogue))
    ]
    if not known:
        return ()
    latest = {test.sample.point: test.number for test, _unused in known}
    first = {test.sample.point: test.number for test, _unused in reversed(known)}
    waters = [
        Water(str(test.number), test.treated, latest[test.sample.point] == test.number, found)
        for test, found in known
    ]
    ends = {*latest.values(), *first.values()}
    shapes = [(_title(test), test.point, found) for test, found in known if test.number in ends]
    return piper(waters), stiff(shapes[-_MOST_SHAPES:])


def _title(test: SampleFacts) -> str:
    return _("Test {number}, {year}").format(
        number=test.number, year=test.sample.collected.day.year
    )


def ions(context: PacketContext) -> Story:
    """The diagrams, each with what it is and what it leaves out."""
    story: Story = [context.heading(_("Main ions"), "ions")]
    if not context.ions:
        return [
            *story,
            text(
                _(
                    "No sample holds calcium, magnesium, sodium, chloride, sulfate and alkalinity, "
                    "so nothing can be drawn."
                )
            ),
        ]
    place = len(context.figures) + len(context.wheels)
    for number, diagram in enumerate(context.ions, start=place):
        if isinstance(diagram, Piper):
            title, said, wide = _("Piper diagram"), diagram.sentence, _WIDE * context.scale
            size = (context.width, context.width * wide * _PIPER)  # room for its key
        else:
            title = _("Stiff diagrams")
            said = _("First and latest sample of each point, meq/L.")
            tall = stiff_height(len(diagram.shapes), context.width / _INCH) * _INCH
            size = (context.width, tall)
        story += [
            context.second(title, f"ions-{number}"),
            ChartSpace(context.places, number, size),
            text(f"{said} {_('Numbers are those of the tests.')}", style.SMALL),
            Spacer(1, 4),
        ]
    return [*story, text(_reading(context), style.SMALL)]


def _reading(context: PacketContext) -> str:
    found = [
        one
        for test in context.history.tests
        if (one := majors([row.result for row in test.results], context.history.catalogue))
    ]
    unsure = max((one.unsure for one in found), default=0.0)
    return ngettext(
        "From {n:,} sample; bicarbonate and carbonate from the alkalinity. Non-detects count as "
        "nothing here; the most that they could add to one side is {unsure:.1f} % of it.",
        "From {n:,} samples; bicarbonate and carbonate from the alkalinity. Non-detects count as "
        "nothing here; the most that they could add to one side is {unsure:.1f} % of it.",
        len(found),
    ).format(
        n=len(found),
        unsure=unsure,
    )


def sources(context: PacketContext) -> Story:
    """Where salt and nitrate may come from, at each point of raw water; nothing without a hint."""
    known = records(context.history)
    told: Story = []
    for name, point in points_of(context):
        record = known.get(point.point.id)
        found = consulted(point, record, context.history.catalogue) if record else None
        if not found or not found.hints:
            continue
        told.append(context.second(name, f"sources-{point.point.id}"))
        for day, hint in found.hints:
            said = _("{day}: {sentence} Source: {source}.").format(
                day=paper.day(day),
                sentence=salt_sources.sentence(hint),
                source=salt_sources.source(hint),
            )
            told.append(text(said))
    if not told:
        return []
    heading = context.heading(_("Where salt and nitrate may come from"), "sources")
    return [heading, text(salt_sources.caution()), *told]
