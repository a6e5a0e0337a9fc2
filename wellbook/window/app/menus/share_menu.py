"""The menu Share: what is handed on, and what is taken in."""

from wellbook.support.translation import _
from wellbook.window.app.menus.parts import in_book
from wellbook.window.common.actions import Action, Needs


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "export_packet",
            _("&History for a buyer, lender or consultant…"),
            _("Write the packet: the whole history as one PDF."),
            "Ctrl+H",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.export_packet()),
        ),
        Action(
            "export_page",
            _("History as a &web page…"),
            _("Write the history as one page for a browser."),
            "Ctrl+Shift+W",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.export_page()),
        ),
        Action(
            "export_letter",
            _("A letter on the &results…"),
            _("Write one page to a doctor, a dealer in water treatment or the health department."),
            "Ctrl+Shift+R",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.export_letter()),
        ),
        Action(
            "export_tables",
            _("Everything as &tables…"),
            _("Write all facts as CSV tables, with the original documents."),
            "Ctrl+Shift+H",
            Needs.BOOK,
            in_book(lambda view: view.book_actions.export_tables()),
        ),
        Action(
            "look_over_packet",
            _("&Check a packet…"),
            _(
                "See whether a packet that somebody gave you agrees with itself, and compare its "
                "code."
            ),
            "Ctrl+Shift+L",
            Needs.NOTHING,
            lambda frame: frame.reception.look_over(frame.reception.choose()),
            begins_group=True,
        ),
        Action(
            "take_in_packet",
            _("&Import a packet…"),
            _("Add to this book what a packet holds and the book does not."),
            "Ctrl+I",
            Needs.WRITING,
            lambda frame: frame.take_in(frame.reception.choose()),
        ),
    )
