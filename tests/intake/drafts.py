"""The day on which the tests of this folder read, and what they ask of a draft."""

import importlib
import sys
from datetime import date
from pathlib import Path

TODAY = date(2026, 3, 1)


def keys(draft):
    """The keys of all findings of a draft."""
    return [finding.key for finding in draft.findings]


def bench():
    """The modules that make and measure the corpus of unseen files."""
    folder = Path(__file__).parents[1] / "bench"
    sys.path[:0] = [str(folder), str(folder / "corpus")]
    return importlib.import_module("corpus"), importlib.import_module("read_corpus")
