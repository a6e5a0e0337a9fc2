"""What is said first of a sampling point: how its latest results stand, the worst one named."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.planning.overview import PointOverview
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.limits import Rule
from wellbook.water.verdicts.latest_change import Crossed
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.window.common import words
from wellbook.wording import forecasts, verdicts

_MOST = 4  # results named one by one
Stands = Standing | SumStanding


@dataclass(frozen=True, slots=True)
class Answer:
    """The answer of a page.

    Attributes:
        verdict: Whose mark stands before it.
        head: The worst, in one line.
        detail: With figures, limit, source and days.
        rest: What else is to be known, in the second ink.
        key: The parameter that it is about first; empty where it has no page.
    """

    verdict: Verdict
    head: str
    detail: str = ""
    rest: str = ""
    key: str = ""


def answer(point: PointOverview, catalogue: Catalogue, today: date) -> Answer:
    """The answer for a point, by its most urgent results of today's limits or of their day."""
    found = point.by_urgency
    if not found:
        return Answer(Verdict.NO_LIMIT, _("No test of this water yet"))
    if not found[0].headline.needs_attention:
        return _calm(found, point)
    worst = _without_sums_of([one for one in found if _alike(one, found[0])], catalogue)
    pages = [one.parameter.key for one in worst if isinstance(one, Standing)]
    return Answer(
        worst[0].headline.verdict,
        _head(worst),
        " ".join(
            filter(
                None,
                (
                    _one(worst[0], catalogue) if len(worst) == 1 else _several(worst),
                    _ahead(worst, catalogue, today),
                ),
            )
        ),
        _rest(found, worst, point),
        pages[0] if pages else "",
    )


def _without_sums_of(worst: Sequence[Stands], catalogue: Catalogue) -> list[Stands]:
    """The same without sums that a part among them tells already."""
    keys = {one.parameter.key for one in worst if isinstance(one, Standing)}
    told = {rule.key for rule in catalogue.sums for term in rule.members if term.parameter in keys}
    return [one for one in worst if isinstance(one, Standing) or one.parameter.key not in told]


def _alike(one: Stands, other: Stands) -> bool:
    """Whether two are told together: the same verdict by limits that matter and hold alike."""
    a, b = one.headline, other.headline
    matter = (a.is_health, a.can_harm) == (b.is_health, b.can_harm)
    return matter and a.verdict is b.verdict and _is_past(one) is _is_past(other)


def _is_past(one: Stands) -> bool:
    """Whether only the limits of its sampling day call for a look at it."""
    return one.headline is not one.now


def _calm(found: Sequence[Stands], point: PointOverview) -> Answer:
    compared = [one for one in found if one.now.verdict is not Verdict.NO_LIMIT]
    if not compared:
        return Answer(
            Verdict.NO_LIMIT,
            _("Nothing tested here has a limit to compare with"),
            rest=_rest(found, [], point),
        )
    return Answer(
        Verdict.WITHIN,
        ngettext(
            "The latest result of {n:,} parameter is within its limit",
            "The latest results of {n:,} parameters are within their limits",
            len(compared),
        ).format(n=len(compared)),
        rest=_rest(found, compared, point),
    )


def _head(worst: Sequence[Stands]) -> str:
    one, n = worst[0], len(worst)
    judgement, name = one.headline, one.parameter.name
    if _is_past(one):
        return _heads_of_then(judgement.verdict, name, n)
    if n > 1:
        return _heads(judgement, n)
    said = {
        Verdict.OUTSIDE: _outside(one),
        Verdict.UNDECIDABLE: _("Whether {name} is within its limit can’t be told"),
        Verdict.ADOPTED: _("{name} is over a limit that is adopted and does not bind yet"),
        Verdict.NEAR: _("{name} is close to its limit"),
    }[judgement.verdict]
    return said.format(name=name)


def _outside(one: Stands) -> str:
    limit = one.headline.limit
    change = one.change if isinstance(one, Standing) else None
    is_first = change is not None and change.crossed is Crossed.FIRST_OVER
    if limit is not None and limit.rule is Rule.ABSENT:
        return _("{name} was found where there must be none")
    if not one.headline.can_harm:
        return _("{name} is outside a limit that is not about health")
    if not one.headline.is_health:
        return _("{name} is outside an advisory level")
    if is_first:
        return _("{name} is outside its health limit for the first time")
    return _("{name} is outside its health limit")


def _heads(judgement: Judgement, n: int) -> str:
    if judgement.verdict is Verdict.OUTSIDE and judgement.is_health:
        said = ngettext(
            "{n:,} result is outside a health limit", "{n:,} results are outside health limits", n
        )
    elif judgement.verdict is Verdict.OUTSIDE and judgement.can_harm:
        said = ngettext(
            "{n:,} result is outside an advisory level",
            "{n:,} results are outside advisory levels",
            n,
        )
    elif judgement.verdict is Verdict.OUTSIDE:
        said = ngettext(
            "{n:,} result is outside a limit that is not about health",
            "{n:,} results are outside limits that are not about health",
            n,
        )
    elif judgement.verdict is Verdict.UNDECIDABLE:
        said = ngettext(
            "Whether {n:,} result is within its limit can’t be told",
            "Whether {n:,} results are within their limits can’t be told",
            n,
        )
    elif judgement.verdict is Verdict.ADOPTED:
        said = ngettext(
            "{n:,} result is over a limit that is adopted and does not bind yet",
            "{n:,} results are over limits that are adopted and do not bind yet",
            n,
        )
    else:
        said = ngettext(
            "{n:,} result is close to its limit", "{n:,} results are close to their limits", n
        )
    return said.format(n=n)


