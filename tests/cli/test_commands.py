"""The commands, run as a person runs them: in a process of their own, on real files."""

import json
import os
import subprocess
import sys
from pathlib import Path

import commands
import pypdfium2
import pytest

from wellbook.water.values.figures import plain

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "sample_wells"
DAY = "2026-11-25"
DUE_KEYS = {"well", "point", "panel", "parameters", "case", "last", "due", "overdue_days"}
DUE_KEYS |= {"suggested"}


def run(*words, cwd=None, code=0, **environ):
    env = {k: v for k, v in os.environ.items() if k not in {"DISPLAY", "WAYLAND_DISPLAY"}}
    done = commands.run(*words, cwd=cwd, env=env | environ)
    assert done.returncode == code, done.stderr + done.stdout
    assert "Traceback" not in done.stderr
    return done


@pytest.fixture
def book(tmp_path):
    path = tmp_path / "home.wellbook"
    run("sample", "alder-hollow", path)
    return path


def one_line(done):
    (line,) = done.stderr.strip().splitlines()
    return line


def test_sample_lists_the_invented_households():
    listed = json.loads(run("sample", "--json").stdout)["samples"]
    assert [one["name"] for one in listed] == ["alder-hollow", "first-year", "salt-lane"]
    assert all(one["about"] for one in listed)


def test_status_keeps_its_contract(book):
    facts = json.loads(run("status", book, "--json", "--on", DAY).stdout)
    assert facts.keys() == {"book", "on", "wells", "costs", "awaited"}
    assert (facts["book"], facts["on"]) == ("home.wellbook", DAY)
    points = facts["wells"][0]["points"]
    assert [point["treated"] for point in points] == [False, True]
    nitrate = next(p for p in points[0]["parameters"] if p["key"] == "nitrate")
    keys = {"key", "name", "n", "latest", "then", "now", "adopted", "trend", "forecast", "power"}
    assert nitrate.keys() == keys | {"level"}
    assert nitrate["latest"].keys() == {"collected", "reported", "unit", "basis", "preliminary"}
    assert nitrate["trend"].keys() == {"says", "test", "n", "p", "slope_per_year", "unit"}
    for judged in (nitrate["then"], nitrate["now"]):
        assert judged["limit"] == "10"
        assert judged.keys() >= {"verdict", "limit", "unit", "basis", "set", "kind", "source"}
    assert nitrate["trend"]["says"] == "rising"


def test_status_says_when_the_rising_nitrate_reaches_its_limit(book):
    facts = json.loads(run("status", book, "--json", "--on", DAY).stdout)
    nitrate = next(p for p in facts["wells"][0]["points"][0]["parameters"] if p["key"] == "nitrate")
    forecast = nitrate["forecast"]
    keys = {"says", "limit", "unit", "set", "day", "from", "to"}
    more = {"wider_than_90_percent", "roughly_90_percent", "tests_in_one_season"}
    assert forecast.keys() == keys | more
    assert (forecast["says"], forecast["limit"], forecast["unit"]) == (
        "rises above",
        10,
        "mg/L as N",
    )
    assert nitrate["latest"]["collected"][:10] <= forecast["from"] <= forecast["day"]
    assert forecast["to"] is None or forecast["day"] <= forecast["to"]
    said = run("status", book, "--on", DAY).stdout
    assert "rises above 10 mg/L as N" in said


def test_status_says_the_median_with_non_detects_and_how_sure_it_is(book):
    said = run("status", book, "--on", DAY).stdout
    assert (
        "in the long run: Half of 8 tests (4 non-detects among them, counted in by Kaplan-Meier) "
        "lay at or below 1.88 µg/L" in said
    )
    assert "The long-run median is below 5 µg/L with 90 % confidence: at most 5 µg/L (8 te" in said
    facts = json.loads(run("status", book, "--json", "--on", DAY).stdout)
    levels = {p["key"]: p["level"] for p in facts["wells"][0]["points"][0]["parameters"]}
    arsenic, nitrate = levels["arsenic"], levels["nitrate"]
    assert (arsenic["n"], arsenic["non_detects"], arsenic["unit"]) == (8, 4, "µg/L")
    assert (arsenic["upper"], arsenic["confidence"], arsenic["stands"]) == (5, 0.9, "below")
    assert (nitrate["median"], nitrate["upper"], nitrate["stands"]) == (5.5, None, None)
    assert levels["total_coliform"] is None


