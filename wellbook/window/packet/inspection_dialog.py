"""What a packet says: its checks, the code to compare, and how much is in it."""

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QProgressBar,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from wellbook.book import Book
from wellbook.packet.receive.inspection import Inspection
from wellbook.packet.receive.verify import Check, Outcome
from wellbook.support.translation import _
from wellbook.window.common.jobs import Job, Tell
from wellbook.window.common.theme import em, inks_of
from wellbook.window.packet.inspection_jobs import (
    MARKS,
    Looked,
    compare,
    content_words,
    look_over,
    verdict_words,
)
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import SUBTITLE, VerdictLine, named, words
from wellbook.window.widgets.verdict_icons import mark

_WIDTH, _HEIGHT = 46, 32  # in em, if the screen has room
_MOST = 200  # checks that are shown; a packet that is whole has a dozen


class LookOverDialog(Dialog):
    """Reads and checks a packet on another thread, then shows what came of it.

    A dialog with a way on adds a button for it; see `way_words` and `go_on`.
    """

    def __init__(self, path: Path, into: Book | None, parent: QWidget) -> None:
        super().__init__(_("What the packet says"), parent, width=_WIDTH)
        self.path = path
        self.looked: Looked | None = None
        self._is_left = False
        self.told = words()
        self.progress = QProgressBar()
        self.progress.setAccessibleName(_("Progress"))
        self.progress.setRange(0, 0)
        self.verdict = VerdictLine()
        self.code = words(factor=SUBTITLE, bold=True)
        self.code_told = QLineEdit()
        self.compare_button = QPushButton(_("&Compare"))
        self.content = words()
        self.new = words(bold=True)
        self.checks = QListWidget()
        self.page = QWidget()
        self.buttons = QDialogButtonBox()
        self.job = Job(self)
        self._lay_out()
        said = _("Reading and checking {name} …").format(name=path.name)
        self.run(said, partial(look_over, path, into), self._on_looked)

    def way_words(self) -> str:
        """The button that leads on; empty if there is none."""
        return ""

    def go_on(self) -> None:
        """What the button does."""

    def _lay_out(self) -> None:
        for widget in (self.told, self.progress):
            self.rows.addWidget(widget)
        self._fill_page()
        self.rows.addWidget(self.page, 1)
        self.rows.addStretch(0)
        self.way = self.buttons.addButton(self.way_words(), QDialogButtonBox.ButtonRole.ActionRole)
        self.way.clicked.connect(self.go_on)
        self.close_button = self.buttons.addButton("", QDialogButtonBox.ButtonRole.RejectRole)
        self.buttons.rejected.connect(self.reject)
        self.foot.addWidget(self.buttons)

    def _fill_page(self) -> None:
        self.code.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._about_code = words(
            _(
                "Telephone the household and have them read out the code on the first page of the "
                "packet they made: if it is another one, this is not their packet."
            ),
            quiet=True,
        )
        self.checks.setAccessibleName(_("What was looked at"))
        self.checks.setWordWrap(True)
        self.checks.setSelectionMode(QListWidget.SelectionMode.NoSelection)
        self.checks.setAlternatingRowColors(True)
        self.checks.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.checks.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.checks.setMinimumHeight(em(self) * 4)
        self.page_rows = rows = QVBoxLayout(self.page)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(em(self) // 2)
        for widget in (self.verdict, self.content, self.new, self.code, self._about_code):
            rows.addWidget(widget)
        self._comparing = QWidget()
        line = QHBoxLayout(self._comparing)
        line.setContentsMargins(0, 0, 0, 0)
        label = named(_("The code that the household &told you"), self.code_told)
        for part in (label, self.code_told, self.compare_button):
            line.addWidget(part)
        self.compare_button.clicked.connect(self.compare)
        rows.addWidget(self._comparing)
        rows.addWidget(self.checks, 1)

    def run(
        self, said: str, work: Callable[[Tell], object], on_done: Callable[..., object]
    ) -> None:
        """Do something on another thread; it can be stopped."""
        self.bar.clear()
        self.job = Job(self)
        self.job.done.connect(partial(self._on_done, on_done))
        self.job.failed.connect(self._on_failed)
        self.job.cancelled.connect(self._on_cancelled)
        self.job.start(work)
        self._show_state(said)

    def _on_done(self, on_done: Callable[..., object], found: object) -> None:
        if not self._is_left:
            on_done(found)

    def _on_looked(self, looked: Looked) -> None:
        self.looked = looked
        self.show_looked(looked)
        self._show_state()
        self.checks.setFocus()
        QAccessible.updateAccessibility(QAccessibleEvent(self.verdict, QAccessible.Event.Alert))

    def show_looked(self, looked: Looked) -> None:
        """Show what came of it."""
        inspected = looked.inspected
        sound = Outcome.HOLDS if inspected.is_compared else Outcome.AGREES
        outcome = Outcome.FAILS if inspected.is_changed else sound
        self.verdict.say(MARKS[outcome], verdict_words(inspected))
        self.verdict.setAccessibleName(self.verdict.text)
        self.content.setText(content_words(inspected))
        self.new.hide()
        self._show_code(inspected)
        self._list(inspected.checks)

    def _show_code(self, inspected: Inspection) -> None:
        said = _("Check code {code}").format(code=inspected.code)
        self.code.setText("" if inspected.is_changed else said)
        for label in (self.code, self._about_code):
            label.setVisible(not inspected.is_changed)
        # A wrong code may be a slip: it can be typed again.
        self._comparing.setVisible(not inspected.is_changed or bool(inspected.packet.told))

    def compare(self) -> None:
        """Compare the code that was told with that of the file."""
        if self.looked is not None:
            said = _("Comparing the code …")
            self.run(said, partial(compare, self.looked, self.code_told.text()), self._on_looked)

    def _list(self, found: Sequence[Check]) -> None:
        self.checks.clear()
        side, inks = em(self), inks_of(self.palette())
        ranked = sorted(found, key=lambda one: one.outcome is not Outcome.FAILS)
        for one in ranked[:_MOST]:
            verdict = MARKS[one.outcome]
            icon = mark(verdict, side, inks.verdicts[verdict], inks.on_accent)
            self.checks.addItem(QListWidgetItem(icon, one.said))
        if len(ranked) > _MOST:
            said = _("And {count} more.")
            self.checks.addItem(said.format(count=len(ranked) - _MOST))
        self.checks.setCurrentRow(0)

    def _on_failed(self, sentence: str) -> None:
        if self._is_left:
            return
        self._show_state()
        self.bar.say(sentence)

    def _on_cancelled(self) -> None:
        if self._is_left:
            return
        if self.looked is None:  # nothing to show
            super().reject()
            return
        self._show_state()
        self.bar.say(_("Stopped: nothing was changed."))

    def _show_state(self, under_way: str = "") -> None:
        looked = self.looked
        self.told.setText(under_way)
        for widget in (self.told, self.progress):
            widget.setVisible(bool(under_way))
        self.page.setVisible(looked is not None)
        self.page.setEnabled(not under_way)
        can_go = looked is not None and self.has_way(looked)
        self.way.setVisible(can_go)
        self.way.setEnabled(can_go and not under_way)
        self.close_button.setEnabled(True)
        self.close_button.setText(_("&Stop") if under_way else _("Clo&se"))
        self.wanted = (_WIDTH, 0 if self.page.isHidden() else _HEIGHT)
        self.fit()

    def has_way(self, looked: Looked) -> bool:
        """Whether there is a way on."""
        return bool(self.way_words()) and not looked.inspected.is_changed

    def leave(self) -> None:
        """Close at once; work under way is asked to stop, and what comes of it is not heeded."""
        self._is_left = True
        self.job.cancel()
        super().reject()

    def reject(self) -> None:
        """Stop the work if it is under way, else close."""
        if not self.job.running:
            super().reject()
            return
        self.job.cancel()
        self.close_button.setEnabled(False)
        self.told.setText(_("Stopping …"))
