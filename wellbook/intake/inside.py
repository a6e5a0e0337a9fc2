"""What was read from a file inside of an archive or a mail names that file."""

from dataclasses import replace

from wellbook.intake.draft import DraftSample
from wellbook.intake.files.sheets import Place, Sheet
from wellbook.intake.tables.tables import NotTaken
from wellbook.water.values.findings import Finding


def sample(found: DraftSample, name: str) -> DraftSample:
    """A sample whose places name the inner file."""
    if not name:
        return found
    marks = tuple(mark._replace(place=_place_in(mark.place, name)) for mark in found.marks)
    return replace(found, marks=marks)


def finding(found: Finding, name: str) -> Finding:
    """A finding that says in which file it was made."""
    return replace(found, where=", ".join(filter(None, (name, found.where))))


def sheet(found: Sheet, name: str) -> Sheet:
    """A sheet under the name of its file."""
    return replace(found, name=_place_in(Place(found.name), name).sheet) if name else found


def not_taken(left: NotTaken, name: str) -> NotTaken:
    """Something not taken whose place names the inner file."""
    return replace(left, place=_place_in(left.place, name)) if name else left


def _place_in(place: Place, name: str) -> Place:
    return replace(place, sheet=f"{name}: {place.sheet}" if place.sheet else name)
