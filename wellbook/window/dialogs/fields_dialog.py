"""A dialog made from a list of fields: for facts that are few words each."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QLineEdit,
    QPlainTextEdit,
    QSpinBox,
    QWidget,
)

from wellbook.window.common.theme import em
from wellbook.window.common.tips import set_tip
from wellbook.window.widgets.entry_dialog import EntryDialog
from wellbook.window.widgets.layouts import named, words

Values = dict[str, str]


@dataclass(frozen=True, slots=True)
class Field:
    """One field.

    Attributes:
        key: What its value is called in what is written.
        label: Its words, with an underlined letter.
        value: What it holds at first; `1` or nothing where it is a `check`.
        kind: `line`, `text` (several lines), `choice`, `open` (a choice or words of one's own),
            `check` or `number`; `head` for words alone, above the fields that follow.
        choices: For a choice: value to words; for an open one the words that are offered.
        hint: What to write in it.
    """

    key: str
    label: str
    value: str = ""
    kind: str = "line"
    choices: Mapping[str, str] = field(default_factory=dict)
    hint: str = ""


class FieldsDialog(EntryDialog):
    """Shows fields and hands their values to what writes them.

    Attributes:
        form: The fields with their labels.
        fields: What is filled in, by key.
    """

    def __init__(
        self,
        titles: tuple[str, str],
        fields: Sequence[Field],
        write: Callable[[Values], str],
        parent: QWidget,
        *,
        intro: str = "",
    ) -> None:
        """Make the dialog.

        Args:
            titles: Its title, and the words of the button that keeps it.
            fields: From top to bottom.
            write: Gets the values, writes them, returns the sentence that says so.
            parent: The window.
            intro: A sentence above the fields.
        """
        super().__init__(*titles, parent, width=42)
        self._write = write
        if intro:
            self.rows.addWidget(words(intro, quiet=True))
        form = self.form = QFormLayout()
        self.fields: dict[str, QWidget] = {}
        for one in fields:
            if one.kind == "head":
                form.addRow(words(one.label, bold=True))
                continue
            widget = _widget(one)
            self.fields[one.key] = widget
            form.addRow("" if one.kind == "check" else named(one.label, widget), widget)
        self.rows.addLayout(form)
        self.finish()
        if self.fields:
            next(iter(self.fields.values())).setFocus()

    def values(self) -> Values:
        """What the fields hold, without spaces around it."""
        return {key: _value(widget) for key, widget in self.fields.items()}

    def keep(self) -> str:
        """Write what was entered."""
        return self._write(self.values())


def _widget(one: Field) -> QWidget:
    made: QWidget
    if one.kind == "text":
        made = QPlainTextEdit(one.value)
        made.setTabChangesFocus(True)
        made.setFixedHeight(em(made) * 4)
        made.setPlaceholderText(one.hint)
    elif one.kind == "check":
        made = QCheckBox(one.label)
        made.setChecked(bool(one.value))
    elif one.kind == "number":
        made = QSpinBox()
        made.setRange(0, 240)
        made.setValue(int(one.value or 0))
    elif one.kind in {"choice", "open"}:
        made = _combo(one)
    else:
        made = QLineEdit(one.value)
        made.setPlaceholderText(one.hint)
    set_tip(made, one.hint)
    return made


def _combo(one: Field) -> QComboBox:
    made = QComboBox()
    made.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    for key, text in one.choices.items():
        made.addItem(text, key)
    made.setEditable(one.kind == "open")
    if one.kind == "open":
        made.setEditText(one.choices.get(one.value, one.value))
    else:
        if one.value not in one.choices:  # kept as it is until another one is chosen
            made.addItem(one.value, one.value)
        made.setCurrentIndex(made.findData(one.value))
    return made


def _value(widget: QWidget) -> str:
    if isinstance(widget, QPlainTextEdit):
        return widget.toPlainText().strip()
    if isinstance(widget, QCheckBox):
        return "1" if widget.isChecked() else ""
    if isinstance(widget, QSpinBox):
        return str(widget.value())
    if isinstance(widget, QComboBox):
        return _chosen(widget)
    return widget.text().strip() if isinstance(widget, QLineEdit) else ""


def _chosen(combo: QComboBox) -> str:
    if not combo.isEditable():
        return str(combo.currentData() or "")
    text = combo.currentText().strip()
    place = combo.findText(text)
    return str(combo.itemData(place)) if place >= 0 else text
