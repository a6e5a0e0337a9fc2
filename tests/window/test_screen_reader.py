"""Every page and dialog as a screen reader is told of it: names, roles and room for a finger."""

import importlib
import pkgutil

import pytest
from PySide6.QtWidgets import QApplication, QDialog
from screen_reader import read

import wellbook.window
from wellbook.window.widgets.entry_dialog import Dialog

NOTHING = {"NoRole", "Client", "Pane"}  # roles that tell nobody what to do
PRESSED = {"PushButton", "CheckBox", "RadioButton", "ComboBox", "ButtonMenu", "Button"}
SHEETS = "Sheets of"  # of a print preview: Qt's own view, which has no role
LEAST = 24  # CSS pixels, WCAG 2.2, 2.5.8
PAGES = ("overview", "tests", "events", "well", "limits", "changes", "parameter")
DIALOGS = (
    "add_by_hand",
    "lab_called",
    "add_event",
    "inspect_well",
    "add_point",
    "household",
    "next_round",
    "export_packet",
    "show_copies",
    "settings",
    "print_preview",
    "show_help",
    "show_keys",
    "about",
)


def heard(window):
    QApplication.processEvents()
    return [one for one in read(window) if one.takes_focus and one.can_act]


def faults(window):
    found = heard(window)
    assert found
    for one in found:
        if not one.name:
            yield f"no name: {one}"
        if one.role in NOTHING and not one.name.startswith(SHEETS):
            yield f"no role: {one}"
        yield from (f"no name: the field of {one}" for field in one.fields if not field)
        small = min(one.place.width(), one.place.height()) < LEAST
        if one.role in PRESSED and small and not one.place.isEmpty():
            yield f"{one.place.width()} x {one.place.height()}: {one}"


def told_of(found):
    return "\n".join(f"{where}: {line.strip()}" for where, lines in found.items() for line in lines)


def test_what_takes_the_focus_on_a_page_has_a_name_a_role_and_24_pixels(opened):
    told = {}
    for page in PAGES:
        opened.do("next_parameter" if page == "parameter" else f"go_{page}")
        told[page] = [*faults(opened.view.at(page)), *faults(opened.view.head)]
    assert told_of(told) == ""


def test_what_takes_the_focus_in_a_dialog_has_a_name_a_role_and_24_pixels(opened):
    told = {}
    for key in DIALOGS:
        opened.do(key)
        QApplication.processEvents()
        dialog = next(d for d in opened.findChildren(QDialog) if d.isVisible())
        told[key] = list(faults(dialog))
        assert isinstance(dialog, Dialog), key
        assert dialog.parent() is not None
        dialog.reject()
    assert told_of(told) == ""


def test_every_dialog_of_ours_stands_on_the_one_base():
    names = [
        one.name for one in pkgutil.walk_packages(wellbook.window.__path__, "wellbook.window.")
    ]
    modules = [importlib.import_module(name) for name in names]
    found = {
        kind
        for module in modules
        for kind in vars(module).values()
        if isinstance(kind, type) and issubclass(kind, QDialog) and kind.__module__ in names
    }
    assert len(found) > 20
    assert [kind for kind in found if not issubclass(kind, Dialog)] == []


@pytest.mark.usefixtures("qapp")
def test_a_thousand_readings_of_every_key_end_no_process():
    """Each key is a value of Qt's own; that it is kept and let go of often must do no harm."""
    from wellbook.window.app.menus.menu_bar import menus

    for _ in range(200):
        shown = [action for _title, actions in menus() for action in actions]
        said = [key.toString() for action in shown for key in action.all_keys()]
    assert "Ctrl+Z" in said
