"""The main window: menus, either the start page or an open book, and one line for messages."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QLocale, QSize, Qt, QTimer
from PySide6.QtGui import (
    QCloseEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDropEvent,
    QShowEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QMainWindow,
    QMenu,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from wellbook.book import Book
from wellbook.support import examples
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.app import opening
from wellbook.window.app.appearance import Appearance
from wellbook.window.app.book_view import BookView
from wellbook.window.app.dropped import Drops
from wellbook.window.app.garbage import GuiThreadGc
from wellbook.window.app.incoming_packets import IncomingPackets
from wellbook.window.app.menus.menu_bar import fill
from wellbook.window.app.menus.recent_menu import RecentMenu
from wellbook.window.common.actions import Needs
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.preferences import Place, Preferences
from wellbook.window.common.reference import Reference
from wellbook.window.common.theme import room_on_screen
from wellbook.window.common.tips import tip
from wellbook.window.widgets.entry_dialog import close_dialogs
from wellbook.window.widgets.lists.list_columns import ColumnMemory
from wellbook.window.widgets.message_bar import MessageBar, StatusLine

if TYPE_CHECKING:
    from wellbook.window.pages.first_page import FirstPage


class Frame(QMainWindow):
    """Opens and closes books; what is in a book is the business of its view."""

    def __init__(
        self,
        reference: Reference,
        preferences: Preferences,
        chooser: Chooser,
        households: Callable[[], Mapping[str, str]],
        clock: Callable[[], date] = date.today,
    ) -> None:
        super().__init__()
        self._reference, self._preferences = reference, preferences
        self._chooser, self._clock = chooser, clock
        self._sweeper = GuiThreadGc(self)
        self._marks = opening.OpenMarks()
        self.reception = IncomingPackets(chooser, self)
        self.reception.made.connect(self._on_book_made)
        self.reception.added.connect(self._on_added)
        self.view: BookView | None = None
        self._first_page: FirstPage | None = None
        self.bar = MessageBar()
        self._households = households
        self._stack = QStackedWidget()
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._stack, 1)
        column.addWidget(StatusLine(self.bar))
        self.setCentralWidget(middle)
        self._drops = Drops(self)
        self.new_books = opening.NewBooks(self, chooser)
        self.copies = opening.OwnCopies(self, preferences, chooser, clock)
        ColumnMemory.store = preferences.lists
        self.appearance = Appearance(self, preferences)
        self._fill_menus()
        self.setAcceptDrops(True)
        self.setMinimumSize(640, 400)
        self.resize(QSize(1180, 720).boundedTo(room_on_screen(self).size()))
        if not preferences.geometry.isEmpty():
            self.restoreGeometry(preferences.geometry)
        self._name_window()

    @property
    def first_page(self) -> "FirstPage":
        """The page without a book, made when it is first shown."""
        if self._first_page is None:
            self._first_page = self._make_first_page()
        return self._first_page

    def _make_first_page(self) -> "FirstPage":
        from wellbook.window.pages.first_page import FirstPage

        page = FirstPage(self._households(), self._preferences)
        page.book_wanted.connect(self._open_recent)
        page.wanted.connect(lambda key: self.actions_by_key[key][1].trigger())
        page.test_to_type.connect(lambda: self.bar.attempt(self.new_books.begin_by_hand))
        page.test_to_read.connect(lambda: self.bar.attempt(self.new_books.begin_with_files))
        page.sample_wanted.connect(lambda name: self.bar.attempt(lambda: self._copy_sample(name)))
        self._stack.addWidget(page)
        return page

    def _forget_first_page(self) -> None:
        """Have it made anew when it is shown again: it names books, in a language."""
        if self._first_page is not None:
            self._stack.removeWidget(self._first_page)
            self._first_page.deleteLater()
            self._first_page = None

    def showEvent(self, event: QShowEvent) -> None:
        """Show the first page if there is no book to show."""
        if self.view is None:
            self._stack.setCurrentWidget(self.first_page)
        super().showEvent(event)

    def _fill_menus(self) -> None:
        recent = RecentMenu(self._preferences, self._open_recent, self)
        below = {"recent_books": recent}
        self._menus, self.actions_by_key = fill(self.menuBar(), self.do, self._name_actions, below)

    def _open_recent(self, path: Path) -> None:
        self.bar.clear()
        self.bar.attempt(lambda: self.open_or_mend(path))

    def _name_actions(self) -> None:
        """Have the menu say what it would take back, as the book is now."""
        texts: dict[str, str] = {}
        view = self.view
        if view is not None and not view.household.reader.is_lent:
            self.bar.attempt(lambda: texts.update(view.book_actions.taking_back.menu_texts()))
        for key in ("undo", "redo"):
            action, made = self.actions_by_key[key]
            made.setText(texts.get(key, action.text))

    def do(self, key: str) -> None:
        """Do what an action of the table stands for."""
        action, _unused = self.actions_by_key[key]
        self.bar.clear()
        self.bar.attempt(lambda: action.run(self))

    def open_first(self, path: Path | None) -> None:
        """Open a book if one is given, where it was left; else stay on the start page."""
        if path is None:
            return
        place = self._preferences.place if path == self._preferences.last_book else Place()
        if self.bar.attempt(lambda: self.open_or_mend(path)) and self.view is not None:
            self.view.go_to(place)

    @property
    def recent(self) -> tuple[Path, ...]:
        """The books that were open last, the latest first."""
        return self._preferences.recent_books

    def open_or_mend(self, path: Path) -> None:
        """Open a book; if it is damaged or gone, offer what helps.

        Raises:
            Fault: It can't be opened, and no copy would help.
        """
        try:
            self.open_book(path)
        except Fault as fault:
            if not opening.offer_help(self, path, fault):
                raise

    def open_book(self, path: Path) -> None:
        """Open a book in place of what is shown; for reading only if somebody else has it open.

        Raises:
            Fault: It can't be opened; what was shown stays.
        """
        book, holder = self._marks.open(path)
        if holder is None:
            self.show_book(book, book.why_readonly())
            return
        self.show_book(book, opening.held_words(path, holder))
        if holder.is_elsewhere:
            self.bar.say(
                self.bar.text,
                _("It is closed there: write here"),
                lambda: self._write_here(path),
            )

    def _write_here(self, path: Path) -> None:
        self._marks.take_over(path)
        self.open_book(path)
        self.bar.clear()

    def close_book(self) -> None:
        """Close the book and go to the start page."""
        self.reception.stop()
        if self.view is not None:
            self._let_go(self.view)
            self._preferences.place = Place()
            self._stack.removeWidget(self.view)
            self.view.deleteLater()
            self.view = None
            self._forget_first_page()
            self._stack.setCurrentWidget(self.first_page)
        self._preferences.last_book = None
        self._name_window()

    def _let_go(self, view: BookView) -> None:
        view.close_book()
        self._marks.release(view.household.path)

    def show_book(self, book: Book, why_readonly: str = "") -> None:
        """Show a book that is open in place of what is shown."""
        try:
            view = self._make_view(self._reference.household(book, self._clock, why_readonly))
        except BaseException:
            book.close()
            raise
        self.close_book()
        if not why_readonly:
            self._marks.hold(book.path)  # the view that was closed may have let go of the same book
        self._put(view)
        self._preferences.last_book = book.path
        if why_readonly:
            self.bar.say(why_readonly)
        QTimer.singleShot(0, self._drops.go_on)

    def _make_view(self, household: Household) -> BookView:
        add_menu = QMenu(self)
        add_menu.addActions(
            [self.actions_by_key[key][1] for key in ("add_file", "paste", "add_by_hand")]
        )
        view = BookView(household, self.bar, self._chooser, self._preferences, add_menu)
        view.destroyed.connect(add_menu.deleteLater)
        view.watch.changed.connect(lambda: self._look_again(view))
        view.refresh()
        return view

    def _put(self, view: BookView) -> None:
        self.view = view
        self._stack.addWidget(view)
        self._stack.setCurrentWidget(view)
        self._name_window()

    def choose_book(self) -> None:
        """Open a book that the person points at."""
        path = self._chooser.book_to_open(self)
        if path is not None:
            self.open_or_mend(path)

    def _copy_sample(self, name: str) -> None:
        path = self._chooser.book_to_make(self, f"{name}.wellbook")
        if path is not None:
            examples.copy(name, path)
            self.open_book(path)

    def take_in(self, packet: Path | None) -> None:
        """Offer what a packet can do for what is shown: the first page, or a book."""
        if self.view is None:
            self.reception.go_on(packet)
        elif self.view.household.why_readonly:
            self.reception.look_over(packet)
        else:
            if packet is not None:
                self.view.household.book.ask_before_new()
            self.reception.take_in(packet, self.view.household.book)

    def _on_book_made(self, new: Path, packet: Path) -> None:
        if self.bar.attempt(lambda: self.open_book(new)):
            said = _(
                "{new} was made from {packet}. It is yours to go on with; the packet stays as it "
                "is."
            )
            said = said.format(new=new.name, packet=packet.name)
            self.bar.say(said, _("Who lives there now…"), lambda: self.do("household"))

    def _on_added(self, sentence: str) -> None:
        if self.view is not None:
            self.view.book_actions.say_kept(sentence)

    def show_settings(self) -> None:
        """Show what can be chosen for the window."""
        from wellbook.window.dialogs.settings_dialog import SettingsDialog

        dialog = SettingsDialog(self._preferences, self)
        dialog.kept.connect(lambda _said: self.bar.attempt(self.appearance.settle))
        dialog.open()

    def speak_anew(self) -> None:
        """Say everything in the language of now."""
        self.setLocale(QLocale())  # what it holds takes it over, fields of days too
        self.bar.translate()
        self._fill_menus()
        self.make_anew()

    def make_anew(self) -> None:
        """Make everything that is shown anew, in the same place of the same book."""
        if self.view is not None and self.view.is_keeping(self.make_anew):
            return
        said = self.bar.text
        self._forget_first_page()
        if self.view is None:
            self._stack.setCurrentWidget(self.first_page)
            self._name_window()
            return
        old = self.view
        view = self._make_view(self._reference.worded_anew(old.household))
        view.book_actions.taking_back.opened_at = old.book_actions.taking_back.opened_at
        old.stop()
        self._stack.removeWidget(old)
        old.deleteLater()
        self._put(view)
        view.go_to(old.place)
        if said:
            self.bar.say(said)

    def show_keys(self) -> None:
        """Show every key and what the marks mean."""
        from wellbook.window.dialogs.keys_dialog import KeysDialog

        KeysDialog([action for action, _unused in self.actions_by_key.values()], self).open()

    def show_about(self) -> None:
        """Show version and licences."""
        from wellbook.window.dialogs.help.about_dialog import AboutDialog

        AboutDialog(self._chooser, self).open()

    def _name_window(self) -> None:
        book = self.view.household.book if self.view else None
        self.setWindowTitle(book.path.stem if book else _("Start page"))
        why = self.view.household.why_readonly if self.view else ""
        for action, made in self.actions_by_key.values():
            is_locked = action.needs is Needs.WRITING and bool(why)
            is_there = action.needs is Needs.NOTHING or book is not None
            made.setEnabled(is_there and not is_locked)
            made.setToolTip(tip(why) if is_locked else action.help)

    def changeEvent(self, event: QEvent) -> None:
        """Look whether another program changed the book when this window comes to the front."""
        super().changeEvent(event)
        is_front = event.type() == QEvent.Type.ActivationChange and self.isActiveWindow()
        if is_front and self.view is not None:
            self._look_again(self.view)

    def _look_again(self, view: BookView) -> None:
        """Show what was changed elsewhere; if the file is another one, or gone, say what helps."""
        if self.bar.attempt(view.refresh_if_changed) or view.household.book.is_in_place:
            return
        path = view.household.path
        if path.exists():
            again = _("Open it again")
            self.bar.say(self.bar.text, again, lambda: self.open_or_mend(path))
        else:
            self.bar.say(self.bar.text, _("Its copies…"), self.copies.show_own)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """The wheel with Ctrl changes the size of text."""
        turned = event.angleDelta().y()
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier and turned:
            self.appearance.zoom(1 if turned > 0 else -1)
            event.accept()
        else:
            super().wheelEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files from this computer, unless a dialog waits for its answer."""
        self._drops.enter(event)

    def dragLeaveEvent(self, _event: QDragLeaveEvent) -> None:
        """What was dragged went on elsewhere."""
        self._drops.hint.hide()

    def dropEvent(self, event: QDropEvent) -> None:
        """Read what was dropped."""
        self._drops.fall(event)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Close the dialogs, wait for work that is under way, then close the book."""
        self.reception.stop()
        if (self.view and self.view.is_keeping(self.close)) or not close_dialogs(self):
            event.ignore()
            return
        self._preferences.geometry = self.saveGeometry()
        if self.view is not None:
            self._preferences.place = self.view.place
            self._let_go(self.view)
            self.view = None  # the window may still be told that it came to the front
        self._sweeper.stop()
        super().closeEvent(event)
