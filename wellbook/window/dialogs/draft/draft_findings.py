"""What is odd about a draft, what it changes and what was not taken, in sentences with places."""

from collections.abc import Callable, Iterable, Sequence
from functools import partial
from typing import TYPE_CHECKING

from wellbook.book.rows import NewResult, NewSample
from wellbook.intake import Draft, Place
from wellbook.intake.reviewing import Changes, Outlook, with_earlier
from wellbook.intake.said import by_reason, left_words
from wellbook.planning import settings
from wellbook.planning.between import since_test_before
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.values.findings import Severity
from wellbook.water.values.judgement import Verdict
from wellbook.water.values.parameters import Parameter
from wellbook.water.verdicts.latest_change import LatestChange
from wellbook.window.common import advice
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import apart
from wellbook.window.common.typed_days import read_drawn
from wellbook.window.dialogs.draft.draft_places import DraftPlaces
from wellbook.wording import latest_change

if TYPE_CHECKING:
    from wellbook.water.values.results import Result

Lines = tuple[tuple[str, Place | None], ...]


def changes_of(household: Household) -> Changes:
    """Tells what changes by samples, by the household's own limit sets."""
    measures = settings.yardsticks(household.record.settings, household.catalogue)
    return Changes(*measures, household.today)


class DraftChanges:
    """What changed from the tests before at the chosen points, told before anything is kept."""

    def __init__(self, household: Household, places: DraftPlaces) -> None:
        self._household, self._places = household, places
        self._draft: Draft | None = None
        self._found: dict[int, dict[str, LatestChange]] = {}
        self._changes = changes_of(household)

    def forget(self) -> None:
        """Work it out anew, as another point was chosen."""
        self._draft = None

    def work_out(self, draft: Draft) -> None:
        """Work out what is told first, on another thread: a long history takes its time."""
        self._draft, self._found = draft, {}
        works = {place: self._work(draft, place) for place in _latest(draft).values()}
        self._found = apart(lambda: {place: work() for place, work in works.items()})

    def of_sample(self, draft: Draft, place: int) -> dict[str, LatestChange]:
        """What changed by a sample of the draft, by parameter."""
        if draft is not self._draft:
            self._draft, self._found = draft, {}
        if place not in self._found:
            self._found[place] = self._work(draft, place)()
        return self._found[place]

    def _work(self, draft: Draft, place: int) -> Callable[[], dict[str, LatestChange]]:
        """What tells the changes by a sample, from values that any thread may go through."""
        history = self._places.results(draft.samples[place].point_name)
        return partial(self._changes.by, *with_earlier(draft, place), history)

    def outlooks(self, draft: Draft, place: int) -> tuple[Outlook, ...]:
        """How the readings of a sample stand to the limits of today."""
        sample = draft.samples[place]
        return self._changes.outlooks(sample.sample, self._places.results(sample.point_name))

    def outside(self, draft: Draft) -> str:
        """What is outside a limit in the latest sample of each point, in a sentence or none."""
        return _outside(
            (
                pair
                for place in _latest(draft).values()
                for pair in zip(
                    draft.samples[place].sample.results, self.outlooks(draft, place), strict=True
                )
            ),
            self._household,
        )

    def sentences(self, draft: Draft, place: int) -> dict[str, str]:
        """Each change in words, with what happened to the well in between, by parameter."""
        printed = draft.samples[place].point_name
        if self._places.is_open(printed):
            return {}  # nobody knows yet which tests were before it
        point = self._places.chosen(printed)
        record, said = self._household.record, {}
        for key, change in self.of_sample(draft, place).items():
            happened = since_test_before(record, point.well, change) if point else []
            said[key] = latest_change.paragraph(change, happened)
        return said

    def lines(self, draft: Draft) -> Lines:
        """What is new in the latest sample of each point."""
        latest = _latest(draft)
        return tuple(
            (f"{name}: {text}" if len(latest) > 1 and name else text, _place(draft, place, key))
            for name, place in latest.items()
            for key, text in latest_change.latest_lines(self.of_sample(draft, place).values())
        )


def _outside(judged: Iterable[tuple[NewResult, Outlook]], household: Household) -> str:
    """What is outside a limit, in a sentence or none."""
    parameters, names = household.catalogue.parameters, {}
    for new, one in judged:
        if one.now.verdict is Verdict.OUTSIDE and new.parameter in parameters:
            said = _("{parameter} (for the first time)") if one.is_first else "{parameter}"
            names[new.parameter] = said.format(parameter=parameters[new.parameter].name)
    said = _("Outside a limit: {names}.")
    return said.format(names=", ".join(names.values())) if names else ""


