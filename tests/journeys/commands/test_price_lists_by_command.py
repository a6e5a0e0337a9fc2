"""A lab's price list is entered by command, changed, taken back, handed out and kept whole."""

import csv

LIST = """name,price,currency,tests,kind,day
Home package,55.00,USD,"Nitrate as N; E. coli; Total coliform; pH",,2026-03-01
Lead,22.50,USD,,,2026-03-01
Arsenic,,USD,,,2026-03-01
Overnight parcel,21.40,USD,,shipping,2026-03-01
"""
LAB = ("--lab", "Larkspur Laboratory")


def exported(shell, name):
    shell.done("export", "home.wellbook", "-o", name)
    text = (shell.folder / name / "prices.csv").read_text("utf-8-sig")
    return {row["name"]: row for row in csv.DictReader(text.splitlines())}


def test_a_price_list_is_entered_changed_and_taken_back(shell):
    shell.household()
    (shell.folder / "list.csv").write_text(LIST)
    refused = shell.run("add", "home.wellbook", "list.csv", "--accept", codes=(1,)).err
    assert "list.csv is a price list" in refused
    assert "enter BOOK prices list.csv --lab NAME" in refused
    said = shell.done("enter", "home.wellbook", "prices", "list.csv", *LAB).out
    assert "Kept: 4 prices of Larkspur Laboratory." in said
    shell.done("enter", "home.wellbook", "price", *LAB, "--name", "Lead", "--amount", "24",
               "--currency", "USD")  # fmt: skip
    rows = exported(shell, "one")
    assert rows["Lead"]["amount"] == "24"
    assert rows["Home package"]["parameters"] == "nitrate e_coli total_coliform ph"
    assert rows["Arsenic"]["amount"] == ""
    shell.done("undo", "home.wellbook")
    assert exported(shell, "two")["Lead"]["amount"] == "22.50"
    (shell.folder / "list.csv").write_text(LIST.replace("Lead,22.50,USD,,,2026-03-01\n", ""))
    shell.done("enter", "home.wellbook", "prices", "list.csv", *LAB)
    assert "Lead" not in exported(shell, "three"), "the new list takes the old one's place"
    shell.done("check", "home.wellbook")


def test_a_bad_list_changes_nothing(shell):
    shell.household()
    (shell.folder / "list.csv").write_text(LIST)
    shell.done("enter", "home.wellbook", "prices", "list.csv", *LAB)
    (shell.folder / "bad.csv").write_text(LIST + "Iron,about 5,USD,,,\n")
    said = shell.refused("enter", "home.wellbook", "prices", "bad.csv", *LAB)
    assert "bad.csv, row 6" in said
    shell.refused("enter", "home.wellbook", "prices", "nowhere.csv", *LAB)
    said = shell.refused("enter", "home.wellbook", "price", *LAB, "--name", "Iron", "--amount", "9",
                         "--currency", "CAD")  # fmt: skip
    assert "a list has one currency" in said
    assert len(exported(shell, "one")) == 4


def test_doubtful_names_are_listed(shell):
    shell.household()
    (shell.folder / "list.csv").write_text("name,price,currency,tests\nA,5,USD,Manganeese; Lead\n")
    said = shell.done("enter", "home.wellbook", "prices", "list.csv", *LAB).out
    assert "is “Manganeese” meant to be manganese?" in said
    shell.done("enter", "home.wellbook", "prices", "list.csv", *LAB, "--means",
               "Manganeese=manganese")  # fmt: skip
    assert exported(shell, "one")["A"]["parameters"] == "manganese lead"


def test_a_price_list_goes_along_with_a_packet(shell):
    shell.household()
    (shell.folder / "list.csv").write_text(LIST)
    lab = list(csv.DictReader(_labs(shell).splitlines()))[-1]["name"]
    shell.done("enter", "home.wellbook", "prices", "list.csv", "--lab", lab)
    shell.done("packet", "home.wellbook", "--for", "buyer", "-o", "p.pdf", "--on", "2026-11-25")
    shell.done("receive", "p.pdf", "next.wellbook")
    shell.done("export", "next.wellbook", "-o", "next")
    rows = list(
        csv.DictReader((shell.folder / "next/prices.csv").read_text("utf-8-sig").splitlines())
    )
    assert [row["amount"] for row in rows] == ["55.00", "22.50", "", "21.40"]


def _labs(shell):
    shell.done("export", "home.wellbook", "-o", "labs")
    return (shell.folder / "labs" / "labs.csv").read_text("utf-8-sig")
