"""What was found bad at a well, and whether it was put right."""

from collections.abc import Sequence
from datetime import date

from wellbook.book.record import Record
from wellbook.book.rows import Well
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.sampling.inspection import Seen, can_be_mended, to_mend


def unmended(record: Record, well: Well) -> dict[str, tuple[Seen, ...]]:
    """What was ever found bad at a well and is not mended, by the key of its line."""
    return {fault.item: fault.seen for fault in to_mend(seen(record, well), date.max)}


def mended_by(bad: Sequence[Seen], day: str) -> list[int]:
    """Numbers of the answers that are mended when a line was put right on a day.

    Raises:
        Fault: The day lies before the line was found bad.
    """
    found = [one.number for one in bad if can_be_mended(one, day)]
    if not found:
        said = _("It was found bad on {found}: the day it was put right can’t lie before that.")
        raise Fault(said.format(found=bad[0].day))
    return found


def seen(record: Record, well: Well) -> list[Seen]:
    """What was found on each line at each inspection of a well."""
    days = {event.id: event.day for event in record.events_of(well.id)}
    return [
        Seen(one.id, one.item, one.answer, days[one.event], one.text, one.mended)
        for one in record.answers
        if one.event in days
    ]
