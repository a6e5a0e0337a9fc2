"""The day on which the tests of this folder read, and what they ask of a draft."""

from datetime import date

TODAY = date(2026, 3, 1)


def keys(draft):
    """The keys of all findings of a draft."""
    return [finding.key for finding in draft.findings]
