"""The pages of the file that would be written, beside the choices and following them."""

import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QPushButton, QWidget

from wellbook.intake import PagePicture, Place, page_picture
from wellbook.packet.options import PacketOptions
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.window.common.household import Household
from wellbook.window.common.jobs import Loader, Tell
from wellbook.window.common.theme import em
from wellbook.window.dialogs.report.page_view import PageView
from wellbook.window.packet.packet_jobs import write_packet
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words

_PAUSE_MS = 400  # so that a word being typed makes no new file letter by letter
_NAME = "preview.pdf"


class PacketPreview(Dialog):
    """A window beside the choices: made anew on another thread whenever one of them changes."""

    def __init__(
        self, household: Household, choices: Callable[[], PacketOptions], parent: QWidget
    ) -> None:
        super().__init__(_("The pages as they would be"), parent, width=44, height=52)
        self.setWindowModality(Qt.WindowModality.NonModal)  # the choices stay within reach
        self._household, self._choices = household, choices
        self._content = b""
        self.number, self.count = 1, 0
        self.page = PageView()
        self.page.setAccessibleName(_("Page of the file"))
        self.where = words(quiet=True)
        self.back_button = QPushButton(_("Page &before"))
        self.next_button = QPushButton(_("&Next page"))
        self.back_button.clicked.connect(lambda: self._turn(-1))
        self.next_button.clicked.connect(lambda: self._turn(1))
        line = QHBoxLayout()
        line.addWidget(self.back_button)
        line.addWidget(self.next_button)
        line.addWidget(self.where, 1)
        self.rows.addWidget(self.page, 1)
        self.page.setMinimumHeight(em(self) * 20)
        self.foot.addLayout(line)
        buttons = QDialogButtonBox()
        buttons.addButton(_("Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)
        self._loader = Loader(self)
        self._loader.failed.connect(self._on_failed)
        self._pause = QTimer(self)
        self._pause.setSingleShot(True)
        self._pause.setInterval(_PAUSE_MS)
        self._pause.timeout.connect(self._start)
        self.follow()

    def follow(self) -> None:
        """Make the pages anew, because something else was chosen."""
        self._loader.drop()
        self._content = b""
        self.where.setText(_("The pages are being made …"))
        self._pause.start()

    def _turn(self, by: int) -> None:
        self.number = max(1, min(self.number + by, max(self.count, 1)))
        self._start()

    def _start(self) -> None:
        self.bar.clear()
        try:
            options = self._choices()
        except Fault as fault:
            self._on_failed(str(fault))
            return
        work = partial(_page, self._household, options, self._content, self.number)
        self._loader.ask(work, self._on_page)

    def _on_page(self, made: tuple[bytes, PagePicture]) -> None:
        self._content, picture = made
        self.count = picture.count
        if self.number > max(picture.count, 1):
            self._turn(0)
            return
        self.page.show_page(picture)
        said = _("page {page} of {count}").format(page=self.number, count=self.count)
        self.where.setText(said)
        self.page.setAccessibleDescription(said)
        self.back_button.setEnabled(self.number > 1)
        self.next_button.setEnabled(self.number < self.count)

    def _on_failed(self, sentence: str) -> None:
        self.where.setText("")
        self.bar.say(sentence)

    def reject(self) -> None:
        """Stop what is under way, and close."""
        self._pause.stop()
        self._loader.stop()
        super().reject()


def _page(
    household: Household, options: PacketOptions, content: bytes, number: int, tell: Tell
) -> tuple[bytes, PagePicture]:
    """The file, made if its `content` is not there yet, and one of its pages as a picture."""
    if not content:
        with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
            path = Path(folder) / _NAME
            write_packet(household, path, options, tell)
            content = path.read_bytes()
    tell(0, 0, "")
    return content, page_picture(content, _NAME, Place(page=number))
