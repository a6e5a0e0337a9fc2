"""What the world does to a command is said as such: names, room, bounds and homes that are odd."""

import os
import resource
import subprocess
import sys

import pytest
from command_line import DAY

HEAD = "Sample date,Analyte,Result,Units,Laboratory\n"
FEW = (5, 6, 7, 8, 10, 12, 16, 24)  # descriptors; a packet with few takes its time


@pytest.fixture
def desk(shell):
    shell.household()
    return shell


@pytest.mark.parametrize(
    ("name", "lab", "says"),
    [
        ("Chloride", "L" * 201, "more than 200 letters"),
        ("C" * 501, "Lab", "more than 500 letters"),
        ("水" * 501, "Lab", "more than 500 letters"),
    ],
    ids=["lab", "parameter", "parameter in other letters"],
)
def test_a_name_that_is_too_long_is_found_in_the_draft(desk, name, lab, says):
    (desk.folder / "lab.csv").write_text(f"{HEAD}2024-05-03,{name},21,mg/L,{lab}\n")
    before = desk.snapshot()["home.wellbook"]
    assert says in desk.done("add", "home.wellbook", "lab.csv", "--point", "Kitchen tap").out
    refused = desk.refused("add", "home.wellbook", "lab.csv", "--accept")
    assert says in refused
    assert len(refused) < 500
    assert desk.snapshot()["home.wellbook"] == before


@pytest.mark.parametrize("option", ["--well", "--point"])
def test_a_place_typed_too_long_is_said(desk, option):
    (desk.folder / "lab.csv").write_text(f"{HEAD}2024-05-03,Chloride,21,mg/L,Lab\n")
    desk.done("new", "empty.wellbook")
    said = desk.refused("add", "empty.wellbook", "lab.csv", option, "w" * 201, "--accept")
    assert "200 letters" in said


def test_names_as_long_as_they_may_be_are_kept(desk):
    (desk.folder / "lab.csv").write_text(f"{HEAD}2024-05-03,{'C' * 500},21,mg/L,{'L' * 200}\n")
    desk.done("new", "empty.wellbook")
    desk.done("add", "empty.wellbook", "lab.csv", "--accept")


def test_a_folder_and_a_file_whose_names_are_no_text_are_as_good_as_any(desk):
    folder = os.fsdecode(b"caf\xe9 \xff")
    (desk.folder / folder).mkdir()
    lab, book = f"{folder}/lab-\udce9.csv", f"{folder}/h\udcff.wellbook"
    (desk.folder / lab).write_text(f"{HEAD}2024-05-03,Chloride,21,mg/L,Lab\n")
    desk.done("new", book)
    desk.done("add", book, lab, "--accept")
    assert folder in desk.done("backup", book, "--on", DAY).out
    desk.done("backup", book, "--to", folder, "--on", DAY)
    desk.done("status", book)
    assert "book" in desk.done("status", book, "--json").out
    desk.done("restore", f"{folder}/h\udcff {DAY}.wellbook", book, "--accept", "--on", DAY)
    desk.done("check", book, "--json")
    desk.done("export", book, "-o", f"{folder}/tables")
    desk.done("packet", book, "--for", "buyer", "-o", f"{folder}/history.pdf")
    desk.done("verify", f"{folder}/history.pdf")
    desk.done("receive", f"{folder}/history.pdf", f"{folder}/next.wellbook")
    desk.done("calendar", book, "-o", f"{folder}/water.ics")
    assert "is whole" in desk.done("check", book).out


@pytest.mark.parametrize("length", [200, 230, 255])
def test_a_book_may_be_called_as_long_as_the_disk_allows(desk, length):
    book = "h" * (length - len(".wellbook")) + ".wellbook"
    (desk.folder / "home.wellbook").rename(desk.folder / book)
    (desk.folder / "stick").mkdir()
    before = desk.snapshot()
    desk.done("status", book)
    answer = desk.run("backup", book, "--to", "stick", "--on", DAY)
    assert answer.code in {0, 1}
    if answer.code:
        assert "long" in answer.err
        assert desk.snapshot() == before
    (desk.folder / "copy.wellbook").write_bytes((desk.folder / book).read_bytes())
    desk.run("restore", "copy.wellbook", book, "--accept", "--on", DAY)
    assert "is whole" in desk.done("check", book).out


TELLING = {
    "status": ("status", "home.wellbook"),
    "due": ("due", "home.wellbook"),
    "round": ("round", "home.wellbook"),
    "habits": ("habits", "home.wellbook"),
    "check": ("check", "home.wellbook"),
    "sample": ("sample",),
    "help": ("--help",),
    "version": ("--version",),
    "JSON": ("status", "home.wellbook", "--json"),
}
WHOLE = {"status", "help"}  # Python's own end meets the stream: of much and of little that is said


