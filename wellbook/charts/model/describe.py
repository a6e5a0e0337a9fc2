"""From a parameter's history to the description of its chart."""

from collections.abc import Sequence
from datetime import date

from wellbook.charts.model.fan import end_of, fan_of
from wellbook.charts.model.limit_lines import DayRange, limit_lines
from wellbook.charts.model.parts import (
    Chart,
    EventMark,
    LimitLine,
    Mark,
    Scale,
    Series,
    Shade,
    TrendLine,
    sort_words,
)
from wellbook.charts.model.passings import first_passing, judged, told
from wellbook.charts.model.points import Reached, read_marks, rows, runs, sorted_apart
from wellbook.charts.model.scales import days_shown, figures_shown
from wellbook.support.translation import _, ngettext
from wellbook.water.statistics.outcomes import PENDING
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.seasons import Scheme, bands
from wellbook.water.verdicts.judge import to_come
from wellbook.water.verdicts.point_record import Assessed, PointRecord
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
    known: Sequence[Standing] = (),
    assessed: Sequence[Assessed] = (),
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
        known: Where the parameter stands at the point, and at the second one, by the same limits on
            the same day, where that was worked out before. By another unit it is worked out anew.
        assessed: All results of the parameter at the point, where they were judged before alike.
    """
    by = (parameter.key, catalogue, sets, today)
    reached = read_marks(record.history(parameter.key), parameter)
    own = judged(reached, record, *by, assessed=assessed)
    second = Reached((), ())
    if other:
        second = judged(read_marks(other.history(parameter.key), parameter), other, *by)
    both = (*own.marks, *second.marks)

    def standing(results: PointRecord, place: int) -> Standing:
        for before in known[place : place + 1]:
            if before.parameter == parameter and before.trend is not PENDING:
                return before
        return stand(results, parameter, catalogue, sets, today)

    where = standing(record, 0) if record.history(parameter.key) else None
    beside = standing(other, 1) if other and second.marks else None
    fan = fan_of(where)
    span = days_shown(both, events, end_of(fan, today))
    limits = limit_lines(parameter, catalogue, sets, span)
    rise = figures_shown(both, limits, parameter, fan.middles if fan else ())
    strip = rise.scale is Scale.STRIP
    shown = sorted((e for e in events if span.first <= e.day <= span.last), key=_by_day)
    return Chart(
        title=parameter.name,
        sentences=_sentences(
            ((where, own.marks, names[0]), (beside, second.marks, names[1])),
            catalogue,
            today,
            strip=strip,
        ),
        unit="" if strip else facts.axis(parameter),
        scale=rise.scale,
        series=_series(own, second, names),
        limits=rise.limits,
        shades=_shades(span, scheme),
        events=tuple(shown),
        trends=_trend_lines(where, beside, names),
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
        passing=first_passing(own.marks),
    )


def _by_day(event: EventMark) -> tuple[date, str]:
    return (event.day, event.label)


def _sentences(
    points: Sequence[tuple[Standing | None, Sequence[Mark], str]],
    catalogue: Catalogue,
    today: date,
    *,
    strip: bool,
) -> tuple[str, ...]:
    """What is said of each point, after its name where two are drawn."""
    told = [(where, marks, name) for where, marks, name in points if where]
    if not told:
        return (_("No test yet."),)
    said = [
        (_sentence(where, marks, catalogue, today, strip=strip), name)
        for where, marks, name in told
    ]
    if len(said) == 1 and not points[1][0]:
        return (said[0][0],)
    return tuple(
        _("{point}: {sentences}").format(point=name, sentences=sentences) if name else sentences
        for sentences, name in said
    )


def _sentence(
    where: Standing,
    marks: Sequence[Mark],
    catalogue: Catalogue,
    today: date,
    *,
    strip: bool,
) -> str:
    """The latest result, how it stands to the limits of today, the trend and where it goes."""
    limit, reading = where.now.limit, where.latest.reading
    allowed = facts.in_unit_of(reading, limit, where.parameter) if limit else ""
    said = (
        facts.latest(where.latest, where.parameter),
        verdicts.standing(where.now, allowed, catalogue.sets[limit.set].name if limit else ""),
        *_latest_of_others(where, marks),
        told(marks),
        rows(marks) if strip else trends.trend(where.trend),
        *(forecasts.sentence(one, catalogue.sets, today=today) for one in where.forecasts[:1]),
    )
    return " ".join(filter(None, said))


def _latest_of_others(where: Standing, marks: Sequence[Mark]) -> list[str]:
    """The latest of every other sort of water: a flushed sample beside a first draw."""
    own = next((mark.sort for mark in marks if mark.result == where.latest.id), None)
    others = [apart[-1] for apart in sorted_apart(marks) if apart[-1].sort is not own]
    return [
        _("Latest {sort}, {day}: {reading}.").format(
            sort=sort_words(mark.sort), day=facts.day(mark.day), reading=mark.label
        )
        for mark in others
        if own is not None
    ]


def _series(own: Reached, other: Reached, names: tuple[str, str]) -> tuple[Series, ...]:
    both = (own, other) if other.marks else (own,)
    return tuple(
        Series(name, second, marks, runs(marks))
        for reached, name, second in zip(both, names, (False, True), strict=False)
        for marks in sorted_apart(reached.marks) or [()]
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


def _earlier(events: Sequence[EventMark], span: DayRange) -> tuple[str, ...]:
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


def _shades(span: DayRange, scheme: Scheme) -> tuple[Shade, ...]:
    return tuple(
        Shade(band.start, band.end, dates.season(band.season), _TONES.get(band.season.key, 0))
        for band in bands(span.first, span.last, scheme)
    )


def _trend_lines(
    where: Standing | None, beside: Standing | None, names: tuple[str, str]
) -> tuple[TrendLine, ...]:
    """The lines that were tested, as they are drawn."""
    lines = []
    for standing, name, second in ((where, names[0], False), (beside, names[1], True)):
        if standing is None or standing.trend.line is None:
            continue
        (first, start), (last, end) = standing.trend.line
        lines.append(TrendLine(first, last, start, end, name if beside else "", second))
    return tuple(lines)
