"""What is no file is refused at once, wherever a file is expected: nothing hangs or fills up."""

import os
import shutil
import stat

import pytest
from command_line import DAY, SAMPLES, socket_at

SPECIAL = {
    "an endless device": lambda _: "/dev/zero",
    "a device of noise": lambda _: "/dev/urandom",
    "a device that is empty": lambda _: "/dev/null",
    "a device that is full": lambda _: "/dev/full",
    "a pipe": lambda path: os.mkfifo(path) or path.name,
    "a socket": lambda path: socket_at(path).name,
    "a folder": lambda path: path.mkdir() or path.name,
    "a link to an endless device": lambda path: path.symlink_to("/dev/zero") or path.name,
    "a link to nowhere": lambda path: path.symlink_to("nowhere") or path.name,
    "a link to itself": lambda path: path.symlink_to(path.name) or path.name,
    "nothing": lambda path: path.name,
    "an empty file": lambda path: path.touch() or path.name,
    "a name that is too long": lambda _: "n" * 300,
    "a path that is too long": lambda _: "n/" * 2500 + "n",
}
# `{}` is where the special file stands.
COMMANDS = {
    "lab file": ("add", "home.wellbook", "{}"),
    "lab file kept": ("add", "home.wellbook", "{}", "--accept"),
    "packet looked over": ("verify", "{}"),
    "packet received": ("receive", "{}", "new.wellbook"),
    "book to add to": ("add", "{}", "lab.csv", "--accept"),
    "book of a status": ("status", "{}"),
    "book of dues": ("due", "{}"),
    "book of a round": ("round", "{}", "-o", "sheet.pdf"),
    "book of a calendar": ("calendar", "{}", "-o", "water.ics"),
    "book of a chart": ("chart", "{}", "nitrate", "-o", "nitrate.png"),
    "book of a packet": ("packet", "{}", "--for", "buyer", "-o", "history.pdf"),
    "book of tables": ("export", "{}", "-o", "tables"),
    "book of habits": ("habits", "{}"),
    "book looked over": ("check", "{}"),
    "book backed up": ("backup", "{}"),
    "book to put off in": ("postpone", "{}", "Bacteria", "--until", "2027-01-01"),
    "book at sign-in": ("signin", "{}"),
    "book to rescue": ("rescue", "{}", "new.wellbook"),
    "copy": ("restore", "{}", "home.wellbook", "--accept"),
}


@pytest.fixture
def desk(shell):
    shell.household(sample="first-year")
    (shell.folder / "lab.csv").write_text(
        "Sample date,Analyte,Result,Units\n2024-05-03,Chloride,21,mg/L\n"
    )
    return shell


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("special", SPECIAL)
def test_what_is_no_file_is_refused_at_once(desk, command, special):
    name = SPECIAL[special](desk.folder / "odd")
    before = desk.snapshot()
    said = desk.refused(*(name if word == "{}" else word for word in COMMANDS[command]))
    assert "damaged" not in said or special == "an empty file" or "rescue" in command
    assert desk.snapshot() == before


@pytest.mark.parametrize("beside", ["-journal", "-wal", ".open"])
def test_a_pipe_beside_a_book_holds_nothing_up(desk, beside):
    name = f"home.wellbook{beside}" if beside != ".open" else ".home.wellbook.open"
    pipe = desk.folder / name
    os.mkfifo(pipe)
    desk.look_for_leftovers = lambda _: None
    answer = desk.run("status", "home.wellbook", "--on", DAY)
    assert answer.code == (0 if beside == ".open" else 1), answer
    assert stat.S_ISFIFO(pipe.lstat().st_mode)


def test_a_lab_file_larger_than_is_taken_in_is_refused_unread(desk):
    with (desk.folder / "large.csv").open("wb") as file:
        file.truncate(10**12)
    assert "can be taken in" in desk.refused("add", "home.wellbook", "large.csv")
    assert "no packet is" in desk.refused("verify", "large.csv")


def test_a_special_file_that_takes_a_books_place_is_no_book_to_receive_into(desk):
    shutil.copy(SAMPLES / "first-year.wellbook", desk.folder / "other.wellbook")
    os.mkfifo(desk.folder / "pipe.wellbook")
    desk.done("packet", "other.wellbook", "--for", "buyer", "--on", DAY, "-o", "history.pdf")
    for target in ("pipe.wellbook", "/dev/zero"):
        desk.refused("receive", "history.pdf", target, "--accept")
