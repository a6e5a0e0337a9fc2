"""A stretch of a chart's days, for looking closer."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta

from wellbook.charts.model.parts import Chart, LimitLine, Series, Shade, Step
from wellbook.charts.model.points import runs

LEAST_DAYS = 60  # no stretch is shorter


def stretch(chart: Chart, first: date, last: date) -> Chart:
    """The same chart from one day to another; the figures up the side stay as they are.

    The days are kept within those of the whole chart, and at least `LEAST_DAYS` apart.
    """
    length = max(last - first, timedelta(days=LEAST_DAYS))
    length = min(length, chart.last - chart.first)
    first = max(chart.first, min(first, chart.last - length))
    last = first + length
    return replace(
        chart,
        first=first,
        last=last,
        series=tuple(_series(one, first, last) for one in chart.series),
        limits=tuple(_limit(line, first, last) for line in chart.limits),
        shades=tuple(_shades(chart.shades, first, last)),
        events=tuple(event for event in chart.events if first <= event.day <= last),
    )


def _series(series: Series, first: date, last: date) -> Series:
    marks = tuple(mark for mark in series.marks if first <= mark.day <= last)
    return replace(series, marks=marks, runs=runs(marks))


def _limit(line: LimitLine, first: date, last: date) -> LimitLine:
    steps = tuple(
        Step(max(step.first, first), min(step.last, last), step.value, step.certain)
        for step in line.steps
        if step.first <= last and step.last >= first
    )
    return replace(line, steps=steps)


def _shades(shades: Iterable[Shade], first: date, last: date) -> Iterable[Shade]:
    for shade in shades:
        if shade.first <= last and shade.last >= first:
            yield replace(shade, first=max(shade.first, first), last=min(shade.last, last))
