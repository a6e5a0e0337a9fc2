"""Every lab and every sample here is invented."""

import pytest
from drafts import TODAY

from wellbook import intake
from wellbook.support import paths
from wellbook.water.values.catalogue import read_catalogue


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
