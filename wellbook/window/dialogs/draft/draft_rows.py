"""The lines of a draft under review: its samples, and the readings of one of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from wellbook.book.rows import NewResult
from wellbook.intake import Place
from wellbook.intake.draft import NO_DAY, Draft, DraftSample, Mark
from wellbook.intake.reviewing import Outlook
from wellbook.intake.said import where_words
from wellbook.support.translation import N_, _, pgettext
from wellbook.water.parsing.typed import meanings, shown_with_point
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Severity
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.limits import Rule
from wellbook.water.values.parameters import Parameter
from wellbook.window.common import words
from wellbook.window.widgets.table_model import Column
from wellbook.wording import verdicts, vocabulary
from wellbook.wording.reasons import why

NAME, RESULT, UNIT, VERDICT, DOUBT = range(5)  # the columns of the readings
CELLS = {  # the cell in which a doubt is settled
    "unknown_parameter": NAME, "near_name": NAME, "unknown_unit": UNIT, "no_unit": UNIT,
    "unfit_unit": UNIT, "other_unit": UNIT, "no_basis": UNIT, "two_bases": UNIT,
    "odd_basis": UNIT, "usual_unit": UNIT,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class SampleLine:
    """One sample of a file and its place in it."""

    place: int
    draft: DraftSample


@dataclass(frozen=True, slots=True)
class ReadingLine:
    """One reading of a sample and its place in it.

    Attributes:
        place: From 0.
        new: The reading as it is to be kept.
        parameter: What it is understood as; None for a name that is not known.
        mark: Where it stands, and what is doubted about it.
        outlook: How it stands to today's limits.
        change: What changed since the test before, in words; empty where nothing can be said.
    """

    place: int
    new: NewResult
    parameter: Parameter | None
    mark: Mark
    outlook: Outlook
    change: str = ""

    @property
    def name(self) -> str:
        """Plain name of what it is understood as; empty for a name that is not known."""
        return self.parameter.name if self.parameter else ""


def sample_lines(draft: Draft) -> tuple[SampleLine, ...]:
    """Every sample in the order of the file."""
    return tuple(SampleLine(place, sample) for place, sample in enumerate(draft.samples))


def marks_of(draft: Draft) -> list[tuple[Place, tuple[int, int]]]:
    """Place in the file of every reading, and its sample's and its own place in the draft."""
    return [
        (mark.place, (place, i))
        for place, sample in enumerate(draft.samples)
        for i, mark in enumerate(sample.marks)
    ]


def reading_lines(
    draft: DraftSample,
    catalogue: Catalogue,
    outlooks: Sequence[Outlook],
    changes: Mapping[str, str],
) -> tuple[ReadingLine, ...]:
    """Every reading of a sample in the order of the file."""
    known = catalogue.parameters
    return tuple(
        ReadingLine(
            place, new, known.get(new.parameter), mark, outlook, changes.get(new.parameter, "")
        )
        for place, (new, mark, outlook) in enumerate(
            zip(draft.sample.results, draft.marks, outlooks, strict=True)
        )
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
        Column(_("Parameter"), _name, tip=_printed),
        Column(_("Result"), _result, tip=_understood),
        Column(pgettext("byhand", "Unit"), unit_words),
        Column(
            _("Against today’s limit"),
            _verdict,
            tip=_standing,
            verdict=lambda line: line.outlook.now.verdict,
        ),
        Column(_("To decide"), _doubts, tip=_doubts_tip),
    )


def _day(line: SampleLine) -> str:
    moment = line.draft.sample.collected
    return _("day not given") if moment.day == NO_DAY else words.moment_words(moment)


def _count(draft: DraftSample) -> str:
    asked = sum(finding.severity is not Severity.NOTE for finding in draft.findings)
    asked += sum(not mark.is_certain for mark in draft.marks)
    return str(asked) if asked else ""


def _name(line: ReadingLine) -> str:
    return line.name or line.new.name


def _printed(line: ReadingLine) -> str:
    said = _("printed “{name}”, {where}").format(
        name=line.new.name, where=where_words(line.mark.place)
    )
    return said if line.name else f"{said}: {_('not known: kept as printed, not compared')}"


