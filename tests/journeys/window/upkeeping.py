"""Upkeep through the window: done in two clicks, a look at the wellhead, what was bad put right."""

from datetime import date

import doors
import hand
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QTableView

from wellbook.book import Book


def _record(told):
    """What the file holds, as it lies on the disk."""
    with Book.open(told.books[0], readonly=True) as book:
        return book.record()


def _lines():
    """What the overview asks for at units and wellhead."""
    (page,) = [w for w in hand.main_window().findChildren(object) if hasattr(w, "all_wanted")]
    return list(page.lines) if page.isVisible() else []


def done_in_two_clicks(told):
    today = date.today().isoformat()
    yield from doors.to("Overview", told)
    told.facts["asked"] = [line.partition(":")[0] for line in _lines()]
    before = len(_record(told).services)
    yield from hand.push("Done today")  # of the first line that has it
    told.facts["dialog"] = hand.dialog().windowTitle()
    yield from hand.push("Keep as done")
    added = _record(told).services[before:] or _record(told).events[-1:]
    told.facts["kept"] = [(one.kind, one.day == today) for one in added]
    told.facts["asked after"] = [line.partition(":")[0] for line in _lines()]
    yield from hand.press("Ctrl+Z")
    told.facts["taken back"] = len(_record(told).services) == before
    told.note("done today")


def a_look_at_the_wellhead(told):
    photo = told.folder / "cap.png"
    photo.write_bytes(b"\x89PNG\r\n\x1a\n a cap")
    yield from doors.to("wellhead", told)
    yield from hand.press("Ctrl+Return")
    told.facts["nothing answered"] = [hand.dialog().bar.text, len(_record(told).answers)]
    yield from hand.press("Escape")  # nothing was entered: it closes
    told.facts["closed"] = hand.dialog() is None
    yield from doors.to("wellhead", told)
    yield from _answer("cap", "bad")
    (advice,) = [w for w in hand.visible(QLabel) if "mend or replace the cap" in w.text()]
    told.facts["says what to do"] = "licensed well contractor" in advice.text()
    yield from _answer("slope of the ground", "good")
    yield from hand.click(_named(QLineEdit, "Remark on: cap"))
    yield from hand.write("cracked")
    yield from hand.push("Add photos")
    yield from hand.answer(photo)
    yield from hand.press("Ctrl+Return")
    record = _record(told)
    told.facts["answers"] = [(one.item, one.answer, one.text) for one in record.answers]
    told.facts["photos"] = [one.name for one in record.documents if one.event]
    yield from doors.to("Overview", told)
    told.facts["on the list"] = _lines()[0].partition(":")[0]
    yield from hand.push("Put right")
    yield from hand.push("Keep as put right")
    told.facts["mended"] = [one.mended == date.today().isoformat() for one in _record(told).answers]
    told.facts["off the list"] = all(not line.startswith("Cap") for line in _lines())
    yield from hand.press("Ctrl+Z")
    told.facts["back on it"] = _lines()[0].partition(":")[0]
    yield from _put_the_inspection_right(told)
    told.note("wellhead")


def _put_the_inspection_right(told):
    """The slope was bad and the cap was mended before anybody wrote it down: both are changed."""
    yield from doors.to("Well", told)
    yield from doors.section("Inspections")
    yield from doors.first_row("Inspections")
    yield from hand.push("Change")
    yield from _answer("slope of the ground", "bad")
    yield from hand.click(_named(QLineEdit, "Put right on: cap"))
    yield from hand.write("2019")
    yield from hand.press("Ctrl+Return")
    told.facts["put right before it was seen"] = hand.dialog().bar.text
    yield from hand.press("Ctrl+A")
    yield from hand.write(date.today().isoformat())
    yield from hand.press("Ctrl+Return")
    answers = {one.item: one for one in _record(told).answers}
    told.facts["changed"] = [
        answers["slope"].answer, answers["cap"].mended == date.today().isoformat(), len(answers)
    ]  # fmt: skip


