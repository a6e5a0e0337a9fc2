"""A page fits the width of its view at every size of it, or is legible, and comes to rest."""

from io import BytesIO

import pytest
from PIL import Image
from PySide6.QtCore import QPointF
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QApplication

from wellbook.intake import PagePicture
from wellbook.window.dialogs.report.page_view import PageView

WIDE, FEW = 300, 12  # pixels; sizes that a view may take on its way


@pytest.fixture(scope="module")
def letter():
    """A white page of 612 by 792 points."""
    kept = BytesIO()
    Image.new("RGB", (612, 792), "white").save(kept, "PNG")
    return kept.getvalue()


class Counted(PageView):
    def __init__(self):
        super().__init__()
        self.sizes = 0

    def resizeEvent(self, event):  # noqa: N802  Qt's name
        self.sizes += 1
        if self.sizes <= FEW:
            super().resizeEvent(event)


def test_a_page_that_just_fits_does_not_show_and_hide_its_bar_for_ever(qtbot, letter):
    """With the bar the page is lower than the view, and without it higher: 372 to 388 pixels."""
    view = Counted()
    qtbot.addWidget(view)
    view.show()
    for high in range(360, 400):
        view.sizes = 0
        view.resize(WIDE, high)
        view.show_page(PagePicture(letter, 1.0, 0.0, 0.0, 1))
        QApplication.processEvents()
        assert view.sizes < FEW, high


def test_the_line_that_is_lit_is_large_enough_to_be_read_until_a_person_says_how_large(
    qtbot, letter
):
    view = PageView()
    qtbot.addWidget(view)
    view.show()
    view.resize(WIDE, 400)
    view.show_page(PagePicture(letter, 1.0, 0.0, 0.0, 1))
    paper = view.widget()
    assert paper.width() == view.viewport().width()
    small = (60.0, 400.0, 90.0, 408.0)  # print of eight points, four pixels high in this view
    view.light(small)
    letters = QFontMetricsF(view.font()).height()
    assert 8 * paper.factor >= letters * 0.75
    middle = view.lit.center() * paper.factor - QPointF(
        view.horizontalScrollBar().value(), view.verticalScrollBar().value()
    )
    assert view.viewport().rect().contains(middle.toPoint())
    view.light((60.0, 500.0, 90.0, 560.0))
    assert paper.width() == view.viewport().width()  # large print is read at the page's width
    view.light(small)
    view.zoom(0.01)
    view.light((60.0, 420.0, 90.0, 428.0))
    assert paper.width() == view.viewport().width()
