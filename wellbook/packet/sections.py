"""The sections of a packet, in their order. A new section is a row here."""

import io
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from reportlab.platypus import CondPageBreak, NextPageTemplate, PageBreak

from wellbook.packet.context import PacketContext, Story
from wellbook.packet.pages import (
    about,
    advice,
    at_a_glance,
    charts,
    closing,
    cover,
    fitness,
    ions,
    originals,
    origins,
    readings,
    results,
    sizing,
    trends,
    wells,
)
from wellbook.pdf import style
from wellbook.pdf.document import RECORD_PAGE, Running, Sheet
from wellbook.pdf.flowables import End, Places

_CHART, _DIAGRAM = 330.0, 300.0  # points that a drawing with its words needs
# How tall drawings among the answers are, tried until their last page is no less than that full.
_SCALES = (0.86, 0.7, 1.12, 1.22, 0.62)
_CLOSER = (1.0, 0.95, 0.9, 0.88)  # how page one is set, tried until it is one page
_LEAST_FULL = 1 / 3
COVER, ANSWERS = "cover", "answers"  # the keys of their ends


@dataclass(frozen=True, slots=True)
class Section:
    """One section.

    Attributes:
        make: Makes what stands in it, its heading first.
        is_technical: Whether it is for a consultant only.
        is_of_money: Whether it is there only where costs are shown.
        room: Points that it needs to begin on a page that another one ends on.
    """

    make: Callable[[PacketContext], Story]
    is_technical: bool = False
    is_of_money: bool = False
    room: float = 200.0


_ATTENTION = Section(at_a_glance.attention)
_ADVICE = Section(advice.advice)
_CHARTS = Section(charts.charts, room=_CHART)
_LENDERS = Section(fitness.lenders)
_FOR_A_BUYER = (_ATTENTION, _ADVICE, _CHARTS, _LENDERS)
_FOR_A_CONSULTANT = (
    Section(sizing.sizing),
    Section(sizing.fit),
    Section(readings.questions, room=60),
    Section(trends.treatment),
    Section(ions.ions, room=_DIAGRAM),
    Section(ions.sources),
    _ATTENTION,
)
# What stands among the answers already is left out.
_RECORD = (
    Section(at_a_glance.summary),
    _ADVICE,
    Section(closing.never_tested),
    _CHARTS,
    Section(charts.more_charts, room=_CHART),
    Section(charts.year_wheels, room=_CHART),
    Section(trends.trends, is_technical=True),
    Section(trends.levels, is_technical=True),
    Section(trends.steps, is_technical=True),
    Section(readings.readings, is_technical=True),
    Section(readings.index_tables, is_technical=True),
    Section(readings.plausibility, is_technical=True),
    Section(results.tests),
    Section(wells.wells),
    Section(wells.costs, is_of_money=True),
    Section(wells.labs),
    _LENDERS,
    Section(fitness.ages),
    Section(origins.origins),
    Section(closing.corrections),
    Section(originals.documents),
    Section(closing.glossary),
    Section(closing.limits),
)
Made = list[tuple[Section, Story]]


def story(context: PacketContext, size: tuple[float, float], running: Running) -> Story:
    """Every section in order, the answers first, then the record, each with its contents.

    Args:
        context: The facts and what is collected.
        size: Width and height of the paper in points.
        running: What stands on every page.
    """
    fitted(context, size, running)
    asked = _asked(context)
    found = _made(asked, context)
    record = _made((one for one in _RECORD if one not in asked), context)
    return [
        *_answers(context, found),
        NextPageTemplate(RECORD_PAGE),
        PageBreak(),
        *about.record_start(context, _titles(record)),
        *_set(record),
    ]


def fitted(
    context: PacketContext, size: tuple[float, float], running: Running
) -> dict[str, tuple[int, float]]:
    """Choose how page one and the drawings are set, so that no page is a rest of the one before.

    Page one is set closer if it would not hold all answers else; drawings are smaller or larger if
    the answers would end on a page that is nearly empty. They are set without being written. What
    suits stays in `context.closeness` and `context.scale`; where nothing does, drawings keep their
    size.

    Returns:
        The page and the height in points at which the cover and the answers end.
    """
    least = style.BOTTOM + (1 - _LEAST_FULL) * (size[1] - style.TOP - style.BOTTOM)
    for context.closeness in _CLOSER:
        ends = first = _composed(context, size, running)
        if ends[COVER][0] == 1:
            break
    for scale in _SCALES:
        if ends[ANSWERS][1] <= least:
            return ends
        context.scale = scale
        ends = _composed(context, size, running)
    if ends[ANSWERS][1] <= least:
        return ends
    context.scale = 1.0
    return first


def _composed(
    context: PacketContext, size: tuple[float, float], running: Running
) -> dict[str, tuple[int, float]]:
    trial = replace(context, places=Places(after=context.places.after), limits={})
    answers = _answers(trial, _made(_asked(trial), trial))
    Sheet(io.BytesIO(), size, running, trial.places).build(answers)
    return trial.places.ends


def _asked(context: PacketContext) -> tuple[Section, ...]:
    return _FOR_A_CONSULTANT if context.technical else _FOR_A_BUYER


def _made(sections: Iterable[Section], context: PacketContext) -> Made:
    """What there is to say in each of these sections."""
    found = (
        (section, section.make(context))
        for section in sections
        if (context.technical or not section.is_technical)
        and (context.history.costs or not section.is_of_money)
    )
    return [(section, parts) for section, parts in found if parts]


def _answers(context: PacketContext, found: Made) -> Story:
    return [
        *cover.cover(context, _titles(found)),
        End(context.places, COVER),
        *_set(found),
        End(context.places, ANSWERS),
    ]


def _titles(found: Made) -> list[tuple[str, str]]:
    """Key and title of each section."""
    return [(parts[0].key, parts[0].plain) for _section, parts in found]


def _set(found: Made) -> Story:
    return [part for section, parts in found for part in (CondPageBreak(section.room), *parts)]
