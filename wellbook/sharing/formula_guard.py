"""Cells that a spreadsheet would run as a formula, made inert, and read back to the same text.

The rule, as it stands in every data dictionary of ours: a cell that starts with an apostrophe
carries that apostrophe as a guard; take it off to have the text. Plain figures such as -0.5 are
never run and stay as they are.
"""

import re

GUARD = "'"
RULE = (
    "A cell that starts with an apostrophe (') carries it as a guard against being run as a "
    "formula: take one apostrophe off the front to have the text as it was."
)

# What starts a formula in the usual spreadsheets, also after blanks and in full-width form
# (common practice, no source).
_STARTS = re.compile(r"^[\s\ufeff]*[=+\-@|%\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]")
_FIGURE = re.compile(r"[+-]?\d+(\.\d+)?([eE][+-]?\d+)?")


def formula_guarded(text: str) -> str:
    """The text as a cell that no spreadsheet runs."""
    if text.startswith(GUARD) or (_STARTS.match(text) and not _FIGURE.fullmatch(text)):
        return GUARD + text
    return text


def restored(cell: str) -> str:
    """The text that `formula_guarded` made the cell from."""
    return cell.removeprefix(GUARD)
