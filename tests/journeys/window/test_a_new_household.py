import pytest

pytestmark = pytest.mark.timeout(600)
NOTHING = {"settings": {}, "points": [], "labs": [], "events": [], "plans": {}}


def test_what_a_new_household_says_is_kept_as_one_entry_and_decides_what_is_suggested(use, books):
    report = use("meeting:answered", *books("first-year"))
    assert report["failures"] == []
    facts = report["facts"]
    assert facts["paper"].startswith("Letter")  # as in the United States; CAN/CGSB 9.60 is as good
    assert set(facts["limit sets"]) == {"ca-on", "canada-gcdwq"}
    # Ontario public health units: three times a year; in karst four times, common practice.
    assert facts["bacteria"] == [4, 3]
    assert facts["kept"] == {
        "settings": {
            "country": "CA",
            "subdivision": "ON",
            "ground": "karst",
            "round_lab": "Fernside Lab",
        },
        "points": ["At the pressure tank"],
        "labs": ["Fernside Lab"],
        "events": ["owner"],
        "plans": {"bacteria": 2},
    }
    assert facts["taken back"] == NOTHING


def test_who_skips_it_is_asked_for_a_point_and_nothing_is_kept(use, books):
    report = use("meeting:skipped", *books("first-year"))
    assert report["failures"] == []
    assert report["facts"]["asked"] == ["The household", "A place where samples are drawn"]
    assert report["facts"]["kept"] == NOTHING


def test_a_country_nobody_knows_is_refused_and_a_move_changes_what_followed_from_the_place(
    use, books
):
    report = use("meeting:refused", *books("first-year"))
    assert report["failures"] == []
    assert "two letters of ISO 3166" in report["facts"]["said"]
    assert report["facts"]["kept"] == NOTHING
    assert report["facts"]["settings"] == {"country": "DE"}
    # Mexico: NOM-127-SSA1-2021, ISO 4217; rains from May to October: common practice, no source.
    usual = report["facts"]["usual there"]
    assert usual["seasons"] == "wet: May–Oct, as usual there"
    assert report["facts"]["wet"] == [5, 6, 7, 8, 9, 10]
    assert usual["language"] == "Español, as usual there"
    assert usual["emergency"] == "911, as usual there"
    assert usual["currency"] == "USD"  # chosen before, so it stays
    assert report["facts"]["moved"] == {"country": "MX", "currency": "USD"}
    (told,) = report["facts"]["told"]
    assert "compared with: Mexico, NOM-127-SSA1-2021." in told
    assert "No longer with: German drinking water ordinance;" in told
