"""The words of a scan or a photo with their boxes, by RapidOCR: runs in a process of its own.

The models come with the library; nothing is fetched. What is read from a picture is never
certain: a comma is read as a point with full confidence.
"""

import io
from collections.abc import Iterator
from typing import Any

from wellbook.sandbox import bounds
from wellbook.sandbox.process import Parcel
from wellbook.sandbox.straightening import straightened

MOST_PAGES = 6
_MOST_PIXELS = 40_000_000  # of a picture; our own bounds
_DOTS = 150  # an inch, at which pages are drawn
_POINTS = 72
_LARGEST_SIDE = 2600  # pixels; a larger photo is read no better, only slower
_LEAST_SCORE = 0.3


def main() -> None:
    """Answer with the words of the pages of one file."""
    try:
        asked = bounds.received()
        count, words = _read(asked.content, int(asked.facts.get("page", 0)))
        bounds.answer(Parcel({"count": count, "words": words}, b""))
    except MemoryError:
        bounds.out_of_memory()


def _read(content: bytes, page: int) -> tuple[int, list[list[float | str]]]:
    """How many pages are read of a file, and the words of one of them, counted from 0."""
    import logging

    import numpy as np
    from rapidocr import RapidOCR

    logging.disable()
    # Without its look for turned lines, which reads 98 as 86, upside down.
    engine = RapidOCR(params={"Global.use_cls": False, "Global.log_level": "critical"})
    count, picture, scale = _picture(content, page)
    return count, list(_words(engine(np.asarray(picture), return_word_box=True), scale))


def _picture(content: bytes, page: int) -> tuple[int, Any, float]:
    """How many pages are read, one of them as a picture, and how many points a pixel takes."""
    if content.startswith(b"%PDF"):
        import pypdfium2

        document = pypdfium2.PdfDocument(content)
        drawn = document[page].render(scale=_DOTS / _POINTS)
        picture = straightened(drawn.to_pil().convert("RGB"))
        return min(len(document), MOST_PAGES), picture, _POINTS / _DOTS
    return 1, opened_picture(content), 1.0


def opened_picture(content: bytes) -> Any:
    """A scan or a photo, upright and straight, as large as it is read."""
    from PIL import Image, ImageOps

    Image.MAX_IMAGE_PIXELS = _MOST_PIXELS
    picture = ImageOps.exif_transpose(Image.open(io.BytesIO(content)))
    picture.thumbnail((_LARGEST_SIDE, _LARGEST_SIDE))
    return straightened(picture.convert("RGB"))


def _words(found: Any, scale: float) -> Iterator[list[float | str]]:
    """Single words, as what stands close in neighbouring columns is found as one line."""
    if found.boxes is None:
        return
    lines = found.word_results or [None] * len(found.boxes)
    for box, text, score, parts in zip(found.boxes, found.txts, found.scores, lines, strict=False):
        if score < _LEAST_SCORE:
            continue
        pieces = [(part, corners) for part, _score, corners in parts or []]
        for word, corners in _whole(text, pieces) or [(text, list(box))]:
            across = [float(x) * scale for x, _y in corners]
            down = [float(y) * scale for _x, y in corners]
            yield [min(across), min(down), max(across), max(down), word]


def _whole(text: str, pieces: list[tuple[str, Any]]) -> list[tuple[str, list[Any]]]:
    """The words of a line, each with the corners of its pieces; none if the pieces don't fit."""
    words: list[tuple[str, list[Any]]] = []
    left = iter(pieces)
    for word in text.split():
        got, corners = "", []
        while len(got) < len(word):
            piece, edges = next(left, ("", None))
            if edges is None:
                return []
            got += piece.strip()
            corners += list(edges)
        if got != word:
            return []
        words.append((word, corners))
    return words
