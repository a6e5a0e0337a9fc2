import pytest

pytestmark = pytest.mark.timeout(600)


def test_what_a_test_cost_is_entered_corrected_and_taken_back(use, books):
    report = use("costing:from_entry_to_undo", *books("first-year"))
    assert report["failures"] == []
    refused, *nothing = report["facts"].pop("a sign is refused")
    assert refused.startswith("$85.50 can’t be read as a cost")
    assert nothing == []
    assert report["facts"] == {
        "entered": ["85.50 USD"],
        "corrected": ["86 USD"],
        "taken back": ["85.50 USD"],
    }
