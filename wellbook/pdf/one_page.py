"""Everything on one page, set smaller where it is too much."""

from collections.abc import Callable
from typing import Any

from reportlab.platypus import KeepInFrame, Table

_SIDES = ("LEFT", "RIGHT", "TOP", "BOTTOM")
_WIDER = (1.0, 1.06, 1.12, 1.18, 1.24, 1.3)  # what is set this much wider is shrunk by as much


def one_page(story: list[Any], room: tuple[float, float], wider: float = 1.0) -> KeepInFrame:
    """All parts below each other on one page; the whole page is set smaller where it must be.

    Args:
        story: The parts, made for the width times `wider`.
        room: Width and height of the page in points.
        wider: How much wider than the page they are.
    """
    return KeepInFrame(*room, [_column(story, room[0] * wider)], mode="shrink", vAlign="TOP")


def filled_page(make: Callable[[float], list[Any]], room: tuple[float, float]) -> KeepInFrame:
    """The same, but what has to be smaller is set wider first, so that the page is filled.

    Args:
        make: Makes the parts for a width in points.
        room: Width and height of the page in points.
    """
    width, height = room
    for wider in _WIDER:
        _unused, needed = _column(make(width * wider), width * wider).wrap(width * wider, height)
        if needed <= height * wider:
            break
    return one_page(make(width * wider), room, wider)


def _column(story: list[Any], width: float) -> Table:
    # In one column everything keeps its width, so that text and tables shrink alike.
    column = Table([[part] for part in story], colWidths=[width], hAlign="LEFT")
    column.setStyle([(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in _SIDES])
    return column
