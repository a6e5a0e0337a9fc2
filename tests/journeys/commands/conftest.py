"""A person's folder and the commands typed in it."""

import sys

import pytest

if sys.platform != "linux":  # pipes, devices and bounds as Linux has them
    collect_ignore_glob = ["test_*.py"]
else:
    from command_line import CommandLine

    @pytest.fixture
    def shell(tmp_path):
        return CommandLine(tmp_path)
