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


def test_filters_that_last_so_many_gallons_are_due_by_the_meter(use, books):
    report = use("upkeeping:by_the_gallon", *books("salt-lane"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["unreadable"].startswith("5 hundred can’t be read")
    assert facts["kept"] == [["ro_prefilter", 6, "500 gal", "5 gal"]]
    assert facts["every"][1] == "6 months or 500 gal"
    assert facts["by the day"][1] == "used up since about 2 Jun 2022"
    assert facts["no figure"] == "Say what the meter shows."
    assert facts["read"] == [["cartridge", "100 gal"], ["meter", "350 gal"]]
    assert facts["by the meter"][1].startswith("due since 22 Aug 2022")
