"""Help and answers are there at once: what only some commands or books need is loaded for them."""

import re
import subprocess
import sys
from inspect import cleandoc

import click
import click.testing
import pytest

from wellbook.book import Book
from wellbook.cli import language as command_language
from wellbook.cli.enter.group import enter
from wellbook.cli.main import cli
from wellbook.support.translation import LANGUAGES, _

NEEDED_LATER = {"hashlib", "json", "sqlite3", "tempfile", "tomllib", "csv", "decimal", "subprocess"}
HELP_OF_ITSELF = {"cli", "cli.main", "cli.language", "cli.outcomes"}
HELP_OF_ENTER = HELP_OF_ITSELF | {"cli.enter", "cli.enter.group"}


def loaded_by(*words):
    said = f"import sys; sys.argv = ['wellbook', *{words!r}]"
    told = "import atexit, sys; atexit.register(lambda: print(*sys.modules))"
    code = f"{told}; {said}; from wellbook.cli.main import main; main()"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.splitlines()[-1].split())


def rooms_of(loaded):
    return {name.removeprefix("wellbook.") for name in loaded if name.startswith("wellbook.")}


def test_help_loads_nothing_that_only_some_commands_need():
    loaded = loaded_by("--help")
    assert "click" in loaded
    assert loaded & NEEDED_LATER == set()
    heavy = ("numpy", "matplotlib", "pint", "reportlab", "pypdf", "sqlite_utils", "PySide6")
    assert loaded.isdisjoint(heavy)
    assert not [name for name in loaded if name.startswith(("wellbook.water", "wellbook.book"))]


@pytest.mark.parametrize(
    ("words", "needed"),
    [(("--help",), HELP_OF_ITSELF), (("enter", "--help"), HELP_OF_ENTER)],
    ids=["wellbook", "enter"],
)
def test_the_help_of_a_group_loads_no_command(words, needed):
    rooms = rooms_of(loaded_by(*words))
    assert {room for room in rooms if room.startswith("cli")} == needed


def test_the_help_of_a_command_loads_no_other():
    rooms = rooms_of(loaded_by("backup", "--help"))
    assert "cli.maintenance" in rooms
    assert rooms.isdisjoint(
        {"cli.everyday", "cli.household", "cli.sampling", "cli.handover.packet"}
    )


def test_status_loads_nothing_of_what_a_book_does_not_hold(tmp_path):
    path = tmp_path / "home.wellbook"
    Book.create(path).close()
    rooms = rooms_of(loaded_by("status", str(path)))
    assert "planning.advice" in rooms
    assert rooms.isdisjoint(
        {"book.copies", "planning.upkeep.due", "water.sampling.upkeep", "water.statistics.trend"}
    )


@pytest.mark.parametrize("key", LANGUAGES)
@pytest.mark.parametrize("group", [cli, enter], ids=["wellbook", "enter"])
def test_what_a_group_lists_is_the_first_line_of_the_help_of_each_command(group, key, monkeypatch):
    monkeypatch.setenv("LANGUAGE", "en")  # put back after the test, whatever was spoken
    context = click.Context(group)
    command_language.speak(key)
    try:
        for name, listed in group.commands.items():
            command = group.get_command(context, name)
            first = cleandoc(command.help).split("\n\n")[0].replace("\n", " ")
            assert (name, _(listed.help)) == (command.name, first)
            assert listed.hidden == command.hidden
    finally:
        command_language.speak("en")


def test_each_command_stands_once_under_a_heading_with_its_whole_line():
    said = click.testing.CliRunner().invoke(cli, ["--help"]).output
    listed = re.findall(r"^  ([a-z]+) +(.*(?:\n {3,}\S.*)*)", said.split("--help")[1], re.MULTILINE)
    lines = {name: " ".join(line.split()) for name, line in listed}
    shown = {name: entry for name, entry in cli.commands.items() if not entry.hidden}
    assert len(listed) == len(lines)
    assert lines == {name: entry.help for name, entry in shown.items()}
