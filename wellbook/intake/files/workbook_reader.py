"""The cells of an old XLS workbook: runs in a process of its own."""

from wellbook.intake.files.spreadsheets import texts_of
from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel


def main() -> None:
    """Answer with the texts of one workbook."""
    try:
        asked = bounds.received()
        sheets, hidden, trouble = texts_of(asked.content)
        facts = {"sheets": list(sheets.items()), "hidden": hidden, "trouble": trouble}
        bounds.answer(Parcel(facts, b""))
    except MemoryError:
        bounds.out_of_memory()