@pytest.mark.parametrize("telling", TELLING)
def test_an_answer_that_finds_no_room_is_one_line(desk, telling):
    with open("/dev/full", "wb") as full:  # noqa: PTH123
        said = desk.refused(*TELLING[telling], stdout=full, whole=telling in WHOLE)
    assert "can’t be written where it is sent (No space left on device)" in said


@pytest.mark.parametrize("telling", TELLING)
def test_a_reader_that_goes_away_ends_a_command_quietly(desk, telling):
    reading, writing = os.pipe()
    os.close(reading)
    answer = desk.run(*TELLING[telling], stdout=writing, whole=True)
    os.close(writing)
    assert answer.code in {1, 3}
    assert answer.err == ""


@pytest.mark.parametrize(
    ("command", "most"),
    [
        *(("status", most) for most in FEW[::2]),
        *(("backup", most) for most in FEW[1::2]),
        *(("packet", most) for most in (FEW if "WELLBOOK_SWEEPS" in os.environ else FEW[::4])),
    ],
)
def test_few_descriptors_are_said_to_be_few(desk, most, command):
    words = {
        "status": ("status", "home.wellbook"),
        "packet": ("packet", "home.wellbook", "--for", "buyer", "-o", "history.pdf"),
        "backup": ("backup", "home.wellbook", "--on", DAY),
    }[command]
    before = desk.snapshot()
    few = [(resource.RLIMIT_NOFILE, most)]
    fonts = {"MPLCONFIGDIR": os.environ["MPLCONFIGDIR"]}  # looked for once, by earlier tests
    answer = desk.run(*words, limits=few, codes=(0, 1, 127), **fonts)
    if answer.code == 127 or "Fatal Python error" in answer.err:
        pytest.skip("Python itself can't start with so few")
    if answer.code == 1:
        assert "oo many" in answer.err, answer
        assert desk.snapshot() == before


@pytest.mark.parametrize(
    ("home", "words"),
    [
        ("/proc/nowhere", ("due", "home.wellbook", "--notify", "--on", DAY)),
        ("missing/home", ("due", "home.wellbook", "--notify", "--on", DAY)),
        ("missing/home", ("status", "home.wellbook", "--on", DAY)),
        ("/proc/nowhere", ("chart", "home.wellbook", "nitrate", "-o", "nitrate.png")),
        ("missing/home", ("round", "home.wellbook", "--on", DAY, "-o", "sheet.pdf")),
        ("/proc/nowhere", ("backup", "home.wellbook", "--on", DAY)),
    ],
    ids=lambda said: said if isinstance(said, str) else said[0],
)
def test_a_home_that_can_not_be_written_stops_nothing(desk, words, home):
    answer = desk.run(*words, HOME=home)
    assert answer.code in {0, 3}, answer


@pytest.mark.parametrize("home", ["/dev/null", "/proc/nowhere"])
@pytest.mark.parametrize("words", [("signin", "home.wellbook"), ("try",)], ids=" ".join)
def test_what_needs_a_home_says_that_there_is_none(desk, words, home):
    desk.refused(*words, HOME=home)


@pytest.mark.parametrize(
    "words",
    [
        ("due", "home.wellbook", "--on", "0001-01-01"),
        ("round", "home.wellbook", "--on", "9999-12-31"),
        ("enter", "home.wellbook", "event", "--kind", "flood", "--on", "0999"),
        ("enter", "home.wellbook", "inspection", "--cap", "good", "--on", ""),
    ],
    ids=" ".join,
)
def test_a_day_that_no_book_can_hold_is_wrong_usage(desk, words):
    before = desk.snapshot()
    answer = desk.run(*words)
    assert answer.code == 2, answer
    assert "outside the years 1000 to 2999" in answer.err or "“” is no day" in answer.err
    assert desk.snapshot() == before


@pytest.mark.parametrize("last", ["1000-01-01", "2999-12-31"])
def test_the_ends_of_what_a_book_can_hold_are_days_as_any(desk, last):
    desk.run("due", "home.wellbook", "--on", last, codes=(0, 3))


def test_typed_bytes_that_are_no_text_are_said_and_nothing_is_kept(desk):
    before = desk.snapshot()["home.wellbook"]
    said = desk.refused("enter", "home.wellbook", "lab", "--name", "caf\udce9")
    assert "bytes that are no text" in said
    assert desk.snapshot()["home.wellbook"] == before


def test_a_mistake_is_told_though_no_trace_of_it_can_be_kept(desk):
    code = (
        "import sys, wellbook.cli.everyday as e, wellbook.cli.main as c;"
        "e.said_catalogue = lambda: 1 / 0;"
        "sys.argv = ['wellbook', 'status', 'home.wellbook']; c.main()"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        cwd=desk.folder,
        env={k: v for k, v in os.environ.items() if k == "PYTHONPATH"} | {"HOME": "/dev/null"},
        check=False,
    )
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "ZeroDivisionError" in done.stderr
