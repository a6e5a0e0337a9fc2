"""The cover: which well, how much of its history, made by whom, from which state of the record."""

from collections.abc import Sequence

from reportlab.platypus import KeepTogether, PageBreak, Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.packet import gaps
from wellbook.packet.context import Desk, Story, text, texts
from wellbook.packet.gather import History, SampleFacts
from wellbook.pdf import style
from wellbook.pdf.flowables import CodeSpace, Marked, PageNumber
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import ENGLISH, N_, _, current, ngettext, pgettext
from wellbook.water.verdicts.judge import Verdict
from wellbook.wording import paper

_SAID = {
    Verdict.OUTSIDE: N_("Outside a limit in the latest test: {found}."),
    Verdict.UNDECIDABLE: N_("Can’t be told from the latest test: {found}."),
    Verdict.ADOPTED: N_(
        "Over a limit that is adopted and does not bind public supplies yet: {found}."
    ),
    Verdict.NEAR: N_("Within the limit, but close to it: {found}."),
}
_FEW = 6  # names in one line of the cover
_CALM = N_(
    "In the latest test of each parameter at each point nothing is outside or close to a limit of "
    "the chosen sets, and nothing is left undecided. That says nothing of what was never tested, "
    "nor of the time since."
)
_SHORT_DIGEST = 12
_TIGHT = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.4)]
)
_YARDSTICKS = N_(
    "The limits are those of public supplies. They do not bind a private well; here they serve as "
    "yardsticks. A result tells of one sample on one day: it does not replace a fresh test, the "
    "local health department or a doctor’s advice."
)
_MADE_BY = N_(
    "This packet was made with Wellbook {version} from the household’s own record. The "
    "digest names the state of that record. The journal behind it shows that the entries "
    "are whole and in order; it can’t show that a lab’s figure is genuine. For that, "
    "compare the lab’s original reports, or ask the lab by its sample number. The check code "
    "covers every page and every attached file: “wellbook verify” works it out again; compare "
    "it with the code that the household tells you, on the telephone for example."
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
        Spacer(1, 18),
        text(history.title, style.TITLE),
        text(about, style.SUBTITLE),
        *_part(history),
        *headline(history),
        Spacer(1, 8),
        pairs([*completeness(history), _code(desk)], desk.width, 0.24),
        Spacer(1, 8),
        *texts(_how_to_read(desk)),
        Spacer(1, 4),
        KeepTogether([_contents(desk, sections)]),
        PageBreak(),
    ]


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
    """What a reader wants to know first, a line for each kind of finding."""
    points = [point for facts in history.wells for point in facts.overview.points]
    found = {one.now.verdict for point in points for one in point.by_urgency}
    open_yet = text(gaps.told(history), style.LEAD)
    if not found:
        none = _("The book holds no test results yet.")
        first = none if history.changed else _("Nothing was entered yet. {none}").format(none=none)
        return [text(first, style.LEAD), open_yet]
    if not found & set(_SAID):
        calm = [] if any(one.closed is None for one in history.cases) else [_CALM]
        said = [text(_(one), style.LEAD) for one in calm]
        return [*said, *_open_cases(history), open_yet]
    rows = [
        [
            Marked(*style.SHAPES[verdict], "", 11),
            text(_(said).format(found=_named(points, verdict))),
        ]
        for verdict, said in _SAID.items()
        if verdict in found
    ]
    table = Table(rows, colWidths=[18, None])
    table.setStyle(style.PLAIN)
    return [table, Spacer(1, 4), *_open_cases(history), open_yet]


def _open_cases(history: History) -> Story:
    """What bad results opened and nothing has closed yet."""
    return [
        text(
            _("Open case at {point}: {why} {rule}").format(
                point=one.point.name, why=one.why, rule=one.closes_when
            )
        )
        for one in history.cases
        if one.closed is None
    ]


def _named(points: Sequence[PointOverview], verdict: Verdict) -> str:
    """Parameters with that verdict, point by point, the first few by name."""
    said = []
    for point in points:
        names = [one.parameter.name for one in point.by_urgency if one.now.verdict is verdict]
        few, more = ", ".join(names[:_FEW]), len(names) - _FEW
        if names:
            shown = _("{names} and {more} more").format(names=few, more=more) if more > 0 else few
            said.append(f"{shown} ({point.point.name})")
    return "; ".join(said)


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
    return _("{whole}: every test that counts, none chosen or left out").format(whole=whole)


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
    made_by = _(_MADE_BY).format(version=__version__)
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
