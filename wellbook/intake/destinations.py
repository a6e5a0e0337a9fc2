"""Where the samples of a draft go: the book's point that the file, or a person, names."""

from collections.abc import Iterator

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


def places_of(draft: Draft, points: list[Point], named: str) -> Iterator[tuple[DraftSample, Point]]:
    """Each sample of a draft with the point of the book at which it was drawn.

    Args:
        draft: What was read.
        points: Those of the book, or of one well.
        named: The point that a person names for all of them; empty to go by the file.

    Raises:
        Fault: It is not clear which.
    """
    names = _names(draft)
    known: dict[str, Point] = {}
    for sample in draft.samples:
        printed = sample.point_name
        if printed not in known:
            known[printed] = _place(printed, points, named, (names, draft.source.name))
        yield sample, known[printed]


def place_of(sample: DraftSample, points: list[Point], named: str, draft: Draft) -> Point:
    """The same for one sample of a draft."""
    return _place(sample.point_name, points, named, (_names(draft), draft.source.name))


def _names(draft: Draft) -> dict[str, str]:
    printed = dict.fromkeys(sample.point_name for sample in draft.samples)
    return {normal_name(text): text for text in printed}


def _place(
    printed: str, points: list[Point], named: str, about: tuple[dict[str, str], str]
) -> Point:
    (names, source), wanted = about, named or printed
    if named and len(names) > 1:
        raise Fault(
            _(
                "{source} holds tests of several places ({names}): give "
                "points of the book these names and leave the point out, or split the file."
            ).format(source=source, names=", ".join(sorted(names.values())))
        )
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
