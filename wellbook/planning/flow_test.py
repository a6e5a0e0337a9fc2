"""The flow test of a well: read as a person types it, the latest one found, told in words."""

import re
from collections.abc import Iterable
from typing import TypedDict

from wellbook.book.rows import Event
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.triggers import EventKind
from wellbook.wording import paper

FLOW_UNITS = ("gal/min", "L/min")  # of a US gallon
DEPTH_UNITS = ("ft", "m")
_FIGURE = re.compile(r"[0-9]{1,5}(?:[.,][0-9]{1,3})?")


class FlowTest(TypedDict):
    """What a flow test says, as it is kept with its event; see `book.rows.Event`."""

    flow: str
    flow_unit: str
    hours: str
    drawdown: str
    drawdown_unit: str
    done_by: str


def read_flow_test(
    flow: str,
    flow_unit: str,
    hours: str = "",
    drawdown: str = "",
    drawdown_unit: str = "",
    done_by: str = "",
) -> FlowTest:
    """Read a flow test as it was typed.

    Args:
        flow: How much the well gave, a figure.
        flow_unit: One of `FLOW_UNITS`.
        hours: For how long it was pumped; empty where that isn't known.
        drawdown: By how much the water level fell; empty likewise.
        drawdown_unit: One of `DEPTH_UNITS`; kept only with a drawdown.
        done_by: Who did it.

    Raises:
        Fault: There is no flow, something is no plain figure, or a unit is not one of these.
    """
    given, fell = _figure(_("flow"), flow), _figure(_("drawdown"), drawdown)
    if not given:
        raise Fault(_("Enter how much the well gave: a flow test is nothing without its flow."))
    if flow_unit not in FLOW_UNITS or (fell and drawdown_unit not in DEPTH_UNITS):
        raise Fault(
            _("Say in which unit: the flow in {flow}, the drawdown in {depth}.").format(
                flow=_("{one} or {other}").format(one=FLOW_UNITS[0], other=FLOW_UNITS[1]),
                depth=_("{one} or {other}").format(one=DEPTH_UNITS[0], other=DEPTH_UNITS[1]),
            )
        )
    return {
        "flow": given,
        "flow_unit": flow_unit,
        "hours": _figure(_("hours"), hours),
        "drawdown": fell,
        "drawdown_unit": drawdown_unit if fell else "",
        "done_by": done_by.strip(),
    }


def _figure(what: str, typed: str) -> str:
    """A figure with a point, or nothing where nothing was typed."""
    figure = typed.strip()
    if figure and not _FIGURE.fullmatch(figure):
        raise Fault(
            _("{figure} can’t be read as {what}: enter a plain figure such as 4 or 4.5.").format(
                figure=figure, what=what
            )
        )
    return figure.replace(",", ".")


def latest(events: Iterable[Event]) -> Event | None:
    """The flow test of the latest day; None where no event has a flow."""
    tested = (one for one in events if one.kind == EventKind.FLOW_TEST and one.flow)
    return max(tested, key=lambda one: (one.day, one.id), default=None)


def figures(event: Event) -> str:
    """What a flow test showed, and what of it nobody wrote down; empty for another event."""
    if not event.flow:
        return ""
    hours = (
        _("pumped for {hours} h").format(hours=event.hours)
        if event.hours
        else _("for how long is not known")
    )
    fell = (
        _("the water level fell by {drawdown} {unit}").format(
            drawdown=event.drawdown, unit=event.drawdown_unit
        )
        if event.drawdown
        else _("drawdown not known")
    )
    by = _("by {who}").format(who=event.done_by) if event.done_by else _("by whom is not known")
    return f"{event.flow} {event.flow_unit}, {hours}; {fell}; {by}"


def told(event: Event) -> str:
    """A flow test with its day."""
    return _("flow test of {day}: {figures}").format(
        day=paper.loose_day(event.day), figures=figures(event)
    )


def words(event: Event) -> str:
    """An event in words: the figures of a flow test, then what the household wrote."""
    return ". ".join(filter(None, (figures(event), event.text)))
