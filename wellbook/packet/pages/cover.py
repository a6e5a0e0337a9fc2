"""The cover: which well, how much of its history, made by whom, from which state of the record."""

from collections.abc import Sequence

from reportlab.platypus import KeepTogether, PageBreak, Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.packet.answers import answer, case_words, gaps, unknowns
from wellbook.packet.context import Desk, Story, text, texts
from wellbook.packet.gather import History, SampleFacts
from wellbook.packet.pages.origins import first_words, whole_words
from wellbook.pdf import style
from wellbook.pdf.flowables import CodeSpace, Marked, PageNumber
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.support.translation import ENGLISH, N_, _, current, ngettext, pgettext
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
_SHORT_DIGEST = 12
_MOST = 8  # sentences on what needs attention; each has its place on the next pages, too
_TIGHT = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.4)]
)
_YARDSTICKS = N_(
    "The limits are those of public supplies. They do not bind a private well; here they serve as "
    "yardsticks. A result tells of one sample on one day: it does not replace a fresh test, the "
    "local health department or a doctor’s advice."
)
_MADE_BY = N_(
    "This packet was made with Wellbook {version} from {record}. The "
    "digest names the state of that record. The journal behind it shows that the entries "
    "are whole and in order; it can’t show that a lab’s figure is genuine. For that, "
    "compare the lab’s original reports, or ask the lab by its sample number. The check code is "
    "that of all bytes of this very file; whoever changes the file can work out a new one. So "
    "have the household tell you theirs, on the telephone for example, and compare it: “wellbook "
    "verify” works it out from the file."
)
_UNITS = N_(
    "Units of choice: {units}. Charts are drawn in them, and figures in brackets are converted to "
    "them; what a lab or a rule printed stands as it was printed."
)
_TRANSLATED = N_(
    "The sentences of this packet were translated from English. What a lab or a rule printed, "
    "what the household wrote, and the attached tables stay as they are. Where a word matters, "
    "ask for the English packet too."
)
_PERSONAL = N_(
    "It holds personal facts: address, coordinates, who drew the samples, private events."
)
_NOT_PERSONAL = N_(
    "Personal facts are left out: address, coordinates, who drew the samples, and events "
    "marked private."
)


def cover(desk: Desk, sections: Sequence[tuple[str, str]]) -> Story:
    """The first page.

    Args:
        desk: The facts and the paper.
        sections: Key and title of every section that follows, in order.
    """
    history = desk.history
    day = paper.day(history.today)
    about = (
        _("The history of its water, for a consultant. As of {day}.").format(day=day)
        if desk.technical
        else _("The history of its water, for a buyer. As of {day}.").format(day=day)
    )
    return [
        text(history.title, style.TITLE),
        text(about, style.SUBTITLE),
        pairs([_code(desk)], desk.width, 0.24),  # first, so that it stands on page 1 whatever comes
        Spacer(1, 4),
        *_part(history),
        *first_words(history),
        *_answers(desk),
        KeepTogether([_contents(desk, sections)]),
        desk.heading(_("What this packet is"), "about"),
        pairs(completeness(history), desk.width, 0.24),
        Spacer(1, 8),
        *texts(_how_to_read(desk)),
        PageBreak(),
    ]


def _answers(desk: Desk) -> Story:
    """Where it stands, what happened, the well, what is not known, what to ask for."""
    history = desk.history
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
        *_asked(desk),
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


def _asked(desk: Desk) -> Story:
    """A row for each thing that every reader asks after."""
    today = desk.history.today
    rows: list[list[Cell]] = []
    for row in answer.rows(desk.history):
        verdict = row.judgement.verdict if row.judgement else Verdict.NO_LIMIT
        shape, colour = style.SHAPES[verdict]
        drawn = paper.day(row.day) if row.day else ""
        aged = gaps.age(row.day, today) if row.day else ""
        mark = Marked(shape, colour, "")
        rows.append([mark, row.name, row.point, row.reading, row.limit, drawn, aged])
    table = grid(_ASKED, rows, desk.width)
    table.setStyle(_TIGHT)
    return [table, Spacer(1, 4)]


def _code(desk: Desk) -> tuple[str, Cell]:
    """The check code, which a reader can compare with the one that the household reads out."""
    return (_("Check code"), CodeSpace(desk.places))


def _part(history: History) -> Story:
    """What a reader must know before all else: that this is not the whole record."""
    left = history.left_out
    if left is None or left.nothing:
        return []
    said = _(
        "This is a part of the record. By choice it leaves out {tests:,} of {of_tests} and "
        "{readings:,} of {of_readings}: {chosen}. Ask the household for the whole history."
    ).format(
        tests=left.tests,
        of_tests=_tests(left.of_tests),
        readings=left.readings,
        of_readings=_readings(left.of_readings),
        chosen="; ".join(left.chosen),
    )
    return [text(said, style.WARNING)]


