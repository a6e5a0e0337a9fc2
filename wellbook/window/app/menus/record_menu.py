"""The menu Record: what is entered into the book."""

from wellbook.support.translation import _
from wellbook.window.app.menus.parts import in_book
from wellbook.window.common.actions import Action, Needs


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "add_file",
            _("Test from a lab’s &file…"),
            _("Read a file from the lab, look it over, then keep it."),
            "Ctrl+L",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.add_file()),
        ),
        Action(
            "paste",
            _("Test from a &copied table"),
            _("Read a table copied from the lab’s page or a spreadsheet."),
            "Ctrl+Shift+V",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.paste()),
        ),
        Action(
            "add_by_hand",
            _("Test by &hand…"),
            _("Type a test from a paper report."),
            "Ctrl+T",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.add_by_hand()),
        ),
        Action(
            "lab_called",
            _("What the &lab told by telephone…"),
            _("Bacteria that a lab tells of before its report: they count at once."),
            "Ctrl+Shift+T",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.lab_called()),
        ),
        Action(
            "add_event",
            _("&Event…"),
            _("Note a flood, a repair, a disinfection and the like."),
            "Ctrl+E",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.add_event()),
            begins_group=True,
        ),
        Action(
            "inspect_well",
            _("&Wellhead inspection…"),
            _("Go through the checklist of wellhead and surroundings, with photos."),
            "Ctrl+Shift+I",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.inspect_well(view.well)),
        ),
        Action(
            "add_point",
            _("Sampling &point…"),
            _("Name a place where samples are drawn."),
            "Ctrl+Shift+N",
            Needs.WRITING,
            in_book(lambda view: view.book_actions.add_point()),
        ),
        Action(
            "next_round",
            _("Next &round…"),
            _("What to draw next, on which day and hour, and its sheet."),
            "Ctrl+R",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.next_round()),
            begins_group=True,
        ),
        Action(
            "household",
            _("H&ousehold…"),
            _("Say where the well lies and who drinks; choose limit sets, seasons and paper."),
            "Ctrl+Shift+,",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.show_household()),
            begins_group=True,
        ),
    )
