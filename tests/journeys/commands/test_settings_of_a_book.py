"""The choices of a household, typed as commands: kept, refused, taken back, and used."""

import json

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader
from reading import text_of

SETTINGS = {
    "country", "state", "well-kind", "ground", "people", "limit-sets", "seasons", "interval",
    "units", "near",
    "language", "paper", "currency", "dates", "decimal",
    "ask", "emergency",
}  # fmt: skip
RESULTS = (
    "Sample ID,n1\nCollected,{day}\nReceived,2026-02-03 11:00\nSample Location,Tap\n\n"
    "Analyte,Result,Units\nNitrate as N,7.2,mg/L\nHardness,171,mg/L\n"
)


@pytest.fixture
def home(shell):
    shell.done("new", "home.wellbook")
    shell.done("enter", "home.wellbook", "well", "--name", "Home")
    shell.done("enter", "home.wellbook", "point", "--name", "Tap")
    return shell


def kept(shell):
    return json.loads(shell.done("settings", "home.wellbook", "--json").out)


def choose(shell, *changes):
    words = [word for change in changes for word in ("--set", change)]
    return shell.done("settings", "home.wellbook", *words)


def taken(shell, day="2026-02-03 08:00"):
    (shell.folder / "n1.csv").write_text(RESULTS.format(day=day))
    return shell.done("add", "home.wellbook", "n1.csv", "--accept")


def status(shell, parameter):
    said = json.loads(shell.done("status", "home.wellbook", "--on", "2026-11-28", "--json").out)
    (point,) = said["wells"][0]["points"]
    return next(one for one in point["parameters"] if one["key"] == parameter)


def test_each_key_is_shown_with_where_it_comes_from(home):
    assert kept(home).keys() == SETTINGS | {"origin"}
    choose(home, "country=AU", "currency=nzd")
    said = kept(home)
    assert (said["paper"], said["origin"]["paper"]) == ("a4", "from the place")
    assert (said["currency"], said["origin"]["currency"]) == ("NZD", "chosen")
    assert "paper: a4 (from the place)" in home.done("settings", "home.wellbook").out


def test_of_several_changes_all_are_kept_or_none_and_undo_takes_them_back_together(home):
    refused = home.run(
        "settings", "home.wellbook", "--set", "country=CA", "--set", "paper=a3"
    )  # fmt: skip
    assert refused.code == 1
    assert "Known are: letter, a4." in refused.err
    assert kept(home)["country"] == ""
    choose(home, "country=CA", "state=ON", "well-kind=dug")
    home.done("undo", "home.wellbook")
    assert (kept(home)["country"], kept(home)["well-kind"]) == ("", "")


def test_what_is_no_key_and_value_is_bad_usage(home):
    refused = home.run("settings", "home.wellbook", "--set", "paper")
    assert refused.code == 2
    assert "limit-sets" in refused.err


def test_what_counts_as_near_is_the_households_own(home):
    taken(home)
    assert status(home, "nitrate")["now"]["verdict"] == "within"
    choose(home, "near=70 %")
    assert status(home, "nitrate")["now"]["verdict"] == "near"


def test_the_calendar_speaks_the_language_of_the_household(home):
    def events():
        home.done("calendar", "home.wellbook", "--on", "2026-03-01", "-o", "tests.ics")
        return (home.folder / "tests.ics").read_text(encoding="utf-8").replace("\r\n ", "")

    assert "Draw water samples" in events()
    choose(home, "language=es")
    said = events()
    assert "Tomar muestras de agua" in said
    assert "Bacterias" in said
    for english in ("Draw water samples", "Due on", "raw water", "wellhead", "comes again"):
        assert english not in said


def test_paper_and_language_of_what_is_printed(home):
    taken(home)
    choose(home, "country=MX", "paper=a4")
    packet = ("packet", "home.wellbook", "--for", "buyer", "-o")
    home.done(*packet, "p.pdf")
    page = PdfReader(home.folder / "p.pdf").pages[0]
    assert round(page.mediabox.width) == 595  # A4, ISO 216, in points
    assert "Nitrato" in page.extract_text()  # Mexico's Spanish
    home.done("round", "home.wellbook", "--on", "2026-11-28", "-o", "s.pdf")
    choose(home, "paper=letter", "language=es")
    home.done("round", "home.wellbook", "--on", "2026-11-28", "-o", "t.pdf")
    home.done("labels", "home.wellbook", "--on", "2026-11-28", "-o", "l.pdf")
    english, spanish = (PdfReader(home.folder / name).pages[0] for name in ("s.pdf", "t.pdf"))
    assert round(english.mediabox.width) == 595
    assert round(spanish.mediabox.width) == 612  # 8.5 inches
    assert "muestra" in spanish.extract_text()
    assert "muestra" not in english.extract_text()
    assert "Frasco" in PdfReader(home.folder / "l.pdf").pages[0].extract_text()
    home.done("export", "home.wellbook", "-o", "tables")
    sheets = load_workbook(home.folder / "tables" / "wellbook.xlsx").worksheets
    assert {sheet.page_setup.paperSize for sheet in sheets} == {1}  # letter, ECMA-376 18.3.1.63
    home.done(*packet, "e.pdf", "--language", "en", "--paper", "a4")
    assert "Nitrate" in PdfReader(home.folder / "e.pdf").pages[0].extract_text()


