"""Letters that our fonts do not have: drawn from a font of this computer, or as an empty box."""

import atexit
import os
import shutil
import tempfile
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from wellbook.support import paths

BOX = "□"
_OURS = "DejaVuSans.ttf"  # the bold and the narrow one have the same letters, but for rare ones
# Fonts with a picture of its block for every letter there is: no better than a box.
_NO_LETTERS = ("Last Resort", ".Last")
_UNSEEN = ("Cf", "Mn", "Me")  # joiners, variants and marks, which change the letter before them


class Drawn(NamedTuple):
    """A text as it can be drawn, and the families of the other fonts that it needs."""

    text: str
    families: tuple[str, ...]


class Font(NamedTuple):
    """A font of this computer."""

    family: str
    file: str


@lru_cache(maxsize=4096)
def drawn(text: str) -> Drawn:
    """The text with a box for each letter that no font here has."""
    if text.isascii() and text.isprintable():
        return Drawn(text, ())
    known = _letters()
    families: dict[str, None] = {}
    signs = []
    for sign in text:
        if ord(sign) in known:
            signs.append(sign)
        elif unicodedata.category(sign) == "Cc":
            signs.append(" ")
        elif font := other_font(sign):
            signs.append(sign)
            families[font.family] = None
        elif unicodedata.category(sign) not in _UNSEEN:
            signs.append(BOX)
    return Drawn("".join(signs), tuple(families))


def is_ours(sign: str) -> bool:
    """Whether our fonts have a letter."""
    return ord(sign) in _letters()


@lru_cache(maxsize=1024)
def other_font(sign: str) -> Font | None:
    """A font of this computer that has a letter which ours do not have."""
    return next((font for font in _fonts() if _has(font.file, ord(sign))), None)


@lru_cache(maxsize=1)
def _letters() -> frozenset[int]:
    from matplotlib.ft2font import FT2Font

    return frozenset(FT2Font(str(paths.resources() / "fonts" / _OURS)).get_charmap())


def _fonts() -> Iterator[Font]:
    """Upright fonts of normal weight first."""
    from matplotlib.font_manager import fontManager

    known = sorted(fontManager.ttflist, key=lambda one: (one.style != "normal", one.weight != 400))  # noqa: PLR2004
    for one in known:
        if not one.name.startswith(_NO_LETTERS):
            yield Font(one.name, one.fname)


def _has(file: str, sign: int) -> bool:
    from matplotlib.ft2font import FT2Font

    try:
        font = FT2Font(file)
        return bool(font.scalable and font.get_char_index(sign))
    except (OSError, RuntimeError):
        return False


@lru_cache(maxsize=1)
def prepare() -> None:
    """Point matplotlib to a cache folder that can be written, before it is first imported."""
    if os.environ.get("MPLCONFIGDIR"):
        return
    try:
        folder = paths.cache() / "matplotlib"
        folder.mkdir(exist_ok=True)
        tempfile.TemporaryFile(dir=folder).close()
        os.environ["MPLCONFIGDIR"] = str(folder)
    except OSError:
        passing = tempfile.mkdtemp(prefix="wellbook-")
        atexit.register(shutil.rmtree, passing, ignore_errors=True)
        os.environ["MPLCONFIGDIR"] = passing
