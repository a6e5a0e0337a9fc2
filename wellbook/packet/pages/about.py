"""Where the record begins: how much of it the packet holds, from which state, how to read it."""

from collections.abc import Sequence

from reportlab.platypus import Spacer, Table, TableStyle

from wellbook import __version__
from wellbook.packet.context import PacketContext, Story, text, texts
from wellbook.packet.gather import History, SampleFacts
from wellbook.packet.pages.origins import whole_words
from wellbook.pdf import style
from wellbook.pdf.document import AFTER
from wellbook.pdf.flowables import PageNumber
from wellbook.pdf.grid import Cell, Column, grid, pairs
from wellbook.support.translation import ENGLISH, N_, _, current, ngettext, pgettext
from wellbook.wording import paper

YARDSTICKS = N_(
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
TIGHT = TableStyle(
    [("TOPPADDING", (0, 1), (-1, -1), 1.2), ("BOTTOMPADDING", (0, 1), (-1, -1), 1.4)]
)
_BESIDE = 3  # columns of the contents
_PERSONAL = N_(
    "It holds personal facts: address, coordinates, who drew the samples, private events."
)
_NOT_PERSONAL = N_(
    "Personal facts are left out: address, coordinates, who drew the samples, and events "
    "marked private."
)


def record_start(context: PacketContext, sections: Sequence[tuple[str, str]]) -> Story:
    """The heading of the record, what it is, and what stands where in it.

    Args:
        context: The facts and the paper.
        sections: Key and title of every section that follows, in order.
    """
    return [
        context.heading(_("The record"), "record"),
        text(
            _(
                "From here on everything is listed that the answers before rest on. The pages of "
                "the record have numbers of their own."
            ),
            style.LEAD,
        ),
        context.second(_("What this packet is"), "about"),
        pairs(completeness(context.history), context.width, 0.24),
        Spacer(1, 8),
        *texts(_how_to_read(context)),
        Spacer(1, 4),
        contents(context, sections),
    ]


def contents(context: PacketContext, sections: Sequence[tuple[str, str]]) -> Table:
    """Sections with their pages, in columns side by side; pages of originals last, if any.

    Args:
        context: The facts and the paper.
        sections: Key and title of each section, in order.
    """
    cells: list[tuple[Cell, Cell]] = [
        (title, PageNumber(context.places, key)) for key, title in sections
    ]
    if context.places.after:
        after = PageNumber(context.places, AFTER, is_linked=False)
        cells.append((_("Pages of originals"), after))
    tall = -(-len(cells) // _BESIDE)
    cells += [("", "")] * (_BESIDE * tall - len(cells))
    rows = [
        [cell for across in range(_BESIDE) for cell in cells[place + across * tall]]
        for place in range(tall)
    ]
    columns = (
        Column(N_("Contents"), 76),
        Column(N_("Page"), 20),
        *(Column("", 76), Column(N_("Page"), 20)) * (_BESIDE - 1),
    )
    table = grid(columns, rows, context.width)
    table.setStyle(TIGHT)
    return table


def completeness(history: History) -> list[tuple[str, str]]:
    """How much of the record the packet holds."""
    tests, left = history.tests, history.left_out
    held = len(tests) + history.later + len(history.struck)
    whole = held + (left.tests + left.struck if left else 0)
    rows = [
        (_("Tests in the book"), tests_words(whole)),
        (_("In this packet"), in_packet(history)),
        (_("Struck out"), struck_words(history.struck)),
        (_("Period"), _period(tests)),
        (_("Sampling points"), _points(history)),
        (_("Compared with"), _sets(history)),
        (_("State of the record"), _state(history)),
    ]
    return [row for row in rows if row[1]]


def tests_words(n: int) -> str:
    """A number of tests."""
    return ngettext("{n:,} test", "{n:,} tests", n).format(n=n)


def readings_words(n: int) -> str:
    """A number of readings."""
    return ngettext("{n:,} reading", "{n:,} readings", n).format(n=n)


def in_packet(history: History) -> str:
    """How many tests and readings the packet holds, and what it lacks."""
    held = readings_words(sum(len(test.results) for test in history.tests))
    whole = _("{tests} with {readings}").format(
        tests=tests_words(len(history.tests)), readings=held
    )
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


def struck_words(struck: Sequence[SampleFacts]) -> str:
    """How many tests were struck out."""
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


def _how_to_read(context: PacketContext) -> list[str]:
    history = context.history
    record = (
        _("a record that was in part taken over from other packets")
        if history.sources
        else _("the household’s own record")
    )
    made_by = _(_MADE_BY).format(version=__version__, record=record)
    personal = _(_PERSONAL if history.with_personal else _NOT_PERSONAL)
    units = _(_UNITS).format(units=_(context.units)) if context.units else ""
    return [_(YARDSTICKS), units, f"{made_by} {personal}", translated()]


def translated() -> str:
    """That the sentences were translated; empty in English."""
    return _(_TRANSLATED) if current() != ENGLISH.key else ""
