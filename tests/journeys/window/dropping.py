"""Files that are dropped on the window."""

import doors
import hand
from recorder import entries


def two_lab_files(told):
    """Each is looked over, one after the other, and each can be kept."""
    first, second = told.folder / "first.csv", told.folder / "second.csv"
    for file, day in ((first, "2026-10-01"), (second, "2026-10-02")):
        file.write_text(f"Sample Date,Analyte,Result,Units\n{day},Chloride,{day[-1]}1,mg/L\n")
    before = entries(told.books[0])
    accepted = yield from hand.drop([first, second], hand.main_window())
    told.facts["accepted"] = accepted
    for file in (first, second):
        yield lambda: hand.dialog() is not None
        yield hand.Rest()
        told.note(hand.dialog().windowTitle())
        if file.name not in hand.dialog().windowTitle():
            told.fail(f"{file.name} is not offered, but {hand.dialog().windowTitle()}")
        yield from doors.choose_point()
        yield from hand.push("Keep it")
        told.note(f"{file.name}: Keep it")
    told.facts["kept"] = entries(told.books[0]) - before


def on_a_window_with_a_dialog(told):
    """The window takes nothing while a dialog waits, and never shows a second one."""
    yield from doors.to("settings", told)
    file = next(told.folder.glob(f"{told.books[0].stem}-*"))
    told.facts["accepted"] = yield from hand.drop([file], hand.main_window())
    told.facts["open"] = [w.windowTitle() for w in hand.dialogs_in_sight()]
    told.note("dropped behind a dialog")
    yield from hand.leave_dialogs()
