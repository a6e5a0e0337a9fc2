"""A draft after a person decided something about it: each decision gives a new draft.

Names that a person decided are remembered in the book for each lab, and used at its next file.
"""

import json
from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import date

from wellbook.book import Book
from wellbook.book.rows import NewResult
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Mark
from wellbook.intake.tables.tables import NotTaken
from wellbook.support.translation import _
from wellbook.water.units.conversion import basis_in
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.local_time import Moment
from wellbook.water.values.signs import normal_name

_OF_READINGS = frozenset(
    {"unknown_parameter", "near_name", "unknown_unit", "no_unit", "no_basis", "unfit_unit",
     "odd_result", "beyond", "two_bases"}
)  # fmt: skip
_OF_DAYS = frozenset({"no_date", "bad_date", "future_date", "partial_day", "some_date"})
_REMEMBERED = "lab_names"  # setting of a book: printed names by lab, as JSON
_MOST = 2_000  # names that are remembered

At = tuple[int, int]
"""Place of a sample in its draft, and of a result in its sample."""


def with_name(draft: Draft, at: At, parameter: str) -> Draft:
    """The draft with a reading understood as a parameter; empty for one that no list has."""
    settled = {"unknown_parameter", "near_name"}
    return _changed(draft, at, lambda result: replace(result, parameter=parameter), settled)


def with_unit(draft: Draft, at: At, unit: str) -> Draft:
    """The draft with another unit at a reading, as a person reads it on the report."""

    def change(result: NewResult) -> NewResult:
        basis = basis_in(unit) or result.reading.basis
        return replace(result, reading=replace(result.reading, unit=unit, basis=basis))

    return _changed(draft, at, change, {"unknown_unit", "no_unit", "unfit_unit", "beyond"})


def settled(draft: Draft, at: At) -> Draft:
    """The draft after a person looked at a reading and found it right."""
    return _changed(draft, at, lambda result: result, None)


def without(draft: Draft, at: At) -> Draft:
    """The draft without a reading, which then stands among what was not taken."""
    sample = draft.samples[at[0]]
    left = _left(sample, at[1], _("you said that it is none of your readings"))
    kept = [i for i in range(len(sample.sample.results)) if i != at[1]]
    return _with_sample(draft, at[0], _only(sample, kept), (left,))


def without_sample(draft: Draft, place: int) -> Draft:
    """The draft without a sample: its column, or its rows, are not the household's water."""
    sample = draft.samples[place]
    why = _("you said that it is not your water")
    left = tuple(_left(sample, i, why) for i in range(len(sample.sample.results)))
    return _with_sample(draft, place, _only(sample, []), left)


def with_day(draft: Draft, place: int, day: date) -> Draft:
    """The draft with the day on which a sample was drawn, as a person reads it on the report."""
    sample = draft.samples[place]
    moment = Moment(day, sample.sample.collected.at, sample.sample.collected.offset)
    new = replace(sample, sample=replace(sample.sample, collected=moment, note=""), known=None)
    return _with_sample(draft, place, new, ())


def remember(book: Book, before: Draft, after: Draft) -> None:
    """Keep in the book which parameters a person meant by the names that a lab prints."""
    decided = {}
    for old, new in _pairs(before, after):
        if new.parameter and new.parameter != old.parameter:
            decided[normal_name(new.name)] = new.parameter
    if not decided:
        return
    lab = _lab(after)
    known = remembered(book)
    known[lab] = {**known.get(lab, {}), **decided}
    if sum(map(len, known.values())) <= _MOST:
        book.set_setting(_REMEMBERED, json.dumps(known, ensure_ascii=False, sort_keys=True))


def remembered(book: Book) -> dict[str, dict[str, str]]:
    """Parameters by printed name, for each lab."""
    try:
        known = json.loads(book.setting(_REMEMBERED) or "{}")
    except ValueError:
        return {}
    return known if isinstance(known, dict) else {}


def as_remembered(draft: Draft, book: Book, catalogue: Catalogue) -> Draft:
    """The draft with names understood as a person said of the same lab's earlier file."""
    known = remembered(book).get(_lab(draft), {})
    used = []
    for place, sample in enumerate(draft.samples):
        for i, result in enumerate(sample.sample.results):
            parameter = catalogue.parameters.get(known.get(normal_name(result.name), ""))
            if parameter and {"unknown_parameter", "near_name"} & set(sample.marks[i].doubts):
                draft = with_name(draft, (place, i), parameter.key)
                used.append(_("“{printed}” as {name}").format(
                    printed=result.name, name=parameter.name
                ))  # fmt: skip
    if not used:
        return draft
    text = _("As you said of this lab before: {names}.").format(
        names=", ".join(dict.fromkeys(used))
    )
    return replace(
        draft, findings=(*draft.findings, Finding("remembered", text, severity=Severity.NOTE))
    )


def _lab(draft: Draft) -> str:
    labs = [normal_name(sample.sample.lab) for sample in draft.samples if sample.sample.lab]
    return labs[0] if labs else ""


def _pairs(before: Draft, after: Draft) -> Iterable[tuple[NewResult, NewResult]]:
    """Results of two drafts that stand at the same place of the file."""
    old = {
        mark.place: result
        for sample in before.samples
        for result, mark in zip(sample.sample.results, sample.marks, strict=True)
    }
    for sample in after.samples:
        for result, mark in zip(sample.sample.results, sample.marks, strict=True):
            if mark.place in old:
                yield old[mark.place], result


def _changed(
    draft: Draft, at: At, change: Callable[[NewResult], NewResult], settles: set[str] | None
) -> Draft:
    """A changed reading; without the doubts that the change settles, or without any."""
    sample = draft.samples[at[0]]
    results, marks = list(sample.sample.results), list(sample.marks)
    results[at[1]] = change(results[at[1]])
    left = () if settles is None else tuple(d for d in marks[at[1]].doubts if d not in settles)
    marks[at[1]] = Mark(marks[at[1]].place, left)
    new = replace(sample, sample=replace(sample.sample, results=tuple(results)), marks=tuple(marks))
    return _with_sample(draft, at[0], new, ())


def _only(sample: DraftSample, kept: list[int]) -> DraftSample:
    results = tuple(sample.sample.results[i] for i in kept)
    marks = tuple(sample.marks[i] for i in kept)
    return replace(sample, sample=replace(sample.sample, results=results), marks=marks)


def _left(sample: DraftSample, i: int, why: str) -> NotTaken:
    text = sample.sample.results[i].reading.text
    return NotTaken(text, why, sample.marks[i].place, is_aside=True)


def _with_sample(draft: Draft, place: int, new: DraftSample, left: tuple[NotTaken, ...]) -> Draft:
    """The draft with one sample changed, and without the findings that no longer hold."""
    samples = list(draft.samples)
    samples[place] = new
    kept = tuple(sample for sample in samples if sample.sample.results)
    doubts = {key for sample in kept for mark in sample.marks for key in mark.doubts}
    dayless = any(sample.sample.collected.day == NO_DAY for sample in kept)

    def holds(finding: Finding) -> bool:
        if finding.key in _OF_READINGS:
            return finding.key in doubts
        return dayless or finding.key not in _OF_DAYS

    findings = tuple(filter(holds, draft.findings))
    return replace(draft, samples=kept, findings=findings, not_taken=(*draft.not_taken, *left))
