"""The menu Help: first steps, words, keys, and what this program is."""

from typing import TYPE_CHECKING

from wellbook.support.translation import _
from wellbook.window.app.menus.parts import Key
from wellbook.window.common.actions import Action, Needs

if TYPE_CHECKING:
    from wellbook.window.app.main_window import Frame


def _show_help(frame: "Frame") -> None:
    """Show the first steps and what each word means."""
    from wellbook.window.dialogs.help.help_dialog import HelpDialog

    HelpDialog(frame).open()


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "show_help",
            _("&First steps and words"),
            _("How to begin, and what each word means."),
            Key.HelpContents,
            Needs.NOTHING,
            _show_help,
        ),
        Action(
            "show_keys",
            _("&Keys and marks"),
            _("Every key, and what the marks mean."),
            "Ctrl+F1",
            Needs.NOTHING,
            lambda frame: frame.show_keys(),
        ),
        Action(
            "about",
            _("&About Wellbook"),
            _("Version, licences, and where everything lies."),
            "",
            Needs.NOTHING,
            lambda frame: frame.show_about(),
            begins_group=True,
        ),
    )
