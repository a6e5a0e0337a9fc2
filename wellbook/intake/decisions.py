"""What a person decided about a lab's file, kept in the book and offered at the lab's next file.

Files that name no lab are told apart by the headings of their table; what older books keep for all
of them together is used no more, for they may be of several labs.
Nothing is decided unseen: what is used is said in a finding, and can be looked at and forgotten.
"""

import json
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from textwrap import shorten
from typing import Any

from wellbook.book import Book
from wellbook.book.rows import NewResult
from wellbook.intake import mending
from wellbook.intake.draft import WHICH_COLUMNS, Draft, DraftSample, Mark
from wellbook.intake.words.dates import Order
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.signs import normal_name

SETTING = "lab_decisions"  # of a book: what was decided by lab, as JSON
_NAMES = "lab_names"  # of older books: names alone
_LAYOUT = "headings: "  # before the headings of files that name no lab
_LONGEST = 80  # letters of headings that are shown
_MOST = 2_000  # decisions that are kept; our own bound
_LACKING = frozenset({"unknown_unit", "no_unit", "unfit_unit", "no_basis", "two_bases"})
_Names = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Decisions:
    """What was decided about the files of one lab.

    Attributes:
        names: Keys of parameters by the names that the lab prints.
        units: Units by the name of the parameter and the unit that the lab prints.
        columns: Headings of columns, and whether they are the household's water.
        points: Points of the book by the points that the lab prints.
        order: What comes first in its dates; empty where that was not asked.
    """

    names: _Names = field(default_factory=dict)
    units: _Names = field(default_factory=dict)
    columns: Mapping[str, bool] = field(default_factory=dict)
    points: _Names = field(default_factory=dict)
    order: str = ""

    @property
    def count(self) -> int:
        """How many they are."""
        many = (self.names, self.units, self.columns, self.points)
        return sum(map(len, many)) + bool(self.order)

    def joined(self, later: "Decisions") -> "Decisions":
        """These, and what was decided later."""
        return Decisions(
            {**self.names, **later.names},
            {**self.units, **later.units},
            {**self.columns, **later.columns},
            {**self.points, **later.points},
            later.order or self.order,
        )


def source_of(draft: Draft) -> str:
    """Whose decisions hold for a draft: its lab, or else its headings; empty where it has none."""
    labs = (sample.sample.lab.strip() for sample in draft.samples)
    layout = f"{_LAYOUT}{draft.headings}" if draft.headings else ""
    return next(filter(None, labs), layout)


def said_source(source: str) -> str:
    """Whose decisions they are, for a person."""
    if not source:
        return _("no lab named (no longer used)")
    if not source.startswith(_LAYOUT):
        return source
    words = shorten(source.removeprefix(_LAYOUT), _LONGEST, placeholder=" …")
    return _("no lab named, columns {headings}").format(headings=words)


def decided(before: Draft, after: Draft, *, columns: Mapping[str, bool] | None = None) -> Decisions:
    """What a person decided between two states of a draft.

    Args:
        before: As it was read.
        after: As it is to be kept.
        columns: Headings of which the person said that they are their water, or not.
    """
    names, units = {}, {}
    for (old_mark, old), (mark, new) in _pairs(before, after):
        printed = normal_name(new.name)
        is_settled = "near_name" in {*old_mark.doubts} - {*mark.doubts}
        if new.parameter and (is_settled or new.parameter != old.parameter):
            names[printed] = new.parameter
        if _unit(new) != _unit(old):
            units[_unit_key(old)] = _unit(new)
    kept = {sample.point_name for sample in after.samples}
    gone = {s.point_name: False for s in before.samples if s.point_name not in kept | {""}}
    return Decisions(names, units, {**gone, **(columns or {})})


def remember(book: Book, lab: str, new: Decisions) -> None:
    """Keep in the book what was decided about the files of a lab, as `source_of` tells it."""
    if not (lab and new.count):
        return
    known = dict(remembered(book))
    old = next((name for name in known if normal_name(name) == normal_name(lab)), lab)
    known[old] = known.get(old, Decisions()).joined(new)
    if sum(one.count for one in known.values()) <= _MOST:
        _write(book, known)


@dataclass(frozen=True, slots=True)
class Decision:
    """One thing that was decided about the files of a lab.

    Attributes:
        lab: As `source_of` tells it.
        kind: What was decided: `names`, `units`, `columns`, `points` or `order`.
        key: What the lab prints.
        said: The decision as a sentence.
    """

    lab: str
    kind: str
    key: str
    said: str


def decisions_in(book: Book, catalogue: Catalogue) -> list[Decision]:
    """Everything that was decided, lab by lab, in words."""
    return [
        Decision(lab, kind, key, said)
        for lab, one in sorted(remembered(book).items())
        for kind, key, said in _said(one, catalogue)
    ]


