"""The sheets as they would be printed, and the way to a printer."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QTemporaryDir
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewWidget
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QHBoxLayout, QPushButton, QWidget

from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.printing.sheets import PdfSheets, Printable, set_paper
from wellbook.window.widgets.entry_dialog import Dialog
from wellbook.window.widgets.layouts import words

_STEP = 1.25  # times as large at each press


class PreviewDialog(Dialog):
    """Shows sheets one by one, larger or smaller, and prints them."""

    def __init__(self, what: Printable, paper: str, parent: QWidget) -> None:
        super().__init__(_("Print preview"), parent, width=60, height=44)
        self._what = what
        self.printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        set_paper(self.printer, paper, what)
        self.sheets = QPrintPreviewWidget(self.printer)
        self.sheets.setAccessibleName(_("Sheets of {name}").format(name=what.title))
        self.sheets.setMinimumHeight(em(self) * 16)
        self.sheets.paintRequested.connect(what.print_on)
        self.told = words()
        self.previous = _button(_("Pre&vious sheet"))
        self.next = _button(_("&Next sheet"))
        self.larger = _button(_("&Larger"))
        self.smaller = _button(_("S&maller"))
        self.whole = _button(_("&Whole sheet"))
        self.previous.clicked.connect(lambda: self._go(-1))
        self.next.clicked.connect(lambda: self._go(1))
        self.larger.clicked.connect(lambda _unused: self.sheets.zoomIn(_STEP))
        self.smaller.clicked.connect(lambda _unused: self.sheets.zoomOut(_STEP))
        self.whole.clicked.connect(self.sheets.fitInView)
        self.sheets.previewChanged.connect(self._say_place)
        self._lay_out()
        self._focus_sheets()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        for button in (self.previous, self.next):
            row.addWidget(button)
        row.addWidget(self.told, 1)
        for button in (self.smaller, self.larger, self.whole):
            row.addWidget(button)
        self.rows.addLayout(row)
        self.rows.addWidget(self.sheets, 1)
        buttons = QDialogButtonBox()
        self.print_button = buttons.addButton(_("&Print…"), QDialogButtonBox.ButtonRole.ActionRole)
        self.print_button.clicked.connect(self._on_print)
        buttons.addButton(_("&Close"), QDialogButtonBox.ButtonRole.RejectRole)
        buttons.rejected.connect(self.reject)
        self.foot.addWidget(buttons)

    def default_button(self) -> QPushButton:
        """Return goes on to the printer, which asks once more."""
        return self.print_button

    def _focus_sheets(self) -> None:
        for part in self.sheets.findChildren(QWidget):
            if not part.accessibleName():
                part.setAccessibleName(self.sheets.accessibleName())

    def _go(self, steps: int) -> None:
        self.sheets.setCurrentPage(self.sheets.currentPage() + steps)
        self._say_place()

    def _say_place(self) -> None:
        at, count = self.sheets.currentPage(), self.sheets.pageCount()
        self.told.setText(_("Sheet {at} of {count}").format(at=at, count=count))
        self.previous.setEnabled(at > 1)
        self.next.setEnabled(at < count)

    def _on_print(self) -> None:
        print_with_dialog(self._what, self.printer, self)


def preview_pdf(
    title: str, write: Callable[[Path], object], paper: str, parent: QWidget
) -> PreviewDialog:
    """Write a PDF into a folder of its own and show it; the folder goes with the dialog.

    Args:
        title: What it is called.
        write: Writes it to a path.
        paper: `a4` or `letter`.
        parent: The dialog that it belongs to.

    Raises:
        Fault: It can't be written.
    """
    folder = QTemporaryDir()
    path = Path(folder.path()) / "sheets.pdf"
    write(path)
    dialog = PreviewDialog(PdfSheets(title, path), paper, parent)
    dialog.finished.connect(folder.remove)
    dialog.finished.connect(dialog.deleteLater)
    dialog.open()
    return dialog


def print_with_dialog(what: Printable, printer: QPrinter, parent: QWidget) -> QDialog:
    """Ask which printer, and print; the dialog is the system's own."""
    dialog = QPrintDialog(printer, parent)
    dialog.setWindowTitle(_("Print {name}").format(name=what.title))
    dialog.setOption(QPrintDialog.PrintDialogOption.PrintPageRange)
    dialog.accepted.connect(lambda: what.print_on(printer))
    dialog.finished.connect(dialog.deleteLater)
    QDialog.open(dialog)  # a QPrintDialog has another `open` of its own
    return dialog


def _button(text: str) -> QPushButton:
    made = QPushButton(text)
    made.setAutoDefault(False)
    return made
