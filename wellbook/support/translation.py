"""The language of everything that is written for a person: sentences are found by their English.

A leaf that all parts may use, on the standard library's `gettext`. What a sentence is about is put
in after it was found, by name, so that another language can put it elsewhere:
`_("{n} of {all}").format(n=1, all=2)`. There is one language for the program, which may change at
any time, and `using` puts another in its place for a while and for one thread: a packet can be
written in another language than the window's. So nothing that was said is kept across a change,
and tables at the top of a module hold marked text (`N_`) that is translated on use.
"""

import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from gettext import GNUTranslations, NullTranslations
from io import BytesIO
from pathlib import Path
from typing import NamedTuple

from wellbook.support import paths

DOMAIN = "wellbook"
_VERSION = "project-id-version"  # in the head of a compiled file: the SHA-256 of its source


class Language(NamedTuple):
    """A language.

    Attributes:
        key: Its tag as BCP 47 has it, e.g. `es`.
        words: Its sentences.
    """

    key: str
    words: NullTranslations


def offered(folder: Path) -> dict[str, str]:
    """Every language of a folder by its key, under its own name: the first words of its `.po`."""
    names = {}
    for source in sorted(folder.glob("*.po")):
        with source.open(encoding="utf-8") as file:
            names[source.stem] = file.readline().lstrip("#").strip()
    return {ENGLISH.key: "English", **names}


ENGLISH = Language("en", NullTranslations())
LANGUAGES = offered(paths.resources() / "languages")


class _Program:
    """The language of the program; what `using` sets stands before it."""

    language = ENGLISH


_FOR_A_WHILE: ContextVar[Language | None] = ContextVar("language", default=None)


def use(language: Language) -> None:
    """Say everything in a language from now on, in every thread."""
    _Program.language = language


@contextmanager
def using(language: Language) -> Iterator[None]:
    """Say everything in a language as long as this lasts, in this thread only."""
    before = _FOR_A_WHILE.set(language)
    try:
        yield
    finally:
        _FOR_A_WHILE.reset(before)


def language_now() -> Language:
    """The language in which things are said here and now."""
    return _FOR_A_WHILE.get() or _Program.language


def current() -> str:
    """The tag of the language in which things are said here and now."""
    return language_now().key


def preferred(wanted: Sequence[str]) -> str:
    """The first language there is among tags or locales such as `es-MX`, `es_US.UTF-8`; or `en`."""
    for tag in wanted:
        key = tag.replace("_", "-").split(".")[0].split("-")[0].casefold()
        if key in LANGUAGES:
            return key
        if key in {"c", "posix"}:
            break
    return ENGLISH.key


def of_environment() -> str:
    """The language that the person's environment asks for, as gettext has it."""
    for name in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        if found := os.environ.get(name, ""):
            return preferred(found.split(":"))
    return ENGLISH.key


def read_language(folder: Path, key: str) -> Language:
    """Read a language from a folder; English needs no file.

    `<key>/LC_MESSAGES/wellbook.mo` is compiled when Wellbook is built. In a checkout it is made
    from `<key>.po` when that has changed, for which Babel is needed.

    Raises:
        FileNotFoundError: There is no such language.
    """
    if key == ENGLISH.key:
        return ENGLISH
    source = folder / f"{key}.po"
    compiled = compiled_file(folder, key)
    if compiled.is_file():
        content = compiled.read_bytes()
        words = GNUTranslations(BytesIO(content))
        if not source.is_file() or words.info()[_VERSION].endswith(_digest(source)):
            return Language(key, words)
    content = compile_language(source)
    with suppress(OSError):  # where it can't be kept, it is compiled again the next time
        _put(compiled, content)
    return Language(key, GNUTranslations(BytesIO(content)))


def compiled_file(folder: Path, key: str) -> Path:
    """Where the compiled sentences of a language lie, as gettext looks for them."""
    return folder / key / "LC_MESSAGES" / f"{DOMAIN}.mo"


def compile_language(source: Path) -> bytes:
    """The sentences of a `.po` file as gettext reads them; needs Babel.

    Raises:
        FileNotFoundError: There is no such file.
    """
    with source.open("rb") as file:
        from babel.messages.mofile import write_mo
        from babel.messages.pofile import read_po

        catalog = read_po(file, locale=source.stem)
    catalog.version = _digest(source)
    content = BytesIO()
    write_mo(content, catalog)
    return content.getvalue()


def _digest(source: Path) -> str:
    from hashlib import sha256

    return sha256(source.read_bytes()).hexdigest()


def _put(path: Path, content: bytes) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f"{path.name}.{os.getpid()}")
    part.write_bytes(content)
    part.replace(path)


def N_(text: str, /) -> str:  # noqa: N802  the name that gettext's tools know
    """The text itself: it is said later, and belongs to the sentences to translate."""
    return text


def _(text: str, /) -> str:
    """A sentence in the language of now."""
    return language_now().words.gettext(text) if text else ""


def pgettext(context: str, text: str, /) -> str:
    """As `_`, for a word that other languages have several of; `context` tells which is meant."""
    return language_now().words.pgettext(context, text)


def ngettext(one: str, many: str, n: int, /) -> str:
    """A sentence about a number of things, e.g. `{n:,} tests`; the number is put in afterwards."""
    return language_now().words.ngettext(one, many, n)


def npgettext(context: str, one: str, many: str, n: int, /) -> str:
    """As `ngettext`, with a context."""
    return language_now().words.npgettext(context, one, many, n)
