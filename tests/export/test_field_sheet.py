"""The field sheet: two pages, the rules that differ, nothing about people, fit for any printer.

First draw: 40 CFR 141.86, from memory; bacteria bottles: 77 Ill. Adm. Code 465.370. Contrast:
WCAG 2.2, 1.4.3 (4.5 to 1 for text).
"""

import re
from datetime import date

import pytest
from pypdf import PdfReader

from wellbook.book import Book
from wellbook.export.field_sheet import write
from wellbook.planning.rounds import rounds, visit_of
from wellbook.support.errors import Fault
from wellbook.support.paths import resources
from wellbook.water.values.catalogue import read_catalogue

CATALOGUE = read_catalogue(resources())
TODAY = date(2026, 6, 3)


@pytest.fixture
def book(tmp_path):
    with Book.create(tmp_path / "home.wellbook") as made:
        well = made.add_well("Thistle Lane")
        made.add_point(well, "Kitchen tap", note="Cold only.")
        yield made


def visit(book, today):
    found = rounds(book.record(), CATALOGUE, today)
    return visit_of(found, found[0])


def sheet(book, tmp_path, paper="letter", today=TODAY):
    path = tmp_path / "sheet.pdf"
    write(path, visit(book, today), CATALOGUE, today=today, paper=paper)
    return PdfReader(path)


def words_of(page):
    return re.sub(r"\s+", " ", page.extract_text())


def words(reader):
    text = "\n".join(page.extract_text() for page in reader.pages)
    return re.sub(r"\s+", " ", text)


@pytest.mark.parametrize(("paper", "size"), [("letter", (612, 792)), ("a4", (595, 842))])
def test_it_has_two_pages_of_the_paper_asked_for(book, tmp_path, paper, size):
    reader = sheet(book, tmp_path, paper)
    assert len(reader.pages) == 2
    assert tuple(round(side) for side in reader.pages[0].mediabox[2:]) == size


def test_however_much_is_tested_it_stays_on_two_pages(book, tmp_path):
    for key in CATALOGUE.panels:
        book.set_plan(1, key, 12)
    reader = sheet(book, tmp_path, "a4")
    assert len(reader.pages) == 2
    assert "Brown glass bottles" in words(reader)


def test_raw_and_treated_water_of_one_visit_stand_on_one_sheet_for_one_day(book, tmp_path):
    book.add_point(1, "Behind the filter", treated=True, place=4)
    for panel in ("bacteria", "lead_copper"):
        book.set_plan(2, panel, 12)
    raw, treated = visit(book, TODAY)
    assert raw.search.day == treated.search.day
    pages = [words_of(page) for page in sheet(book, tmp_path).pages]
    assert len(pages) == 3, "the hours once, the bottles tap by tap"
    assert "Kitchen tap (raw water" in pages[0]
    assert "Behind the filter (treated water)" in pages[0]
    assert "Behind the filter: Chlorine by test strip" in pages[0]
    assert "First draw" in pages[0], "an hour that only the second tap needs"
    assert "Kitchen tap: bottle by bottle" in pages[1]
    assert "Behind the filter: bottle by bottle" in pages[2]
    assert "First-draw" in pages[2] or "first draw" in pages[2].casefold()


def test_each_bottle_has_the_rule_in_which_it_differs(book, tmp_path):
    for key in ("bacteria", "lead_copper", "minerals", "arsenic", "radon"):
        book.set_plan(1, key, 12)
    text = words(sheet(book, tmp_path))
    for rule in (
        "Six hours without any use of water in the house",
        "To the 100 mL line and no further",
        "touch neither cap nor rim",
        "Cold water for five minutes. Wash hands, put on gloves",
        "Three times with a third of its volume",
        "To the top, no air left",
        "a bubble means fill a new one",
        "All bottles travel cold",
    ):
        assert rule in text
    page = sheet(book, tmp_path).pages[1].extract_text()
    order = [page.index(word) for word in ("First-draw", "Glass vials", "Sterile", "Large plain")]
    assert order == sorted(order)


