import pytest

pytestmark = pytest.mark.timeout(600)


def test_what_is_due_is_noted_in_two_clicks_and_taken_back(use, books):
    report = use("upkeeping:done_in_two_clicks", *books("salt-lane"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["dialog"] == facts["asked"][0]
    assert facts["kept"][0][1] is True
    assert facts["asked after"][0] != facts["asked"][0]
    assert facts["taken back"]


def test_a_look_at_the_wellhead_leaves_what_was_bad_on_the_list_until_it_is_put_right(use, books):
    report = use("upkeeping:a_look_at_the_wellhead", *books("first-year"))
    assert report["failures"] == []
    assert report["facts"] == {
        "nothing answered": ["Answer at least one line of the checklist.", 0],
        "closed": True,
        "says what to do": True,
        "answers": [["cap", "bad", "cracked"], ["slope", "good", ""]],
        "photos": ["cap.png"],
        "on the list": "Cap",
        "mended": [True, False],
        "off the list": True,
        "back on it": "Cap",
        "put right before it was seen": report["facts"]["put right before it was seen"],
        "changed": ["bad", True, 2],
    }
    assert "can’t lie before that" in report["facts"]["put right before it was seen"]


def test_what_water_cost_and_an_interval_are_entered_on_the_page_of_the_well(use, books):
    report = use("upkeeping:money_and_intervals", *books("first-year"))
    assert report["failures"] == []
    assert "a flow test is nothing without its flow" in report["facts"]["without a flow"]
    assert report["facts"]["flow"] == [
        ["flow test", "5.2", "gal/min", "4", "12", "ft", "licensed contractor"]
    ]
    assert report["facts"]["costs"] == [["bottled water", "31.75", "USD"]]
    assert "31.75 USD" in report["facts"]["sums"]
    assert report["facts"]["intervals"] == [["wellhead", 0]]
