"""A page of a document as a picture: drawn in a process of its own, since somebody else made it."""

from dataclasses import dataclass
from pathlib import Path

from wellbook.intake.files.kinds import Kind, files_in, kind_of
from wellbook.intake.files.sheets import Box, Place
from wellbook.sandbox import process
from wellbook.sandbox.process import Parcel, ReadFailed
from wellbook.support.errors import Fault
from wellbook.support.translation import _

_DRAWER = "wellbook.sandbox.page_drawer"
_DEEPEST = 3  # files inside of files that are looked into


@dataclass(frozen=True, slots=True)
class PagePicture:
    """One page, drawn.

    Attributes:
        png: The picture.
        scale: Pixels a point.
        left: Points from the picture's left edge to where boxes are counted from.
        top: Likewise from its upper edge.
        count: Pages of the document.
    """

    png: bytes
    scale: float
    left: float
    top: float
    count: int

    def pixels(self, box: Box) -> Box:
        """A box on the page as pixels of the picture."""
        left, top, right, bottom = box
        across, down = self.left, self.top
        return (
            (left + across) * self.scale,
            (top + down) * self.scale,
            (right + across) * self.scale,
            (bottom + down) * self.scale,
        )


def page_of_file(path: Path | None, place: Place, password: str = "") -> PagePicture:
    """The page of a file on which something stands; see `page_picture`.

    Raises:
        Fault: There is no file, or it can't be read or drawn.
    """
    if path is None:
        raise Fault(_("There is no page to show."))
    try:
        content = path.read_bytes()
    except OSError as error:
        said = _("{path} can’t be read: {problem}.")
        raise Fault(said.format(path=path, problem=error.strerror or error)) from None
    return page_picture(content, path.name, place, password)


def page_picture(content: bytes, name: str, place: Place, password: str = "") -> PagePicture:
    """The page of a document on which something stands.

    Args:
        content: The document, or a mail or an archive that holds it.
        name: Its name.
        place: Where; its sheet names the file inside of a mail or an archive.
        password: With which it opens.

    Raises:
        Fault: It can't be drawn.
    """
    asked = Parcel({"page": max(place.page, 1), "password": password}, _inner(content, name, place))
    try:
        told = process.ask(_DRAWER, asked, seconds=process.SECONDS)
    except ReadFailed as why:
        raise Fault(
            _("{name} can’t be shown: {what}.").format(name=name, what=_(str(why)))
        ) from None
    facts = told.facts
    if facts["trouble"]:
        what = _("its pages can’t be read")
        raise Fault(_("{name} can’t be shown: {what}.").format(name=name, what=what))
    return PagePicture(
        told.content,
        float(facts["scale"]),
        float(facts["left"]),
        float(facts["top"]),
        int(facts["count"]),
    )


def _inner(content: bytes, name: str, place: Place) -> bytes:
    """The document itself, out of what holds it."""
    wanted = place.sheet
    for _unused in range(_DEEPEST):
        kind = kind_of(content, name)
        if kind not in {Kind.ARCHIVE, Kind.MESSAGE}:
            return content
        inside = (one for one in files_in(content, kind, name) if one[0] and _is_in(wanted, one[0]))
        found = next(inside, None)
        if found is None:
            break
        name, content = found
        wanted = wanted.removeprefix(name).removeprefix(": ")
    return content


def _is_in(wanted: str, name: str) -> bool:
    return wanted == name or wanted.startswith(f"{name}: ")
