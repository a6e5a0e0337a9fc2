"""A household keeps up its lamp, its wellhead and its accounts by commands alone.

What is advised: EPA-430/9-74-007 (lamps yearly); National Ground Water Association (a check-up each
year); CDC and EPA (a look at the wellhead each spring).
"""

import csv
import json

import pytest

HOME = "home.wellbook"


@pytest.fixture
def home(shell):
    shell.done("new", HOME)
    shell.done("enter", HOME, "well", "--name", "Home", "--kind", "drilled")
    shell.done(
        *("enter", HOME, "unit", "--name", "Lamp", "--kind", "ultraviolet lamp"),
        *("--installed", "2025-03-01", "--cost", "640", "--currency", "USD"),
    )
    return shell


def due(shell, day):
    answer = shell.run("due", HOME, "--on", day, "--json")
    found = json.loads(answer.out)["due"]
    assert answer.code == (3 if found else 0)
    return {one["item"] or one["upkeep"]: one for one in found if "upkeep" in one}


def test_a_lamp_comes_due_and_a_service_puts_it_off(home):
    before = due(home, "2026-06-01")
    assert before.keys() == {"uv_lamp", "uv_sleeve", "uv_water", "wellhead", "check_up"}
    lamp = before["uv_lamp"]
    assert (lamp["unit"], lamp["last"], lamp["due"]) == ("Lamp", "2025-03-01", "2026-03-01")
    assert lamp["overdue_days"] == 92
    assert (lamp["point"], lamp["parameters"], lamp["case"]) == ("", [], "")
    assert "panel" not in lamp
    assert before["wellhead"]["last"] is None
    home.done(
        *("enter", HOME, "service", "--unit", "Lamp", "--kind", "lamp"),
        *("--on", "2026-06-01", "--cost", "49.90"),
    )
    home.done(
        *("enter", HOME, "interval", "--task", "uv_sleeve", "--unit", "Lamp"),
        *("--months", "0", "--reason", "soft water"),
    )
    assert due(home, "2026-06-02").keys() == {"uv_water", "wellhead", "check_up"}
    said = home.run("due", HOME, "--on", "2027-06-01").out
    assert "Lamp, lamp: due since 1 Jun 2027." in said
    assert "Pull the plug first; never look into a burning lamp." in said
    assert "electricity at a wellhead can kill" in said


def test_a_lamp_that_was_out_asks_for_clean_pipes_and_a_test_at_once(home):
    """No residual guards what lies behind a lamp: EPA-430/9-74-007; the steps: common practice."""
    for name, water in (("Raw", "raw"), ("Kitchen", "treated")):
        home.done("enter", HOME, "point", "--name", name, "--water", water)
    assert "uv_pipes" not in due(home, "2026-06-03")
    failed = ("--unit", "Lamp", "--kind", "failed", "--on", "2026-06-02")
    said = home.run("enter", HOME, "service", *failed).out
    assert "Have the pipes behind it disinfected" in said
    assert "Drink other water until a test finds no bacteria." in said
    answer = home.run("due", HOME, "--on", "2026-06-03", "--json")
    asked = [one for one in json.loads(answer.out)["due"] if one["due"] >= "2026-06-02"]
    assert ("Kitchen", ["total_coliform", "e_coli"]) in [
        (one["point"], one["parameters"]) for one in asked
    ]
    assert due(home, "2026-06-03")["uv_pipes"]["due"] == "2026-06-02"
    refused = home.run("enter", HOME, "interval", "--task", "uv_pipes", "--months", "6")
    assert "There is no task 'uv_pipes'" in refused.err
    home.done(
        *("enter", HOME, "service", "--unit", "Lamp"),
        *("--kind", "pipes disinfected", "--on", "2026-06-03"),
    )
    assert "uv_pipes" not in due(home, "2026-06-03")


def test_a_unit_is_taken_out_and_another_of_its_name_put_in(home):
    again = ("enter", HOME, "unit", "--name", "Lamp", "--kind", "ultraviolet lamp")
    assert "in use already" in home.run(*again, "--installed", "2026-02").err
    home.done("enter", HOME, "unit", "--name", "Lamp", "--removed", "2026-02-01")
    home.done(*again, "--installed", "2026-02")
    home.done("enter", HOME, "service", "--unit", "Lamp", "--kind", "lamp", "--on", "2026-06-01")
    found = due(home, "2027-06-01")["uv_lamp"]
    assert (found["last"], found["due"]) == ("2026-06-01", "2027-06-01")
    refused = home.run("enter", HOME, "event", "--kind", "found bad", "--on", "2026").err
    assert "There is no event 'found bad'" in refused


