"""The language of what is written for a reader: sentences are kept in English and found by it.

A leaf that all parts may use. What a sentence is about goes in by name, so that another language
can put it elsewhere. Outside `speaking` everything is English.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from gettext import NullTranslations
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Tongue:
    """A language.

    Attributes:
        key: Its tag as BCP 47 has it, e.g. `es`.
        words: Its sentences.
    """

    key: str
    words: NullTranslations


ENGLISH = Tongue("en", NullTranslations())
LANGUAGES = {"en": "English", "es": "Español"}  # each by its own name
_NOW: ContextVar[Tongue] = ContextVar("tongue", default=ENGLISH)


def read_tongue(folder: Path, key: str) -> Tongue:
    """Read a language from `<key>.po` in a folder; English needs no file.

    Raises:
        FileNotFoundError: There is no such file.
    """
    if key == ENGLISH.key:
        return ENGLISH
    import io
    from gettext import GNUTranslations

    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    with (folder / f"{key}.po").open("rb") as file:
        catalog = read_po(file, locale=key)
    content = io.BytesIO()
    write_mo(content, catalog)
    content.seek(0)
    return Tongue(key, GNUTranslations(content))


@contextmanager
def speaking(tongue: Tongue) -> Iterator[None]:
    """Write in a language as long as this lasts, in this thread only."""
    before = _NOW.set(tongue)
    try:
        yield
    finally:
        _NOW.reset(before)


def spoken() -> str:
    """The tag of the language that is written now."""
    return _NOW.get().key


def mark(text: str) -> str:
    """The text itself: it is said later, and belongs to the sentences to translate."""
    return text


def say(text: str, /, **about: object) -> str:
    """A sentence in the language of now, with what it is about in its `{places}`.

    Without anything to put in, the text is taken as it is, braces included.
    """
    said = _NOW.get().words.gettext(text) if text else ""
    return said.format(**about) if about else said


def say_as(context: str, text: str, /, **about: object) -> str:
    """As `say`, for a word that other languages have several of; `context` tells which is meant."""
    said = _NOW.get().words.pgettext(context, text)
    return said.format(**about) if about else said


def count(one: str, many: str, n: int, /, **about: object) -> str:
    """A sentence about a number, which stands at `{n}`, e.g. `{n:,} tests`."""
    return _NOW.get().words.ngettext(one, many, n).format(n=n, **about)
