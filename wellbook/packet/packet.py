"""The history PDF: gathers the facts, sets the pages, stamps the charts, writes the file whole.

The same book, choices and day give the same bytes.
"""

import tempfile
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wellbook.book import Book
from wellbook.planning.settings import scheme
from wellbook.sandbox import process
from wellbook.sharing.excerpt import Excerpt, Scope, left_out
from wellbook.support import paths, translation
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.support.whole_file import write_whole
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.unit_choices import USUAL, UnitChoice, in_units, read_unit_choices

if TYPE_CHECKING:
    from wellbook.packet.context import Desk

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
        with_personal: Whether private events and fields declared as personal are shown.
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
    language: str = translation.ENGLISH.key
    units: str = USUAL
    patience: float = process.SECONDS

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
    heed: process.Heed = process.unheeding,
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
    with translation.using(_language(chosen.language)):
        desk = _desk(book, catalogue, today, chosen)
        content = _content(desk, chosen)
    write_whole(path, content, heed=heed)
    going = {one.document.id for one in desk.originals if not one.why}
    behind = {one.document.id for one in desk.originals if one.why}
    behind |= {one.document.id for _unused, one in desk.appended if one.trouble or any(one.pages)}
    return len(behind - going)


def _language(key: str) -> translation.Language:
    if key not in translation.LANGUAGES:
        raise Fault(
            _("There is no language {key}; there is: {LANGUAGES}.").format(
                key=key, LANGUAGES=", ".join(translation.LANGUAGES)
            )
        )
    return translation.read_language(paths.resources() / "languages", key)


def _units(catalogue: Catalogue, units: str) -> UnitChoice:
    if units == USUAL:
        return UnitChoice(USUAL, "", {})
    choices = read_unit_choices(paths.resources() / "unit_choices.csv", catalogue)
    if units not in choices:
        raise Fault(
            _("There are no units {units}; there are: {names}.").format(
                units=units, names=", ".join([USUAL, *choices])
            )
        )
    return choices[units]


def _content(desk: "Desk", chosen: Choices) -> bytes:
    from wellbook.packet import stamping
    from wellbook.pdf import style
    from wellbook.pdf.document import Sheet

    style.register_fonts(paths.resources() / "fonts")
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
    from wellbook.packet.attachments import attachments
    from wellbook.packet.charts import figures, wheels
    from wellbook.packet.context import Desk
    from wellbook.packet.gather import gather
    from wellbook.packet.pages.ions import ion_diagrams
    from wellbook.packet.pages.originals import appended
    from wellbook.pdf.style import PAPERS as SIZES
    from wellbook.pdf.style import SIDE
    from wellbook.sharing.attachable import held
    from wellbook.sharing.redaction import telling_words
    from wellbook.water.sampling.sale_rules import read_sale_rules
    from wellbook.water.verdicts.cautions import read_cautions
    from wellbook.wording.reference import worded, worded_cautions, worded_rules

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
        cautions=worded_cautions(read_cautions(paths.resources() / "cautions.toml")),
        attachments=attached,
        with_originals=chosen.originals,
        originals=originals,
        appended=appended(part, history, searched_for, seconds=chosen.patience)
        if chosen.append_originals
        else (),
        closing=chosen.closing,
        sale_rules=worded_rules(read_sale_rules(paths.resources() / "sale_rules.csv")),
        units=units.name,
    )


def _running(desk: "Desk") -> Any:
    from wellbook.packet.pages.cover import foot
    from wellbook.pdf.document import Running

    day = desk.history.today.isoformat()
    if desk.technical:
        kind = _("The history of its water, for a consultant")
        subject = _("Well water history for a consultant, as of {day}").format(day=day)
    else:
        kind = _("The history of its water, for a buyer")
        subject = _("Well water history for a buyer, as of {day}").format(day=day)
    return Running(
        title=_("{wells}: the history of its water").format(wells=desk.history.title),
        head=desk.history.title,
        kind=kind,
        foot=foot(desk.history),
        subject=subject,
    )


def _story(desk: "Desk") -> list[Any]:
    """Every section in order, the cover first: it is made last, when all sections are known."""
    from reportlab.platypus import CondPageBreak, PageBreak

    from wellbook.packet.pages import (
        advice,
        at_a_glance,
        cover,
        fitness,
        ions,
        readings,
        results,
        trends,
        wells,
    )
    from wellbook.packet.pages import (
        charts as chart_pages,
    )
    from wellbook.packet.pages import (
        closing as closing_pages,
    )
    from wellbook.packet.pages import (
        originals as original_pages,
    )

    makers = [
        at_a_glance.attention,
        advice.advice,
        at_a_glance.summary,
        chart_pages.charts,
        chart_pages.year_wheels,
        results.tests,
        wells.wells,
        wells.labs,
        fitness.fitness,
        closing_pages.never_tested,
        closing_pages.corrections,
        original_pages.documents,
        closing_pages.glossary,
        closing_pages.limits,
    ]
    if desk.technical:
        makers[9:9] = [
            readings.readings,
            trends.trends,
            trends.treatment,
            trends.steps,
            ions.ions,
            readings.index_tables,
            readings.plausibility,
            readings.questions,
        ]
    sections = [maker(desk) for maker in makers]
    contents = [(section[0].key, section[0].plain) for section in sections]
    story = cover.cover(desk, contents)
    for section in sections:
        key = section[0].key
        story += [
            PageBreak() if key in _NEW_PAGE else CondPageBreak(_ROOMS.get(key, _SECTION)),
            *section,
        ]
    return story
