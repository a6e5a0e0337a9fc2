"""The lines of the page of tests: samples, and the readings of one of them."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from wellbook.book.rows import Sample
from wellbook.planning.settings import measured
from wellbook.support.translation import _
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.window.common import words
from wellbook.window.common.household import Household
from wellbook.window.dialogs.report.report_dialog import place_words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import verdicts, vocabulary
from wellbook.wording.reasons import why


@dataclass(frozen=True, slots=True)
class Line:
    """One sample with where it was drawn and how much belongs to it."""

    sample: Sample
    point: str
    readings: int
    documents: int


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading of a sample with the parameter's name and how it stood that day."""

    result: Result
    parameter: Parameter | None
    judgement: Judgement


def lines(household: Household) -> tuple[Line, ...]:
    """Every sample of the book, struck ones too, the newest first."""
    record = household.record
    points = {point.id: point.name for point in record.points}
    readings = Counter(result.sample for result in record.results(with_struck=True))
    documents = Counter(document.sample for document in record.documents)
    samples = sorted(
        record.samples(with_struck=True), key=lambda s: s.collected.order(), reverse=True
    )
    return tuple(
        Line(sample, points[sample.point], readings[sample.id], documents[sample.id])
        for sample in samples
    )


def columns() -> tuple[Column, ...]:
    """How a sample is set."""
    return (
        Column(
            _("Sampled"),
            lambda line: words.moment_words(line.sample.collected),
            sort=lambda line: line.sample.collected.order(),
        ),
        Column(_("Point"), lambda line: line.point),
        Column(_("Lab"), lambda line: line.sample.lab),
        Column(_("Lab’s number"), lambda line: line.sample.lab_number),
        Column(_("Purpose"), lambda line: vocabulary.purpose(line.sample.purpose)),
        Column(_("Readings"), lambda line: str(line.readings)),
        Column(_("Documents"), lambda line: str(line.documents)),
        Column(_("Remark"), _remark),
    )


def _remark(line: Line) -> str:
    if line.sample.struck:
        return _("struck out: {reason}").format(reason=line.sample.struck)
    return line.sample.note


def reading_lines(
    household: Household, record: PointRecord, sample: int, sets: Sequence[str]
) -> tuple[ReadingLine, ...]:
    """The readings of one sample, all of them, in the order of the lab's report.

    Args:
        household: The household.
        record: All results at the sample's point.
        sample: Number of the sample.
        sets: Keys of the limit sets to compare with.
    """
    from wellbook.water.verdicts.judge import assess

    catalogue = measured(household.record.settings, household.catalogue)
    results = record.samples.get(sample, ())
    return tuple(
        ReadingLine(
            assessed.result,
            catalogue.parameters.get(assessed.result.parameter),
            assessed.then,
        )
        for assessed in assess(results, record, catalogue, sets, household.today)
    )


def reading_columns() -> tuple[Column, ...]:
    """How a reading is set."""
    return (
        Column(
            _("Parameter"),
            lambda line: line.parameter.name if line.parameter else line.result.name,
            tip=lambda line: line.result.name,
        ),
        Column(
            _("As reported"),
            lambda line: words.reading_words(line.result.reading),
        ),
        Column(
            _("On that day"),
            _standing,
            tip=lambda line: why(line.judgement),
            verdict=_mark,
        ),
        Column(_("Method"), lambda line: line.result.method),
        Column(_("In the report"), lambda line: place_words(line.result)),
    )


def _standing(line: ReadingLine) -> str:
    limit = line.judgement.limit
    said = verdicts.word(line.judgement)
    allowed = words.limit_beside(limit, line.result.reading, line.parameter)
    return f"{said} · {allowed}" if allowed else said


def _mark(line: ReadingLine) -> Verdict:
    return line.judgement.verdict
