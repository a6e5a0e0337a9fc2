"""Pieces of a page that know where they came to stand."""

from dataclasses import dataclass, field
from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable, Paragraph

from wellbook.pdf import style
from wellbook.pdf.letters import markup

RECORD = "A-"  # before the numbers of the pages of the record
_SIZE = 7.6
_SPARE = 2.0  # points of the gap after a cell that a word may take


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a chart is to be stamped: page index, lower left corner and size in points."""

    chart: int
    page: int
    x: float
    y: float
    width: float
    height: float


@dataclass(slots=True)
class Places:
    """Filled while the pages are set: where charts and headings stand, and what asks for them.

    Attributes:
        pages: The page of each heading, counted from the first page of the file.
        ends: The page and the height in points at which each part ends.
        record: The first page of the record at the end; 0 where there is none.
        after: How many pages come after those that are set here.
    """

    spots: list[Spot] = field(default_factory=list)
    code: Spot | None = None
    pages: dict[str, int] = field(default_factory=dict)
    ends: dict[str, tuple[int, float]] = field(default_factory=dict)
    wanted: set[str] = field(default_factory=set)
    record: int = 0
    after: int = 0

    def label(self, page: int) -> str:
        """What a page is called: the pages of the record have numbers of their own."""
        if not self.record or page < self.record:
            return str(page)
        return f"{RECORD}{page - self.record + 1}"


class Heading(Paragraph):  # type: ignore[misc]  # reportlab is untyped
    """A heading that can be linked to; it is a bookmark of the document if it has a level."""

    def __init__(
        self, text: str, face: ParagraphStyle, places: Places, key: str, level: int | None = None
    ) -> None:
        super().__init__(markup(text), face)
        self.plain, self.key = text, key
        self._places, self._level = places, level

    def draw(self) -> None:
        """Draw the words, set the link's end and the bookmark."""
        super().draw()
        canvas: Any = self.canv
        self._places.pages[self.key] = canvas.getPageNumber()
        canvas.bookmarkHorizontal(self.key, 0, self.height + 8)
        if self._level is not None:
            canvas.addOutlineEntry(self.plain, self.key, self._level, closed=self._level > 0)


class ChartSpace(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """Empty space that a chart is stamped into once the pages are set."""

    def __init__(self, places: Places, chart: int, size: tuple[float, float]) -> None:
        super().__init__()
        self._places, self._chart = places, chart
        self.width, self.height = size

    def wrap(self, *_: float) -> tuple[float, float]:
        """The space it takes."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw nothing, remember the place."""
        x, y = self.canv.absolutePosition(0, 0)
        page = self.canv.getPageNumber() - 1
        self._places.spots.append(Spot(self._chart, page, x, y, self.width, self.height))


class End(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """The end of a part: it draws nothing and remembers where it came to stand."""

    def __init__(self, places: Places, key: str) -> None:
        super().__init__()
        self._places, self._key = places, key

    def wrap(self, *_: float) -> tuple[float, float]:
        """It takes no space."""
        return 0, 0

    def draw(self) -> None:
        """Remember the place."""
        height = self.canv.absolutePosition(0, 0)[1]
        self._places.ends[self._key] = (self.canv.getPageNumber(), height)


class CodeSpace(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """Empty space for the check code, which is known only when all else is done."""

    def __init__(self, places: Places) -> None:
        super().__init__()
        self._places = places
        self.width, self.height = 180.0, 13.0

    def wrap(self, *_: float) -> tuple[float, float]:
        """The space it takes."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw nothing, remember the place."""
        x, y = self.canv.absolutePosition(0, 0)
        page = self.canv.getPageNumber() - 1
        self._places.code = Spot(-1, page, x, y, self.width, self.height)


class PageNumber(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """The number of the page on which a heading stands, as a link to it."""

    def __init__(
        self, places: Places, key: str, label: str = "", *, is_linked: bool = True
    ) -> None:
        super().__init__()
        self._places, self._key, self._label = places, key, label
        self._indent = stringWidth(f"{label} ", style.FONT, _SIZE) if label else 0.0
        self._is_linked = is_linked
        self.width, self.height = self._indent + 21.0, 9.8

    def wrap(self, *_: float) -> tuple[float, float]:
        """The space it takes."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw the form that will hold the number."""
        self._places.wanted.add(self._key)
        self.canv.saveState()
        self.canv.setFont(style.FONT, _SIZE)
        self.canv.setFillColor(style.GREY)
        self.canv.drawString(0, 2, self._label)
        self.canv.translate(self._indent, 2)
        self.canv.doForm(f"page-{self._key}")
        self.canv.restoreState()
        if self._is_linked:
            self.canv.linkRect("", self._key, (0, -1, self.width, self.height), relative=1)


class Marked(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """A verdict in one line: its shape in its colour, then its word in ink, smaller if too long."""

    def __init__(self, shape: str, colour: Any, word: str, size: float = _SIZE) -> None:
        super().__init__()
        self._shape, self._colour, self._word, self._size = shape, colour, word, size
        self.width, self.height = 60.0, size + 2.2

    def wrap(self, available: float, *_: float) -> tuple[float, float]:
        """The space it takes."""
        self.width = available
        return available, self.height

    def draw(self) -> None:
        """Draw the shape and the word."""
        self.canv.setFont(style.FONT, self._size + 1)
        self.canv.setFillColor(self._colour)
        self.canv.drawString(0, 2, self._shape)
        start = self._size + 3.4
        wide = stringWidth(self._word, style.FONT, self._size)
        room = self.width - start + _SPARE
        self.canv.setFont(style.FONT, self._size * min(1.0, room / wide) if wide else self._size)
        self.canv.setFillColor(style.INK)
        self.canv.drawString(start, 2, self._word)


class Reference(Flowable):  # type: ignore[misc]  # reportlab is untyped
    """Short links in one line, such as the numbers of limits."""

    def __init__(self, keys: tuple[str, ...], labels: tuple[str, ...], size: float = _SIZE) -> None:
        super().__init__()
        self._links, self._size = tuple(zip(keys, labels, strict=True)), size
        self.width, self.height = 30.0, size + 2.2

    def wrap(self, available: float, *_: float) -> tuple[float, float]:
        """The space it takes."""
        self.width = available
        return available, self.height

    def draw(self) -> None:
        """Draw the labels, each a link."""
        x = 0.0
        self.canv.setFont(style.FONT, self._size)
        self.canv.setFillColor(style.ACCENT)
        for key, label in self._links:
            wide = stringWidth(label, style.FONT, self._size)
            self.canv.drawString(x, 2, label)
            self.canv.linkRect("", key, (x, 0, x + wide, self.height), relative=1)
            x += wide + 3
