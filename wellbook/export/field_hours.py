"""Page one of the field sheet: where, what, when, and boxes for the times as they were."""

from collections.abc import Sequence
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle

from wellbook.pdf import style
from wellbook.pdf.letters import markup
from wellbook.planning.rounds import Round
from wellbook.support.translation import _
from wellbook.water.sampling.timetable import Step, tasks
from wellbook.water.values.catalogue import Catalogue
from wellbook.wording import dates, sampling_day

TITLE = style.TITLE.clone("field title", fontSize=17, leading=22)
TEXT = style.BODY.clone("field text", fontSize=9, leading=12, spaceAfter=0)
STRONG = TEXT.clone("field strong", fontName=style.BOLD)
LABEL = TEXT.clone("field label", fontSize=7.4, leading=9.2, textColor=style.GREY)
HEAD = style.H2.clone("field head", fontSize=10.5, leading=14)
_TICK = STRONG.clone("field tick", fontSize=13, leading=14, alignment=1)

_LINE = 0.6
_TALL = 30.0
GRID = [
    ("FONT", (0, 0), (-1, -1), style.FONT, 9, 12),
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 5),
    ("RIGHTPADDING", (0, 0), (-1, -1), 5),
    ("TOPPADDING", (0, 0), (-1, -1), 3.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 4),
    ("BOX", (0, 0), (-1, -1), _LINE, style.INK),
    ("INNERGRID", (0, 0), (-1, -1), _LINE, style.GREY),
]


def page(one: Round, catalogue: Catalogue, width: float) -> list[Any]:
    """Everything on page one."""
    return [
        text(_("Field sheet for {when}").format(when=_when(one)), TITLE),
        Spacer(1, 6),
        _facts(one, catalogue, width),
        Spacer(1, 5),
        text(one.search.told),
        *heading(_("Hour by hour")),
        _hours(one, width),
        *heading(_("As it was at the tap")),
        boxes(
            [
                [
                    _("Rain of the last ten days"),
                    _("Water in use before the draw"),
                    _("Weather, snowmelt"),
                ],
                [
                    _("Chlorine by test strip, at the tap"),
                    _("Temperature of the water"),
                    _("Smell, colour"),
                ],
            ],
            width,
        ),
        Spacer(1, 4),
        text(
            _(
                "Afterwards write the times, the rain and the strip into the book with the test: a "
                "bacteria sample that was too old is judged as such."
            ),
            LABEL,
        ),
        *heading(_("Measured on the spot, before the bottles are filled")),
        boxes(
            [
                [
                    _("pH at the tap"),
                    _("Pressure, pump on and off"),
                    _("Flow: volume and time"),
                ],
            ],
            width,
        ),
    ]


def text(said: str, face: ParagraphStyle = TEXT) -> Paragraph:
    """A paragraph of plain text."""
    return Paragraph(markup(said), face)


def heading(said: str) -> list[Any]:
    """A heading with the air around it."""
    return [Spacer(1, 9), text(said, HEAD), Spacer(1, 3)]


def boxes(rows: Sequence[Sequence[str]], width: float, tall: float = _TALL) -> Table:
    """Empty boxes to write in, each with its label in the corner."""
    columns = len(rows[0])
    table = Table(
        [[text(label, LABEL) for label in row] for row in rows],
        colWidths=[width / columns] * columns,
        rowHeights=[tall] * len(rows),
    )
    table.setStyle(TableStyle(GRID))
    return table


def tested(one: Round, catalogue: Catalogue) -> str:
    """What is tested: panels by name; what is asked for because of people, by parameter."""
    public = [due.panel for due in one.panels if not due.private]
    covered = {key for panel in public for key in panel.core}
    more = [
        catalogue.parameters[key].name
        for due in one.panels
        if due.private
        for key in due.panel.core
        if key not in covered
    ]
    return ", ".join(dict.fromkeys([*(panel.name for panel in public), *more]))


def _when(one: Round) -> str:
    day = one.search.day
    if day is None:
        return _("a day that the lab has to name")
    return _("{weekday}, {day} {month} {year}").format(
        weekday=dates.weekday(day),
        day=day.day,
        month=dates.month(day.month),
        year=day.year,
    )


def _facts(one: Round, catalogue: Catalogue, width: float) -> Table:
    side = _("treated water") if one.point.treated else _("raw water, before treatment")
    note = f" {one.point.note}" if one.point.note else ""
    rows = [
        (_("Well"), one.well.name, _("Lab"), one.habits.lab),
        (_("Tap"), f"{one.point.name} ({side}).{note}", _("Sample number"), ""),
        (_("To be tested"), tested(one, catalogue), _("Drawn by"), one.habits.sampler),
    ]
    table = Table(
        [
            [text(name, LABEL), text(said, STRONG), text(other, LABEL), text(told, STRONG)]
            for name, said, other, told in rows
        ],
        colWidths=[width * 0.11, width * 0.45, width * 0.13, width * 0.31],
    )
    table.setStyle(TableStyle(GRID))
    return table


def _hours(one: Round, width: float) -> Table:
    rows: list[list[Any]] = [
        [
            text(head, LABEL)
            for head in (_("Planned"), _("What"), _("How"), _("Actual time"), _("Done"))
        ]
    ]
    planned = {step.task: _hour(one, step) for step in one.steps}
    rows += [
        [
            text(planned.get(task, ""), STRONG),
            text(sampling_day.name(task), STRONG),
            text(sampling_day.text(task, softens=one.softens)),
            "",
            text("☐", _TICK),
        ]
        for task in tasks(one.fills)
    ]
    shares = (0.11, 0.17, 0.5, 0.15, 0.07)
    table = Table(rows, colWidths=[width * share for share in shares], repeatRows=1)
    table.setStyle(TableStyle([*GRID, ("LINEBELOW", (0, 0), (-1, 0), 1.2, style.INK)]))
    return table


def _hour(one: Round, step: Step) -> str:
    if step.at.date() == one.search.day:
        return f"{step.at:%H:%M}"
    return f"{dates.weekday(step.at)[:3]} {step.at:%H:%M}"
