"""What was read from a file inside of an archive or a mail names that file."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from wellbook.intake.draft import Draft, DraftSample
from wellbook.intake.files.sheets import Place, Sheet
from wellbook.intake.samples.file_questions import NOT_OURS
from wellbook.intake.tables.tables import NotTaken
from wellbook.water.values.findings import Finding


def sample(found: DraftSample, name: str) -> DraftSample:
    """A sample whose places name the inner file."""
    if not name:
        return found
    marks = tuple(mark._replace(place=_place_in(mark.place, name)) for mark in found.marks)
    return replace(found, marks=marks)


def findings(drafts: Sequence[tuple[str, Draft]]) -> Iterator[Finding]:
    """The findings of several files by their names; each says in which file it was made.

    That a file holds none of the household's water stops nothing where another does.
    """
    has_samples = any(draft.samples for _name, draft in drafts)
    for name, draft in drafts:
        for found in draft.findings:
            if not (has_samples and found.key == NOT_OURS):
                yield replace(found, where=", ".join(filter(None, (name, found.where))))


def sheet(found: Sheet, name: str) -> Sheet:
    """A sheet under the name of its file."""
    return replace(found, name=_place_in(Place(found.name), name).sheet) if name else found


def not_taken(left: NotTaken, name: str) -> NotTaken:
    """Something not taken whose place names the inner file."""
    return replace(left, place=_place_in(left.place, name)) if name else left


def _place_in(place: Place, name: str) -> Place:
    return place._replace(sheet=f"{name}: {place.sheet}" if place.sheet else name)