def test_a_status_of_an_earlier_day_knows_nothing_later(book):
    facts = json.loads(run("status", book, "--json", "--on", "2010-01-01").stdout)
    for point in facts["wells"][0]["points"]:
        for parameter in point["parameters"]:
            assert parameter["latest"]["collected"] <= "2010-01-01"


def test_due_keeps_its_contract_and_its_exit_codes(book, tmp_path):
    facts = json.loads(run("due", book, "--json", "--on", DAY, code=3).stdout)
    assert facts.keys() == {"on", "due", "awaited"}
    one = facts["due"][0]
    assert one.keys() == DUE_KEYS
    assert one["suggested"].keys() == {"from", "to", "day", "why"}
    assert one["due"] <= DAY
    empty = tmp_path / "empty.wellbook"
    run("new", empty)
    assert json.loads(run("due", empty, "--json").stdout)["due"] == []


def test_a_lab_file_is_shown_first_and_kept_only_when_accepted(tmp_path):
    book, file = tmp_path / "home.wellbook", SAMPLES / "first-year/to-add/hollin-2611061.csv"
    run("sample", "first-year", book)
    before = book.read_bytes()
    assert "Nothing was stored" in run("add", book, file).stdout
    assert book.read_bytes() == before
    stored = json.loads(run("add", book, file, "--accept", "--json").stdout)["stored"]
    assert len(stored[0]["samples"]) == 1
    facts = json.loads(run("status", book, "--json", "--on", DAY).stdout)
    latest = [
        parameter["latest"]["collected"]
        for point in facts["wells"][0]["points"]
        for parameter in point["parameters"]
        if parameter["key"] == "arsenic"
    ]
    assert "2026-11-10T15:50" in latest[0]


def test_each_of_several_files_tells_how_much_of_it_is_outside_a_limit(tmp_path):
    """E. coli may not be present (US EPA, 40 CFR 141.63), nor lead over 15 µg/L (141.80)."""
    head = "Date collected,2026-05-04\nParameter,Result,Unit\n"
    book, bad, good = tmp_path / "b.wellbook", tmp_path / "bad.csv", tmp_path / "good.csv"
    bad.write_text(f"{head}Lead,31,ug/L\nE. coli,present,per 100 mL\nZinc,0.1,mg/L\n")
    good.write_text(f"{head.replace('05', '07')}Zinc,0.1,mg/L\n")
    run("new", book)
    place = ("--well", "W", "--point", "Tap")
    lines = run("add", book, bad, good, *place, "--accept").stdout.splitlines()
    assert lines[0].endswith("3 readings, 2 results outside a limit")
    assert "good.csv: 1 test, 1 reading" in lines
    told = [line.partition(". ")[2] for line in lines if line.startswith("Stored")]
    assert told == ["2 results outside a limit.", ""]


def test_of_several_files_each_is_kept_on_its_own(tmp_path):
    book, good = tmp_path / "home.wellbook", SAMPLES / "first-year/to-add/hollin-2611061.csv"
    run("new", book)
    bad = tmp_path / "bad.csv"
    bad.write_bytes(BAD["a date in the future"])
    done = run("add", book, bad, good, "--accept", code=1)
    assert "bad.csv" in one_line(done)
    assert "Stored 1 test" in done.stdout
    assert "already in the book" in one_line(run("add", book, good, "--accept", code=1))


def test_the_same_file_is_not_taken_in_twice(tmp_path):
    book, file = tmp_path / "home.wellbook", SAMPLES / "first-year/to-add/hollin-2611061.csv"
    run("new", book)
    run("add", book, file, "--accept")
    before = book.read_bytes()
    assert "already in the book" in one_line(run("add", book, file, "--accept", code=1))
    assert book.read_bytes() == before
    assert "Stored 1 test" in run("add", book, file, "--again", "--accept").stdout


def test_an_amended_report_corrects_the_test_that_is_there_when_it_is_taken(tmp_path):
    book, first, later = (tmp_path / name for name in ("home.wellbook", "a.csv", "b.csv"))
    head = "Lab Sample ID,Collected,Parameter,Result,Unit\n"
    rows = "A-1,2025-05-13,Chloride,21,mg/L\nA-1,2025-05-13,Iron,{},mg/L\n"
    first.write_text(head + rows.format("0.1"))
    later.write_text(head + rows.format("0.4") + "A-1,2025-05-13,Lead,3,ug/L\n")
    run("new", book)
    run("add", book, first, "--accept")
    refused = one_line(run("add", book, later, "--accept", code=1))
    assert "--take" in refused
    assert "list of corrections" in refused
    taken = run("add", book, later, "--accept", "--take").stdout
    assert "1 reading is corrected. 1 reading is added." in taken
    assert "Iron: 0.4 mg/L" in run("status", book).stdout


