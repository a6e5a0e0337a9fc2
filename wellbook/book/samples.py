"""Writing a sample: its results, its lab and its documents go in with it."""

import hashlib
from collections.abc import Collection, Mapping, Sequence
from dataclasses import fields
from functools import lru_cache
from json.encoder import encode_basestring as _quoted
from typing import cast

from wellbook.book.rows import Document, NewDocument, NewResult, NewSample
from wellbook.book.writer import Row, Value, Writer, told
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.local_time import LocalTime
from wellbook.water.values.readings import Flag, Kind, Reading

_OWN = tuple(
    field.name for field in fields(NewSample) if field.name not in {"results", "documents"}
)
_UNPLACED = (
    *("parameter", "name", "text", "kind", "number", "unit", "basis", "fraction", "flags"),
    *("method", "reporting_limit", "detection_limit", "qualifier", "lab", "analysed", "draw"),
)
_OF_RESULT = (*_UNPLACED, "place", "report")
_REPORTED = ("lab", "lab_number", "received", "reported", "temperature")  # of a whole sample
_MOMENTS = ("collected", "dispatched", "received")
LONGEST_PARAMETER, LONGEST_LAB = 500, 200  # letters of a name, as the tables take them
LARGEST_DOCUMENT = 25_000_000  # bytes; our own bound, so that a book stays easy to copy


class Results:
    """Adds the results of samples; what rows of a file share is worked out once."""

    def __init__(self, writer: Writer) -> None:
        self._writer = writer
        # By identity; the result is held, so that it stays the same.
        self._known: dict[int, tuple[NewResult, tuple[Value, ...], str]] = {}

    def add(self, sample: int, results: Sequence[NewResult], places: Sequence[str]) -> None:
        """Add results to a sample.

        Args:
            sample: Its number.
            results: The results.
            places: Where each stands in the report of the sample; none where they tell themselves.
        """
        if not places:
            rows = [(sample, *_result_cells(self._writer, new)) for new in results]
            self._writer.insert_cells("result", ("sample", *_OF_RESULT), rows)
            return
        known = [self._known.get(id(new)) or self._know(new) for new in results]
        self._writer.insert_told(
            "result",
            ("place", "sample", *_UNPLACED),
            [(p, sample, *cells) for (_new, cells, _told), p in zip(known, places, strict=True)],
            [
                f',"sample":{sample}{said}' + (f',"place":{_quoted(place)}' if place else "")
                for (_new, _cells, said), place in zip(known, places, strict=True)
            ],
        )

    def _know(self, new: NewResult) -> tuple[NewResult, tuple[Value, ...], str]:
        cells = _result_cells(self._writer, new)[: len(_UNPLACED)]
        self._known[id(new)] = found = new, cells, told(_UNPLACED, cells)
        return found


def add_sample(
    writer: Writer, sample: NewSample, results: Results, places: Sequence[str] = ()
) -> int:
    """Write one sample whole, with one entry in the journal; `places` as `Results.add` has them."""
    number = writer.insert(
        "sample", sample_row(writer, {key: getattr(sample, key) for key in _OWN})
    )
    results.add(number, sample.results, places)
    attached: set[int] = set()
    for new in sample.documents:
        document = _document(writer, new)
        if document not in attached:
            attached.add(document)
            _attachment(writer, document, sample=number, well=None, event=None)
    writer.note("add a sample")
    return number


def sample_row(writer: Writer, given: Mapping[str, object]) -> Row:
    """The columns of a sample for the fields that are given."""
    row: Row = {}
    for key, value in given.items():
        if key == "lab":
            row[key] = lab_number(writer, str(value)) if value else None
        elif key in _MOMENTS:
            row[key] = _iso(value) if isinstance(value, LocalTime) else ""
            if key == "collected" and isinstance(value, LocalTime):
                row["known_to"] = _known_to(value)
        else:
            row[key] = cast("str | int | None", value)
    return row


def result_row(writer: Writer, new: NewResult) -> Row:
    """The columns of a result, without its number and sample."""
    return dict(zip(_OF_RESULT, _result_cells(writer, new), strict=True))


def _result_cells(writer: Writer, new: NewResult) -> tuple[Value, ...]:
    reading = new.reading
    return (
        new.parameter,
        new.name,
        reading.text,
        str(reading.kind),
        None if reading.number is None else str(reading.number),
        reading.unit,
        reading.basis,
        reading.fraction,
        ", ".join(sorted(reading.flags)) if reading.flags else "",
        new.method,
        new.reporting_limit,
        new.detection_limit,
        new.qualifier,
        lab_number(writer, new.lab) if new.lab else None,
        _iso(new.analysed) if new.analysed else "",
        new.draw,
        new.place,
        new.report,
    )


def no_longer_awaited(writer: Writer, sample: int, arrived: Collection[str]) -> None:
    """Take parameters that the lab has reported off what is awaited of a sample."""
    (awaited,) = writer.connection.execute(
        "SELECT awaited FROM sample WHERE id = ?", (sample,)
    ).fetchone()
    left = [key for key in awaited.split() if key not in arrived]
    writer.update("sample", sample, {"awaited": " ".join(left)})


