"""The lines of a draft under review: its samples, and the readings of one of them."""

from dataclasses import dataclass

from wellbook.book.rows import NewResult
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Mark
from wellbook.intake.said import where_words
from wellbook.support.translation import N_, _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Severity
from wellbook.window.common import words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import vocabulary


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
    mark: Mark


def sample_lines(draft: Draft) -> tuple[SampleLine, ...]:
    """Every sample in the order of the file."""
    return tuple(SampleLine(place, sample) for place, sample in enumerate(draft.samples))


def reading_lines(draft: DraftSample, catalogue: Catalogue) -> tuple[ReadingLine, ...]:
    """Every reading of a sample in the order of the file."""
    known = catalogue.parameters
    return tuple(
        ReadingLine(place, new, known[new.parameter].name if new.parameter in known else "", mark)
        for place, (new, mark) in enumerate(zip(draft.sample.results, draft.marks, strict=True))
    )


def sample_columns() -> tuple[Column, ...]:
    """How a sample is set."""
    return (
        Column(_("Sampled"), _day),
        Column(_("Point as printed"), lambda line: line.draft.point_name),
        Column(_("Lab"), lambda line: line.draft.sample.lab),
        Column(_("Lab’s number"), lambda line: line.draft.sample.lab_number),
        Column(_("Readings"), lambda line: str(len(line.draft.sample.results))),
        Column(_("To look at"), lambda line: _count(line.draft)),
    )


def reading_columns() -> tuple[Column, ...]:
    """How a reading is set."""
    return (
        Column(_("Name as printed"), lambda line: line.new.name),
        Column(_("Understood as"), _name),
        Column(
            _("Result as printed"),
            lambda line: words.reading_words(line.new.reading),
        ),
        Column(
            _("Understood as"),
            lambda line: words.understood_words(line.new.reading),
        ),
        Column(_("To decide"), _doubts),
        Column(_("Remarks"), _remarks),
        Column(_("Where"), lambda line: where_words(line.mark.place)),
    )


def _day(line: SampleLine) -> str:
    if line.draft.known:
        return str(line.draft.known)
    moment = line.draft.sample.collected
    return _("day not given") if moment.day == NO_DAY else words.moment_words(moment)


def _count(draft: DraftSample) -> str:
    asked = sum(finding.severity is not Severity.NOTE for finding in draft.findings)
    asked += sum(not mark.is_certain for mark in draft.marks)
    return str(asked) if asked else ""


def _name(line: ReadingLine) -> str:
    return line.name or _("not known: kept as printed, not compared")


# What is asked about a reading, by the key of its doubt.
_DOUBTS = {
    "unknown_parameter": N_("which parameter?"),
    "near_name": N_("is it this parameter?"),
    "unknown_unit": N_("which unit?"),
    "no_unit": N_("which unit?"),
    "unfit_unit": N_("is this its unit?"),
    "no_basis": N_("counted as what?"),
    "two_bases": N_("counted as what?"),
    "odd_result": N_("what does the result say?"),
    "beyond": N_("can it be so much?"),
    "comma": N_("point or thousands?"),
    "guessed_column": N_("is this your water?"),
}


def _doubts(line: ReadingLine) -> str:
    asked = (_(_DOUBTS.get(key, N_("look at it"))) for key in line.mark.doubts)
    return " ".join(dict.fromkeys(asked))


def _remarks(line: ReadingLine) -> str:
    flags = sorted(vocabulary.flag(flag) for flag in line.new.reading.flags)
    limit = (
        _("reporting limit {figure}").format(figure=line.new.reporting_limit)
        if line.new.reporting_limit
        else ""
    )
    return ", ".join(filter(None, (*flags, line.new.qualifier, limit, line.new.method)))
