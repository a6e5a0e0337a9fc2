"""What was changed or taken back after it had been entered, read from the journal."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from wellbook.book.journal import Entry
from wellbook.sharing.field_words import told
from wellbook.sharing.redaction import Privacy
from wellbook.sharing.sources import Source
from wellbook.support.translation import N_, _, ngettext
from wellbook.wording import paper

Change = tuple[Entry, str, int, dict[str, Any] | None, dict[str, Any] | None]

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


@dataclass(frozen=True, slots=True)
class Named:
    """What a packet calls a sample, a result, a point or a lab.

    Attributes:
        sample: Number of the sample in the book; 0 for a point or a lab.
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
        names: The samples and results that are in the book now, its points and labs.
        cover: Covers private words.
        with_personal: Whether facts about people are shown.
    """
    changes = list(_changes(entries))
    found: list[Correction] = []
    for entry, table, number, before, after in changes:
        if before is None or after is None or (table, number) not in names:
            continue
        labels = _labels(table, after, with_personal=with_personal)
        if labels:
            old, new = (cover.cover(_words(side, labels, names)) for side in (before, after))
            why = cover.cover(_reason(entry))
            named = names[table, number]
            found.append(
                Correction(entry.at, named.words, old, new, why, named.sample, named.plain)
            )
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


def _labels(table: str, after: Mapping[str, Any], *, with_personal: bool) -> dict[str, str]:
    """The changed columns that are shown, with what people call them."""
    return {
        column: _(field.label)
        for column, field in told(table, after).items()
        if with_personal or not field.is_personal
    }


def _words(side: Mapping[str, Any], labels: Mapping[str, str], names: Names) -> str:
    empty = _("empty")
    called = {column: names.get((column, side[column])) for column in labels}
    values = {column: name.words if name else side[column] for column, name in called.items()}
    return "; ".join(f"{labels[column]}: {value or empty}" for column, value in values.items())
