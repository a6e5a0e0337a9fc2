"""A page of one PDF as a form of another: only what it draws, nothing that it does or hides."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pypdf import PageObject, PdfWriter
    from pypdf.generic import IndirectObject, StreamObject

# What can hold people's words or do something, and draws nothing.
_DROPPED = (
    "/Metadata", "/PieceInfo", "/LastModified", "/AA", "/A", "/OpenAction", "/JS", "/OPI",
    "/StructParent", "/StructParents", "/Thumb", "/Alternates", "/Measure", "/Ref",
)  # fmt: skip


def page_form(writer: "PdfWriter", drawing: "PageObject") -> "IndirectObject":
    """A page as a form in a writer's document."""
    from pypdf.generic import ArrayObject, DecodedStreamObject, DictionaryObject, NameObject

    made = DecodedStreamObject()
    contents = drawing.get_contents()
    made.set_data(b"" if contents is None else contents.get_data())
    made[NameObject("/Type")] = NameObject("/XObject")
    made[NameObject("/Subtype")] = NameObject("/Form")
    made[NameObject("/BBox")] = ArrayObject(drawing.mediabox)
    resources = drawing.get("/Resources", DictionaryObject()).clone(writer)
    _strip(resources, set())
    made[NameObject("/Resources")] = resources
    return added(writer, made.flate_encode())


def added(writer: "PdfWriter", made: "StreamObject") -> "IndirectObject":
    """An object put into a writer's document."""
    return writer._add_object(made)  # noqa: SLF001  pypdf has no public way to add an object


def _strip(found: Any, seen: set[int]) -> None:
    """Take what is dropped out of an object and all that hangs on it."""
    from pypdf.generic import ArrayObject, DictionaryObject

    whole = found.get_object()
    if id(whole) in seen:
        return
    seen.add(id(whole))
    if isinstance(whole, DictionaryObject):
        for key in _DROPPED:
            whole.pop(key, None)
        for key in list(whole):
            _strip(whole.raw_get(key), seen)
    elif isinstance(whole, ArrayObject):
        for one in whole:
            _strip(one, seen)
