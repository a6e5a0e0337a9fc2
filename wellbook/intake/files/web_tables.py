"""Tables and lines of a web page, which labs also save under a spreadsheet's name."""

import re
from collections.abc import Iterator
from html.parser import HTMLParser

from wellbook.intake.files.hidden_parts import say_struck, without_struck
from wellbook.intake.files.plain_lines import pair_of
from wellbook.intake.files.sheets import Cells, Line, Room, Sheet, times

_MOST_SPAN = 100  # columns, or rows, that one cell may take; our own bound
# Words and days may hold for several rows, unlike a result.
_SAID_AGAIN = re.compile(
    r"(?!.*\d)[^\W_].*|\d{1,4}[./-]\d{1,2}[./-]\d{2,4}(?!\d).*"
    r"|\d{1,2}\.?(?:st|nd|rd|th)?[ -](?:de )?[^\W\d_]{3,10}[., -]+(?:de )?(?:19|20)\d\d.*"
    r"|[^\W\d_]{3,10}\.? \d{1,2},? (?:19|20)\d\d.*"
)
_HIDDEN = {"script", "style", "head", "title", "noscript", "template"}
_BREAKS = {"p", "div", "br", "li", "h1", "h2", "h3", "h4", "h5", "h6", "tr", "table", "dt", "dd",
           "section", "article", "hr", "pre"}  # fmt: skip
_STRIKES = {"s", "strike", "del"}
_CLASS = re.compile(r"\.([\w-]+)")
_OF_TABLES = ("tr", "td", "th")  # whose end may be left out


def sheets(text: str) -> tuple[Sheet, ...]:
    """The page as one sheet: rows of its tables, and other lines between them."""
    page = _Page()
    page.feed(text)
    page.close()
    lines = tuple(Line(number) for number in range(1, len(page.rows) + 1))
    struck = frozenset(page.struck)
    return (Sheet("", page.rows, say_struck(page.out), lines=lines, struck=struck),)


def _striking(rules: str) -> Iterator[str]:
    """The classes that rules of style strike through: the last one of each selector."""
    for rule in rules.split("}"):
        selectors, _brace, body = rule.rpartition("{")
        if "line-through" in body:
            named = (_CLASS.findall(one) for one in selectors.split(","))
            yield from (names[-1] for names in named if names)


class _Page(HTMLParser):
    """Gathers cells; a table inside of a cell gives rows of its own."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.rows: list[Cells] = []
        self._row: Cells | None = None
        self._said: list[tuple[str, bool]] = []  # pieces, and whether each is struck through
        self._span = 1
        self._height = 1
        self._room = Room()
        self._is_head = False
        self._below: dict[int, tuple[int, str]] = {}  # rows to come, and text, of tall cells
        self._hidden = 0
        self._in_cell = False
        self._term = ""
        self.struck: set[int] = set()
        self.out: list[str] = []  # what is struck out beside something else
        self._striking: set[str] = set()  # classes
        self._is_style = False
        self._strike = ""  # the tag within which all is struck through
        self._depth = 0  # of tags of that name

    def _begin_strike(self, tag: str, told: dict[str, str | None]) -> None:
        is_next = tag == "tr" or (tag in _OF_TABLES and self._strike != "tr")
        if is_next and self._strike in _OF_TABLES:
            self._strike = ""  # its end was left out
        if self._strike:
            self._depth += tag == self._strike
        elif (
            tag in _STRIKES
            or "line-through" in (told.get("style") or "")
            or not self._striking.isdisjoint((told.get("class") or "").split())
        ):
            self._strike, self._depth = tag, 1

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._begin_strike(tag, dict(attrs))
        self._is_style = tag == "style"
        if tag in _HIDDEN:
            self._hidden += 1
        elif tag == "tr":
            self.end_line()
            self._end_row()
            self._row = []
        elif tag in {"td", "th"}:
            self._end_cell()
            if self._row is None:
                self._row = []
            told = dict(attrs)
            self._span = 1 + self._room.take(times(told.get("colspan"), _MOST_SPAN) - 1)
            self._height = times(told.get("rowspan"), _MOST_SPAN)
            self._is_head = tag == "th"
            self._in_cell = True
        elif tag in _BREAKS and not self._in_cell:
            self.end_line(is_term=tag == "dd")
        elif tag in _BREAKS:
            self._said.append((" ", False))

    def _text(self) -> str:
        """What was said since the last time."""
        left, out = without_struck(self._said)
        self.out += [out] if out else []
        self._said = []
        return " ".join(left.split())

    def handle_endtag(self, tag: str) -> None:
        self._is_style = False
        if tag == self._strike:
            self._depth -= 1
            self._strike = tag if self._depth else ""
        if tag in _HIDDEN:
            self._hidden = max(0, self._hidden - 1)
        elif tag in {"td", "th"}:
            self._end_cell()
        elif tag in {"tr", "table"}:
            self._end_row()
            self._below = self._below if tag == "tr" else {}
        elif tag in _BREAKS and not self._in_cell:
            self.end_line(is_term=tag == "dt")

    def handle_data(self, data: str) -> None:
        if self._is_style:
            self._striking.update(_striking(data))
        elif not self._hidden:
            self._said.append((data, bool(self._strike)))
            if self._strike and data.strip():
                self.struck.add(len(self.rows) + 1)

    def end_line(self, *, is_term: bool = False) -> None:
        """Take what was said outside of cells for a line of its own.

        Args:
            is_term: Whether it is a term of a list, whose value follows (`dt` and `dd`).
        """
        if self._in_cell:
            return
        text = self._text()
        if is_term and text:
            self._take_term()
            self._term = text
        elif text and self._term:
            self.rows.append([self._term, text])
            self._term = ""
        elif text:
            self.rows.append(pair_of(text))

    def close(self) -> None:
        """End the page, with a term whose value never came as a line of its own."""
        super().close()
        self.end_line()
        self._take_term()

    def _take_term(self) -> None:
        if self._term:
            self.rows.append([self._term])
        self._term = ""

    def _end_cell(self) -> None:
        if not self._in_cell or self._row is None:
            return
        text = self._text()
        self._fill()
        if self._height > 1:
            is_said = not self._is_head and _SAID_AGAIN.match(text)
            more = (self._height - 1, text if is_said else "")
            start = len(self._row)
            self._below |= {
                start + i: (more if not i else (more[0], "")) for i in range(self._span)
            }
        self._row += [text, *[""] * (self._span - 1)]
        self._in_cell, self._span = False, 1

    def _fill(self) -> None:
        """Put into the row what cells of rows above say that reach down into it (`rowspan`)."""
        while self._row is not None and (tall := self._below.pop(len(self._row), None)):
            if tall[0] > 1:
                self._below[len(self._row)] = (tall[0] - 1, tall[1])
            self._row.append(tall[1])
            if not self._room.take(1):
                self._below = {}

    def _end_row(self) -> None:
        self._end_cell()
        self._fill()
        if self._row:
            self.rows.append(self._row)
        self._row = None
