import subprocess
import sys

import pytest


@pytest.mark.timeout(1200)
@pytest.mark.parametrize("household", ["alder-hollow", "salt-lane"])
def test_everything_that_can_be_pressed_is_pressed_and_nothing_breaks(
    use, books, household, tmp_path
):
    (book,) = books(household)
    packet = tmp_path / "packet.pdf"
    subprocess.run(
        [sys.executable, "-m", "wellbook", "packet", book, "--for", "buyer", "-o", packet],
        check=True,
    )
    report = use("sweep:everything", book, seconds=1100)
    assert report["failures"] == []
    assert len(report["tried"]) > 400
