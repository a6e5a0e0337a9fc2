"""Where the samples of a draft go: the book's point that the file, or a person, names."""

from wellbook.book import Book
from wellbook.book.rows import Point, Well
from wellbook.intake.draft import Draft, DraftSample
from wellbook.support.errors import Fault
from wellbook.support.translation import _
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
        raise Fault(
            _("{source}: there is no well “{well}” in the book. It has {wells}.").format(
                source=source, well=well, wells=_list(wells)
            )
        )
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
            _(
                "{source} holds tests of several places ({names}): give "
                "points of the book these names and leave the point out, or split the file."
            ).format(source=source, names=", ".join(sorted(names.values())))
        )
    wanted = named or printed
    found = [p for p in points if normal_name(p.name) == normal_name(wanted)]
    if len(found) == 1:
        return found[0]
    if found:
        raise Fault(
            _("{source}: several wells have a point “{wanted}”. Name the well too.").format(
                source=source, wanted=wanted
            )
        )
    if not named and len(points) == 1 and len(names) == 1:
        return points[0]
    what = (
        _("there is no point “{wanted}” in the book").format(wanted=wanted)
        if wanted
        else _("it names no sampling point")
    )
    raise Fault(
        _("{source}: {what}. Name one of {points}.").format(
            source=source, what=what, points=_list(points)
        )
    )


def _list(named: list[Point] | list[Well]) -> str:
    return ", ".join(f"“{one.name}”" for one in named)
