"""Every page, section, dialog, menu and tip can be said in another language."""

import os

import pytest


@pytest.mark.timeout(600)
@pytest.mark.parametrize(
    "household",
    [
        "alder-hollow",
        pytest.param(
            "salt-lane",
            marks=pytest.mark.skipif(
                "WELLBOOK_SWEEPS" not in os.environ, reason="a second household takes its time"
            ),
        ),
    ],
)
def test_every_word_that_is_shown_or_read_out_belongs_to_a_sentence_or_to_the_household(
    use, books, household
):
    report = use("wording:every_place", *books(household), WELLBOOK_JOURNEY_IS_LOUD="1")
    assert report["failures"] == []
    assert report["facts"]["unsaid"] == {}
    assert len(report["tried"]) > 35
