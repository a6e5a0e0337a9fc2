"""A fingerprint of what each page draws, and of what stands beside the pages.

It tells which page is another one. It is no proof: whoever makes pages can make their fingerprints.
"""

import hashlib
from collections.abc import Mapping

from wellbook.pdf.own_form import Objects
from wellbook.pdf.sealing import OPEN_CODE, PRINTED_CODE
from wellbook.pdf.spelling import Object, Reference, Stream, Value, spelled

# Where a part belongs, of pages and bookmarks alone; `own_structure` looks after these.
_SKIPPED = frozenset({"Parent", "Prev", "Last"})
_LINKED = frozenset({"MediaBox", "Dest", "First"})
_OPEN = OPEN_CODE.encode()


def page_digests(objects: Objects, trailer: Mapping[str, Value]) -> list[str]:
    """SHA-256 of each page with all that it draws and links to; the check code itself is blanked.

    Raises:
        LookupError, TypeError: It is no file of pages.
    """
    walk = _Walk(objects, trailer)
    return [walk.of(objects[number]).hex() for number in walk.pages]


def beside_digest(objects: Objects, trailer: Mapping[str, Value]) -> str:
    """SHA-256 of properties, bookmarks, what is said of each file, and the rest of the catalogue.

    The bytes of the files have fingerprints of their own, in a list among them.
    """
    walk = _Walk(objects, trailer)
    catalogue = _table(walk.got(trailer["Root"]))
    rest = {key: value for key, value in catalogue.items() if key not in {"Pages", "Names"}}
    files = walk.told_of_files(_table(walk.got(catalogue["Names"])))
    return _hash(walk.of(rest), walk.of(walk.got(trailer["Info"])), *files).hex()


class _Walk:
    def __init__(self, objects: Objects, trailer: Mapping[str, Value]) -> None:
        self._objects = objects
        tree = _table(self.got(_table(self.got(trailer["Root"]))["Pages"]))
        kids = self.got(tree["Kids"])
        found = kids if isinstance(kids, list) else []
        self.pages = [one.number for one in found if isinstance(one, Reference)]
        self._places = {number: place for place, number in enumerate(self.pages)}
        self._data: dict[int, bytes] = {}
        self._plain: dict[tuple[type, Value], bytes] = {}  # the same few come again
        self._lists: dict[int, bytes] = {}  # of those that lead nowhere, such as a font's widths
        self._led = 0

    def got(self, found: Value) -> Object:
        return self._objects[found.number] if isinstance(found, Reference) else found

    def of(self, start: Object) -> bytes:
        """SHA-256 of a part and of all objects that it leads to, in the order they are met."""
        met: list[int] = []  # a chain of a thousand bookmarks is gone along, not down into
        order: dict[int, int] = {}
        first = self._told(_table(start), met, order)
        rest = [self._whole(number, met, order) for number in met]  # grows on the way
        return _hash(first, *rest)

    def told_of_files(self, names: dict[str, Value]) -> list[bytes]:
        """SHA-256 of what is said of each attached file: its names, its meaning, its kind."""
        listed = self.got(_table(self.got(names["EmbeddedFiles"]))["Names"])
        found = listed if isinstance(listed, list) else []
        told = []
        for one in found:
            if isinstance(whole := self.got(one), dict):
                held = self.got(_table(self.got(whole["EF"]))["F"])
                kind = held.facts.get("Subtype") if isinstance(held, Stream) else None
                said = {key: value for key, value in whole.items() if key != "EF"}
                told.append(self.of({**said, "Kind": kind}))
        return told

    def _whole(self, number: int, met: list[int], order: dict[int, int]) -> bytes:
        found = self._objects[number]
        if not isinstance(found, Stream):
            return self._told(found, met, order)
        if number not in self._data:  # fonts are drawn with on every page
            self._data[number] = _hash(found.data)
        return _hash(b"stream", self._told(found.facts, met, order), self._data[number])

    def _told(self, found: Value, met: list[int], order: dict[int, int]) -> bytes:
        if isinstance(found, Reference):
            return self._reference(found.number, met, order)
        if isinstance(found, dict):
            skipped = _SKIPPED if found.keys() & _LINKED else frozenset()
            parts = [
                part
                for key in sorted(found.keys() - skipped)
                for part in (key.encode(), self._told(found[key], met, order))
            ]
            return _hash(b"table", *parts)
        if isinstance(found, list):
            return self._list(found, met, order)
        key = (type(found), found)
        if key not in self._plain:
            self._plain[key] = _hash(b"plain", spelled(found))
        return self._plain[key]

    def _list(self, found: list[Value], met: list[int], order: dict[int, int]) -> bytes:
        """What a list tells; the objects of the file hold every list, so each has its own `id`."""
        if id(found) in self._lists:
            return self._lists[id(found)]
        led = self._led
        told = _hash(b"array", *(self._told(one, met, order) for one in found))
        if self._led == led:
            self._lists[id(found)] = told
        return told

    def _code(self, found: Object) -> bytes:
        """What draws the check code, without its letters, which follow from the whole file."""
        if not isinstance(found, Stream):
            raise TypeError("the check code is drawn by no form")
        blanked = PRINTED_CODE.sub(_OPEN, found.data)
        return _hash(b"code", self.of(found.facts), blanked)

    def _reference(self, number: int, met: list[int], order: dict[int, int]) -> bytes:
        self._led += 1
        if number in self._places:
            return _hash(b"page", str(self._places[number]).encode())
        if number == len(self._objects):
            return self._code(self._objects[number])
        if number not in order:
            order[number] = len(met)
            met.append(number)
        return _hash(b"part", str(order[number]).encode())


def _table(found: Object) -> dict[str, Value]:
    if not isinstance(found, dict):
        raise TypeError("no table stands where one should")
    return found


def _hash(*parts: bytes) -> bytes:
    digest = hashlib.sha256()
    for part in parts:
        digest.update(len(part).to_bytes(8) + part)
    return digest.digest()
