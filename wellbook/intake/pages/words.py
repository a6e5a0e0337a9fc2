"""The words of a PDF: asked of a process of its own, which reads what somebody else made."""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from importlib.util import find_spec
from itertools import accumulate

from wellbook.intake.files.sheets import Box
from wellbook.sandbox import page_reader, process
from wellbook.sandbox.process import Busy, Parcel, ReadFailed
from wellbook.support.errors import Fault
from wellbook.support.translation import _

Watch = Callable[[int, int], object]

EXTRA = "wellbook[scans]"  # what reads pictures
_READER = "wellbook.sandbox.page_reader"
_PICTURES = "wellbook.sandbox.picture_reader"
_SECONDS = 60.0  # of the processor for a page; it takes about eight
_MEMORY = 6_000_000_000  # bytes of addresses; a page takes about one of memory
# Pages there are and those that were read of the last file, by its SHA-256: it is read anew when a
# person says what its columns or its dates mean, or goes on after stopping.
_seen: dict[str, tuple[int, tuple[list["Word"], ...]]] = {}


class Locked(Fault):
    """The PDF opens with a password only."""


@dataclass(frozen=True, slots=True)
class Word:
    """A word in its box, in points from the left and from the top of its page."""

    left: float
    top: float
    right: float
    bottom: float
    text: str

    @property
    def height(self) -> float:
        """The height of its letters."""
        return max(self.bottom - self.top, 1.0)


def words_of(content: bytes, name: str, password: str) -> tuple[list[list[Word]], int]:
    """The words of each page in the file's order, and how many pages the file has.

    Raises:
        Locked: It opens with a password only, or with another one.
        Fault: It is damaged or too large.
    """
    try:
        told = process.ask(
            _READER, Parcel({"password": password}, content), seconds=process.SECONDS
        ).facts
    except Busy as why:
        raise Fault(f"{name}: {_(str(why))}.") from None
    except ReadFailed as why:
        raise Fault(_beside(name, _(str(why)))) from None
    trouble = str(told["trouble"])
    if trouble == "password":
        raise Locked(_locked(name, is_wrong=bool(password)))
    if trouble:
        raise Fault(_beside(name, _("its pages can’t be read")))
    pages = [[_word(word) for word in page] for page in told["pages"]]
    return pages, int(told["count"])


def places_of(content: bytes, name: str, phrases: Sequence[str]) -> list[list[Box]]:
    """Where phrases stand on each page of a PDF: a box for each word of theirs.

    Raises:
        Fault: The file is damaged or too large.
    """
    wanted = [phrase.casefold() for phrase in phrases if phrase.strip()]
    pages, _count = words_of(content, name, "")
    return [list(_boxes(page, wanted)) for page in pages]


def _boxes(page: Sequence[Word], phrases: Sequence[str]) -> Iterator[Box]:
    """Boxes of the words that a phrase reaches over, in the order in which they are read."""
    ends = list(accumulate(len(word.text) + 1 for word in page))
    text = " ".join(word.text.casefold() for word in page)
    met: set[int] = set()
    for phrase in phrases:
        at = text.find(phrase)
        while at >= 0:
            met.update(range(bisect_right(ends, at), bisect_right(ends, at + len(phrase) - 1) + 1))
            at = text.find(phrase, at + len(phrase))
    for number in sorted(met):
        word = page[number]
        yield word.left, word.top, word.right, word.bottom


def nobody_watches(_read: int, _count: int) -> None:
    """Nobody looks on, nor asks to stop."""


def words_in_picture(content: bytes, name: str, watch: Watch = nobody_watches) -> list[list[Word]]:
    """The words of each page of a scan or a photo; none of them is certain.

    Args:
        content: The picture, or a PDF of pictures.
        name: Its name.
        watch: Called all the while with the pages that are read and how many there are (0: not
            known); what it raises ends the reading.

    Raises:
        Fault: The extra that reads pictures is not there, or nothing can be read.
    """
    if find_spec("rapidocr") is None or find_spec("onnxruntime") is None:
        raise Fault(
            _(
                "{name} is a picture, or a scan without text. Reading it needs the extra "
                "{extra}; without it type the results beside the page (“Enter a test by "
                "hand”): the file is kept with the test."
            ).format(name=name, extra=EXTRA)
        )
    digest = sha256(content).hexdigest()
    count, known = _seen.get(digest, (0, ()))
    pages = list(known)
    try:
        while not pages or len(pages) < count:
            told = process.ask(
                _PICTURES,
                Parcel({"page": len(pages)}, content),
                seconds=_SECONDS,
                memory=_MEMORY,
                check_cancelled=partial(watch, len(pages), count),
            ).facts
            count = int(told["count"])
            pages.append([_word(word) for word in told["words"]])
            _seen.clear()
            _seen[digest] = count, tuple(pages)
    except ReadFailed as why:
        raise Fault(
            _(
                "{name} is a picture, and {what}. Type the results beside the page (“Enter a test "
                "by hand”): the file is kept with the test."
            ).format(name=name, what=_(str(why)))
        ) from None
    return pages


def most_pages() -> int:
    """How many pages of a file are read."""
    return page_reader.MOST_PAGES


def _word(facts: list[float | str]) -> Word:
    left, top, right, bottom, text = facts
    return Word(float(left), float(top), float(right), float(bottom), str(text))


def _beside(name: str, what: str) -> str:
    return _(
        "{name} is a PDF, and {what}. Ask the lab for the results as CSV or XLSX, or type them "
        "beside the page (“Enter a test by hand”): the file is kept with the test."
    ).format(name=name, what=what)


def _locked(name: str, *, is_wrong: bool) -> str:
    if is_wrong:
        return _("{name} does not open with this password.").format(name=name)
    return _(
        "{name} is locked with a password: give the one that the lab sent (--password)."
    ).format(name=name)
