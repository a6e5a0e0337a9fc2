"""How sure a long-run level is and how it stands to a limit, in sentences."""

from wellbook.support.translation import _, pgettext
from wellbook.water.statistics.outcomes import UNSTEADY, Level, Method, Stands
from wellbook.water.values.figures import plain
from wellbook.water.verdicts.forecasts import highest_end
from wellbook.water.verdicts.status import Standing
from wellbook.wording import trends, units


def method(how: Method) -> str:
    """By which method a mean was worked out."""
    return {
        Method.MEAN: "",
        Method.KAPLAN_MEIER: pgettext("method", "Kaplan-Meier"),
        Method.ROS: pgettext("method", "robust ROS"),
        Method.LIKELIHOOD: pgettext("method", "lognormal likelihood"),
        Method.NONE: "",
    }[how]


def median(found: Level) -> str:
    """The median with its one-sided limits, `below all found` where non-detects hide it."""
    middle = _("below all found") if found.median is None else plain(found.median, 3)
    low = pgettext("end of an interval", "open") if found.lower is None else plain(found.lower, 3)
    high = pgettext("end of an interval", "open") if found.upper is None else plain(found.upper, 3)
    return _("{median} ({low} to {high})").format(median=middle, low=low, high=high)


def mean(found: Level) -> str:
    """The mean and how it was worked out; empty where none is told."""
    if found.mean is None:
        return ""
    figure, how = plain(found.mean, 3), method(found.method)
    return _("{mean} ({method})").format(mean=figure, method=how) if how else figure


def summary(found: Standing) -> str:
    """The middle of a history, and how sure its long-run level is; empty with too few tests.

    What rises or falls has no long-run level, so of it only the middle of its tests is said.
    """
    if found.summary is None:
        return ""
    said = trends.spread(found.summary.spread)
    if found.trend.says in UNSTEADY or not found.summary.level.is_bounded:
        return said
    limit = highest_end(found.now.limit, found.parameter)
    return f"{said} {long_run(found.summary.level, limit, found.summary.spread.unit)}"


def long_run(found: Level, limit: float | None, unit: str) -> str:
    """The one-sided 90 % limits of the long-run median, and how they stand to a maximum.

    Args:
        found: The level.
        limit: The maximum, in the unit of the level; None where there is none.
        unit: The unit of the level.
    """
    how = _("{n} tests, taken as independent; order statistics").format(n=found.n)
    if found.censored:
        how = _("{how}, non-detects at their reporting limits").format(how=how)
    unit = units.said(unit)
    ends = {"unit": unit, "how": how}
    if limit is None:
        said = _("The long-run median is {bounds}, by 90 % limits ({how}).").format(
            bounds=_bounds(found, unit), how=how
        )
    else:
        ends["limit"] = plain(limit, 4)
        said = {
            Stands.BELOW: _(
                "The long-run median is below {limit} {unit} with 90 % confidence: {bounds} "
                "({how}). A limit is meant for each sample: that excuses no reading over it."
            ),
            Stands.ABOVE: _(
                "The long-run median is above {limit} {unit} with 90 % confidence: {bounds} "
                "({how})."
            ),
            Stands.OPEN: _(
                "Whether the long-run median is below {limit} {unit} can’t be told: {bounds} by "
                "90 % limits ({how})."
            ),
        }[found.stands(limit)].format(bounds=_bounds(found, unit), **ends)
    if not found.one_season:
        return said
    return f"{said} " + _("All these tests fall into one season; the level of others is not known.")


def _bounds(found: Level, unit: str) -> str:
    """The ends of a level that are known."""
    low = "" if found.lower is None else plain(found.lower, 3)
    high = "" if found.upper is None else plain(found.upper, 3)
    if low and high:
        return _("at least {low} and at most {high} {unit}").format(low=low, high=high, unit=unit)
    if high:
        return _("at most {high} {unit}").format(high=high, unit=unit)
    return _("at least {low} {unit}").format(low=low, unit=unit)


def stands(found: Level, limit: float, unit: str) -> str:
    """How the long-run median stands to a maximum."""
    told = {"limit": plain(limit, 4), "unit": units.said(unit), "n": found.n}
    return {
        Stands.BELOW: _("Below {limit} {unit}, with 90 % confidence."),
        Stands.ABOVE: _("Above {limit} {unit}, with 90 % confidence."),
        Stands.OPEN: _("Below or above {limit} {unit}: {n} tests can’t tell."),
    }[found.stands(limit)].format(**told)
