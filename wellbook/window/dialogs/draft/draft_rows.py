"""The lines of a draft under review: its samples, and the readings of one of them."""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication

from wellbook.book.rows import NewResult
from wellbook.intake.draft import NO_DAY, Draft, DraftSample
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding
from wellbook.window.common import words
from wellbook.window.widgets.table_model import Column

translate = QCoreApplication.translate


@dataclass(frozen=True, slots=True)
class SampleLine:
    """One sample of a file and its place in it."""

    place: int
    draft: DraftSample


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading of a sample and its place in it."""

    place: int
    new: NewResult
    name: str


def sample_lines(draft: Draft) -> tuple[SampleLine, ...]:
    """Every sample in the order of the file."""
    return tuple(SampleLine(place, sample) for place, sample in enumerate(draft.samples))


def reading_lines(draft: DraftSample, catalogue: Catalogue) -> tuple[ReadingLine, ...]:
    """Every reading of a sample in the order of the file."""
    known = catalogue.parameters
    return tuple(
        ReadingLine(place, new, known[new.parameter].name if new.parameter in known else "")
        for place, new in enumerate(draft.sample.results)
    )


def sample_columns() -> tuple[Column, ...]:
    """How a sample is set."""
    return (
        Column(translate("Draft", "Sampled"), _day),
        Column(translate("Draft", "Point as printed"), lambda line: line.draft.point_name),
        Column(translate("Draft", "Lab"), lambda line: line.draft.sample.lab),
        Column(translate("Draft", "Lab’s number"), lambda line: line.draft.sample.lab_number),
        Column(translate("Draft", "Readings"), lambda line: str(len(line.draft.sample.results))),
        Column(translate("Draft", "To look at"), lambda line: _count(line.draft.findings)),
    )


def reading_columns() -> tuple[Column, ...]:
    """How a reading is set."""
    return (
        Column(translate("Draft", "Name as printed"), lambda line: line.new.name),
        Column(translate("Draft", "Understood as"), _name),
        Column(
            translate("Draft", "Result as printed"),
            lambda line: words.reading_words(line.new.reading),
        ),
        Column(
            translate("Draft", "Understood as"),
            lambda line: words.understood_words(line.new.reading),
        ),
        Column(translate("Draft", "Remarks"), _remarks),
    )


def _day(line: SampleLine) -> str:
    moment = line.draft.sample.collected
    return (
        translate("Draft", "day not given") if moment.day == NO_DAY else words.moment_words(moment)
    )


def _count(findings: tuple[Finding, ...]) -> str:
    asked = sum(finding.severity != "note" for finding in findings)
    return str(asked) if asked else ""


def _name(line: ReadingLine) -> str:
    return line.name or translate("Draft", "not known: kept as printed, not compared")


def _remarks(line: ReadingLine) -> str:
    flags = sorted(words.flag_words(flag) for flag in line.new.reading.flags)
    limit = (
        translate("Draft", "reporting limit {figure}").format(figure=line.new.reporting_limit)
        if line.new.reporting_limit
        else ""
    )
    return ", ".join(filter(None, (*flags, line.new.qualifier, limit, line.new.method)))
