"""What a reader looks up: gaps, corrections, limits with their sources, cautions, words."""

from reportlab.platypus import Paragraph, Table

from wellbook.packet.answers.gaps import LastDays, is_cut, last_days
from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.gather import SampleFacts
from wellbook.packet.pages.results import one_test
from wellbook.pdf import style
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.support.translation import N_, _, pgettext
from wellbook.water.values.catalogue import Panel
from wellbook.water.values.limits import Limit
from wellbook.wording import paper, verdicts, vocabulary
from wellbook.wording.reference import cited

_COMPUTED = "corrosion"  # the family of what is worked out from other readings
_GAPS = (
    Column(N_("Usual group"), 92),
    Column(N_("Last tested"), 62),
    Column(N_("Never tested"), 358),
)
_CORRECTIONS = (
    Column(N_("Changed on"), 62),
    Column(N_("What"), 110),
    Column(N_("Before"), 115),
    Column(N_("After"), 115),
    Column(N_("Reason given"), 110),
)
_LIMITS = (
    Column(N_("No."), 24),
    Column(N_("Parameter"), 78),
    Column(N_("Limit"), 84),
    Column(N_("Set and kind"), 108),
    Column(N_("In force"), 70),
    Column(N_("Source"), 156),
)

_TERMS = (
    (
        N_("as N, as NO3, as CaCO3"),
        N_(
            "The basis: what the weight was counted as. 10 mg/L of nitrate as N is the same water "
            "as 44.3 mg/L as NO3, so figures compare only on one basis."
        ),
    ),
    (
        N_("action level"),
        N_(
            "A figure at which a public supply has to act; for lead and copper it is held against "
            "the first water out of a tap that was not used for six hours or more."
        ),
    ),
    (
        N_("advisory"),
        N_("Published advice on health that is not a rule."),
    ),
    (
        N_("level for taste and look"),
        N_("A figure for taste, look, smell, stains or corrosion, called aesthetic by agencies."),
    ),
    (
        N_("CFU, MPN"),
        N_(
            "Two ways of counting bacteria in 100 mL: colonies grown, and the most probable "
            "number by statistics."
        ),
    ),
    (
        N_("close to the limit"),
        N_("Within the limit, but not by much; the next sample may be over it."),
    ),
    (
        N_("can’t be told"),
        N_(
            "The reading does not decide whether the limit is met, for instance because the lab "
            "could not see as low as the limit, or a bacteria sample was held too long."
        ),
    ),
    (
        N_("detection limit"),
        N_("The least that the method tells from nothing (often printed as MDL)."),
    ),
    (
        N_("first draw, flushed"),
        N_(
            "The first water out of the tap after hours without use, which shows the pipes; and "
            "water after running for minutes, which shows the well."
        ),
    ),
    (
        N_("limit"),
        N_(
            "A published figure or rule, with the set it belongs to and the days it was in force. "
            "Limits bind public supplies; for a private well they are yardsticks."
        ),
    ),
    (
        N_("mg/L, µg/L, ng/L"),
        N_(
            "Thousandths, millionths and billionths of a gram in a litre. 1 mg/L is 1,000 µg/L, "
            "and 1 µg/L is 1,000 ng/L."
        ),
    ),
    (
        N_("NTU"),
        N_("A measure of cloudiness."),
    ),
    (
        N_("pCi/L, Bq/L"),
        N_("Radioactive decays in a litre. 1 Bq/L is about 27 pCi/L."),
    ),
    (
        N_("reading"),
        N_("What the lab wrote for one parameter in one sample."),
    ),
    (
        N_("reporting limit"),
        N_(
            "The least that the lab reports as a figure. “<0.005” means: not found at that limit. "
            "It does not mean zero."
        ),
    ),
    (
        N_("struck out"),
        N_("A test marked as not to be counted, with a reason. It stays in the record."),
    ),
    (
        N_("TNTC"),
        N_("Too numerous to count: so many colonies that the plate could not be read."),
    ),
    (
        N_("total, dissolved"),
        N_(
            "The whole sample, or only what passes a fine filter. Limits are on the total; a "
            "dissolved result can’t show that one is met."
        ),
    ),
    (
        N_("trend"),
        N_(
            "Whether the readings rise or fall over the years by more than chance, by a rank test "
            "that needs several tests. Too few tests give no answer."
        ),
    ),
    (
        N_("verdict"),
        N_(
            "How a reading stands to a limit: by the limit in force on the day of sampling, and "
            "by the one in force now."
        ),
    ),
)


