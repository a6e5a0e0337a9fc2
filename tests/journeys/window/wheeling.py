"""The wheel over every field that does not have the focus."""

import doors
import hand
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox


def value(field):
    return field.currentText() if isinstance(field, QComboBox) else field.text()


def over_every_field(told):
    for name in (*doors.PAGES, *doors.DIALOGS):
        yield from doors.to(name, told)
        for field in [w for kind in (QComboBox, QAbstractSpinBox) for w in hand.visible(kind)]:
            yield from _over(field, name, told)
    yield from hand.leave_dialogs()


def _over(field, name, told):
    what = f"{name}: {hand.label(field)}"
    yield from hand.reach(field)
    while field.hasFocus():  # Tab goes from the day to the month first
        yield from hand.press("Tab")
    before, area = value(field), hand.is_scrolled_by(field)
    for up in (False, True):
        scrolled = area and area.verticalScrollBar().value()
        try:
            yield from hand.turn_wheel(field, up=up)
        except hand.OutOfReachError:  # the first turn took it away, as it should
            break
        told.note(f"{what}, {'up' if up else 'down'}")
        if value(field) != before:
            told.fail(f"{what}: {before} became {value(field)}")
            return
        bar = area and area.verticalScrollBar()
        if bar and bar.value() == scrolled and scrolled not in {bar.minimum(), bar.maximum()}:
            told.fail(f"{what}: what lies round it does not scroll")
