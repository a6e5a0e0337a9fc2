"""Tips for the pointer: whatever a lab or a person wrote is shown as written, never as markup.

Qt guesses from the text whether a tip is rich text, and rich text opens the files it names.
"""

import html

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QListWidgetItem, QWidget


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