class HandChanges:
    """What changed from the tests before to one that is typed, told while it is typed."""

    def __init__(self, household: Household) -> None:
        self._household, self._changes = household, changes_of(household)
        self._histories: dict[int, Sequence[Result]] = {}

    def said(
        self,
        point: int | None,
        typed_day: str,
        results: Sequence[NewResult],
        edited: Parameter | None,
    ) -> str:
        """A paragraph on what was typed last, then what is new in the test; empty if nothing is.

        Args:
            point: Number of the point; None in a book that has none yet.
            typed_day: The day of the draw as it was typed, perhaps not to its end.
            results: Those that say all that is needed.
            edited: Parameter of the line that was typed in last.
        """
        found = self._found(point, typed_day, results)
        new = latest_change.latest_lines(found.values())
        lines = [text for _key, text in new]
        change = found.get(edited.key) if edited else None
        if change is not None and change.parameter.key not in dict(new):
            lines.insert(0, self._paragraph(change, point))
        return "\n".join(lines)

    def outside(self, sample: NewSample) -> str:
        """What of a test is outside a limit, in a sentence or none."""
        history = self._household.record.results(sample.point) if sample.point else ()
        judged = self._changes.outlooks(sample, history)
        return _outside(zip(sample.results, judged, strict=True), self._household)

    def _paragraph(self, change: LatestChange, point: int | None) -> str:
        """A change that is not notable, as it is typed."""
        record = self._household.record
        well = next(one.well for one in record.points if one.id == point)
        said = latest_change.paragraph(change, since_test_before(record, well, change))
        return _("{parameter}: {sentence}").format(parameter=change.parameter.name, sentence=said)

    def _found(
        self, point: int | None, typed_day: str, results: Sequence[NewResult]
    ) -> dict[str, LatestChange]:
        try:
            collected = read_drawn(typed_day)
        except Fault:
            collected = None  # said when it is to be kept
        if point is None or collected is None:
            return {}
        if point not in self._histories:
            self._histories[point] = self._household.record.results(point)
        sample = NewSample(point, collected, results=tuple(results))
        return self._changes.by(sample, history=self._histories[point])


def _latest(draft: Draft) -> dict[str, int]:
    """Place of the latest sample of each printed point."""
    latest: dict[str, int] = {}
    for place, one in enumerate(draft.samples):
        best = draft.samples[latest.get(one.point_name, place)]
        if one.sample.collected.order() >= best.sample.collected.order():
            latest[one.point_name] = place
    return latest


def _place(draft: Draft, place: int, key: str) -> Place | None:
    """Where the reading of a parameter stands in the file."""
    sample = draft.samples[place]
    pairs = zip(sample.sample.results, sample.marks, strict=True)
    return next((mark.place for new, mark in pairs if key and new.parameter == key), None)


def finding_lines(draft: Draft, household: Household, changed: Lines) -> Lines:
    """What stops the draft, what the water asks of people, what changed, what was not taken."""
    found = [*draft.findings, *(f for sample in draft.samples for f in sample.findings)]
    order = {severity: place for place, severity in enumerate(Severity)}
    ranked = sorted(found, key=lambda finding: order[finding.severity])
    said = [f"{f.where}: {f.text}" if f.where else f.text for f in ranked]
    first = sum(f.severity is Severity.STOP for f in ranked)
    texts: dict[str, Place | None] = dict.fromkeys(said[:first])
    texts |= dict.fromkeys(_cautions(draft, household))
    texts |= dict(changed)
    texts |= {left_words(one): one.place for one in draft.not_taken if not one.is_aside}
    texts |= dict.fromkeys(said[first:])
    aside = by_reason(one for one in draft.not_taken if one.is_aside)
    texts |= {left_words(*some): some[0].place for some in aside}
    return tuple(texts.items())


def _cautions(draft: Draft, household: Household) -> tuple[str, ...]:
    """What the latest sample of the file asks of those who drink the water."""
    samples = [one.sample for one in draft.samples if one.sample.results]
    if not samples:
        return ()
    latest = max(samples, key=lambda sample: sample.collected.order())
    return advice.of_sample(latest, household)
