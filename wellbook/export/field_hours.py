"""Page one of the field sheet: where, what, when, and boxes for the times as they were."""

from collections.abc import Sequence
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph, Spacer, Table, TableStyle

from wellbook.pdf import style
from wellbook.pdf.letters import markup
from wellbook.planning.rounds import Round, hours_of
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


def page(visit: Sequence[Round], catalogue: Catalogue, width: float) -> list[Any]:
    """Everything on page one; `visit` are the rounds of one day, in the order of the flow."""
    return [
        text(_("Field sheet for {when}").format(when=_when(visit[0])), TITLE),
        Spacer(1, 6),
        _facts(visit, catalogue, width),
        Spacer(1, 5),
        text(visit[0].search.told),
        *_in_turn(visit),
        *heading(_("Hour by hour")),
        _hours(visit, width),
        *heading(_("As it was at the tap")),
        boxes([_of_the_day(), *(_of_tap(one, visit) for one in visit)], width),
        Spacer(1, 4),
        text(
            _(
                "Afterwards write the times, the rain and the strip into the book with the test: a "
                "bacteria sample that was too old is judged as such."
            ),
            LABEL,
        ),
        *heading(_("Measured on the spot, before the bottles are filled")),
        boxes([_measured(one, visit) for one in visit], width),
    ]


def _of_the_day() -> list[str]:
    return [
        _("Rain of the last ten days"),
        _("Water in use before the draw"),
        _("Weather, snowmelt"),
    ]


def _of_tap(one: Round, visit: Sequence[Round]) -> list[str]:
    """What is read at a tap; with its name where there are several."""
    said = [
        _("Chlorine by test strip, at the tap"),
        _("Temperature of the water"),
        _("Smell, colour"),
    ]
    return said if len(visit) == 1 else [f"{one.point.name}: {label}" for label in said]


def _measured(one: Round, visit: Sequence[Round]) -> list[str]:
    """What is measured at a tap; with its name where there are several."""
    said = [_("pH at the tap"), _("Pressure, pump on and off"), _("Flow: volume and time")]
    return said if len(visit) == 1 else [f"{one.point.name}: {label}" for label in said]


def _in_turn(visit: Sequence[Round]) -> list[Any]:
    """Where several taps are drawn, in which order."""
    if len(visit) == 1:
        return []
    names = ", ".join(one.point.name for one in visit)
    said = _(
        "All on one day, so that they can be compared: {names}. The hours are those of the first "
        "tap; the others follow at once, bottle by bottle as on the pages after this one."
    )
    return [Spacer(1, 3), text(said.format(names=names), STRONG)]


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


def _facts(visit: Sequence[Round], catalogue: Catalogue, width: float) -> Table:
    first = visit[0]
    rows = [(_("Well"), first.well.name, _("Lab"), first.habits.lab)]
    for one in visit:
        side = _("treated water") if one.point.treated else _("raw water, before treatment")
        note = f" {one.point.note}" if one.point.note else ""
        rows += [
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


def _hours(visit: Sequence[Round], width: float) -> Table:
    fills, steps = hours_of(visit)
    rows: list[list[Any]] = [
        [
            text(head, LABEL)
            for head in (_("Planned"), _("What"), _("How"), _("Actual time"), _("Done"))
        ]
    ]
    planned = {step.task: _hour(visit[0], step) for step in steps}
    rows += [
        [
            text(planned.get(task, ""), STRONG),
            text(sampling_day.name(task), STRONG),
            text(sampling_day.text(task, softens=any(one.softens for one in visit))),
            "",
            text("☐", _TICK),
        ]
        for task in tasks(fills)
    ]
    shares = (0.11, 0.17, 0.5, 0.15, 0.07)
    table = Table(rows, colWidths=[width * share for share in shares], repeatRows=1)
    table.setStyle(TableStyle([*GRID, ("LINEBELOW", (0, 0), (-1, 0), 1.2, style.INK)]))
    return table


def _hour(one: Round, step: Step) -> str:
    if step.at.date() == one.search.day:
        return f"{step.at:%H:%M}"
    return f"{dates.weekday(step.at)[:3]} {step.at:%H:%M}"
