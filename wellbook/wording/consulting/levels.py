"""How sure a long-run level is and how it stands to a limit, in sentences."""

from wellbook.support.translation import _, pgettext
from wellbook.water.statistics.level.long_run import Level, Method, Stands
from wellbook.water.values.figures import plain
from wellbook.wording import units


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


def stands(found: Level, limit: float, unit: str) -> str:
    """How the long-run median stands to a maximum."""
    told = {"limit": plain(limit, 4), "unit": units.said(unit), "n": found.n}
    return {
        Stands.BELOW: _("Below {limit} {unit}, with 90 % confidence."),
        Stands.ABOVE: _("Above {limit} {unit}, with 90 % confidence."),
        Stands.OPEN: _("Below or above {limit} {unit}: {n} tests can’t tell."),
    }[found.stands(limit)].format(**told)
