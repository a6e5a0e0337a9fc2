"""Two samples of one day in one file, and what tells them apart. All labs are invented.

First draw and flush of one tap, and titles over tables: common practice on reports, no source.
"""

import io

import pytest
from drafts import keys
from reportlab.pdfgen.canvas import Canvas

DAY = "Collected: 02/18/2026 06:10"
HEAD = ("Analyte", "Result", "Units")


def page(*lines):
    """A page of lines; a tuple is a row of a table."""
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1)
    for number, line in enumerate(lines):
        row = (line,) if isinstance(line, str) else line
        for x, cell in zip((60, 220, 300), row, strict=False):
            canvas.drawString(x, 740 - 18 * number, cell)
    canvas.save()
    return file.getvalue()


def two(first, second, day=DAY):
    """A page of two tables of lead and copper, each below a title and its day."""
    later = day.replace("06:10", "06:18").replace("901", "902")
    return page(
        "Lindow Testing", first, day, HEAD, ("Lead", "8.1", "ug/L"), ("Copper", "0.25", "mg/L"),
        second, later, HEAD, ("Lead", "<1", "ug/L"), ("Copper", "0.05", "mg/L"),
    )  # fmt: skip


def drawn(draft):
    """Point, draw and minute of each sample."""
    return [(s.point_name, s.sample.draw, s.sample.collected.iso()[11:]) for s in draft.samples]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Sample 1: Kitchen - first draw", "Sample 2: Kitchen - flushed"),
        ("Sample location: Kitchen first draw", "Sample location: Kitchen flushed"),
        ("Kitchen first draw", "Kitchen flushed"),
        ("Kitchen tap - first draw", "Kitchen tap - flushed"),
    ],
)
@pytest.mark.parametrize("day", [DAY, f"{DAY}    Lab ID: LT-901", f"{DAY}, Lab ID: LT-901"])
def test_first_draw_and_flush_below_each_other_are_two_samples(draft_of, first, second, day):
    draft = draft_of(two(first, second, day), "report.pdf")
    names = [title.rpartition(": ")[2] for title in (first, second)]
    assert drawn(draft) == [(names[0], "first draw", "06:10"), (names[1], "flushed", "06:18")]
    assert [len(s.sample.results) for s in draft.samples] == [2, 2]
    numbers = ["LT-901", "LT-902"] if "LT" in day else ["", ""]
    assert [s.sample.lab_number for s in draft.samples] == numbers
    assert keys(draft) == []


def test_a_draw_alone_over_each_table_is_that_of_its_results(draft_of):
    draft = draft_of(two("First draw", "Flushed", "Collected: 02/18/2026"), "report.pdf")
    found = [(r.reading.text, r.draw) for s in draft.samples for r in s.sample.results]
    assert found == [("8.1", "first draw"), ("0.25", "first draw"),
                     ("<1", "flushed"), ("0.05", "flushed")]  # fmt: skip


def test_a_line_that_tells_the_draw_holds_for_the_results_below_it(draft_of):
    text = (
        "Collected,2026-02-18\nDraw,First draw\n{0}Lead,8.1,ug/L\nDraw,Flushed\n{0}Lead,<1,ug/L\n"
    )
    draft = draft_of(text.format("Parameter,Result,Unit\n"))
    assert [r.draw for s in draft.samples for r in s.sample.results] == ["first draw", "flushed"]


def test_a_further_place_over_a_table_is_the_next_sample(draft_of):
    draft = draft_of(two("Kitchen", "Barn"), "report.pdf")
    assert [s.point_name for s in draft.samples] == ["Kitchen", "Barn"]


def test_two_figures_of_one_parameter_that_nothing_tells_apart_are_asked_about(draft_of):
    draft = draft_of(two("Metals A", "Metals B", "Collected: 02/18/2026"), "report.pdf")
    (sample,) = draft.samples
    assert [mark.doubts for mark in sample.marks] == [("repeated",)] * 4
    assert keys(draft) == ["repeated", "repeated"]


@pytest.mark.parametrize(
    "rows",
    [
        "Lead,8.1,ug/L,Total,\nLead,<1,ug/L,Dissolved,\n",
        "Lead,8.1,ug/L,,EPA 200.8\nLead,7.9,ug/L,,EPA 200.9\n",
        "Lead,8.1,ug/L,,\nLead,8.10,ug/L,,\n",
        "Lead,8.1,ug/L,,\nLead,,ug/L,,\n",
    ],
    ids=["fraction", "method", "the same again", "not analysed"],
)
def test_what_is_told_apart_or_says_the_same_is_not_asked_about(draft_of, rows):
    head = "Collected,2026-02-18\nParameter,Result,Unit,Fraction,Method\n"
    assert "repeated" not in keys(draft_of(head + rows))


@pytest.mark.parametrize("time", ["06:10 by the owner", "06:10; Matrix: Drinking water"])
def test_words_behind_the_time_do_not_lose_it(draft_of, time):
    draft = draft_of(f"Collected,02/18/2026 {time}\nParameter,Result,Unit\nLead,2,ug/L\n")
    assert draft.samples[0].sample.collected.iso()[11:] == "06:10"


@pytest.mark.parametrize("word", ["Date tested", "Sample date"])
def test_each_wells_sheet_below_its_name_has_its_own_samples(draft_of, word):
    sheet = (
        f"{{}},,\n{word},Sodium (mg/L),Nitrate-N (mg/L)\n2025-02-18,{{}},{{}}\n2026-02-18,20,2\n"
    )
    draft = draft_of(
        sheet.format("House well", 44, 2.9) + ",,\n" + sheet.format("Barn well", 118, 9)
    )
    assert [s.point_name for s in draft.samples] == ["House well"] * 2 + ["Barn well"] * 2


@pytest.mark.parametrize("head", ["Dónde", "Lieu", "Lugar", "Où", "Pozo", "Ubicación"])
def test_a_column_of_places_in_another_language_tells_the_point(draft_of, head):
    head = f"Fecha,{head},Sulfatos (mg/L),Nitrato (mg/L)\n"
    draft = draft_of(f"{head}2026-02-18,Cruda,153,4\n2026-02-18,Tratada,55,9\n")
    assert [s.point_name for s in draft.samples] == ["Cruda", "Tratada"]
