"""The lines of the page of tests: samples, and the readings of one of them."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from wellbook.book.rows import Sample
from wellbook.planning.settings import measured
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.point_record import Assessed, PointRecord
from wellbook.window.common import words
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Tell
from wellbook.window.dialogs.report.report_dialog import place_words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import verdicts, vocabulary
from wellbook.wording.reasons import why


@dataclass(frozen=True, slots=True)
class Passed:
    """Names of the parameters of a sample that call for a look, by the limits of its day."""

    outside: tuple[str, ...] = ()
    untold: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One sample with where it was drawn and how much belongs to it.

    `passed` is None until it was worked out.
    """

    sample: Sample
    point: str
    readings: int
    documents: int
    passed: Passed | None = None


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading of a sample with the parameter's name and how it stood that day."""

    result: Result
    parameter: Parameter | None
    judgement: Judgement


def lines(household: Household, passed: Mapping[int, Passed]) -> tuple[Line, ...]:
    """Every sample of the book, struck ones too, the newest first.

    Args:
        household: The household.
        passed: What is known of samples by their number.
    """
    record = household.record
    points = {point.id: point.name for point in record.points}
    readings = Counter(result.sample for result in record.results(with_struck=True))
    documents = Counter(document.sample for document in record.documents)
    samples = sorted(
        record.samples(with_struck=True), key=lambda s: s.collected.order(), reverse=True
    )
    return tuple(
        Line(
            sample,
            points[sample.point],
            readings[sample.id],
            documents[sample.id],
            passed.get(sample.id),
        )
        for sample in samples
    )


def to_pass(household: Household, sets: Sequence[str]) -> Callable[[Tell], dict[int, Passed]]:
    """Works out on another thread which samples had something outside a limit of their day.

    It gives what it finds by the number of the sample.
    """
    record, today = household.record, household.today
    catalogue = measured(record.settings, household.catalogue)

    def work(tell: Tell) -> dict[int, Passed]:
        from wellbook.water.verdicts.judge import assess

        found: dict[int, Passed] = {}
        for point in record.points:
            at = PointRecord.of(record.results(point.id, with_struck=True))
            for number, results in at.samples.items():
                tell(0, 0, "")
                found[number] = _named(assess(results, at, catalogue, sets, today), catalogue)
        return found

    return work


def _named(assessed: Iterable[Assessed], catalogue: Catalogue) -> Passed:
    named: dict[Verdict, dict[str, None]] = {verdict: {} for verdict in Verdict}
    for one in assessed:
        known = catalogue.parameters.get(one.result.parameter)
        named[one.then.verdict][known.name if known else one.result.name] = None
    outside = tuple(named[Verdict.OUTSIDE])
    return Passed(outside, tuple(n for n in named[Verdict.UNDECIDABLE] if n not in outside))


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
        Column(
            _("Outside a limit that day"),
            _passed,
            verdict=_passed_mark,
            sort=lambda line: len(line.passed.outside) if line.passed else None,
        ),
    )


def _passed(line: Line) -> str:
    if line.passed is None:
        return "…"
    outside, untold = map(", ".join, (line.passed.outside, line.passed.untold))
    said = _("can’t be told: {names}").format(names=untold) if untold else ""
    return "; ".join(filter(None, (outside, said)))


def _passed_mark(line: Line) -> Verdict | None:
    if line.passed is None or not (line.passed.outside or line.passed.untold):
        return None
    return Verdict.OUTSIDE if line.passed.outside else Verdict.UNDECIDABLE


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
