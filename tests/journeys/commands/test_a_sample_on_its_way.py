"""A round that was drawn is awaited; what a lab tells before its report counts at once.

The 30 hours: EPA on 40 CFR 141.21(f)(3), see `water/sampling/shipping.py`. That labs telephone a
positive bacteria result: common practice, no source (New Jersey asks for it within 24 hours).
"""

import json

import pytest
from reading import pages_of

REPORT = (
    "Sample ID,{number}\nCollected,2026-06-09 {hour}\nReceived,2026-06-10 10:00\n"
    "Sample Location,Tank\n\nAnalyte,Result,Units\nTotal Coliform,{tc},per 100 mL\n"
    "E. coli,{ec},per 100 mL\n{more}"
)
NITRATE = "Nitrate as N,3.1,mg/L\n"


@pytest.fixture
def home(shell):
    shell.done("new", "home.wellbook")
    shell.done("enter", "home.wellbook", "well", "--name", "Home")
    shell.done("enter", "home.wellbook", "point", "--name", "Tank")
    return shell


def drawn(shell, *more, at="16:30"):
    return shell.done("enter", "home.wellbook", "drawn", "--on", "2026-06-09", "--at", at,
                      "--lab", "Brook Lab", *more).out  # fmt: skip


def told(shell, *more):
    return shell.done("enter", "home.wellbook", "preliminary", "--parameter", "e_coli", *more).out


def add(shell, *how, hour="16:30", tc="Present", ec="Present", number="B-17", more=NITRATE):
    text = REPORT.format(hour=hour, tc=tc, ec=ec, number=number, more=more)
    (shell.folder / "report.csv").write_text(text)
    return ("add", "home.wellbook", "report.csv", "--accept", *how)


def answer(shell, command, day="2026-06-12"):
    return json.loads(shell.run(command, "home.wellbook", "--on", day, "--json").out)


def latest(shell, key):
    (point,) = answer(shell, "status")["wells"][0]["points"]
    return next(one for one in point["parameters"] if one["key"] == key)


def open_cases(shell):
    return [one for one in answer(shell, "cases")["cases"] if one["state"] == "open"]


def test_a_round_is_kept_as_drawn_and_is_awaited_until_its_report(home):
    said = drawn(home, "--cooling", "ice", "--parcel", "1Z99", "--sent-at", "16:50")
    assert "Kept: 1 sample is on its way." in said
    (owed,) = answer(home, "status")["awaited"]
    assert {*owed["parameters"]} == {"total_coliform", "e_coli", "nitrate"}
    assert owed["expected"] == "2026-06-23"
    assert not owed["too_old"]
    assert "Awaited since 9 June 2026" in home.run("due", "home.wellbook", "--on", "2026-06-12").out
    assert home.refused("enter", "home.wellbook", "drawn", "--on", "2026-06-09")
    home.done(*add(home, tc="Absent", ec="Absent"))
    assert answer(home, "status")["awaited"] == []
    assert latest(home, "nitrate")["n"] == 1
    rows = home.done("export", "home.wellbook", "-o", "out")
    assert rows.code == 0
    samples = (home.folder / "out/samples.csv").read_text("utf-8-sig").splitlines()
    assert len(samples) == 2, "one sample, completed and not doubled"
    assert "1Z99" in samples[1]
    home.done("check", "home.wellbook")


def test_what_was_drawn_is_not_planned_again_and_stays_due_until_it_is_reported(home):
    before = answer(home, "round", "2026-06-03")["rounds"]
    assert before
    drawn(home, "--sent-at", "16:50")
    assert answer(home, "round", "2026-06-12")["rounds"] == []
    due = [one for one in answer(home, "due", "2026-06-12")["due"] if "panel" in one]
    assert due
    assert all("the result is awaited" in one["suggested"]["why"] for one in due)
    late = answer(home, "status", "2026-06-24")["awaited"]
    assert late[0]["late"], "the lab is asked once its usual days are over"
    assert answer(home, "round", "2026-06-24")["rounds"], "and the round is planned anew"


def test_a_sample_that_will_be_too_old_is_warned_of(home):
    assert "hours old when its test starts" in drawn(home, "--sent-at", "16:50", at="06:00")
    (owed,) = answer(home, "due")["awaited"]
    assert owed["too_old"]
    assert owed["age_hours"] > owed["limit_hours"]


def test_what_still_lies_at_home_grows_old(home):
    drawn(home)
    assert not answer(home, "status", "2026-06-09")["awaited"][0]["too_old"]
    (owed,) = answer(home, "status", "2026-06-11")["awaited"]
    assert owed["too_old"], "drawn on Tuesday, on Thursday it has not been sent"
    home.done(
        "enter", "home.wellbook", "sent", "--on", "2026-06-09", "--at", "16:50", "--parcel", "7"
    )
    assert not answer(home, "status", "2026-06-11")["awaited"][0]["too_old"]


