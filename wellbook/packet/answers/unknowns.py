"""What a reader does not learn from a packet, and had better ask for."""

from wellbook.packet.answers import answer, gaps
from wellbook.packet.gather import History
from wellbook.planning import flow_test
from wellbook.support.translation import N_, _

_UNWRITTEN = {
    "septic": N_("distance to the septic system"),
    "yield": N_("flow"),
    "pressure": N_("water pressure"),
}


def not_known(history: History) -> list[str]:
    """What was never tested, how old the newest test is, and what nobody wrote down."""
    items = {item.casefold() for well in history.wells for item in well.well.construction}
    if any(flow_test.latest(well.events) for well in history.wells):
        items.add("yield")
    lacking = [
        _(words) for key, words in _UNWRITTEN.items() if not any(key in item for item in items)
    ]
    unwritten = _("Not written down: {items}.").format(items=", ".join(lacking)) if lacking else ""
    return [said for said in (gaps.told(history), unwritten) if said]


def to_ask(history: History) -> list[str]:
    """What a reader had better ask for."""
    asked = [
        _(
            "A fresh test of your own before you decide, drawn by somebody without a stake: a "
            "result tells of one sample on one day."
        )
    ]
    missing = [row.name for row in answer.rows(history) if row.judgement is None]
    if missing:
        asked.append(
            _("A test of what is missing above: {names}.").format(names=", ".join(missing))
        )
    if history.documents:
        asked.append(_("The lab’s own reports, to compare with what stands here."))
    return asked
