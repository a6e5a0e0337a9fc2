"""The record as tables of text, one after the other, and the dictionary of their columns."""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from wellbook.book.record import Record
from wellbook.book.rows import Document
from wellbook.sharing import columns
from wellbook.sharing.columns import PERSONAL, Field
from wellbook.sharing.formula_guard import RULE, inert
from wellbook.sharing.redaction import Privacy, privacy
from wellbook.sharing.rounding import usual_number
from wellbook.support.translation import N_
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result

_LONGEST_NAME = 120
_COMPARATORS = {Kind.BELOW: "<", Kind.ABOVE: ">"}


@dataclass(frozen=True, slots=True)
class Table:
    """One table: its file, what one row is, its columns and its rows.

    Its bytes are UTF-8 with a byte order mark: without one the usual spreadsheets read `µg/L`
    wrongly.
    """

    file: str
    meaning: str
    fields: tuple[Field, ...]
    rows: Sequence[Sequence[str]]

    def content(self) -> bytes:
        """The file's bytes."""
        text = io.StringIO(newline="")
        writer = csv.writer(text)  # commas, CRLF, quotes where needed: RFC 4180
        writer.writerow([field.name for field in self.fields])
        writer.writerows([inert(cell) for cell in row] for row in self.rows)
        return text.getvalue().encode("utf-8-sig")


def tables(
    record: Record,
    catalogue: Catalogue,
    *,
    with_personal: bool,
    named: dict[int, str],
    more: Sequence[Table] = (),
) -> list[Table]:
    """Every table of the record, the data dictionary last.

    Args:
        record: The record.
        catalogue: Parameters, for the figures in usual units.
        with_personal: Whether facts about people are in them.
        named: Where each document's file lies beside the tables; names of others are left out
            unless facts about people are in.
        more: Tables that are made elsewhere; the dictionary tells of them, too.
    """
    cover = privacy(record, with_personal=with_personal)
    made = [
        _wells(record, cover),
        _construction(record, cover),
        _points(record, cover),
        _units(record, cover),
        _services(record, cover),
        _labs(record, cover),
        _plans(record, cover, with_personal=with_personal),
        _events(record, cover, with_personal=with_personal),
        _samples(record, cover),
        _results(record, catalogue, cover),
        _documents(record, named, with_personal=with_personal),
        *more,
    ]
    kept = made if with_personal else [_impersonal(table) for table in made]
    return [*kept, _dictionary(kept)]


def _impersonal(table: Table) -> Table:
    places = [i for i, field in enumerate(table.fields) if field.name not in PERSONAL]
    return Table(
        table.file,
        table.meaning,
        tuple(table.fields[i] for i in places),
        [[row[i] for i in places] for row in table.rows],
    )


def _dictionary(made: Sequence[Table]) -> Table:
    own = Table(
        "dictionary.csv", N_("One row for each column of each table"), columns.DICTIONARY, ()
    )
    rows = [["", "", RULE, ""]]
    for table in (*made, own):
        rows.append([table.file, "", table.meaning, ""])
        rows += [[table.file, field.name, field.meaning, field.unit] for field in table.fields]
    return Table(own.file, own.meaning, own.fields, rows)


def _yes(fact: object) -> str:
    return "yes" if fact else "no"


def _wells(record: Record, cover: Privacy) -> Table:
    rows = [
        [
            str(one.id),
            cover.cover(one.name),
            str(one.replaces or ""),
            cover.cover(one.note),
            one.address,
            one.coordinates,
        ]
        for one in record.wells
    ]
    return Table("wells.csv", N_("One row for each well"), columns.WELLS, rows)


def _construction(record: Record, cover: Privacy) -> Table:
    rows = [
        [str(one.id), cover.cover(item), cover.cover(text)]
        for one in record.wells
        for item, text in one.construction.items()
    ]
    meaning = N_("One row for each item of a well's log")
    return Table("construction.csv", meaning, columns.CONSTRUCTION, rows)


def _points(record: Record, cover: Privacy) -> Table:
    rows = [
        [
            str(one.id),
            str(one.well),
            cover.cover(one.name),
            _yes(one.treated),
            str(one.place),
            cover.cover(one.note),
        ]
        for one in record.points
    ]
    return Table("points.csv", N_("One row for each sampling point"), columns.POINTS, rows)


def _units(record: Record, cover: Privacy) -> Table:
    rows = [
        [
            str(one.id),
            str(one.well),
            cover.cover(one.name),
            one.kind,
            str(one.place),
            one.installed,
            one.removed,
            one.target,
            cover.cover(one.note),
        ]
        for one in record.units
    ]
    return Table("units.csv", N_("One row for each treatment unit"), columns.UNITS, rows)