def test_a_telephoned_finding_opens_its_case_at_once_and_is_marked_everywhere(home):
    (home.folder / "before.csv").write_text(
        "Sample Date,Location,Analyte,Result,Units\n2025-06-02,Tank,E. coli,Absent,per 100 mL\n"
    )
    home.done("add", "home.wellbook", "before.csv", "--accept")
    drawn(home, "--sent-at", "16:50")
    said = told(home)
    assert "Preliminary, by telephone" in said
    assert "New in the latest test, 9 Jun 2026\nE. coli: Found for the first time" in said
    e_coli = latest(home, "e_coli")
    assert e_coli["latest"]["preliminary"]
    assert e_coli["now"]["verdict"] == "outside"
    (case,) = open_cases(home)
    assert case["preliminary"]
    assert "report is still to come" in case["why"]
    assert any(one["case"] for one in answer(home, "due")["due"])
    said = home.done("status", "home.wellbook", "--on", "2026-06-12").out
    assert "E. coli: present per 100 mL (preliminary)" in said
    assert "Preliminary, by telephone: E. coli found" in said
    home.done("packet", "home.wellbook", "--for", "buyer", "-o", "p.pdf", "--on", "2026-06-12")
    pages = pages_of(home.folder / "p.pdf")
    assert "E. coli (preliminary)" in pages[0]
    assert any("present (preliminary)" in page for page in pages)


def test_the_report_completes_the_word_and_does_not_double_it(home):
    drawn(home, "--sent-at", "16:50")
    told(home)
    home.done(*add(home, hour="16:35"))
    e_coli = latest(home, "e_coli")
    assert (e_coli["n"], e_coli["latest"]["preliminary"]) == (1, False)
    (case,) = open_cases(home)
    assert not case["preliminary"]
    assert answer(home, "status")["awaited"] == []
    assert "already in the book" in home.refused(*add(home, hour="16:35"))


@pytest.mark.parametrize("denial", ["Absent", "<1", "0"])
def test_a_report_that_denies_it_is_asked_about_and_never_milder_silently(home, denial):
    drawn(home, "--sent-at", "16:50")
    told(home)
    said = home.refused(*add(home, tc="Absent", ec=denial))
    assert "E. coli was found in the sample of 2026-06-09" in said
    assert open_cases(home)
    assert answer(home, "status")["awaited"], "nothing of the report was stored"
    home.done(*add(home, "--preliminary", "keep", tc="Absent", ec=denial))
    assert open_cases(home), "both are kept, and the finding counts"
    home.done("undo", "home.wellbook")
    home.done(*add(home, "--preliminary", "withdrawn", tc="Absent", ec=denial))
    assert open_cases(home) == []
    rows = home.done("export", "home.wellbook", "-o", "out") and (
        home.folder / "out/results.csv"
    ).read_text("utf-8-sig")
    assert "preliminary, rejected" in rows, "what was told stays on record"


def test_a_lab_withdraws_what_it_told_and_what_was_told_stays_to_read(home):
    drawn(home, "--sent-at", "16:50")
    said = home.refused("enter", "home.wellbook", "withdrawn", "--parameter", "e_coli")
    assert "told before a report were: none" in said
    told(home)
    assert open_cases(home)
    home.done("enter", "home.wellbook", "withdrawn", "--parameter", "e_coli")
    assert open_cases(home) == []
    assert answer(home, "status")["awaited"], "its report is awaited all the same"
    home.done(*add(home, tc="Absent", ec="Absent"))
    home.done("export", "home.wellbook", "-o", "out")
    rows = (home.folder / "out/results.csv").read_text("utf-8-sig")
    assert "preliminary, rejected" in rows


def test_a_part_of_the_report_leaves_the_rest_awaited(home):
    drawn(home, "--sent-at", "16:50")
    told(home)
    home.done(*add(home, more=""))
    (owed,) = answer(home, "status")["awaited"]
    assert owed["parameters"] == ["nitrate"]
    assert owed["preliminary"] == []
    more = REPORT.replace("Total Coliform,{tc},per 100 mL\nE. coli,{ec},per 100 mL\n", "")
    (home.folder / "rest.csv").write_text(more.format(number="B-17", hour="16:30", more=NITRATE))
    home.done("add", "home.wellbook", "rest.csv", "--accept")
    assert answer(home, "status")["awaited"] == []
    assert latest(home, "e_coli")["n"] == 1


def test_a_word_on_a_sample_that_nobody_entered_is_kept_with_its_day(home):
    assert "day it was drawn" in home.refused("enter", "home.wellbook", "preliminary",
                                               "--parameter", "e_coli")  # fmt: skip
    told(home, "--drawn", "2026-06-09", "--point", "Tank", "--result", "12")
    assert latest(home, "e_coli")["now"]["verdict"] == "outside"
    home.done(*add(home))
    assert latest(home, "e_coli")["n"] == 1


@pytest.mark.parametrize("word", ["absent", "0", "<1", "nothing so far"])
def test_that_nothing_was_found_so_far_is_not_taken(home, word):
    drawn(home, "--sent-at", "16:50")
    said = home.refused("enter", "home.wellbook", "preliminary", "--parameter", "e_coli",
                        "--result", word)  # fmt: skip
    assert "Only a finding is taken before the report" in said


def test_all_of_it_can_be_taken_back(home):
    drawn(home, "--sent-at", "16:50")
    told(home)
    home.done("undo", "home.wellbook")
    assert open_cases(home) == []
    home.done("undo", "home.wellbook")
    assert answer(home, "status")["awaited"] == []
    home.done("redo", "home.wellbook")
    assert answer(home, "status")["awaited"]
    home.done("check", "home.wellbook")
