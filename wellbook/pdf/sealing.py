"""What a packet can be checked by: a digest of each page, the check code, the seal of the file.

The check code stands on the cover and covers every page and every attached file; whoever forges a
packet can make a new one, but not the one that the household reads out. The seal covers every byte
of the file; it breaks when another program writes the file again, which says nothing of the facts.
"""

import hashlib
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from pypdf import PageObject

CODE_FORM = "/CheckCode"  # the drawing that holds the code; it can't cover itself
_LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # none that is taken for another
_CODE_LETTERS, _GROUP = 16, 4  # 80 bits
_BITS = 5
_DIGEST = 32
SEAL = b"% Wellbook seal, SHA-256 "
_SEAL = re.compile(SEAL + rb"([0-9a-f]{64})\n")
_OPEN = b"0" * 64
_END = b"startxref"
_LOSSLESS = frozenset({"/FlateDecode", "/ASCII85Decode", "/ASCIIHexDecode", "/LZWDecode"})
# Where a page belongs, and what names the form of a stream and not what is in it.
_SKIPPED = frozenset({"/Parent", "/P", "/Length", "/Filter", "/DecodeParms", CODE_FORM})


def page_digests(pages: "Sequence[PageObject]") -> tuple[bytes, ...]:
    """A digest of each page with all that it draws: streams, fonts, pictures, links."""
    numbers = {
        page.indirect_reference.idnum: place
        for place, page in enumerate(pages)
        if page.indirect_reference is not None
    }
    walk = _Walk(numbers)
    return tuple(walk.of(page, page=True) for page in pages)


def check_code(manifest: bytes, pages: Sequence[bytes]) -> str:
    """The code that stands on the cover, e.g. `7QK2-9M4D-XB0T-5R8W`."""
    whole = hashlib.sha256(hashlib.sha256(manifest).digest() + b"".join(pages)).digest()
    number = int.from_bytes(whole)
    letters = [
        _LETTERS[number >> _DIGEST * 8 - _BITS * (place + 1) & 31] for place in range(_CODE_LETTERS)
    ]
    groups = ["".join(letters[start : start + _GROUP]) for start in range(0, len(letters), _GROUP)]
    return "-".join(groups)


def sealed(content: bytes) -> bytes:
    """The file with a digest of all its bytes in a comment before its last table's address."""
    place = content.rindex(_END)
    line = SEAL + _OPEN + b"\n"
    whole = content[:place] + line + content[place:]
    digest = hashlib.sha256(whole).hexdigest().encode()
    return content[:place] + line.replace(_OPEN, digest) + content[place:]


def seal_holds(content: bytes) -> bool:
    """Whether a file is byte for byte as it was sealed."""
    found = list(_SEAL.finditer(content))
    if not found:
        return False
    start, end = found[-1].span(1)
    opened = content[:start] + _OPEN + content[end:]
    return hashlib.sha256(opened).hexdigest().encode() == found[-1][1]


class _Walk:
    """Digests of the parts of a PDF, whatever numbers its objects bear."""

    def __init__(self, pages: Mapping[int, int]) -> None:
        self._pages = pages
        self._known: dict[tuple[int, int], bytes] = {}

    def of(self, found: Any, *, page: bool = False) -> bytes:
        from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

        if isinstance(found, IndirectObject):
            return self._reference(found)
        if isinstance(found, DictionaryObject):
            if found.get("/Type") == "/Page" and not page:
                return b"page"
            return self._dictionary(found)
        if isinstance(found, ArrayObject):
            return _hash(b"array", *map(self.of, found))
        return _hash(b"plain", _plain(found))

    def _reference(self, found: Any) -> bytes:
        if found.idnum in self._pages:  # a link to a page is the page's place
            return _hash(b"page", str(self._pages[found.idnum]).encode())
        key = (found.idnum, found.generation)
        if key not in self._known:
            self._known[key] = b"again"  # a part that leads back to itself
            self._known[key] = self.of(found.get_object())
        return self._known[key]

    def _dictionary(self, found: Any) -> bytes:
        from pypdf.generic import StreamObject

        parts = [
            part
            for key in sorted(found.keys() - _SKIPPED)
            for part in (str(key).encode(), self.of(found.raw_get(key)))
        ]
        return _hash(
            b"table", *parts, *([_stream(found)] if isinstance(found, StreamObject) else [])
        )


def _stream(found: Any) -> bytes:
    """What a stream holds: unpacked where it was packed without loss, else as it is (pictures)."""
    named = found.get("/Filter", ())
    if {str(one) for one in ([named] if isinstance(named, str) else named)} <= _LOSSLESS:
        return bytes(found.get_data())
    return bytes(found._data)  # noqa: SLF001  pypdf has no public way to the packed bytes


def _plain(found: Any) -> bytes:
    if isinstance(found, bool):
        return str(found).encode()
    if isinstance(found, int | float):  # writers print the same number in several ways
        return f"{float(found):.4f}".encode()
    return found if isinstance(found, bytes) else str(found).encode("utf-8", "surrogatepass")


def _hash(*parts: bytes) -> bytes:
    digest = hashlib.sha256()
    for part in parts:
        digest.update(len(part).to_bytes(8) + part)
    return digest.digest()
