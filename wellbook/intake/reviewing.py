"""Whether the samples of a draft hang together, with themselves and with their well's history."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book import Book
from wellbook.intake.destinations import place_of, points_of
from wellbook.intake.draft import ACCREDITED, NO_DAY, Draft, DraftSample
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.plausibility.checks import check
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name
from wellbook.water.verdicts.judge import assess
from wellbook.water.verdicts.latest_change import LatestChange, latest_change
from wellbook.water.verdicts.point_record import PointRecord
from wellbook.wording import findings

_MANY = 50  # samples in a file; comparing each with a long history would take minutes


def review(
    draft: Draft, catalogue: Catalogue, book: Book | None = None, *, well: str = "", point: str = ""
) -> Draft:
    """The draft with everything that is odd about its samples said beside them.

    Args:
        draft: What `read` made of a file.
        catalogue: The reference data.
        book: Where it may go; its results at the same point are the history to compare with,
            unless the file itself brings many years.
        well: Name of the well, as for `store`.
        point: Name of the sampling point, as for `store`.
    """
    histories: dict[int, list[Result]] = {}

    def history(sample: DraftSample) -> Sequence[Result]:
        if book is None or len(draft.samples) > _MANY:
            return ()
        try:
            place = place_of(sample, points_of(book, well, draft.source.name), point, draft)
        except Fault:
            return ()  # said when it is stored
        if place.id not in histories:
            histories[place.id] = book.results(place.id)
        return histories[place.id]

    reviewed = (_reviewed(sample, catalogue, history(sample)) for sample in draft.samples)
    said = _of_accreditation(draft, book)
    kept = (finding for finding in draft.findings if finding.key != ACCREDITED)
    return replace(draft, samples=tuple(reviewed), findings=(*kept, *said))


def _of_accreditation(draft: Draft, book: Book | None) -> tuple[Finding, ...]:
    """What becomes of the accreditation that the file prints."""
    printed = draft.accreditation
    if not printed:
        return ()
    labs = book.labs() if book else []
    own = next((lab for lab in labs if normal_name(lab.name) == normal_name(draft.lab)), None)
    known = own.accreditation if own else ""
    if not draft.lab:
        text = _(
            "The file prints an accreditation, “{printed}”, and names no one lab it is kept with."
        )
    elif not known:
        text = _("The file prints the lab’s accreditation, “{printed}”; it is kept with the lab.")
    elif normal_name(known) == normal_name(printed):
        return ()
    else:
        text = _(
            "The file prints the lab’s accreditation as “{printed}”, the book has “{known}”, which "
            "stays. Correct it with the lab if it has changed."
        )
    said = text.format(printed=printed, known=known)
    return (Finding(ACCREDITED, said, severity=Severity.NOTE),)


def _reviewed(sample: DraftSample, catalogue: Catalogue, history: Sequence[Result]) -> DraftSample:
    found = check(
        [_as_kept(sample, number) for number in range(len(sample.sample.results))],
        catalogue,
        history,
        today=date.today(),
        received=sample.sample.received,
    )
    return replace(sample, findings=tuple(map(findings.worded, found)))


@dataclass(frozen=True, slots=True)
class Outlook:
    """How a reading of a draft would stand in the book.

    Attributes:
        now: How it stands to the limits of today, beside its whole sample.
        is_first: Whether it is over a limit that no earlier test at its point was over.
    """

    now: Judgement
    is_first: bool = False


def outlooks(
    sample: DraftSample,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    history: Sequence[Result] = (),
) -> tuple[Outlook, ...]:
    """How each result of a draft stands to the limits of today, beside its whole sample.

    Args:
        sample: A sample of a draft.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day whose limits hold.
        history: Results at the same point.
    """
    results = [_as_kept(sample, number) for number in range(len(sample.sample.results))]
    judged = assess(results, PointRecord.of(results), catalogue, sets, today)
    over = {one.result.parameter for one in judged if one.now.verdict is Verdict.OUTSIDE}
    day = sample.sample.collected.day
    earlier = [old for old in history if old.parameter in over and old.collected.day < day]
    record = PointRecord.of(history)
    before = [(one.result.parameter, one.now.verdict)
              for one in assess(earlier, record, catalogue, sets, today)]  # fmt: skip
    tested = {parameter for parameter, _verdict in before}
    was_over = {parameter for parameter, verdict in before if verdict is Verdict.OUTSIDE}
    return tuple(
        Outlook(one.now, one.result.parameter in over & tested - was_over) for one in judged
    )


def changes(
    draft: Draft,
    place: int,
    catalogue: Catalogue,
    sets: Sequence[str],
    today: date,
    history: Sequence[Result] = (),
) -> dict[str, LatestChange]:
    """What changed from the test before to a sample of a draft, by parameter.

    Only of what it is the latest test of. Earlier samples of the file count as tests before, as
    long as they are few.

    Args:
        draft: The draft.
        place: Place of the sample in it.
        catalogue: The reference data.
        sets: Keys of the household's limit sets.
        today: The day whose limits hold.
        history: Results at the same point.
    """
    sample = draft.samples[place]
    day = sample.sample.collected.day
    if day == NO_DAY:
        return {}
    few = draft.samples if len(draft.samples) <= _MANY else (sample,)
    here = (one for one in few if one.point_name == sample.point_name and one is not sample)
    before = [one for one in here if NO_DAY < one.sample.collected.day <= day]
    # Numbers below zero tell the samples of the file from those of the book and from each other.
    results = [
        _as_kept(one, index, -number)
        for number, one in enumerate((sample, *before))
        for index in range(len(one.sample.results))
    ]
    record = PointRecord.of([*history, *results])
    found = {}
    for key in dict.fromkeys(result.parameter for result in sample.sample.results):
        if key in catalogue.parameters:
            change = latest_change(record, catalogue.parameters[key], catalogue, sets, today)
            if change is not None and change.day == day:
                found[key] = change
    return found


def verdicts(
    sample: DraftSample, catalogue: Catalogue, sets: Sequence[str], today: date
) -> tuple[str, ...]:
    """The verdict of each result of a draft, as `outlooks` tells it."""
    return tuple(str(one.now.verdict) for one in outlooks(sample, catalogue, sets, today))


def _as_kept(sample: DraftSample, index: int, number: int = 0) -> Result:
    """A result as the record would hand it out; its number is its place in the draft, from 1.

    The sample itself has the number 0, or the one that is given.
    """
    new = sample.sample.results[index]
    return Result(
        id=index + 1,
        sample=number,
        parameter=new.parameter,
        name=new.name,
        reading=new.reading,
        collected=sample.sample.collected,
        point=0,
        method=new.method,
        reporting_limit=new.reporting_limit,
        detection_limit=new.detection_limit,
        qualifier=new.qualifier,
        lab=new.lab or sample.sample.lab,
        analysed=new.analysed,
        draw=new.draw or sample.sample.draw,
    )
