"""A draft after a person decided something about it: each decision gives a new draft."""

from collections.abc import Callable
from dataclasses import replace

from wellbook.book.rows import NewResult
from wellbook.intake.draft import ACCREDITED, NO_DAY, Draft, DraftSample, Mark
from wellbook.intake.tables.tables import NotTaken
from wellbook.support.translation import _
from wellbook.water.parsing.typed import read_typed
from wellbook.water.units.conversion import basis_in
from wellbook.water.values.findings import Finding
from wellbook.water.values.local_time import LocalTime

_OF_READINGS = frozenset(
    {"unknown_parameter", "near_name", "unknown_unit", "no_unit", "no_basis", "unfit_unit",
     "usual_unit", "odd_result", "beyond", "two_bases", "odd_basis", "only_fine", "only_bad",
     "pictured", "comma", "prose", "open_kind", "hidden_row", "hidden_column", "repeated",
     "rejected"}
)  # fmt: skip
_OF_DAYS = frozenset({"no_date", "bad_date", "future_date", "partial_day", "some_date"})
_OF_BASES = {"no_basis", "two_bases", "odd_basis"}
_OF_FIGURES = {"odd_result", "only_fine", "only_bad", "comma", "beyond", "pictured", "prose"}

# What lines and remarks of the file say against a reading, and what is struck through.
_SAID_AGAINST = {"changed", "struck"}
_OF_READINGS |= _SAID_AGAINST
_OF_FIGURES |= _SAID_AGAINST

OTHER_UNIT = "other_unit"  # a person read the same printed unit as another one before

At = tuple[int, int]
"""Place of a sample in its draft, and of a result in its sample."""


def with_name(draft: Draft, at: At, parameter: str) -> Draft:
    """The draft with a reading understood as a parameter; empty for one that no list has."""
    settled = {"unknown_parameter", "near_name"}
    return _changed(draft, at, lambda result: replace(result, parameter=parameter), settled)


def with_unit(draft: Draft, at: At, text: str) -> Draft:
    """The draft with another unit at a reading, as a person reads it on the report.

    Args:
        draft: The draft.
        at: Place of the reading.
        text: The unit, perhaps with its basis behind it, as `mg/L as N`.
    """
    unit, _unused, basis = text.strip().partition(" as ")
    unit, basis = (text.strip(), basis_in(text)) if not basis else (unit.strip(), f"as {basis}")

    def change(result: NewResult) -> NewResult:
        known = basis or result.reading.basis
        return replace(result, reading=replace(result.reading, unit=unit, basis=known))

    settles = {"unknown_unit", "no_unit", "unfit_unit", "usual_unit", OTHER_UNIT, "beyond"}
    return _changed(draft, at, change, settles | (_OF_BASES if basis else set()))


def with_result(draft: Draft, at: At, text: str, *, is_decimal: bool = True) -> Draft:
    """The draft with another result at a reading, as a person reads it on the report.

    Where only the sign differs that stands before its decimals, the printed text is kept.

    Args:
        draft: The draft.
        at: Place of the reading.
        text: The result.
        is_decimal: What a comma that can be either is.
    """

    def change(result: NewResult) -> NewResult:
        old = result.reading
        limit = result.reporting_limit
        new = read_typed(text, unit=old.unit, basis=old.basis, limit=limit, is_decimal=is_decimal)
        printed = old.text if _bare(old.text) == _bare(text) else text
        reading = replace(new, text=printed, fraction=old.fraction, flags=old.flags | new.flags)
        return replace(result, reading=reading)

    return _changed(draft, at, change, _OF_FIGURES)


def _bare(text: str) -> str:
    return "".join(text.split()).replace(",", ".")


def doubted(draft: Draft, at: At, doubt: Finding) -> Draft:
    """The draft with one thing more that a person has to decide about a reading."""
    sample = draft.samples[at[0]]
    marks, samples = list(sample.marks), list(draft.samples)
    marks[at[1]] = Mark(marks[at[1]].place, (*marks[at[1]].doubts, doubt.key))
    samples[at[0]] = replace(sample, marks=tuple(marks))
    return replace(draft, samples=tuple(samples), findings=(*draft.findings, doubt))


def settled(draft: Draft, at: At) -> Draft:
    """The draft after a person looked at a reading and found it right, with its sample's day."""
    place, reading = at
    if _OF_DAYS & set(draft.samples[place].marks[reading].doubts):
        samples = list(draft.samples)
        samples[place] = _without_doubts_of_day(samples[place])
        draft = replace(draft, samples=tuple(samples))
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


def with_moment(draft: Draft, place: int, moment: LocalTime) -> Draft:
    """The draft with the day, and perhaps the time, at which a person says a sample was drawn."""
    sample = _without_doubts_of_day(draft.samples[place])
    new = replace(sample, sample=replace(sample.sample, collected=moment))
    return _with_sample(draft, place, new, ())


def _without_doubts_of_day(sample: DraftSample) -> DraftSample:
    marks = (
        Mark(mark.place, tuple(key for key in mark.doubts if key not in _OF_DAYS))
        for mark in sample.marks
    )
    return replace(sample, marks=tuple(marks))


def with_lab(draft: Draft, place: int, lab: str) -> Draft:
    """The draft with the name of a sample's lab, as a person reads it on the report."""
    sample = draft.samples[place]
    new = replace(sample, sample=replace(sample.sample, lab=lab))
    return _with_sample(draft, place, new, ())


def with_accreditation(draft: Draft, text: str) -> Draft:
    """The draft with the lab's accreditation as a person reads it; empty to keep none."""
    findings = tuple(finding for finding in draft.findings if finding.key != ACCREDITED)
    return replace(draft, findings=findings, accreditation=text.strip())


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
        if finding.key in _OF_READINGS or finding.key == OTHER_UNIT:
            return finding.key in doubts
        return dayless or finding.key not in _OF_DAYS

    findings = tuple(filter(holds, draft.findings))
    return replace(draft, samples=kept, findings=findings, not_taken=(*draft.not_taken, *left))
