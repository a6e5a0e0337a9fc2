from importlib.util import find_spec

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


@pytest.mark.skipif(find_spec("rapidocr") is None, reason="the extra that reads scans is not there")
def test_a_scan_can_be_stopped_and_each_of_its_figures_is_asked_about(use, books):
    report = use("taking_in:a_scan", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["stopped"]
    assert facts["doubts"]
    assert all(facts["doubts"])
    assert not facts["can keep"]
