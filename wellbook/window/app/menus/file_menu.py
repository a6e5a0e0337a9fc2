"""The menu File: books, packets, printing and the end."""

from wellbook.support.translation import _
from wellbook.window.app.menus.parts import Key, in_book
from wellbook.window.common.actions import Action, Needs


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "new_book",
            _("&New…"),
            _("Make an empty book for a household."),
            Key.New,
            Needs.NOTHING,
            lambda frame: frame.new_books.ask(),
        ),
        Action(
            "open_book",
            _("&Open…"),
            _("Open a book that is on this computer."),
            Key.Open,
            Needs.NOTHING,
            lambda frame: frame.choose_book(),
        ),
        Action(
            "recent_books",
            _("Open &recent"),
            _("Open one of the books that were open last."),
            "",
            Needs.NOTHING,
            lambda _frame: None,
        ),
        Action(
            "go_on_packet",
            _("New &from a packet…"),
            _("Make a book from the packet that came with a house."),
            "Ctrl+G",
            Needs.NOTHING,
            lambda frame: frame.reception.go_on(frame.reception.choose()),
        ),
        Action(
            "close_book",
            _("&Close"),
            _("Close the book and go to the start page."),
            Key.Close,
            Needs.BOOK,
            lambda frame: frame.close_book(),
        ),
        Action(
            "print",
            _("&Print…"),
            _("Print what the page shows: its table or its chart."),
            Key.Print,
            Needs.BOOK,
            in_book(lambda view: view.printing.print_page()),
            begins_group=True,
        ),
        Action(
            "print_preview",
            _("Print pre&view…"),
            _("See what the page shows as it would be printed."),
            "Ctrl+Shift+P",
            Needs.BOOK,
            in_book(lambda view: view.printing.preview_page()),
        ),
        Action(
            "show_copies",
            _("Cop&ies…"),
            _("Put a copy on a stick, or go back to an earlier one."),
            "Ctrl+B",
            Needs.BOOK,
            lambda frame: frame.copies.show_own(),
            begins_group=True,
        ),
        Action(
            "check_book",
            _("Chec&k the book"),
            _("Check that the file is whole and no fact was altered."),
            "Ctrl+K",
            Needs.BOOK,
            in_book(lambda view: view.keeper.check()),
        ),
        Action(
            "leave",
            _("&Quit"),
            _("Close the window."),
            "Ctrl+Q",
            Needs.NOTHING,
            lambda frame: frame.close(),
            begins_group=True,
        ),
    )
