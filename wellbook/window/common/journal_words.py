"""Entries of the journal in plain words: what was done, to what, and what it said before."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from wellbook.book.journal import Entry
from wellbook.book.record import Record
from wellbook.book.samples import told_moment
from wellbook.sharing.field_words import told
from wellbook.support.translation import _, ngettext
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime
from wellbook.window.common.words import moment_words, partial_words
from wellbook.wording import vocabulary

Row = Mapping[str, Any]
_NOTHING = ("", None)
# Told by the row they hang on, or by what else the write says.
_WITH_ANOTHER_ROW = ("inspection_answer", "upkeep_interval")
_MENU_LETTERS = 70
_KEPT_AS_KEYS = {
    "construction": vocabulary.log_item,
    "service": vocabulary.service,
    "setting": vocabulary.setting,
    "expense": vocabulary.expense,
}


def action_words(action: str) -> str:
    """What was done."""
    verb, _unused, cause = action.partition(": ")
    if cause:
        said = {
            "undo": _("undone: {what}"),
            "redo": _("redone: {what}"),
        }.get(verb, "{what}")
        return said.format(what=action_words(cause))
    return {
        "add a sample": _("test added"),
        "strike out a sample": _("test struck out"),
        "complete a sample": _("test completed by its report"),
        "count a sample again": _("test counted again"),
        "correct a sample": _("test corrected"),
        "correct a result": _("reading corrected"),
        "take in a packet": _("packet taken in"),
        "add a document": _("document added"),
        "remove a document": _("document taken out"),
        "add a well": _("well added"),
        "change a well": _("well changed"),
        "add a point": _("sampling point added"),
        "change a point": _("sampling point changed"),
        "add a treatment unit": _("treatment unit added"),
        "change a treatment unit": _("treatment unit changed"),
        "add a service": _("service noted"),
        "change a service": _("service changed"),
        "remove a service": _("service taken out"),
        "add an inspection": _("inspection noted"),
        "change an inspection": _("inspection changed"),
        "mend what was found": _("fault of an inspection put right"),
        "set an interval of upkeep": _("interval of upkeep set"),
        "remove an interval of upkeep": _("interval of upkeep taken out"),
        "add a cost": _("cost noted"),
        "change a cost": _("cost changed"),
        "remove a cost": _("cost taken out"),
        "add an event": _("event added"),
        "change an event": _("event changed"),
        "remove an event": _("event taken out"),
        "add a lab": _("lab added or changed"),
        "keep a price list": _("price list kept"),
        "remove a price": _("price taken out"),
        "plan a panel": _("plan made or changed"),
        "remove a plan": _("plan taken out"),
        "change a setting": _("setting changed"),
        "change settings": _("settings changed"),
        "set up the household": _("household set up"),
    }.get(action, action)


@dataclass(frozen=True, slots=True)
class Names:
    """What rows of the book are called now."""

    samples: dict[int, LocalTime] = field(default_factory=dict)
    parameters: dict[int, str] = field(default_factory=dict)
    results: dict[int, int] = field(default_factory=dict)
    others: dict[tuple[str, int], str] = field(default_factory=dict)
    panels: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, record: Record, catalogue: Catalogue) -> "Names":
        """The names that a record holds."""
        results = record.results(with_struck=True)
        known = catalogue.parameters
        panels = {key: panel.name for key, panel in catalogue.panels.items()}
        return cls(
            {sample.id: sample.collected for sample in record.samples(with_struck=True)},
            {r.id: known[r.parameter].name if r.parameter in known else r.name for r in results},
            {result.id: result.sample for result in results},
            {
                (table, row.id): row.name
                for table, rows in (
                    ("well", record.wells),
                    ("point", record.points),
                    ("treatment_unit", record.units),
                    ("lab", record.labs),
                    ("price", record.prices),
                )
                for row in rows
            }
            | _noted(record, panels),
            panels,
        )


def _noted(record: Record, panels: Mapping[str, str]) -> dict[tuple[str, int], str]:
    """What rows without a name of their own are called."""
    units = {unit.id: unit.name for unit in record.units}
    return (
        {("event", one.id): _event_words(one.kind, one.day) for one in record.events}
        | {
            ("service", one.id): f"{units[one.unit]}, {vocabulary.service(one.kind)}"
            for one in record.services
        }
        | {("expense", one.id): vocabulary.expense(one.kind) for one in record.expenses}
        | {("setting", row): vocabulary.setting(key) for row, key in record.setting_keys.items()}
        | {("document", one.id): one.name for one in record.documents}
        | {("plan", one.id): panels.get(one.panel, one.panel) for one in record.plans}
    )


def detail_words(entry: Entry, names: Names) -> str:
    """To what it was done; for a change what it said before and after."""
    changes = json.loads(entry.changes)
    readings = sum(
        1 for table, _unused, old, new in changes if table == "result" and None in (old, new)
    )
    said = [
        words
        for table, number, old, new in changes
        for words in _change(table, number, old, new, names)
    ]
    if readings > 1 or (readings and said):
        said.append(ngettext("{n} reading", "{n} readings", readings).format(n=readings))
    return "; ".join(filter(None, dict.fromkeys(said)))


def deed_words(entry: Entry, names: Names) -> str:
    """A write as it is called where it is taken back or entered again."""
    changes = json.loads(entry.changes)
    sample = next((new for table, _unused, _unused2, new in changes if table == "sample"), None)
    if entry.action != "add a sample" or sample is None:
        detail = detail_words(entry, names)
        did = action_words(entry.action)
        return f"{did} ({detail})" if detail else did
    when = _test_of(told_moment(sample))
    where = names.others.get(("point", sample["point"]), "")
    count = sum(1 for table, *_unused in changes if table == "result")
    readings = ngettext("{n} reading", "{n} readings", count).format(n=count)
    return f"{', '.join(filter(None, (when, where)))} ({readings})"


def short_words(entry: Entry, names: Names) -> str:
    """The same for a line of a menu: without the readings in brackets, and not longer than fits."""
    said = deed_words(entry, names)
    if entry.action == "add a sample":
        said = said.rpartition(" (")[0]
    return said if len(said) <= _MENU_LETTERS else f"{said[: _MENU_LETTERS - 1]}…"


def _change(
    table: str, number: int, old: Row | None, new: Row | None, names: Names
) -> Iterator[str]:
    if old is not None and new is not None:
        changed = "; ".join(_fields(table, old, new, names))
        if changed:
            about = _about(table, number, new, names)
            yield f"{about}: {changed}" if about else changed
    elif table != "result":
        yield _about(table, number, new or old or {}, names)


def _about(table: str, number: int, row: Row, names: Names) -> str:
    """What a row is called."""
    if table == "sample":
        when = told_moment(row) if "collected" in row else names.samples.get(number)
        return _test_of(when)
    if table == "result":
        when = names.samples.get(names.results.get(number, 0))
        return f"{names.parameters.get(number, '')}, {_test_of(when)}"
    if table == "event" and "kind" in row and "day" in row:
        return _event_words(row["kind"], row["day"])
    if table in _WITH_ANOTHER_ROW:
        return ""
    if table == "attachment":
        return names.others.get(("document", row.get("document", 0)), "")
    named = ("name", "item", "key", "panel", "kind")
    found = next((str(row[key]) for key in named if key in row), "")
    said = _KEPT_AS_KEYS[table](found) if table in _KEPT_AS_KEYS else found
    said = names.panels.get(found, found) if table == "plan" else said
    return names.others.get((table, number), said)


def _event_words(kind: str, day: str) -> str:
    return f"{vocabulary.event_in_full(kind)} {partial_words(day)}"


def _test_of(when: LocalTime | None) -> str:
    return _("test of {day}").format(day=moment_words(when)) if when else ""


def _fields(table: str, old: Row, new: Row, names: Names) -> Iterator[str]:
    """What each field said before and says after; those that follow from another are not named."""
    for key, declared in told(table, new).items():
        before, after = old.get(key), new[key]
        if table == "setting" and _is_packed(before, after):
            said = _("changed")
        elif before in _NOTHING:
            said = _("{field} “{new}”")
        elif after in _NOTHING:
            said = _("{field} “{old}” taken away")
        else:
            said = _("{field} “{old}” became “{new}”")
        yield said.format(
            field=_(declared.label),
            old=_value(key, before, names),
            new=_value(key, after, names),
        )


def _is_packed(*values: object) -> bool:
    """Whether a choice is kept as JSON, of which nobody would read a word."""
    return any(str(value)[:1] in {"{", "["} for value in values if value)


def _value(key: str, value: object, names: Names) -> object:
    """A value as it was entered; a point and a lab by their names."""
    return names.others.get((key, value), value) if isinstance(value, int) else value
