"""Printed pages to sample by: the timetable, and tap by tap, bottle by bottle, what differs.

What is drawn on one visit stands on one sheet: raw and treated water of one day make a pair.

Drawn in ink and grey only, so that any printer will do. The sheet travels with the bottles to the
lab: it names what is tested, never why somebody in the house wants to know.
"""

import tempfile
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from wellbook.planning.rounds import Round
from wellbook.support import paths
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

if TYPE_CHECKING:
    from wellbook.water.cautions.cautions import Cautions

PAPERS = ("letter", "a4")
_ROOM = 4.0  # points that are left free on a page


def write(
    path: Path,
    visit: Sequence[Round],
    catalogue: Catalogue,
    *,
    today: date,
    paper: str,
    said: Sequence[str] = (),
) -> None:
    """Write the field sheet of a visit as a PDF.

    Args:
        path: Where to write; an existing file is replaced when the new one is whole.
        visit: The rounds of one visit, in the order of the flow.
        catalogue: Names of the parameters.
        today: The day on which the sheet is made.
        paper: `letter` or `a4`.
        said: Cautions for whoever draws the sample, of this well and day.

    Raises:
        Fault: The folder can't be written.
        ValueError: There is no such paper.
    """
    from wellbook.support.whole_file import write_whole
    from wellbook.water.cautions.cautions import read_cautions
    from wellbook.wording.reference import worded_cautions

    if paper not in PAPERS:
        raise ValueError(f"no paper {paper!r}")
    cautions = worded_cautions(read_cautions(paths.resources() / "cautions.toml"))
    write_whole(path, _content(visit, catalogue, (cautions, said), today, paper))


def _content(
    visit: Sequence[Round],
    catalogue: Catalogue,
    care: "tuple[Cautions, Sequence[str]]",
    today: date,
    paper: str,
) -> bytes:
    from reportlab.platypus import PageBreak

    from wellbook.export import field_bottles, field_hours
    from wellbook.pdf import style
    from wellbook.pdf.document import Running, Sheet
    from wellbook.pdf.flowables import Places
    from wellbook.pdf.one_page import one_page

    style.register_fonts(paths.resources() / "fonts")
    size = style.PAPERS[paper]
    points = ", ".join(one.point.name for one in visit)
    running = Running(
        title=_("Field sheet: {well}, {point}").format(well=visit[0].well.name, point=points),
        head=f"{visit[0].well.name}, {points}",
        kind=_("Field sheet, page two: the bottles"),
        foot=_("Made on {today} with Wellbook. The lab’s own instructions come first.").format(
            today=today.isoformat()
        ),
        subject=_("How to draw and send the next water sample"),
    )
    with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
        pages = Path(folder) / "pages.pdf"
        sheet = Sheet(pages, size, running, Places())
        room = (sheet.width, sheet.height - _ROOM)
        story = [one_page(field_hours.page(visit, catalogue, room[0]), room)]
        is_one = len(visit) == 1
        for one in visit:
            title = field_bottles.title("" if is_one else one.point.name)
            bottles = field_bottles.page(one, catalogue, care[0], room[0], care[1])
            story += [PageBreak(), one_page([*title, *bottles], room)]
        sheet.set_pages(story)
        return pages.read_bytes()
