"""What is odd about a draft and what was not taken, in sentences with their places."""

from wellbook.intake import Draft, Place
from wellbook.intake.said import left_words
from wellbook.water.values.findings import Severity
from wellbook.window.common import advice
from wellbook.window.common.household import Household

Lines = tuple[tuple[str, Place | None], ...]


def finding_lines(draft: Draft, household: Household) -> Lines:
    """What stops the draft, what the water asks of people, what was not taken, then the rest."""
    found = [*draft.findings, *(f for sample in draft.samples for f in sample.findings)]
    order = {severity: place for place, severity in enumerate(Severity)}
    ranked = sorted(found, key=lambda finding: order[finding.severity])
    said = [f"{f.where}: {f.text}" if f.where else f.text for f in ranked]
    first = sum(f.severity is Severity.STOP for f in ranked)
    texts: dict[str, Place | None] = dict.fromkeys(said[:first])
    texts |= dict.fromkeys(_cautions(draft, household))
    texts |= {left_words(one): one.place for one in draft.not_taken if not one.is_aside}
    texts |= dict.fromkeys(said[first:])
    texts |= {left_words(one): one.place for one in draft.not_taken if one.is_aside}
    return tuple(texts.items())


def _cautions(draft: Draft, household: Household) -> tuple[str, ...]:
    """What the latest sample of the file asks of those who drink the water."""
    samples = [one.sample for one in draft.samples if one.sample.results]
    if not samples:
        return ()
    latest = max(samples, key=lambda sample: sample.collected.order())
    return advice.of_sample(latest, household)