def _contents(desk: Desk, sections: Sequence[tuple[str, str]]) -> Table:
    """Sections with their pages, in two columns side by side."""
    half = (len(sections) + 1) // 2
    cells: list[tuple[Cell, Cell]] = [
        (title, PageNumber(desk.places, key)) for key, title in sections
    ]
    cells += [("", "")] * (2 * half - len(cells))
    rows = [[*cells[place], "", *cells[place + half]] for place in range(half)]
    columns = (
        Column(N_("Contents"), 100),
        Column(N_("Page"), 14, right=True),
        Column("", 6),
        Column("", 100),
        Column(N_("Page"), 14, right=True),
    )
    table = grid(columns, rows, desk.width)
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


def completeness(history: History) -> list[tuple[str, str]]:
    """How much of the record the packet holds."""
    tests, left = history.tests, history.left_out
    held = len(tests) + history.later + len(history.struck)
    whole = held + (left.tests + left.struck if left else 0)
    rows = [
        (_("Tests in the book"), _tests(whole)),
        (_("In this packet"), _in_packet(history)),
        (_("Struck out"), _struck(history.struck)),
        (_("Period"), _period(tests)),
        (_("Sampling points"), _points(history)),
        (_("Compared with"), _sets(history)),
        (_("State of the record"), _state(history)),
    ]
    return [row for row in rows if row[1]]


def _tests(n: int) -> str:
    return ngettext("{n:,} test", "{n:,} tests", n).format(n=n)


def _readings(n: int) -> str:
    return ngettext("{n:,} reading", "{n:,} readings", n).format(n=n)


def _in_packet(history: History) -> str:
    held = _readings(sum(len(test.results) for test in history.tests))
    whole = _("{tests} with {readings}").format(tests=_tests(len(history.tests)), readings=held)
    if history.later:
        return ngettext(
            "{whole}; {n:,} later test not yet drawn on the day above",
            "{whole}; {n:,} later tests not yet drawn on the day above",
            history.later,
        ).format(
            n=history.later,
            whole=whole,
        )
    if history.is_part:
        return _("{whole}; the others are left out by choice").format(whole=whole)
    return _("{whole}: {how_whole}").format(whole=whole, how_whole=whole_words(history))


def _struck(struck: Sequence[SampleFacts]) -> str:
    if not struck:
        return pgettext("tests", "none")
    return ngettext(
        "{n:,} test, listed with the reason under Corrections",
        "{n:,} tests, listed with the reason under Corrections",
        len(struck),
    ).format(n=len(struck))


def _period(tests: Sequence[SampleFacts]) -> str:
    if not tests:
        return ""
    first, last = (paper.day(tests[place].sample.collected.day) for place in (0, -1))
    return first if first == last else _("{first} to {last}").format(first=first, last=last)


def _points(history: History) -> str:
    return "\n".join(
        paper.with_side(point.point.name, treated=point.point.treated)
        for facts in history.wells
        for point in facts.overview.points
    )


def _sets(history: History) -> str:
    names = "\n".join(history.catalogue.sets[key].name for key in history.sets)
    return names or _("no limits were chosen")


def _state(history: History) -> str:
    if not history.changed:
        return _("nothing entered yet; digest {digest}").format(digest=history.digest)
    return ngettext(
        "{n:,} entry in the journal, the last of {day}; digest {digest}",
        "{n:,} entries in the journal, the last of {day}; digest {digest}",
        history.entries,
    ).format(
        n=history.entries,
        day=paper.loose_day(history.changed[:10]),
        digest=history.digest,
    )


def _how_to_read(desk: Desk) -> list[str]:
    history = desk.history
    record = (
        _("a record that was in part taken over from other packets")
        if history.sources
        else _("the household’s own record")
    )
    made_by = _(_MADE_BY).format(version=__version__, record=record)
    personal = _(_PERSONAL if history.with_personal else _NOT_PERSONAL)
    units = _(_UNITS).format(units=_(desk.units)) if desk.units else ""
    translated = _(_TRANSLATED) if current() != ENGLISH.key else ""
    return [_(_YARDSTICKS), units, f"{made_by} {personal}", translated]


def foot(history: History) -> str:
    """What stands at the foot of each page: program, state of the record, day."""
    return _("Wellbook {version}  ·  record {digest}  ·  as of {day}").format(
        version=__version__,
        digest=history.digest[:_SHORT_DIGEST],
        day=paper.day(history.today),
    )
