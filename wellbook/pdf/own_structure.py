"""What a packet is made of, and nothing else: no script, form, layer, remark or hidden page.

Each part may have the keys that a packet gives it. A key that a viewer heeds and nobody looks at
is a way to show another thing than what was checked. Names of keys are those of ISO 32000-1.
"""

import hashlib
import re
import zlib
from collections.abc import Iterator, Mapping
from typing import TypeAlias

from wellbook.pdf.own_form import Objects, references
from wellbook.pdf.sealing import CODE_FORM, CODE_SHAPE
from wellbook.pdf.spelling import Misspelled, Name, Object, Reference, Stream, Value
from wellbook.pdf.xmp import metadata

Table: TypeAlias = "Mapping[str, Value]"

# As `sealing.code_drawing` writes it, and nothing beside it.
_DRAWN_CODE = re.compile(rb"BT /F1 [0-9.]+ Tf 0 3 Td \(" + CODE_SHAPE + rb"\) Tj ET")
_MOST_UNPACKED = 2_000_000_000  # bytes of all streams together; our own bound
_MOST_HELD = 600_000_000  # bytes of one attached file, likewise
_CATALOGUE = {"Type", "Pages", "Names", "Outlines", "PageMode", "Lang", "ViewerPreferences",
              "Metadata"}  # fmt: skip
_RELATIONS = {"Data", "Source", "Supplement"}  # ISO 32000-2, table 43
_INFO = {"Author", "CreationDate", "Creator", "Keywords", "ModDate", "Producer", "Subject",
         "Title", "Trapped"}  # fmt: skip
_PAGE = {"Type", "Parent", "MediaBox", "Contents", "Resources", "Annots"}
_LINK = {"Type", "Subtype", "Rect", "Border", "Dest"}
_BOOKMARK = {"Title", "Parent", "Prev", "Next", "First", "Last", "Count", "Dest"}
_FILE = {"Type", "F", "UF", "EF", "Desc", "AFRelationship"}
_HELD = {"Type", "Subtype", "Filter", "Params"}
_RESOURCES = {"Font", "XObject", "ExtGState", "Pattern", "Shading", "ColorSpace", "ProcSet",
              "Properties"}  # fmt: skip
# What holds things under names of the maker's choice.
_NAMING = _RESOURCES | {"CharProcs"}
# What does something, hides something, or lies elsewhere.
_NOWHERE = frozenset(
    {"A", "AA", "AF", "Alternates", "Annots", "EF", "FDecodeParms", "FFilter", "FS", "JS",
     "JavaScript", "Metadata", "Names", "OC", "OCGs", "OCProperties", "OPI", "OpenAction",
     "PieceInfo", "Ref", "StructParent", "StructParents", "Thumb", "URI", "XFA"}
)  # fmt: skip


def check_structure(objects: Objects, trailer: Table) -> None:
    """Look whether a file is made as a packet is.

    Raises:
        Misspelled: It is not.
    """
    _Structure(objects, trailer).check()


def _require(is_so: object) -> None:
    if not is_so:
        raise Misspelled


