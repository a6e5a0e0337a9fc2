import pytest

pytestmark = pytest.mark.timeout(600)


def test_return_and_escape_in_an_untouched_dialog_store_nothing_and_close_it(use, books):
    report = use("returning:untouched", *books("alder-hollow"))
    assert report["failures"] == []


def test_return_in_a_half_filled_dialog_stores_nothing_and_escape_asks(use, books):
    report = use("returning:half_filled", *books("alder-hollow"))
    assert report["failures"] == []
    assert len(report["tried"]) > 60


def test_a_report_is_typed_with_return_from_line_to_line_and_kept_on_purpose(use, books):
    report = use("returning:by_hand_with_the_keys_alone", *books("alder-hollow"))
    assert report["failures"] == []
    assert report["facts"] == {
        "stored by Return": 0,
        "tip": "Ctrl+Return",
        "stored at the end": 1,
    }
