"""What the overview is worked out from, on a thread of its own."""

from typing import TYPE_CHECKING

from wellbook.book.record import Record
from wellbook.planning.standings import Look, completed, first_look, from_memory
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Tell

if TYPE_CHECKING:
    from wellbook.water.sampling.due import PanelDue

    Dues = dict[int, tuple[PanelDue, ...]]  # by point


def look(household: Household, *, is_first: bool) -> Look:
    """Where everything stands; what histories tell can follow after the first time."""
    reader, catalogue, today = household.reader, household.catalogue, household.today
    if is_first:
        return first_look(reader.load_outline(), catalogue, today)
    record = reader.load()
    found = first_look(record, catalogue, today)
    return completed(found, record, catalogue, today, from_memory(record, today))


def histories(household: Household, record: Record, look: Look, tell: Tell) -> Look:
    """What was pending, too: what whole histories tell."""
    today = household.today
    read = from_memory(record, today)

    def record_of(point: int, parameter: str) -> PointRecord:
        tell(0, 0, "")
        return read(point, parameter)

    return completed(look, record, household.catalogue, today, record_of)


def due(household: Household, record: Record, tell: Tell) -> "Dues":
    """What is due at each point.

    Raises:
        Fault: The book is no longer where it was opened.
    """
    from wellbook.planning import overview

    tell(0, 0, "")
    household.book.require_in_place()
    found = overview.due(record, household.catalogue, household.today)
    return {point.id: dues for _well, point, dues in found}
