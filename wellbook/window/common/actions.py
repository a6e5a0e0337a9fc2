"""Everything that can be done from a menu or a key, in one table.

Menus, shortcuts, buttons and the page of keys are made from it.
"""

from dataclasses import dataclass

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QKeySequence

translate = QCoreApplication.translate
Key = QKeySequence.StandardKey


@dataclass(frozen=True, slots=True)
class Action:
    """Something that can be done.

    Attributes:
        key: Name of the slot that does it.
        text: Its line in the menu.
        help: One sentence for the page of keys and the status tip.
        shortcut: The key, a standard one where there is one.
        with_book: Whether a book must be open.
        writes: Whether the book must be open for writing.
    """

    key: str
    text: str
    help: str
    shortcut: QKeySequence.StandardKey | str = ""
    with_book: bool = True
    writes: bool = False

    @property
    def plain(self) -> str:
        """Its text without the underlined letter and the dots."""
        return self.text.replace("&", "").removesuffix("…")

    def keys(self) -> QKeySequence:
        """The key it is reached with."""
        return QKeySequence(self.shortcut)


def menus() -> tuple[tuple[str, tuple[Action, ...]], ...]:
    """Every menu with its actions, in the person's language."""
    return (
        (translate("Actions", "&Book"), _book()),
        (translate("Actions", "&Enter"), _enter()),
        (translate("Actions", "&Pages"), _pages()),
        (translate("Actions", "&Hand over"), _hand_over()),
        (translate("Actions", "He&lp"), _help()),
    )


def _book() -> tuple[Action, ...]:
    return (
        Action(
            "new_book",
            translate("Actions", "&New book…"),
            translate("Actions", "Make an empty book for a household."),
            Key.New,
            with_book=False,
        ),
        Action(
            "open_book",
            translate("Actions", "&Open a book…"),
            translate("Actions", "Open a book that is on this computer."),
            Key.Open,
            with_book=False,
        ),
        Action(
            "go_on_packet",
            translate("Actions", "&Go on from a packet…"),
            translate("Actions", "Make a book from the packet that came with a house."),
            "Ctrl+G",
            with_book=False,
        ),
        Action(
            "close_book",
            translate("Actions", "&Close the book"),
            translate("Actions", "Close the book and go to the first page."),
            Key.Close,
        ),
        Action(
            "undo",
            translate("Actions", "&Take back the last entry"),
            translate("Actions", "Undo what was written last; the journal keeps both."),
            Key.Undo,
            writes=True,
        ),
        Action(
            "redo",
            translate("Actions", "&Enter it again"),
            translate("Actions", "Redo what was taken back last."),
            "Ctrl+Shift+Z",
            writes=True,
        ),
        Action(
            "show_copies",
            translate("Actions", "Co&pies of this book…"),
            translate("Actions", "Put a copy on a stick, or go back to an earlier one."),
            "Ctrl+B",
        ),
        Action(
            "check_book",
            translate("Actions", "Loo&k the book over"),
            translate("Actions", "Check that the file is whole and no fact was altered."),
            "Ctrl+K",
        ),
        Action(
            "settings",
            translate("Actions", "&Settings…"),
            translate("Actions", "Choose light or dark, limit sets and seasons."),
            "Ctrl+,",
            with_book=False,
        ),
        Action(
            "leave",
            translate("Actions", "&Quit"),
            translate("Actions", "Close the window."),
            "Ctrl+Q",
            with_book=False,
        ),
    )


def _enter() -> tuple[Action, ...]:
    return (
        Action(
            "add_file",
            translate("Actions", "A test from the lab's &file…"),
            translate("Actions", "Read a file from the lab, look it over, then keep it."),
            "Ctrl+L",
            writes=True,
        ),
        Action(
            "paste",
            translate("Actions", "A test from a &copied table"),
            translate("Actions", "Read a table copied from the lab’s page or a spreadsheet."),
            Key.Paste,
            writes=True,
        ),
        Action(
            "add_by_hand",
            translate("Actions", "A test by &hand…"),
            translate("Actions", "Type a test from a paper report."),
            "Ctrl+T",
            writes=True,
        ),
        Action(
            "add_event",
            translate("Actions", "An &event…"),
            translate("Actions", "Note a flood, a repair, a disinfection and the like."),
            "Ctrl+E",
            writes=True,
        ),
        Action(
            "add_point",
            translate("Actions", "A sampling &point…"),
            translate("Actions", "Name a place where samples are drawn."),
            "Ctrl+P",
            writes=True,
        ),
    )


def _pages() -> tuple[Action, ...]:
    return (
        Action(
            "go_overview",
            translate("Actions", "&Overview"),
            translate("Actions", "What is due, and where every parameter stands."),
            "Alt+1",
        ),
        Action(
            "go_tests",
            translate("Actions", "&Tests"),
            translate("Actions", "Every test with its readings and documents."),
            "Alt+2",
        ),
        Action(
            "go_events",
            translate("Actions", "&Events"),
            translate("Actions", "What happened to the well."),
            "Alt+3",
        ),
        Action(
            "go_well",
            translate("Actions", "The &well"),
            translate("Actions", "Its log, points, treatment, labs, plans and documents."),
            "Alt+4",
        ),
        Action(
            "go_changes",
            translate("Actions", "What &changed since…"),
            translate("Actions", "Every entry of the book between two days."),
            "Alt+0",
        ),
        Action(
            "next_round",
            translate("Actions", "The next &round…"),
            translate("Actions", "What to draw next, on which day and hour, and its sheet."),
            "Ctrl+R",
        ),
        Action(
            "go_back",
            translate("Actions", "&Back"),
            translate("Actions", "Go back to the page before."),
            "Alt+Left",
        ),
        Action(
            "next_parameter",
            translate("Actions", "&Next parameter"),
            translate("Actions", "Show the parameter that follows on the overview."),
            "Ctrl+Down",
        ),
        Action(
            "previous_parameter",
            translate("Actions", "&Previous parameter"),
            translate("Actions", "Show the parameter that stands before on the overview."),
            "Ctrl+Up",
        ),
        Action(
            "find",
            translate("Actions", "&Find a parameter"),
            translate("Actions", "Go to the field that narrows the overview down."),
            Key.Find,
        ),
    )


def _hand_over() -> tuple[Action, ...]:
    return (
        Action(
            "export_packet",
            translate("Actions", "&History for a buyer or consultant…"),
            translate("Actions", "Write the packet: the whole history as one PDF."),
            "Ctrl+H",
        ),
        Action(
            "export_tables",
            translate("Actions", "Everything as &tables…"),
            translate("Actions", "Write all facts as CSV tables, with the original documents."),
            "Ctrl+Shift+H",
        ),
        Action(
            "look_over_packet",
            translate("Actions", "&Look over a packet…"),
            translate("Actions", "See whether a packet that somebody gave you is as it was made."),
            "Ctrl+Shift+L",
            with_book=False,
        ),
        Action(
            "take_in_packet",
            translate("Actions", "Take &in a packet…"),
            translate("Actions", "Add to this book what a packet holds and the book does not."),
            "Ctrl+I",
            writes=True,
        ),
    )


def _help() -> tuple[Action, ...]:
    return (
        Action(
            "show_keys",
            translate("Actions", "&Keys and words"),
            translate("Actions", "Every key, and what the marks mean."),
            Key.HelpContents,
            with_book=False,
        ),
    )
