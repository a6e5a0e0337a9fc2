"""The lines of a parameter's table: each result with what it was held against, then and now."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from wellbook.support.translation import _
from wellbook.water.values.parameters import Parameter
from wellbook.water.values.readings import Kind
from wellbook.water.values.results import Result
from wellbook.water.verdicts.judge import Judgement, Verdict
from wellbook.water.verdicts.point_record import Assessed
from wellbook.window.common import words
from wellbook.window.dialogs.report.report_dialog import place_words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import facts, verdicts, vocabulary
from wellbook.wording.reasons import why
from wellbook.wording.reference import cited


@dataclass(frozen=True, slots=True)
class Line:
    """One result with its figure in the usual unit and both verdicts."""

    result: Result
    figure: Decimal | None
    then: Judgement
    now: Judgement


def lines(assessed: Iterable[Assessed], parameter: Parameter) -> tuple[Line, ...]:
    """The results of a parameter at a point, the newest first."""
    from wellbook.water.units.conversion import in_usual

    newest_first = sorted(assessed, key=lambda one: one.result.collected.order(), reverse=True)
    return tuple(
        Line(one.result, in_usual(one.result.reading, parameter), one.then, one.now)
        for one in newest_first
    )


def columns(parameter: Parameter, shown: Sequence[Line]) -> tuple[Column, ...]:
    """How a line is set; figures in the usual unit only where a lab used another."""
    unit = facts.with_unit("", parameter.unit, parameter.basis)
    figures = Column(_("In {unit}").format(unit=unit), _figure, sort=lambda line: line.figure)
    is_mixed = parameter.scale == "number" and any(map(_is_other, shown))
    return (
        Column(
            _("Sampled"),
            lambda line: words.moment_words(line.result.collected),
            sort=lambda line: line.result.collected.order(),
        ),
        Column(
            _("As reported"),
            lambda line: words.reading_words(line.result.reading),
            tip=lambda line: line.result.name,
            sort=lambda line: line.figure,
        ),
        *([figures] if is_mixed else []),
        *_verdict_columns(parameter, shown),
        Column(_("Remarks"), _remarks),
        Column(_("Method"), lambda line: line.result.method),
        Column(_("Lab"), lambda line: line.result.lab),
        Column(_("In the report"), lambda line: place_words(line.result)),
    )


def _verdict_columns(parameter: Parameter, shown: Sequence[Line]) -> list[Column]:
    """Both verdicts, in one column where no limit has moved between them."""
    if all(_is_same(line.then, line.now) for line in shown):
        return [_verdict_column(_("Then and now"), parameter, lambda line: line.now)]
    return [
        _verdict_column(_("On that day"), parameter, lambda line: line.then),
        _verdict_column(_("By today’s limits"), parameter, lambda line: line.now),
    ]


def _is_same(one: Judgement, other: Judgement) -> bool:
    figures = (words.limit_words(one.limit), words.limit_words(other.limit))
    return one.verdict is other.verdict and figures[0] == figures[1]


def _verdict_column(
    title: str, parameter: Parameter, judged: Callable[[Line], Judgement]
) -> Column:
    def text(line: Line) -> str:
        judgement = judged(line)
        said = verdicts.word(judgement)
        allowed = words.limit_beside(judgement.limit, line.result.reading, parameter)
        return f"{said} · {allowed}" if allowed else said

    def tip(line: Line) -> str:
        judgement = judged(line)
        return ". ".join(
            filter(None, (why(judgement), cited(judgement.limit.source) if judgement.limit else ""))
        )

    def mark(line: Line) -> Verdict:
        return judged(line).verdict

    return Column(title, text, tip=tip, verdict=mark)


def _is_other(line: Line) -> bool:
    return line.figure is not None and line.figure != line.result.reading.number


def _figure(line: Line) -> str:
    if line.figure is None:
        return ""
    sign = {Kind.BELOW: "<", Kind.ABOVE: ">"}.get(line.result.reading.kind, "")
    printed = line.result.reading.number
    return sign + words.number_words(words.as_exact_as(line.figure, printed))


def _remarks(line: Line) -> str:
    result = line.result
    flags = sorted(vocabulary.flag(flag) for flag in result.reading.flags)
    limits = (
        _("reporting limit {figure}").format(figure=result.reporting_limit)
        if result.reporting_limit
        else "",
        vocabulary.draw(result.draw),
        vocabulary.fraction(result.reading.fraction),
    )
    return ", ".join(filter(None, (*flags, *limits)))
