"""What is odd about a draft, what it changes and what was not taken, in sentences with places."""

from collections.abc import Callable
from functools import partial

from wellbook.intake import Draft, Place
from wellbook.intake.reviewing import changes
from wellbook.intake.said import by_reason, left_words
from wellbook.planning import settings
from wellbook.planning.between import since_test_before
from wellbook.water.values.findings import Severity
from wellbook.water.verdicts.latest_change import LatestChange
from wellbook.window.common import advice
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import apart
from wellbook.window.dialogs.draft.draft_places import DraftPlaces
from wellbook.wording import latest_change

Lines = tuple[tuple[str, Place | None], ...]


class DraftChanges:
    """What changed from the tests before at the chosen points, told before anything is kept."""

    def __init__(self, household: Household, places: DraftPlaces) -> None:
        self._household, self._places = household, places
        self._draft: Draft | None = None
        self._found: dict[int, dict[str, LatestChange]] = {}

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
        household = self._household
        measures = settings.yardsticks(household.record.settings, household.catalogue)
        history = self._places.results(draft.samples[place].point_name)
        return partial(changes, draft, place, *measures, household.today, history)

    def sentences(self, draft: Draft, place: int) -> dict[str, str]:
        """Each change in words, with what happened to the well in between, by parameter."""
        point = self._places.chosen(draft.samples[place].point_name)
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
