"""Where the samples of a draft go: the book's point that the file, or a person, names."""

from wellbook.book import Book
from wellbook.book.rows import Point, Well
from wellbook.intake.draft import Draft, DraftSample
from wellbook.support.errors import Fault
from wellbook.water.values.signs import normal_name


def points_of(book: Book, well: str, source: str) -> list[Point]:
    """The points among which a place is looked for; none if the well has none yet.

    Raises:
        Fault: There are wells, and none of that name.
    """
    wells = book.wells()
    if not well:
        return book.points()
    found = [w.id for w in wells if normal_name(w.name) == normal_name(well)]
    if not found and wells:
        raise Fault(f"{source}: there is no well “{well}” in the book. It has {_list(wells)}.")
    return book.points(found[0]) if found else []


def place_of(sample: DraftSample, points: list[Point], named: str, draft: Draft) -> Point:
    """The point of the book at which a sample was drawn.

    Raises:
        Fault: It is not clear which.
    """
    source, printed = draft.source.name, sample.point_name
    names = {normal_name(s.point_name): s.point_name for s in draft.samples}
    if named and len(names) > 1:
        raise Fault(
            f"{source} holds tests of several places ({', '.join(sorted(names.values()))}): give "
            "points of the book these names and leave the point out, or split the file."
        )
    wanted = named or printed
    found = [p for p in points if normal_name(p.name) == normal_name(wanted)]
    if len(found) == 1:
        return found[0]
    if found:
        raise Fault(f"{source}: several wells have a point “{wanted}”. Name the well too.")
    if not named and len(points) == 1 and len(names) == 1:
        return points[0]
    what = f"there is no point “{wanted}” in the book" if wanted else "it names no sampling point"
    raise Fault(f"{source}: {what}. Name one of {_list(points)}.")


def _list(named: list[Point] | list[Well]) -> str:
    return ", ".join(f"“{one.name}”" for one in named)
