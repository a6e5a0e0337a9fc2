"""Which columns of a list are shown, how wide they are and by which it is sorted; remembered."""

import json
from collections.abc import Collection
from dataclasses import asdict, dataclass, field

from PySide6.QtCore import QSettings


@dataclass(slots=True)
class ListColumns:
    """How a person arranged the columns of a list, by their places.

    Attributes:
        hidden: Those that are not shown.
        widths: Width in ems of those that were given one.
        sorted_by: The one that the list is sorted by; -1 for none.
        is_falling: Whether the largest comes first.
    """

    hidden: list[int] = field(default_factory=list)
    widths: dict[int, float] = field(default_factory=dict)
    sorted_by: int = -1
    is_falling: bool = False


class ColumnMemory:
    """Keeps how lists are arranged in the person's own settings; in nothing before it is told."""

    store: QSettings | None = None

    @classmethod
    def recall(cls, name: str, columns: int) -> ListColumns:
        """How a list was arranged; as it is made, if nothing is kept that fits its columns."""
        if cls.store is None or not name:
            return ListColumns()
        try:
            kept = json.loads(str(cls.store.value(_key(name), "")))
            found = ListColumns(
                [int(one) for one in kept["hidden"]],
                {int(place): float(width) for place, width in kept["widths"].items()},
                int(kept["sorted_by"]),
                bool(kept["is_falling"]),
            )
        except (ValueError, KeyError, TypeError, AttributeError):
            return ListColumns()
        places = {*found.hidden, *found.widths, max(found.sorted_by, 0)}
        fits = all(0 <= place < columns for place in places) and len(found.hidden) < columns
        return found if fits else ListColumns()

    @classmethod
    def keep(cls, name: str, columns: ListColumns) -> None:
        """Keep how a list is arranged."""
        if cls.store is not None and name:
            cls.store.setValue(_key(name), json.dumps(asdict(columns)))


def _key(name: str) -> str:
    return f"list_{name.replace(' ', '_')}"


def share(widths: dict[int, int], flexible: int, rest: int, fixed: Collection[int]) -> int:
    """What a column gets of the room: where the rest cuts its words, the widest one gives of its.

    Args:
        widths: Pixels that each column wants; what the widest one gives is taken off.
        flexible: The column that gets what is left.
        rest: Pixels that are left for it.
        fixed: Columns whose width is set.
    """
    others = [one for one in widths if one != flexible and one not in fixed]
    widest = max(others, key=widths.__getitem__, default=flexible)
    spare = min(widths[flexible] - rest, (widths[widest] - max(rest, 0)) // 2)
    if widest == flexible or spare <= 0:
        return rest
    widths[widest] -= spare
    return rest + spare
