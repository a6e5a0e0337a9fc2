"""A book as it is seen by whoever is not to know people: private words covered in every column.

What is made of it, whatever it is, can't hold what this does not show.
"""

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from typing import Any, TypeVar

from wellbook.book import Book
from wellbook.book.rows import (
    Document,
    Entry,
    Event,
    Lab,
    Plan,
    Point,
    Sample,
    Service,
    TreatmentUnit,
    Well,
)
from wellbook.sharing import record_fields as declared
from wellbook.sharing.excerpt import Excerpt
from wellbook.sharing.fields import Table
from wellbook.sharing.redaction import Privacy
from wellbook.support.translation import N_, _
from wellbook.water.values.results import Result

_Row = TypeVar("_Row")

# What is read by the program: keys, days, fingerprints; and what is left out whole, not covered.
_EXACT = frozenset(
    {"parameter", "sha256", "media_type", "panel", "target", "day", "until", "installed", "removed",
     "reported", "valid_from", "valid_to", "postponed", "address", "coordinates", "sampler", "cost",
     "currency", "draw", "purpose", "standing"}
)  # fmt: skip


_FIGURES = frozenset({"text", "reporting_limit", "detection_limit"})  # of a result
_TABLES = {
    "well": N_("Well"),
    "point": N_("Sampling point"),
    "treatment_unit": N_("Treatment unit"),
    "service": N_("Service"),
    "lab": N_("Lab"),
    "plan": N_("Plan"),
    "event": N_("Event"),
    "sample": N_("Test"),
    "result": N_("Reading"),
}
_LONGEST = 120  # letters of a text that are shown


@dataclass(frozen=True, slots=True)
class Hit:
    """A place in which private words stand.

    Attributes:
        table: The rows it is one of.
        row: Number of the row in the book.
        column: Its column.
        text: What stands there.
        words: What of it is private.
    """

    table: Table
    row: int
    column: str
    text: str
    words: tuple[str, ...]


class Covered(Excerpt):
    """A book, or an excerpt of it, in which private words are covered; it can't be written to."""

    def __init__(self, seen: Book, cover: Privacy) -> None:
        Book.__init__(self, seen._connection, seen.path, is_readonly=True)  # noqa: SLF001  the same file
        self.whole = seen.whole if isinstance(seen, Excerpt) else seen
        self._inner, self.cover, self._cover = seen, cover, cover

    def wells(self) -> list[Well]:
        """Wells; two whose covered names would be one are told apart."""
        covered = [
            replace(
                self._row(well),
                construction={
                    self._cover.cover(item): self._cover.cover(text)
                    for item, text in well.construction.items()
                },
            )
            for well in self._inner.wells()
        ]
        return list(_apart(covered, [0] * len(covered)))

    def points(self, well: int | None = None) -> list[Point]:
        """Sampling points, likewise."""
        every = [self._row(point) for point in self._inner.points()]
        apart = _apart(every, [point.well for point in every])
        return [point for point in apart if well is None or point.well == well]

    def point(self, number: int) -> Point:
        """One sampling point."""
        return self._row(self._inner.point(number))

    def sample(self, number: int) -> Sample:
        """One sample."""
        return self._row(self._inner.sample(number))

    def samples(self, point: int | None = None, *, with_struck: bool = False) -> list[Sample]:
        """Samples."""
        return [self._row(one) for one in self._inner.samples(point, with_struck=with_struck)]

    def results(
        self,
        point: int | None = None,
        parameter: str | None = None,
        sample: int | None = None,
        *,
        with_struck: bool = False,
    ) -> list[Result]:
        """Readings; a figure stays as it is."""
        found = self._inner.results(point, parameter, sample, with_struck=with_struck)
        cover = self._cover.cover_reading
        return [
            replace(
                self._row(result),
                reporting_limit=cover(result.reporting_limit),
                detection_limit=cover(result.detection_limit),
                reading=replace(
                    result.reading,
                    text=cover(result.reading.text),
                    unit=cover(result.reading.unit),
                    basis=cover(result.reading.basis),
                ),
            )
            for result in found
        ]

    def documents(self, sample: int | None = None, well: int | None = None) -> list[Document]:
        """Documents."""
        return [self._row(one) for one in self._inner.documents(sample, well)]

    def content(self, document: int) -> bytes:
        """The bytes of a document, which are searched on their own."""
        return self._inner.content(document)

    def events(self, well: int | None = None) -> list[Event]:
        """Events; those about people are left out elsewhere, whole."""
        return [self._row(one) for one in self._inner.events(well)]

    def units(self, well: int | None = None) -> list[TreatmentUnit]:
        """Treatment units."""
        return [self._row(one) for one in self._inner.units(well)]

    def services(self, unit: int | None = None) -> list[Service]:
        """Services."""
        return [self._row(one) for one in self._inner.services(unit)]

    def labs(self) -> list[Lab]:
        """Labs."""
        return [self._row(one) for one in self._inner.labs()]

    def plans(self, point: int | None = None) -> list[Plan]:
        """Plans."""
        return [self._row(one) for one in self._inner.plans(point)]

    def setting(self, key: str, default: str = "") -> str:
        """A choice of the household."""
        return self._inner.setting(key, default)

    def journal(self) -> list[Entry]:
        """The journal as it is; what is told of it is covered where it is told."""
        return self._inner.journal()

    def _row(self, row: _Row) -> _Row:
        return covered(row, self._cover)


