"""Several lab files typed in one command: every one is kept, or none, and the book stays whole."""

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
def test_none_of_the_files_is_kept_if_one_can_not_be(desk, wrong):
    before = desk.snapshot()
    said = desk.refused("add", "home.wellbook", "00.csv", "01.csv", wrong, "--accept")
    assert "damaged" not in said
    assert desk.snapshot() == before
    assert "is whole" in desk.done("check", "home.wellbook").out
