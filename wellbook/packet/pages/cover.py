"""The cover: which well, how much of its history, made by whom, from which state of the record."""

from collections.abc import Sequence

from reportlab.platypus import CondPageBreak, KeepTogether, Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.packet.answers import answer, case_words, gaps, unknowns
from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.gather import History
from wellbook.packet.pages.about import (
    YARDSTICKS,
    in_packet,
    readings_words,
    struck_words,
    tests_words,
    translated,
)
from wellbook.packet.pages.origins import first_words
from wellbook.pdf import style
from wellbook.pdf.document import AFTER
from wellbook.pdf.flowables import CodeSpace, Marked, PageNumber
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.support.translation import N_, _, ngettext
from wellbook.water.values.judgement import Verdict
from wellbook.wording import forecasts, paper

_NO_HEALTH = N_(
    "In the latest test of each parameter at each point no result is over a limit for health, and "
    "none is left undecided. That says nothing of what was never tested, nor of the time since."
)
_ASKED = (
    Column("", 16),
    Column(N_("Asked first"), 82),
    Column(N_("Where"), 112),
    Column(N_("Latest result"), 92),
    Column(N_("Limit"), 84),
    Column(N_("Drawn"), 62),
    Column(N_("Age today"), 96),
)
_COMPARE = N_(
    "Whoever changes this file can work out a new check code: have the household tell you theirs, "
    "on the telephone for example, and compare it with what “wellbook verify” says."
)
_SHORT_DIGEST = 12
_ROOM = 170.0  # points that the next section needs to begin on this page
_MOST = 8  # sentences on what needs attention; each has its place on the next pages, too
_TIGHT = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.4)]
)


def cover(context: PacketContext, sections: Sequence[tuple[str, str]]) -> Story:
    """The first page.

    Args:
        context: The facts and the paper.
        sections: Key and title of every section that follows, in order.
    """
    history = context.history
    day = paper.day(history.today)
    about = (
        _("The history of its water, for a consultant. As of {day}.").format(day=day)
        if context.technical
        else _("The history of its water, for a buyer. As of {day}.").format(day=day)
    )
    whole = "" if history.is_part else f" {in_packet(history)}."
    struck = (
        _("Struck out: {tests}.").format(tests=struck_words(history.struck))
        if history.struck
        else ""
    )
    return [
        text(history.title, style.TITLE),
        text(f"{about}{whole} {struck}".strip(), style.SUBTITLE),
        pairs(
            [_code(context)], context.width, 0.16
        ),  # first, so that it stands on page 1 whatever comes
        Spacer(1, 4),
        *texts(warnings(history), style.WARNING),
        *_answers(context),
        KeepTogether([_contents(context, sections)]),
        *texts([f"{_(YARDSTICKS)} {_(_COMPARE)}", translated()], style.SMALL),
        CondPageBreak(_ROOM),
    ]


def _answers(context: PacketContext) -> Story:
    """Where it stands, what happened, the well, what is not known, what to ask for."""
    history = context.history
    past = [*answer.happened(history), *case_words.closed_cases(history)] or [
        _("Nothing in these tests beside what stands above.")
    ]
    wells = [
        f"{facts.well.name}: {answer.well_words(facts)}"
        if len(history.wells) > 1
        else answer.well_words(facts)
        for facts in history.wells
    ]
    return [
        text(_("Where it stands"), style.H2),
        *headline(history),
        *_asked(context),
        text(_("What happened, and how it ended"), style.H2),
        *texts(past if history.tests else [_("There is no test that could show anything.")]),
        text(_("The well and what stands behind it"), style.H2),
        *texts(wells or [_("No well was entered.")]),
        text(_("Not known"), style.H2),
        *texts(unknowns.not_known(history)),
        text(_("Ask for"), style.H2),
        *texts(unknowns.to_ask(history)),
        Spacer(1, 6),
    ]


