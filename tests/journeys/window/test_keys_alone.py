import pytest

pytestmark = pytest.mark.timeout(300)


def test_a_first_test_is_typed_and_handed_over_without_a_mouse(use, books):
    report = use("keys_alone:first_test_and_packet", *books("alder-hollow"))
    assert "\n".join(report["failures"]) == ""
    facts = report["facts"]
    assert "Nitrate" in facts["answer"]
    assert facts["page"] == "tests"
    assert facts["packet"] > 10_000