def never_tested(context: PacketContext) -> Story:
    """Parameters of the usual groups without any result, for each well."""
    story: Story = [
        context.heading(_("What was never tested"), "never"),
        text(
            _(
                "A parameter that is not in this list was tested at least once; that says nothing "
                "of today. Which groups make sense depends on rock, land use and house: ask the "
                "local health department."
            )
        ),
    ]
    if is_cut(context.history):
        story.append(
            text(
                _(
                    "A packet that this record was taken over from left tests out: what is listed "
                    "may have been tested in them."
                )
            )
        )
    several = len(context.history.wells) > 1
    for facts in context.history.wells:
        if several:
            story.append(context.second(facts.well.name, f"never-{facts.well.id}"))
        story.append(_gaps(context, last_days(context.history, facts)))
    if not context.history.wells:
        story.append(_gaps(context, {}))
    return story


def _gaps(context: PacketContext, last: LastDays) -> Table:
    rows = [_gap(context, panel, last) for panel in context.history.catalogue.panels.values()]
    return grid(_GAPS, [row for row in rows if row[2]], context.width)


def _gap(context: PacketContext, panel: Panel, last: LastDays) -> list[str]:
    known = {
        key: parameter
        for key, parameter in context.history.catalogue.parameters.items()
        if parameter.family != _COMPUTED
    }
    missing = [known[k].name for k in (*panel.core, *panel.also) if k not in last and k in known]
    days = [last[key] for key in panel.core if key in last]
    partly = _("in part") if days else pgettext("last tested", "never")
    # A group is as old as the oldest test of what it can't do without.
    when = paper.day(min(days)) if len(days) == len(panel.core) else partly
    return [panel.name, when, ", ".join(missing)]


def corrections(context: PacketContext) -> Story:
    """What was changed after it was entered, and the tests that were struck out."""
    story: Story = [context.heading(_("Corrections and struck tests"), "corrections")]
    rows = [
        [paper.loose_day(one.at[:10]), one.what, one.before, one.after, one.reason]
        for one in context.history.corrections
    ]
    if rows:
        story += [
            text(_("Every change of a test or a reading after it was entered; days are in UTC.")),
            grid(_CORRECTIONS, rows, context.width),
        ]
    else:
        story.append(text(_unchanged(context)))
    if not context.history.struck:
        return [*story, text(_("No test was struck out."))]
    story.append(text(_("Struck out, and so not counted anywhere else in this packet:")))
    for test in context.history.struck:
        story += _struck(context, test)
    return story


def _unchanged(context: PacketContext) -> str:
    if context.history.sources:
        return _(
            "No test and no reading was changed after it was entered, neither in this book nor, as "
            "they tell, in those that its packets came from."
        )
    return _("No test and no reading was changed after it was entered.")


def _struck(context: PacketContext, test: SampleFacts) -> Story:
    reason = text(
        _("Test {number} was struck out because: {reason}").format(
            number=test.number,
            reason=test.sample.struck,
        )
    )
    reason.keepWithNext = 1
    return [reason, *one_test(context, test)]


def limits(context: PacketContext) -> Story:
    """Every limit that a verdict in the packet rests on, with its source and dates."""
    story: Story = [context.heading(_("Limits used, with their sources"), "limits")]
    if not context.limits:
        return [*story, text(_("No verdict in this packet rests on a limit."))]
    rows = [_limit(context, limit, number) for limit, number in context.limits.items()]
    sets = dict.fromkeys(limit.set for limit in context.limits)
    notes = [
        f"{known.name}: {known.note}"
        for key in sets
        if (known := context.history.catalogue.sets[key]).note
    ]
    return [*story, *texts(notes, style.SMALL), grid(_LIMITS, rows, context.width)]


def _limit(context: PacketContext, limit: Limit, number: int) -> list[Cell]:
    catalogue = context.history.catalogue
    parameter = catalogue.parameters[limit.parameter]
    allowed = paper.bound_shown(paper.bound(limit), limit, parameter)
    parts = (allowed, vocabulary.fraction(limit.fraction), _(limit.condition))
    bound = ", ".join(filter(None, parts))
    unchecked = _("Not checked against the text of the source.")
    return [
        Paragraph(f'<a name="limit-{number}"/>[{number}]', style.CELL),
        parameter.name,
        bound,
        f"{catalogue.sets[limit.set].name}, {verdicts.kind(limit.kind)}",
        paper.force(limit),
        f"{cited(limit.source)}." if limit.checked else f"{cited(limit.source)}. {unchecked}",
    ]


def glossary(context: PacketContext) -> Story:
    """Words of the trade."""
    rows: list[tuple[str, Cell]] = [(_(word), _(told)) for word, told in _TERMS]
    rows.sort(key=lambda row: row[0].casefold())
    return [context.heading(_("Words used here"), "words"), pairs(rows, context.width, 0.24)]
