"""Several lab files typed in one command: each is kept on its own, and the book stays whole."""

import pytest

HEAD = "Sample date,Analyte,Result,Units\n"


@pytest.fixture
def desk(shell):
    for number in range(20):
        (shell.folder / f"{number:02d}.csv").write_text(
            f"{HEAD}{2004 + number}-05-03,Chloride,{21 + number},mg/L\n"
        )
    (shell.folder / "odd.csv").write_text("Analyte,Result,Units\nChloride,21,mg/L\n")
    shell.done("new", "home.wellbook")
    return shell


@pytest.mark.parametrize("files", [1, 2, 3, 20])
@pytest.mark.parametrize("named", [(), ("--well", "W", "--point", "Tap")], ids=["", "named"])
def test_every_file_is_kept(desk, files, named):
    names = [f"{number:02d}.csv" for number in range(files)]
    answer = desk.done("add", "home.wellbook", *names, *named, "--accept")
    assert "damaged" not in answer.err + answer.out
    assert "is whole" in desk.done("check", "home.wellbook").out
    tables = desk.folder / "tables"
    desk.done("export", "home.wellbook", "-o", str(tables))
    kept = (tables / "results.csv").read_text(encoding="utf-8-sig")
    assert kept.count("Chloride") == files


@pytest.mark.parametrize("wrong", ["odd.csv", "missing.csv", "00.csv"])
def test_a_file_that_can_not_be_kept_is_named_and_the_others_are_kept(desk, wrong):
    said = desk.refused("add", "home.wellbook", "00.csv", "01.csv", wrong, "--accept")
    assert wrong in said
    assert "damaged" not in said
    assert "is whole" in desk.done("check", "home.wellbook").out
    tables = desk.folder / "tables"
    desk.done("export", "home.wellbook", "-o", str(tables))
    assert (tables / "results.csv").read_text(encoding="utf-8-sig").count("Chloride") == 2


def test_a_folder_is_taken_in_file_by_file(desk):
    folder = desk.folder / "shoebox"
    folder.mkdir()
    for number in range(3):
        (desk.folder / f"{number:02d}.csv").rename(folder / f"{number:02d}.csv")
    (folder / "photo.jpg").write_bytes(b"\xff\xd8\xff\xe0")
    assert "photo.jpg is a picture" in desk.refused("add", "home.wellbook", "shoebox", "--accept")
    assert "already in the book" in desk.refused("add", "home.wellbook", "shoebox", "--accept")
