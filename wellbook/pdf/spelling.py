"""The values of a PDF, each spelled in exactly one way.

A PDF can spell one value in many ways, and readers differ in which they accept. What is spelled
here is read alike by all; what is not spelled like this was not written here. PDF 1.7 (ISO
32000-1), 7.3 tells what the spellings mean.
"""

import re
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TypeAlias

_DEEPEST = 60  # values inside of values; our own bound
_PLACES = 5  # behind the decimal point
_PLAIN = frozenset(range(0x21, 0x7F)) - frozenset(b"()<>[]{}/%#")
_NAME = re.compile(rb"/((?:[!-\x22$&'*-.0-;=?-Z\\^-z|~]|#[0-9A-F]{2})+)")
_REFERENCE = re.compile(rb"([1-9][0-9]{0,7}) 0 R")
_NUMBER = re.compile(rb"-?[0-9]{1,12}(\.[0-9]{1,5})?")
_STRING = re.compile(rb"<((?:[0-9A-F]{2})*)>")
_WORDS = {b"true": True, b"false": False, b"null": None}


class Misspelled(ValueError):
    """It is not spelled as it is here."""


class Name(str):
    """A name, without its slash; each letter stands for one byte."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class Reference:
    """An object by its number."""

    number: int


@dataclass(slots=True)
class Stream:
    """A dictionary with bytes; their number, `/Length`, is not in the dictionary."""

    facts: "dict[str, Value]"
    data: bytes = field(repr=False)


Value: TypeAlias = "float | bytes | Name | Reference | list[Value] | dict[str, Value] | None"
Object: TypeAlias = "Value | Stream"


def spelled(value: Object) -> bytes:
    """A value as it stands in the file."""
    if isinstance(value, Stream):
        facts = spelled({**value.facts, "Length": len(value.data)})
        return facts + b"\nstream\n" + value.data + b"\nendstream"
    if isinstance(value, dict):
        inner = b" ".join(_name(key) + b" " + spelled(value[key]) for key in sorted(value))
        return b"<<" + inner + b">>"
    if isinstance(value, list):
        return b"[" + b" ".join(map(spelled, value)) + b"]"
    return _simple(value)


def _simple(value: float | bytes | Name | Reference | None) -> bytes:
    if isinstance(value, Name):
        return _name(value)
    if isinstance(value, Reference):
        return b"%d 0 R" % value.number
    if value is None:
        return b"null"
    if isinstance(value, bool):
        return b"true" if value else b"false"
    if isinstance(value, bytes):
        return b"<" + value.hex().upper().encode() + b">"
    return _number(value)


@lru_cache(maxsize=1000)  # a file has some hundred names, each many times
def _name(name: str) -> bytes:
    return b"/" + b"".join(
        bytes([one]) if one in _PLAIN else f"#{one:02X}".encode() for one in name.encode("latin-1")
    )


def _number(number: float) -> bytes:
    if isinstance(number, int) or number == int(number):
        return str(int(number)).encode()
    said = f"{number:.{_PLACES}f}".rstrip("0").rstrip(".")
    return b"0" if said in {"0", "-0"} else said.encode()


class Reading:
    """Reads values one after the other, and nothing that is spelled otherwise.

    Attributes:
        place: Where the next value begins.
    """

    def __init__(self, content: bytes, place: int = 0) -> None:
        self.content, self.place = content, place

    def take(self, expected: bytes) -> None:
        """Go past these very bytes.

        Raises:
            Misspelled: Others stand there.
        """
        if not self.content.startswith(expected, self.place):
            raise Misspelled
        self.place += len(expected)

    def object(self) -> Object:
        """The next value with the stream that hangs on it, if there is one.

        Raises:
            Misspelled: It is spelled otherwise.
        """
        begin = self.place
        value: Object = self.value()
        if isinstance(value, dict) and self.content.startswith(b"\nstream\n", self.place):
            value = self._stream(value)
            facts = spelled({**value.facts, "Length": len(value.data)})
            if not self.content.startswith(facts, begin):
                raise Misspelled
        elif self.content[begin : self.place] != spelled(value):
            raise Misspelled
        return value

    def value(self, depth: int = 0) -> Value:
        """The next value.

        Raises:
            Misspelled: There is none.
        """
        if depth > _DEEPEST:
            raise Misspelled
        if self.content.startswith(b"<<", self.place):
            return self._dictionary(depth)
        if self.content.startswith(b"[", self.place):
            return self._array(depth)
        for word, value in _WORDS.items():
            if self.content.startswith(word, self.place):
                self.place += len(word)
                return value
        return self._plain()

    def _plain(self) -> Value:
        if found := self._match(_NAME):
            return _read_name(found[1])
        if found := self._match(_STRING):
            return bytes.fromhex(found[1].decode())
        if found := self._match(_REFERENCE):
            return Reference(int(found[1]))
        if found := self._match(_NUMBER):
            return float(found[0]) if found[1] else int(found[0])
        raise Misspelled

    def _match(self, pattern: re.Pattern[bytes]) -> re.Match[bytes] | None:
        found = pattern.match(self.content, self.place)
        if found:
            self.place = found.end()
        return found

    def _array(self, depth: int) -> list[Value]:
        self.take(b"[")
        values: list[Value] = []
        while not self.content.startswith(b"]", self.place):
            if values:
                self.take(b" ")
            values.append(self.value(depth + 1))
        self.take(b"]")
        return values

    def _dictionary(self, depth: int) -> dict[str, Value]:
        self.take(b"<<")
        values: dict[str, Value] = {}
        while not self.content.startswith(b">>", self.place):
            if values:
                self.take(b" ")
            found = self._match(_NAME)
            if found is None:
                raise Misspelled
            key = _read_name(found[1])
            if values and key <= next(reversed(values)):  # in order, so each only once
                raise Misspelled
            self.take(b" ")
            values[str(key)] = self.value(depth + 1)
        self.take(b">>")
        return values

    def _stream(self, facts: dict[str, Value]) -> Stream:
        self.take(b"\nstream\n")
        said = facts.pop("Length", None)
        length = said if isinstance(said, int) else -1
        if length < 0:
            raise Misspelled
        data = self.content[self.place : self.place + length]
        self.place += length
        self.take(b"\nendstream")
        return Stream(facts, data)


def _read_name(said: bytes) -> Name:
    return Name(
        re.sub(rb"#(..)", lambda one: bytes.fromhex(one[1].decode()), said).decode("latin-1")
    )