def _said(known: Decisions, catalogue: Catalogue) -> Iterator[tuple[str, str, str]]:
    for printed, key in known.names.items():
        parameter = catalogue.parameters.get(key)
        name = parameter.name if parameter else key
        yield "names", printed, _("“{printed}” is {name}").format(printed=printed, name=name)
    for printed, unit in known.units.items():
        name, _unused, old = printed.partition(" | ")
        text = _("“{name}” printed in “{old}” is in {unit}") if old else _("“{name}” is in {unit}")
        yield "units", printed, text.format(name=name, old=old, unit=unit)
    for heading, is_water in known.columns.items():
        is_mine, is_not = _("“{heading}” is your water"), _("“{heading}” is not your water")
        yield "columns", heading, (is_mine if is_water else is_not).format(heading=heading)
    for printed, point in known.points.items():
        text = _("samples of “{printed}” go to {point}")
        yield "points", printed, text.format(printed=printed or _("no point"), point=point)
    if known.order:
        is_month = known.order == Order.MONTH_FIRST
        yield (
            "order",
            "",
            _("dates with the month first") if is_month else _("dates with the day first"),
        )


def forget(book: Book, decision: Decision) -> None:
    """Forget one thing that was decided; it is asked again at the lab's next file."""
    known = remembered(book)
    one = known[decision.lab]
    held: Mapping[str, Any] = getattr(one, decision.kind) if decision.kind != "order" else {}
    left: dict[str, Any] = {
        decision.kind: {k: v for k, v in held.items() if k != decision.key} if held else ""
    }
    _write(book, {**known, decision.lab: replace(one, **left)})


def remembered(book: Book) -> dict[str, Decisions]:
    """What was decided, by `source_of`; empty for what older books keep for no lab."""
    return {lab: Decisions(names=names) for lab, names in _setting(book, _NAMES).items()} | {
        lab: _read(facts) for lab, facts in _setting(book, SETTING).items()
    }


def _setting(book: Book, key: str) -> dict[str, dict[str, Any]]:
    try:
        found = json.loads(book.setting(key) or "{}")
    except ValueError:
        return {}
    pairs = found.items() if isinstance(found, dict) else ()
    return {str(lab): facts for lab, facts in pairs if isinstance(facts, dict)}


def of_lab(book: Book, lab: str) -> Decisions:
    """What was decided about the files of one lab, as `source_of` tells it."""
    known = remembered(book).items() if lab else ()
    return next((one for name, one in known if normal_name(name) == normal_name(lab)), Decisions())


def read_as_decided(
    book: Book, catalogue: Catalogue, read: Callable[[Order, Mapping[str, bool]], Draft]
) -> Draft:
    """The draft of a file, read by what a person said of the same lab's earlier files.

    Args:
        book: Where that is kept.
        catalogue: The reference data.
        read: Reads the file by an order of dates and by headings of columns.
    """
    draft, said = read(Order.UNKNOWN, {}), list[str]()
    mine: dict[str, bool] = {}
    if any(finding.key == WHICH_COLUMNS for finding in draft.findings):
        draft, mine = _with_columns(draft, book, partial(read, Order.UNKNOWN))
        if mine:
            text = _("“{heading}” is your water")
            said += [text.format(heading=sample.point_name) for sample in draft.samples]
    order = of_lab(book, source_of(draft)).order
    if order and draft.open_order:
        draft = read(Order(order), mine)
        is_month = order == Order.MONTH_FIRST
        said.append(_("dates with the month first") if is_month else _("dates with the day first"))
    return as_remembered(draft, book, catalogue, said)


def _with_columns(
    asked: Draft, book: Book, read: Callable[[Mapping[str, bool]], Draft]
) -> tuple[Draft, dict[str, bool]]:
    """The draft by the columns that a person said of the same lab are their water.

    Asked anew where another lab's columns are called the same, and where a column is there of
    which nothing was said: it may be worse water.
    """
    heads = {left.column for left in asked.not_taken if left.column}
    for lab, one in remembered(book).items():
        mine = {head: True for head, is_water in one.columns.items() if is_water}
        if lab and mine and heads <= one.columns.keys():
            found = read(mine)
            if normal_name(source_of(found)) == normal_name(lab):
                return found, mine
    return asked, {}


