"""Everything that can be done from a menu or a key, in one table, and the menus made from it.

Shortcuts, buttons and the page of keys come from the same table, in the language of now.
"""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar

from wellbook.support.translation import _
from wellbook.window.app.book_pages import Page
from wellbook.window.common.actions import Action, Needs

if TYPE_CHECKING:
    from wellbook.window.app.book_view import BookView
    from wellbook.window.app.main_window import Frame

Key = QKeySequence.StandardKey


def _in_book(run: "Callable[[BookView], object]") -> "Callable[[Frame], object]":
    """What is done in the book that is open; nothing where none is."""
    return lambda window: run(window.view) if window.view is not None else None


def _to(page: Page) -> "Callable[[Frame], object]":
    return _in_book(lambda view: view.go(page))


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
            Needs.NOTHING,
            lambda window: window.new_book(),
        ),
        Action(
            "open_book",
            _("&Open a book…"),
            _("Open a book that is on this computer."),
            Key.Open,
            Needs.NOTHING,
            lambda window: window.choose_book(),
        ),
        Action(
            "go_on_packet",
            _("&Go on from a packet…"),
            _("Make a book from the packet that came with a house."),
            "Ctrl+G",
            Needs.NOTHING,
            lambda window: window.reception.go_on(window.reception.choose()),
        ),
        Action(
            "close_book",
            _("&Close the book"),
            _("Close the book and go to the first page."),
            Key.Close,
            Needs.BOOK,
            lambda window: window.close_book(),
        ),
        Action(
            "undo",
            _("&Take back the last entry"),
            _("Undo what was written last; the journal keeps both."),
            Key.Undo,
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.taking_back.undo()),
        ),
        Action(
            "redo",
            _("&Enter it again"),
            _("Redo what was taken back last."),
            "Ctrl+Shift+Z",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.taking_back.redo()),
        ),
        Action(
            "show_copies",
            _("Co&pies of this book…"),
            _("Put a copy on a stick, or go back to an earlier one."),
            "Ctrl+B",
            Needs.BOOK,
            lambda window: window.show_own_copies(),
        ),
        Action(
            "check_book",
            _("Loo&k the book over"),
            _("Check that the file is whole and no fact was altered."),
            "Ctrl+K",
            Needs.BOOK,
            _in_book(lambda view: view.keeper.check()),
        ),
        Action(
            "settings",
            _("&Settings…"),
            _("Choose light or dark and the language of the window."),
            "Ctrl+,",
            Needs.NOTHING,
            lambda window: window.show_settings(),
        ),
        Action(
            "household",
            _("The &household…"),
            _("Say where the well lies and who drinks; choose limit sets, seasons and paper."),
            "Ctrl+Shift+,",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.show_household()),
        ),
        Action(
            "leave",
            _("&Quit"),
            _("Close the window."),
            "Ctrl+Q",
            Needs.NOTHING,
            lambda window: window.close(),
        ),
    )


def _enter() -> tuple[Action, ...]:
    return (
        Action(
            "add_file",
            _("A test from the lab's &file…"),
            _("Read a file from the lab, look it over, then keep it."),
            "Ctrl+L",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.add_file()),
        ),
        Action(
            "paste",
            _("A test from a &copied table"),
            _("Read a table copied from the lab’s page or a spreadsheet."),
            Key.Paste,
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.paste()),
        ),
        Action(
            "add_by_hand",
            _("A test by &hand…"),
            _("Type a test from a paper report."),
            "Ctrl+T",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.add_by_hand()),
        ),
        Action(
            "lab_called",
            _("What the lab told by te&lephone…"),
            _("Bacteria that a lab tells of before its report: they count at once."),
            "Ctrl+Shift+T",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.lab_called()),
        ),
        Action(
            "add_event",
            _("An &event…"),
            _("Note a flood, a repair, a disinfection and the like."),
            "Ctrl+E",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.add_event()),
        ),
        Action(
            "inspect_well",
            _("A look at the &wellhead…"),
            _("Go through the checklist of wellhead and surroundings, with photos."),
            "Ctrl+Shift+I",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.inspect_well(view.well)),
        ),
        Action(
            "add_point",
            _("A sampling &point…"),
            _("Name a place where samples are drawn."),
            "Ctrl+P",
            Needs.WRITING,
            _in_book(lambda view: view.book_actions.add_point()),
        ),
    )


