"""One page with what any lab's submission form asks for, to copy from.

Names and the address of the household stand in it only if that is ticked; payment is left blank.
"""

import tempfile
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from wellbook.book.record import Record
from wellbook.planning.lab.lab_order import LabOrder, PointOrder
from wellbook.planning.lab.lab_route import read_habits
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

_ROOM = 4.0  # points that are left free on a page
_TALL = 40.0


def write(
    path: Path,
    record: Record,
    found: LabOrder,
    catalogue: Catalogue,
    *,
    today: date,
    paper: str,
    with_personal: bool = False,
) -> None:
    """Write the page for the next visit as a PDF.

    Args:
        path: Where to write; an existing file is replaced when the new one is whole.
        record: The record, for what was drawn already and, if ticked, who lives there.
        found: The order.
        catalogue: Names of the parameters.
        today: The day on which the page is made.
        paper: `letter` or `a4`.
        with_personal: Whether names and the address stand on it.

    Raises:
        Fault: Nothing is planned, or the folder can't be written.
    """
    from wellbook.support.whole_file import write_whole

    if not found.visits:
        raise Fault(_("Nothing is planned, so there is no order to write."))
    write_whole(path, _content(record, found, catalogue, today, paper, personal=with_personal))


def _content(
    record: Record,
    found: LabOrder,
    catalogue: Catalogue,
    today: date,
    paper: str,
    *,
    personal: bool,
) -> bytes:
    from wellbook.pdf import style
    from wellbook.pdf.document import Running, Sheet
    from wellbook.pdf.flowables import Places
    from wellbook.pdf.one_page import one_page

    style.register_fonts(paths.resources() / "fonts")
    title = _("For the lab’s form: {lab}").format(lab=found.lab)
    running = Running(
        title=title,
        head=title,
        kind=_("Samples and tests ordered"),
        foot=_("Made on {today} with Wellbook. The lab’s own instructions come first.").format(
            today=today.isoformat()
        ),
        subject=_("What a lab’s submission form asks for"),
    )
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        sheet = Sheet(pages, style.PAPERS[paper], running, Places())
        room = (sheet.width, sheet.height - _ROOM)
        story = _story(record, found, catalogue, room[0], title, personal=personal)
        sheet.set_pages([one_page(story, room)])
        return pages.read_bytes()


def _story(
    record: Record,
    found: LabOrder,
    catalogue: Catalogue,
    width: float,
    title: str,
    *,
    personal: bool,
) -> list[Any]:
    from reportlab.platypus import Spacer, Table, TableStyle

    from wellbook.export.field_hours import GRID, HEAD, LABEL, STRONG, TEXT, TITLE, boxes, text
    from wellbook.pdf.style import INK

    heads = (_("Sample name"), _("Water"), _("Drawn, day and hour"), _("Tests ordered"))
    visit = found.visits[0]
    rows: list[list[Any]] = [[text(head, LABEL) for head in heads]]
    rows += [
        [
            text(f"{one.well.name}, {one.point.name}", STRONG),
            text(_("treated water") if one.point.treated else _("raw water"), TEXT),
            text(_drawn(record, one), TEXT),
            [text(line, TEXT) for line in _tests(one, catalogue)],
        ]
        for one in visit.points
    ]
    table = Table(rows, colWidths=[width * share for share in (0.22, 0.12, 0.18, 0.48)])
    table.setStyle(TableStyle([*GRID, ("LINEBELOW", (0, 0), (-1, 0), 1.2, INK)]))
    who, where = _household(record, visit.points) if personal else ("", "")
    return [
        text(title, TITLE),
        Spacer(1, 4),
        text(_("To copy from into the form of the lab. Each row is bottles of its own.")),
        Spacer(1, 6),
        table,
        Spacer(1, 8),
        text(_("Kind of water: drinking water of a private well, not of a public supply."), HEAD),
        Spacer(1, 4),
        boxes([[_said(_("Drawn by"), who), _("Signature")],
               [_said(_("Where the well is"), where), _("Telephone")],
               [_("Copy of the report to"), _("Handed in, day and hour")],
               [_("Payment"), _("Number of bottles; on ice?")]], width, _TALL),
        Spacer(1, 6),
        text(_("Ask the lab to telephone at once if bacteria are found."), TEXT),
    ]  # fmt: skip


def _said(label: str, text: str) -> str:
    return f"{label}: {text}" if text else label


def _household(record: Record, points: Sequence[PointOrder]) -> tuple[str, str]:
    """Who draws, and the address of the well."""
    return read_habits(record.settings).sampler, points[0].well.address


def _drawn(record: Record, one: PointOrder) -> str:
    """When it was drawn, if it was and is awaited; else empty, to be written in by hand."""
    found = [
        sample
        for sample in record.drawn
        if sample.point == one.point.id and {*sample.awaited.split()} & {*one.wanted}
    ]
    if not found:
        return ""
    at = found[-1].collected
    return " ".join(filter(None, (at.day.isoformat(), at.at.isoformat("minutes") if at.at else "")))


def _tests(one: PointOrder, catalogue: Catalogue) -> list[str]:
    """What is ordered, by the names of the list, and what each of it is wanted for."""
    known, wanted = catalogue.parameters, {*one.wanted}
    lines = []
    for offer in (*one.order.offers, *one.unpriced):
        names = ", ".join(known[key].name for key in one.wanted if key in offer.parameters & wanted)
        lines.append(f"{offer.name} ({names})")
    return lines or [_("Nothing of what is wanted is on this lab’s list.")]
