"""How much work a page is for whoever draws it: a short page can ask for billions of drawings.

A form can draw others, each of them others again; so can the marks of a font and the tiles of a
pattern. What is in a packet must not keep its readers waiting.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pypdf import PageObject

MOST_DRAWINGS = 100_000  # of a page, our own bounds as all here
_MOST_IN_MARK = 100  # of one mark of a font, or one tile
_MOST_DOTS = 200_000_000  # of a picture; a letter page at 600 dots per inch has 34 million


class TooMuchError(Exception):
    """It is larger than what may be handed on."""


def check_effort(page: "PageObject") -> None:
    """Look through all that a page draws.

    Raises:
        TooMuchError: It would be too much work to draw.
    """
    contents = page.get_contents()
    if contents is not None:
        _Walk().of(contents, page.get("/Resources", {}))


class _Walk:
    """Counts the drawings of each part once, however often it is drawn."""

    def __init__(self) -> None:
        self._known: dict[int, int | None] = {}
        self._is_in_mark = False

    def of(self, stream: Any, around: Any) -> int:
        key = id(stream)
        if key not in self._known:
            self._known[key] = None
            self._known[key] = self._counted(stream, stream.get("/Resources", around).get_object())
        known = self._known[key]
        if known is None:
            raise TooMuchError  # it draws itself
        return known

    def _counted(self, stream: Any, resources: Any) -> int:
        from pypdf.generic import ContentStream

        self._marks_and_tiles(resources)
        forms = _entries(resources, "/XObject")
        total = 0
        for operands, operator in ContentStream(stream, None).operations:
            if operator == b"Do" and operands and operands[0] in forms:
                total += 1 + self._drawn(forms[operands[0]].get_object(), resources)
                if total > MOST_DRAWINGS:
                    raise TooMuchError
        return total

    def _drawn(self, drawing: Any, resources: Any) -> int:
        if drawing.get("/Subtype") == "/Form":
            return self.of(drawing, resources)
        if int(drawing.get("/Width", 0)) * int(drawing.get("/Height", 0)) > _MOST_DOTS:
            raise TooMuchError
        return 0

    def _marks_and_tiles(self, resources: Any) -> None:
        tiles = [one.get_object() for one in _entries(resources, "/Pattern").values()]
        found = [(one, resources) for one in tiles if one.get("/PatternType") == 1]
        for font in _entries(resources, "/Font").values():
            face = font.get_object()
            own = face.get("/Resources", resources)
            found += [(one.get_object(), own) for one in _entries(face, "/CharProcs").values()]
        fresh = [(one, own) for one, own in found if id(one) not in self._known]
        if fresh and self._is_in_mark:
            raise TooMuchError  # marks that are made of marks
        self._is_in_mark = True
        if any(self.of(one, own) > _MOST_IN_MARK for one, own in fresh):
            raise TooMuchError
        self._is_in_mark = False


def _entries(holder: Any, name: str) -> Any:
    return holder[name].get_object() if name in holder else {}
