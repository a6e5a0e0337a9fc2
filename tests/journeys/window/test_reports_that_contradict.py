import pytest

pytestmark = pytest.mark.timeout(600)

TOLD, ABSENT, PRESENT = (
    ["present", True, False],
    ["absent", False, False],
    ["present", False, False],
)
WITHDRAWN = ["present", True, True]


def test_a_finding_that_a_report_denies_counts_until_the_lab_withdraws_it(use, books):
    report = use("contradicting:whom_to_believe", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["told"] == [[TOLD], 1]
    assert "its report says “Absent”" in facts["typed, asked"]
    assert facts["typed, nothing stored"] == [TOLD]
    assert facts["typed, asked again"], "the key that keeps decides nothing"
    assert facts["typed, withdrawn"] == [[ABSENT, WITHDRAWN], 0]
    assert facts["typed, taken back"] == [TOLD]
    assert "its report says “Absent”" in facts["asked"]
    assert facts["nothing stored"] == [TOLD]
    assert facts["asked again"], "the button that keeps decides nothing"
    assert facts["both"] == [[ABSENT, TOLD], 1], "both stand, and the finding counts"
    assert facts["withdrawn"] == [[ABSENT, WITHDRAWN], 0]
    assert facts["taken back"] == [[WITHDRAWN], 0]
    assert facts["completed"] == [ABSENT, WITHDRAWN]
    assert "already in the book with other values" in facts["same number"]
    assert facts["as well"] == [[ABSENT, PRESENT, WITHDRAWN], 1]
