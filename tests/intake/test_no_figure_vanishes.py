"""Whatever a file looks like, each of its figures is a result, or is listed with its place.

The layouts are drawn by lot, most of them such as no lab prints: what is not understood must be
said. WELLBOOK_LAYOUTS=5000 draws more.
"""

import json
import os
import random

import pytest

from wellbook.support.errors import Fault

COUNT = int(os.environ.get("WELLBOOK_LAYOUTS", "150"))
NAMES = ("Iron", "Lead", "Nitrate as N", "Chloride", "Zinc", "Frobnium", "Total Coliform", "pH")
HEADS = (
    "Parameter", "Result", "Unit", "Level", "MCL", "Kitchen", "Something", "2019", "Sampled", "",
    "Run 1", "Health", "Value", "Test", "Blue", "Sample", "2024-05-03", "Metal", "Barn tap", "RL",
)  # fmt: skip
WORDS = ("Present", "absent", "not detected", "ND", "negative", "positive")


class Lot(random.Random):
    """Draws files, and remembers the figures that were put into them."""

    def __init__(self, seed):
        super().__init__(seed)
        self.figures = []

    def figure(self):
        text = f"{self.randint(1, 9)}.{len(self.figures) + 101}"
        self.figures.append(text)
        return self.choice(("", "", "<")) + text

    def cell(self):
        return self.choices(
            (self.figure, lambda: self.choice(WORDS), lambda: "", lambda: self.choice(HEADS)),
            (6, 1, 1, 1),
        )[0]()

    def table(self):
        names = self.sample(NAMES, self.randint(2, 6))
        width = self.randint(2, 6)
        where = self.randrange(width)
        rows = [[self.choice(HEADS) for _ in range(width)] for _ in range(self.randint(0, 2))]
        for name in names:
            row = [self.cell() for _ in range(width)]
            row[where] = name if self.random() < 0.9 else ""
            rows.append(row)
        return [list(row) for row in zip(*rows, strict=True)] if self.random() < 0.3 else rows

    def line(self):
        name = self.choice(NAMES)
        return self.choice(
            (
                lambda: ["Collected:", "2024-05-03"],
                lambda: [f"The {name} was {self.figure()} mg/L"],
                lambda: [f"{name}: {self.figure()} mg/L"],
                lambda: [f"Well 3 at the barn {self.figure()}"],
                list,
            )
        )()

    def sheet(self):
        rows = [self.line() for _ in range(self.randint(0, 3))]
        for _ in range(self.randint(1, 2)):
            rows += self.table() + [self.line() for _ in range(self.randint(0, 2))]
        return rows


def written(lot):
    """Name and text of a file."""
    rows = lot.sheet()
    kind = lot.choice(("csv", "txt", "html", "json"))
    if kind == "csv":
        return "a.csv", "\n".join(",".join(row) for row in rows)
    if kind == "txt":
        return "a.txt", "\n".join("   ".join(cell or "." for cell in row) for row in rows)
    if kind == "html":
        cells = ("".join(f"<td>{cell.replace('<', '&lt;')}</td>" for cell in row) for row in rows)
        return "a.html", "<table><tr>" + "</tr><tr>".join(cells) + "</tr></table>"
    records = [{f"k{i}": cell for i, cell in enumerate(row)} for row in rows if row]
    return "a.json", json.dumps({"well": "W", "lists": [rows], "records": records})


def said(draft):
    """All that a draft shows of its file."""
    texts = [one.what for one in draft.not_taken] + [finding.text for finding in draft.findings]
    for sample in draft.samples:
        made = sample.sample
        texts += [sample.point_name, made.lab_number, made.lab, made.temperature, made.sampler]
        for r in made.results:
            texts += [r.name, r.reading.text, r.reading.unit, r.reading.basis, r.reporting_limit]
            texts += [r.detection_limit, r.qualifier, r.method, r.draw, r.reading.fraction]
    for one in draft.not_taken:
        if one.is_aside and not any(map(str.isdigit, one.what)):  # the word over a whole column
            column = one.place.column - 1
            rows = (row for sheet in draft.sheets for row in sheet.rows[one.place.row - 1 :])
            texts += [row[column] for row in rows if 0 <= column < len(row)]
    return "\n".join(texts)


@pytest.mark.parametrize("part", range(5))
def test_every_figure_is_taken_or_listed(draft_of, part):
    read = 0
    for seed in range(part, COUNT, 5):
        lot = Lot(seed)
        name, text = written(lot)
        try:
            draft = draft_of(text, name)
        except Fault:
            continue  # nothing of it can be kept
        read += 1
        shown = said(draft)
        lost = [one for one in lot.figures if one in text and one not in shown]
        assert not lost, f"seed {seed}, {name}: {lost}\n{text}"
    assert read > COUNT // 15


def test_a_word_for_a_figure_is_listed_too(draft_of):
    draft = draft_of(
        "Collected,2024-05-03\nParameter,Result,Unit,\nIron,0.2,mg/L,\nZinc,0.3,mg/L,ND\n"
        "\nThe coliform test was positive\n"
    )
    listed = {one.what.casefold() for one in draft.not_taken}
    assert {"nd", "positive"} <= listed


def test_what_stands_among_the_records_of_a_json_text_is_listed(draft_of):
    draft = draft_of(
        '{"date_collected": "2024-05-03", "results": [{"analyte": "Iron", "value": "0.21", '
        '"unit": "mg/L"}, {"analyte": "Zinc", "value": "0.3", "unit": "mg/L", "more": '
        '{"runs": ["0.41"]}}, "Lead: 7.3 ug/L"]}',
        "a.json",
    )
    shown = said(draft)
    assert all(figure in shown for figure in ("0.21", "0.3", "0.41", "7.3"))
