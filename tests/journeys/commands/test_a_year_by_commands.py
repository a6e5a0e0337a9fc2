"""Two households led through a year by commands alone, without a display.

What is advised: EPA and CDC on floods and private wells; Minnesota on nitrate and babies;
state health departments on bacteria (sources stand beside each row of the reference data).
"""

import json

import pytest

BACTERIA = (
    "Sample ID,{number}\nCollected,{day} 08:10\nReceived,{day} 11:00\nSample Location,{point}\n\n"
    "Analyte,Result,Units\nTotal Coliform,{tc},per 100 mL\nE. coli,{ec},per 100 mL\n"
)
NITRATE = BACTERIA + "Nitrate as N,{nitrate},mg/L\n"


@pytest.fixture
def home(shell):
    shell.done("new", "home.wellbook")
    shell.done("enter", "home.wellbook", "well", "--name", "Home", "--kind", "drilled")
    shell.done("enter", "home.wellbook", "point", "--name", "Pressure tank")
    shell.done("enter", "home.wellbook", "point", "--name", "Kitchen", "--water", "treated")
    return shell


def taken(shell, number, template, **facts):
    (shell.folder / f"{number}.csv").write_text(template.format(number=number, **facts))
    shell.done("add", "home.wellbook", f"{number}.csv", "--accept")


def due(shell, day):
    said = json.loads(shell.run("due", "home.wellbook", "--on", day, "--json").out)
    return said["due"]


def cases(shell, day):
    return json.loads(shell.done("cases", "home.wellbook", "--on", day, "--json").out)["cases"]


def cautions(shell, day):
    said = json.loads(shell.done("status", "home.wellbook", "--on", day, "--json").out)
    return " ".join(
        one["text"]
        for well in said["wells"]
        for point in well["points"]
        for one in point["cautions"]
    )


def test_a_household_with_a_baby_and_nitrate(home):
    home.done("settings", "home.wellbook", "--set", "people=infant")
    fine = {"tc": "Absent", "ec": "Absent", "point": "Pressure tank"}
    taken(home, "n1", NITRATE, day="2026-01-12", nitrate="14.8", **fine)

    assert "Do not give this water to a baby" in cautions(home, "2026-01-13")
    (case,) = cases(home, "2026-01-13")
    assert case["state"] == "open"
    assert case["parameters"] == ["nitrate"]
    assert case["next"][0]["by"] == "2026-01-19"  # seven days with a baby in the house
    assert "It closes when" in case["closes_when"]

    late = [one for one in due(home, "2026-02-01") if one["case"]]
    assert {"nitrate"} <= {key for one in late for key in one["parameters"]}

    home.done(
        "enter", "home.wellbook", "unit", "--name", "RO", "--kind", "reverse osmosis",
        "--installed", "2026-02-01", "--against", "nitrate", "--point", "Kitchen",
    )  # fmt: skip
    taken(home, "n2", NITRATE, day="2026-02-10", nitrate="15.1", **fine)
    asked = [one for one in due(home, "2026-06-01") if one["case"]]
    assert {one["point"] for one in asked} == {"Pressure tank", "Kitchen"}

    for number, day, nitrate in (("n3", "2026-06-10", "4.1"), ("n4", "2026-08-10", "3.9")):
        taken(home, number, NITRATE, day=day, nitrate=nitrate, **fine)
    (case,) = cases(home, "2026-08-11")
    assert (case["state"], case["closed"]) == ("closed", "2026-08-10")


def test_a_household_after_a_flood(home):
    said = home.done(
        "enter", "home.wellbook", "event", "--kind", "flood", "--on", "2026-04-03",
        "--text", "Creek over the wellhead, no oil seen",
    ).out  # fmt: skip
    assert "do not switch on the pump" in said
    assert "do not switch on the pump" in cautions(home, "2026-04-03")
    asked = {key for one in due(home, "2026-04-04") for key in one["parameters"]}
    assert {"total_coliform", "e_coli"} <= asked
    assert "benzene" not in asked

    facts = {"point": "Pressure tank", "tc": "Present"}
    taken(home, "b1", BACTERIA, day="2026-04-10", ec="Present", **facts)
    assert "other water only" in cautions(home, "2026-04-11").lower()  # nitrate is not known
    (case,) = cases(home, "2026-04-11")
    assert case["state"] == "open"

    home.done(
        "enter", "home.wellbook", "event", "--kind", "disinfection", "--on", "2026-04-20",
        "--text", "by the county's contractor",
    )  # fmt: skip
    for number, day in (("b2", "2026-05-04"), ("b3", "2026-05-11")):
        taken(home, number, BACTERIA, day=day, tc="Absent", ec="Absent", point="Pressure tank")
    (case,) = cases(home, "2026-06-16")
    assert case["state"] == "open"
    assert "pump" not in cautions(home, "2026-06-16")
    assert "No case" not in home.done("cases", "home.wellbook", "--on", "2026-06-16").out


