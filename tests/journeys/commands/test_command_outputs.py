"""Whatever name an output is given, no book is replaced by it, and nothing that is not its kind."""

import os
import shutil
from functools import partial
from itertools import cycle

import pytest
from command_line import DAY, SAMPLES, socket_at

# What each command writes, how such a file begins, and what a person types before the name.
WRITERS = {
    "packet": ("pdf", b"%PDF-", ("packet", "home.wellbook", "--for", "buyer", "--on", DAY, "-o")),
    "round": ("pdf", b"%PDF-", ("round", "home.wellbook", "--on", DAY, "-o")),
    "calendar": ("ics", b"BEGIN:VCALENDAR", ("calendar", "home.wellbook", "--on", DAY, "-o")),
    "chart png": ("png", b"\x89PNG", ("chart", "home.wellbook", "nitrate", "--on", DAY, "-o")),
    "chart svg": ("svg", b"<?xml", ("chart", "home.wellbook", "nitrate", "--on", DAY, "-o")),
    "chart pdf": ("pdf", b"%PDF-", ("chart", "home.wellbook", "nitrate", "--on", DAY, "-o")),
}


def other_book(path):
    shutil.copy(SAMPLES / "salt-lane.wellbook", path)


def put(place, name, make):
    """Something at a name of the ending that is written."""

    def target(shell, ending):
        path = shell.folder / place / f"{name}.{ending}"
        path.parent.mkdir(exist_ok=True)
        make(shell, path)
        return str(path.relative_to(shell.folder))

    return target


def book_called(name):
    return lambda shell, _: name.format(folder=shell.folder, name=shell.folder.name)


def other_called(name):
    def target(shell, _):
        other_book(shell.folder / name)
        return name

    return target


def hard_link(shell, path):
    os.link(shell.folder / "home.wellbook", path)


def link_to(name):
    return lambda shell, path: path.symlink_to(shell.folder / name)


def link_to_a_sheet(shell, path):
    (shell.folder / "theirs").write_bytes(b"%PDF-1.7 theirs")
    path.symlink_to(shell.folder / "theirs")


def in_a_folder_that_is_missing(_, ending):
    return f"missing/sheet.{ending}"


REFUSED = {
    "the book itself": book_called("home.wellbook"),
    "the book by its whole path": book_called("{folder}/home.wellbook"),
    "the book by way of its folder": book_called("../{name}/./home.wellbook"),
    "a symbolic link to the book": put(".", "sheet", link_to("home.wellbook")),
    "a hard link to the book": put(".", "sheet", hard_link),
    "the book through a folder that is a link": lambda shell, _: (
        (shell.folder / "there").symlink_to(shell.folder) or "there/home.wellbook"
    ),
    "another household's book": other_called("other.wellbook"),
    "another book in capitals": other_called("OTHER.WELLBOOK"),
    "a book under another ending": put(".", "sheet", lambda _, path: other_book(path)),
    "a new name that is a book's": book_called("fresh.wellbook"),
    "the name of a book's own journal": book_called("home.wellbook-journal"),
    "a table": put(".", "sheet", lambda _, path: path.write_text("Parameter,Result\nIron,1\n")),
    "a folder": put(".", "sheet", lambda _, path: path.mkdir()),
    "a device that swallows": book_called("/dev/null"),
    "a device that is full": book_called("/dev/full"),
    "a pipe": put(".", "sheet", lambda _, path: os.mkfifo(path)),
    "a socket": put(".", "sheet", lambda _, path: socket_at(path)),
    "a symbolic link to such a file": put(".", "sheet", link_to_a_sheet),
    "a symbolic link to nowhere": put(".", "sheet", link_to("nowhere")),
    "a link to a device": put(".", "sheet", lambda _, path: path.symlink_to("/dev/null")),
    "a folder that is missing": in_a_folder_that_is_missing,
    "a name that is too long": lambda _, ending: f"{'n' * 300}.{ending}",
    "a path that is too long": lambda _, ending: f"{'n/' * 2500}sheet.{ending}",
}
WRITTEN = {
    "nothing": lambda __, _: None,
    "such a file": None,
    "an empty file": lambda _, path: path.touch(),
}


@pytest.fixture
def desk(shell):
    shell.household()
    return shell


@pytest.mark.parametrize("writer", WRITERS)
@pytest.mark.parametrize("lies_there", REFUSED)
def test_an_output_never_replaces(desk, writer, lies_there):
    ending, _, words = WRITERS[writer]
    target = REFUSED[lies_there](desk, ending)
    before = desk.snapshot()
    desk.refused(*words, target)
    assert desk.snapshot() == before


