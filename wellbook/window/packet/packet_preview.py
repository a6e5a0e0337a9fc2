"""The pages of the file that would be written, beside the choices and following them."""

import tempfile
from collections.abc import Callable
from functools import partial
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QDialogButtonBox, QHBoxLayout, QPushButton, QWidget

from wellbook.intake import PagePicture, Place, page_picture, places_of
from wellbook.packet.options import PacketOptions
from wellbook.packet.packet import language
from wellbook.sharing.redaction import COVERED
from wellbook.support import translation
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
Box = tuple[float, float, float, float]
Made = tuple[bytes, list[list[Box]], PagePicture]


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
        self.private_button = QPushButton(_("Next co&vered place"))
        self.private_button.clicked.connect(self._to_private)
        self._places: list[list[Box]] = []
        line = QHBoxLayout()
        line.addWidget(self.private_button)
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
        kept = (self._content, self._places)
        work = partial(_page, self._household, options, kept, self.number)
        self._loader.ask(work, self._on_page)

    def _to_private(self) -> None:
        """Show the next page on which private words are covered, or shown as it was ticked."""
        pages = [number for number, boxes in enumerate(self._places, start=1) if boxes]
        following = next((number for number in pages if number > self.number), min(pages))
        self._turn(following - self.number)

    def _on_page(self, made: Made) -> None:
        self._content, self._places, picture = made
        self.count = picture.count
        if self.number > max(picture.count, 1):
            self._turn(0)
            return
        self.page.show_page(picture)
        self.page.mark(self._here)
        said = _("page {page} of {count}").format(page=self.number, count=self.count)
        if self._here:
            said = _("{where}; private words are marked").format(where=said)
        self.where.setText(said)
        self.page.setAccessibleDescription(said)
        self.back_button.setEnabled(self.number > 1)
        self.next_button.setEnabled(self.number < self.count)
        self.private_button.setEnabled(any(self._places))
        self.private_button.setVisible(any(self._places))

    @property
    def _here(self) -> list[Box]:
        """Boxes of private words on the page that is shown."""
        return self._places[self.number - 1] if self.number <= len(self._places) else []

    def _on_failed(self, sentence: str) -> None:
        self.where.setText("")
        self.bar.say(sentence)

    def reject(self) -> None:
        """Stop what is under way, and close."""
        self._pause.stop()
        self._loader.stop()
        super().reject()


def _page(
    household: Household,
    options: PacketOptions,
    kept: tuple[bytes, list[list[Box]]],
    number: int,
    tell: Tell,
) -> Made:
    """The file, made if it was not `kept`, its private places, and one of its pages as a picture.

    Marked are the signs that stand for a word that is covered, and words that may be shown.
    """
    content, places = kept
    if not content:
        with tempfile.TemporaryDirectory(prefix="wellbook-") as folder:
            path = Path(folder) / _NAME
            write_packet(household, path, options, tell)
            content = path.read_bytes()
        tell(0, 0, "")
        with translation.using(language(options.language)):
            sign = _(COVERED)
        places = places_of(content, _NAME, (sign, *options.shown))
    tell(0, 0, "")
    return content, places, page_picture(content, _NAME, Place(page=number))