def test_the_aerator_stays_on_for_the_first_draw_and_comes_off_for_the_rest(book, tmp_path):
    for key in ("bacteria", "lead_copper", "minerals"):
        book.set_plan(1, key, 12)
    one = rounds(book.record(), CATALOGUE, TODAY)[0]
    assert [bottle.aerator for bottle, _ in one.bottles] == ["on", "off", "off", "off"]
    text = words(sheet(book, tmp_path))
    assert "Leave the aerator on" in text
    assert "Take aerator and screens off" in text


def test_what_is_drawn_first_has_a_flushed_partner_on_the_sheet(book, tmp_path):
    book.set_plan(1, "lead_copper", 36)
    one = rounds(book.record(), CATALOGUE, TODAY)[0]
    both = [bottle.draw for bottle, keys in one.bottles if {"lead", "copper"} <= set(keys)]
    assert both == ["first draw", "flushed"]
    assert "is drawn once more after flushing" in words(sheet(book, tmp_path))


def test_a_softener_is_spoken_of_only_where_there_is_one(book, tmp_path):
    book.set_plan(1, "lead_copper", 36)
    assert "softener" not in words(sheet(book, tmp_path)).casefold()
    book.add_unit(1, "Softener", kind="ion exchange softener", place=2)
    assert "Keep the softener from regenerating tonight." in words(sheet(book, tmp_path))


def test_the_evening_before_and_every_hour_are_planned(book, tmp_path):
    book.set_plan(1, "lead_copper", 36)
    book.set_plan(1, "bacteria", 12)
    text = words(sheet(book, tmp_path))
    assert "Wednesday, 10 June 2026" in text
    for hour in ("Tue 19:00", "00:30", "06:30", "16:30", "17:00"):
        assert hour in text


def test_there_is_room_for_what_really_happened(book, tmp_path):
    text = words(sheet(book, tmp_path))
    for label in (
        "Actual time",
        "Sample number",
        "Signature",
        "Handed over to",
        "Received at the lab by",
        "Temperature on receipt",
        "Bacteria test started",
        "Rain of the last ten days",
        "Chlorine by test strip",
        "Temperature of the water",
        "pH at the tap",
        "Pressure, pump on and off",
        "Flow: volume and time",
    ):
        assert label in text


def test_cautions_stand_on_it(book, tmp_path):
    book.set_plan(1, "drilling", 12)
    text = words(sheet(book, tmp_path))
    assert "Never climb into a well pit" in text
    assert "mains voltage" in text
    assert "Danger of explosion" in text
    assert "comes first" in text
    assert "safe to drink" not in text


def test_it_travels_to_the_lab_and_tells_nothing_about_people(book, tmp_path):
    book.add_event(1, "pregnancy", "2026-06-01", text="due in spring", private=True)
    text = words(sheet(book, tmp_path)).casefold()
    assert "pregnan" not in text
    assert "nitrate" in text
    assert "total coliform" in text


def test_without_a_day_it_is_still_a_sheet_to_fill_in(book, tmp_path):
    book.set_setting("round_transit_days", "4")
    text = words(sheet(book, tmp_path))
    assert "a day that the lab has to name" in text
    assert "No day from" in text
    assert "Fill the sterile bottle to the 100 mL line" in text


def test_every_word_is_dark_enough_for_a_grey_printer(book, tmp_path):
    reader = sheet(book, tmp_path)
    for page in reader.pages:
        content = page.get_contents().get_data().decode("latin-1")
        colours = set(re.findall(r"([\d.]+) ([\d.]+) ([\d.]+) rg", content))
        assert colours
        for colour in colours:
            assert 1.05 / (luminance(*map(float, colour)) + 0.05) > 4.5


def luminance(*rgb):
    linear = [c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in rgb]
    return sum(share * c for share, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def test_the_same_round_gives_the_same_bytes(book, tmp_path):
    sheet(book, tmp_path)
    first = (tmp_path / "sheet.pdf").read_bytes()
    sheet(book, tmp_path)
    assert (tmp_path / "sheet.pdf").read_bytes() == first


def test_a_folder_that_is_not_there_is_said(book, tmp_path):
    one = visit(book, TODAY)
    with pytest.raises(Fault, match="can’t be written"):
        write(tmp_path / "no" / "x.pdf", one, CATALOGUE, today=TODAY, paper="letter")
    with pytest.raises(ValueError, match="no paper"):
        write(tmp_path / "x.pdf", one, CATALOGUE, today=TODAY, paper="napkin")
