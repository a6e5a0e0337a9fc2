"""The words of a PDF with their boxes, by pdfium: runs in a process of its own.

A box stands as a person reads the page: a page whose text is turned is turned back, whatever it
says of itself.
"""

import math
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Self

from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel

MOST_PAGES = 60
_MOST_LETTERS = 400_000  # of a document; our own bounds
_GAP = 0.25  # of a letter's height; more room than that between two letters parts words
_OVER = 0.25  # of the narrower of two digits; more than that of it lies under the other one
_LEVEL = 0.5  # of a letter's height between the feet of two letters of one row
_HYPHENS = str.maketrans({"\x02": "-", "\ufffe": "-"})  # what pdfium gives at the end of a line
_LOCKED = "password"

Letter = tuple[float, float, float, float, str]


def main() -> None:
    """Answer with the words of one PDF."""
    try:
        asked = bounds.received()
        facts = _read(asked.content, str(asked.facts.get("password", "")))
        bounds.answer(Parcel(facts, b""))
    except MemoryError:
        bounds.out_of_memory()


def _read(content: bytes, password: str) -> dict[str, Any]:
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(content, password=password or None)
    except pypdfium2.PdfiumError as error:
        is_locked = "password" in str(error).casefold()
        return {"trouble": _LOCKED if is_locked else "damaged", "pages": []}
    pages: list[list[list[float | str]]] = []
    left = _MOST_LETTERS
    for number in range(min(len(document), MOST_PAGES)):
        page = document[number]
        text = page.get_textpage()
        left -= text.count_chars()
        if left < 0:
            return {"trouble": "too much", "pages": []}
        pages.append(
            [list(word) for word in _words(list(letters_of(text)), page.get_mediabox()[3])]
        )
    return {"trouble": "", "pages": pages, "count": len(document)}


def letters_of(text: Any) -> Iterator[tuple[Letter, int]]:
    """Each sign with its box, and the quarter turns by which it stands off."""
    import pypdfium2.raw as pdfium

    for place in range(text.count_chars()):
        code = pdfium.FPDFText_GetUnicode(text, place)
        sign = chr(code).translate(_HYPHENS)
        left, bottom, right, top = text.get_charbox(place, loose=True)
        angle = pdfium.FPDFText_GetCharAngle(text, place)
        turns = round(-angle / (math.pi / 2)) % 4 if angle >= 0 else 0  # pdfium's turn clockwise
        yield (left, bottom, right, top, sign), turns


@dataclass(frozen=True, slots=True)
class Upright:
    """How a page stands for its reader.

    Attributes:
        letters: Its letters, turned back.
        turn: Quarter turns by which most of them stood off.
        leftmost: From where boxes are counted across.
        highest: From where boxes are counted down.
    """

    letters: tuple[Letter, ...]
    turn: int
    leftmost: float
    highest: float

    @classmethod
    def of(cls, letters: list[tuple[Letter, int]], top: float) -> Self:
        """Turn a page back by what most of its letters say; `top` is its upper edge."""
        turns = Counter(turn for (*_box, sign), turn in letters if str(sign).strip())
        turn = turns.most_common(1)[0][0] if turns else 0
        upright = tuple(_turned(letter, turn) for letter, _unused in letters)
        leftmost = min((letter[0] for letter in upright), default=0.0) if turn else 0.0
        highest = max((letter[3] for letter in upright), default=0.0) if turn else top
        return cls(upright, turn, leftmost, highest)


def _words(letters: list[tuple[Letter, int]], top: float) -> Iterator[Letter]:
    """Words in the file's order, from the left and from the top."""
    page = Upright.of(letters, top)
    word: list[Letter] = []
    for letter in page.letters:
        if word and _parts(word[-1], letter):
            yield _joined(word, page.leftmost, page.highest)
            word = []
        if letter[4].strip():
            word.append(letter)
    if word:
        yield _joined(word, page.leftmost, page.highest)


def _turned(letter: Letter, turn: int) -> Letter:
    """A letter's box after the page was turned back."""
    left, bottom, right, top, sign = letter
    if turn == 1:
        return bottom, -right, top, -left, sign
    if turn == 2:  # noqa: PLR2004
        return -right, -top, -left, -bottom, sign
    if turn == 3:  # noqa: PLR2004
        return -top, left, -bottom, right, sign
    return letter


def _parts(before: Letter, after: Letter) -> bool:
    high = max(before[3] - before[1], 1.0)
    same_row = abs(after[1] - before[1]) < _LEVEL * high
    near = -high < after[0] - before[2] < _GAP * high
    return not after[4].strip() or not same_row or not near or _are_over(before, after)


def _are_over(before: Letter, after: Letter) -> bool:
    """Whether two digits stand over each other, as where a figure was corrected."""
    common = min(before[2], after[2]) - max(before[0], after[0])
    narrower = min(before[2] - before[0], after[2] - after[0])
    return before[4].isdigit() and after[4].isdigit() and common > _OVER * narrower


def _joined(word: list[Letter], leftmost: float, highest: float) -> Letter:
    return (
        round(word[0][0] - leftmost, 2),
        round(highest - max(letter[3] for letter in word), 2),
        round(word[-1][2] - leftmost, 2),
        round(highest - min(letter[1] for letter in word), 2),
        "".join(letter[4] for letter in word),
    )
