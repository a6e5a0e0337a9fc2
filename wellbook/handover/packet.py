"""The history PDF: gathers the facts, sets the pages, stamps the charts, writes the file whole.

The same book, choices and day give the same bytes.
"""

import tempfile
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wellbook import places, tongue
from wellbook.book import Book
from wellbook.book.choices import scheme
from wellbook.faults import Fault
from wellbook.handover import apart
from wellbook.handover.scope import Excerpt, Scope, left_out
from wellbook.tongue import say
from wellbook.water.catalogue import Catalogue
from wellbook.water.unit_choices import USUAL, UnitChoice, in_units, read_unit_choices
from wellbook.whole_file import write_whole

if TYPE_CHECKING:
    from wellbook.handover.desk import Desk

AUDIENCES = ("buyer", "consultant")
PAPERS = ("letter", "a4")
EVERYTHING = Scope()
_SECTION = 170.0  # points that a section needs to begin on a page that another one ends on
_ROOMS = {"charts": 400.0, "wheels": 400.0, "ions": 480.0}
_NEW_PAGE = frozenset({"summary", "tests", "readings", "limits"})


@dataclass(frozen=True, slots=True)
class Choices:
    """What a person chooses for a packet.

    Attributes:
        audience: `buyer`, in plain words, or `consultant`, with all technical data.
        paper: `letter` or `a4`.
        with_personal: Whether addresses, coordinates, samplers and private events are shown.
        with_originals: Whether the book's documents are attached; they can show names and
            addresses, so `None` is to attach them only where those are shown anyway.
        append_originals: Whether the pages of the book's PDF documents come at the end.
        all_originals: Whether documents and pages also go along that show words marked as
            personal or can't be searched for them; where personal facts are shown they do.
        scope: Which wells, points, parameters and days.
        closing: The day of a sale, on which the age of each test is told.
        language: Tag of the language of the pages; the attached tables stay as they are.
        units: Key of the choice of units in which figures are shown beside the reported ones.
        patience: Seconds of the processor that one original may take to be read.
    """

    audience: str
    paper: str = "letter"
    with_personal: bool = False
    with_originals: bool | None = None
    append_originals: bool = False
    all_originals: bool = False
    scope: Scope = EVERYTHING
    closing: date | None = None
    language: str = tongue.ENGLISH.key
    units: str = USUAL
    patience: float = apart.SECONDS

    @property
    def originals(self) -> bool:
        """Whether the book's documents are attached."""
        return self.with_personal if self.with_originals is None else self.with_originals


def write(
    book: Book,
    catalogue: Catalogue,
    path: Path,
    *,
    audience: str,
    today: date,
    heed: apart.Heed = apart.unheeding,
    **choices: Any,
) -> int:
    """Write the history of a book's wells as a PDF.

    Args:
        book: The record.
        catalogue: Parameters, limits and panels.
        path: Where to write; an existing file is replaced when the new one is whole.
        audience: `buyer`, in plain words, or `consultant`, with all technical data.
        today: The day that the packet speaks of.
        heed: Called just before the file is put in its place; what it raises leaves what was there.
        choices: The other fields of `Choices`.

    Returns:
        How many of the documents that were asked for don't go along, or not with all their pages.

    Raises:
        Fault: The folder can't be written, something chosen is not in the book, or there is no
            such language or choice of units.
        ValueError: There is no such audience or paper.
    """
    chosen = Choices(audience, **choices)
    if audience not in AUDIENCES or chosen.paper.lower() not in PAPERS:
        raise ValueError(f"no audience {audience!r} or paper {chosen.paper!r}")
    with tongue.speaking(_tongue(chosen.language)):
        desk = _desk(book, catalogue, today, chosen)
        content = _content(desk, chosen)
    write_whole(path, content, heed=heed)
    going = {one.document.id for one in desk.originals if not one.why}
    behind = {one.document.id for one in desk.originals if one.why}
    behind |= {one.document.id for _, one in desk.appended if one.trouble or any(one.pages)}
    return len(behind - going)


def _tongue(key: str) -> tongue.Tongue:
    if key not in tongue.LANGUAGES:
        raise Fault(f"There is no language {key}; there is: {', '.join(tongue.LANGUAGES)}.")
    return tongue.read_tongue(places.resources() / "languages", key)


def _units(catalogue: Catalogue, units: str) -> UnitChoice:
    if units == USUAL:
        return UnitChoice(USUAL, "", {})
    choices = read_unit_choices(places.resources() / "unit_choices.csv", catalogue)
    if units not in choices:
        raise Fault(f"There are no units {units}; there are: {', '.join([USUAL, *choices])}.")
    return choices[units]


