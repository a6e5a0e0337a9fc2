"""When a limit will be reached, in one sentence."""

from collections.abc import Iterable, Mapping
from datetime import date

from wellbook.support.translation import _, pgettext
from wellbook.water.statistics.outcomes import Crossing, Way
from wellbook.water.statistics.season.serial_dependence import LEAST_FOR_DEPENDENCE
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
    told_too = []
    if crossing.one_season:
        told_too.append(
            _("All these tests fall into one season: in others the level may be past it earlier.")
        )
    if found.n < LEAST_FOR_DEPENDENCE:
        told_too.append(
            # They can't show whether successive ones resemble each other.
            _("With fewer than {least} tests the interval can be too narrow.").format(
                least=LEAST_FOR_DEPENDENCE
            )
        )
    return " ".join((said, *told_too))


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
    share = _share(crossing)
    if crossing.latest is None:
        if from_now:
            return _("anything from now to beyond what can be told")
        return _("{share} from {earliest} to beyond what can be told").format(
            share=share, earliest=earliest
        )
    latest = month_of(crossing.latest)
    if from_now:
        return _("{share} from now to {latest}").format(share=share, latest=latest)
    return _("{share} from {earliest} to {latest}").format(
        share=share, earliest=earliest, latest=latest
    )


def _share(crossing: Crossing) -> str:
    """How often such an interval holds the true day, as far as that was measured."""
    if crossing.is_wide:
        return _("interval of at least 90 %")
    return (
        _("interval of roughly 90 %")
        if crossing.is_rough
        else pgettext("forecast", "90 % interval")
    )
