"""What stands in a letter: the latest results, what happened, what is asked, usual cautions.

It says what the packet says, from the same facts and sentences. What can harm people stands first,
so that what does not fit on the page is never worse than what stands there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.packet.answers import answer, case_words, gaps
from wellbook.packet.answers.house import house
from wellbook.packet.gather import History
from wellbook.packet.letters import sentences
from wellbook.planning.advice import EVERYBODY, advice_at
from wellbook.planning.overview import PointOverview
from wellbook.support.translation import _, ngettext
from wellbook.water.cautions.cautions import Cautions
from wellbook.water.values.judgement import Judgement, Urgency, Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding, by_urgency
from wellbook.wording import facts, paper, reference, verdicts

# What each reader asks after, common practice, no source; what needs attention stands there anyhow.
_ASKED = {
    sentences.DOCTOR: (
        "e_coli", "total_coliform", "nitrate", "nitrite", "lead", "arsenic", "copper", "uranium",
        "manganese", "fluoride", "sodium",
    ),
    sentences.DEALER: (
        "total_coliform", "hardness", "iron", "manganese", "ph", "tds", "alkalinity", "chloride",
        "sulfate", "nitrate", "sodium", "silica", "hydrogen_sulfide", "turbidity",
    ),
    sentences.DEPARTMENT: (
        "e_coli", "total_coliform", "nitrate", "nitrite", "lead", "arsenic", "uranium", "fluoride",
        "manganese", "chloride",
    ),
}  # fmt: skip
_MOST_ROWS = 14
_MOST_PAST = 3
_MOST_CAUTIONS = 3


@dataclass(frozen=True, slots=True)
class LetterRow:
    """The latest result of a parameter at a point, with its verdict by the limits of today."""

    judgement: Judgement
    name: str
    point: str
    reading: str
    limit: str
    day: date


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter, ready to be set.

    Attributes:
        words: Its own sentences.
        sender: Lines on who writes; empty where personal facts are left out.
        asks_of_people: Whether the reader has to know who drinks the water.
        people: Who that is; empty where personal facts are left out.
        rows: The results, what can harm people first.
        notes: What the rows don't say: how many more there are, open cases, gaps.
        past: What happened to the water and how it ended.
        house: What is known of well, house and treatment.
        cautions: What is usually said about such results, until somebody licensed says more.
    """

    words: sentences.LetterWords
    sender: tuple[str, ...]
    asks_of_people: bool
    people: str
    rows: tuple[LetterRow, ...]
    notes: tuple[str, ...]
    past: tuple[str, ...]
    house: tuple[tuple[str, str], ...]
    cautions: tuple[str, ...]


def letter(
    history: History, recipient: str, cautions: Cautions, people: Sequence[str] = ()
) -> Letter:
    """Put a letter together.

    Args:
        history: What may be told.
        recipient: One of `sentences.RECIPIENTS`.
        cautions: The cautions in the language of now.
        people: Who drinks the water and needs more care; empty unless that may be told.
    """
    found = _rows(history, recipient)
    shown, more = found[:_MOST_ROWS], len(found) - _MOST_ROWS
    rest = ngettext(
        "{n} more result is not on this page: it stands in the whole history.",
        "{n} more results are not on this page: they stand in the whole history.",
        max(more, 0),
    ).format(n=more)
    part = _("Results were left out of this letter by choice.") if history.is_part else ""
    cases = case_words.open_cases(history)
    none = "" if found else _("There is no test that could show anything.")
    notes = (
        none, rest if more > 0 else "", part, _of_taste(history, found), *cases,
        gaps.told(history),
    )  # fmt: skip
    return Letter(
        words=sentences.letter_words(recipient),
        sender=_sender(history),
        asks_of_people=recipient != sentences.DEALER,
        people=", ".join(map(reference.person, people)),
        rows=tuple(shown),
        notes=tuple(filter(None, notes)),
        past=_past(history),
        house=_house(history, recipient),
        cautions=_cautions(history, recipient, cautions),
    )


def _of_taste(history: History, rows: Sequence[LetterRow]) -> str:
    """What is outside a level for taste, look or operation, and has no row."""
    told = {row.name for row in rows}
    names = dict.fromkeys(
        one.parameter.name
        for _name, point in answer.points(history)
        for one in point.by_urgency
        if one.now.verdict is Verdict.OUTSIDE
        and not one.now.can_harm
        and one.parameter.name not in told
    )
    if not names:
        return ""
    said = _("Outside a level for taste, look or operation, too: {names}.")
    return said.format(names=", ".join(names))