def _heads_of_then(verdict: Verdict, name: str, n: int) -> str:
    """What results were by the limits of their day, where today's call for nothing."""
    one, several = {
        Verdict.OUTSIDE: (
            _("{name} was outside a limit of its day"),
            ngettext(
                "{n:,} result was outside a limit of its day",
                "{n:,} results were outside limits of their day",
                n,
            ),
        ),
        Verdict.UNDECIDABLE: (
            _("Whether {name} was within a limit of its day can’t be told"),
            ngettext(
                "Whether {n:,} result was within a limit of its day can’t be told",
                "Whether {n:,} results were within limits of their day can’t be told",
                n,
            ),
        ),
        Verdict.ADOPTED: (
            _("{name} was over a limit that was adopted on its day and did not bind yet"),
            ngettext(
                "{n:,} result was over a limit that was adopted on its day and did not bind yet",
                "{n:,} results were over limits that were adopted on their day and did not bind "
                "yet",
                n,
            ),
        ),
        Verdict.NEAR: (
            _("{name} was close to a limit of its day"),
            ngettext(
                "{n:,} result was close to a limit of its day",
                "{n:,} results were close to limits of their day",
                n,
            ),
        ),
    }[verdict]
    return (one if n == 1 else several).format(name=name, n=n)


def _one(one: Stands, catalogue: Catalogue) -> str:
    limit, day = one.headline.limit, _day(one)
    name = catalogue.sets[limit.set].name if limit else ""
    return " ".join(
        filter(
            None,
            (
                _("{reading} on {day}.").format(reading=_reading(one), day=day),
                verdicts.standing(one.headline, _allowed(one), name),
            ),
        )
    )


def _several(worst: Sequence[Stands]) -> str:
    said = [
        _("{name} {reading} ({limit})").format(
            name=one.parameter.name, reading=_reading(one), limit=_allowed(one)
        )
        for one in worst[:_MOST]
    ]
    more = len(worst) - _MOST
    if more > 0:
        said.append(ngettext("and {n:,} more", "and {n:,} more", more).format(n=more))
    return "; ".join(said) + "."


def _ahead(worst: Sequence[Stands], catalogue: Catalogue, today: date) -> str:
    """Where the first of them goes, if it goes on like this and may be drawn on."""
    found = next((one for one in worst if isinstance(one, Standing) and one.forecasts), None)
    if found is None:
        return ""
    said = forecasts.sentence(found.forecasts[0], catalogue.sets, today=today)
    if len(worst) == 1:
        return said
    return _("{name}: {sentence}").format(name=found.parameter.name, sentence=said)


def _allowed(one: Stands) -> str:
    limit = one.headline.limit
    if isinstance(one, SumStanding):
        return words.limit_words(limit)
    return words.limit_beside(limit, one.latest.reading, one.parameter)


def _reading(one: Stands) -> str:
    if isinstance(one, SumStanding):
        return words.sum_words(one.sum)
    return words.reading_words(one.latest.reading)


def _day(one: Stands) -> str:
    day = one.day if isinstance(one, SumStanding) else one.latest.collected.day
    return words.day_words(day)


def _rest(found: Sequence[Stands], told: Sequence[Stands], point: PointOverview) -> str:
    """Who else wants a look, what has no limit, and how old the latest test is."""
    others = [one.parameter.name for one in found if one.now.needs_attention and one not in told]
    earlier = [
        one.parameter.name
        for one in found
        if one.needs_attention and not one.now.needs_attention and one not in told
    ]
    bare = sum(one.now.verdict is Verdict.NO_LIMIT for one in point.standings)
    latest = max((one.latest.collected.day for one in point.standings), default=None)
    said = []
    if others:
        said.append(_("Also to look at: {names}.").format(names=_names(others)))
    if earlier:
        told_of = _("By the limits of their day also: {names}.")
        said.append(told_of.format(names=_names(earlier)))
    if bare:
        said.append(
            ngettext(
                "{n:,} parameter has no limit to compare with.",
                "{n:,} parameters have no limit to compare with.",
                bare,
            ).format(n=bare)
        )
    if latest:
        said.append(_("Latest test: {day}.").format(day=words.day_words(latest)))
    return " ".join(said)


def _names(names: Sequence[str]) -> str:
    shown, more = ", ".join(names[:_MOST]), len(names) - _MOST
    if more <= 0:
        return shown
    said = ngettext("{names} and {n} more", "{names} and {n} more", more)
    return said.format(names=shown, n=more)
