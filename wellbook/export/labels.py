"""Labels for the bottles of a visit and a card for the pressure tank, each with a QR code.

Drawn in ink only. A label travels with its bottle to the lab, so it names what is tested and
never why; the card hangs in the house and leaves room for telephone numbers.
"""

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from wellbook.planning.rounds import Round
from wellbook.support import paths
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

PAPERS = ("letter", "a4")
_COLUMNS, _ROWS = 2, 5
_MARGIN = 36.0  # points
_GAP = 8.0
_PAD = 7.0
_CODE = 74.0  # side of a QR code in points: 26 mm, read by any telephone
_CARD = 0.33  # of the height of a page
_NAMED = 10  # parameters that are named on a label; the code holds all of them


@dataclass(frozen=True, slots=True)
class Label:
    """What stands on one label.

    Attributes:
        head: Well and point.
        name: Which bottle, and its place among those of the point.
        lines: What is tested, how it is filled and kept.
        code: What the QR code says.
    """

    head: str
    name: str
    lines: tuple[str, ...]
    code: str


def labels(rounds: Sequence[Round], catalogue: Catalogue) -> tuple[Label, ...]:
    """One label for each bottle of the rounds, in the order in which they are filled."""
    return tuple(
        _label(visit, number, catalogue) for visit in rounds for number in range(len(visit.bottles))
    )


def write(
    path: Path, rounds: Sequence[Round], catalogue: Catalogue, *, today: date, paper: str
) -> int:
    """Write labels and card as a PDF.

    Args:
        path: Where to write; an existing file is replaced when the new one is whole.
        rounds: What is drawn on the visit.
        catalogue: Names of the parameters.
        today: The day on which they are made.
        paper: `letter` or `a4`.

    Returns:
        The number of labels.

    Raises:
        Fault: Nothing is planned, or the folder can't be written.
        ValueError: There is no such paper.
    """
    from wellbook.support.whole_file import write_whole

    if paper not in PAPERS:
        raise ValueError(f"no paper {paper!r}")
    if not rounds:
        raise Fault(_("Nothing is planned, so there are no bottles to label."))
    made = labels(rounds, catalogue)
    write_whole(
        path, _content(made, [_visit_line(visit, catalogue) for visit in rounds], today, paper)
    )
    return len(made)


def _label(visit: Round, number: int, catalogue: Catalogue) -> Label:
    bottle, keys = visit.bottles[number]
    names = [catalogue.parameters[key].name for key in keys if key in catalogue.parameters]
    shown = ", ".join(names[:_NAMED]) + (" …" if len(names) > _NAMED else "")
    day = visit.search.day
    count = _("bottle {n} of {all}").format(n=number + 1, all=len(visit.bottles))
    code = "\n".join(
        filter(
            None,
            (
                visit.well.name,
                visit.point.name,
                f"{bottle.name} ({count})",
                day.isoformat() if day else "",
                ", ".join(names),
            ),
        )
    )
    return Label(
        head=f"{visit.well.name}, {visit.point.name}",
        name=f"{bottle.name}: {count}",
        lines=(shown, bottle.fill, _("Keep cold.") if bottle.keep == "cold" else ""),
        code=code,
    )


def _content(made: Sequence[Label], visits: Sequence[str], today: date, paper: str) -> bytes:
    from reportlab.pdfgen.canvas import Canvas

    from wellbook.pdf import style

    style.register_fonts(paths.resources() / "fonts")
    size = style.PAPERS[paper]
    held = io.BytesIO()
    canvas = Canvas(held, pagesize=size, invariant=1)
    canvas.setTitle(_("Bottle labels and tank card"))
    canvas.setAuthor("Wellbook")
    places = _places(size)
    for number, label in enumerate(made):
        if number and number % len(places) == 0:
            canvas.showPage()
        _draw_label(canvas, label, places[number % len(places)])
    canvas.showPage()
    _draw_card(canvas, visits, today, size)
    canvas.showPage()
    canvas.save()
    return held.getvalue()


def _places(size: tuple[float, float]) -> tuple[tuple[float, float, float, float], ...]:
    """Left, bottom, width and height of each label of a page, from the top left on."""
    width = (size[0] - 2 * _MARGIN - (_COLUMNS - 1) * _GAP) / _COLUMNS
    height = (size[1] - 2 * _MARGIN - (_ROWS - 1) * _GAP) / _ROWS
    return tuple(
        (
            _MARGIN + column * (width + _GAP),
            size[1] - _MARGIN - (row + 1) * height - row * _GAP,
            width,
            height,
        )
        for row in range(_ROWS)
        for column in range(_COLUMNS)
    )