def test_units_of_charts_and_packet(home):
    """171 mg/L as CaCO3 are ten grains a gallon: 1 gpg is 17.118 mg/L (USGS)."""
    taken(home)
    choose(home, "units=household")
    home.done("chart", "home.wellbook", "hardness", "-o", "h.svg", "--on", "2026-11-28")
    assert "gpg" in (home.folder / "h.svg").read_text(encoding="utf-8")
    home.done("packet", "home.wellbook", "--for", "consultant", "-o", "p.pdf")
    pages = text_of(home.folder / "p.pdf")
    assert "gpg" in pages


def test_the_order_of_dates_is_chosen_or_asked(home):
    choose(home, "country=US", "dates=day-first")
    taken(home, day="05/02/2026")
    assert "2026-02-05" in home.done("status", "home.wellbook", "--json").out


def test_dates_are_asked_where_the_household_wants_that_although_its_country_has_one_order(home):
    choose(home, "country=AU", "dates=asked")
    (home.folder / "n1.csv").write_text(
        RESULTS.format(day="05/02/2026").replace("2026-02-03 11:00", "06/02/2026")
    )
    refused = home.run("add", "home.wellbook", "n1.csv", "--accept")
    assert refused.code == 1
    assert "--dates" in refused.err


def test_a_dug_well_is_asked_for_bacteria_every_three_months(home):
    (home.folder / "b.csv").write_text(
        "Sample ID,b1\nCollected,2026-02-03 08:00\nReceived,2026-02-03 11:00\n"
        "Sample Location,Tap\n\nAnalyte,Result,Units\n"
        "Total Coliform,Absent,per 100 mL\nE. coli,Absent,per 100 mL\n"
    )
    home.done("add", "home.wellbook", "b.csv", "--accept")

    def due():
        said = json.loads(home.run("due", "home.wellbook", "--on", "2026-06-01", "--json").out)
        return {one["panel"]: one["due"] for one in said["due"] if "panel" in one}

    assert "Bacteria" not in due()
    choose(home, "well-kind=dug")
    assert due()["Bacteria"] == "2026-05-03"
    assert "dug or bored well" in home.run("due", "home.wellbook", "--on", "2026-06-01").out
    choose(home, "well-kind=drilled", "ground=karst,flood-prone")
    assert due()["Bacteria"] == "2026-05-03"
    assert "For a well in karst" in home.run("due", "home.wellbook", "--on", "2026-06-01").out
    choose(home, "ground=")
    assert "Bacteria" not in due()


def test_the_kind_that_the_only_well_tells_of_itself_is_changed_with_it(home):
    home.done("new", "two.wellbook")
    home.done("enter", "two.wellbook", "well", "--name", "Home", "--kind", "drilled")
    home.done("settings", "two.wellbook", "--set", "well-kind=spring")
    home.done("export", "two.wellbook", "-o", "tables")
    tables = " ".join(path.read_text("utf-8") for path in (home.folder / "tables").glob("*.csv"))
    assert "spring" in tables
    assert "drilled" not in tables


def test_costs_are_in_the_money_of_the_place_unless_another_was_used_or_chosen(home):
    """NZD and AUD: ISO 4217."""
    paid = ("enter", "home.wellbook", "event", "--kind", "repair", "--cost", "80")
    choose(home, "country=NZ")
    home.done(*paid, "--on", "2026-03-01")
    choose(home, "currency=aud")
    home.done(*paid, "--on", "2026-04-01")
    home.done("export", "home.wellbook", "-o", "tables")
    tables = " ".join(path.read_text("utf-8") for path in (home.folder / "tables").glob("*.csv"))
    assert "NZD" in tables
    assert "AUD" in tables
