"""From what pypdf holds to the one form in which a packet is written."""

import zlib
from typing import TYPE_CHECKING, Any

from pypdf.generic import (
    ArrayObject,
    BooleanObject,
    ByteStringObject,
    DictionaryObject,
    IndirectObject,
    NameObject,
    NullObject,
    StreamObject,
    TextStringObject,
)

from wellbook.pdf.own_form import Objects
from wellbook.pdf.spelling import Name, Object, Reference, Stream, Value

if TYPE_CHECKING:
    from pypdf import PdfWriter

_FLATE = Name("FlateDecode")


def collected(writer: "PdfWriter", last: IndirectObject) -> tuple[Objects, dict[str, Value]]:
    """The objects of a writer's document by number, and its trailer.

    Args:
        writer: The document.
        last: The object that draws the check code; it stands last.
    """
    root = writer.root_object.indirect_reference
    info = writer._info_obj  # noqa: SLF001  pypdf has no public way to it
    if root is None or info is None or info.indirect_reference is None:
        raise ValueError("a document without catalogue or properties")
    collecting = _Collecting(writer, last.idnum)
    first = [collecting.number(one.idnum) for one in (root, info.indirect_reference)]
    objects = collecting.all()
    trailer: dict[str, Value] = {
        key: Reference(number) for key, number in zip(("Root", "Info"), first, strict=True)
    }
    return objects, trailer


class _Collecting:
    """Numbers the objects that are reached, in the order in which they are."""

    def __init__(self, writer: "PdfWriter", last: int) -> None:
        self._writer, self._last = writer, last
        self._numbers: dict[int, int] = {}

    def number(self, own: int) -> int:
        """The number that an object of the writer gets; the last one is not known before all."""
        return 0 if own == self._last else self._numbers.setdefault(own, len(self._numbers) + 1)

    def all(self) -> dict[int, Object]:
        """Every object that is reached, by its new number."""
        found: dict[int, Object] = {}
        last = self._object(self._last)
        while len(found) < len(self._numbers):
            own = list(self._numbers)[len(found)]
            found[len(found) + 1] = self._object(own)
        end = len(found) + 1
        found[end] = last
        return {number: _ended(one, end) for number, one in found.items()}

    def _object(self, own: int) -> Object:
        found: Any = self._writer._objects[own - 1]  # noqa: SLF001  as above
        if not isinstance(found, StreamObject):
            return self._value(found)
        facts = {
            str(key)[1:]: self._value(found.raw_get(key))
            for key in dict.keys(found)
            if key != "/Length"
        }
        return _packed(facts, found)

    def _value(self, found: Any) -> Value:
        if isinstance(found, IndirectObject):
            return Reference(self.number(found.idnum))
        if isinstance(found, DictionaryObject):
            # A node of an outline goes through its children where it is gone through itself.
            return {_letters(key): self._value(found.raw_get(key)) for key in dict.keys(found)}
        if isinstance(found, ArrayObject):
            return [self._value(one) for one in list.__iter__(found)]
        if isinstance(found, NameObject):
            return Name(_letters(found))
        return _simple(found)


def _packed(facts: dict[str, Value], found: StreamObject) -> Stream:
    """A stream packed in one plain way; pictures, and what is not packed, stay as they are."""
    data = bytes(found._data)  # noqa: SLF001  pypdf has no public way to the packed bytes
    packing = facts.get("Filter")
    if packing == [_FLATE]:
        packing = facts["Filter"] = _FLATE
    if packing in (None, _FLATE) and "DecodeParms" not in facts:
        return Stream(facts, data)
    if facts.get("Subtype") == "Image":
        return Stream(facts, data)
    facts.pop("DecodeParms", None)
    return Stream({**facts, "Filter": _FLATE}, zlib.compress(found.get_data()))


def _letters(name: str) -> str:
    """A name without its slash, a letter for each of its bytes."""
    try:
        return name[1:].encode("latin-1").decode("latin-1")
    except UnicodeEncodeError:
        return name[1:].encode().decode("latin-1")


def _simple(found: Any) -> Value:
    if isinstance(found, BooleanObject):
        return bool(found.value)
    if isinstance(found, NullObject):
        return None
    if isinstance(found, TextStringObject | ByteStringObject):
        return bytes(found.original_bytes)
    if isinstance(found, int):
        return int(found)
    if isinstance(found, float):
        return float(found)
    raise TypeError(f"{type(found).__name__} has no place in a packet")


def _ended(found: Object, end: int) -> Object:
    """The same with the number of the last object where it was not known."""
    if isinstance(found, Reference):
        return Reference(found.number or end)
    if isinstance(found, Stream):
        return Stream({key: _ended_value(one, end) for key, one in found.facts.items()}, found.data)
    return _ended_value(found, end)


def _ended_value(found: Value, end: int) -> Value:
    if isinstance(found, Reference):
        return Reference(found.number or end)
    if isinstance(found, list):
        return [_ended_value(one, end) for one in found]
    if isinstance(found, dict):
        return {key: _ended_value(one, end) for key, one in found.items()}
    return found
