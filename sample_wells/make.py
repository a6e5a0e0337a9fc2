"""Make the sample books and their lab files from the tables in each household's folder.

Run `python sample_wells/make.py` after a change of a table. `--into FOLDER` writes elsewhere.
Everything comes out the same on every run: the clock stands still and walks a minute per write.
"""

import argparse
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from layouts import LAYOUTS
from tables import Household, ReportRow, ResultRow, SampleRow, read_household

from wellbook.book import Book
from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.support import paths
from wellbook.water.parsing.printed import read_reading
from wellbook.water.values.catalogue import Catalogue, read_catalogue
from wellbook.water.values.local_time import LocalTime

HERE = Path(__file__).resolve().parent
HOUSEHOLDS = ("alder-hollow", "first-year", "salt-lane")
_MEDIA = {
    ".csv": "text/csv",
    ".pdf": "application/pdf",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


def main() -> None:
    """Write books and lab files beside the tables, or into another folder."""
    parser = argparse.ArgumentParser(description="Make the sample books and their lab files.")
    parser.add_argument("--into", type=Path, default=HERE)
    into = parser.parse_args().into
    catalogue = read_catalogue(paths.resources())
    for key in HOUSEHOLDS:
        household = read_household(HERE / key)
        files = lab_files(household)
        for name, content in files.items():
            path = into / key / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        book = into / f"{key}.wellbook"
        book.unlink(missing_ok=True)
        fill(book, household, files, catalogue)
        print(f"{book}: {len(household.samples)} samples, {len(files)} lab files")


def lab_files(household: Household) -> dict[str, bytes]:
    """Each report's file, by its path in the household's folder."""
    client = household.about["well"]["name"]
    return {
        file_name(report): LAYOUTS[report.lab, Path(report.report).suffix](
            client,
            report,
            [(s, as_first_printed(household, report, s)) for s in household.samples_of(report)],
        )
        for report in household.reports
    }


def file_name(report: ReportRow) -> str:
    """Where a report lies: `reports/` if it is in the book, `to-add/` if it is not yet."""
    return f"{'reports' if report.in_book == 'yes' else 'to-add'}/{report.report}"


def fill(path: Path, household: Household, files: dict[str, bytes], catalogue: Catalogue) -> None:
    """Make a household's book."""
    about = household.about
    with Book.create(path, now=_clock()) as book:
        for key, value in about["settings"].items():
            book.set_setting(key, value)
        well = book.add_well(**about["well"])
        points = {row["name"]: book.add_point(well, **row) for row in about["points"]}
        for row in about["labs"]:
            book.add_lab(**row)
        for row in about.get("units", ()):
            services = row.pop("services", ())
            unit = book.add_unit(well, **row)
            for service in services:
                book.add_service(unit, **service)
        for row in about["events"]:
            book.add_event(well, **row)
        for row in about["plans"]:
            book.set_plan(**(row | {"point": points[row["point"]]}))
        for report in household.reports:
            if report.in_book == "yes":
                document = _document(report, files[file_name(report)])
                if report.amends:
                    _amend(book, household, report, document, catalogue)
                else:
                    _enter(book, household, report, document, points, catalogue)


def _enter(
    book: Book,
    household: Household,
    report: ReportRow,
    document: NewDocument,
    points: dict[str, int],
    catalogue: Catalogue,
) -> None:
    rows = household.samples_of(report)
    numbers = book.add_samples(
        [
            NewSample(
                point=points[row.point],
                collected=LocalTime.parse(row.collected),
                lab=report.lab,
                lab_number=row.sample,
                received=LocalTime.parse(row.received),
                reported=report.reported,
                purpose=row.purpose,
                standing=row.standing,
                draw=row.draw,
                temperature=row.temperature,
                rain=row.rain,
                note=row.note,
                results=tuple(
                    new_result(result, catalogue)
                    for result in as_first_printed(household, report, row)
                ),
                documents=(document,),
            )
            for row in rows
        ]
    )
    for row, number in zip(rows, numbers, strict=True):
        if row.struck:
            book.strike_sample(number, row.struck)


def _amend(
    book: Book,
    household: Household,
    report: ReportRow,
    document: NewDocument,
    catalogue: Catalogue,
) -> None:
    for amendment in household.amendments:
        if amendment.first_report == report.amends:
            (sample,) = (s for s in book.samples() if s.lab_number == amendment.sample)
            (old,) = (r for r in book.results(sample=sample.id) if r.name == amendment.name)
            (row,) = (
                row
                for row in household.results
                if (row.sample, row.name) == (amendment.sample, amendment.name)
            )
            book.add_document(document, sample=sample.id)
            book.correct_result(old.id, new_result(row, catalogue), amendment.reason)


def as_first_printed(
    household: Household, report: ReportRow, sample: SampleRow
) -> tuple[ResultRow, ...]:
    """The results of a sample as this report printed them, before any amendment of it."""
    first = {
        (a.sample, a.name): a.first_result
        for a in household.amendments
        if a.first_report == report.report
    }
    return tuple(
        replace(row, result=first.get((row.sample, row.name), row.result))
        for row in household.results_of(sample)
    )


def new_result(row: ResultRow, catalogue: Catalogue) -> NewResult:
    """A printed line as it goes into a book."""
    parameter = catalogue.find(row.name) or catalogue.find(row.name.removesuffix(", Dissolved"))
    if parameter is None:
        raise LookupError(f"the catalogue does not know {row.name}")
    reading = read_reading(
        row.result,
        unit=row.unit,
        basis=row.basis,
        fraction=row.fraction,
        qualifier=row.qualifier,
        limit=row.reporting_limit,
    )
    return NewResult(
        parameter=parameter.key,
        name=row.name,
        reading=reading,
        method=row.method,
        reporting_limit=row.reporting_limit,
        detection_limit=row.detection_limit,
        qualifier=row.qualifier,
        lab=row.lab,
        analysed=LocalTime.parse(row.analysed) if row.analysed else None,
    )


def _document(report: ReportRow, content: bytes) -> NewDocument:
    return NewDocument(report.report, _MEDIA[Path(report.report).suffix], content)


def _clock() -> Callable[[], datetime]:
    """A clock that starts on an evening in November 2026 and walks a minute at each look."""
    minutes = iter(range(100_000))
    start = datetime(2026, 11, 21, 18, tzinfo=UTC)
    return lambda: start + timedelta(minutes=next(minutes))


if __name__ == "__main__":
    main()
