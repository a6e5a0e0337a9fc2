"""What the commands say reaches where it is sent; where it can't, or the system refuses, why.

The last place in which what the world did is told from a mistake of ours.
"""

import codecs
import errno
import os
import sys
from contextlib import suppress
from types import TracebackType

import click

from wellbook.support.translation import N_, _
from wellbook.support.whole_file import too_many_open

_LONGEST = 120  # letters of a path in a sentence
_CROWDED = N_("Too many files are open on this computer: close some programs and try again.")
_WORDS = {
    errno.EMFILE: _CROWDED,
    errno.ENFILE: _CROWDED,
    errno.ENOSPC: N_("The disk is full: make room and try again."),
    errno.EDQUOT: N_("The room you have on the disk is used up: make room and try again."),
    errno.ENAMETOOLONG: N_("This name or path is too long for the disk: choose a shorter one."),
    errno.EACCES: N_("It can’t be read or written: you may not."),
    errno.EPERM: N_("It can’t be read or written: you may not."),
    errno.EROFS: N_("It can’t be written: the disk is read-only."),
}


def make_printable() -> None:
    """Let each name be printed, also one whose bytes are no text, as other commands print it."""
    codecs.register_error("wellbook", _as_it_is)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="wellbook")


def told_of_world(error: Exception) -> str:
    """One sentence on what the system refused; empty if it refused nothing."""
    if isinstance(error, OSError):
        if _is_of_printing(error.__traceback__):
            _print_no_more()
            return _(
                "The answer can’t be written where it is sent ({problem}): make room, or "
                "send it elsewhere, and look whether what you asked for was done."
            ).format(problem=error.strerror)
        if error.errno in _WORDS:
            said = _(_WORDS[error.errno])
        else:
            said = _("The system refuses it: {problem}.").format(problem=error.strerror or error)
        return f"{_shortened(error.filename)}{said}"
    if isinstance(error, UnicodeEncodeError) and _is_no_text(error):
        return _(
            "What was typed holds bytes that are no text, and can’t be kept: type it again in "
            "letters, or set the terminal to UTF-8."
        )
    if too_many_open():
        return _(_CROWDED)
    if isinstance(error, MemoryError):
        return _("There is not enough memory for this: close some programs and try again.")
    return ""


def _is_no_text(error: UnicodeEncodeError) -> bool:
    """Whether it is about bytes of a command line that Python could not read as text."""
    return all("\udc80" <= one <= "\udcff" for one in error.object[error.start : error.end])


def _is_of_printing(trace: TracebackType | None) -> bool:
    while trace is not None:
        if trace.tb_frame.f_code is click.echo.__code__:
            return True
        trace = trace.tb_next
    return False


def _print_no_more() -> None:
    """Python writes out what is left when it ends; where nothing can be written, to nowhere."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _shortened(name: object) -> str:
    if not isinstance(name, str | bytes):
        return ""
    text = os.fsdecode(name)
    if len(text) > _LONGEST:
        text = f"{text[: _LONGEST // 2]}…{text[-_LONGEST // 2 :]}"
    return f"{text}: "


def _as_it_is(error: UnicodeError) -> tuple[str | bytes, int]:
    """The bytes of a file's name as they are; a question mark for what a screen has no sign for."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    raw = b"".join(os.fsencode(one) if "\udc80" <= one <= "\udcff" else b"?" for one in signs)
    return raw, error.end
