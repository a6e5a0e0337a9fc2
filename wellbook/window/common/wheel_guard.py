"""The mouse wheel turns a field only while it has the focus; else the page under it scrolls."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox, QWidget


class WheelGuard(QObject):
    """Keeps the wheel from fields that a person only passes over."""

    def watch(self, widget: QWidget) -> None:
        """Guard a widget if the wheel could change what it holds, or give it the focus."""
        if isinstance(widget, QComboBox | QAbstractSpinBox):
            if widget.focusPolicy() is Qt.FocusPolicy.WheelFocus:
                widget.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Hand the wheel on to what lies under a field without the focus."""
        is_passing = event.type() == QEvent.Type.Wheel and not watched.hasFocus()  # type: ignore[attr-defined]
        if is_passing:
            event.ignore()
        return is_passing
