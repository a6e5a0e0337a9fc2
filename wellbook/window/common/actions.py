"""Everything that can be done from a menu or a key, in one table.

Menus, shortcuts, buttons and the page of keys are made from it.
"""

from dataclasses import dataclass

from PySide6.QtGui import QKeySequence

from wellbook.support.translation import _

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
        (_("&Book"), _book()),
        (_("&Enter"), _enter()),
        (_("&Pages"), _pages()),
        (_("&Hand over"), _hand_over()),
        (_("He&lp"), _help()),
    )


def _book() -> tuple[Action, ...]:
    return (
        Action(
            "new_book",
            _("&New book…"),
            _("Make an empty book for a household."),
            Key.New,
            with_book=False,
        ),
        Action(
            "open_book",
            _("&Open a book…"),
            _("Open a book that is on this computer."),
            Key.Open,
            with_book=False,
        ),
        Action(
            "go_on_packet",
            _("&Go on from a packet…"),
            _("Make a book from the packet that came with a house."),
            "Ctrl+G",
            with_book=False,
        ),
        Action(
            "close_book",
            _("&Close the book"),
            _("Close the book and go to the first page."),
            Key.Close,
        ),
        Action(
            "undo",
            _("&Take back the last entry"),
            _("Undo what was written last; the journal keeps both."),
            Key.Undo,
            writes=True,
        ),
        Action(
            "redo",
            _("&Enter it again"),
            _("Redo what was taken back last."),
            "Ctrl+Shift+Z",
            writes=True,
        ),
        Action(
            "show_copies",
            _("Co&pies of this book…"),
            _("Put a copy on a stick, or go back to an earlier one."),
            "Ctrl+B",
        ),
        Action(
            "check_book",
            _("Loo&k the book over"),
            _("Check that the file is whole and no fact was altered."),
            "Ctrl+K",
        ),
        Action(
            "settings",
            _("&Settings…"),
            _("Choose light or dark, limit sets and seasons."),
            "Ctrl+,",
            with_book=False,
        ),
        Action(
            "leave",
            _("&Quit"),
            _("Close the window."),
            "Ctrl+Q",
            with_book=False,
        ),
    )


def _enter() -> tuple[Action, ...]:
    return (
        Action(
            "add_file",
            _("A test from the lab's &file…"),
            _("Read a file from the lab, look it over, then keep it."),
            "Ctrl+L",
            writes=True,
        ),
        Action(
            "paste",
            _("A test from a &copied table"),
            _("Read a table copied from the lab’s page or a spreadsheet."),
            Key.Paste,
            writes=True,
        ),
        Action(
            "add_by_hand",
            _("A test by &hand…"),
            _("Type a test from a paper report."),
            "Ctrl+T",
            writes=True,
        ),
        Action(
            "add_event",
            _("An &event…"),
            _("Note a flood, a repair, a disinfection and the like."),
            "Ctrl+E",
            writes=True,
        ),
        Action(
            "add_point",
            _("A sampling &point…"),
            _("Name a place where samples are drawn."),
            "Ctrl+P",
            writes=True,
        ),
    )


def _pages() -> tuple[Action, ...]:
    return (
        Action(
            "go_overview",
            _("&Overview"),
            _("What is due, and where every parameter stands."),
            "Alt+1",
        ),
        Action(
            "go_tests",
            _("&Tests"),
            _("Every test with its readings and documents."),
            "Alt+2",
        ),
        Action(
            "go_events",
            _("&Events"),
            _("What happened to the well."),
            "Alt+3",
        ),
        Action(
            "go_well",
            _("The &well"),
            _("Its log, points, treatment, labs, plans and documents."),
            "Alt+4",
        ),
        Action(
            "go_changes",
            _("What &changed since…"),
            _("Every entry of the book between two days."),
            "Alt+0",
        ),
        Action(
            "next_round",
            _("The next &round…"),
            _("What to draw next, on which day and hour, and its sheet."),
            "Ctrl+R",
        ),
        Action(
            "go_back",
            _("&Back"),
            _("Go back to the page before."),
            "Alt+Left",
        ),
        Action(
            "next_parameter",
            _("&Next parameter"),
            _("Show the parameter that follows on the overview."),
            "Ctrl+Down",
        ),
        Action(
            "previous_parameter",
            _("&Previous parameter"),
            _("Show the parameter that stands before on the overview."),
            "Ctrl+Up",
        ),
        Action(
            "find",
            _("&Find a parameter"),
            _("Go to the field that narrows the overview down."),
            Key.Find,
        ),
    )


def _hand_over() -> tuple[Action, ...]:
    return (
        Action(
            "export_packet",
            _("&History for a buyer or consultant…"),
            _("Write the packet: the whole history as one PDF."),
            "Ctrl+H",
        ),
        Action(
            "export_tables",
            _("Everything as &tables…"),
            _("Write all facts as CSV tables, with the original documents."),
            "Ctrl+Shift+H",
        ),
        Action(
            "look_over_packet",
            _("&Look over a packet…"),
            _(
                "See whether a packet that somebody gave you agrees with itself, and compare its "
                "code."
            ),
            "Ctrl+Shift+L",
            with_book=False,
        ),
        Action(
            "take_in_packet",
            _("Take &in a packet…"),
            _("Add to this book what a packet holds and the book does not."),
            "Ctrl+I",
            writes=True,
        ),
    )


def _help() -> tuple[Action, ...]:
    return (
        Action(
            "show_keys",
            _("&Keys and words"),
            _("Every key, and what the marks mean."),
            Key.HelpContents,
            with_book=False,
        ),
    )
