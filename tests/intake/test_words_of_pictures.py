"""Words that were read from a picture become rows and cells, however close columns stand.

The sizes are those of a page of print of 9 points scanned at 200 dots an inch: boxes 38 pixels
high, letters 16 wide, 10 between words (measured on such a scan).
"""

import io

import numpy as np
import pytest
from PIL import Image, ImageDraw

from wellbook.intake.pages import bands
from wellbook.intake.pages.rows import sheet_of
from wellbook.intake.pages.words import Word
from wellbook.intake.tables.layout import is_heading
from wellbook.sandbox import page_drawer, picture_reader
from wellbook.sandbox.straightening import slope, straightened

HIGH, WIDE, STEP = 38, 16, 45


def line(number, *cells):
    """The words of a line: cells as (left, text), or (left, text, width of a letter)."""
    top = 300 + STEP * number
    for left, text, *width in cells:
        at, letter = left, width[0] if width else WIDE
        for word in text.split():
            yield Word(at, top, at + letter * len(word), top + HIGH, word)
            at += letter * len(word) + 10


def rows_of(*lines):
    page = [word for number, cells in enumerate(lines) for word in line(number, *cells)]
    return sheet_of([page], is_heading, are_pictures=True).rows


CLOSE = (
    ((100, "Parameter"), (260, "Method"), (420, "Result"), (540, "Unit")),
    ((100, "Iron"), (260, "EPA 200.8"), (420, "0.82"), (540, "mg/L")),
    ((100, "Sulfate"), (260, "EPA 200.8"), (420, "94.4"), (540, "mg/L")),
    ((100, "Cadmium"), (260, "EPA 200.8"), (420, "<0.5"), (540, "ug/L")),
    *(((100, name), (260, "EPA 200.8"), (420, "12"), (540, "mg/L")) for name in ("Zinc", "Boron")),
)


def test_columns_that_stand_as_close_as_words_are_parted_and_words_of_a_cell_are_not():
    assert rows_of(*CLOSE)[:2] == [
        ["Parameter", "Method", "Result", "Unit"],
        ["Iron", "EPA 200.8", "0.82", "mg/L"],
    ]


def test_words_of_a_heading_over_one_column_of_figures_stay_one_cell():
    rows = rows_of(
        ((100, "Paramètre"), (260, "Résultat"), (400, "Limite de qualité")),
        ((100, "Calcium"), (260, "47,2"), (420, "62")),
        ((100, "Plomb"), (260, "11,9"), (420, "9")),
        ((100, "Bore"), (260, "0,72"), (420, "26")),
    )
    assert rows[0] == ["Paramètre", "Résultat", "Limite de qualité"]
    assert rows[1] == ["Calcium", "47,2", "62"]


def test_a_rule_between_two_cells_that_was_read_as_a_letter_parts_them():
    """As on a ruled page of a German lab; a figure or a name with such a letter stays whole."""
    rows = rows_of(
        ((100, "Untersuchung"), (300, "|Ergebnis"), (460, "Einheit|Grenzwert|")),
        ((100, "Eisen"), (350, "0,50"), (460, "mg/L"), (660, "18")),
        ((100, "Ch|orid"), (350, "17|3"), (460, "mg/L"), (650, "250")),
        ((100, "|ron"), (350, "15,3"), (460, "ug/L"), (660, "55|")),
        ((100, "Sulfat"), (350, "178,3"), (460, "mg/L"), (660, "87")),
    )
    assert rows[0] == ["Untersuchung", "Ergebnis", "Einheit", "Grenzwert"]
    assert rows[2] == ["Ch|orid", "17|3", "mg/L", "250"]
    assert rows[3] == ["|ron", "15,3", "ug/L", "55|"]


def test_one_long_result_does_not_join_the_columns_of_all_rows():
    """In the page this is drawn from, `Not Detected` reached up to the next sample's figure."""
    rows = rows_of(
        ((100, "Analyte"), (260, "Kitchen"), (440, "Barn"), (560, "Unit")),
        ((100, "Boron"), (260, "0.56"), (440, "0.15"), (560, "mg/L")),
        ((100, "Arsenic"), (260, "Not Detected", 14), (440, "0.7"), (560, "ug/L")),
        ((100, "Zinc"), (260, "0.79"), (440, "1.2"), (560, "mg/L")),
    )
    assert rows[2] == ["Arsenic", "Not Detected", "0.7", "ug/L"]


