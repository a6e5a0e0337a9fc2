"""The start page: the books that were open last, the ways to another one, invented households."""

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QListWidget, QListWidgetItem, QPushButton, QWidget

from wellbook.support.translation import _
from wellbook.window.common.choosing import documents_folder
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import SUBTITLE, TITLE, LongPage, rule, words

_LINE = 1.75  # ems that a line of a list is high
_STORED = Qt.ItemDataRole.UserRole


class FirstPage(LongPage):
    """Where a person starts.

    Signals:
        wanted: The key of an action was asked for.
        book_wanted: A book that was open before was chosen; carries its path.
        sample_wanted: An invented household was chosen; carries its name.
        test_to_type: A first test is to be typed into a new book.
        test_to_read: A first test is to be read from a lab's file into a new book.
    """

    wanted = Signal(str)
    book_wanted = Signal(Path)
    sample_wanted = Signal(str)
    test_to_type = Signal()
    test_to_read = Signal()

    def __init__(
        self,
        samples: Mapping[str, str],
        preferences: Preferences,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent, width=60)
        margin = em(self) * 4
        self.rows.setContentsMargins(margin, margin // 2, margin, margin // 2)
        self.add(
            words(_("A book for your well"), factor=TITLE, bold=True),
            words(
                _(
                    "Keep every water test of a private well in one file: enter what the lab "
                    "reported, see each parameter over the years and seasons beside published "
                    "limits, know when to test again, and hand the history on."
                )
            ),
        )
        self.rows.addLayout(self._buttons())
        self.rows.addSpacing(margin // 8)
        self.add(words(_("Your first test"), factor=SUBTITLE, bold=True))
        self.rows.addLayout(self._first_test())
        self.add(
            words(
                _(
                    "Or drop something on this window: a book, a packet, a lab’s file, a report as "
                    "PDF or photo, or a whole folder of them."
                ),
                quiet=True,
            )
        )
        self._recent = _choices(_("Books that were open last"))
        self._samples = _choices(_("Invented households"))
        self._add_recent(preferences.recent_books)
        if samples:
            self._add_samples(samples)
        self.rows.addStretch(1)
        self.add(
            rule(),
            words(
                _(
                    "Wellbook shows how results stand to published limits. It can’t say that water "
                    "is safe to drink: ask your health department or a certified lab. What you "
                    "enter stays in your file on this computer."
                ),
                quiet=True,
            ),
        )

    def _buttons(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(0, em(self), 0, 0)
        for key, text in (
            ("new_book", _("Start a new book…")),
            ("open_book", _("Open a book…")),
            ("go_on_packet", _("New book from a packet…")),
            ("show_help", _("First steps")),
        ):
            button = QPushButton(text)
            button.clicked.connect(lambda _unused=False, key=key: self.wanted.emit(key))
            row.addWidget(button)
        row.addStretch(1)
        return row

    def _first_test(self) -> QHBoxLayout:
        row = QHBoxLayout()
        for text, wanted in (
            (_("Type in a paper report…"), self.test_to_type),
            (_("From a lab’s file…"), self.test_to_read),
        ):
            button = QPushButton(text)
            button.clicked.connect(wanted)
            row.addWidget(button)
        said = _("A book is made for it in {folder}.").format(folder=documents_folder())
        row.addSpacing(em(self) // 2)
        row.addWidget(words(said, quiet=True), 1)
        return row

    def _add_recent(self, books: tuple[Path, ...]) -> None:
        if not books:
            return
        self.add(words(_("Open again"), factor=SUBTITLE, bold=True))
        for path in books:
            item = QListWidgetItem(
                _("{book}, in {folder}").format(book=path.stem, folder=path.parent)
            )
            item.setToolTip(str(path))
            item.setData(_STORED, str(path))
            self._recent.addItem(item)
        self._recent.itemActivated.connect(self._on_book)
        button = QPushButton(_("Open this book"))
        button.clicked.connect(lambda: self._on_book(self._recent.currentItem()))
        self._add_list(self._recent, button)

    def _add_samples(self, samples: Mapping[str, str]) -> None:
        self.add(
            words(_("Look around first"), factor=SUBTITLE, bold=True),
            words(
                _("These households are invented. You get a copy to change as you like."),
                quiet=True,
            ),
        )
        for name, about in samples.items():
            item = QListWidgetItem(f"{name.replace('-', ' ').title()}: {about}")
            item.setData(_STORED, name)
            self._samples.addItem(item)
        self._samples.itemActivated.connect(self._on_sample)
        button = QPushButton(_("Copy and open…"))
        button.clicked.connect(lambda: self._on_sample(self._samples.currentItem()))
        self._add_list(self._samples, button)

    def _add_list(self, found: QListWidget, button: QPushButton) -> None:
        """Set a list as high as its lines, and below it what is done with the chosen one."""
        found.setCurrentRow(0)
        for place in range(found.count()):
            found.item(place).setSizeHint(QSize(0, round(em(self) * _LINE)))
        found.setSpacing(em(self) // 4)
        found.setFixedHeight(round(em(self) * (2.2 * found.count() + 0.5)))
        row = QHBoxLayout()
        row.addWidget(button)
        row.addStretch(1)
        self.add(found)
        self.rows.addLayout(row)

    def _on_book(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.book_wanted.emit(Path(item.data(_STORED)))

    def _on_sample(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.sample_wanted.emit(item.data(_STORED))


def _choices(name: str) -> QListWidget:
    made = QListWidget()
    made.setAccessibleName(name)
    made.setWordWrap(True)
    made.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return made
