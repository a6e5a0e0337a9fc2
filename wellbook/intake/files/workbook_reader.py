"""The cells of an old XLS workbook: runs in a process of its own."""

from wellbook.intake.files.old_workbooks import as_facts, hidden_in_old
from wellbook.intake.files.spreadsheets import CELLS_WITH_FORMATS, texts_of
from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel


def main() -> None:
    """Answer with the texts of one workbook."""
    try:
        asked = bounds.received()
        sheets, hidden, trouble = texts_of(asked.content)
        unseen = {} if trouble else as_facts(hidden_in_old(asked.content, CELLS_WITH_FORMATS))
        facts = {"sheets": list(sheets.items()), "hidden": hidden, "trouble": trouble}
        facts["unseen"] = unseen
        bounds.answer(Parcel(facts, b""))
    except MemoryError:
        bounds.out_of_memory()