def test_a_column_of_marks_is_parted_from_the_names_under_a_heading_that_says_little():
    rows = rows_of(
        ((150, "What"), (400, "You have"), (560, "Advised max.")),
        ((100, "OK"), (142, "Sulfate"), (400, "155.9 mg/L"), (590, "74 mg/L")),
        ((100, "OK"), (142, "Selenium"), (400, "1.4 ug/L"), (590, "82 ug/L")),
        ((142, "Barium"), (400, "0.6 mg/L"), (590, "40 mg/L")),
        ((100, "!"), (142, "Nitrite (as N)"), (400, "0.183 mg/L"), (590, "21 mg/L")),
        ((100, "OK"), (142, "Copper"), (400, "0.6 mg/L"), (590, "68 mg/L")),
    )
    assert rows[4] == ["!", "Nitrite (as N)", "0.183 mg/L", "21 mg/L"]
    assert rows[3][1:] == ["Barium", "0.6 mg/L", "40 mg/L"]


def test_a_word_over_the_edge_of_two_columns_stays_with_the_words_it_is_close_to():
    """`nicht nachweisbar` is not to become `nachweisbar`, which says the contrary."""
    rows = rows_of(
        ((100, "Untersuchung"), (320, "Einheit"), (470, "Ergebnis")),
        *(((100, name), (320, "mg/L"), (500, "0,89")) for name in ("Kupfer", "Sulfat", "Eisen")),
        *(((100, name), (320, "mg/L"), (500, "12,4")) for name in ("Selen", "Mangan")),
        ((100, "Calcium"), (320, "mg/L"), (410, "nicht nachweisbar", 13)),
    )
    assert rows[-1] == ["Calcium", "mg/L", "nicht nachweisbar"]
    words = [Word(522, 0, 597, HIGH, "mg/L"), Word(660, 0, 747, HIGH, "nicht")]
    cells = {1: words, 2: [Word(765, 0, 956, HIGH, "nachweisbar")]}
    bands._keep_together(cells)
    assert [[word.text for word in cell] for cell in cells.values()] == [
        ["mg/L"],
        ["nicht", "nachweisbar"],
    ]


def test_what_was_read_as_one_word_over_two_columns_is_cut_where_its_letters_change():
    rows = rows_of(*CLOSE, *CLOSE[3:], ((100, "Lead"), (260, "EPA 200.8"), (420, "167.4mg/L", 21)))
    assert rows[-1] == ["Lead", "EPA 200.8", "167.4", "mg/L"]


@pytest.mark.parametrize("lines", [CLOSE[:1], CLOSE[:2], ()])
def test_a_heading_with_little_or_nothing_below_it_is_read(lines):
    assert len(rows_of(*lines)) == len(lines)


def test_the_foot_of_a_page_does_not_join_columns():
    """In the page this is drawn from, the number of the page stood below the gap of two columns."""
    foot = ((),) * 9 + (((225, "Page 1 of 2"),),)
    assert rows_of(*CLOSE, *foot)[1] == ["Iron", "EPA 200.8", "0.82", "mg/L"]


def test_a_sentence_below_a_table_is_not_cut_by_its_columns():
    said = "Results relate to the sample as it was received by us and to nothing else"
    assert rows_of(*CLOSE, ((100, said),))[-1] == [said]


def test_words_of_a_line_are_those_that_blanks_part_whatever_pieces_they_were_read_in():
    corners = [[0, 0], [10, 0], [10, 30], [0, 30]]
    pieces = [("é", corners), ("vier", corners), ("<", corners), ("0,5", corners)]
    assert [word for word, _box in picture_reader._whole("évier <0,5", pieces)] == ["évier", "<0,5"]
    assert picture_reader._whole("évier <0,5", pieces[:2]) == []


def page_of_lines(turned):
    page = Image.new("RGB", (1000, 1300), "white")
    for y in range(100, 1200, 40):
        for x in range(100, 850, 30):
            ImageDraw.Draw(page).rectangle((x, y, x + 18, y + 16), fill="black")
    return page.rotate(turned, fillcolor="white")


@pytest.mark.parametrize("turned", [-2.0, -0.5, 0.0, 1.4])
def test_a_page_that_lies_askew_is_straightened(turned):
    page = page_of_lines(turned)
    assert slope(page) == pytest.approx(-turned, abs=0.11)
    assert abs(slope(straightened(page))) < 0.2


def test_the_page_that_is_shown_lies_as_the_one_that_was_read():
    scan = io.BytesIO()
    page_of_lines(1.4).save(scan, "PNG")
    shown = Image.open(io.BytesIO(page_drawer._drawn(scan.getvalue(), 1, "").content))
    read = picture_reader.opened_picture(scan.getvalue())
    assert np.array_equal(np.asarray(shown), np.asarray(read))
