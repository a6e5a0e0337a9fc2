"""Letters of one page: what can harm stands first, nobody is told of, every sentence is a question.

The text is read by pypdf, which did not write it. What is asked is common practice, no source.
"""

import re

import household
import pytest
from packet_fixtures import TODAY
from pypdf import PdfReader

from wellbook.book import Book
from wellbook.packet.gather import gather
from wellbook.packet.letters.letter import letter
from wellbook.packet.letters.paper import write_letter
from wellbook.packet.letters.sentences import RECIPIENTS
from wellbook.packet.options import PacketOptions
from wellbook.support import paths
from wellbook.water.cautions.cautions import read_cautions
from wellbook.water.values.catalogue import read_catalogue
from wellbook.water.values.judgement import Verdict

CATALOGUE = read_catalogue(paths.resources())
CAUTIONS = read_cautions(paths.resources() / "cautions.toml")


def written(path, book, recipient, **choices):
    options = PacketOptions("buyer", **choices)
    write_letter(book.record(), CATALOGUE, path, recipient, options, today=TODAY)
    reader = PdfReader(path)
    assert len(reader.pages) == 1
    return re.sub(r"\s+", " ", reader.pages[0].extract_text())


@pytest.mark.parametrize(
    ("recipient", "name"),
    list(zip(RECIPIENTS, ["alder-hollow", "first-year", "salt-lane"], strict=True)),
)
def test_a_letter_of_each_household_is_one_page_in_both_languages(tmp_path, recipient, name):
    with Book.open(paths.sample_wells() / f"{name}.wellbook", readonly=True) as book:
        english = written(tmp_path / "e.pdf", book, recipient)
        spanish = written(tmp_path / "s.pdf", book, recipient, language="es", paper="a4")
    assert "Page 1 of 1" in english
    assert "We ask" in english
    assert "They do not bind a private well" in english
    assert not re.search(r"\bsafe\b", english, re.IGNORECASE)
    assert "Preguntamos" in spanish
    assert "We ask" not in spanish


def test_a_doctor_reads_what_is_over_for_health_first_and_the_usual_cautions(tmp_path):
    with Book.open(paths.sample_wells() / "first-year.wellbook", readonly=True) as book:
        said = written(tmp_path / "d.pdf", book, "doctor")
    order = [said.index(word) for word in ("Arsenic Kitchen", "Lead Kitchen", "Nitrate Kitchen")]
    assert order == sorted(order)
    assert "Lead Kitchen tap, first draw 18.30 µg/L over (action level) up to 15 µg/L" in said
    assert "Use other water for drinking" in said
    assert "A test of water is no finding about a person" in said
    assert "Open cases" in said


def test_a_past_finding_of_bacteria_is_told_with_its_end(tmp_path):
    with Book.open(paths.sample_wells() / "alder-hollow.wellbook", readonly=True) as book:
        said = written(tmp_path / "h.pdf", book, "health-department")
    assert "E. coli 4.2 MPN/100 mL found on 27 Jul 2021" in said
    assert "Since then none were found in 7 tests there, the last on 7 Oct 2025." in said
    assert "Never tested: Benzene" in said


def test_a_dealer_gets_the_raw_water_the_house_and_no_cautions(tmp_path):
    with Book.open(paths.sample_wells() / "alder-hollow.wellbook", readonly=True) as book:
        said = written(tmp_path / "t.pdf", book, "dealer")
    assert "Hardness Tap at the pressure tank" in said
    assert "Pressure, on and off not known" in said
    assert "Which independent certification has this very model" in said
    assert "by the local code" in said
    assert "Who drinks it" not in said


def test_nobody_is_told_of_unless_that_is_ticked(tmp_path):
    with household.furnished(tmp_path / "b.wellbook") as book:
        book.set_setting("people", "infant dialysis")
        without = written(tmp_path / "w.pdf", book, "doctor")
        ticked = written(tmp_path / "t.pdf", book, "doctor", with_personal=True)
        wells = book.record().wells
    private = [line for well in wells for line in (well.address, well.coordinates) if line]
    assert private
    for line in (*private, household.SAMPLER, "dialysis at home, babies"):
        assert line not in without
    for line in (*private, "people on dialysis at home, babies"):
        assert line in ticked
    assert "Who drinks it, and since when: ___" in without


def history(path, texts):
    with household.new_book(path) as book:
        tap = book.add_point(book.add_well("Home"), "Kitchen tap")
        rows = [
            household.result(key, key, text, unit, basis=basis)
            for (key, unit, basis), text in zip(MEASURED, texts, strict=True)
        ]
        book.add_sample(household.sample(tap, "2026-10-03", *rows))
        return gather(book.record(), CATALOGUE, TODAY, with_personal=False)


MEASURED = (
    ("nitrate", "mg/L", "as N"), ("lead", "µg/L", ""), ("arsenic", "µg/L", ""),
    ("copper", "mg/L", ""), ("uranium", "µg/L", ""), ("fluoride", "mg/L", ""),
    ("iron", "mg/L", ""), ("sodium", "mg/L", ""), ("chloride", "mg/L", ""),
    ("selenium", "µg/L", ""), ("barium", "mg/L", ""), ("cadmium", "µg/L", ""),
    ("antimony", "µg/L", ""), ("thallium", "µg/L", ""), ("mercury", "µg/L", ""),
    ("beryllium", "µg/L", ""), ("chromium", "µg/L", ""),
)  # fmt: skip


@pytest.mark.parametrize("recipient", RECIPIENTS)
def test_what_does_not_fit_is_counted_and_never_worse_than_what_stands_there(tmp_path, recipient):
    made = letter(history(tmp_path / "o.wellbook", ["2000"] * len(MEASURED)), recipient, CAUTIONS)
    assert all(
        row.judgement.verdict is Verdict.OUTSIDE and row.judgement.can_harm for row in made.rows
    )
    assert any(re.match(r"\d+ more results are not on this page", note) for note in made.notes)
    assert len(made.cautions) <= 3


@pytest.mark.parametrize("recipient", ["doctor", "health-department"])
def test_what_is_over_for_taste_alone_is_named_where_it_has_no_row(tmp_path, recipient):
    seen = history(tmp_path / "o.wellbook", [*["0.01"] * 6, "60", *["0.01"] * 10])
    made = letter(seen, recipient, CAUTIONS)
    assert "Iron" not in {row.name for row in made.rows}
    assert "Outside a level for taste, look or operation, too: Iron." in made.notes


def test_no_letter_is_an_all_clear_for_an_empty_book(tmp_path):
    with household.new_book(tmp_path / "b.wellbook") as book:
        book.add_well("Home")
        said = written(tmp_path / "l.pdf", book, "doctor")
    assert "There is no test that could show anything." in said
    assert "Never tested" in said
