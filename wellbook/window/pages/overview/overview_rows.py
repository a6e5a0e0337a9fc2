"""The lines of the overview: every parameter of a point, what needs attention first."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from wellbook.support.translation import _, pgettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import normal_name
from wellbook.water.verdicts.judge import Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding, by_urgency
from wellbook.window.common import words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import trends, verdicts
from wellbook.wording.reasons import why


@dataclass(frozen=True, slots=True)
class Line:
    """One line: the head of a group, or a parameter with its standing."""

    head: str = ""
    standing: Standing | SumStanding | None = None

    @property
    def key(self) -> str:
        """What tells the line from the others."""
        return f"head {self.head}" if self.standing is None else self.standing.parameter.key


def lines(standings: Sequence[Standing | SumStanding], wanted: str = "") -> tuple[Line, ...]:
    """The standings in groups, narrowed down to names in which `wanted` is found."""
    groups: dict[str, list[Standing | SumStanding]] = {}
    for standing in sorted(standings, key=by_urgency):
        if _is_meant(standing, wanted):
            groups.setdefault(_group(standing), []).append(standing)
    return tuple(
        line
        for head, members in groups.items()
        for line in (Line(head), *(Line(standing=standing) for standing in members))
    )


def _is_meant(standing: Standing | SumStanding, wanted: str) -> bool:
    wanted = normal_name(wanted)
    names = (standing.parameter.name, standing.parameter.family, *standing.parameter.aliases)
    return not wanted or any(wanted in normal_name(name) for name in names)


def _group(standing: Standing | SumStanding) -> str:
    if standing.now.needs_attention:
        return _("Look at these first")
    if standing.now.verdict is Verdict.NO_LIMIT:
        return _("No limit to compare with")
    return _("Within the limits")


def columns(catalogue: Catalogue) -> tuple[Column, ...]:
    """How a line is set."""
    return (
        Column(_("Parameter"), _name, tip=_why),
        Column(_("Latest result"), _latest, tip=_latest_tip),
        Column(_("Sampled"), _sampled, sort=_day),
        Column(_("Standing now"), _verdict, tip=_verdict_tip, verdict=_mark),
        Column(
            _("Limit"),
            lambda line: _limit(line, catalogue),
            tip=_limit_tip,
        ),
        Column(_("Trend"), _trend, tip=_trend_tip),
        Column(pgettext("overview", "Tests"), _count),
    )


def _name(line: Line) -> str:
    return line.standing.parameter.name if line.standing else line.head


def _why(line: Line) -> str:
    return line.standing.parameter.why if line.standing else line.head


def _latest(line: Line) -> str:
    if isinstance(line.standing, SumStanding):
        return words.sum_words(line.standing.sum)
    return words.reading_words(line.standing.latest.reading) if line.standing else ""


def _latest_tip(line: Line) -> str:
    if isinstance(line.standing, SumStanding):
        return _("Added up here, no lab reported it")
    if not line.standing:
        return ""
    latest = line.standing.latest
    return _("{reading}, reported as “{name}”{lab}").format(
        reading=words.reading_words(latest.reading),
        name=latest.name,
        lab=f", {latest.lab}" if latest.lab else "",
    )


def _day(line: Line) -> date | None:
    if isinstance(line.standing, SumStanding):
        return line.standing.day
    return line.standing.latest.collected.day if line.standing else None


def _sampled(line: Line) -> str:
    if isinstance(line.standing, SumStanding):
        return words.day_words(line.standing.day)
    return words.day_words(line.standing.latest.collected.day) if line.standing else ""


def _verdict(line: Line) -> str:
    return verdicts.word(line.standing.now) if line.standing else ""


def _verdict_tip(line: Line) -> str:
    return (why(line.standing.now) or _verdict(line)) if line.standing else ""


def _mark(line: Line) -> Verdict | None:
    return line.standing.now.verdict if line.standing else None


def _limit(line: Line, catalogue: Catalogue) -> str:
    limit = line.standing.now.limit if line.standing else None
    if limit is None:
        return ""
    return f"{_allowed(line)} · {catalogue.sets[limit.set].name}"


def _allowed(line: Line) -> str:
    if line.standing is None:
        return ""
    standing = line.standing
    if isinstance(standing, SumStanding):
        return words.limit_words(standing.now.limit)
    return words.limit_beside(standing.now.limit, standing.latest.reading, standing.parameter)


def _limit_tip(line: Line) -> str:
    limit = line.standing.now.limit if line.standing else None
    if limit is None:
        return ""
    parts = (words.limit_words(limit), verdicts.kind(limit.kind), limit.source, limit.note)
    return ". ".join(filter(None, parts))


def _trend(line: Line) -> str:
    standing = line.standing
    return verdicts.trend(standing.trend.says) if isinstance(standing, Standing) else ""


def _trend_tip(line: Line) -> str:
    return trends.trend(line.standing.trend) if isinstance(line.standing, Standing) else ""


def _count(line: Line) -> str:
    return str(line.standing.n) if isinstance(line.standing, Standing) else ""
