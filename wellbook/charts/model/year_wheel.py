"""The year wheel: twelve months round, and every test a dot at its month, on its year's ring.

It shows at one glance which part of the year a well has never been seen in.
"""

import calendar
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.support.translation import _, ngettext
from wellbook.water.values.seasons import YEAR, Coverage, Scheme, coverage
from wellbook.wording import dates, facts

_LEAST_GAP = 2  # months; steps of 14 months leave every second month out for years
_TONES = {"winter": 1, "wet": 1, "summer": 2}


@dataclass(frozen=True, slots=True)
class Dot:
    """A day with a test.

    Attributes:
        turn: Share of the year that has passed, every month a twelfth.
        ring: Place of its year, 0 the innermost.
    """

    day: date
    turn: float
    ring: int


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of the year; `end` is past 1 where it runs over New Year."""

    start: float
    end: float
    text: str
    tone: int = 0


@dataclass(frozen=True, slots=True)
class Wheel:
    """The wheel of one point, or of one parameter at it.

    Attributes:
        title: What was tested.
        sentence: The same in words.
        dots: Every day with a test, in order of time.
        years: First to last ring.
        sectors: The seasons.
        gap: The longest run of months never tested; None if it is a single month, or all of them.
        window: The suggested days of the next test, if given.
    """

    title: str
    sentence: str
    dots: tuple[Dot, ...]
    years: tuple[int, ...]
    sectors: tuple[Arc, ...]
    gap: Arc | None
    window: Arc | None


def wheel(
    days: Sequence[date],
    scheme: Scheme,
    today: date,
    *,
    title: str = "",
    window: tuple[date, date] | None = None,
) -> Wheel:
    """Describe when in the year tests were made.

    Args:
        days: Sampling days in any order; a day counts once.
        scheme: How the year is divided.
        today: The outermost ring is this year's, or the last test's.
        title: What was tested.
        window: First and last suggested day of the next test.
    """
    tested = sorted(set(days))
    last = max([today, *tested]).year
    years = tuple(range(tested[0].year if tested else last, last + 1))
    found = coverage(tested, scheme)
    gap = _gap(found) if tested else None
    ahead = None if window is None else _window(*window)
    return Wheel(
        title=title,
        sentence=_sentence(tested, found, gap, ahead),
        dots=tuple(Dot(day, _turn(day), day.year - years[0]) for day in tested),
        years=years,
        sectors=_sectors(scheme),
        gap=gap,
        window=ahead,
    )


def _turn(day: date) -> float:
    in_month = calendar.monthrange(day.year, day.month)[1]
    return (day.month - 1 + (day.day - 0.5) / in_month) / YEAR


def _gap(found: Coverage) -> Arc | None:
    months = found.gap
    if len(months) < _LEAST_GAP:
        return None
    text = facts.span(dates.month(months[0]), dates.month(months[-1]))
    start = (months[0] - 1) / YEAR
    return Arc(start, start + len(months) / YEAR, text)


def _window(first: date, last: date) -> Arc:
    start, end = _turn(first), _turn(last)
    return Arc(start, end if end >= start else end + 1, _days(first, last))


def _days(first: date, last: date) -> str:
    if first == last or first.year != last.year:
        return facts.span(facts.day(first), facts.day(last))
    return facts.span(facts.day_of_year(first), facts.day(last))


def _sectors(scheme: Scheme) -> tuple[Arc, ...]:
    """Runs of months of one season, the first one starting where a season starts."""
    months = scheme.of_month
    starts = [n for n in range(YEAR) if months[n] != months[n - 1]]
    arcs = []
    for place, start in enumerate(starts):
        end = starts[(place + 1) % len(starts)]
        length = (end - start) % YEAR or YEAR
        season = months[start]
        tone = _TONES.get(season.key, 0)
        arcs.append(Arc(start / YEAR, (start + length) / YEAR, dates.season(season), tone))
    return tuple(arcs)


def _sentence(days: Sequence[date], found: Coverage, gap: Arc | None, ahead: Arc | None) -> str:
    said = [_tested(days, found) if days else _("No test yet.")]
    if days and found.missing:
        said.append(_never([dates.season(season) for season in found.missing]))
    if gap:
        said.append(_("Longest part of the year never tested: {months}.").format(months=gap.text))
    if ahead:
        said.append(_("Suggested next: {days}.").format(days=ahead.text))
    return " ".join(said)


def _tested(days: Sequence[date], found: Coverage) -> str:
    months, year = sum(n > 0 for n in found.months), days[0].year
    if year == days[-1].year:
        return ngettext(
            "{n:,} test day, in {year}, in {months} of 12 months.",
            "{n:,} test days, in {year}, in {months} of 12 months.",
            len(days),
        ).format(
            n=len(days),
            year=year,
            months=months,
        )
    return ngettext(
        "{n:,} test day, {first} to {last}, in {months} of 12 months.",
        "{n:,} test days, {first} to {last}, in {months} of 12 months.",
        len(days),
    ).format(
        n=len(days),
        first=year,
        last=days[-1].year,
        months=months,
    )


def _never(seasons: Sequence[str]) -> str:
    *others, last = seasons
    if not others:
        return _("Never in {season}.").format(season=last)
    return _("Never in {seasons} or {last}.").format(seasons=", ".join(others), last=last)
