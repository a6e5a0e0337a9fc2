"""How the limits of one set on a parameter moved: a chart without a household's results."""

from collections.abc import Sequence
from datetime import date, timedelta

from wellbook.charts.model.limit_lines import DayRange, in_time, limit_lines
from wellbook.charts.model.parts import Chart
from wellbook.charts.model.scales import figures_shown
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.limits import Limit
from wellbook.water.values.parameters import Parameter
from wellbook.wording import facts

_MARGIN = timedelta(days=2 * 365)
_UNKNOWN = timedelta(days=10 * 365)  # shown of a limit whose start nobody knows


def limit_history(parameter: Parameter, catalogue: Catalogue, key: str, today: date) -> Chart:
    """Every figure that a set has or had for a parameter, with those to come, as stepped lines.

    Args:
        parameter: What is limited.
        catalogue: The reference data.
        key: Key of the limit set.
        today: The day up to which it is shown at least.
    """
    limits = in_time(limit for limit in catalogue.limits_of(parameter.key) if limit.set == key)
    span = _span(limits, today)
    lines = limit_lines(parameter, catalogue, (key,), span)
    rise = figures_shown((), lines, parameter)
    said = _("{parameter} in {set}: {limits}.").format(
        parameter=parameter.name,
        set=catalogue.sets[key].name,
        limits="; ".join(f"{facts.bound(limit)}, {facts.force(limit)}" for limit in limits),
    )
    return Chart(
        title=parameter.name,
        sentences=(said,),
        unit=facts.axis(parameter),
        scale=rise.scale,
        series=(),
        limits=rise.limits,
        shades=(),
        events=(),
        trends=(),
        first=span.first,
        last=span.last,
        low=rise.low,
        high=rise.high,
        notes=(),
        fan=None,
    )


def _span(limits: Sequence[Limit], today: date) -> DayRange:
    """From before the first change that is known to after the last one, today among them."""
    periods = [limit.period for limit in limits]
    starts = [period.start.first for period in periods if period.start]
    ends = [period.end.last for period in periods if period.end]
    first, last = min([*starts, *ends, today]), max([*starts, *ends, today])
    is_open = any(period.start is None for period in periods)
    return DayRange(first - (_UNKNOWN if is_open else _MARGIN), last + _MARGIN)