# Each output in one of the states, the quickest one in all.
@pytest.mark.parametrize(
    ("writer", "lies_there"),
    [*zip(WRITERS, cycle(WRITTEN)), *(("calendar", state) for state in list(WRITTEN)[:2])],
)
def test_an_output_is_written_where_there_is(desk, writer, lies_there):
    ending, beginning, words = WRITERS[writer]
    name = f"{'s' * (255 - len(ending) - 1)}.{ending}"  # as long as a name can be
    make = WRITTEN[lies_there] or (lambda _, path: path.write_bytes(beginning + b" theirs-4711"))
    make(desk, desk.folder / name)
    book = desk.snapshot()["home.wellbook"]
    desk.done(*words, name)
    made = (desk.folder / name).read_bytes()
    assert made.startswith(beginning)
    assert b"theirs-4711" not in made
    assert desk.snapshot()["home.wellbook"] == book


IN_THE_WAY = {
    "a book": other_book,
    "a folder": lambda path: path.mkdir(),
    "a pipe": os.mkfifo,
    "a link": lambda path: path.symlink_to(path.parent.parent / "home.wellbook"),
    "a link to nowhere": lambda path: path.symlink_to("nowhere"),
    "a document of another kind": lambda path: path.write_bytes(b"%PDF-1.7 theirs"),
}


@pytest.mark.parametrize(
    ("name", "lies_there"),
    [*zip(cycle(["results.csv", "samples.csv", "wellbook.xlsx"]), IN_THE_WAY)],
)
def test_tables_replace_no_book_and_then_none_of_them_is_written(desk, lies_there, name):
    tables = desk.folder / "tables"
    tables.mkdir()
    IN_THE_WAY[lies_there](tables / name)
    before = desk.snapshot()
    desk.refused("export", "home.wellbook", "-o", "tables")
    assert desk.snapshot() == before


def test_tables_may_be_written_over_those_of_before(desk):
    desk.done("export", "home.wellbook", "-o", "tables")
    before = desk.snapshot()
    desk.done("export", "home.wellbook", "-o", "tables")
    assert desk.snapshot() == before


NO_FOLDER = {
    "the book itself": lambda _: "home.wellbook",
    "a file": lambda path: path.write_text("mine") and path.name,
    "a pipe": lambda path: os.mkfifo(path) or path.name,
    "a device": lambda _: "/dev/null",
    "a link to the book": lambda path: path.symlink_to("home.wellbook") or path.name,
    "a link to nowhere": lambda path: path.symlink_to("nowhere") or path.name,
    "a name that is too long": lambda _: "n" * 300,
}


@pytest.mark.parametrize(
    "words", [("export", "home.wellbook", "-o"), ("backup", "home.wellbook", "--to")], ids=" ".join
)
@pytest.mark.parametrize("lies_there", NO_FOLDER)
def test_a_folder_to_write_to_is_no_file(desk, words, lies_there):
    target = NO_FOLDER[lies_there](desk.folder / "there")
    before = desk.snapshot()
    desk.refused(*words, target)
    assert desk.snapshot() == before


TAKEN = {
    "the book itself": lambda _: "home.wellbook",
    "another household's book": lambda path: other_book(path) or path.name,
    "another file": lambda path: path.write_text("mine") and path.name,
    "an empty file": lambda path: path.touch() or path.name,
    "a folder": lambda path: path.mkdir() or path.name,
    "a pipe": lambda path: os.mkfifo(path) or path.name,
    "a socket": lambda path: socket_at(path).name,
    "a device": lambda _: "/dev/null",
    "an endless device": lambda _: "/dev/zero",
    "a link to the book": lambda path: path.symlink_to("home.wellbook") or path.name,
    "a link to nowhere": lambda path: path.symlink_to("nowhere") or path.name,
    "a folder that is missing": lambda _: "missing/new.wellbook",
    "a name that is too long": lambda _: f"{'n' * 300}.wellbook",
    "a path that is too long": lambda _: f"{'n/' * 2500}new.wellbook",
}
MAKERS = {
    "new": ("new",),
    "sample": ("sample", "salt-lane"),
    "rescue": ("rescue", "home.wellbook"),
}


@pytest.mark.parametrize("maker", MAKERS)
@pytest.mark.parametrize("lies_there", TAKEN)
def test_a_new_book_takes_the_place_of_nothing(desk, maker, lies_there):
    target = TAKEN[lies_there](desk.folder / "there")
    before = desk.snapshot()
    desk.refused(*MAKERS[maker], target)
    assert desk.snapshot() == before


@pytest.fixture(scope="module")
def packet(tmp_path_factory):
    from command_line import CommandLine

    shell = CommandLine(tmp_path_factory.mktemp("packet"))
    shell.household(sample="first-year")
    shell.done("packet", "home.wellbook", "--for", "buyer", "--on", DAY, "-o", "packet.pdf")
    return shell.folder / "packet.pdf"


