"""Whether the samples of a draft hang together, with themselves and with their well's history."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from wellbook.book import Book
from wellbook.book.rows import NewResult, NewSample, result_of
from wellbook.intake.destinations import place_of, points_of
from wellbook.intake.draft import ACCREDITED, NO_DAY, Draft, DraftSample
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.chemistry.interval import Bounds
from wellbook.water.plausibility.checks import check
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.findings import Finding, Severity
from wellbook.water.values.judgement import Judgement, Verdict
from wellbook.water.values.results import Result
from wellbook.water.values.signs import normal_name
from wellbook.water.verdicts.judge import assess, assess_today
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

    today, bounds = date.today(), Bounds(catalogue)
    reviewed = (
        _reviewed(sample, catalogue, history(sample), today, bounds) for sample in draft.samples
    )
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


def _reviewed(
    sample: DraftSample,
    catalogue: Catalogue,
    history: Sequence[Result],
    today: date,
    bounds: Bounds,
) -> DraftSample:
    new = sample.sample
    found = check(
        results_of(new), catalogue, history, today=today, received=new.received, bounds=bounds
    )
    return DraftSample(sample.point_name, new, tuple(map(findings.worded, found)), sample.marks)


@dataclass(frozen=True, slots=True)
class Outlook:
    """How a reading of a draft would stand in the book.

    Attributes:
        now: How it stands to the limits of today, beside its whole sample.
        is_first: Whether it is over a limit that no earlier test at its point was over.
    """

    now: Judgement
    is_first: bool = False


def with_earlier(draft: Draft, place: int) -> tuple[NewSample, tuple[NewSample, ...]]:
    """A sample of a draft, and the earlier ones of its point in the file, where they are few."""
    sample = draft.samples[place]
    few = draft.samples if len(draft.samples) <= _MANY else (sample,)
    here = (one for one in few if one.point_name == sample.point_name and one is not sample)
    day = sample.sample.collected.day
    return sample.sample, tuple(
        one.sample for one in here if NO_DAY < one.sample.collected.day <= day
    )


class Changes:
    """What changed from the tests before to samples that are about to be kept.

    What a decision leaves as it was is not worked out again.
    """

    def __init__(self, catalogue: Catalogue, sets: Sequence[str], today: date) -> None:
        """Begin.

        Args:
            catalogue: The reference data.
            sets: Keys of the household's limit sets.
            today: The day whose limits hold.
        """
        self._by = (catalogue, sets, today)
        self._known: dict[tuple[object, ...], LatestChange | None] = {}
        self._within: dict[tuple[int, str, date], bool] = {}
        # By the draw of the sample and identity; the result is held, so that it stays the same.
        self._today: dict[str, dict[int, tuple[NewResult, Judgement]]] = {}
        self._resting: dict[str, bool] = {}
        self._records: list[tuple[Sequence[Result], PointRecord]] = []

    def by(
        self,
        sample: NewSample,
        earlier: Sequence[NewSample] = (),
        history: Sequence[Result] = (),
    ) -> dict[str, LatestChange]:
        """What changed, by parameter; only of what the sample is the latest test of.

        Args:
            sample: The sample.
            earlier: Others of its point that are about to be kept as well.
            history: Results at the point.
        """
        day, found = sample.collected.day, dict[str, LatestChange]()
        if day == NO_DAY:
            return found
        # Numbers below zero tell these samples from those of the book and from each other.
        own = [results_of(one, -number) for number, one in enumerate((sample, *earlier))]
        tested = {new.parameter for new in sample.results}
        for key in self._by[0].parameters:  # in the order in which a point's are told
            if key in tested:
                change = self._change(key, own, history)
                if change is not None and change.day == day:
                    found[key] = change
        return found

    def outlooks(self, sample: NewSample, history: Sequence[Result] = ()) -> tuple[Outlook, ...]:
        """How each result of a sample stands to the limits of today, beside its whole sample.

        Args:
            sample: The sample.
            history: Results at the same point.
        """
        day = sample.collected.day
        return tuple(
            Outlook(
                now,
                now.verdict is Verdict.OUTSIDE and self._was_within(new.parameter, day, history),
            )
            for new, now in zip(sample.results, self.today(sample), strict=True)
        )

    def today(self, sample: NewSample) -> list[Judgement]:
        """How each result of a sample stands to the limits of today, beside its whole sample.

        Rows of a file that say the same share one result, which is judged once, unless its sample
        is part of the verdict.
        """
        of_draw = self._today.setdefault(sample.draw, {})
        known = [of_draw.get(id(new)) for new in sample.results]
        if None not in known:
            return [found[1] for found in known if found]
        fresh = [i for i, found in enumerate(known) if found is None]
        resting = {i for i in fresh if self._rests_on_sample(sample.results[i].parameter)}
        whole = results_of(sample) if resting else ()
        asked = [whole[i] if whole else result_of(sample, sample.results[i], i + 1) for i in fresh]
        judged = assess_today(asked, PointRecord({}, {0: whole or asked}), *self._by)
        for i, now in zip(fresh, judged, strict=True):
            known[i] = found = sample.results[i], now
            if i not in resting:
                of_draw[id(sample.results[i])] = found
        return [found[1] for found in known if found]

    def _rests_on_sample(self, key: str) -> bool:
        """Whether the verdict on a parameter asks for its sample: for its age, or for uranium."""
        if key not in self._resting:
            self._resting[key] = self._may_rest_on_sample(key)
        return self._resting[key]

    def _may_rest_on_sample(self, key: str) -> bool:
        catalogue = self._by[0]
        parameter = catalogue.parameters.get(key)
        is_alive = parameter is not None and parameter.family == "bacteria"
        return is_alive or any(one.is_net_of_uranium for one in catalogue.limits_of(key))

    def _was_within(self, key: str, day: date, history: Sequence[Result]) -> bool:
        """Whether a parameter was tested before a day, and never over a limit."""
        place, past = self._past(history)
        if (place, key, day) not in self._within:
            earlier = [one for one in past.history(key) if one.collected.day < day]
            verdicts = {one.now.verdict for one in assess(earlier, past, *self._by)}
            self._within[place, key, day] = bool(earlier) and Verdict.OUTSIDE not in verdicts
        return self._within[place, key, day]

    def _change(
        self, key: str, own: Sequence[Sequence[Result]], history: Sequence[Result]
    ) -> LatestChange | None:
        place, past = self._past(history)
        mine = tuple(result for results in own for result in results if result.parameter == key)
        # What lies beside it in its sample is part of its verdict, where a limit asks for it.
        nets = any(one.is_net_of_uranium for one in self._by[0].limits_of(key))
        inputs = (place, key, mine, tuple(map(tuple, own)) if nets else ())
        if inputs not in self._known:
            record = PointRecord(
                {key: (*past.history(key), *mine)},
                {**past.samples, **{results[0].sample: results for results in own if results}},
            )
            catalogue, sets, today = self._by
            parameter = catalogue.parameters[key]
            self._known[inputs] = latest_change(record, parameter, catalogue, sets, today)
        return self._known[inputs]

    def _past(self, history: Sequence[Result]) -> tuple[int, PointRecord]:
        """The record of a history, grouped once."""
        for place, (known, record) in enumerate(self._records):
            if known is history:
                return place, record
        self._records.append((history, PointRecord.of(history)))
        return len(self._records) - 1, self._records[-1][1]


def verdicts(
    samples: Iterable[DraftSample], catalogue: Catalogue, sets: Sequence[str], today: date
) -> list[tuple[str, ...]]:
    """The verdict of each result of some samples of a draft, as `Changes.outlooks` tells it."""
    told = Changes(catalogue, sets, today)
    return [tuple([str(one.verdict) for one in told.today(sample.sample)]) for sample in samples]


def number_outside(
    samples: Iterable[DraftSample], catalogue: Catalogue, sets: Sequence[str], today: date
) -> int:
    """How many results of some samples are outside a limit."""
    return count_outside(verdicts(samples, catalogue, sets, today))


def count_outside(judged: Iterable[Sequence[str]]) -> int:
    """How many of the verdicts on some samples are that a result is outside a limit."""
    return sum(told.count(str(Verdict.OUTSIDE)) for told in judged)


def results_of(sample: NewSample, number: int = 0) -> tuple[Result, ...]:
    """The results of a sample as the record would hand them out, numbered from 1.

    Args:
        sample: A sample that is not kept yet.
        number: The number that it has for now.
    """
    return tuple([result_of(sample, new, n, number) for n, new in enumerate(sample.results, 1)])
