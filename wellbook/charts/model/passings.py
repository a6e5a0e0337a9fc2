"""How each mark stands to the limits, and when one was first passed."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

from wellbook.charts.model.parts import Mark, mark_words
from wellbook.charts.model.points import Reached
from wellbook.support.translation import ngettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.judgement import Verdict
from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.point_record import Assessed, PointRecord
from wellbook.wording import facts


def judged(
    reached: Reached,
    record: PointRecord,
    parameter: str,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    *,
    assessed: Sequence[Assessed] = (),
) -> Reached:
    """The marks with their verdicts: today's, or that of their day where only it is worse.

    `assessed` are the same results as they were judged before by the same limits.
    """
    found = assessed or assess(record.history(parameter), record, catalogue, sets, today)
    verdicts = {one.result.id: one.headline.verdict for one in found}
    marks = (replace(mark, verdict=verdicts.get(mark.result)) for mark in reached.marks)
    return replace(reached, marks=tuple(marks))


def first_passing(marks: Sequence[Mark]) -> Mark | None:
    """The first of the marks, in order of time, that is outside a limit."""
    return next((mark for mark in marks if mark.verdict is Verdict.OUTSIDE), None)


def told(marks: Sequence[Mark]) -> str:
    """When a limit was first passed and how often since; empty where none ever was."""
    first = first_passing(marks)
    if first is None:
        return ""
    n = sum(mark.verdict is Verdict.OUTSIDE for mark in marks)
    return ngettext(
        "Outside a limit in {n:,} of {total:,} results, first on {day}: {reading}.",
        "Outside a limit in {n:,} of {total:,} results, first on {day}: {reading}.",
        n,
    ).format(n=n, total=len(marks), day=facts.day(first.day), reading=mark_words(first))