def test_a_plan_adds_and_only_its_own_word_drops_a_usual_panel(home):
    def asked():
        return {one["panel"] for one in due(home, "2026-12-24") if one["point"] == "Pressure tank"}

    assert asked() == {"Bacteria", "Nitrate"}
    line = ("--point", "Pressure tank")
    home.done("enter", "home.wellbook", "plan", "--panel", "pfas", "--months", "12", *line)
    assert asked() == {"Bacteria", "Nitrate", "PFAS"}
    refused = home.run(
        "enter", "home.wellbook", "plan", "--panel", "nitrate", "--months", "0", *line
    )
    assert refused.code == 2
    assert "--drop" in refused.err
    taken(
        home, "n1", NITRATE, day="2025-01-12", nitrate="1", tc="Absent", ec="Absent",
        point="Pressure tank",
    )  # fmt: skip
    assert "Nitrate" in asked()
    home.done(
        "enter", "home.wellbook", "plan", "--panel", "nitrate", "--drop", "--reason",
        "the county tests it", *line,
    )  # fmt: skip
    assert "Nitrate" not in asked()
    home.done("undo", "home.wellbook")
    assert "Nitrate" in asked()
    home.done("redo", "home.wellbook")
    assert "Nitrate" not in asked()


def test_what_was_entered_wrongly_is_put_right(home):
    facts = {"tc": "Absent", "ec": "Absent", "point": "Pressure tank", "day": "2026-01-12"}
    taken(home, "n1", NITRATE, nitrate="14.8", **facts)
    home.done(
        "correct", "home.wellbook", "--sample", "n1", "--parameter", "nitrate", "--result", "1.48",
        "--reason", "a slip of the point",
    )  # fmt: skip
    assert cases(home, "2026-01-13") == []
    home.done("strike", "home.wellbook", "--sample", "n1", "--reason", "another house's bottle")
    assert "1.48" not in home.done("status", "home.wellbook").out
    assert (
        "no sample"
        in home.refused("strike", "home.wellbook", "--sample", "zz", "--reason", "x").lower()
    )


def test_settings_are_shown_and_changed_and_a_strange_word_is_refused(home):
    home.done(
        "settings", "home.wellbook", "--set", "country=CA", "--set", "state=ON",
        "--set", "limit-sets=canada-gcdwq,ca-on", "--set", "people=child,low-sodium",
    )  # fmt: skip
    kept = json.loads(home.done("settings", "home.wellbook", "--json").out)
    assert (kept["country"], kept["state"]) == ("CA", "ON")
    assert kept["people"] == ["child", "low-sodium"]
    assert "canada-gcdwq" in kept["limit-sets"]
    before = home.snapshot()
    assert "martian" in home.refused("settings", "home.wellbook", "--set", "people=martian")
    assert home.snapshot() == before


def test_the_caution_of_an_event_is_told_the_moment_it_is_entered(home):
    for kind, says in (
        ("flood", "water and power kill"),
        ("disinfection", "Never mix chlorine"),
        ("pump", "mains voltage"),
        ("birth", "Before a baby drinks the water"),
    ):
        line = ("event", "--kind", kind, "--on", "2026-04-03")
        assert says in home.done("enter", "home.wellbook", *line).out
    said = cautions(home, "2026-04-03")
    assert "water and power kill" in said
    assert "Never mix chlorine" in said


def test_an_unknown_kind_names_those_there_are(home):
    answer = home.run("enter", "home.wellbook", "event", "--kind", "Flut", "--on", "2026-04-03")
    assert answer.code == 2
    assert "flood" in answer.err
