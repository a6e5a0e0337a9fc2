"""The cover: which well, how much of its history, made by whom, from which state of the record."""

from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import KeepTogether, Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.packet.answers import answer, case_words, gaps, unknowns
from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.gather import History
from wellbook.packet.pages.about import (
    TIGHT,
    YARDSTICKS,
    contents,
    in_packet,
    readings_words,
    struck_words,
    tests_words,
)
from wellbook.packet.pages.origins import first_words
from wellbook.pdf import style
from wellbook.pdf.flowables import CodeSpace, Marked
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
_CLOSE = TableStyle(
    [
        *style.PLAIN.getCommands(),
        ("TOPPADDING", (0, 0), (-1, -1), 0.6),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 0),
    ]
)
_CLOSEST = 6.8  # points; smaller words are read by nobody
_MOST = 8  # sentences on what needs attention; each has its place on the next pages, too


@dataclass(frozen=True, slots=True)
class Faces:
    """How page one is set: closer than the pages after it, as it holds all answers."""

    title: ParagraphStyle
    about: ParagraphStyle
    lead: ParagraphStyle
    body: ParagraphStyle
    head: ParagraphStyle
    small: ParagraphStyle


def faces(scale: float = 1.0) -> Faces:
    """The faces at a share of their size."""

    def sized(face: ParagraphStyle, size: float, lead: float, after: float) -> ParagraphStyle:
        size = max(size * scale, _CLOSEST)
        return face.clone(
            f"cover {face.name} {scale}",
            fontSize=size, leading=lead * scale, spaceAfter=after * scale,
        )  # fmt: skip

    head = sized(style.H2, 10.5, 12.5, 2)
    head.spaceBefore = 5 * scale
    return Faces(
        sized(style.TITLE, 22, 26, 2),
        sized(style.SUBTITLE, 9.6, 12.6, 5),
        sized(style.LEAD, 9.6, 12.4, 3),
        sized(style.BODY, 8.6, 11.3, 2),
        head,
        sized(style.SMALL, 7.6, 9.6, 2),
    )


def cover(context: PacketContext, sections: Sequence[tuple[str, str]]) -> Story:
    """The first page.

    Args:
        context: The facts and the paper.
        sections: Key and title of every section of the answers, in order.
    """
    history, face = context.history, faces(context.closeness)
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
        text(history.title, face.title),
        text(f"{about}{whole} {struck}".strip(), face.about),
        pairs(
            [_code(context)], context.width, 0.16
        ),  # first, so that it stands on page 1 whatever comes
        Spacer(1, 4),
        *texts(warnings(history), style.WARNING),
        *_answers(context, face),
        KeepTogether([contents(context, [*sections, ("record", _("The record"))])]),
        Spacer(1, 4),
        text(f"{_(YARDSTICKS)} {_(_COMPARE)}", face.small),
    ]


def _answers(context: PacketContext, face: Faces) -> Story:
    """Where it stands, what happened, the well, what is not known, what to ask for."""
    history = context.history
    nothing = (
        _("Nothing in these tests beside what stands above.")
        if history.tests
        else _("There is no test that could show anything.")
    )
    past = [*answer.happened(history), *case_words.closed_cases(history)] or [nothing]
    wells = [
        f"{facts.well.name}: {answer.well_words(facts)}"
        if len(history.wells) > 1
        else answer.well_words(facts)
        for facts in history.wells
    ]
    return [
        text(_("Where it stands"), face.head),
        *headline(history, face),
        *_asked(context),
        text(_("What happened, and how it ended"), face.head),
        *texts(
            past if history.tests else [_("There is no test that could show anything.")], face.body
        ),
        text(_("The well and what stands behind it"), face.head),
        *texts(wells or [_("No well was entered.")], face.body),
        text(_("Not known"), face.head),
        text(" ".join(unknowns.not_known(history)), face.body),
        text(_("Ask for"), face.head),
        text(" ".join(unknowns.to_ask(history)), face.body),
        Spacer(1, 4),
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
    table.setStyle(TIGHT)
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


def headline(history: History, face: Faces) -> Story:
    """What a reader wants to know first: what can harm people, then what is a matter of taste."""
    if not history.tests:
        none = _("The book holds no test results yet.")
        first = none if history.changed else _("Nothing was entered yet. {none}").format(none=none)
        return [text(first, face.lead)]
    found = answer.standings(history)
    rows = [
        [Marked(*style.SHAPES[verdict], "", 9), text(said, face.body)]
        for verdict, _unused, said in found
    ]
    open_or_over = {Verdict.OUTSIDE, Verdict.UNDECIDABLE, Verdict.ADOPTED}
    cases = case_words.open_cases(history)
    is_calm = not cases and not any(
        harm and verdict in open_or_over for verdict, harm, _unused in found
    )
    story: Story = [text(_(_NO_HEALTH), face.lead)] if is_calm else []
    shown = rows[:_MOST]
    if shown:
        table = Table(shown, colWidths=[18, None])
        table.setStyle(_CLOSE)
        story.append(table)
    if len(rows) > _MOST:
        more = ngettext("And {n} more: see the next pages.", "And {n} more: see the next pages.",
                        len(rows) - _MOST)  # fmt: skip
        story.append(text(more.format(n=len(rows) - _MOST), face.body))
    return [*story, *texts(cases, face.body), *_ahead(history, face), Spacer(1, 4)]


def _ahead(history: History, face: Faces) -> Story:
    """When what rises reaches a limit about health, if it goes on."""
    standings = [one for _unused, point in answer.points(history) for one in point.standings]
    sets = history.catalogue.sets
    return [
        text(line, face.body)
        for line in forecasts.health_ahead(standings, sets, today=history.today)
    ]


def foot(history: History) -> str:
    """What stands at the foot of each page: program, state of the record, day."""
    return _("Wellbook {version}  ·  record {digest}  ·  as of {day}").format(
        version=__version__,
        digest=history.digest[:_SHORT_DIGEST],
        day=paper.day(history.today),
    )
