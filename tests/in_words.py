"""What is found, in the words in which people read it."""

from wellbook.water.statistics.outcomes import Outlook, Spread, StepChange, Trend
from wellbook.water.statistics.removal import Pair, Removal
from wellbook.water.values.findings import Oddity
from wellbook.wording import findings, trends
from wellbook.wording.consulting import removals

_SAID = {
    Trend: trends.trend,
    StepChange: trends.step_change,
    Pair: removals.pair,
    Removal: removals.removal,
    Outlook: trends.outlook,
    Spread: trends.spread,
    Oddity: findings.said,
}


def said(found):
    """The sentence on a value, by its kind."""
    return _SAID[type(found)](found)