def _result(line: ReadingLine) -> str:
    reading = line.new.reading
    return shown_with_point(reading) or words.understood_words(reading)


def _understood(line: ReadingLine) -> str:
    said = _("printed “{text}”, understood as: {meaning}").format(
        text=line.new.reading.text, meaning=words.understood_words(line.new.reading)
    )
    return "; ".join(filter(None, (said, _remarks(line))))


def unit_words(line: ReadingLine) -> str:
    """The unit with its basis, as it is also typed."""
    reading = line.new.reading
    unit = "" if reading.unit == "1" else reading.unit
    basis = "" if reading.basis.casefold() in unit.casefold() else reading.basis
    return " ".join(filter(None, (unit, basis)))


def _verdict(line: ReadingLine) -> str:
    now = line.outlook.now
    is_over = now.verdict is Verdict.OUTSIDE and now.limit and now.limit.rule is Rule.MAX
    said = verdicts.word(now)
    if is_over:
        limit = words.limit_beside(now.limit, line.new.reading, line.parameter)
        said = _("over {limit}").format(limit=limit)
    return _("{said}, first time").format(said=said) if line.outlook.is_first else said


def _standing(line: ReadingLine) -> str:
    now = line.outlook.now
    limit = words.limit_words(now.limit)
    return " ".join(filter(None, (verdicts.sentence(now), limit, why(now))))


# What is asked about a reading, by the key of its doubt.
_DOUBTS = {
    "unknown_parameter": N_("which parameter?"),
    "near_name": N_("is it this parameter?"),
    "prose": N_("read from a sentence: is it right?"),
    "unknown_unit": N_("which unit?"),
    "no_unit": N_("which unit?"),
    "unfit_unit": N_("is this its unit?"),
    "other_unit": N_("is this its unit?"),
    "usual_unit": N_("is this its unit?"),
    "no_basis": N_("counted as what?"),
    "two_bases": N_("counted as what?"),
    "odd_basis": N_("counted as what?"),
    "odd_result": N_("what does the result say?"),
    "only_fine": N_("were none found?"),
    "only_bad": N_("were some found?"),
    "rejected": N_("does the lab stand by it?"),
    "beyond": N_("can it be so much?"),
    "struck": N_("struck through: still true?"),
    "changed": N_("do the words beside it change it?"),
    "comma": N_("point or thousands?"),
    "pictured": N_("is it so on the page?"),
    "repeated": N_("is it of another sample?"),
    "guessed_column": N_("is this your water?"),
    "some_date": N_("is this the day of sampling?"),
    "open_kind": N_("is this your water?"),
    "hidden_row": N_("hidden row: still true?"),
    "hidden_column": N_("hidden column: still true?"),
    "second_bottle": N_("does this duplicate count?"),
}


def _doubts(line: ReadingLine) -> str:
    asked = [_(_DOUBTS.get(key, N_("look at it"))) for key in line.mark.doubts]
    if "near_name" in line.mark.doubts:
        asked.insert(0, _("printed “{name}”:").format(name=line.new.name))
    if "comma" in line.mark.doubts and meanings(line.new.reading.text):
        asked.insert(0, f"{line.new.reading.text}:")
    return " ".join(dict.fromkeys(asked))


def _doubts_tip(line: ReadingLine) -> str:
    return _doubts(line) or _remarks(line)


def _remarks(line: ReadingLine) -> str:
    flags = sorted(vocabulary.flag(flag) for flag in line.new.reading.flags)
    limit = (
        _("reporting limit {figure}").format(figure=line.new.reporting_limit)
        if line.new.reporting_limit
        else ""
    )
    return ", ".join(filter(None, (*flags, line.new.qualifier, limit, line.new.method)))


def with_printed_names(reviewed: Draft, printed: Draft) -> Draft:
    """A draft that was reviewed, with the names of its points as they are printed."""
    pairs = zip(reviewed.samples, printed.samples, strict=True)
    samples = tuple(replace(one, point_name=other.point_name) for one, other in pairs)
    return replace(reviewed, samples=samples)
