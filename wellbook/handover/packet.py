"""The history PDF: gathers the facts, sets the pages, stamps the charts, writes the file whole.

The same book, choices and day give the same bytes.
"""

import os
import tempfile
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from wellbook import places
from wellbook.book import Book
from wellbook.book.choices import scheme
from wellbook.faults import Fault
from wellbook.water.catalogue import Catalogue

if TYPE_CHECKING:
    from wellbook.charts.parts import Chart
    from wellbook.charts.wheel import Wheel
    from wellbook.handover.desk import Desk

AUDIENCES = ("buyer", "consultant")
PAPERS = ("letter", "a4")
_SECTION = 240.0  # points that a section needs to begin on a page that another one ends on
_ROOMS = {"charts": 400.0, "wheels": 400.0}
_NEW_PAGE = frozenset({"summary", "tests", "readings", "limits"})


def write(  # noqa: PLR0913  each is a choice that a person makes
    book: Book,
    catalogue: Catalogue,
    path: Path,
    *,
    audience: str,
    today: date,
    paper: str = "letter",
    with_personal: bool = False,
    with_originals: bool | None = None,
) -> None:
    """Write the history of a book's wells as a PDF.

    Args:
        book: The record.
        catalogue: Parameters, limits and panels.
        path: Where to write; an existing file is replaced when the new one is whole.
        audience: `buyer`, in plain words, or `consultant`, with all technical data.
        today: The day that the packet speaks of.
        paper: `letter` or `a4`.
        with_personal: Whether addresses, coordinates, samplers and private events are shown.
        with_originals: Whether the book's documents are attached; they can show names and
            addresses, so the default is to attach them only where those are shown anyway.

    Raises:
        Fault: The folder can't be written.
        ValueError: There is no such audience or paper.
    """
    if audience not in AUDIENCES or paper.lower() not in PAPERS:
        raise ValueError(f"no audience {audience!r} or paper {paper!r}")
    originals = with_personal if with_originals is None else with_originals
    content = _content(book, catalogue, today, _Choices(audience, paper, with_personal, originals))
    _replace(path, content)


@dataclass(frozen=True, slots=True)
class _Choices:
    audience: str
    paper: str
    with_personal: bool
    with_originals: bool


def _content(book: Book, catalogue: Catalogue, today: date, chosen: _Choices) -> bytes:
    from wellbook.handover import stamping, style
    from wellbook.handover.attachments import attachments
    from wellbook.handover.desk import Desk
    from wellbook.handover.figures import figures, wheels
    from wellbook.handover.history import gather
    from wellbook.handover.sheet import Sheet
    from wellbook.water.cautions import read_cautions

    style.register_fonts(places.resources() / "fonts")
    history = gather(book, catalogue, today, with_personal=chosen.with_personal)
    technical = chosen.audience == "consultant"
    size = style.PAPERS[chosen.paper.lower()]
    desk = Desk(
        history=history,
        width=size[0] - 2 * style.SIDE,
        technical=technical,
        figures=figures(history, scheme(book), technical=technical),
        wheels=wheels(history, scheme(book)),
        cautions=read_cautions(places.resources() / "cautions.toml"),
        attachments=attachments(
            book,
            catalogue,
            with_personal=chosen.with_personal,
            with_originals=chosen.with_originals,
        ),
        with_originals=chosen.with_originals,
    )
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        Sheet(pages, size, _running(desk), desk.places).set_pages(_story(desk))
        drawings: list[Chart | Wheel] = [
            *(figure.chart for figure in desk.figures),
            *(replace(wheel, title="") for wheel in desk.wheels),  # the words beside it say so
        ]
        charts = stamping.drawn(drawings, desk.places.spots) if desk.places.spots else b""
        return stamping.finish(pages, charts, desk.places.spots, desk.attachments, history.changed)


def _running(desk: "Desk") -> Any:
    from wellbook.handover.cover_pages import foot
    from wellbook.handover.sheet import Running

    reader = "a consultant" if desk.technical else "a buyer"
    return Running(
        title=f"{desk.history.title}: the history of its water",
        head=desk.history.title,
        kind=f"The history of its water, for {reader}",
        foot=foot(desk.history),
        subject=f"Well water history for {reader}, as of {desk.history.today.isoformat()}",
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
        glance_pages,
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
        closing_pages.never_tested,
        closing_pages.corrections,
        closing_pages.documents,
        closing_pages.glossary,
        closing_pages.limits,
    ]
    if desk.technical:
        makers[8:8] = [
            data_pages.readings,
            trend_pages.trends,
            trend_pages.treatment,
            trend_pages.steps,
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


def _replace(path: Path, content: bytes) -> None:
    """Write beside the place and rename, so that no half-written file is ever seen there."""
    try:
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    except OSError as error:
        raise _fault(path, error) from error
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        beside.chmod(0o644)
        beside.replace(path)
    except OSError as error:
        raise _fault(path, error) from error
    finally:
        beside.unlink(missing_ok=True)


def _fault(path: Path, error: OSError) -> Fault:
    return Fault(
        f"{path} can't be written ({error.strerror}): choose another folder, or make room there."
    )