def complete_sample(writer: Writer, number: int, new: NewSample, *, withdrawn: bool) -> None:
    """Write what a report says into a sample that was drawn before, or told of by telephone."""
    early = {
        parameter: (result, flags)
        for result, parameter, flags in writer.connection.execute(
            "SELECT id, parameter, flags FROM result WHERE sample = ?", (number,)
        )
        if _is_early(flags)
    }
    said = {key: getattr(new, key) for key in _REPORTED if getattr(new, key)}
    writer.update("sample", number, sample_row(writer, said))
    for result in new.results:
        row = result_row(writer, result)
        if result.parameter in early and result.reading.is_detect and not denies(result.reading):
            writer.update("result", early.pop(result.parameter)[0], row)
        else:
            writer.insert("result", {"sample": number, **row})
    against = {one.parameter for one in new.results if denies(one.reading)}
    for parameter in early.keys() & against if withdrawn else ():
        held, flags = early[parameter]
        more = ", ".join(sorted({*flags.split(", "), Flag.REJECTED}))
        writer.update("result", held, {"flags": more})
    no_longer_awaited(writer, number, [one.parameter for one in new.results])
    for document in new.documents:
        attach(writer, document, sample=number, well=None)


def _is_early(flags: str) -> bool:
    """Whether flags as they are kept say that a finding was told before the report, and stands."""
    said = flags.split(", ")
    return Flag.PRELIMINARY in said and Flag.REJECTED not in said


def denies(reading: Reading) -> bool:
    """Whether a reading says that nothing is there."""
    return reading.kind in {Kind.ABSENT, Kind.BELOW} or reading.number == 0


def lab_number(writer: Writer, name: str) -> int:
    """Number of a lab by its name; a new one is added."""
    found = writer.connection.execute("SELECT id FROM lab WHERE name = ?", (name,)).fetchone()
    return int(found[0]) if found else writer.insert("lab", {"name": name})


def attach(
    writer: Writer,
    new: NewDocument,
    *,
    sample: int | None,
    well: int | None,
    event: int | None = None,
) -> int:
    """Keep a document beside a sample, a well or its event; the same content is stored once.

    Raises:
        Fault: It is larger than a book should carry.
    """
    number = _document(writer, new)
    held = writer.connection.execute(
        "SELECT 1 FROM attachment WHERE document = ? AND sample IS ? AND well IS ? AND event IS ?",
        (number, sample, well, event),
    ).fetchone()
    if not held:
        _attachment(writer, number, sample=sample, well=well, event=event)
    return number


def detach(writer: Writer, document: Document) -> None:
    """Take a document away from what it is tied to; one that is tied to nothing else goes."""
    rows, number = writer.connection.execute, document.id
    (tie,) = rows(
        "SELECT id FROM attachment WHERE document = ? AND sample IS ? AND well IS ? AND event IS ?",
        (number, document.sample, document.well, document.event),
    ).fetchone()
    writer.remove("attachment", tie)
    if not rows("SELECT 1 FROM attachment WHERE document = ?", (number,)).fetchone():
        writer.remove("document", number)


def _attachment(
    writer: Writer, document: int, *, sample: int | None, well: int | None, event: int | None
) -> None:
    row: Row = {"document": document, "sample": sample, "well": well, "event": event}
    writer.insert("attachment", row)


def _document(writer: Writer, new: NewDocument) -> int:
    """Number of a document by its content; a new one is kept."""
    if len(new.content) > LARGEST_DOCUMENT:
        raise Fault(
            _(
                "{new} has {n:.0f} MB; a book takes documents of up to "
                "{largest_document:.0f} MB. Save a smaller scan (300 dpi, grey) and add that."
            ).format(
                new=new.name, n=len(new.content) / 1e6, largest_document=LARGEST_DOCUMENT / 1e6
            )
        )
    sha256 = _sha256(new.content)
    found = writer.connection.execute(
        "SELECT id FROM document WHERE sha256 = ?", (sha256,)
    ).fetchone()
    if found:
        return int(found[0])
    number = writer.insert(
        "document",
        {
            "kind": new.kind,
            "name": new.name,
            "media_type": new.media_type,
            "size": len(new.content),
            "sha256": sha256,
        },
    )
    writer.body(sha256, new.content)
    return number


@lru_cache(maxsize=4)
def _sha256(content: bytes) -> str:
    """Remembered, because all samples of a file carry the same bytes object, which hashes once."""
    return hashlib.sha256(content).hexdigest()


def _iso(moment: LocalTime | None) -> str:
    if moment is None:
        return ""
    return moment.day.isoformat() if moment.known else moment.iso()


def _known_to(moment: LocalTime) -> str:
    """How far the day of a sample is known; empty where it is known itself."""
    if moment.known is None:
        return ""
    return "month" if moment.known.month else "year"


def told_moment(row: Mapping[str, object]) -> LocalTime:
    """When a sample was drawn, as a row of the journal tells."""
    letters = {"year": 4, "month": 7}.get(str(row.get("known_to")))
    return LocalTime.parse(str(row["collected"])[:letters])
