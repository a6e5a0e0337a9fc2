"""The sections of a packet, in their order. A new section is a row here."""

from collections.abc import Callable
from dataclasses import dataclass

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
from wellbook.pdf.document import RECORD_PAGE

_CHART, _DIAGRAM = 330.0, 480.0  # points that a drawing with its words needs


@dataclass(frozen=True, slots=True)
class Section:
    """One section.

    Attributes:
        make: Makes what stands in it, its heading first.
        is_technical: Whether it is for a consultant only.
        is_record: Whether it belongs to the record after the answers.
        is_of_money: Whether it is there only where costs are shown.
        room: Points that it needs to begin on a page that another one ends on.
    """

    make: Callable[[PacketContext], Story]
    is_technical: bool = False
    is_record: bool = False
    is_of_money: bool = False
    room: float = 200.0


SECTIONS = (
    Section(sizing.sizing, is_technical=True),
    Section(sizing.fit, is_technical=True),
    Section(at_a_glance.attention),
    Section(advice.advice),
    Section(charts.charts, room=_CHART),
    Section(trends.treatment, is_technical=True),
    Section(ions.ions, is_technical=True, room=_DIAGRAM),
    Section(ions.sources, is_technical=True),
    Section(readings.questions, is_technical=True),
    Section(fitness.lenders),
    Section(about.record_start, is_record=True),
    Section(at_a_glance.summary, is_record=True),
    Section(closing.never_tested, is_record=True),
    Section(charts.more_charts, is_record=True, room=_CHART),
    Section(charts.year_wheels, is_record=True, room=_CHART),
    Section(trends.trends, is_technical=True, is_record=True),
    Section(trends.levels, is_technical=True, is_record=True),
    Section(trends.steps, is_technical=True, is_record=True),
    Section(readings.readings, is_technical=True, is_record=True),
    Section(readings.index_tables, is_technical=True, is_record=True),
    Section(readings.plausibility, is_technical=True, is_record=True),
    Section(results.tests, is_record=True),
    Section(wells.wells, is_record=True),
    Section(wells.costs, is_of_money=True, is_record=True),
    Section(wells.labs, is_record=True),
    Section(fitness.ages, is_record=True),
    Section(origins.origins, is_record=True),
    Section(closing.corrections, is_record=True),
    Section(originals.documents, is_record=True),
    Section(closing.glossary, is_record=True),
    Section(closing.limits, is_record=True),
)


def story(context: PacketContext) -> Story:
    """Every section in order, the cover first: it is made last, when all sections are known."""
    made = [
        (section, section.make(context))
        for section in SECTIONS
        if (context.technical or not section.is_technical)
        and (context.history.costs or not section.is_of_money)
    ]
    made = [(section, parts) for section, parts in made if parts]
    pages = cover.cover(context, [(parts[0].key, parts[0].plain) for _section, parts in made])
    is_record = False
    for section, parts in made:
        if section.is_record and not is_record:
            pages += [NextPageTemplate(RECORD_PAGE), PageBreak()]
            is_record = True
        else:
            pages.append(CondPageBreak(section.room))
        pages += parts
    return pages
