"""The menu Edit: taking back, copying, finding, settings."""

from wellbook.support.translation import _
from wellbook.window.app.menus import editing
from wellbook.window.app.menus.parts import Key, in_book
from wellbook.window.common.actions import Action, Needs


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "undo",
            _("&Undo"),
            _("Undo what was written last; the journal keeps both."),
            Key.Undo,
            Needs.WRITING,
            in_book(lambda view: view.book_actions.taking_back.undo()),
        ),
        Action(
            "redo",
            _("&Redo"),
            _("Redo what was undone last."),
            Key.Redo,
            Needs.WRITING,
            in_book(lambda view: view.book_actions.taking_back.redo()),
            also=("Ctrl+Shift+Z", "Ctrl+Y"),
        ),
        Action(
            "copy",
            _("&Copy"),
            _("Copy what is chosen: words, rows of a table, or a chart."),
            Key.Copy,
            Needs.NOTHING,
            lambda _frame: editing.copy(),
            begins_group=True,
        ),
        Action(
            "copy_with_head",
            _("Copy with &heading"),
            _("Copy the chosen rows of a table with the head of its columns."),
            "Ctrl+Shift+C",
            Needs.NOTHING,
            lambda _frame: editing.copy_with_head(),
        ),
        Action(
            "paste_here",
            _("&Paste"),
            _("Paste into a field; on a page, read a copied table as a test."),
            Key.Paste,
            Needs.BOOK,
            editing.paste,
        ),
        Action(
            "select_all",
            _("Select &all"),
            _("Choose all rows of a table, or all words of a field."),
            Key.SelectAll,
            Needs.NOTHING,
            lambda _frame: editing.select_all(),
        ),
        Action(
            "find",
            _("&Find"),
            _("Go to the field that narrows the list of this page down."),
            Key.Find,
            Needs.BOOK,
            in_book(lambda view: view.find_in_list()),
            begins_group=True,
        ),
        Action(
            "settings",
            _("&Settings…"),
            _("Choose light or dark and the language of the window."),
            "Ctrl+,",
            Needs.NOTHING,
            lambda frame: frame.show_settings(),
            begins_group=True,
        ),
    )
