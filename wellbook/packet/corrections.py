"""What was changed or taken back after it had been entered, read from the journal."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from wellbook.book.rows import Entry
from wellbook.sharing.redaction import Privacy
from wellbook.sharing.sources import Source
from wellbook.support.translation import N_, _, ngettext
from wellbook.wording import paper

Change = tuple[Entry, str, int, dict[str, Any] | None, dict[str, Any] | None]

_SHOWN = {
    "text": N_("reading"),
    "name": N_("printed name"),
    "struck": N_("struck out because"),
    "lab_number": N_("lab’s number"),
    "reporting_limit": N_("reporting limit"),
    "detection_limit": N_("detection limit"),
    "point": N_("point"),
    "collected": N_("collected"),
    "lab": N_("lab"),
    "dispatched": N_("dispatched"),
    "received": N_("received"),
    "reported": N_("reported"),
    "purpose": N_("purpose"),
    "sampler": N_("sampler"),
    "standing": N_("standing"),
    "draw": N_("draw"),
    "temperature": N_("temperature"),
    "rain": N_("rain"),
    "note": N_("note"),
    "sample": N_("sample"),
    "parameter": N_("parameter"),
    "kind": N_("kind"),
    "number": N_("number"),
    "unit": N_("unit"),
    "basis": N_("basis"),
    "fraction": N_("fraction"),
    "flags": N_("flags"),
    "method": N_("method"),
    "qualifier": N_("qualifier"),
    "analysed": N_("analysed"),
}
# What the journal calls the writes that change a test or a reading, or take one back.
_ACTIONS = frozenset(
    {
        N_("add a sample"),
        N_("correct a result"),
        N_("correct a sample"),
        N_("strike out a sample"),
        N_("take in a packet"),
        N_("count a sample again"),
        N_("undo"),
        N_("redo"),
    }
)
_PRIVATE = frozenset({"sampler"})


@dataclass(frozen=True, slots=True)
class Named:
    """What a packet calls a sample or a result.

    Attributes:
        sample: Number of the sample in the book.
        words: Its name with the number of the test.
        plain: Its name without that number, which each packet gives anew.
    """

    sample: int
    words: str
    plain: str


Names = dict[tuple[str, int], Named]  # by table and row


@dataclass(frozen=True, slots=True)
class Correction:
    """Something that is no longer as it was first entered.

    Attributes:
        sample: Number of the sample in the book; 0 if it is not in it any more.
        plain: What was changed, without the number of the test.
    """

    at: str
    what: str
    before: str
    after: str
    reason: str
    sample: int = 0
    plain: str = ""


def corrections(
    entries: Sequence[Entry], names: Names, cover: Privacy, *, with_personal: bool
) -> tuple[Correction, ...]:
    """Every change of a test or a reading, and every test that was entered and is gone.

    Args:
        entries: The journal.
        names: The samples and results that are in the book now.
        cover: Covers private words.
        with_personal: Whether facts about people are shown.
    """
    hidden = frozenset() if with_personal else _PRIVATE
    changes = list(_changes(entries))
    found = [
        Correction(
            entry.at, named.words, old, new, cover.cover(_reason(entry)), named.sample, named.plain
        )
        for entry, table, number, before, after in changes
        if before is not None and after is not None and (table, number) in names
        for old, new in [(_words(before, hidden, cover), _words(after, hidden, cover))]
        if old or new
        for named in [names[table, number]]
    ]
    found += _gone(changes, names)
    return tuple(sorted(found, key=lambda one: one.at))


def past_corrections(
    found: Iterable[Source], names: Names, cover: Privacy
) -> tuple[Correction, ...]:
    """What the packets that the book came from said was changed, each change once."""
    told = dict.fromkeys(one for source in found for one in source.corrections)
    return tuple(
        Correction(
            at=one.at,
            what=names["sample", one.sample].words + f": {one.what}"
            if ("sample", one.sample) in names
            else one.what,
            before=cover.cover(one.before),
            after=cover.cover(one.after),
            reason=cover.cover(one.reason),
            sample=one.sample,
            plain=one.what,
        )
        for one in told
        if not one.sample or ("sample", one.sample) in names
    )


def _changes(entries: Sequence[Entry]) -> Iterator[Change]:
    for entry in entries:
        for table, number, before, after in json.loads(entry.changes):
            if table in {"sample", "result"}:
                yield entry, table, number, before, after


def _gone(changes: Sequence[Change], names: Names) -> Iterator[Correction]:
    """Tests that were entered and taken back, each once, with the day on which they went."""
    entered: dict[int, str] = {}
    readings: dict[int, int] = {}
    left: dict[int, Entry] = {}
    for entry, table, number, before, after in changes:
        if table == "sample" and before is None and after is not None:
            entered.setdefault(number, str(after["collected"]))
            left.pop(number, None)  # taken back and entered again
            readings[number] = 0
        elif table == "result" and before is None and after is not None:
            readings[after["sample"]] = readings.get(after["sample"], 0) + 1
        elif table == "sample" and after is None:
            left[number] = entry
    for number, entry in left.items():
        if ("sample", number) not in names:
            day = paper.loose_day(entered[number][:10])
            what = _("A test drawn {day}").format(day=day)
            entry_was = ngettext(
                "entered with {n:,} reading", "entered with {n:,} readings", readings[number]
            ).format(n=readings[number])
            gone = _("taken back")
            yield Correction(entry.at, what, entry_was, gone, _reason(entry), plain=what)


def _reason(entry: Entry) -> str:
    parts = entry.action.split(": ")  # `undo: add a sample`
    return entry.reason or ": ".join(_(one) if one in _ACTIONS else one for one in parts)


def _words(side: Mapping[str, Any], hidden: frozenset[str], cover: Privacy) -> str:
    kept = {key: value for key, value in side.items() if key not in hidden}
    if "text" in kept:  # the figure that was read from the text says nothing more
        kept.pop("number", None)
    empty = _("empty")
    return cover.cover(
        "; ".join(f"{_(_SHOWN.get(key, key))}: {value or empty}" for key, value in kept.items())
    )