def test_a_date_that_can_be_read_two_ways_is_asked_about_and_can_be_answered(tmp_path):
    book, file = tmp_path / "home.wellbook", tmp_path / "lab.csv"
    file.write_text("Date,Parameter,Result,Unit\n03/05/2025,Nitrate-N,5.1,mg/L\n")
    run("new", book)
    asked = json.loads(run("add", book, file, "--json").stdout)["files"][0]
    assert any(
        one["severity"] != "note" for one in asked["findings"] + asked["samples"][0]["findings"]
    )
    for order, day in (("day-first", "2025-05-03"), ("month-first", "2025-03-05")):
        facts = json.loads(run("add", book, file, "--dates", order, "--json").stdout)
        assert facts["files"][0]["samples"][0]["collected"] == day


def test_add_makes_the_well_and_point_in_an_empty_book(tmp_path):
    book, file = tmp_path / "home.wellbook", SAMPLES / "first-year/to-add/hollin-2611061.csv"
    run("new", book)
    run("add", book, file, "--well", "Birch Lane", "--point", "Tank tap", "--accept")
    well = json.loads(run("status", book, "--json").stdout)["wells"][0]
    assert (well["name"], well["points"][0]["name"]) == ("Birch Lane", "Tank tap")


@pytest.mark.parametrize("kind", ["png", "svg", "pdf"])
def test_a_chart_is_drawn_into_each_kind_of_file(book, tmp_path, kind):
    picture = tmp_path / f"nitrate.{kind}"
    run("chart", book, "nitrate", "-o", picture, "--on", DAY)
    starts = {"png": b"\x89PNG", "svg": b"<?xml", "pdf": b"%PDF"}
    assert picture.read_bytes().startswith(starts[kind])


def test_a_chart_keeps_private_events_to_the_household(tmp_path):
    from wellbook.book import Book

    book, picture = tmp_path / "home.wellbook", tmp_path / "nitrate.svg"
    run("sample", "alder-hollow", book)
    with Book.open(book) as opened:
        opened.add_event(1, "illness", "2020-03-02", text="gut trouble", private=True)
        opened.add_event(
            1, "Pregnancy", "2018-05"
        )  # nobody ticked it, and it is private all the same
        opened.add_event(1, "repair", "2016-03-02")
    run("chart", book, "nitrate", "-o", picture, "--on", DAY)
    assert "repair" in picture.read_text()
    assert "illness" not in picture.read_text()
    assert "regnancy" not in picture.read_text()


def test_a_chart_of_what_was_never_tested_is_refused_with_words(book, tmp_path):
    line = one_line(run("chart", book, "plutonium", "-o", tmp_path / "p.png", code=1))
    assert "plutonium" in line
    assert not (tmp_path / "p.png").exists()


def test_a_packet_opens_in_other_readers(book, tmp_path):
    packet = tmp_path / "history.pdf"
    run("packet", book, "--for", "buyer", "-o", packet, "--on", DAY)
    from pypdf import PdfReader

    assert len(PdfReader(packet).pages) > 5
    with pypdfium2.PdfDocument(packet) as document:
        text = " ".join(page.get_textpage().get_text_range() for page in document)
    assert "Alder Hollow" in text
    assert "40 CFR 141.62" in text
    assert "safe to drink" not in text


def test_export_writes_tables_and_documents(book, tmp_path):
    run("export", book, "-o", tmp_path / "tables")
    names = {path.name for path in (tmp_path / "tables").iterdir()}
    assert {"results.csv", "samples.csv", "dictionary.csv", "documents"} <= names


def test_check_backup_and_restore_go_round(book, tmp_path):
    assert "is whole" in run("check", book).stdout
    run("backup", book, "--to", tmp_path / "stick", "--on", DAY)
    copy = tmp_path / "stick" / "home 2026-11-25.wellbook"
    run("add", book, SAMPLES / "alder-hollow/to-add/ashgrove-26-3105.csv", "--accept")
    assert "1 change would be lost" in run("restore", copy, book).stdout
    earlier = run("status", copy, "--on", DAY).stdout
    assert run("status", book, "--on", DAY).stdout != earlier
    run("restore", copy, book, "--accept")
    assert run("status", book, "--on", DAY).stdout == earlier


