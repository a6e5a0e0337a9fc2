"""The words of a PDF: asked of a process of its own, which reads what somebody else made."""

from dataclasses import dataclass

from wellbook.sandbox import page_reader, process
from wellbook.sandbox.process import Busy, Parcel, Unread
from wellbook.support.errors import Fault
from wellbook.support.translation import _

_READER = "wellbook.sandbox.page_reader"


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
        Fault: It is damaged, too large, or holds no text.
    """
    try:
        told = process.ask(
            _READER, Parcel({"password": password}, content), seconds=process.SECONDS
        ).facts
    except Busy as why:
        raise Fault(f"{name}: {_(str(why))}.") from None
    except Unread as why:
        raise Fault(_beside(name, _(str(why)))) from None
    trouble = str(told["trouble"])
    if trouble == "password":
        raise Locked(_locked(name, is_wrong=bool(password)))
    if trouble:
        raise Fault(_beside(name, _("its pages can't be read")))
    pages = [[_word(word) for word in page] for page in told["pages"]]
    if not any(pages):
        raise Fault(
            _(
                "{name} is a PDF of pictures without text, such as a scan. Reading scans needs the "
                "extra wellbook[scans]; without it type the results beside the page (“Enter a test "
                "by hand”): the file is kept with the test."
            ).format(name=name)
        )
    return pages, int(told["count"])


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
