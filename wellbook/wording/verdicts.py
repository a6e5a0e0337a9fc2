"""The one wording of a verdict, of a kind of limit and of a trend: window, chart, packet, command.

A verdict that is outside says in which way. Each table here has a row for every verdict; where a
place has room for more than a word, its sentence is another column of the same row.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from wellbook.support.translation import Language, _, language_now, pgettext
from wellbook.water.statistics.outcomes import Direction
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Limit, LimitKind, Rule
from wellbook.wording.facts import force, loose_day
from wellbook.wording.reasons import why


class Way(StrEnum):
    """In which way a reading is outside."""

    OVER = "over"
    PRESENT = "present where it must be absent"
    LOW = "below a range"
    HIGH = "above a range"


@dataclass(frozen=True, slots=True)
class _Words:
    """How a verdict is said.

    Attributes:
        word: In a table, beside the limit.
        sentence: Where it stands alone.
        against: Before the limit that it rests on, with a place for it.
    """

    word: str
    sentence: str
    against: str


@dataclass(frozen=True, slots=True)
class Meaning:
    """What a mark means, whichever way it is outside.

    Attributes:
        short: In a line of all marks.
        full: With what is to be known about it.
    """

    short: str
    full: str


def _words(judgement: Judgement) -> _Words:
    return _every(language_now())[_way(judgement)]


@lru_cache(maxsize=4)
def _every(_language: Language) -> dict[Verdict | Way, _Words]:
    """Every way, in the language of now: a packet says one for each of thousands of readings."""
    is_allowed = _("That is within {limit}.")
    return {
        Way.OVER: _Words(
            pgettext("verdict", "over"), _("Over the limit."), _("That is over {limit}.")
        ),
        Way.PRESENT: _Words(
            pgettext("verdict", "present"), _("Present where it must be absent."), ""
        ),
        Way.LOW: _Words(
            pgettext("verdict", "too low"), _("Below the range."), _("That is below {limit}.")
        ),
        Way.HIGH: _Words(
            pgettext("verdict", "too high"), _("Above the range."), _("That is above {limit}.")
        ),
        Verdict.OUTSIDE: _Words(
            pgettext("verdict", "off the range"), _("Off the range."), _("That is off {limit}.")
        ),
        Verdict.ADOPTED: _Words(
            pgettext("verdict", "over a limit to come"),
            _("Over a limit that is adopted and does not bind yet."),
            _("That is over {limit}, which is adopted and does not bind yet."),
        ),
        Verdict.NEAR: _Words(
            pgettext("verdict", "close"),
            _("Within the limit, but close to it."),
            _("That is within, but close to, {limit}."),
        ),
        Verdict.WITHIN: _Words(pgettext("verdict", "within"), _("Within the limit."), is_allowed),
        Verdict.UNDETECTED: _Words(
            pgettext("verdict", "not detected"), _("Not detected."), is_allowed
        ),
        Verdict.UNDECIDABLE: _Words(
            pgettext("verdict", "can’t be told"),
            _("Can’t be told."),
            _("Whether that is within {limit} can’t be told."),
        ),
        Verdict.NO_LIMIT: _Words(
            pgettext("verdict", "no limit"), _("No limit to compare with."), ""
        ),
    }


def _way(judgement: Judgement) -> Verdict | Way:
    """The verdict, or in which way it is outside where that is known."""
    limit = judgement.limit
    if judgement.verdict is not Verdict.OUTSIDE or limit is None:
        return judgement.verdict
    if limit.rule is Rule.ABSENT:
        return Way.PRESENT
    if limit.rule is Rule.MAX:
        return Way.OVER
    if limit.low is None or judgement.value is None:
        return Verdict.OUTSIDE
    return Way.LOW if judgement.value < limit.low else Way.HIGH


def meanings() -> dict[Verdict, Meaning]:
    """What each mark means, the most urgent first."""
    return {
        Verdict.OUTSIDE: Meaning(
            _("over, off the range, or present"),
            _("Over a limit, off a range, or present where it must be absent."),
        ),
        Verdict.UNDECIDABLE: Meaning(
            pgettext("verdict", "can’t be told"),
            _(
                "Can’t be told: the lab’s method did not see low enough, or the sample was not "
                "sound."
            ),
        ),
        Verdict.ADOPTED: Meaning(
            pgettext("verdict", "over a limit to come"),
            _("Over a limit that is adopted and does not bind yet."),
        ),
        Verdict.NEAR: Meaning(
            _("within, but close"),
            _("Close: allowed by the limit, but close to it."),
        ),
        Verdict.WITHIN: Meaning(
            _("within the limit"),
            _("Within: measured, and allowed by the limit."),
        ),
        Verdict.UNDETECTED: Meaning(
            pgettext("verdict", "not detected"),
            _("Not detected, by a method that sees low enough."),
        ),
        Verdict.NO_LIMIT: Meaning(
            pgettext("verdict", "no limit"),
            _("No limit in the limit sets that this book uses."),
        ),
    }


def word(judgement: Judgement) -> str:
    """A verdict in a word or two."""
    return _words(judgement).word


def sentence(judgement: Judgement) -> str:
    """A verdict as a sentence of its own."""
    return _words(judgement).sentence


def standing(judgement: Judgement, allowed: str, name: str) -> str:
    """How a reading stands to a limit, with the limit's source, kind and dates.

    Args:
        judgement: The verdict with what it rests on.
        allowed: What the limit allows, in words.
        name: Plain name of the limit's set.
    """
    limit = judgement.limit
    if limit is None:
        return ""
    plain = limit.rule is Rule.MAX and limit.kind is not LimitKind.HEALTH
    when = holds(judgement, limit)
    source = ", ".join((name, when) if plain else (name, kind(limit.kind), when))
    if limit.rule is Rule.ABSENT:
        said = _absence(judgement.verdict).format(source=source)
    else:
        said = _words(judgement).against.format(limit=_cited(limit, allowed, source))
    return f"{said} {why(judgement)}".strip()


def holds(judgement: Judgement, limit: Limit) -> str:
    """When the limit of a judgement holds; one to come says from when on."""
    if judgement.verdict is Verdict.ADOPTED:
        return _("starts on {day}").format(day=loose_day(limit.start))
    return force(limit)


def _absence(verdict: Verdict) -> str:
    if verdict is Verdict.UNDECIDABLE:
        return _("It must be absent ({source}); whether it is can’t be told.")
    if verdict is Verdict.OUTSIDE:
        return _("It must be absent ({source}), and is present.")
    if verdict is Verdict.ADOPTED:
        return _("It is present; the rule that it be absent does not bind yet ({source}).")
    return _("It must be absent ({source}).")


def _cited(limit: Limit, allowed: str, source: str) -> str:
    said = _("the range of {allowed} ({source})")
    if limit.rule is not Rule.RANGE:
        said = _kinds(limit.kind).cited
    return said.format(allowed=allowed, source=source)


@dataclass(frozen=True, slots=True)
class _KindWords:
    """What a limit is for: after its figure, before its figure, and in a sentence."""

    after: str
    level: str
    cited: str


def _kinds(wanted: LimitKind) -> _KindWords:
    return {
        LimitKind.HEALTH: _KindWords(
            _("health"), _("limit"), _("the limit of {allowed} ({source})")
        ),
        LimitKind.ACTION: _KindWords(
            _("action level"), _("action level"), _("the action level of {allowed} ({source})")
        ),
        LimitKind.ADVISORY: _KindWords(
            _("advisory"), _("advisory level"), _("the advisory level of {allowed} ({source})")
        ),
        LimitKind.AESTHETIC: _KindWords(
            _("taste, look and stains"),
            _("level for taste and look"),
            _("the level of {allowed} for taste, look and stains ({source})"),
        ),
        LimitKind.OPERATIONAL: _KindWords(
            _("plumbing and treatment"),
            _("level for plumbing"),
            _("the level of {allowed} for plumbing and treatment ({source})"),
        ),
    }[wanted]


def kind(wanted: LimitKind) -> str:
    """What a limit is for, to stand in a table or after its figure."""
    return _kinds(wanted).after


def level(wanted: LimitKind) -> str:
    """The same before its figure, as on a chart's line."""
    return _kinds(wanted).level


def by_today(said: str) -> str:
    """What is said by the limits of today."""
    return _("By today’s limits: {sentence}").format(sentence=said)


def by_that_day(said: str) -> str:
    """What is said by the limits of the sampling day."""
    return _("By the limits of the sampling day: {sentence}").format(sentence=said)


def trend(says: Direction) -> str:
    """What a trend test says, in a word or two; empty where there can be no trend."""
    return {
        Direction.RISING: _("rising"),
        Direction.FALLING: _("falling"),
        Direction.HIGHER_SINCE: _("higher since a change"),
        Direction.LOWER_SINCE: _("lower since a change"),
        Direction.NO_CLEAR_TREND: _("no clear trend"),
        Direction.MAYBE_SEASON: _("may be the season"),
        Direction.FEW: _("too few tests"),
        Direction.UNSEEN: _("never detected"),
        Direction.NOT_FOR_THIS: "",
        Direction.PENDING: "…",
    }[says]