def _services(record: Record, cover: Privacy) -> Table:
    rows = [
        [str(one.id), str(one.unit), one.day, one.until, one.kind, cover.cover(one.text)]
        for one in record.services
    ]
    meaning = N_("One row for each service or bypass of a treatment unit")
    return Table("services.csv", meaning, columns.SERVICES, rows)


def _labs(record: Record, cover: Privacy) -> Table:
    rows = [
        [
            str(one.id),
            one.name,
            one.accreditation,
            one.valid_from,
            one.valid_to,
            cover.cover(one.note),
        ]
        for one in record.labs
    ]
    return Table("labs.csv", N_("One row for each lab"), columns.LABS, rows)


def _plans(record: Record, cover: Privacy, *, with_personal: bool) -> Table:
    rows = [
        [
            str(one.id),
            str(one.point),
            one.panel,
            str(one.months),
            cover.cover(one.reason),
            one.postponed,
            cover.cover(one.postponed_why),
        ]
        for one in record.plans
        if with_personal or not one.is_follow_up
    ]
    return Table("plans.csv", N_("One row for each planned group of a point"), columns.PLANS, rows)


def _events(record: Record, cover: Privacy, *, with_personal: bool) -> Table:
    rows = [
        [
            str(one.id),
            str(one.well),
            one.kind,
            one.day,
            one.until,
            cover.cover(one.text),
            _yes(one.private),
        ]
        for one in record.events
        if with_personal or not one.is_about_people
    ]
    return Table("events.csv", N_("One row for each event"), columns.EVENTS, rows)


def _samples(record: Record, cover: Privacy) -> Table:
    rows = [
        [
            str(one.id),
            str(one.point),
            one.collected.iso(),
            one.lab,
            one.lab_number,
            one.dispatched.iso() if one.dispatched else "",
            one.received.iso() if one.received else "",
            one.reported,
            one.purpose,
            one.sampler,
            one.standing,
            one.draw,
            one.temperature,
            one.rain,
            cover.cover(one.note),
            cover.cover(one.struck),
        ]
        for one in record.samples(with_struck=True)
    ]
    return Table("samples.csv", N_("One row for each sample"), columns.SAMPLES, rows)


def _results(record: Record, catalogue: Catalogue, cover: Privacy) -> Table:
    wells = {one.id: cover.cover(one.name) for one in record.wells}
    places = {
        one.id: [wells[one.well], cover.cover(one.name), _yes(one.treated)] for one in record.points
    }
    struck = {one.id for one in record.samples(with_struck=True) if one.struck}
    rows = [
        [
            str(one.id),
            str(one.sample),
            *places[one.point],
            one.collected.iso(),
            one.parameter,
            one.name,
            *_reading(one),
            one.qualifier,
            ", ".join(sorted(one.reading.flags)),
            one.reporting_limit,
            one.detection_limit,
            one.method,
            one.lab,
            one.analysed.iso() if one.analysed else "",
            one.draw,
            *_usual(one, catalogue),
            _yes(one.sample in struck),
        ]
        for one in record.results(with_struck=True)
    ]
    return Table("results.csv", N_("One row for each reading"), columns.RESULTS, rows)


def _reading(one: Result) -> list[str]:
    said = one.reading
    return [
        said.text,
        said.kind,
        _COMPARATORS.get(said.kind, ""),
        "" if said.number is None else f"{said.number:f}",
        said.unit,
        said.basis,
        said.fraction,
    ]


def _usual(one: Result, catalogue: Catalogue) -> list[str]:
    parameter = catalogue.parameters.get(one.parameter)
    number = usual_number(one, parameter)
    if parameter is None or number is None:
        return ["", "", ""]
    return [f"{number:f}", parameter.unit, parameter.basis]


def _documents(record: Record, named: dict[int, str], *, with_personal: bool) -> Table:
    rows = [
        [
            str(one.id),
            str(one.sample or ""),
            str(one.well or ""),
            one.kind,
            one.name if with_personal or one.id in named else "",
            one.media_type,
            str(one.size),
            one.sha256,
            named.get(one.id, ""),
        ]
        for one in record.documents
    ]
    meaning = N_("One row for each document and sample or well it belongs to")
    return Table("documents.csv", meaning, columns.DOCUMENTS, rows)


def file_names(documents: Iterable[Document]) -> dict[int, str]:
    """A file name under `documents/` for each document: harmless, and each only once."""
    return {one.id: f"documents/{one.id:04d}-{_harmless(one.name)}" for one in documents}


def _harmless(name: str) -> str:
    """A name without folders and without signs that some file system refuses."""
    last = re.split(r"[/\\]", name)[-1]
    kept = re.sub(r"[^\w.() -]", "_", last).strip(" .") or "document"
    stem, dot, ending = kept.rpartition(".")
    return (
        kept
        if len(kept) <= _LONGEST_NAME
        else f"{(stem or kept)[: _LONGEST_NAME - 10]}{dot}{ending[:9]}"
    )
