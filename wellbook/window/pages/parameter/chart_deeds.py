"""Copying and saving what the page of a parameter shows."""

import csv
import io
from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtWidgets import QMenu, QWidget

from wellbook.sharing.formula_guard import formula_guarded
from wellbook.support.translation import _
from wellbook.support.whole_file import write_whole
from wellbook.window.common.choosing import Chooser
from wellbook.window.widgets.message_bar import MessageBar
from wellbook.window.widgets.tables import copy_cells

if TYPE_CHECKING:
    from wellbook.window.pages.parameter.parameter_page import ParameterPage


_ACROSS = Qt.Orientation.Horizontal


class ChartDeeds:
    """What a menu offers for the picture and the table; what is private stays out of pictures."""

    def __init__(self, page: "ParameterPage", bar: MessageBar, chooser: Chooser) -> None:
        self._page, self._bar, self._chooser = page, bar, chooser

    def menu(self, parent: QWidget) -> QMenu:
        """The menu of the deeds."""
        menu = QMenu(parent)
        for text, deed in (
            (_("Copy picture"), self.copy_picture),
            (_("Save picture…"), self.save_picture),
            (_("Copy table"), self.copy_table),
            (_("Save table…"), self.save_table),
        ):
            menu.addAction(text).triggered.connect(partial(self._do, deed))
        return menu

    def _do(self, deed: Callable[[], object], _unused: bool = False) -> None:  # noqa: FBT001, FBT002  as Qt calls it
        self._bar.attempt(deed)

    def copy_picture(self) -> None:
        """Put the picture with its words on the clipboard."""
        from wellbook.charts.draw.drawing import picture

        content = picture(self._page.described(is_private=False), ".png")
        QGuiApplication.clipboard().setImage(QImage.fromData(content))
        self._bar.say(_("The picture is on the clipboard."))

    def save_picture(self) -> None:
        """Write the picture with its words into a file."""
        from wellbook.charts.draw.drawing import save

        chart = self._page.described(is_private=False)
        kinds = _("Pictures (*.png *.svg *.pdf)")
        path = self._chooser.file_to_write(self._page.window(), f"{chart.title}.png", kinds)
        if path is not None:
            save(chart, path)
            self._bar.say(_("{name} is written.").format(name=path.name))

    def _table(self) -> list[list[str]]:
        model = self._page.model
        if model is None:
            return []
        heads = [str(model.headerData(n, _ACROSS)) for n in range(model.columnCount())]
        return [heads, *([str(model.index(row, n).data() or "") for n in range(len(heads))]
                         for row in range(model.rowCount()))]  # fmt: skip

    def copy_table(self) -> None:
        """Put the results with the heads of their columns on the clipboard."""
        copy_cells(self._table())
        self._bar.say(_("The table is on the clipboard."))

    def save_table(self) -> None:
        """Write the results into a file for a spreadsheet."""
        title = self._page.title.text()
        kinds = _("Tables (*.csv)")
        path = self._chooser.file_to_write(self._page.window(), f"{title}.csv", kinds)
        if path is not None:
            content = io.StringIO()
            rows = [[formula_guarded(cell) for cell in row] for row in self._table()]
            csv.writer(content).writerows(rows)
            write_whole(path, content.getvalue().encode("utf-8-sig"))
            self._bar.say(_("{name} is written.").format(name=path.name))
