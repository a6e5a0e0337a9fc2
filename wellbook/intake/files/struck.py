"""Texts of which a part is struck through: what was struck out is no reading beside the rest."""

from collections.abc import Iterable, Sequence

from wellbook.support.translation import _
from wellbook.water.values.findings import Finding, Severity

Pieces = Sequence[tuple[str, bool]]
"""Pieces of a text in their order, and whether each is struck through."""
_NAMED = 5


def without_struck(pieces: Pieces) -> tuple[str, str]:
    """What is left of a text and what is struck out of it; all of it where no answer is left.

    A unit behind a figure that is struck out is none.
    """
    left = "".join(text for text, is_struck in pieces if not is_struck).strip()
    out = "".join(text for text, is_struck in pieces if is_struck).strip()
    is_answer = any(map(str.isdigit, left)) or not any(map(str.isdigit, out))
    if out and is_answer and any(map(str.isalnum, left)):
        return left, out
    return "".join(text for text, _is_struck in pieces).strip(), ""


def say_struck(texts: Iterable[str]) -> tuple[Finding, ...]:
    """What was struck out and left out, in one sentence."""
    said = [f"“{text}”" for text in texts]
    if not said:
        return ()
    text = _("Struck through, with something else beside it, and left out: {texts}.")
    named = ", ".join([*said[:_NAMED], *["…"][: len(said) - _NAMED]])
    return (Finding("struck_out", text.format(texts=named), severity=Severity.NOTE),)
