import os

import pytest
from pressing import press_everything


@pytest.mark.skipif("WELLBOOK_SWEEPS" not in os.environ, reason="another household takes minutes")
@pytest.mark.timeout(1200)
def test_everything_that_can_be_pressed_is_pressed_and_nothing_breaks(use, books, tmp_path):
    press_everything(use, books, "salt-lane", tmp_path)