BAD = {
    "a damaged table": b'Parameter,Result,Unit\n"Nitrate-N,5.1,mg/L\nIron,0.2,mg/L\n',
    "an unknown unit": b"Sampled,2026-05-04\nParameter,Result,Unit\nNitrate-N,5.1,furlongs\n",
    "no table at all": b"Dear customer, your water was fine. Kind regards, the lab.\n",
    "not even text": bytes(range(256)) * 8,
    "nothing": b"",
    "a date in the future": b"Sampled,2036-05-04\nParameter,Result,Unit\nNitrate-N,5.1,mg/L\n",
}


@pytest.mark.parametrize("content", BAD.values(), ids=BAD)
def test_bad_input_gets_one_line_and_leaves_the_book_as_it_was(book, tmp_path, content):
    file = tmp_path / "lab.csv"
    file.write_bytes(content)
    before = book.read_bytes()
    line = one_line(run("add", book, file, "--accept", code=1))
    assert "lab.csv" in line
    assert book.read_bytes() == before
    assert not list(tmp_path.glob("*.wellbook-journal"))


def test_a_file_or_book_that_is_not_there_gets_one_line(book, tmp_path):
    assert "nowhere.csv" in one_line(run("add", book, tmp_path / "nowhere.csv", code=1))
    missing = tmp_path / "nowhere.wellbook"
    for words in (["status", missing], ["due", missing], ["check", missing]):
        assert "does not exist" in one_line(run(*words, code=1))
    assert not missing.exists()
    for words in (
        ["packet", book, "--for", "buyer", "-o", tmp_path / "no" / "x.pdf"],
        ["chart", book, "nitrate", "-o", tmp_path / "no" / "x.png"],
        ["new", tmp_path / "no" / "x.wellbook"],
        ["sample", "alder-hollow", tmp_path / "no" / "x.wellbook"],
    ):
        assert str(tmp_path / "no") in one_line(run(*words, code=1))


def test_a_file_that_is_there_is_never_overwritten_by_a_book(book):
    before = book.read_bytes()
    assert "exists already" in one_line(run("new", book, code=1))
    assert "exists already" in one_line(run("sample", "first-year", book, code=1))
    assert book.read_bytes() == before


def test_a_mistake_of_ours_is_one_line_and_its_trace_lies_in_a_file(book, tmp_path):
    program = "import json\nfrom wellbook.cli import main\njson.dumps = None\nmain.main()\n"
    done = subprocess.run(
        [sys.executable, "-c", program, "status", str(book), "--json"],
        capture_output=True,
        text=True,
        env=os.environ | {"XDG_DATA_HOME": str(tmp_path)},
        check=False,
    )
    assert done.returncode == 1
    assert "mistake of its own" in one_line(done)
    assert "TypeError" in (tmp_path / "wellbook" / "trouble.txt").read_text()


def test_a_fact_changed_with_another_tool_is_never_shown_without_a_word(book):
    import sqlite3

    store = sqlite3.connect(book)
    store.execute("UPDATE result SET text = '0.1', number = '0.1' WHERE parameter = 'nitrate'")
    store.commit()
    store.close()
    said = run("status", book, "--on", DAY).stderr
    assert "of result was changed outside Wellbook" in said
    assert "of result was changed outside Wellbook" in run("check", book, code=1).stdout


def test_wrong_usage_exits_with_2(book):
    run("status", code=2)
    run("status", book, "--on", "yesterday", code=2)
    run("nonsense", code=2)


def test_without_a_display_the_window_says_so_and_names_the_commands(book):
    done = run(book, code=1, QT_QPA_PLATFORM="")
    assert "status" in one_line(done)


def test_try_does_the_main_job_without_a_display(tmp_path):
    done = run("try", XDG_DATA_HOME=tmp_path, HOME=tmp_path, QT_QPA_PLATFORM="")
    packet = next(tmp_path.rglob("*.pdf"))
    assert str(packet) in done.stdout
    assert "Nitrate" in done.stdout
    assert "Due since" in done.stdout
    again = run("try", XDG_DATA_HOME=tmp_path, HOME=tmp_path, QT_QPA_PLATFORM="")
    assert again.stdout == done.stdout