class _Structure:
    def __init__(self, objects: Objects, trailer: Table) -> None:
        self._objects, self._trailer = objects, trailer
        self._pages: list[int] = []

    def check(self) -> None:
        _require(self._trailer.keys() == {"Root", "Info"})
        catalogue = self._table(self._trailer["Root"], _CATALOGUE)
        _require(catalogue.get("Type") == "Catalog")
        self._check_info(catalogue)
        self._check_pages(catalogue["Pages"])
        self._check_files(self._table(catalogue["Names"], {"EmbeddedFiles"}))
        self._check_bookmarks(catalogue)
        self._table(catalogue.get("ViewerPreferences", {}), {"DisplayDocTitle"})
        self._check_code()
        self._check_reached()
        self._check_streams()

    def _get(self, found: Value) -> Object:
        if isinstance(found, Reference):
            _require(found.number in self._objects)
            return self._objects[found.number]
        return found

    def _table(self, found: Value, keys: set[str]) -> Table:
        table = self._get(found)
        _require(isinstance(table, dict) and table.keys() <= keys)
        return table if isinstance(table, dict) else {}

    def _array(self, found: Value) -> list[Value]:
        array = self._get(found)
        _require(isinstance(array, list))
        return array if isinstance(array, list) else []

    def _stream(self, found: Value) -> Stream:
        stream = self._get(found)
        if not isinstance(stream, Stream):
            raise Misspelled
        return stream

    def _check_info(self, catalogue: Table) -> None:
        """The properties, and the same once more as XMP where a packet has that."""
        told = self._table(self._trailer["Info"], _INFO)
        _require(all(isinstance(value, bytes | Name) for value in told.values()))
        if "Metadata" in catalogue:
            again = self._stream(catalogue["Metadata"])
            _require(again.facts == {"Type": Name("Metadata"), "Subtype": Name("XML")})
            said = {key: value for key, value in told.items() if isinstance(value, bytes)}
            _require(again.data == metadata(said))

    def _check_pages(self, root: Value) -> None:
        """One flat list, each page in it once, all of one size, drawn as they lie."""
        tree = self._table(root, {"Type", "Kids", "Count"})
        kids = self._array(tree["Kids"])
        self._pages = [one.number for one in kids if isinstance(one, Reference)]
        _require(len(kids) == len(set(self._pages)) == tree["Count"])
        sizes = set()
        for number in self._pages:
            page = self._table(Reference(number), _PAGE)
            _require(page["Type"] == "Page" and page["Parent"] == root)
            sizes.add(tuple(map(str, self._array(page["MediaBox"]))))
            contents = page["Contents"]
            for part in contents if isinstance(contents, list) else [contents]:
                _require(self._stream(part).facts.keys() <= {"Filter"})
            for link in self._array(page.get("Annots", [])):
                self._check_link(link)
            self._check_resources(page["Resources"])
        _require(len(sizes) == 1)

    def _check_link(self, found: Value) -> None:
        link = self._table(found, _LINK)
        _require(link["Type"] == "Annot" and link["Subtype"] == "Link")
        self._check_target(link["Dest"])

    def _check_target(self, found: Value) -> None:
        target = self._array(found)
        page = target[0] if target else None
        _require(isinstance(page, Reference) and page.number in self._pages)

    def _check_resources(self, found: Value) -> None:
        self._table(found, _RESOURCES)
        waiting: list[tuple[Value, bool]] = [(found, False)]
        seen: set[int] = set()
        while waiting:
            value, names = waiting.pop()
            if isinstance(value, Reference):
                if value.number in seen:
                    continue
                seen.add(value.number)
            waiting += self._below(self._get(value), names=names)

    def _below(self, one: Object, *, names: bool) -> Iterator[tuple[Value, bool]]:
        if isinstance(one, list):
            yield from ((part, False) for part in one)
            return
        facts = one.facts if isinstance(one, Stream) else one
        if not isinstance(facts, dict):
            return
        _require(names or not facts.keys() & _NOWHERE)
        _require(not isinstance(one, Stream) or "F" not in facts)
        _require(names or facts.get("Type") not in {"Page", "Pages", "Catalog"})
        for key, value in facts.items():
            yield value, key in _NAMING and not names

    def _check_files(self, names: Table) -> None:
        listed = self._array(self._table(names["EmbeddedFiles"], {"Names"})["Names"])
        told = listed[::2]
        said = [one for one in told if isinstance(one, bytes)]
        _require(len(said) == len(told) == len(set(said)) == len(listed) / 2)
        _require(said == sorted(said))
        for name, found in zip(said, listed[1::2], strict=True):
            file = self._table(found, _FILE)
            _require(file["Type"] == "Filespec" and file["F"] == name)
            _require(file.get("UF", name) == name)
            _require(file.get("AFRelationship", "Data") in _RELATIONS)
            held = self._stream(self._table(file["EF"], {"F"})["F"])
            _require(held.facts.keys() <= _HELD)
            body = _unpacked(held)
            params = self._table(held.facts["Params"], {"CheckSum", "Size"})
            digest = hashlib.md5(body, usedforsecurity=False).digest()
            _require(params == {"CheckSum": digest, "Size": len(body)})

    def _check_bookmarks(self, catalogue: Table) -> None:
        if "Outlines" not in catalogue:
            return
        self._table(catalogue["Outlines"], {"Type", "First", "Last", "Count"})
        waiting = [catalogue["Outlines"]]
        seen: set[int] = set()
        while waiting:
            waiting += self._check_below(waiting.pop(), seen)

    def _check_below(self, parent: Value, seen: set[int]) -> Iterator[Value]:
        """The bookmarks under one, in a row that is the same forwards and backwards."""
        holder = self._get(parent)
        facts = holder if isinstance(holder, dict) else {}
        before, one = None, facts.get("First")
        while one is not None:
            if not isinstance(one, Reference) or one.number in seen:
                raise Misspelled
            seen.add(one.number)
            mark = self._table(one, _BOOKMARK)
            _require(isinstance(mark["Title"], bytes) and mark["Parent"] == parent)
            _require(mark.get("Prev") == before)
            self._check_target(mark["Dest"])
            yield one
            before, one = one, mark.get("Next")
        _require(facts.get("Last") == before)

    def _check_code(self) -> None:
        """The last object is drawn once: as the check code, on one of the pages."""
        last = len(self._objects)
        used = [number for one in self._objects.values() for number in references(one)]
        _require(used.count(last) == 1)
        drawn = []
        for number in self._pages:
            resources = self._table(self._table(Reference(number), _PAGE)["Resources"], _RESOURCES)
            forms = self._get(resources.get("XObject", {}))
            if isinstance(forms, dict):
                drawn.append(forms.get(CODE_FORM[1:]))
        _require(Reference(last) in drawn)
        form = self._stream(Reference(last))
        _require(form.facts.keys() == {"BBox", "Resources", "Subtype", "Type"})
        _require(_DRAWN_CODE.fullmatch(form.data))

    def _check_reached(self) -> None:
        """Nothing lies in the file that nothing points to."""
        waiting = references(dict(self._trailer))
        seen: set[int] = set()
        while waiting:
            number = waiting.pop()
            _require(number in self._objects)
            if number not in seen:
                seen.add(number)
                waiting += references(self._objects[number])
        _require(seen == self._objects.keys())

    def _check_streams(self) -> None:
        """What is packed unpacks to its end, and pictures alone are packed in other ways."""
        room = _MOST_UNPACKED
        for one in self._objects.values():
            if not isinstance(one, Stream):
                continue
            packing = one.facts.get("Filter")
            if packing == "FlateDecode":
                room -= _unpacked_size(one.data, room)
            elif packing is not None:
                _require(one.facts.get("Subtype") == "Image")
            _require("DecodeParms" not in one.facts or one.facts.get("Subtype") == "Image")


def _unpacked(held: Stream) -> bytes:
    """The bytes of an attached file, no more of them than may be unpacked."""
    if held.facts.get("Filter") is None:
        return held.data
    _require(held.facts["Filter"] == "FlateDecode")
    unpacking = zlib.decompressobj()
    try:
        body = unpacking.decompress(held.data, _MOST_HELD)
    except zlib.error as error:
        raise Misspelled from error
    _require(unpacking.eof and not unpacking.unused_data)
    return body


def _unpacked_size(packed: bytes, room: int) -> int:
    unpacking, size = zlib.decompressobj(), 0
    try:
        rest = packed
        while not unpacking.eof:
            part = unpacking.decompress(rest, 1_000_000)
            size += len(part)
            _require((part or unpacking.eof) and size <= room)
            rest = unpacking.unconsumed_tail
    except zlib.error as error:
        raise Misspelled from error
    _require(not unpacking.unused_data)
    return size