def _draw_label(canvas: Any, label: Label, place: tuple[float, float, float, float]) -> None:
    left, bottom, width, height = place
    canvas.setLineWidth(0.6)
    canvas.roundRect(left, bottom, width, height, 4)
    _draw_code(canvas, label.code, left + width - _PAD - _CODE, bottom + height - _PAD - _CODE)
    story = [*_said(label), *_blanks(width - 2 * _PAD)]
    _flow(canvas, story, (left, bottom, width - _CODE - _PAD, height))


def _said(label: Label) -> Iterator[Any]:
    from reportlab.platypus import Paragraph

    from wellbook.export.field_hours import LABEL, STRONG, TEXT
    from wellbook.pdf.letters import markup

    yield Paragraph(markup(label.head), LABEL)
    yield Paragraph(markup(label.name), STRONG)
    small = TEXT.clone("label text", fontSize=7.6, leading=9.4)
    for line in filter(None, label.lines):
        yield Paragraph(markup(line), small)


def _blanks(width: float) -> Iterator[Any]:
    """Room for what is written by hand when the bottle is filled."""
    from reportlab.platypus import Paragraph, Spacer

    from wellbook.export.field_hours import LABEL

    yield Spacer(width, 5)
    yield Paragraph(_("Filled on, at: ______________  By: __________"), LABEL)


def _flow(canvas: Any, story: list[Any], place: tuple[float, float, float, float]) -> None:
    from reportlab.platypus import Frame, KeepInFrame

    left, bottom, width, height = place
    inner = (width - 2 * _PAD, height - 2 * _PAD)
    frame = Frame(left, bottom, width, height, *[_PAD] * 4, showBoundary=0)
    frame.addFromList([KeepInFrame(*inner, story, mode="shrink")], canvas)


def _draw_code(canvas: Any, said: str, left: float, bottom: float) -> None:
    """A QR code of ISO/IEC 18004 as filled squares, with its quiet zone of four modules."""
    import segno

    rows = tuple(segno.make_qr(said, error="m").matrix_iter(border=4))
    side = _CODE / len(rows)
    for down, row in enumerate(rows):
        for across, dark in enumerate(row):
            if dark:
                # A hair wider, so that no printer leaves a line between two squares.
                spot = (left + across * side, bottom + _CODE - (down + 1) * side)
                canvas.rect(*spot, side * 1.02, side * 1.02, stroke=0, fill=1)


def _draw_card(canvas: Any, visits: Sequence[str], today: date, size: tuple[float, float]) -> None:
    """Half a page to hang at the pressure tank: the next visit, and whom to call."""
    from reportlab.platypus import Paragraph, Spacer

    from wellbook.export.field_hours import LABEL, TEXT, TITLE, boxes
    from wellbook.pdf.letters import markup

    width, height = size[0] - 2 * _MARGIN, size[1] * _CARD
    left, bottom = _MARGIN, size[1] - _MARGIN - height
    canvas.setLineWidth(0.6)
    canvas.roundRect(left, bottom, width, height, 6)
    _draw_code(
        canvas, "\n".join(visits), left + width - _PAD - _CODE, bottom + height - _PAD - _CODE
    )
    story = [
        Paragraph(markup(_("Next water test")), TITLE),
        *(Paragraph(markup(line), TEXT) for line in visits),
        Spacer(1, 8),
        Paragraph(
            markup(
                _(
                    "After a flood: use other water, keep away from wet electrical parts, leave "
                    "the pump off, and call a licensed well contractor."
                )
            ),
            TEXT,
        ),
        Spacer(1, 8),
        boxes(
            [[_("Well contractor"), _("Laboratory"), _("Health department")]],
            width - _CODE - 3 * _PAD,
            54,
        ),
        Spacer(1, 6),
        Paragraph(
            markup(_("Made on {today} with Wellbook.").format(today=today.isoformat())), LABEL
        ),
    ]
    _flow(canvas, story, (left, bottom, width - _CODE - _PAD, height))


def _visit_line(visit: Round, catalogue: Catalogue) -> str:
    from wellbook.export.field_hours import tested

    day = visit.search.day.isoformat() if visit.search.day else _("no day found yet")
    return _("{day}: {point}, {tested}").format(
        day=day, point=visit.point.name, tested=tested(visit, catalogue)
    )
