"""Tips for the pointer, names for screen readers: what is told of a widget beside its words.

Whatever a lab or a person wrote is shown as written, never as markup.
Qt guesses from the text whether a tip is rich text, and rich text opens the files it names.
"""

import html

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QLabel, QListWidgetItem, QWidget


def tip(text: str) -> str:
    """A text as a tip that shows every letter as it stands; an empty one shows none."""
    return f'<qt><span style="white-space:pre-wrap">{html.escape(text)}</span></qt>' if text else ""


def set_tip(owner: QWidget | QListWidgetItem, text: str) -> None:
    """Give a field or a line of a list its tip; a screen reader gets the plain text."""
    owner.setToolTip(tip(text))
    if isinstance(owner, QListWidgetItem):
        owner.setData(Qt.ItemDataRole.AccessibleDescriptionRole, text)
    elif isinstance(owner, QWidget):
        owner.setAccessibleDescription(text)


def name_inside(box: QComboBox) -> None:
    """Call the field of a list that can be typed into as the list is called: it has the focus."""
    field = box.lineEdit()
    if field is not None:
        labels = box.window().findChildren(QLabel)
        beside = (label.text().replace("&", "") for label in labels if label.buddy() is box)
        field.setAccessibleName(box.accessibleName() or next(beside, ""))
