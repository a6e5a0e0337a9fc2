"""The cover: which well, how much of its history, made by whom, from which state of the record."""

from collections.abc import Sequence

from reportlab.platypus import PageBreak, Spacer, Table

from wellbook import __version__
from wellbook.book.overview import PointOverview
from wellbook.handover import style, words
from wellbook.handover.desk import Desk, Story, standings_of, text, texts
from wellbook.handover.flowables import CodeSpace, Marked, PageNumber
from wellbook.handover.grid import Cell, Column, grid, pairs
from wellbook.handover.history import History, SampleFacts
from wellbook.water.verdicts import Verdict

_SAID = {
    Verdict.OUTSIDE: "Outside a limit in the latest test",
    Verdict.UNDECIDABLE: "Can’t be told from the latest test",
    Verdict.NEAR: "Within the limit, but close to it",
}
_FEW = 6  # names in one line of the cover
_CALM = (
    "In the latest test of each parameter at each point nothing is outside or close to a limit of "
    "the chosen sets, and nothing is left undecided. What was never tested is listed further on."
)
_SHORT_DIGEST = 12
_YARDSTICKS = (
    "The limits are those of public supplies. They do not bind a private well; here they serve as "
    "yardsticks. A result tells of one sample on one day: it does not replace a fresh test, the "
    "local health department or a doctor’s advice."
)


def cover(desk: Desk, sections: Sequence[tuple[str, str]]) -> Story:
    """The first page.

    Args:
        desk: The facts and the paper.
        sections: Key and title of every section that follows, in order.
    """
    history = desk.history
    reader = "a consultant" if desk.technical else "a buyer"
    return [
        Spacer(1, 18),
        text(history.title, style.TITLE),
        text(
            f"The history of its water, for {reader}. As of {words.day(history.today)}.",
            style.SUBTITLE,
        ),
        *_part(history),
        *headline(history),
        Spacer(1, 8),
        pairs([*completeness(history), _code(desk)], desk.width, 0.24),
        Spacer(1, 10),
        *texts(_how_to_read(history)),
        Spacer(1, 6),
        _contents(desk, sections),
        PageBreak(),
    ]


def _code(desk: Desk) -> tuple[str, Cell]:
    """The check code, which a reader can compare with the one that the household reads out."""
    return ("Check code", CodeSpace(desk.places))


def _part(history: History) -> Story:
    """What a reader must know before all else: that this is not the whole record."""
    left = history.left_out
    if left is None or left.nothing:
        return []
    said = (
        f"This is a part of the record. By choice it leaves out {left.tests:,} of "
        f"{words.count(left.of_tests, 'test')} and {left.readings:,} of "
        f"{words.count(left.of_readings, 'reading')}: {'; '.join(left.chosen)}. "
        "Ask the household for the whole history."
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
        Column("Contents", 100),
        Column("Page", 14, right=True),
        Column("", 6),
        Column("", 100),
        Column("Page", 14, right=True),
    )
    return grid(columns, rows, desk.width)


def headline(history: History) -> Story:
    """What a reader wants to know first, a line for each kind of finding."""
    points = [point for facts in history.wells for point in facts.overview.points]
    found = {one.now.verdict for point in points for one in standings_of(point)}
    if not found:
        return [text("The book holds no test results yet.", style.LEAD)]
    if not found & set(_SAID):
        return [text(_CALM, style.LEAD)]
    rows = [
        [Marked(*style.SHAPES[verdict], "", 11), text(f"{said}: {_named(points, verdict)}.")]
        for verdict, said in _SAID.items()
        if verdict in found
    ]
    table = Table(rows, colWidths=[18, None])
    table.setStyle(style.PLAIN)
    return [table]


def _named(points: Sequence[PointOverview], verdict: Verdict) -> str:
    """Parameters with that verdict, point by point, the first few by name."""
    said = []
    for point in points:
        known = standings_of(point)
        names = [one.parameter.name for one in known if one.now.verdict is verdict]
        more = f" and {len(names) - _FEW} more" if len(names) > _FEW else ""
        if names:
            said.append(f"{', '.join(names[:_FEW])}{more} ({point.point.name})")
    return "; ".join(said)


def completeness(history: History) -> list[tuple[str, str]]:
    """How much of the record the packet holds."""
    tests, left = history.tests, history.left_out
    held = len(tests) + history.later + len(history.struck)
    whole = held + (left.tests + left.struck if left else 0)
    rows = [
        ("Tests in the book", words.count(whole, "test")),
        ("In this packet", _in_packet(history)),
        ("Struck out", _struck(history.struck)),
        ("Period", _period(tests)),
        ("Sampling points", _points(history)),
        ("Compared with", _sets(history)),
        ("State of the record", _state(history)),
    ]
    return [row for row in rows if row[1]]


def _in_packet(history: History) -> str:
    readings = sum(len(test.results) for test in history.tests)
    whole = f"{words.count(len(history.tests), 'test')} with {words.count(readings, 'reading')}"
    if history.later:
        return f"{whole}; {words.count(history.later, 'later test')} not yet drawn on the day above"
    if history.is_part:
        return f"{whole}; the others are left out by choice"
    return f"{whole}: every test that counts, none chosen or left out"


def _struck(struck: Sequence[SampleFacts]) -> str:
    if not struck:
        return "none"
    return f"{words.count(len(struck), 'test')}, listed with the reason under Corrections"


def _period(tests: Sequence[SampleFacts]) -> str:
    if not tests:
        return ""
    first, last = tests[0].sample.collected.day, tests[-1].sample.collected.day
    return f"{words.day(first)} to {words.day(last)}" if first != last else words.day(first)


def _points(history: History) -> str:
    return "\n".join(
        f"{point.point.name} ({'after' if point.point.treated else 'before'} treatment)"
        for facts in history.wells
        for point in facts.overview.points
    )


def _sets(history: History) -> str:
    return "\n".join(history.catalogue.sets[key].name for key in history.sets) or "no limit set"


def _state(history: History) -> str:
    if not history.changed:
        return "nothing entered yet"
    return (
        f"{words.count(history.entries, 'entry', 'entries')} in the journal, the last of "
        f"{words.loose_day(history.changed[:10])}; digest {history.digest}"
    )


def _how_to_read(history: History) -> list[str]:
    personal = (
        "It holds personal facts: address, coordinates, who drew the samples, private events."
        if history.with_personal
        else "Personal facts are left out: address, coordinates, who drew the samples, and events "
        "marked private."
    )
    return [_YARDSTICKS, f"{_made_by()} {personal}"]


def _made_by() -> str:
    return (
        f"This packet was made with Wellbook {__version__} from the household’s own record. The "
        "digest names the state of that record. The journal behind it shows that the entries "
        "are whole and in order; it can’t show that a lab’s figure is genuine. For that, "
        "compare the lab’s original reports, or ask the lab by its sample number. The check code "
        "covers every page and every attached file: “wellbook verify” works it out again; compare "
        "it with the code that the household tells you, on the telephone for example."
    )


def foot(history: History) -> str:
    """What stands at the foot of each page: program, state of the record, day."""
    return (
        f"Wellbook {__version__}  ·  record {history.digest[:_SHORT_DIGEST]}  ·  "
        f"as of {words.day(history.today)}"
    )
