"""What the page of a parameter says: how it stands, what its picture shows, what a mark is."""

from collections.abc import Mapping
from datetime import date

from wellbook.charts.model.parts import Chart, Mark, Shape
from wellbook.charts.model.passings import told
from wellbook.support.translation import _, ngettext
from wellbook.water.values.limits import LimitSet
from wellbook.water.verdicts.status import Standing
from wellbook.window.common.words import day_words, limit_beside, moment_words
from wellbook.wording import facts, forecasts, verdicts


def short(chart: Chart, standing: Standing, sets: Mapping[str, LimitSet], today: date) -> str:
    """What the picture shows: when a limit was passed, which way it goes, and to where."""
    found = standing.trend
    own = [mark for series in chart.series if not series.second for mark in series.marks]
    said = [told(sorted(own, key=lambda mark: mark.day))]
    if word := verdicts.trend(found.says):
        way = ngettext(
            "Direction by {n:,} test: {word}.", "Direction by {n:,} tests: {word}.", found.n
        )
        said.append(way.format(n=found.n, word=word))
    said += [forecasts.sentence(one, sets, today=today) for one in standing.forecasts[:1]]
    return " ".join(filter(None, said))


def mark(shown: Mark, unit: str, lab: str) -> str:
    """A mark in a line: day, reading, the same in the chart's unit, verdict, lab."""
    said = [f"{day_words(shown.day)}: {shown.label}"]
    if unit and shown.shape is Shape.VALUE and unit not in shown.label:
        said.append(f"{facts.figure(shown.value)} {unit}")
    if shown.verdict is not None:
        said.append(verdicts.meanings()[shown.verdict].short)
    if lab:
        said.append(lab)
    return "; ".join(said)


def standing(shown: Standing, own: Standing) -> str:
    """How the latest result stands, with its day and the limit.

    Args:
        shown: By the limits that are chosen for the page.
        own: By those of the household; said too, where they say something else.
    """
    limit = shown.now.limit
    allowed = limit_beside(limit, shown.latest.reading, shown.parameter)
    said = (
        _("{verdict} Sampled on {day}; limit: {allowed}.")
        if allowed
        else _("{verdict} Sampled on {day}.")
    )
    said = said.format(
        verdict=verdicts.sentence(shown.now),
        day=moment_words(shown.latest.collected),
        allowed=allowed,
    )
    if (shown.now.verdict, shown.now.limit) == (own.now.verdict, own.now.limit):
        return said
    by = _("That is by the limits chosen on this page; by those of the household: {verdict}")
    return f"{said} {by.format(verdict=verdicts.sentence(own.now))}"
