"""The menu View: pages, and how large they are."""

from wellbook.support.translation import _
from wellbook.window.app.book_pages import Page
from wellbook.window.app.menus.parts import Key, in_book, to
from wellbook.window.common.actions import Action, Needs


def actions() -> tuple[Action, ...]:
    """Its actions, in the person's language."""
    return (
        Action(
            "go_overview",
            _("&Overview"),
            _("What is due, and where every parameter stands."),
            "Alt+1",
            Needs.BOOK,
            to(Page.OVERVIEW),
        ),
        Action(
            "go_tests",
            _("&Tests"),
            _("Every test with its readings and documents."),
            "Alt+2",
            Needs.BOOK,
            to(Page.TESTS),
        ),
        Action(
            "go_events",
            _("&Events"),
            _("What happened to the well."),
            "Alt+3",
            Needs.BOOK,
            to(Page.EVENTS),
        ),
        Action(
            "go_well",
            _("The &well"),
            _("Its log, points, treatment, labs, plans and documents."),
            "Alt+4",
            Needs.BOOK,
            to(Page.WELL),
        ),
        Action(
            "go_limits",
            _("&Limits"),
            _("Every limit with its days, its source and how it moved."),
            "Alt+5",
            Needs.BOOK,
            to(Page.LIMITS),
        ),
        Action(
            "go_changes",
            _("What &changed"),
            _("Every entry of the book between two days."),
            "Alt+0",
            Needs.BOOK,
            to(Page.CHANGES),
        ),
        Action(
            "next_page",
            _("Ne&xt page"),
            _("Show the page that follows in the row of pages."),
            "Ctrl+Tab",
            Needs.BOOK,
            in_book(lambda view: view.go_by(1)),
            begins_group=True,
        ),
        Action(
            "previous_page",
            _("Pre&vious page"),
            _("Show the page that stands before in the row of pages."),
            "Ctrl+Shift+Tab",
            Needs.BOOK,
            in_book(lambda view: view.go_by(-1)),
        ),
        Action(
            "go_back",
            _("&Back"),
            _("Go back to the page before."),
            "Alt+Left",
            Needs.BOOK,
            in_book(lambda view: view.back()),
        ),
        Action(
            "next_parameter",
            _("&Next parameter"),
            _("Show the parameter that follows on the overview."),
            "Ctrl+Down",
            Needs.BOOK,
            in_book(lambda view: view.step(1)),
        ),
        Action(
            "previous_parameter",
            _("&Previous parameter"),
            _("Show the parameter that stands before on the overview."),
            "Ctrl+Up",
            Needs.BOOK,
            in_book(lambda view: view.step(-1)),
        ),
        Action(
            "zoom_in",
            _("Zoom &in"),
            _("Make text, tables and charts larger."),
            Key.ZoomIn,
            Needs.NOTHING,
            lambda frame: frame.appearance.zoom(1),
            also=("Ctrl+=",),
            begins_group=True,
        ),
        Action(
            "zoom_out",
            _("Zoom o&ut"),
            _("Make text, tables and charts smaller."),
            Key.ZoomOut,
            Needs.NOTHING,
            lambda frame: frame.appearance.zoom(-1),
        ),
        Action(
            "actual_size",
            _("&Actual size"),
            _("Give text the size that the system is set to."),
            "Ctrl+0",
            Needs.NOTHING,
            lambda frame: frame.appearance.zoom(0),
        ),
        Action(
            "full_screen",
            _("&Full screen"),
            _("Let the window take the whole screen, or give it back."),
            "F11",
            Needs.NOTHING,
            lambda frame: frame.appearance.full_screen(),
        ),
        Action(
            "reload",
            _("&Reload"),
            _("Read the book anew."),
            "F5",
            Needs.BOOK,
            in_book(lambda view: view.refresh()),
        ),
    )
