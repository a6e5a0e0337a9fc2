"""What bad results opened, and whether it is closed: for page one."""

from wellbook.packet.gather import History
from wellbook.planning.cases import CaseFacts
from wellbook.support.translation import _
from wellbook.wording import paper


def open_cases(history: History) -> list[str]:
    """What bad results opened and nothing has closed yet, in one sentence."""
    told = [
        _("{names}, {point}, since {day}").format(
            names=_names(one), point=one.point.name, day=paper.day(one.opened)
        )
        for one in history.cases
        if one.closed is None
    ]
    return [_("Open cases: {cases}.").format(cases="; ".join(told))] if told else []


def _names(one: CaseFacts) -> str:
    """What was found, marked where only a word by telephone says so."""
    names = ", ".join(one.names)
    return _("{reading} (preliminary)").format(reading=names) if one.is_preliminary else names


def closed_cases(history: History) -> list[str]:
    """What bad results opened and their rule has closed, in one sentence."""
    told = [
        _("{names}, {point}, {first} to {last}").format(
            names=", ".join(one.names),
            point=one.point.name,
            first=paper.day(one.opened),
            last=paper.day(one.closed),
        )
        for one in history.cases
        if one.closed is not None
    ]
    return [_("Closed cases: {cases}.").format(cases="; ".join(told))] if told else []
