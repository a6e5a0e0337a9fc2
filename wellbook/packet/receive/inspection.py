"""A packet looked over for a person it was handed to: do its checks hold, and what is in it."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from wellbook.packet.receive.packet_file import Packet, open_packet
from wellbook.packet.receive.verify import Check, Outcome, checks
from wellbook.sandbox.process import CancelCheck, never_cancelled
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.local_time import LocalTime


@dataclass(frozen=True, slots=True)
class Inspection:
    """What came of looking a packet over.

    Attributes:
        checks: What was looked at.
        tests: Samples in its record that count.
        struck: Samples in it that were struck out.
        days: First and last day of the tests that count, if there are any.
    """

    packet: Packet
    checks: tuple[Check, ...]
    wells: int
    points: int
    tests: int
    struck: int
    days: tuple[date, date] | None

    @property
    def is_changed(self) -> bool:
        """Whether a check fails, so that nothing of it can be relied on."""
        return any(one.outcome is Outcome.FAILS for one in self.checks)

    @property
    def is_compared(self) -> bool:
        """Whether its code is the one that was told."""
        return any(one.outcome is Outcome.HOLDS for one in self.checks)

    @property
    def code(self) -> str:
        """The check code of its bytes; the one on its first page unless a check fails."""
        return self.packet.marks.code


def look_over(
    path: Path, *, told: str = "", check_cancelled: CancelCheck = never_cancelled
) -> Inspection:
    """Open a packet, check it and count what is in it.

    Args:
        path: Where it lies.
        told: The check code that the household told; empty if it was not asked.
        check_cancelled: Called while it is read; what it raises ends the reading.

    Raises:
        Fault: It can't be opened as a packet.
    """
    packet = open_packet(path, told=told, check_cancelled=check_cancelled)
    check_cancelled()
    found = checks(packet)
    check_cancelled()
    try:
        return _counted(packet, found, packet.record())
    except (LookupError, TypeError, AttributeError, ValueError) as error:
        raise Fault(
            _("The record in {path} can’t be read: it is damaged.").format(path=packet.path.name)
        ) from error


def compared(inspected: Inspection, told: str) -> Inspection:
    """The same beside a code that was told; an empty one is none."""
    packet = replace(inspected.packet, told=told)
    return replace(inspected, packet=packet, checks=checks(packet))


def _counted(packet: Packet, found: tuple[Check, ...], record: dict[str, Any]) -> Inspection:
    counting = [one for one in record["samples"] if not one["struck"]]
    days = [LocalTime.parse(one["collected"]).day for one in counting]
    return Inspection(
        packet=packet,
        checks=found,
        wells=len(record["wells"]),
        points=len(record["points"]),
        tests=len(counting),
        struck=len(record["samples"]) - len(counting),
        days=(min(days), max(days)) if days else None,
    )
