"""The page without a book: open or make one, go on from a packet, or try an invented household."""

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QListWidget, QListWidgetItem, QPushButton, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import SUBTITLE, TITLE, LongPage, rule, words


class FirstPage(LongPage):
    """Where a person starts.

    Signals:
        wanted: The key of an action was asked for.
        sample_wanted: An invented household was chosen; carries its name.
    """

    wanted = Signal(str)
    sample_wanted = Signal(str)

    def __init__(self, samples: Mapping[str, str], parent: QWidget | None = None) -> None:
        super().__init__(parent, width=60)
        margin = em(self) * 4
        self.rows.setContentsMargins(margin, margin, margin, margin // 2)
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
        self.rows.addSpacing(em(self))
        self._samples = QListWidget()
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
        row.setContentsMargins(0, em(self), 0, em(self))
        for key, text in (
            ("new_book", _("Start a new book…")),
            ("open_book", _("Open a book…")),
            ("go_on_packet", _("Go on from a packet…")),
        ):
            button = QPushButton(text)
            button.clicked.connect(lambda _unused=False, key=key: self.wanted.emit(key))
            row.addWidget(button)
        row.addStretch(1)
        return row

    def _add_samples(self, samples: Mapping[str, str]) -> None:
        self.add(
            words(_("Look around first"), factor=SUBTITLE, bold=True),
            words(
                _("These households are invented. You get a copy to change as you like."),
                quiet=True,
            ),
        )
        self._samples.setAccessibleName(_("Invented households"))
        for name, about in samples.items():
            item = QListWidgetItem(f"{name.replace('-', ' ').title()}: {about}")
            item.setData(Qt.ItemDataRole.UserRole, name)
            self._samples.addItem(item)
        self._samples.setCurrentRow(0)
        self._samples.setWordWrap(True)
        self._samples.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._samples.setSpacing(em(self) // 4)
        self._samples.setFixedHeight(round(em(self) * (1.6 * len(samples) + 1)))
        self._samples.itemActivated.connect(self._on_chosen)
        copy = QPushButton(_("Copy and open…"))
        copy.clicked.connect(lambda: self._on_chosen(self._samples.currentItem()))
        row = QHBoxLayout()
        row.addWidget(copy)
        row.addStretch(1)
        self.add(self._samples)
        self.rows.addLayout(row)

    def _on_chosen(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.sample_wanted.emit(item.data(Qt.ItemDataRole.UserRole))