@pytest.mark.parametrize("lies_there", [one for one in TAKEN if "household" not in one][::2])
def test_what_is_received_takes_the_place_of_nothing(desk, packet, lies_there):
    shutil.copy(packet, desk.folder / "packet.pdf")
    target = TAKEN[lies_there](desk.folder / "there")
    before = desk.snapshot()
    if target == "home.wellbook" or "link to the book" in lies_there:
        assert "Nothing was changed" in desk.done("receive", "packet.pdf", target).out
    else:
        desk.refused("receive", "packet.pdf", target, "--accept")
    assert desk.snapshot() == before


NO_BOOK = {
    "a table": lambda path: path.write_text("Parameter,Result\nIron,1\n") and path.name,
    "a folder": lambda path: path.mkdir() or path.name,
    "a pipe": lambda path: os.mkfifo(path) or path.name,
    "a socket": lambda path: socket_at(path).name,
    "a device": lambda _: "/dev/null",
    "an endless device": lambda _: "/dev/zero",
    "a folder that is missing": lambda _: "missing/new.wellbook",
    "a name that is too long": lambda _: f"{'n' * 300}.wellbook",
}


@pytest.mark.parametrize("lies_there", NO_BOOK)
def test_going_back_to_a_copy_takes_the_place_of_no_other_thing(desk, lies_there):
    shutil.copy(SAMPLES / "first-year.wellbook", desk.folder / "copy.wellbook")
    target = NO_BOOK[lies_there](desk.folder / "there")
    before = desk.snapshot()
    answer = desk.run("restore", "copy.wellbook", target, "--on", DAY, "--accept")
    assert answer.code == 1, answer
    assert answer.err.startswith("Error: "), answer
    assert desk.snapshot() == before


def test_going_back_through_a_link_changes_the_book_that_it_leads_to(desk):
    copy = desk.folder / "copy.wellbook"
    shutil.copy(SAMPLES / "first-year.wellbook", copy)
    far = desk.folder / "far"
    far.mkdir()
    (desk.folder / "home.wellbook").rename(far / "home.wellbook")
    link = desk.folder / "home.wellbook"
    link.symlink_to(far / "home.wellbook")
    before = desk.snapshot()["far/home.wellbook"]
    desk.done("restore", "copy.wellbook", "home.wellbook", "--on", DAY, "--accept")
    after = desk.snapshot()
    assert link.is_symlink()
    assert before != after["far/home.wellbook"]
    assert before in {told for name, told in after.items() if "set aside" in name}


def test_a_backup_never_replaces_the_copy_of_another_household(desk):
    stick = desk.folder / "stick"
    stick.mkdir()
    other_book(stick / f"home {DAY}.wellbook")
    before = desk.snapshot()
    assert "another book" in desk.refused("backup", "home.wellbook", "--to", "stick", "--on", DAY)
    assert desk.snapshot() == before


def test_a_backup_replaces_the_same_books_copy_of_the_same_day(desk):
    (desk.folder / "stick").mkdir()
    desk.done("backup", "home.wellbook", "--to", "stick", "--on", DAY)
    desk.done("habits", "home.wellbook", "--set", "lab=Brook Lab")
    desk.done("backup", "home.wellbook", "--to", "stick", "--on", DAY)
    (copy,) = (desk.folder / "stick").iterdir()
    assert "Brook Lab" in desk.done("habits", str(copy)).out


COPY_PLACE = {
    "a folder": lambda path: path.mkdir(),
    "a pipe": os.mkfifo,
    "a link to the book": lambda path: path.symlink_to(path.parents[1] / "home.wellbook"),
    "a table": lambda path: path.write_text("Parameter,Result\n"),
}


@pytest.mark.parametrize("lies_there", COPY_PLACE)
def test_a_backup_replaces_nothing_but_a_copy(desk, lies_there):
    stick = desk.folder / "stick"
    stick.mkdir()
    COPY_PLACE[lies_there](stick / f"home {DAY}.wellbook")
    before = desk.snapshot()
    desk.refused("backup", "home.wellbook", "--to", "stick", "--on", DAY)
    assert desk.snapshot() == before


@pytest.mark.parametrize("name", ["home.partial", "home.wellbook.part", ".home.wellbook.part"])
def test_a_file_of_the_household_with_an_odd_ending_stays(desk, name):
    mine = desk.folder / name
    mine.write_text("mine")
    desk.look_for_leftovers = partial(_nothing_more_than, desk, {mine})
    shutil.copy(desk.folder / "home.wellbook", desk.folder / "copy.wellbook")
    desk.done("restore", "copy.wellbook", "home.wellbook", "--on", DAY, "--accept")
    desk.done("backup", "home.wellbook", "--to", ".", "--on", DAY)
    assert mine.read_text() == "mine"


def _nothing_more_than(desk, mine, answer):
    left = {path for path in desk.folder.rglob("*") if path.name.endswith((".part", ".partial"))}
    assert left == mine, answer