def test_help_starts_quickly_because_it_loads_nothing_heavy():
    program = (
        "import sys\n"
        "from wellbook.cli.main import cli\n"
        "heavy = {'PySide6', 'matplotlib', 'pint', 'numpy', 'sqlite_utils', 'reportlab', 'pypdf'}\n"
        "print(sorted(heavy & sys.modules.keys()))\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


SALTY = """Sample date,Analyte,Result,Units
2025-05-03,Nitrate as N,12.5,mg/L
2025-05-03,Chloride,180,mg/L
2025-05-03,Bromide,0.09,mg/L
2025-05-03,Iron,1.4,mg/L
2025-05-03,Hardness,260,mg/L
"""


def test_treatment_says_what_serves_what_comes_first_and_what_was_never_tested(tmp_path):
    book, file = tmp_path / "w.wellbook", tmp_path / "m.csv"
    run("new", book)
    file.write_text(SALTY, encoding="utf-8")
    run("add", book, file, "--well", "W", "--point", "Tap", "--accept")
    said = run("treatment", book, "--on", DAY).stdout
    assert "Nitrate" in said
    assert "Usually serve: reverse osmosis, distillation, anion exchange." in said
    assert "Before reverse osmosis: iron filter (Iron 1.4 mg/L, rule of thumb at " in said
    assert "Never tested in the raw water" in said
    assert "licensed professional" in said
    facts = json.loads(run("treatment", book, "--json", "--on", DAY).stdout)
    (point,) = facts["points"]
    nitrate = next(one for one in point["fits"] if "nitrate" in one["parameters"])
    assert nitrate["first"]["reverse osmosis"] == ["iron filter", "ion exchange softener"]
    assert "silica" in point["missing"]
    said = run("sources", book, "--on", DAY).stdout
    assert "Chloride to bromide is 2000 by mass, with 180 mg/L of chloride" in said
    assert "USGS SIR 2009-5086" in said
    assert "no proof" in said
    facts = json.loads(run("sources", book, "--json", "--on", DAY).stdout)
    assert {hint["says"] for hint in facts["points"][0]["hints"]} == {
        "chloride to bromide as of dissolved salt, and much of it",
        "nitrate with chloride",
    }


def test_status_says_how_many_more_tests_would_tell(tmp_path):
    run("sample", "salt-lane", tmp_path / "s.wellbook")
    said = run("status", tmp_path / "s.wellbook", "--on", DAY).stdout
    assert "more tests: If it goes on by" in said
    facts = json.loads(run("status", tmp_path / "s.wellbook", "--json", "--on", DAY).stdout)
    parameters = [p for w in facts["wells"] for point in w["points"] for p in point["parameters"]]
    told = [one["power"] for one in parameters if one["power"]]
    assert len(told) == said.count("more tests: ")
    for more in told:
        assert f"by {plain(more['slope_per_year'])} {more['unit']} a year" in said
        assert more["chance"] == 0.8


def test_a_basis_that_the_unit_spells_out_is_said_once_and_equivalents_need_none(tmp_path):
    rows = ("Nitrate,4,mg/L as N", "Chromium,0.15,mg CrO4/L", "Orthophosphate,0.1,meq/L")
    table = ["Sample date,Analyte,Result,Units", *(f"2025-05-03,{row}" for row in rows)]
    (tmp_path / "u.csv").write_text("\n".join(table))
    run("new", tmp_path / "u.wellbook")
    place = ("--well", "W", "--point", "Tap", "--accept")
    added = run("add", tmp_path / "u.wellbook", tmp_path / "u.csv", *place).stdout
    said = run("status", tmp_path / "u.wellbook").stdout
    for told in (added, said):
        assert "4 mg/L as N" in told
        assert "as N as N" not in told
        assert "0.15 mg CrO4/L" in told
        assert "CrO4/L as CrO4" not in told
    assert "without its basis" not in added


def test_add_says_what_is_new_in_the_latest_test_and_nothing_of_a_first_or_an_old_one(tmp_path):
    book, head = tmp_path / "n.wellbook", "Sample date,Analyte,Result,Units\n"
    days = {"2024-05-03": "4", "2025-07-03": "11", "2023-05-03": "4.1"}
    run("new", book)
    said = []
    for day, nitrate in days.items():
        file = tmp_path / f"{day}.csv"
        file.write_text(f"{head}{day},Nitrate,{nitrate},mg/L as N\n")
        place = ("--well", "W", "--point", "Tap") if len(said) == 0 else ()
        said.append(run("add", book, file, *place, "--accept").stdout)
    assert "New in the latest test" not in said[0]
    assert "New in the latest test, 3 Jul 2025" in said[1]
    assert "Nitrate: Up by 7 mg/L as N since 3 May 2024" in said[1]
    assert "New in the latest test" not in said[2]


def test_without_raw_water_nothing_is_said_of_treatment_or_sources(tmp_path):
    run("new", tmp_path / "n.wellbook")
    assert "No untreated water was tested yet" in run("treatment", tmp_path / "n.wellbook").stdout
    assert "Nothing hints at a source" in run("sources", tmp_path / "n.wellbook").stdout
