"""Every lab and every sample here is invented."""

import importlib
import sys
from datetime import date
from pathlib import Path

import pytest

from wellbook import intake
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue

TODAY = date(2026, 3, 1)


@pytest.fixture(scope="session")
def catalogue():
    return read_catalogue(paths.resources())


@pytest.fixture
def lab_file(tmp_path):
    """Writes a lab's file and returns its path."""

    def write(content, name="report.csv"):
        path = tmp_path / name
        path.write_bytes(content.encode() if isinstance(content, str) else content)
        return path

    return write


@pytest.fixture
def draft_of(lab_file, catalogue):
    """Reads a lab's file of some content."""

    def read(content, name="report.csv", **how):
        return intake.read(lab_file(content, name), catalogue, today=TODAY, **how)

    return read


@pytest.fixture
def results_of(draft_of):
    """The results of a file with one sample, by their printed names."""

    def read(content, name="report.csv", **how):
        draft = draft_of(content, name, **how)
        assert len(draft.samples) == 1
        return {result.name: result for result in draft.samples[0].sample.results}

    return read


def bench():
    """The modules that make and measure the corpus of unseen files."""
    folder = Path(__file__).parents[1] / "bench"
    sys.path[:0] = [str(folder), str(folder / "corpus")]
    return importlib.import_module("corpus"), importlib.import_module("read_corpus")


def keys(draft):
    """The keys of all findings of a draft."""
    return [finding.key for finding in draft.findings]
