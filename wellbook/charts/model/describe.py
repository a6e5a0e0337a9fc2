"""From a parameter's history to the description of its chart."""

from collections.abc import Sequence
from datetime import date

from wellbook.charts.model.fan import end_of, fan_of
from wellbook.charts.model.limit_lines import Span, limit_lines
from wellbook.charts.model.parts import (
    Chart,
    EventMark,
    LimitLine,
    Mark,
    Scale,
    Series,
    Shade,
    TrendLine,
)
from wellbook.charts.model.points import Reached, read_marks, rows, runs
from wellbook.charts.model.scales import days_shown, figures_shown
from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.trend import Trend
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.seasons import Scheme, bands
from wellbook.water.verdicts.judge import to_come
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.water.verdicts.status import Standing, stand
from wellbook.wording import dates, facts, forecasts, trends, verdicts

_TONES = {"winter": 1, "wet": 1, "summer": 2}


def chart(  # noqa: PLR0913  all of it is drawn; a bundle would only move the list elsewhere
    record: PointRecord,
    parameter: Parameter,
    catalogue: Catalogue,
    sets: Sequence[str],
    events: Sequence[EventMark],
    scheme: Scheme,
    today: date,
    *,
    other: PointRecord | None = None,
    names: tuple[str, str] = ("", ""),
) -> Chart:
    """Describe one parameter at a point over time.

    Args:
        record: All results at the point.
        parameter: What was measured.
        catalogue: Limits and their sets.
        sets: Keys of the household's limit sets, first things first.
        events: What happened to the well.
        scheme: How the year is divided.
        today: The chart reaches to this day; the latest result is held against its limits.
        other: All results at a second point, e.g. after treatment.
        names: Names of the two points; needed where there are two.
    """
    own = read_marks(record.history(parameter.key), parameter)
    second = read_marks(other.history(parameter.key) if other else (), parameter)
    both = (*own.marks, *second.marks)
    is_tested = bool(record.history(parameter.key))
    where = stand(record, parameter, catalogue, sets, today) if is_tested else None
    fan = fan_of(where)
    span = days_shown(both, events, end_of(fan, today))
    limits = limit_lines(parameter, catalogue, sets, span)
    rise = figures_shown(both, limits, parameter, fan.middles if fan else ())
    strip = rise.scale is Scale.STRIP
    shown = sorted((e for e in events if span.first <= e.day <= span.last), key=_by_day)
    return Chart(
        title=parameter.name,
        sentence=_sentence(where, own.marks, catalogue, today, strip=strip),
        unit="" if strip else facts.axis(parameter),
        scale=rise.scale,
        series=_series(own, second, names),
        limits=rise.limits,
        shades=_shades(span, scheme),
        events=tuple(shown),
        trend=_trend_line(where.trend) if where else None,
        first=span.first,
        last=span.last,
        low=rise.low,
        high=rise.high,
        notes=(
            *dict.fromkeys((*own.notes, *second.notes)),
            *_out_of_view(rise.limits),
            *_coming(parameter, catalogue, sets, today),
            *_earlier(events, span),
        ),
        fan=fan,
    )


def _by_day(event: EventMark) -> tuple[date, str]:
    return (event.day, event.label)


def _sentence(
    where: Standing | None,
    marks: Sequence[Mark],
    catalogue: Catalogue,
    today: date,
    *,
    strip: bool,
) -> str:
    """The latest result, how it stands to the limits of today, the trend and where it goes."""
    if where is None:
        return _("No test yet.")
    limit, reading = where.now.limit, where.latest.reading
    allowed = facts.in_unit_of(reading, limit, where.parameter) if limit else ""
    said = (
        facts.latest(where.latest, where.parameter),
        verdicts.standing(where.now, allowed, catalogue.sets[limit.set].name if limit else ""),
        rows(marks) if strip else trends.trend(where.trend),
        *(forecasts.sentence(one, catalogue.sets, today=today) for one in where.forecasts[:1]),
    )
    return " ".join(filter(None, said))


def _series(own: Reached, other: Reached, names: tuple[str, str]) -> tuple[Series, ...]:
    both = (own, other) if other.marks else (own,)
    return tuple(
        Series(name, second, reached.marks, runs(reached.marks))
        for reached, name, second in zip(both, names, (False, True), strict=False)
    )


def _coming(
    parameter: Parameter, catalogue: Catalogue, sets: Sequence[str], today: date
) -> tuple[str, ...]:
    found = []
    for limit in to_come(parameter.key, catalogue, sets, today):
        told = {"limit": facts.bound(limit), "name": catalogue.sets[limit.set].name}
        if limit.start:
            day = facts.loose_day(limit.start)
            found.append(
                _("Not in force yet: {limit} from {day} ({name}).").format(day=day, **told)
            )
        else:
            found.append(_("Not in force yet: {limit} ({name}).").format(**told))
    return tuple(found)


def _out_of_view(limits: Sequence[LimitLine]) -> tuple[str, ...]:
    return tuple(
        _("The limit of {figure} ({name}) lies above the figures shown.").format(
            figure=line.label,
            name=line.name,
        )
        for line in limits
        if not line.in_view
    )


def _earlier(events: Sequence[EventMark], span: Span) -> tuple[str, ...]:
    n = sum(event.day < span.first for event in events)
    if not n:
        return ()
    return (
        ngettext(
            "{n:,} event before the first test is left out.",
            "{n:,} events before the first test are left out.",
            n,
        ).format(n=n),
    )


def _shades(span: Span, scheme: Scheme) -> tuple[Shade, ...]:
    return tuple(
        Shade(band.start, band.end, dates.season(band.season), _TONES.get(band.season.key, 0))
        for band in bands(span.first, span.last, scheme)
    )


def _trend_line(found: Trend) -> TrendLine | None:
    """The line that was tested, as it is drawn."""
    if found.line is None:
        return None
    (first, start), (last, end) = found.line
    return TrendLine(first, last, start, end)