def _sender(history: History) -> tuple[str, ...]:
    if not history.with_personal:
        return ()
    told = [line for well in history.wells for line in (well.well.address, well.well.coordinates)]
    return tuple(dict.fromkeys(filter(None, told)))


def _past(history: History) -> tuple[str, ...]:
    past = answer.happened(history)
    more = len(past) - _MOST_PAST
    if more <= 0:
        return tuple(past)
    rest = ngettext("And {n} more such finding.", "And {n} more such findings.", more)
    return (*past[:_MOST_PAST], rest.format(n=more))


def _rows(history: History, recipient: str) -> list[LetterRow]:
    """What needs attention at any point, health first; then what this reader asks after."""
    everything = [
        (name, point, one) for name, point in answer.points(history) for one in point.by_urgency
    ]
    loud = [row for row in everything if row[2].now.needs_attention]
    if recipient != sentences.DEALER:  # taste is no matter for them, but a sign of other things
        loud = [row for row in loud if row[2].now.can_harm or _is_asked(row[2], recipient)]
    loud.sort(key=lambda row: (not row[2].now.can_harm, by_urgency(row[2])))
    told = {(point.point.id, one.parameter.key) for _unused, point, one in loud}
    quiet = [
        row
        for row in _asked(everything, recipient)
        if (row[1].point.id, row[2].parameter.key) not in told
    ]
    return [_row(name, one) for name, _unused, one in (*loud, *quiet)]


Placed = tuple[str, PointOverview, Standing | SumStanding]


def _is_asked(one: Standing | SumStanding, recipient: str) -> bool:
    return one.parameter.key in _ASKED[recipient]


def _asked(everything: Sequence[Placed], recipient: str) -> Iterator[Placed]:
    """The latest of what a reader asks after: for a dealer before treatment, else the worst."""
    for key in _ASKED[recipient]:
        there = [row for row in everything if row[2].parameter.key == key]
        raw = [row for row in there if not row[1].point.treated]
        chosen = raw if recipient == sentences.DEALER and raw else there
        yield from sorted(chosen, key=_worst_then_latest)[:1]


def _worst_then_latest(row: Placed) -> tuple[bool, Urgency, int]:
    """Something before nothing, the worse verdict, and of two alike the latest."""
    now = row[2].now
    return now.verdict is Verdict.UNDETECTED, now.urgency, -_day(row[2]).toordinal()


def _day(one: Standing | SumStanding) -> date:
    return one.day if isinstance(one, SumStanding) else one.latest.collected.day


def _row(name: str, one: Standing | SumStanding) -> LetterRow:
    if isinstance(one, SumStanding):
        limit = one.now.limit
        bound = paper.bound_shown(paper.bound(limit), limit, one.parameter) if limit else "–"
        return LetterRow(one.now, one.parameter.name, name, facts.added(one.sum), bound, one.day)
    latest = one.latest
    return LetterRow(
        one.now,
        one.parameter.name,
        answer.drawn_at(name, latest.draw),
        paper.shown(latest.reading, one.parameter),
        answer.bound_words(one, is_short=True),
        latest.collected.day,
    )


def verdict_words(row: LetterRow) -> str:
    """How a result stands, and whether its limit is about health."""
    said = verdicts.word(row.judgement)
    if row.judgement.limit is None or not row.judgement.needs_attention:
        return said
    return f"{said} ({verdicts.kind(row.judgement.limit.kind)})"


def _house(history: History, recipient: str) -> tuple[tuple[str, str], ...]:
    several = len(history.wells) > 1
    said = [
        (well.well.name if several else _("Well and treatment"), answer.well_words(well))
        for well in history.wells
    ]
    if recipient == sentences.DEALER:
        said += [row for well in history.wells for row in house(well)]
    return tuple(said)


def _cautions(history: History, recipient: str, cautions: Cautions) -> tuple[str, ...]:
    """What is usually said about what is over or open, what presses first; none to a dealer."""
    if recipient == sentences.DEALER:
        return ()
    told = [
        one
        for _name, point in answer.points(history)
        for one in advice_at(point, history.beside(point), cautions, EVERYBODY, history.today)
        if one.urgent or recipient == sentences.DEPARTMENT
    ]
    told.sort(key=lambda one: not one.urgent)
    said = [f"{', '.join(one.names)}. {one.text}" for one in told]
    return tuple(dict.fromkeys(said))[:_MOST_CAUTIONS]
