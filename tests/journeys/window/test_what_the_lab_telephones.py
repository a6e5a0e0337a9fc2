import pytest

pytestmark = pytest.mark.timeout(600)


def test_a_telephoned_finding_is_entered_in_three_clicks(use, books):
    report = use("telephoning:from_draw_to_report", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    drawn, early = facts["drawn"]
    assert drawn >= 1
    assert early == 0
    assert facts["awaited"]
    assert facts["after clicks"] == [3, drawn, 1]
    assert facts["said"]
    assert facts["taken back"] == [drawn, 0]
