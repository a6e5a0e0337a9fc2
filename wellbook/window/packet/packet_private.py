"""What of a packet can tell who people are: personal facts and original reports."""

from collections.abc import Iterable

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QCheckBox, QTreeWidget, QTreeWidgetItem, QVBoxLayout, QWidget

from wellbook.sharing.covered import Hit, hit_words
from wellbook.sharing.field_words import personal_words
from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import words


class PrivatePart(QWidget):
    """Four ticks, none of them set at first and none remembered.

    Personal facts and originals usually go to the same reader, so the tick that attaches files
    follows the first one, in sight, until a person sets it.

    Signals:
        changed: Something was ticked or unticked.
    """

    changed = Signal()

    def __init__(
        self,
        *,
        has_documents: bool,
        offers_documents: bool = True,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._follows = has_documents and offers_documents
        self.personal = QCheckBox(_("&Put in private facts and events"))
        private = _("Private are: {facts}, and events that tell of people.")
        told = words(private.format(facts=", ".join(personal_words())), quiet=True)
        self.attach = QCheckBox(_("A&ttach the lab reports and photos"))
        self.append = QCheckBox(_("Put the pages of PDF &reports at the end of the packet"))
        self.everything = QCheckBox(_("Also those that s&how or may show names"))
        self.note = words(quiet=True)
        self.covered = CoveredWords()
        for tick in (self.attach, self.append, self.everything):
            tick.setEnabled(has_documents)
        self.attach.clicked.connect(self._on_own_choice)
        self.personal.toggled.connect(self._on_personal)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(em(self) // 4)
        for widget in (
            self.personal,
            told,
            self.attach,
            self.append,
            self.everything,
            self.note,
            self.covered,
        ):  # fmt: skip
            column.addWidget(widget)
        for tick in (self.personal, self.attach, self.append, self.everything):
            tick.toggled.connect(self._on_changed)
            tick.setVisible(tick is self.personal or offers_documents)
        self.covered.tree.itemChanged.connect(self._on_changed)
        self.note.setVisible(offers_documents)
        self._has_documents = has_documents
        self._tell()

    @property
    def takes_documents(self) -> bool:
        """Whether originals go along in either way."""
        return self.attach.isChecked() or self.append.isChecked()

    @property
    def takes_all(self) -> bool:
        """Whether originals go along that show or may show names."""
        return self.takes_documents and self.everything.isChecked()

    def show_hits(self, hits: Iterable[Hit]) -> None:
        """Show where private words stand, before anything is written."""
        self.covered.show_hits(hits)
        self._tell()

    def _on_own_choice(self) -> None:
        self._follows = False

    def _on_personal(self, is_ticked: bool) -> None:  # noqa: FBT001  Qt's signal
        if self._follows:
            self.attach.setChecked(is_ticked)

    def _on_changed(self) -> None:
        self._tell()
        self.changed.emit()

    def _tell(self) -> None:
        self.covered.setVisible(self.covered.has_words and not self.personal.isChecked())
        # With personal facts put in, all of them go along anyway.
        self.everything.setEnabled(self.takes_documents and not self.personal.isChecked())
        self.note.setText(self._words())

    def _words(self) -> str:
        if not self._has_documents:
            return _("This book holds no lab reports and no photos.")
        if self.personal.isChecked():
            if self._follows:
                return _(
                    "The lab reports and photos were ticked along with the personal facts: untick "
                    "them if they are to stay with you."
                )
            return _("Reports can show names and addresses of yours.")
        if self.takes_all:
            return _("They go along with whatever names and addresses of yours they show.")
        return _(
            "Reports that show words marked as personal stay behind, and photos and scans, which "
            "can’t be searched for them. The packet says which."
        )


class CoveredWords(QWidget):
    """Private words that stand in the record, each with its places; a ticked one is shown."""

    def __init__(self) -> None:
        super().__init__()
        self.tree = QTreeWidget()
        self.tree.setHeaderHidden(True)
        self.tree.setWordWrap(True)
        self.tree.setAccessibleName(_("Words that are covered"))
        self.tree.setMinimumHeight(em(self) * 7)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        about = _(
            "These words may tell who people are: they are covered wherever they stand. Look at "
            "their places, and tick a word that may be shown."
        )
        rows.addWidget(words(about))
        rows.addWidget(self.tree)
        self.hide()

    @property
    def has_words(self) -> bool:
        """Whether there is any."""
        return self.tree.topLevelItemCount() > 0

    @property
    def shown(self) -> tuple[str, ...]:
        """The words that may be shown."""
        items = [self.tree.topLevelItem(place) for place in range(self.tree.topLevelItemCount())]
        return tuple(
            item.text(0)
            for item in items
            if item is not None and item.checkState(0) is Qt.CheckState.Checked
        )

    def show_hits(self, hits: Iterable[Hit]) -> None:
        """Show the places of each word; what was ticked stays ticked."""
        ticked = set(self.shown)
        silence = QSignalBlocker(self.tree)
        self.tree.clear()
        places: dict[str, list[Hit]] = {}
        for hit in hits:
            for word in hit.words:
                places.setdefault(word, []).append(hit)
        for word, found in sorted(places.items()):
            item = QTreeWidgetItem([word])
            state = Qt.CheckState.Checked if word in ticked else Qt.CheckState.Unchecked
            item.setCheckState(0, state)
            item.addChildren([QTreeWidgetItem([hit_words(hit)]) for hit in found])
            self.tree.addTopLevelItem(item)
            item.setExpanded(True)
        silence.unblock()
