"""The lines of the overview: every parameter of a point, what needs attention first."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from wellbook.support.translation import _, ngettext, pgettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import normal_name
from wellbook.water.verdicts.judge import Verdict
from wellbook.water.verdicts.status import Standing
from wellbook.water.verdicts.sum_status import SumStanding, by_urgency
from wellbook.window.common import words
from wellbook.window.pages.overview.history_lines import share_of_limit, share_words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import trends, verdicts
from wellbook.wording.reasons import why
from wellbook.wording.reference import cited

_ROOM = 18  # lines; of more, some are folded
_CALM = 8  # lines within their limits that are then seen


class Group(StrEnum):
    """What belongs together, in the order of the page."""

    FIRST = "first"
    WITHIN = "within"
    MORE = "more within"
    BARE = "bare"


_FOLDED = frozenset({Group.MORE, Group.BARE})


@dataclass(frozen=True, slots=True)
class Line:
    """One line: the head of a group, or a parameter with its standing.

    Attributes:
        is_open: Of a head, whether its group is unfolded; None where it can't be folded.
    """

    head: str = ""
    standing: Standing | SumStanding | None = None
    group: Group = Group.FIRST
    is_open: bool | None = None

    @property
    def key(self) -> str:
        """What tells the line from the others."""
        return f"head {self.group}" if self.standing is None else self.standing.parameter.key


def lines(
    standings: Sequence[Standing | SumStanding],
    wanted: str = "",
    opened: Mapping[Group, bool] | None = None,
) -> tuple[Line, ...]:
    """The standings in groups, narrowed down to names in which `wanted` is found.

    Of many, those furthest within their limits and those without one are folded to one line each,
    until they are `opened` or looked for. The order is that of every list, folded or not.
    """
    groups: dict[Group, list[Standing | SumStanding]] = {}
    meant = [one for one in sorted(standings, key=by_urgency) if _is_meant(one, wanted)]
    for standing in meant:
        groups.setdefault(_group(standing), []).append(standing)
    is_long = len(meant) > _ROOM and not wanted
    if is_long and (further := groups.get(Group.WITHIN, [])[_CALM:]):
        groups[Group.MORE] = further
        del groups[Group.WITHIN][_CALM:]
    told = []
    for group in filter(groups.__contains__, Group):
        members = groups[group]
        may_fold = is_long and group in _FOLDED
        is_open = (opened or {}).get(group, False) if may_fold else None
        told.append(Line(_head(group, len(members), is_open), None, group, is_open))
        if is_open is not False:
            told += [Line(standing=standing, group=group) for standing in members]
    return tuple(told)


def order(standings: Sequence[Standing | SumStanding]) -> tuple[str, ...]:
    """Keys of the parameters in the order of the page, folded ones too; sums have none."""
    found = lines(standings, opened=dict.fromkeys(Group, True))
    return tuple(line.key for line in found if isinstance(line.standing, Standing))


def _is_meant(standing: Standing | SumStanding, wanted: str) -> bool:
    wanted = normal_name(wanted)
    names = (standing.parameter.name, standing.parameter.family, *standing.parameter.aliases)
    return not wanted or any(wanted in normal_name(name) for name in names)


def _group(standing: Standing | SumStanding) -> Group:
    if standing.now.needs_attention:
        return Group.FIRST
    return Group.BARE if standing.now.verdict is Verdict.NO_LIMIT else Group.WITHIN


def _head(group: Group, n: int, is_open: bool | None) -> str:  # noqa: FBT001  one of three states
    said = {
        Group.FIRST: _("Look at these first"),
        Group.WITHIN: _("Within the limits"),
        Group.MORE: _("More within the limits"),
        Group.BARE: _("No limit to compare with"),
    }[group]
    if is_open is None:
        return said
    sign = "▾" if is_open else "▸"
    return f"{sign} {said} ({n:,})"


def columns(catalogue: Catalogue) -> tuple[Column, ...]:
    """How a line is set."""
    return (
        Column(_("Parameter"), _name, tip=_why),
        Column(_("Latest result"), _latest, tip=_latest_tip),
        Column(_("Sampled"), _sampled, sort=_day),
        Column(_("Standing now"), _verdict, tip=_verdict_tip, verdict=_mark),
        Column(
            _("Limit"),
            _limit,
            tip=lambda line: _limit_tip(line, catalogue),
        ),
        Column(_("Trend"), _trend, tip=_trend_tip),
        Column(pgettext("overview", "Tests"), _count),
        Column(_("Over the years"), _years, tip=_trend_tip),
        Column(_("Share of the limit"), _share, tip=lambda line: _limit_tip(line, catalogue)),
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


def _limit(line: Line) -> str:
    standing = line.standing
    if standing is None or standing.now.limit is None:
        return ""
    kind = verdicts.kind(standing.now.limit.kind)
    return _("{limit}, {kind}").format(limit=_allowed(standing), kind=kind)


def _allowed(standing: Standing | SumStanding) -> str:
    if isinstance(standing, SumStanding):
        return words.limit_words(standing.now.limit)
    return words.limit_beside(standing.now.limit, standing.latest.reading, standing.parameter)


def _limit_tip(line: Line, catalogue: Catalogue) -> str:
    limit = line.standing.now.limit if line.standing else None
    if limit is None:
        return ""
    name = catalogue.sets[limit.set].name
    parts = (
        words.limit_words(limit),
        verdicts.kind(limit.kind),
        name,
        cited(limit.source),
        _(limit.note),
    )
    return ". ".join(filter(None, parts))


def _trend(line: Line) -> str:
    standing = line.standing
    return verdicts.trend(standing.trend.says) if isinstance(standing, Standing) else ""


def _trend_tip(line: Line) -> str:
    return trends.trend(line.standing.trend) if isinstance(line.standing, Standing) else ""


def _count(line: Line) -> str:
    return str(line.standing.n) if isinstance(line.standing, Standing) else ""


def _years(line: Line) -> str:
    """What the small line shows, for those who can't see it."""
    if not isinstance(line.standing, Standing):
        return ""
    return ngettext("{n:,} test", "{n:,} tests", line.standing.n).format(n=line.standing.n)


def _share(line: Line) -> str:
    return share_words(share_of_limit(line.standing.now)) if line.standing else ""
