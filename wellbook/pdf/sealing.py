"""What a packet can be checked by: the check code and the seal, both over the bytes of the file.

Both are made of all bytes of the file, code and seal themselves blanked, before anybody reads it
as a PDF. Neither holds a key: whoever changes a file can make both anew. So the seal tells only
whether a file was damaged on its way, and the code tells something only if it is compared with the
code that the household tells: then the file is, byte for byte, the one that bears that code.
"""

import hashlib
import re
from dataclasses import dataclass

from wellbook.pdf.own_form import FORM, HEAD, MARK, SEAL, SEAL_LETTERS

CODE_FORM = "/CheckCode"  # the drawing that holds the code
LETTERS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # none that is taken for another
_CODE_LETTERS, _GROUP = 16, 4  # 80 bits
_BITS = 5
_DIGEST = 32
OPEN_CODE = "-".join(["0" * _GROUP] * (_CODE_LETTERS // _GROUP))
OPEN_SEAL = b"0" * SEAL_LETTERS
CODE_SHAPE = rb"[0-9A-Z]{4}(?:-[0-9A-Z]{4}){3}"  # how a code is printed, as a pattern
_BEFORE_CODE, _BEHIND_CODE = b" Td (", b") Tj ET\nendstream\nendobj\nxref\n"
_CODE = re.compile(re.escape(_BEFORE_CODE) + b"(" + CODE_SHAPE + b")" + re.escape(_BEHIND_CODE))
_SEALED = re.compile(re.escape(SEAL) + rb"([0-9a-f]{64})\nstartxref\n[0-9]{1,12}\n%%EOF\n\Z")
_FORM_NUMBER = re.compile(re.escape(MARK) + rb"([0-9]{1,6})\n")
_FORMER_SEAL = re.compile(re.escape(SEAL) + rb"[0-9a-f]{64}\nstartxref\n")
PRINTED_CODE = re.compile(rb"(?<=\()" + CODE_SHAPE + rb"(?=\))")
_TAIL = 400  # bytes in which the seal stands
_TAKEN_FOR = str.maketrans({"O": "0", "I": "1", "L": "1", "U": "V"})


@dataclass(frozen=True, slots=True)
class Marks:
    """What a file says of its own bytes, and what they say.

    Attributes:
        code: The code that its bytes have.
        printed: The code that is drawn in it.
        is_sealed: Whether the seal fits the bytes.
    """

    code: str
    printed: str
    is_sealed: bool


def code_drawing(size: float) -> bytes:
    """What draws the check code, with the code still open."""
    return f"BT /F1 {size:g} Tf 0 3 Td ({OPEN_CODE}) Tj ET".encode()


def form_of(content: bytes) -> int | None:
    """The number of the form in which a packet was written; None if it bears no mark of one.

    The first packets bore none, only a seal: theirs is 1.
    """
    start = HEAD.index(MARK)
    found = _FORM_NUMBER.match(content, start)
    if found and content[:start] == HEAD[:start]:
        return int(found[1])
    return 1 if _FORMER_SEAL.search(content[-_TAIL:]) else None


def marks(content: bytes) -> Marks | None:
    """Code and seal of a file; None if they don't stand where they do in ours."""
    if form_of(content) != FORM:
        return None
    seal = _SEALED.search(content, max(len(content) - _TAIL, 0))
    place = content.rfind(b"endobj\nxref\n") - 200
    code = _CODE.search(content, max(place, 0))
    if seal is None or code is None:
        return None
    blanked = (
        content[: code.start(1)]
        + OPEN_CODE.encode()
        + content[code.end(1) : seal.start(1)]
        + OPEN_SEAL
        + content[seal.end(1) :]
    )
    made = _code(hashlib.sha256(blanked).digest())
    with_code = content[: seal.start(1)] + OPEN_SEAL + content[seal.end(1) :]
    is_sealed = hashlib.sha256(with_code).hexdigest().encode() == seal[1]
    return Marks(made, code[1].decode(), is_sealed)


def sealed(content: bytes) -> bytes:
    """A file with its check code drawn and its seal set, whatever stood there before.

    Raises:
        ValueError: It is no file of ours.
    """
    found = marks(content)
    if found is None:
        raise ValueError("a file that has no place for code and seal")
    place = content.rindex(found.printed.encode() + _BEHIND_CODE)
    coded = content[:place] + found.code.encode() + content[place + len(found.code) :]
    start = coded.rindex(SEAL) + len(SEAL)
    opened = coded[:start] + OPEN_SEAL + coded[start + SEAL_LETTERS :]
    digest = hashlib.sha256(opened).hexdigest().encode()
    return opened[:start] + digest + opened[start + SEAL_LETTERS :]


def same_code(told: str, code: str) -> bool:
    """Whether a code that somebody told is this one; blanks, dashes and look-alikes don't count."""
    letters = re.sub(r"[\s\-–—]", "", told).upper().translate(_TAKEN_FOR)
    return letters == code.replace("-", "")


def _code(digest: bytes) -> str:
    """The code that stands on the cover, e.g. `7QK2-9M4D-XB0T-5R8W`."""
    number = int.from_bytes(digest)
    letters = [
        LETTERS[number >> _DIGEST * 8 - _BITS * (place + 1) & 31] for place in range(_CODE_LETTERS)
    ]
    groups = ["".join(letters[start : start + _GROUP]) for start in range(0, len(letters), _GROUP)]
    return "-".join(groups)
