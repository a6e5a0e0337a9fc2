"""A draft into the book: all of it or nothing."""

import hashlib
from dataclasses import replace

from wellbook.book import Book
from wellbook.book.rows import NewSample, Point
from wellbook.intake.already import AlreadyThere, Kept, Told, owed, require_agreement
from wellbook.intake.destinations import places_of, points_of
from wellbook.intake.draft import Draft, DraftSample, Stored
from wellbook.support.errors import Fault
from wellbook.support.translation import _, ngettext
from wellbook.water.values.signs import normal_name

_DIGITS = 12  # of a SHA-256, by which a report is told from others
WELL, POINT = "My well", "Kitchen tap"  # where a book is empty and nothing is named


def store(
    draft: Draft,
    book: Book,
    *,
    well: str = "",
    point: str = "",
    again: bool = False,
    told: Told = Told.ASK,
) -> Stored:
    """Put all samples of a draft into a book, or none of them.

    Without `point` a sample goes to the point that bears its printed name, or to the only point
    there is. A book without points gets the well and the point that are named, or that the file
    names, or `My well` and `Kitchen tap`; a new point counts as untreated.

    Args:
        draft: What `read` made of a file.
        book: Where it goes.
        well: Name of the well, needed where the book has several.
        point: Name of the sampling point.
        again: Take in what is in the book already, or what contradicts it.
        told: What becomes of a finding told by telephone that the report denies.

    Raises:
        AlreadyThere: The tests are in the book already.
        Contradicts: The report denies what the lab told before, and nothing is decided.
        Fault: A finding stops the draft, or a place is not clear.
    """
    source = draft.source.name
    _refuse_stops(draft)
    if not again:
        _refuse_file(draft, book)
    points = points_of(book, well, source)
    with book.together():  # a new well or point stays out, too, if its tests do
        return _store(draft, book, (well, point), points, again=again, told=told)


def _store(
    draft: Draft,
    book: Book,
    names: tuple[str, str],
    points: list[Point],
    *,
    again: bool,
    told: Told,
) -> Stored:
    well, point = names
    if points:
        placed = list(places_of(draft, points, point))
        kept = Kept(book, draft.source.name)
        new = [pair for pair in placed if again or not kept.has(*pair)]
        if not new:
            raise AlreadyThere(
                _("{source} is already in the book, with all its tests. Nothing was added.").format(
                    source=draft.source.name
                )
            )
        made: tuple[tuple[str, str], ...] = ()
    else:
        new, made = _with_new_points(draft, book, well, point)
    if book.record().drawn:
        samples = (placed_in_file(sample, point=place.id) for sample, place in new)
        ids = [keep(book, sample, told=told) for sample in samples]
    else:
        ids = book.add_samples(
            (replace(sample.sample, point=place.id) for sample, place in new),
            ([str(mark.place) for mark in sample.marks] for sample, _place in new),
        )
    _accredit(draft, book)
    titles = {w.id: w.name for w in book.wells()}
    places = dict.fromkeys((titles[place.well], place.name) for _unused, place in new)
    return Stored(tuple(ids), tuple(places), made, len(draft.samples) - len(new))


def _accredit(draft: Draft, book: Book) -> None:
    """Keep the accreditation that the file prints with the lab, unless the lab has one."""
    known = {normal_name(lab.name): lab.accreditation for lab in book.labs()}
    if draft.lab and draft.accreditation and not known.get(normal_name(draft.lab)):
        book.add_lab(draft.lab, accreditation=draft.accreditation)


def placed_in_file(sample: DraftSample, report: str = "", *, point: int = 0) -> NewSample:
    """A sample of a draft whose results tell where they stand in the file.

    Args:
        sample: Of a draft.
        report: First digits of the file's SHA-256, where it will not be the test's only document.
        point: Number of the sampling point that it goes to.
    """
    results = tuple(
        replace(result, place=str(mark.place), report=report)
        for result, mark in zip(sample.sample.results, sample.marks, strict=True)
    )
    return replace(sample.sample, results=results, point=point)


def report_of(sample: NewSample) -> str:
    """The first digits of the SHA-256 of a sample's file, by which its results name it."""
    content = next((document.content for document in sample.documents), b"")
    return hashlib.sha256(content).hexdigest()[:_DIGITS] if content else ""


def keep(book: Book, new: NewSample, *, told: Told = Told.ASK) -> int:
    """Keep a sample; one that was awaited is completed. Returns its number.

    Raises:
        Contradicts: It denies what the lab told before, and nothing is decided.
    """
    old = owed(book, new, new.point)
    if old is None:
        return book.add_sample(new)
    if told is Told.ASK:
        require_agreement(book, old, new)
    report = report_of(new)
    placed = tuple(replace(one, report=report) if one.place else one for one in new.results)
    book.complete_sample(old.id, replace(new, results=placed), withdrawn=told is Told.WITHDRAWN)
    return old.id


def _refuse_stops(draft: Draft) -> None:
    stops = draft.stops
    if stops:
        first = stops[0]
        where = f", {first.where}" if first.where else ""
        n = len(stops) - 1
        more = ngettext(" ({n} more like this.)", " ({n} more like this.)", n).format(n=n)
        more = more if n else ""
        raise Fault(f"{draft.source.name}{where}: {first.text}{more}")


def _refuse_file(draft: Draft, book: Book) -> None:
    digests = {
        hashlib.sha256(document.content).hexdigest()
        for document in draft.samples[0].sample.documents
    }
    for document in book.documents():
        if document.sha256 in digests and document.sample is not None:
            sample = book.sample(document.sample)
            if not sample.struck:
                raise AlreadyThere(
                    _(
                        "{source} is already in the book, with the test of "
                        "{day}. Nothing was added."
                    ).format(source=draft.source.name, day=sample.collected.day)
                )


def _with_new_points(
    draft: Draft, book: Book, well: str, point: str
) -> tuple[list[tuple[DraftSample, Point]], tuple[tuple[str, str], ...]]:
    wells = {w.name: w.id for w in book.wells()}
    if len(wells) > 1 and not well:
        raise Fault(
            _("{source}: name the well, one of {wells}.").format(
                source=draft.source.name, wells=", ".join(wells)
            )
        )
    name = well or next(iter(wells), WELL)
    number = wells.get(name) or next(
        (i for n, i in wells.items() if normal_name(n) == normal_name(name)), 0
    )
    number = number or book.add_well(name)
    wanted = {s.point_name: point or s.point_name.strip()[:200] or POINT for s in draft.samples}
    made = {normal_name(title): title for title in reversed(wanted.values())}
    points = {key: book.point(book.add_point(number, title)) for key, title in made.items()}
    new = [(s, points[normal_name(wanted[s.point_name])]) for s in draft.samples]
    return new, tuple((name, place.name) for place in points.values())
