import pytest
from pressing import press_everything


@pytest.mark.timeout(1200)
def test_everything_that_can_be_pressed_is_pressed_and_nothing_breaks(use, books, tmp_path):
    press_everything(use, books, "first-year", tmp_path)
