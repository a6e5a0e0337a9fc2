"""A page of one PDF as a form of another: only what it draws, nothing that it does or hides."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pypdf import PageObject, PdfWriter
    from pypdf.generic import (
        DecodedStreamObject,
        DictionaryObject,
        IndirectObject,
        PdfObject,
        StreamObject,
    )

# What can hold people's words or do something, and draws nothing.
_DROPPED = (
    "/Metadata", "/PieceInfo", "/LastModified", "/AA", "/A", "/OpenAction", "/JS", "/OPI",
    "/StructParent", "/StructParents", "/Thumb", "/Alternates", "/Measure", "/Ref",
)  # fmt: skip
# What holds things under names of the maker's choice, which may be any of those.
_NAMING = frozenset(
    {"/Font", "/XObject", "/Pattern", "/ExtGState", "/ColorSpace", "/Shading", "/Properties",
     "/CharProcs"}
)  # fmt: skip
_ELSEWHERE = ("/F", "/FFilter", "/FDecodeParms")  # of a stream: it lies in another file


def page_form(writer: "PdfWriter", drawing: "PageObject") -> "IndirectObject":
    """A page as a form in a writer's document."""
    from pypdf.generic import ArrayObject, NameObject

    made = _drawn(drawing)
    made[NameObject("/Type")] = NameObject("/XObject")
    made[NameObject("/Subtype")] = NameObject("/Form")
    made[NameObject("/BBox")] = ArrayObject(drawing.mediabox)
    made[NameObject("/Resources")] = _resources(writer, drawing)
    return added(writer, made.flate_encode())


def add_bare_page(writer: "PdfWriter", drawing: "PageObject") -> None:
    """Add a page to a writer's document with nothing but what it draws, its size and its turn."""
    from pypdf.generic import ArrayObject, NameObject, NumberObject

    made = writer.add_blank_page(1, 1)
    parts: dict[str, PdfObject] = {
        "/MediaBox": ArrayObject(drawing.mediabox),
        "/Rotate": NumberObject(drawing.rotation % 360),
        "/Resources": _resources(writer, drawing),
        "/Contents": added(writer, _drawn(drawing).flate_encode()),
    }
    for name, part in parts.items():
        made[NameObject(name)] = part


def added(writer: "PdfWriter", made: "StreamObject") -> "IndirectObject":
    """An object put into a writer's document."""
    return writer._add_object(made)  # noqa: SLF001  pypdf has no public way to add an object


def _drawn(drawing: "PageObject") -> "DecodedStreamObject":
    from pypdf.generic import DecodedStreamObject

    made = DecodedStreamObject()
    contents = drawing.get_contents()
    made.set_data(b"" if contents is None else contents.get_data())
    return made


def _resources(writer: "PdfWriter", drawing: "PageObject") -> "DictionaryObject":
    from pypdf.generic import DictionaryObject

    found: DictionaryObject = drawing.get("/Resources", DictionaryObject()).clone(writer)
    _strip(found, set())
    return found


def _strip(found: Any, seen: set[int], *, names: bool = False) -> None:
    """Take what is dropped out of an object and all that hangs on it."""
    from pypdf.generic import ArrayObject, DictionaryObject, StreamObject

    whole = found.get_object()
    if id(whole) in seen:
        return
    seen.add(id(whole))
    if isinstance(whole, DictionaryObject):
        for key in () if names else _DROPPED:
            whole.pop(key, None)
        for key in _ELSEWHERE if isinstance(whole, StreamObject) else ():
            whole.pop(key, None)
        for key in list(whole):
            _strip(whole.raw_get(key), seen, names=key in _NAMING and not names)
    elif isinstance(whole, ArrayObject):
        for one in whole:
            _strip(one, seen)
