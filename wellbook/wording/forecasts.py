"""When a limit will be reached, in one sentence."""

from collections.abc import Iterable, Mapping
from datetime import date

from wellbook.support.translation import _
from wellbook.water.statistics.outcomes import Way
from wellbook.water.values.figures import plain
from wellbook.water.values.limits import HEALTH_KINDS, LimitSet
from wellbook.water.verdicts.forecasts import Forecast
from wellbook.water.verdicts.status import Standing
from wellbook.wording import units
from wellbook.wording.dates import month_of


def sentence(found: Forecast, sets: Mapping[str, LimitSet], *, today: date) -> str:
    """When the line reaches the limit, with the interval, the tests and the limit's set."""
    crossing = found.crossing
    told = {
        "figure": plain(crossing.limit, 4),
        "unit": units.said(found.unit),
        "set": sets[found.limit.set].name,
        "when": _("by now")
        if crossing.day <= today
        else _("about {month}").format(month=month_of(crossing.day)),
        "interval": _interval(found, today),
        "n": found.n,
    }
    said = (
        _(
            "If it goes on like this, the long-run level rises above {figure} {unit} ({set}) "
            "{when} ({interval}; line of {n} tests). Single tests can be over it earlier."
        )
        if crossing.says is Way.RISES_ABOVE
        else _(
            "If it goes on like this, the long-run level falls below {figure} {unit} ({set}) "
            "{when} ({interval}; line of {n} tests). Single tests scatter about it."
        )
    ).format(**told)
    if not crossing.one_season:
        return said
    return f"{said} " + _(
        "All these tests fall into one season: in others the level may be past it earlier."
    )


def health_ahead(
    standings: Iterable[Standing], sets: Mapping[str, LimitSet], *, today: date
) -> list[str]:
    """For each parameter that nears a limit about health, when it reaches it."""
    return [
        _("{parameter}: {sentence}").format(
            parameter=standing.parameter.name, sentence=sentence(found, sets, today=today)
        )
        for standing in standings
        for found in standing.forecasts[:1]
        if found.limit.kind in HEALTH_KINDS and found.crossing.says is Way.RISES_ABOVE
    ]


def _interval(found: Forecast, today: date) -> str:
    """The interval; its start is now where it is past, unless the whole interval is."""
    crossing = found.crossing
    from_now = crossing.earliest <= today and (crossing.latest is None or crossing.latest > today)
    earliest = month_of(crossing.earliest)
    if crossing.latest is None:
        if from_now:
            return _("anything from now to beyond what can be told")
        said = (
            _("interval of at least 90 % from {earliest} to beyond what can be told")
            if crossing.is_wide
            else _("90 % interval from {earliest} to beyond what can be told")
        )
        return said.format(earliest=earliest)
    latest = month_of(crossing.latest)
    if from_now:
        said = (
            _("interval of at least 90 % from now to {latest}")
            if crossing.is_wide
            else _("90 % interval from now to {latest}")
        )
        return said.format(latest=latest)
    said = (
        _("interval of at least 90 % from {earliest} to {latest}")
        if crossing.is_wide
        else _("90 % interval from {earliest} to {latest}")
    )
    return said.format(earliest=earliest, latest=latest)
