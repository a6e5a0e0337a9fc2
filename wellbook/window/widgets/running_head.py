"""The running head of an open book: whose it is, which point is shown, which page."""

from collections.abc import Collection, Mapping, Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QMenu,
    QPushButton,
    QSizePolicy,
    QWidget,
)

from wellbook.planning.overview import PointOverview, WellOverview
from wellbook.support.translation import _
from wellbook.window.common.theme import em
from wellbook.window.widgets.layouts import SUBTITLE, PageLink, words


class RunningHead(QWidget):
    """Name of the household's book, chooser of points, links to the pages.

    Signals:
        point_chosen: Another point was chosen; carries its number.
        page_chosen: A page was asked for; carries its key.
    """

    point_chosen = Signal(int)
    page_chosen = Signal(str)

    def __init__(
        self,
        pages: Mapping[str, str],
        add_menu: QMenu,
        by_point: Collection[str],
        parent: QWidget | None = None,
    ) -> None:
        """Make the head.

        Args:
            pages: What the links say by the key of their page.
            add_menu: What the button for a test offers.
            by_point: Keys of the pages that show one sampling point; on others none is chosen.
            parent: The view.
        """
        super().__init__(parent)
        self._by_point = by_point
        self._is_by_point = True
        self.name = words(factor=SUBTITLE, bold=True)
        self.name.setWordWrap(False)
        self.points = QComboBox()
        self.points.setAccessibleName(_("Sampling point"))
        self.points.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.points.activated.connect(self._on_point)
        room = self.points.sizePolicy()
        room.setRetainSizeWhenHidden(True)  # what stands beside it stays where it is
        self.points.setSizePolicy(room)
        self.add_button = QPushButton(_("Add a test"))
        self.add_button.setMenu(add_menu)
        self.links = {key: PageLink(title) for key, title in pages.items()}
        unit = em(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(unit * 2, unit // 2, unit * 2, 0)
        row.setSpacing(unit // 2)
        row.addWidget(self.name)
        row.addSpacing(unit)
        row.addWidget(self.points)
        row.addStretch(1)
        for key, link in self.links.items():
            link.clicked.connect(lambda _unused=False, key=key: self.page_chosen.emit(key))
            row.addWidget(link)
        row.addSpacing(unit)
        row.addWidget(self.add_button)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def show_wells(self, wells: Sequence[WellOverview], point: int) -> None:
        """Offer the points of the wells; `point` is the number of the one that is shown."""
        self.points.clear()
        for well in wells:
            for shown in well.points:
                self.points.addItem(
                    _point_words(shown, well, several=len(wells) > 1), shown.point.id
                )
        self.points.setCurrentIndex(self.points.findData(point))
        self._show_points()

    def show_page(self, page: str) -> None:
        """Underline the page that is shown; a page without a link underlines none.

        Points are offered only where another one shows something else.
        """
        self._is_by_point = page in self._by_point
        if self.points.hasFocus() and not self._is_by_point and page in self.links:
            self.links[page].setFocus()  # not on the next one, which leads elsewhere
        self._show_points()
        for key, link in self.links.items():
            link.setChecked(key == page)

    def _show_points(self) -> None:
        self.points.setVisible(self._is_by_point and self.points.count() > 0)

    def _on_point(self, index: int) -> None:
        self.point_chosen.emit(self.points.itemData(index))


def _point_words(shown: PointOverview, well: WellOverview, *, several: bool) -> str:
    kind = _("treated") if shown.point.treated else _("untreated")
    name = f"{shown.point.name} ({kind})"
    return f"{well.well.name}: {name}" if several else name