def a_flow_test(told):
    """One without its flow is refused; then it is typed whole, by the keys alone."""
    yield from doors.to("Flow tests, add", told)
    yield from hand.press("Ctrl+Return")
    told.facts["without a flow"] = hand.dialog().bar.text
    (flow,) = [w for w in hand.visible(QLineEdit) if w is hand.dialog().flow.flow]
    yield from hand.click(flow)
    for typed in ("5.2", "", "4", "12", "", "licensed contractor"):
        if typed:
            yield from hand.write(typed)
        yield from hand.press("Tab")
    yield from hand.press("Ctrl+Return")
    told.facts["flow"] = [
        (one.kind, one.flow, one.flow_unit, one.hours, one.drawdown, one.drawdown_unit, one.done_by)
        for one in _record(told).events
        if one.flow
    ]
    told.note("flow test")


def _named(kind, name):
    return next(w for w in hand.visible(kind) if w.accessibleName() == name)


def _answer(line, seen):
    """Choose an answer with the keys."""
    field = _named(QComboBox, line)
    yield from hand.click(field)
    for _ in range(field.findText(seen) - field.currentIndex()):
        yield from hand.press("Down")
    yield from hand.press("Return")
    assert field.currentText() == seen, field.currentText()


def money_and_intervals(told):
    yield from a_flow_test(told)
    yield from doors.to("Costs, add", told)
    yield from hand.write("bottled water")
    yield from hand.press("Tab")
    yield from hand.press("Tab")
    yield from hand.write("31.75")
    yield from hand.press("Tab")
    yield from hand.press("Ctrl+A")
    yield from hand.write("usd")
    yield from hand.press("Ctrl+Return")
    told.facts["costs"] = [(one.kind, one.cost, one.currency) for one in _record(told).expenses]
    (sums,) = [w.text() for w in hand.visible(QLabel) if "31.75" in w.text()]
    told.facts["sums"] = sums.splitlines()[0]
    yield from doors.to("Intervals, change", told)
    yield from hand.press("Ctrl+A")
    yield from hand.write("0")
    yield from hand.press("Ctrl+Return")
    told.facts["intervals"] = [(one.task, one.months) for one in _record(told).intervals]
    told.note("money")


def by_the_gallon(told):
    """Filters of a membrane unit that last 500 gallons, and the meter that is read at them."""
    yield from doors.to("Well", told)
    yield from doors.section("Intervals")
    yield from hand.click_row(_table("Intervals"), 2)
    yield from hand.push("Change")
    yield from hand.press("Tab")
    yield from hand.write("5 hundred")
    yield from hand.press("Ctrl+Return")
    told.facts["unreadable"] = hand.dialog().bar.text
    yield from hand.press("Ctrl+A")
    yield from hand.write("500 gallons")
    yield from hand.press("Tab")
    yield from hand.write("5 gal")
    yield from hand.press("Ctrl+Return")
    told.facts["kept"] = [(i.task, i.months, i.use, i.a_day) for i in _record(told).intervals]
    told.facts["every"] = _cells("Intervals", "filters")
    yield from doors.section("Upkeep")
    told.facts["by the day"] = _cells("Upkeep", "filters")
    yield from doors.section("Service and bypasses")
    yield from _read_the_meter(told)
    yield from doors.section("Upkeep")
    told.facts["by the meter"] = _cells("Upkeep", "filters")
    told.note("gallons")


def _read_the_meter(told):
    """The cartridge of 2022 was changed at 100 gal; today the meter shows 350."""
    for kind, day, shown in (("new cartridge", "2022-02-22", "100 gal"), ("meter read", "", "")):
        yield from hand.push("Add")
        yield from hand.click(_led_to("What was done").lineEdit())
        yield from hand.press("Ctrl+A")
        yield from hand.write(kind)
        yield from hand.press("Tab")
        yield from hand.write(day or date.today().isoformat())
        yield from hand.click(_led_to("Meter"))
        yield from hand.write(shown)
        yield from hand.press("Ctrl+Return")
    told.facts["no figure"] = hand.dialog().bar.text
    yield from hand.write("350 gal")
    yield from hand.press("Ctrl+Return")
    told.facts["read"] = [(one.kind, one.meter) for one in _record(told).services if one.meter]


def _led_to(text):
    """The field that a label leads to."""
    return next(
        w.buddy()
        for w in hand.visible(QLabel)
        if w.buddy() and hand.plain(w.text()) == hand.plain(text)
    )


def _table(name):
    return next(w for w in hand.visible(QTableView) if w.accessibleName() == name)


def _cells(table, start):
    """The cells of the row whose first one ends so."""
    model = _table(table).model()
    rows = [[model.index(n, m).data() for m in range(2)] for n in range(model.rowCount())]
    return next(row for row in rows if row[0].endswith(start))
