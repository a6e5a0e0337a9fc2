"""The document: running head and foot, page x of y, bookmarks.

Page numbers that are not known yet (the total, the page a link leads to) are drawn as forms that
the document defines when it ends, so that everything is set in one pass.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

from wellbook.pdf import style
from wellbook.pdf.flowables import Places
from wellbook.pdf.grid import trimmed
from wellbook.support.translation import _, current

RECORD_PAGE = "record"  # the kind of page that the record at the end is set on
AFTER = "after"  # the key of the first page that comes after those that are set here
_SIZE = 7.6
_GAP = 24.0  # at least so much between the two words at the head of a page


@dataclass(frozen=True, slots=True)
class Running:
    """What stands at the head and foot of every page, and in the document's properties."""

    title: str
    head: str
    kind: str
    foot: str
    subject: str


class Sheet(BaseDocTemplate):  # type: ignore[misc]  # reportlab is untyped
    """A document whose pages share one head and foot."""

    def __init__(
        self,
        path: Path | BytesIO,
        paper: tuple[float, float],
        running: Running,
        places: Places,
    ) -> None:
        super().__init__(
            str(path) if isinstance(path, Path) else path,
            pagesize=paper, invariant=1, lang=current(), initialFontName=style.FONT,
            leftMargin=style.SIDE, rightMargin=style.SIDE,
            topMargin=style.TOP, bottomMargin=style.BOTTOM,
            title=running.title, author="Wellbook", subject=running.subject,
            creator="Wellbook", producer="Wellbook", displayDocTitle=True,
        )  # fmt: skip
        self._running, self._places, self._last_page = running, places, 0
        self._doSave = 0  # the numbers are still to be defined after the last page
        first, frame = self._frame(style.FIRST_TOP), self._frame(style.TOP)
        self.addPageTemplates(
            [
                PageTemplate("first", [first], onPage=self._furnish, autoNextPageTemplate="page"),
                PageTemplate("page", [frame], onPage=self._furnish),
                PageTemplate(RECORD_PAGE, [frame], onPage=self._furnish_record),
            ]
        )

    def _frame(self, top: float) -> Frame:
        height = self.height + style.TOP - top
        return Frame(
            style.SIDE, style.BOTTOM, self.width, height, id="page",
            leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0,
        )  # fmt: skip

    def set_pages(self, story: Sequence[Any]) -> None:
        """Set the whole story, then the page numbers that it left open, and write the file."""
        self.build(list(story))
        places, whole = self._places, self._last_page + self._places.after
        answer = places.record - 1 if places.record else whole
        _define_number(self.canv, "page-total", str(answer))
        if places.record:
            _define_number(self.canv, "record-total", places.label(whole))
        places.pages[AFTER] = self._last_page + 1
        for key in sorted(places.wanted):
            page = places.pages.get(key)
            _define_number(self.canv, f"page-{key}", places.label(page) if page else "–")
        self.canv.save()

    def beforeDocument(self) -> None:  # noqa: N802  reportlab's own name
        """Show the bookmarks when the file is opened."""
        self.canv.showOutline()

    def _furnish_record(self, canvas: Any, unused: Any) -> None:
        if not self._places.record:
            self._places.record = self.page
        self._furnish(canvas, unused)

    def _furnish(self, canvas: Any, _unused: Any) -> None:
        self._last_page = self.page
        right = self.pagesize[0] - style.SIDE
        head, foot = self.pagesize[1] - 40, 30
        canvas.saveState()
        canvas.setFont(style.FONT, _SIZE)
        canvas.setFillColor(style.GREY)
        if self.page > 1:
            room = self.width - stringWidth(self._running.kind, style.FONT, _SIZE) - _GAP
            canvas.drawString(style.SIDE, head, trimmed(self._running.head, room, _SIZE))
            canvas.drawRightString(right, head, self._running.kind)
            canvas.setStrokeColor(style.RULE)
            canvas.setLineWidth(0.4)
            canvas.line(style.SIDE, head - 6, right, head - 6)
        canvas.drawString(style.SIDE, foot, self._running.foot)
        said = page_of(self._places.label(self.page))
        canvas.drawRightString(right - 24, foot, said)
        canvas.translate(right - 22, foot)
        canvas.doForm("record-total" if self._places.record else "page-total")
        canvas.restoreState()


def page_of(label: str) -> str:
    """What stands before the number of all pages."""
    return _("Page {page} of").format(page=label)


def _define_number(canvas: Any, name: str, text: str) -> None:
    canvas.beginForm(name, 0, -4, 24, 12)
    canvas.setFont(style.FONT, _SIZE)
    canvas.setFillColor(style.GREY)
    canvas.drawString(0, 0, text)
    canvas.endForm()
