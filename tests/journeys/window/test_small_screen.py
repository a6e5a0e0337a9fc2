import os

import pytest

SMALL, MIDDLE = (911, 512), (1024, 700)
# What fits the small screen nearly always fits a larger one: tried with `WELLBOOK_SWEEPS=1`.
SIZES = [SMALL, MIDDLE] if "WELLBOOK_SWEEPS" in os.environ else [SMALL]
pytestmark = pytest.mark.timeout(600)


@pytest.mark.parametrize("size", SIZES)
def test_every_dialog_fits_the_screen_belongs_to_a_window_and_shows_its_buttons(use, books, size):
    report = use("small_screen:every_dialog", *books("alder-hollow"), size=size)
    assert report["failures"] == []
    assert len(report["tried"]) > 25


@pytest.mark.parametrize(("language", "size"), [("en", MIDDLE), ("es", SMALL)])
def test_nothing_on_a_page_lies_on_something_else_or_is_cut(use, books, language, size):
    said = {"LANGUAGE": language, "LANG": f"{language}.UTF-8"}
    report = use("small_screen:every_page", *books("alder-hollow"), size=size, **said)
    assert report["failures"] == []


@pytest.mark.parametrize("size", [SMALL, (1280, 720)])
def test_a_complaint_covers_neither_fields_nor_buttons(use, books, size):
    report = use("small_screen:complaints", *books("alder-hollow"), size=size)
    assert report["failures"] == []


def test_closing_the_window_asks_for_typed_words_and_leaves_no_dialog_behind(use, books):
    report = use("small_screen:close_the_window", *books("alder-hollow"))
    assert report["failures"] == []
    assert report["facts"] == {"asked": True, "ended": True}
