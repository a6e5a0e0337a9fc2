"""Handing the history over: for whom, how, what of it, and with which personal facts."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import QPoint, Qt, QTemporaryDir, QThreadPool, QTimer
from PySide6.QtGui import QAccessible, QAccessibleEvent, QPalette
from PySide6.QtWidgets import (
    QDialogButtonBox,
    QProgressBar,
    QPushButton,
    QToolButton,
    QWidget,
)

from wellbook.packet.options import PacketOptions
from wellbook.support.errors import Fault
from wellbook.support.translation import N_, _
from wellbook.window.common.choosing import Chooser
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Job
from wellbook.window.common.preferences import Preferences
from wellbook.window.common.theme import em, enlarge
from wellbook.window.packet.packet_audience import ReaderPart
from wellbook.window.packet.packet_jobs import (
    Counting,
    Seen,
    Writing,
    Written,
    refuse_nothing,
    seen_words,
    write_packet,
    written_words,
)
from wellbook.window.packet.packet_preview import PacketPreview
from wellbook.window.packet.packet_private import PrivatePart
from wellbook.window.packet.packet_scope import ScopePart
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import PrimaryButton, rule, words

_WIDTH = 52  # of the dialog, in ems


class PacketDialog(Dialog):
    """Asks for what the packet needs, writes it on another thread, offers its folder.

    What a web page and a letter have in common with it they inherit.
    """

    title = N_("History for a buyer, lender or consultant")
    about = N_(
        "One PDF with tests, charts, limits and sources. It says how many tests were "
        "struck out, and that it is no statement that the water is safe."
    )
    has_originals = True

    def __init__(
        self,
        household: Household,
        chooser: Chooser,
        preferences: Preferences,
        parent: QWidget,
    ) -> None:
        super().__init__(_(self.title), parent, width=_WIDTH)
        self._household, self._chooser, self._preferences = household, chooser, preferences
        self.reader = ReaderPart(preferences.packet, household)
        self.private = PrivatePart(
            has_documents=bool(household.book.documents()), offers_documents=self.has_originals
        )
        self.fold = QToolButton()
        self.scope = ScopePart(household)
        self.told = words()
        self._printed: QTemporaryDir | None = None
        self.progress = QProgressBar()
        self.progress.setAccessibleName(_("Progress"))
        self.progress.setRange(0, 0)
        self.progress.hide()
        self._lay_out()
        self.job = Job(self)
        self.job.done.connect(self._on_written)
        self.job.failed.connect(self._on_failed)
        self.job.cancelled.connect(self._on_cancelled)
        self.counting = Counting(household, self)
        self.counting.counted.connect(self._on_counted)
        self.counting.failed.connect(self._tell)
        self.reader.closing.textChanged.connect(self.bar.clear)
        self.scope.changed.connect(self._on_scope)
        self.private.changed.connect(self._on_private)
        self.preview: PacketPreview | None = None
        self.reader.changed.connect(self._follow)
        self.scope.changed.connect(self._follow)
        self.private.changed.connect(self._follow)
        self._on_scope()

    def _lay_out(self) -> None:
        self._fill_page()
        self.foot.setSpacing(em(self) // 2)
        for part in (rule(), self.told, self.progress):
            self.foot.addWidget(part)
        self.buttons = QDialogButtonBox()
        self.write_button = PrimaryButton(_("&Write the file…"))
        self.buttons.addButton(self.write_button, QDialogButtonBox.ButtonRole.ActionRole)
        self.pages_button = self.buttons.addButton(
            _("See the pages…"), QDialogButtonBox.ButtonRole.ActionRole
        )
        self.print_button = self.buttons.addButton(
            _("Print…"), QDialogButtonBox.ButtonRole.ActionRole
        )
        self.print_button.clicked.connect(self._on_print)
        self.close_button = self.buttons.addButton(
            _("Clo&se"), QDialogButtonBox.ButtonRole.RejectRole
        )
        self.pages_button.clicked.connect(self._on_pages)
        self.write_button.clicked.connect(self._on_write)
        self.buttons.rejected.connect(self.reject)
        self.foot.addWidget(self.buttons)

    def default_button(self) -> QPushButton:
        """Return asks where to write the file."""
        return self.write_button

    def _fill_page(self) -> None:
        self.area.add(words(_(self.about)))
        self.reader.form.addRow("", self.private)
        self.fold.setText(_("Choose what &goes in"))
        self.fold.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.fold.setAutoRaise(True)
        enlarge(self.fold, 1, bold=True)
        self.fold.clicked.connect(self._on_fold)
        self._show_scope(is_open=False)
        self.area.add(self.reader, self.fold, self.scope)
        self.area.rows.addStretch(1)

    def _show_scope(self, *, is_open: bool) -> None:
        arrows = Qt.ArrowType
        self.fold.setArrowType(arrows.DownArrow if is_open else arrows.RightArrow)
        self.fold.setAccessibleDescription(_("open below") if is_open else _("folded away"))
        self.scope.setVisible(is_open)

    def _on_fold(self) -> None:
        self._show_scope(is_open=self.scope.isHidden())
        self.fit()
        QTimer.singleShot(0, self._scroll_to_fold)  # when everything has its place

    def _scroll_to_fold(self) -> None:
        top = self.fold.mapTo(self.area, QPoint()).y()
        bar = self.area.verticalScrollBar()
        bar.setValue(bar.value() + top)

    def choices(self) -> PacketOptions:
        """What is chosen.

        Raises:
            Fault: Something can't be read, or no test is left.
        """
        habits, scope = self.reader.habits(), self.scope.scope()
        seen = self.counting.seen
        if seen is not None and seen.scope == scope:
            refuse_nothing(seen)
        return PacketOptions(
            audience=habits.reader,
            paper=habits.paper,
            with_personal=self.private.personal.isChecked(),
            with_originals=self.private.attach.isChecked(),
            append_originals=self.private.append.isChecked(),
            all_originals=self.private.takes_all,
            scope=scope,
            closing=self.reader.closing_day(),
            language=habits.language,
            units=habits.units,
            shown=self.private.covered.shown,
        )

    def _on_scope(self) -> None:
        self.bar.clear()  # it may speak of what was just mended
        self.counting.stop()
        try:
            scope = self.scope.scope()
        except Fault as fault:
            self._tell(str(fault), bold=True)
            return
        self._tell(_("Counting what goes in …"))
        self.counting.ask(scope)

    def _on_counted(self, seen: Seen) -> None:
        if not self.scope.is_filled:
            self.scope.show_tested({key for _unused, key in seen.left.tested}, seen.days)
        self.private.show_hits(seen.hits)
        self._on_private()

    def _on_private(self) -> None:
        seen = self.counting.seen
        if seen is not None:
            said = seen_words(seen, with_documents=self.private.takes_documents)
            self._tell(said, bold=not seen.left.nothing)

    def _tell(self, said: str, *, bold: bool = False) -> None:
        role = QPalette.ColorRole
        self.told.setText(said)
        self.told.setForegroundRole(role.WindowText if bold else role.PlaceholderText)
        enlarge(self.told, 1, bold=bold)
        QAccessible.updateAccessibility(QAccessibleEvent(self.told, QAccessible.Event.Alert))

    def _on_write(self) -> None:
        found: list[PacketOptions] = []
        self.bar.clear()
        if not self.bar.attempt(lambda: found.append(self.choices())):
            self.told.clear()  # it is said once
            return
        path = self._chooser.file_to_write(self, *self.target())
        if path is None:
            return
        self._preferences.packet = self.reader.habits()
        self._printed = None
        self._show_work(under_way=True)
        self.job.start(partial(self.writing(), self._household, path, found[0]))

    def _on_print(self) -> None:
        """Write it for the printer alone, then show it as it would be printed."""
        found: list[PacketOptions] = []
        self.bar.clear()
        if not self.bar.attempt(lambda: found.append(self.choices())):
            self.told.clear()
            return
        self._printed = QTemporaryDir()
        path = Path(self._printed.path()) / "packet.pdf"
        self._show_work(under_way=True)
        self.job.start(partial(self.writing(), self._household, path, found[0]))

    def target(self) -> tuple[str, str]:
        """The name that the file is offered, and the kind of file."""
        name = f"{self._household.path.stem}-{self.reader.habits().reader}.pdf"
        return name, _("PDF files (*.pdf)")

    def writing(self) -> Writing:
        """What writes the file, on another thread."""
        return write_packet

    def _on_pages(self) -> None:
        """Show the pages beside the choices; they follow what is chosen."""
        self.bar.clear()
        if not self.bar.attempt(self.choices):
            self.told.clear()
            return
        if self.preview is not None:
            self.preview.reject()
        self.preview = preview = PacketPreview(self._household, self.choices, self)
        preview.finished.connect(self._on_pages_closed)
        preview.show()
        room = self.screen().availableGeometry()
        beside = self.frameGeometry().right() + 1
        preview.move(min(beside, room.right() - preview.width()), self.y())

    def _on_pages_closed(self) -> None:
        if self.preview is not None:
            self.preview.deleteLater()
        self.preview = None

    def _follow(self) -> None:
        if self.preview is not None:
            self.preview.follow()

    def _on_written(self, written: Written) -> None:
        self._show_work(under_way=False)
        if self._printed is not None:
            self._preview(written.path, self._printed)
            return
        self.bar.say(
            written_words(written),
            _("Open the folder"),
            partial(self._chooser.show, written.path.parent),
        )

    def _preview(self, path: Path, folder: QTemporaryDir) -> None:
        from wellbook.window.printing.preview_dialog import PreviewDialog
        from wellbook.window.printing.sheets import PdfSheets

        self._printed = None
        sheets = PdfSheets(self._household.path.stem, path)
        dialog = PreviewDialog(sheets, self.reader.habits().paper, self)
        dialog.finished.connect(folder.remove)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _on_failed(self, sentence: str) -> None:
        self._show_work(under_way=False)
        self.bar.say(sentence)

    def _on_cancelled(self) -> None:
        self._show_work(under_way=False)
        self.bar.say(_("Stopped; nothing was written."))

    def _show_work(self, *, under_way: bool) -> None:
        self.progress.setVisible(under_way)
        self.area.setEnabled(not under_way)
        self.write_button.setEnabled(not under_way)
        self.print_button.setEnabled(not under_way)
        self.close_button.setText(_("&Stop") if under_way else _("Clo&se"))

    def reject(self) -> None:
        """Stop the work if it is under way, else close."""
        if self.job.running:
            self.job.cancel()
            return
        if self.preview is not None:
            self.preview.reject()
        self.counting.stop()
        QThreadPool.globalInstance().waitForDone()
        super().reject()
