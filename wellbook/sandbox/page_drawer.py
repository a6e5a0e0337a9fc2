"""One page of a PDF, a scan or a photo as a picture: runs in a process of its own.

The picture stands as the words of the page were read, so that a word's box can be shown on it.
"""

import io
from typing import Any

from wellbook.sandbox import bounds
from wellbook.sandbox.page_reader import Upright, letters_of
from wellbook.sandbox.picture_reader import opened_picture
from wellbook.sandbox.process import Parcel
from wellbook.sandbox.straightening import straightened

_LARGEST_SIDE = 2000  # pixels; our own bounds, enough for small print on any screen
_MOST_SCALE = 2.0  # pixels a point


def main() -> None:
    """Answer with one page as PNG, and how boxes of its words lie on it."""
    try:
        asked = bounds.received()
        page, password = int(asked.facts["page"]), str(asked.facts.get("password", ""))
        bounds.answer(_drawn(asked.content, page, password))
    except MemoryError:
        bounds.out_of_memory()


def _drawn(content: bytes, number: int, password: str) -> Parcel:
    if b"%PDF" not in content[:1024]:
        picture = opened_picture(content)
        return _packed(picture, 1.0, (0.0, 0.0), 1)
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(content, password=password or None)
    except pypdfium2.PdfiumError:
        return Parcel({"trouble": "damaged"}, b"")
    if not 1 <= number <= len(document):
        return Parcel({"trouble": "no such page"}, b"")
    page = document[number - 1]
    scale = min(_MOST_SCALE, _LARGEST_SIDE / max(*page.get_size(), 1.0))
    letters = list(letters_of(page.get_textpage()))
    if not any(sign.strip() for (*_box, sign), _turn in letters):
        scan = straightened(page.render(scale=scale).to_pil())
        return _packed(scan, scale, (0.0, 0.0), len(document))
    upright = Upright.of(letters, page.get_mediabox()[3])
    unturned = (360 - page.get_rotation()) % 360
    picture = page.render(scale=scale, rotation=unturned).to_pil()
    shift = _shift(upright, page.get_cropbox())
    return _packed(_turned(picture, upright.turn), scale, shift, len(document))


def _turned(picture: Any, turn: int) -> Any:
    from PIL import Image

    how = {
        1: Image.Transpose.ROTATE_270,
        2: Image.Transpose.ROTATE_180,
        3: Image.Transpose.ROTATE_90,
    }
    return picture.transpose(how[turn]) if turn else picture


def _shift(upright: Upright, shown: tuple[float, float, float, float]) -> tuple[float, float]:
    """Points between the corner of what is drawn and the corner from which boxes are counted."""
    left, bottom, right, top = shown
    from_left, from_top = {
        0: (left, top), 1: (bottom, -left), 2: (-right, -bottom), 3: (-top, right)
    }[upright.turn]  # fmt: skip
    return upright.leftmost - from_left, from_top - upright.highest


def _packed(picture: Any, scale: float, shift: tuple[float, float], count: int) -> Parcel:
    before = max(picture.size)
    picture.thumbnail((_LARGEST_SIDE, _LARGEST_SIDE))
    scale *= max(picture.size) / max(before, 1)
    png = io.BytesIO()
    picture.convert("RGB").save(png, "PNG", compress_level=1)
    facts = {"trouble": "", "scale": scale, "left": shift[0], "top": shift[1], "count": count}
    return Parcel(facts, png.getvalue())
