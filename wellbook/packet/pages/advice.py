"""Cautions: what is usually done about readings that are outside, resolved point by point."""

from reportlab.platypus import Paragraph

from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.pages.at_a_glance import points_of
from wellbook.pdf import style
from wellbook.pdf.letters import markup
from wellbook.planning.advice import EVERYBODY, advice_at
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import N_, _
from wellbook.water.cautions.advice import Advice
from wellbook.water.verdicts.hold_time import is_late
from wellbook.water.verdicts.judge import Verdict

_TITLES = {
    "bacteria_found": N_("After bacteria were found"),
    "disinfection": N_("Disinfecting a well"),
    "sample_held_too_long": N_("A bacteria sample that was held too long"),
    "wellhead": N_("Work at the wellhead"),
}
_BACTERIA = frozenset({"total_coliform", "e_coli", "fecal_coliform", "enterococci"})


def advice(context: PacketContext) -> Story:
    """Usual cautions about the latest readings, all readings of a point taken together."""
    story: Story = [
        context.heading(_("Usual cautions"), "cautions"),
        *texts(context.cautions.general),
    ]
    kinds: dict[str, None] = {}
    for name, point in points_of(context):
        beside = context.history.beside(point)
        said = advice_at(point, beside, context.cautions, EVERYBODY, context.history.today)
        kinds |= dict.fromkeys(_situations(point))
        if said:
            story.append(context.second(name, f"cautions-{point.point.id}"))
            story += [_paragraph(one) for one in said]
    for key in kinds:
        situation = context.cautions.situations[key]
        story += [text(_(_TITLES[key]), style.H3), text(situation.text)]
        story += [
            text(f"{place}. {step}", style.INDENTED)
            for place, step in enumerate(situation.steps, start=1)
        ]
    return story


def _paragraph(one: Advice) -> Paragraph:
    return Paragraph(f"<b>{markup(', '.join(one.names))}.</b> {markup(one.text)}", style.BODY)


def _situations(point: PointOverview) -> list[str]:
    """Cautions about moments that the latest readings bring with them."""
    bacteria = [one for one in point.standings if one.parameter.key in _BACTERIA]
    found: list[str] = []
    if any(one.now.verdict in {Verdict.OUTSIDE, Verdict.UNDECIDABLE} for one in bacteria):
        found += ["bacteria_found", "disinfection"]
    if any(is_late(one.latest) for one in bacteria):
        found.append("sample_held_too_long")
    if any(one.now.verdict is Verdict.OUTSIDE for one in point.standings):
        found.append("wellhead")
    return found
