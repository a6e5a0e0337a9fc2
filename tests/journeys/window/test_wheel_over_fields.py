import pytest


@pytest.mark.timeout(600)
def test_the_wheel_changes_no_field_that_does_not_have_the_focus(use, books):
    report = use("wheeling:over_every_field", *books("alder-hollow"))
    assert report["failures"] == []
    assert len(report["tried"]) > 60
