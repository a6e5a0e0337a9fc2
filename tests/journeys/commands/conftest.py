"""A person's folder and the commands typed in it."""

import sys
from pathlib import Path

import pytest

if sys.platform != "linux":  # pipes, devices and bounds as Linux has them
    collect_ignore_glob = ["test_*.py"]
else:
    from command_line import CommandLine

    def pytest_collection_modifyitems(items):
        """A busy machine takes its time: the command line itself ends what does not go on."""
        for item in items:
            if Path(__file__).parent in item.path.parents:
                item.add_marker(pytest.mark.timeout(1800))

    @pytest.fixture
    def shell(tmp_path):
        return CommandLine(tmp_path)
