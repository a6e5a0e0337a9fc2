"""What a lab sent is kept with few actions, one report or a folder of them."""

import pytest

pytestmark = pytest.mark.timeout(600)


def test_a_certain_report_is_kept_with_few_actions(use, books):
    report = use("taking_in:a_certain_report", *books("first-year"))
    assert report["failures"] == []
    assert report["facts"] == {"doubts": False, "actions": 5, "kept": 1}


def test_of_a_folder_of_thirty_files_all_that_are_ready_are_kept_and_the_others_told(use, books):
    report = use("taking_in:a_folder_of_thirty", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["files"] == 30
    assert facts["said"] == "27 ready, 0 in the book already, 3 need you, 0 kept."
    assert facts["then"] == "0 ready, 1 in the book already, 3 need you, 26 kept."
    assert facts["kept"] == 27
