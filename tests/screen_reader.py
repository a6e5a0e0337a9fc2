"""What a screen reader is told of a window, asked through the accessibility interface of Qt."""

from dataclasses import dataclass

from PySide6.QtCore import QRect
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QComboBox, QLineEdit, QWidget

DEEPEST = 24
CELLS = 8  # of a table or a list; more of them say nothing new


@dataclass(frozen=True, slots=True)
class Spoken:
    """One thing that is read: what it is, what it is called, whether it takes the focus."""

    role: str
    name: str
    value: str
    takes_focus: bool
    can_act: bool
    place: QRect
    depth: int
    fields: tuple[str, ...] = ()  # names of what is typed into inside of it

    def __str__(self):
        value = f" = {self.value}" if self.value else ""
        return f"{'  ' * self.depth}{self.role}: {self.name or '(no name)'}{value}"


def read(window):
    """Everything visible, in the order in which it is told."""
    found = []
    _read(QAccessible.queryAccessibleInterface(window), found, 0)
    return found


def _place(one):
    """Where it is met: the whole widget, of which a ticked box tells the mark and words alone."""
    widget = one.object()
    return widget.rect() if isinstance(widget, QWidget) else one.rect()


def _fields(widget):
    return widget.findChildren(QLineEdit) if isinstance(widget, QComboBox) else ()


def _read(one, found, depth):
    if one is None or not one.isValid() or depth > DEEPEST:
        return
    state = one.state()
    if state.invisible:
        return
    text = QAccessible.Text
    found.append(
        Spoken(
            one.role().name,
            one.text(text.Name).strip(),
            one.text(text.Value).strip(),
            bool(state.focusable),
            not state.disabled,
            _place(one),
            depth,
            tuple(f.accessibleName() for f in _fields(one.object())),
        )
    )
    if one.role() in {QAccessible.Role.ComboBox, QAccessible.Role.SpinBox}:
        return  # its parts are told with it
    many = one.role() in {QAccessible.Role.Table, QAccessible.Role.List, QAccessible.Role.Tree}
    count = min(one.childCount(), CELLS) if many else one.childCount()
    for number in range(count):
        _read(one.child(number), found, depth + 1)