def _pages() -> tuple[Action, ...]:
    return (
        Action(
            "go_overview",
            _("&Overview"),
            _("What is due, and where every parameter stands."),
            "Alt+1",
            Needs.BOOK,
            _to(Page.OVERVIEW),
        ),
        Action(
            "go_tests",
            _("&Tests"),
            _("Every test with its readings and documents."),
            "Alt+2",
            Needs.BOOK,
            _to(Page.TESTS),
        ),
        Action(
            "go_events",
            _("&Events"),
            _("What happened to the well."),
            "Alt+3",
            Needs.BOOK,
            _to(Page.EVENTS),
        ),
        Action(
            "go_well",
            _("The &well"),
            _("Its log, points, treatment, labs, plans and documents."),
            "Alt+4",
            Needs.BOOK,
            _to(Page.WELL),
        ),
        Action(
            "go_limits",
            _("&Limits"),
            _("Every limit with its days, its source and how it moved."),
            "Alt+5",
            Needs.BOOK,
            _to(Page.LIMITS),
        ),
        Action(
            "go_changes",
            _("What &changed since…"),
            _("Every entry of the book between two days."),
            "Alt+0",
            Needs.BOOK,
            _to(Page.CHANGES),
        ),
        Action(
            "next_round",
            _("The next &round…"),
            _("What to draw next, on which day and hour, and its sheet."),
            "Ctrl+R",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.next_round()),
        ),
        Action(
            "go_back",
            _("&Back"),
            _("Go back to the page before."),
            "Alt+Left",
            Needs.BOOK,
            _in_book(lambda view: view.back()),
        ),
        Action(
            "next_parameter",
            _("&Next parameter"),
            _("Show the parameter that follows on the overview."),
            "Ctrl+Down",
            Needs.BOOK,
            _in_book(lambda view: view.step(1)),
        ),
        Action(
            "previous_parameter",
            _("&Previous parameter"),
            _("Show the parameter that stands before on the overview."),
            "Ctrl+Up",
            Needs.BOOK,
            _in_book(lambda view: view.step(-1)),
        ),
        Action(
            "find",
            _("&Find a parameter"),
            _("Go to the field that narrows the overview down."),
            Key.Find,
            Needs.BOOK,
            _in_book(lambda view: view.find_parameter()),
        ),
    )


def _hand_over() -> tuple[Action, ...]:
    return (
        Action(
            "export_packet",
            _("&History for a buyer or consultant…"),
            _("Write the packet: the whole history as one PDF."),
            "Ctrl+H",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.export_packet()),
        ),
        Action(
            "export_page",
            _("History as a &web page…"),
            _("Write the history as one page for a browser."),
            "Ctrl+Shift+W",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.export_page()),
        ),
        Action(
            "export_letter",
            _("A letter on the &results…"),
            _("Write one page to a doctor, a dealer in water treatment or the health department."),
            "Ctrl+Shift+R",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.export_letter()),
        ),
        Action(
            "export_tables",
            _("Everything as &tables…"),
            _("Write all facts as CSV tables, with the original documents."),
            "Ctrl+Shift+H",
            Needs.BOOK,
            _in_book(lambda view: view.book_actions.export_tables()),
        ),
        Action(
            "look_over_packet",
            _("&Look over a packet…"),
            _(
                "See whether a packet that somebody gave you agrees with itself, and compare its "
                "code."
            ),
            "Ctrl+Shift+L",
            Needs.NOTHING,
            lambda window: window.reception.look_over(window.reception.choose()),
        ),
        Action(
            "take_in_packet",
            _("Take &in a packet…"),
            _("Add to this book what a packet holds and the book does not."),
            "Ctrl+I",
            Needs.WRITING,
            lambda window: window.take_in(window.reception.choose()),
        ),
    )


def _help() -> tuple[Action, ...]:
    return (
        Action(
            "show_keys",
            _("&Keys and words"),
            _("Every key, and what the marks mean."),
            Key.HelpContents,
            Needs.NOTHING,
            lambda window: window.show_keys(),
        ),
    )


def fill(
    bar: QMenuBar, do: Callable[[str], None], before_shown: Callable[[], None]
) -> tuple[list[QMenu], dict[str, tuple[Action, QAction]]]:
    """Put the menus into a bar, in place of those it has.

    Args:
        bar: The bar, which owns them.
        do: Called with the key of the action that was chosen.
        before_shown: Called before a menu is shown.

    Returns:
        The menus; each action, and what stands for it in its menu, by its key.
    """
    for old in bar.actions():
        bar.removeAction(old)
        old.menu().deleteLater()
    filled: list[QMenu] = []
    made: dict[str, tuple[Action, QAction]] = {}
    for title, actions in menus():
        menu = QMenu(title, bar)
        menu.setToolTipsVisible(True)
        for action in actions:
            item = QAction(action.text, menu)
            item.setShortcut(action.keys())
            item.setToolTip(action.help)
            item.triggered.connect(partial(_do, do, action.key))
            made[action.key] = (action, item)
            menu.addAction(item)
        menu.aboutToShow.connect(before_shown)
        bar.addMenu(menu)
        filled.append(menu)
    return filled, made


def _do(do: Callable[[str], None], key: str, _is_checked: bool = False) -> None:  # noqa: FBT001, FBT002  Qt passes it
    do(key)