def _asked(context: PacketContext) -> Story:
    """A row for each thing that every reader asks after."""
    today = context.history.today
    rows: list[list[Cell]] = []
    for row in answer.rows(context.history):
        verdict = row.judgement.verdict if row.judgement else Verdict.NO_LIMIT
        shape, colour = style.SHAPES[verdict]
        drawn = paper.day(row.day) if row.day else ""
        aged = gaps.age(row.day, today) if row.day else ""
        mark = Marked(shape, colour, "")
        rows.append([mark, row.name, row.point, row.reading, row.limit, drawn, aged])
    table = grid(_ASKED, rows, context.width)
    table.setStyle(_TIGHT)
    return [table, Spacer(1, 4)]


def _code(context: PacketContext) -> tuple[str, Cell]:
    """The check code, which a reader can compare with the one that the household reads out."""
    return (_("Check code"), CodeSpace(context.places))


def warnings(history: History) -> list[str]:
    """What a reader must know before all else: that this is not the whole record."""
    return [said for said in (_part(history), first_words(history)) if said]


def _part(history: History) -> str:
    left = history.left_out
    if left is None or left.nothing:
        return ""
    return _(
        "This is a part of the record. By choice it leaves out {tests:,} of {of_tests} and "
        "{readings:,} of {of_readings}: {chosen}. Ask the household for the whole history."
    ).format(
        tests=left.tests,
        of_tests=tests_words(left.of_tests),
        readings=left.readings,
        of_readings=readings_words(left.of_readings),
        chosen="; ".join(left.chosen),
    )


def _contents(context: PacketContext, sections: Sequence[tuple[str, str]]) -> Table:
    """Sections with their pages, in two columns side by side."""
    half = (len(sections) + 1) // 2
    cells: list[tuple[Cell, Cell]] = [
        (title, PageNumber(context.places, key)) for key, title in sections
    ]
    if context.places.after:
        after = PageNumber(context.places, AFTER, is_linked=False)
        cells.append((_("Pages of originals"), after))
    cells += [("", "")] * (2 * half - len(cells))
    rows = [[*cells[place], "", *cells[place + half]] for place in range(half)]
    columns = (
        Column(N_("Contents"), 100),
        Column(N_("Page"), 20, right=True),
        Column("", 6),
        Column("", 100),
        Column(N_("Page"), 20, right=True),
    )
    table = grid(columns, rows, context.width)
    table.setStyle(_TIGHT)
    return table


def headline(history: History) -> Story:
    """What a reader wants to know first: what can harm people, then what is a matter of taste."""
    if not history.tests:
        none = _("The book holds no test results yet.")
        first = none if history.changed else _("Nothing was entered yet. {none}").format(none=none)
        return [text(first, style.LEAD)]
    found = answer.standings(history)
    rows = [
        [Marked(*style.SHAPES[verdict], "", 11), text(said)] for verdict, _unused, said in found
    ]
    open_or_over = {Verdict.OUTSIDE, Verdict.UNDECIDABLE, Verdict.ADOPTED}
    cases = case_words.open_cases(history)
    is_calm = not cases and not any(
        health and verdict in open_or_over for verdict, health, _unused in found
    )
    story: Story = [text(_(_NO_HEALTH), style.LEAD)] if is_calm else []
    shown = rows[:_MOST]
    if shown:
        table = Table(shown, colWidths=[18, None])
        table.setStyle(style.PLAIN)
        story.append(table)
    if len(rows) > _MOST:
        more = ngettext("And {n} more: see the next pages.", "And {n} more: see the next pages.",
                        len(rows) - _MOST)  # fmt: skip
        story.append(text(more.format(n=len(rows) - _MOST)))
    return [*story, *texts(cases), *_ahead(history), Spacer(1, 4)]


def _ahead(history: History) -> Story:
    """When what rises reaches a limit about health, if it goes on."""
    standings = [one for _unused, point in answer.points(history) for one in point.standings]
    sets = history.catalogue.sets
    return [text(line) for line in forecasts.health_ahead(standings, sets, today=history.today)]


def foot(history: History) -> str:
    """What stands at the foot of each page: program, state of the record, day."""
    return _("Wellbook {version}  ·  record {digest}  ·  as of {day}").format(
        version=__version__,
        digest=history.digest[:_SHORT_DIGEST],
        day=paper.day(history.today),
    )
