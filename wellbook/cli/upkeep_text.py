"""What is due at units and wellheads, as plain data."""

from datetime import date
from typing import Any

from wellbook.planning.upkeep import words
from wellbook.planning.upkeep.due import UpkeepItem

Facts = dict[str, Any]


def upkeep_facts(item: UpkeepItem, on: date) -> Facts:
    """Upkeep has no point, parameters or case; `upkeep` is `mend` for what was found bad."""
    asked = max(item.due, on).isoformat()
    why = words.head(item, on)
    return {
        "well": item.well.name,
        "point": "",
        "upkeep": item.done_as if item.is_fault else item.key,
        "unit": item.unit.name if item.unit else "",
        "item": item.key if item.is_fault else "",
        "done_as": item.done_as,
        "what": item.what,
        "who": item.who,
        "caution": item.caution,
        "source": item.source,
        "parameters": [],
        "case": "",
        "last": item.last.isoformat() if item.last else None,
        "due": item.due.isoformat(),
        "overdue_days": item.overdue_days,
        "used": _used(item),
        "suggested": {"from": asked, "to": asked, "day": None, "why": why},
    }


def _used(item: UpkeepItem) -> Facts | None:
    """How much of what it lasts for is used; `measured` is None where no meter was read."""
    used = item.used
    if used is None:
        return None
    told = None if used.measured is None else f"{used.measured:.0f} {used.of.measure}"
    return {"of": str(used.of), "measured": told, "until": used.day.isoformat()}
