"""Charts, each with the sentence that says what it means, and the year wheel."""

from reportlab.platypus import KeepTogether, Spacer, Table, TableStyle

from wellbook.packet.charts import Figure
from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.pdf import style
from wellbook.pdf.flowables import ChartSpace, Heading
from wellbook.support.translation import _

_HEIGHT = 172.0
_FIRST = 3  # charts among the answers; the others stand in the record
_BESIDE = TableStyle([*style.PLAIN.getCommands(), ("VALIGN", (0, 0), (-1, -1), "MIDDLE")])


def charts(context: PacketContext) -> Story:
    """For a buyer the charts that matter most, for a consultant all; health first."""
    story: Story = [context.heading(_("Charts"), "charts")]
    if not context.figures:
        return [
            *story,
            text(_("No parameter was tested at least twice, so there is nothing to draw.")),
        ]
    if context.technical:
        which = _("Every parameter that was tested at least twice, what is about health first.")
        return [*story, text(which), *_drawn(context, slice(None), 1.0, summed_up=True)]
    which = _(
        "What is outside or close to a limit or can’t be told, what is about health first. Every "
        "reading and every other chart stands in the record."
    )
    return [*story, text(which), *_drawn(context, slice(_FIRST), context.scale)]


def more_charts(context: PacketContext) -> Story:
    """For a buyer the other charts; nothing where there is none."""
    if context.technical or len(context.figures) <= _FIRST:
        return []
    which = _("What rises or falls and has a limit, and what is always asked for.")
    heading = context.heading(_("More charts"), "more-charts")
    return [
        heading,
        *texts(_summed_up(context), style.SMALL),
        text(which),
        *_drawn(context, slice(_FIRST, None), 1.0, summed_up=True),
    ]


def _summed_up(context: PacketContext) -> list[str]:
    """What the histories drawn among the answers sum up to, as there is no room for it there."""
    return [
        _("{parameter}: {sentence}").format(
            parameter=figure.title, sentence=" ".join(figure.summary)
        )
        for figure in context.figures[:_FIRST]
        if figure.summary
    ]


def _drawn(context: PacketContext, part: slice, scale: float, *, summed_up: bool = False) -> Story:
    numbered = list(enumerate(context.figures))[part]
    return [
        KeepTogether(_one(context, place, figure, scale, figure.summary if summed_up else ()))
        for place, figure in numbered
    ]


def _one(
    context: PacketContext, place: int, figure: Figure, scale: float, summary: tuple[str, ...]
) -> Story:
    *first, last = figure.chart.sentences
    said = [*first, " ".join((last, *figure.chart.notes)), *summary]
    return [
        Heading(figure.title, style.H2, context.places, figure.key, 1),
        ChartSpace(context.places, place, (context.width, _HEIGHT * scale)),
        *texts(said, style.CAPTION),
        Spacer(1, 4),
    ]


def year_wheels(context: PacketContext) -> Story:
    """When in the year each point was tested."""
    story: Story = [
        context.heading(_("When in the year"), "wheels"),
        text(
            _(
                "Water changes with rain, thaw and pumping, so a part of the year without any test "
                "is a gap in what is known. Each dot is a day with a test, on the ring of its "
                "year; the oldest year is the innermost."
            )
        ),
    ]
    side = min(context.width * 0.56, 280)
    for place, wheel in enumerate(context.wheels, start=len(context.figures)):
        row = [
            ChartSpace(context.places, place, (side, side)),
            [text(wheel.title, style.H2), text(wheel.sentence)],
        ]
        table = Table([row], colWidths=[side + 14, context.width - side - 14])
        table.setStyle(_BESIDE)
        story.append(table)
    return story