def as_remembered(
    draft: Draft, book: Book, catalogue: Catalogue, said: Iterable[str] = ()
) -> Draft:
    """The draft with all understood as a person said of the same lab's earlier file.

    Args:
        draft: What was read.
        book: Where the decisions are kept.
        catalogue: The reference data.
        said: What was decided before in reading it, to be said with the rest.
    """
    known, used = of_lab(book, source_of(draft)), list(said)
    if known.count:
        draft = _without_columns(draft, known, used)
        for place, sample in enumerate(draft.samples):
            if normal_name(sample.sample.lab) not in {"", normal_name(source_of(draft))}:
                continue  # of another lab in the same file
            for i in range(len(sample.sample.results)):
                draft = _with_name(draft, (place, i), (known, catalogue), used)
                draft = _with_unit(draft, (place, i), known, used)
    if not used:
        return draft
    text = (
        _("As you said of a file with these columns before: {names}.")
        if source_of(draft).startswith(_LAYOUT)
        else _("As you said of this lab before: {names}.")
    )
    text = text.format(names=", ".join(dict.fromkeys(used)))
    finding = Finding("remembered", text, severity=Severity.NOTE)
    return replace(draft, findings=(*draft.findings, finding))


def _without_columns(draft: Draft, known: Decisions, used: list[str]) -> Draft:
    not_mine = {normal_name(head) for head, is_water in known.columns.items() if not is_water}
    if source_of(draft).startswith(_LAYOUT):  # a place in its rows may be another household's
        not_mine &= {normal_name(head) for head in draft.headings.split("; ")}
    for place in reversed(range(len(draft.samples))):
        head = draft.samples[place].point_name
        if head and normal_name(head) in not_mine:
            results = draft.samples[place].sample.results
            figures = ", ".join(f"{one.name} {one.reading.text}" for one in results)
            draft = mending.without_sample(draft, place)
            text = _("“{heading}” is not your water ({figures})")
            used.append(text.format(heading=head, figures=figures))
    return draft


def _with_name(
    draft: Draft, at: mending.At, by: tuple[Decisions, Catalogue], used: list[str]
) -> Draft:
    (known, catalogue), (place, i) = by, at
    sample = draft.samples[place]
    name = sample.sample.results[i].name
    parameter = catalogue.parameters.get(known.names.get(normal_name(name), ""))
    if not parameter or not {"unknown_parameter", "near_name"} & set(sample.marks[i].doubts):
        return draft
    used.append(_("“{printed}” as {name}").format(printed=name, name=parameter.name))
    return mending.with_name(draft, at, parameter.key)


def _with_unit(draft: Draft, at: mending.At, known: Decisions, used: list[str]) -> Draft:
    result = draft.samples[at[0]].sample.results[at[1]]
    unit = known.units.get(_unit_key(result), "")
    if not unit or unit == _unit(result):
        return draft
    if not _LACKING & set(draft.samples[at[0]].marks[at[1]].doubts):
        # The printed unit can be right this time, and the figure then a thousand times as much.
        text = _("“{name}” is printed in {old}; you read that as {unit} before. Which is it?")
        said = text.format(name=result.name, old=_unit(result), unit=unit)
        doubt = Finding(mending.OTHER_UNIT, said, severity=Severity.ASK)
        return mending.doubted(draft, at, doubt)
    used.append(_("{name} in {unit}").format(name=result.name, unit=unit))
    return mending.with_unit(draft, at, unit)


def _unit(result: NewResult) -> str:
    """The unit of a result with its basis."""
    reading = result.reading
    basis = reading.basis if reading.basis not in reading.unit else ""
    return " ".join(filter(None, (reading.unit, basis)))


def _unit_key(result: NewResult) -> str:
    return f"{normal_name(result.name)} | {_unit(result)}"


_Marked = tuple[Mark, NewResult]


def _pairs(before: Draft, after: Draft) -> Iterator[tuple[_Marked, _Marked]]:
    """Results of two drafts that stand at the same place of the file, with their marks."""
    old = dict(_placed(before.samples))
    for place, marked in _placed(after.samples):
        if place in old:
            yield old[place], marked


def _placed(samples: Iterable[DraftSample]) -> Iterator[tuple[object, _Marked]]:
    for sample in samples:
        for mark, result in zip(sample.marks, sample.sample.results, strict=True):
            yield (mark.place, result.name), (mark, result)


def _read(facts: Mapping[str, Any]) -> Decisions:
    def texts(key: str) -> dict[str, str]:
        found = facts.get(key)
        return {str(k): str(v) for k, v in found.items()} if isinstance(found, dict) else {}

    columns = {head: text == str(True) for head, text in texts("columns").items()}
    order = str(facts.get("order", ""))
    is_known = order in set(Order)
    return Decisions(
        texts("names"), texts("units"), columns, texts("points"), order if is_known else ""
    )


def _write(book: Book, known: Mapping[str, Decisions]) -> None:
    facts = {
        lab: {
            "names": dict(one.names),
            "units": dict(one.units),
            "columns": dict(one.columns),
            "points": dict(one.points),
            "order": one.order,
        }
        for lab, one in known.items()
        if one.count
    }
    if book.setting(_NAMES):
        book.set_setting(_NAMES, "")
    book.set_setting(SETTING, json.dumps(facts, ensure_ascii=False, sort_keys=True))