def _content(desk: "Desk", chosen: Choices) -> bytes:
    from wellbook.handover import stamping, style
    from wellbook.handover.sheet import Sheet

    style.register_fonts(places.resources() / "fonts")
    size = style.PAPERS[chosen.paper.lower()]
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        Sheet(pages, size, _running(desk), desk.places).set_pages(_story(desk))
        drawings: list[stamping.Drawing] = [
            *(figure.chart for figure in desk.figures),
            *(replace(wheel, title="") for wheel in desk.wheels),  # the words beside it say so
            *desk.ions,
        ]
        charts = stamping.drawn(drawings, desk.places.spots) if desk.places.spots else b""
        return stamping.finish(pages, charts, desk)


def _desk(book: Book, catalogue: Catalogue, today: date, chosen: Choices) -> "Desk":
    from wellbook.handover.attachments import attachments
    from wellbook.handover.desk import Desk
    from wellbook.handover.figures import figures, wheels
    from wellbook.handover.held import held
    from wellbook.handover.history import gather
    from wellbook.handover.ion_pages import ion_diagrams
    from wellbook.handover.original_pages import appended
    from wellbook.handover.privacy import telling_words
    from wellbook.handover.style import PAPERS as SIZES
    from wellbook.handover.style import SIDE
    from wellbook.water.cautions import read_cautions
    from wellbook.water.fitness import read_sale_rules
    from wellbook.water.wording import worded, worded_cautions, worded_rules

    part, left = book, None
    if chosen.scope != EVERYTHING:
        part = Excerpt(book, chosen.scope, catalogue)
        left = left_out(book, part, chosen.scope, catalogue)
    units = _units(catalogue, chosen.units)
    shown = worded(in_units(catalogue, units))
    history = gather(part, shown, today, with_personal=chosen.with_personal, left_out=left)
    searched_for = telling_words(part, with_personal=chosen.with_personal or chosen.all_originals)
    documents = part.documents() if chosen.originals else ()
    originals = held(part, documents, searched_for, seconds=chosen.patience)
    attached = attachments(
        part,
        catalogue,
        with_personal=chosen.with_personal,
        originals=originals,
        with_journal=chosen.scope == EVERYTHING,
    )
    technical = chosen.audience == "consultant"
    return Desk(
        history=history,
        width=SIZES[chosen.paper.lower()][0] - 2 * SIDE,
        technical=technical,
        figures=figures(history, scheme(book), technical=technical),
        wheels=wheels(history, scheme(book)),
        ions=ion_diagrams(history) if technical else (),
        cautions=worded_cautions(read_cautions(places.resources() / "cautions.toml")),
        attachments=attached,
        with_originals=chosen.originals,
        originals=originals,
        appended=appended(part, history, searched_for, seconds=chosen.patience)
        if chosen.append_originals
        else (),
        closing=chosen.closing,
        sale_rules=worded_rules(read_sale_rules(places.resources() / "sale_rules.csv")),
        units=units.name,
    )


def _running(desk: "Desk") -> Any:
    from wellbook.handover.cover_pages import foot
    from wellbook.handover.sheet import Running

    day = desk.history.today.isoformat()
    if desk.technical:
        kind = say("The history of its water, for a consultant")
        subject = say("Well water history for a consultant, as of {day}", day=day)
    else:
        kind = say("The history of its water, for a buyer")
        subject = say("Well water history for a buyer, as of {day}", day=day)
    return Running(
        title=say("{wells}: the history of its water", wells=desk.history.title),
        head=desk.history.title,
        kind=kind,
        foot=foot(desk.history),
        subject=subject,
    )


def _story(desk: "Desk") -> list[Any]:
    """Every section in order, the cover first: it is made last, when all sections are known."""
    from reportlab.platypus import CondPageBreak, PageBreak

    from wellbook.handover import (
        advice_pages,
        chart_pages,
        closing_pages,
        cover_pages,
        data_pages,
        fitness_pages,
        glance_pages,
        ion_pages,
        original_pages,
        test_pages,
        trend_pages,
        well_pages,
    )

    makers = [
        glance_pages.attention,
        advice_pages.advice,
        glance_pages.summary,
        chart_pages.charts,
        chart_pages.year_wheels,
        test_pages.tests,
        well_pages.wells,
        well_pages.labs,
        fitness_pages.fitness,
        closing_pages.never_tested,
        closing_pages.corrections,
        original_pages.documents,
        closing_pages.glossary,
        closing_pages.limits,
    ]
    if desk.technical:
        makers[9:9] = [
            data_pages.readings,
            trend_pages.trends,
            trend_pages.treatment,
            trend_pages.steps,
            ion_pages.ions,
            data_pages.index_tables,
            data_pages.plausibility,
            data_pages.questions,
        ]
    sections = [maker(desk) for maker in makers]
    contents = [(section[0].key, section[0].plain) for section in sections]
    story = cover_pages.cover(desk, contents)
    for section in sections:
        key = section[0].key
        story += [
            PageBreak() if key in _NEW_PAGE else CondPageBreak(_ROOMS.get(key, _SECTION)),
            *section,
        ]
    return story
