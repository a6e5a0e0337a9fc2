"""The one form in which a packet is written: objects in order, one table, nothing else.

    %PDF-1.7, a line of bytes, the mark of the form
    1 0 obj … endobj, 2 0 obj … endobj, … ; the last draws the check code
    xref, trailer, the seal, startxref, %%EOF

`read` takes this form and no other, byte for byte, so that no two readers can see two files in
it: no second definition, no update behind the end, no other table, no packed objects, no key.
"""

from collections.abc import Mapping

from wellbook.pdf.spelling import (
    Misspelled,
    Object,
    Reading,
    Reference,
    Stream,
    Value,
    spelled,
)

MARK = b"% Wellbook packet, form "
FORM = 2
HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n" + MARK + str(FORM).encode() + b"\n"
SEAL = b"% Wellbook seal, SHA-256 "
SEAL_LETTERS = 64
_MOST_OBJECTS = 200_000  # our own bound

Objects = Mapping[int, Object]


def written(objects: Objects, trailer: Mapping[str, Value], seal: bytes) -> bytes:
    """A file of these objects.

    Args:
        objects: By number, from 1 without a gap.
        trailer: What the trailer says beside `/Size`.
        seal: What stands as the seal, 64 letters.
    """
    parts, places, place = [HEAD], [], len(HEAD)
    for number in range(1, len(objects) + 1):
        body = f"{number} 0 obj\n".encode() + spelled(objects[number]) + b"\nendobj\n"
        places.append(place)
        parts.append(body)
        place += len(body)
    return b"".join((*parts, _tail(places, place, trailer, seal)))


def _tail(places: list[int], table: int, trailer: Mapping[str, Value], seal: bytes) -> bytes:
    entries = b"".join(f"{place:010d} 00000 n \n".encode() for place in places)
    size = len(places) + 1
    return (
        f"xref\n0 {size}\n0000000000 65535 f \n".encode()
        + entries
        + b"trailer\n"
        + spelled({**trailer, "Size": size})
        + b"\n"
        + SEAL
        + seal
        + f"\nstartxref\n{table}\n%%EOF\n".encode()
    )


def read(content: bytes) -> tuple[dict[int, Object], dict[str, Value]]:
    """The objects of a file by number, and its trailer without `/Size`.

    Raises:
        Misspelled: The file is not written in this form.
    """
    reading = Reading(content)
    reading.take(HEAD)
    objects: dict[int, Object] = {}
    places: list[int] = []
    while not content.startswith(b"xref\n", reading.place):
        number = len(objects) + 1
        if number > _MOST_OBJECTS:
            raise Misspelled
        places.append(reading.place)
        reading.take(f"{number} 0 obj\n".encode())
        objects[number] = reading.object()
        reading.take(b"\nendobj\n")
    table = reading.place
    reading.place = content.index(b"trailer\n", table) + len(b"trailer\n")
    trailer = reading.object()
    if not isinstance(trailer, dict) or trailer.pop("Size", None) != len(objects) + 1:
        raise Misspelled
    start = reading.place + len(b"\n") + len(SEAL)
    seal = content[start : start + SEAL_LETTERS]
    if content[table:] != _tail(places, table, trailer, seal):
        raise Misspelled
    return objects, trailer


def references(found: Object) -> list[int]:
    """The numbers of the objects that an object points to, each as often as it does."""
    waiting: list[Object] = [found]
    numbers = []
    while waiting:
        one = waiting.pop()
        if isinstance(one, Reference):
            numbers.append(one.number)
        elif isinstance(one, Stream):
            waiting += one.facts.values()
        elif isinstance(one, dict):
            waiting += one.values()
        elif isinstance(one, list):
            waiting += one
    return numbers
