"""The sections of a packet, in their order. A new section is a row here."""

from collections.abc import Callable
from dataclasses import dataclass

from reportlab.platypus import CondPageBreak, PageBreak

from wellbook.packet.context import Desk, Story
from wellbook.packet.pages import (
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

_CHART, _DIAGRAM = 400.0, 480.0  # points that a drawing with its words needs


@dataclass(frozen=True, slots=True)
class Section:
    """One section.

    Attributes:
        make: Makes what stands in it, its heading first.
        is_technical: Whether it is for a consultant only.
        is_of_money: Whether it is there only where costs are shown.
        starts_page: Whether it begins a page in any case.
        room: Points that it needs to begin on a page that another one ends on.
    """

    make: Callable[[Desk], Story]
    is_technical: bool = False
    is_of_money: bool = False
    starts_page: bool = False
    room: float = 170.0


SECTIONS = (
    Section(sizing.sizing, is_technical=True),
    Section(at_a_glance.attention),
    Section(advice.advice),
    Section(at_a_glance.summary, starts_page=True),
    Section(charts.charts, room=_CHART),
    Section(charts.year_wheels, room=_CHART),
    Section(results.tests, starts_page=True),
    Section(wells.wells),
    Section(wells.costs, is_of_money=True),
    Section(wells.labs),
    Section(fitness.fitness),
    Section(readings.readings, is_technical=True, starts_page=True),
    Section(trends.trends, is_technical=True),
    Section(trends.levels, is_technical=True),
    Section(trends.treatment, is_technical=True),
    Section(trends.steps, is_technical=True),
    Section(ions.ions, is_technical=True, room=_DIAGRAM),
    Section(readings.index_tables, is_technical=True),
    Section(readings.plausibility, is_technical=True),
    Section(readings.questions, is_technical=True),
    Section(closing.never_tested),
    Section(origins.origins),
    Section(closing.corrections),
    Section(originals.documents),
    Section(closing.glossary),
    Section(closing.limits, starts_page=True),
)


def story(desk: Desk) -> Story:
    """Every section in order, the cover first: it is made last, when all sections are known."""
    made = [
        (section, section.make(desk))
        for section in SECTIONS
        if (desk.technical or not section.is_technical)
        and (desk.history.costs or not section.is_of_money)
    ]
    pages = cover.cover(desk, [(parts[0].key, parts[0].plain) for _section, parts in made])
    for section, parts in made:
        pages += [PageBreak() if section.starts_page else CondPageBreak(section.room), *parts]
    return pages