def test_what_belongs_to_the_well_is_asked_after_once_it_is_written_down(home):
    """EPA, SepticSmart text of 2016: inspected each three years; a gas detector: each month."""
    assert due(home, "2026-06-01").keys().isdisjoint({"septic_look", "gas_detector", "backflow"})
    for item, text in (
        ("distance to septic system", "120 ft"),
        ("gas detector", "hall, until 2031"),
        ("backflow preventer", "on the barn hose"),
    ):
        home.done("enter", HOME, "log", "--item", item, "--text", text)
    asked = {"septic_look", "septic_pump", "gas_detector", "backflow"}
    assert asked <= due(home, "2026-06-01").keys()
    for kind in ("septic inspected", "septic pumped", "gas detector tested", "backflow tested"):
        home.done("enter", HOME, "event", "--kind", kind, "--on", "2026-06-01")
    assert asked.isdisjoint(due(home, "2026-06-30"))
    assert asked & due(home, "2026-07-01").keys() == {"gas_detector"}
    assert asked & due(home, "2029-06-01").keys() == asked


def test_a_cartridge_is_used_up_by_the_gallons_on_its_meter_before_its_time(home):
    """A rated volume holds for health claims: Univ. of Kentucky IP-6, activated carbon filters."""
    tap = ("--unit", "Tap filter")
    home.done("enter", HOME, "unit", "--name", "Tap filter", "--kind", "carbon filter")
    service = ("enter", HOME, "service", *tap, "--kind")
    home.done(*service, "cartridge", "--on", "2026-01-01", "--meter", "5000 gallons")
    interval = ("enter", HOME, "interval", *tap, "--task", "carbon_cartridge")
    said = home.done(*interval, "--use", "1000 gal").out
    assert "every 6 months or 1000 gal, whichever comes first" in said
    assert "enter service --meter" in said
    home.done(*service, "meter", "--on", "2026-02-20", "--meter", "5500 gal")
    assert "carbon_cartridge" not in due(home, "2026-04-10")
    found = due(home, "2026-04-11")["carbon_cartridge"]
    assert (found["due"], found["overdue_days"]) == ("2026-04-11", 0)
    assert found["used"] == {"of": "1000 gal", "measured": "500 gal", "until": "2026-04-11"}
    said = home.run("due", HOME, "--on", "2026-05-01").out
    assert "Tap filter, carbon: used up since about 11 Apr 2026." in said
    assert "By its meter 500 of 1000 gal were used on 20 Feb 2026" in said
    assert "2026-04-11" in home.done("calendar", HOME, "--on", "2026-03-01", "-o", "a.ics").out or (
        b"DTSTART;VALUE=DATE:20260411" in (home.folder / "a.ics").read_bytes()
    )
    home.done(*service, "cartridge", "--on", "2026-05-02", "--meter", "6300 gal")
    assert "carbon_cartridge" not in due(home, "2026-05-03")


def test_a_bad_cap_stays_on_the_list_until_it_is_mended_and_undo_brings_it_back(home):
    (home.folder / "cap.jpg").write_bytes(b"\xff\xd8\xff\xe0")
    said = home.done(
        *("enter", HOME, "inspection", "--on", "2026-04-10", "--cap", "bad", "--slope", "good"),
        *("--casing-height", "not-seen", "--remark", "cap=cracked rim", "--photo", "cap.jpg"),
    ).out
    assert "licensed well contractor mend or replace the cap; then test for bacteria" in said
    assert "Not answered: vent;" in said
    for day in ("2026-04-10", "2027-03-01", "2031-01-01"):
        assert due(home, day)["cap"]["upkeep"] == "mend", day
    late = ("enter", HOME, "mended", "--line", "cap", "--on")
    assert "can’t lie before that" in home.run(*late, "2026-04-09", codes=(1,)).err
    home.done(*late, "2026-05-02")
    assert "cap" not in due(home, "2026-06-01")
    home.done("undo", HOME)
    assert "cap" in due(home, "2026-06-01")


