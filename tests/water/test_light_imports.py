"""What numbers mean needs no numeric library at run time."""

import subprocess
import sys

import pytest

HEAVY = ("numpy", "scipy", "pandas", "matplotlib", "pint", "PySide6", "sqlite3")
MODULES = (
    "statistics.trend",
    "statistics.step_change",
    "statistics.removal",
    "statistics.trend_power",
    "statistics.summary",
    "chemistry.indices",
    "plausibility.checks",
)


@pytest.mark.parametrize("module", MODULES)
def test_importing_statistics_brings_in_nothing_heavy(module):
    program = f"import sys, wellbook.water.{module}; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert not set(HEAVY) & set(done.stdout.split())