def covered(row: _Row, cover: Privacy) -> _Row:
    """A row with private words covered in every column that is text."""
    changed: dict[str, Any] = {
        field.name: cover.cover(value)
        for field in fields(row)  # type: ignore[arg-type]  # every row is a dataclass
        if isinstance(value := getattr(row, field.name), str) and field.name not in _EXACT
    }
    return replace(row, **changed)  # type: ignore[type-var]  # likewise


def hits(book: Book, cover: Privacy) -> list[Hit]:
    """Every place of a book in which something is covered, in order.

    Args:
        book: The record or an excerpt of it, nothing covered.
        cover: What is private.
    """
    tables: list[tuple[Table, list[Any]]] = [
        (declared.WELLS, list(book.wells())),
        (declared.POINTS, list(book.points())),
        (declared.UNITS, list(book.units())),
        (declared.SERVICES, list(book.services())),
        (declared.LABS, list(book.labs())),
        (declared.PLANS, [one for one in book.plans() if not one.is_follow_up]),
        (declared.EVENTS, [one for one in book.events() if not one.is_about_people]),
        (declared.SAMPLES, list(book.samples(with_struck=True))),
        (declared.RESULTS, list(book.results(with_struck=True))),
    ]
    return [
        Hit(table, row.id, column, text, words)
        for table, rows in tables
        for row in rows
        for column, text in _texts(row)
        if not (
            table is declared.RESULTS and column in _FIGURES and cover.cover_reading(text) == text
        )
        and (words := cover.found(text))
    ]


def hit_words(hit: Hit) -> str:
    """A place in words, with what stands there and what of it is covered."""
    labels = {field.column: field.label for field in hit.table.fields if field.label}
    return _("{table} {number}, {column}: “{text}” (covered: {words})").format(
        table=_(_TABLES.get(hit.table.key, hit.table.key)),
        number=hit.row,
        column=_(labels[hit.column]) if hit.column in labels else hit.column,
        text=hit.text if len(hit.text) <= _LONGEST else f"{hit.text[:_LONGEST]}…",
        words=", ".join(hit.words),
    )


def _texts(row: Any) -> Iterator[tuple[str, str]]:
    for field in fields(row):
        value = getattr(row, field.name)
        if isinstance(value, str) and field.name not in _EXACT:
            yield field.name, value
    for item, text in getattr(row, "construction", {}).items():
        yield "construction", f"{item}: {text}"
    reading = getattr(row, "reading", None)
    if reading is not None:
        yield "text", reading.text


def _apart(rows: list[Any], groups: list[int]) -> Iterator[Any]:
    """Rows of one group whose names would be the same, told apart by their number."""
    seen: set[tuple[int, str]] = set()
    for row, group in zip(rows, groups, strict=True):
        name = row.name
        if (group, name) in seen:
            name = _("{name} ({number})").format(name=name, number=row.id)
        seen.add((group, name))
        yield replace(row, name=name)