def test_a_later_look_that_finds_it_good_ends_it(home):
    home.done("enter", HOME, "inspection", "--on", "2026-04-10", "--vent", "bad")
    home.done("enter", HOME, "inspection", "--on", "2026-06-10", "--vent", "not-seen")
    assert "vent" in due(home, "2026-07-01")
    home.done("enter", HOME, "inspection", "--on", "2026-07-02", "--vent", "good")
    assert "vent" not in due(home, "2026-07-03")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("inspection", "--on", "2026-04-10"), "Answer at least one line"),
        (("inspection", "--on", "2026-04-10", "--cap", "fine"), "not one of 'good', 'bad'"),
        (("inspection", "--on", "April", "--cap", "good"), "April is no day"),
        (("inspection", "--on", "2026", "--remark", "moat=x", "--cap", "good"), "the lines are"),
        (("inspection", "--on", "2026", "--remark", "vent=x", "--cap", "good"), "but no answer"),
        (("inspection", "--on", "2026", "--cap", "good", "--photo", "gone.jpg"), "can’t be read"),
        (("inspection", "--on", "2026", "--cap", "good", "--photo", "a.txt"), "is no picture"),
        (("mended", "--line", "cap", "--on", "2026"), "Nothing called cap is on the list of Home"),
        (("interval", "--task", "polish", "--months", "3"), "There is no task 'polish'"),
        (("interval", "--task", "ro_tank", "--months", "3"), "of the kind reverse osmosis"),
        (("service", "--unit", "Lump", "--kind", "lamp", "--on", "2026"), "called 'Lump'"),
        (("service", "--kind", "lamp", "--on", "2026", "--cost", "-4"), "can’t be read as a cost"),
        (
            ("flow-test", "--on", "2026", "--flow", "five", "--flow-unit", "gal/min"),
            "can’t be read",
        ),
        (("flow-test", "--on", "2026", "--flow", "5", "--flow-unit", "bucket"), "is not one of"),
        (
            ("flow-test", "--on", "2026", "--flow", "5", "--flow-unit", "L/min", "--drawdown", "2"),
            "the drawdown in ft or m",
        ),
        (("interval", "--task", "uv_lamp"), "Say how often (--months)"),
        (("interval", "--task", "uv_lamp", "--use", "1,000 h"), "1,000 h can’t be read"),
        (("interval", "--task", "uv_lamp", "--use", "9 kWh"), "The measures are: gal, L, m³, h"),
        (("interval", "--task", "uv_lamp", "--use", "900 gal"), "here the measures are: h."),
        (("interval", "--task", "uv_lamp", "--use", "0 h"), "Nothing lasts for 0 h"),
        (
            ("interval", "--task", "uv_lamp", "--use", "9000 h", "--a-day", "3 L"),
            "can’t be compared",
        ),
        (
            ("interval", "--task", "uv_lamp", "--months", "0", "--use", "9000 h"),
            "does not go with that",
        ),
        (("service", "--kind", "meter", "--on", "2026"), "Say what the meter shows"),
        (("service", "--kind", "lamp", "--on", "2026", "--meter", "much"), "much can’t be read"),
        (("cost", "--kind", "salt", "--on", "2026", "--cost", "1,000.5"), "can’t be read as a"),
    ],
)
def test_what_can_not_be_kept_is_said_and_leaves_the_book_as_it_was(home, words, said):
    before = (home.folder / HOME).read_bytes()
    answer = home.run("enter", HOME, *words, codes=(1, 2))
    assert said in answer.err
    assert (home.folder / HOME).read_bytes() == before


def test_what_water_cost_is_added_up_by_year_and_currency(home):
    home.done(
        *("enter", HOME, "cost", "--kind", "bottled water", "--on", "2026-02"),
        *("--cost", "12,50"),
    )
    home.done(
        *("enter", HOME, "event", "--kind", "check-up", "--on", "2026-05-02"),
        *("--cost", "120", "--currency", "CAD"),
    )
    assert "check_up" not in due(home, "2026-06-01")
    told = json.loads(home.done("status", HOME, "--on", "2026-06-01", "--json").out)["costs"]
    assert [(one["year"], one["currency"], one["total"]) for one in told] == [
        (2026, "CAD", "120"),
        (2026, "USD", "12.50"),
        (2025, "USD", "640"),
    ]
    said = home.done("status", HOME, "--on", "2026-06-01").out
    assert "2026: 12.50 USD (1 figure: other costs 12.50)" in said


def test_a_flow_test_is_kept_with_its_units_and_exported(home):
    said = home.done(
        *("enter", HOME, "flow-test", "--on", "2026-05-03", "--flow", "19,5"),
        *("--flow-unit", "L/min", "--hours", "4", "--by", "a licensed driller"),
    ).out
    assert "on 2026-05-03, 19.5 L/min." in said
    home.done("export", HOME, "-o", "tables")
    table = (home.folder / "tables" / "events.csv").read_text("utf-8-sig")
    (row,) = [one for one in csv.DictReader(table.splitlines()) if one["flow"]]
    assert (row["kind"], row["flow"], row["flow_unit"]) == ("flow test", "19.5", "L/min")
    assert (row["hours"], row["drawdown"], row["done_by"]) == ("4", "", "a licensed driller")


def test_a_unit_of_a_kind_without_known_upkeep_is_told_of(home):
    said = home.done("enter", HOME, "unit", "--name", "Box", "--kind", "magic box").out
    assert "Wellbook knows no upkeep for the kind magic box; it does for: sediment filter" in said
