"""A report, and a folder of thirty files: from the drop until they are kept."""

import doors
import hand
from recorder import entries
from reportlab.lib.styles import getSampleStyleSheet
from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

PANEL = (("Chloride", "21.5", "mg/L"), ("Iron", "0.12", "mg/L"), ("Lead", "1.4", "ug/L"))


def page(path, day, panel=PANEL):
    """A lab's report as a PDF with text."""
    said = Paragraph(f"Collected: {day}", getSampleStyleSheet()["Normal"])
    heads = ("Parameter", "Result", "Unit")
    SimpleDocTemplate(str(path), invariant=1).build([said, Table([heads, *panel])])


def a_certain_report(told):
    """Counts what a person does from the drop until the report is kept."""
    report = told.folder / "report.pdf"
    page(report, "2026-10-14")
    before, actions = entries(told.books[0]), 1
    yield from hand.drop([report], hand.main_window())
    yield lambda: hand.dialog() is not None
    yield hand.Rest()
    _picture(told, "a certain report")
    yield from doors.choose_point()
    actions += 3  # at most: the field, its row, Return
    told.facts["doubts"] = hand.button("Next to decide") is not None
    yield from hand.push("Keep it")
    actions += 1
    yield lambda: hand.dialog() is None
    told.facts["actions"] = actions
    told.facts["kept"] = entries(told.books[0]) - before


def a_folder_of_thirty(told):
    """Reports that are ready, one that is there already, doubtful ones, and what is no report."""
    folder = told.folder / "shoebox"
    folder.mkdir()
    for n in range(1, 21):
        rows = "".join(f"2024-05-{n:02},{a},{b},{c},Kitchen tap\n" for a, b, c in PANEL)
        (folder / f"lab-{n:02}.csv").write_text("Sampled,Parameter,Result,Unit,Location\n" + rows)
    (folder / "lab-20-again.csv").write_bytes((folder / "lab-20.csv").read_bytes())
    for n in range(1, 6):
        page(folder / f"page-{n}.pdf", f"2023-06-{n:02}")
    (folder / "doubtful.csv").write_text(
        "Sampled,Parameter,Result,Unit\n2024-07-01,Mangenese,3,ug/L\n2024-07-01,Iron,2,mg/L\n"
    )
    (folder / "holiday.csv").write_text("Where,When\nLake,July\n")
    (folder / "broken.xlsx").write_bytes(b"PK\x03\x04 this is no workbook")
    (folder / "diary.txt").write_text("May 3, 2019\nIron 0.2 mg/L\n\nMay 4, 2020\nIron 0.3 mg/L\n")
    before = entries(told.books[0])
    yield from hand.drop([folder], hand.main_window())
    yield lambda: hand.dialog() is not None
    many = hand.dialog()
    yield lambda: not many.is_reading
    yield hand.Rest()
    told.facts["files"] = len(many.lines)
    told.facts["said"] = many.state.text()
    _picture(told, "thirty files")
    yield from hand.push("Keep all that are ready")
    yield lambda: hand.button("Stop keeping") is None
    yield hand.Rest()
    told.facts["then"] = many.state.text()
    _picture(told, "thirty files, kept")
    told.facts["kept"] = entries(told.books[0]) - before
    yield from hand.push("Close")


def _picture(told, name):
    shown = hand.dialog() or hand.main_window()
    shown.grab().save(str(told.folder / f"{name.replace(' ', '-').replace(',', '')}.png"))
    told.note(name)
