"""What `status` and `due` answer as lines to read; `status_facts` says the same as data."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from wellbook.book.copies import Preview
from wellbook.cli.status_facts import Dues, Powers, Said, caution_facts
from wellbook.planning.overview import WellOverview
from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.due import UpkeepItem, due_now
from wellbook.support.translation import _, ngettext
from wellbook.water.values.limits import LimitSet
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.point_record import TwoVerdicts
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding
from wellbook.wording import facts, forecasts, latest_change, trends, verdicts
from wellbook.wording.reasons import why
from wellbook.wording.reference import cited


def status_lines(
    on: date,
    wells: Sequence[WellOverview],
    sets: Mapping[str, LimitSet],
    said: Said,
    powers: Powers,
) -> Iterator[str]:
    """The same facts to read, each verdict with its limit, source and date."""
    yield _("As of {on}. Limits bind public supplies; here they are yardsticks.").format(
        on=on.isoformat()
    )
    for well in wells:
        for one in well.points:
            side = _("treated water") if one.point.treated else _("raw water")
            yield ""
            yield f"{well.well.name}, {one.point.name} ({side})"
            for caution in caution_facts(said.get(one.point.id)):
                about = f"{', '.join(caution['about'])}: " if caution["about"] else ""
                yield f"  ! {about}{caution['text']}"
            for standing in one.by_urgency:
                if isinstance(standing, Standing):
                    yield from _standing_lines(standing, sets, on)
                    more = powers.get((one.point.id, standing.parameter.key))
                    if more:
                        told = trends.outlook(more)
                        yield "      " + _("more tests: {sentence}").format(sentence=told)
                else:
                    yield from _sum_lines(standing, sets)
            for name in one.unknown:
                yield f"  {name}: kept as printed; Wellbook has no limits for this name"


def _standing_lines(standing: Standing, sets: Mapping[str, LimitSet], on: date) -> Iterator[str]:
    latest = standing.latest
    shown = " ".join(filter(None, (latest.reading.text, latest.reading.unit, latest.reading.basis)))
    shown = facts.marked(shown, latest.reading)
    said = ngettext(
        "{parameter}: {shown} on {day} ({n} test)",
        "{parameter}: {shown} on {day} ({n} tests)",
        standing.n,
    )
    day = str(latest.collected.day)
    yield "  " + said.format(parameter=standing.parameter.name, shown=shown, day=day, n=standing.n)
    yield from _both_lines(standing, sets)
    yield "      " + _("trend: {sentence}").format(sentence=trends.trend(standing.trend))
    if standing.change and standing.change.before:
        changed = latest_change.paragraph(standing.change)
        yield "      " + _("since the test before: {sentence}").format(sentence=changed)
    for found in standing.forecasts[:1]:
        told = forecasts.sentence(found, sets, today=on)
        yield "      " + _("ahead: {sentence}").format(sentence=told)


def _sum_lines(standing: SumStanding, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    yield (
        "  "
        + _("{parameter}, added up from the tests of {day}").format(
            parameter=standing.parameter.name, day=standing.day.isoformat()
        )
    )
    yield from _both_lines(standing, sets)


def _both_lines(both: TwoVerdicts, sets: Mapping[str, LimitSet]) -> Iterator[str]:
    yield f"      {verdicts.by_today(judgement_line(both.now, sets))}"
    if both.adopted and both.adopted != both.now:
        yield "      " + _("By a limit to come: {judgement_line}").format(
            judgement_line=judgement_line(both.adopted, sets)
        )
    if both.then != both.now:
        yield f"      {verdicts.by_that_day(judgement_line(both.then, sets))}"


def judgement_line(judgement: Judgement, sets: Mapping[str, LimitSet]) -> str:
    """A verdict with its limit, set, source and date, and why where that needs saying."""
    limit = judgement.limit
    if limit is None:
        return " ".join(filter(None, (_("no limit in the chosen sets"), why(judgement))))
    name = sets[limit.set].name
    begins = _("starts on {day}") if judgement.verdict is Verdict.ADOPTED else _("since {day}")
    since = ", " + begins.format(day=limit.start) if limit.start else ""
    told = f" ({why(judgement)})" if judgement.reasons else ""
    word, kind = verdicts.word(judgement), verdicts.kind(limit.kind)
    return f"{word}, {facts.bound(limit)} ({kind}), {name}{since}: {cited(limit.source)}{told}"


def due_lines(on: date, dues: Dues, upkeep: Sequence[UpkeepItem] = ()) -> Iterator[str]:
    """What is due, tests before upkeep, and after it what comes next."""
    planned = [(well, point, one) for well, point, panels in dues for one in panels]
    now = [row for row in planned if row[2].due <= on]
    waiting = due_now(upkeep, on)
    if not planned:
        yield _("Nothing is planned yet: add a test, and its panels are planned from then on.")
    elif not now and not waiting:
        yield _("Nothing is due on {on}.").format(on=on.isoformat())
    elif not now:
        yield _("No test is due on {on}.").format(on=on.isoformat())
    for well, point, one in now:
        yield _("Due since {due}: {panel} at {well}, {point}.").format(
            due=one.due.isoformat(), panel=one.panel.name, well=well.name, point=point.name
        )
        yield f"  {one.why}"
    for item in waiting:
        yield _("Upkeep at {well}: {item}").format(well=item.well.name, item=words.head(item, on))
        yield f"  {words.advice(item)}"
    for well, point, one in planned:
        if one.due > on:
            yield _("Next: {panel} at {well}, {point} on {due}.").format(
                panel=one.panel.name, well=well.name, point=point.name, due=one.due.isoformat()
            )
    for item in upkeep:
        if item not in waiting:
            yield _("Next upkeep at {well}: {item}").format(
                well=item.well.name, item=words.head(item, on)
            )


def preview_lines(seen: Preview) -> Iterator[str]:
    """What going back to a copy would lose and gain."""
    if seen.trouble:
        yield _("The book itself can't be read: {trouble}").format(trouble=seen.trouble)
        n = len(seen.gained)
        yield ngettext(
            "The copy holds {n} entry of its journal.",
            "The copy holds {n} entries of its journal.",
            n,
        ).format(n=n)
        return
    lost, gained = len(seen.lost), len(seen.gained)
    told = (
        (ngettext("{n} change would be lost.", "{n} changes would be lost.", lost), seen.lost),
        (
            ngettext("{n} change would be gained.", "{n} changes would be gained.", gained),
            seen.gained,
        ),
    )
    for said, entries in told:
        yield said.format(n=len(entries))
        for entry in entries:
            yield f"  {entry.at[:16].replace('T', ' ')} UTC: {entry.action}"
