"""Text that people write, such as a mail: columns parted by blanks, and `name: figure` lines."""

import re

from wellbook.intake.files.sheets import Cells

_GAP = re.compile(r"\s{2,}|\t+|\s\|\s")
_PAIR = re.compile(r"^(?P<name>[^:]{1,60}?)\s*(?::|\.{3,}|…)\s*(?P<rest>\S.*)$")
# `Iron = 0.3 mg/L`, `Lead 2 ug/L`: without a colon a unit must follow the figure.
_FIGURE = re.compile(
    r"^[-*•\s]*(?P<name>[^\W\d][^:<>=]{1,50}?)\s+(?:[-–=]\s+)?"
    r"(?P<rest>[<>≤]?\s*\d[\d.,]*\s*[^\s\d/]{1,4}/[^\s/]+(?: as \w+)?|(?<=pH )\d[\d.,]*)\.?$"
)
_WORD = re.compile(
    r"^[-*•\s]*(?P<name>(?:[^\W\d][\w.]*\s+){1,3})(?:[-–=]\s+|was\s+|were\s+)?"
    r"(?P<rest>absent|present|not detected|none detected|negative|positive|ND|<\s?\d[\d.,]*)\.?$",
    re.IGNORECASE,
)
_LONGEST = 2_000  # characters of a line that can be one of a table


def rows_of(text: str) -> list[Cells]:
    """Cells of each line: parted by runs of blanks, or before and after the first colon."""
    return [cells_of(line) for line in text.splitlines()]


def cells_of(line: str) -> Cells:
    """The cells of one line."""
    line = line.strip().lstrip(">").strip()[:_LONGEST]
    if not line:
        return []
    cells = [cell.strip() for cell in _GAP.split(line) if cell.strip()]
    if len(cells) > 1:
        return cells
    return pair_of(line)


def pair_of(text: str) -> Cells:
    """What stands before and after the colon of a text; the text alone if it has none."""
    text = text.strip()
    found = _PAIR.match(text) or _FIGURE.match(text) or _WORD.match(text)
    if not found or "//" in found["rest"][:2]:
        return [text]
    return [found["name"].strip(" -*•"), found["rest"].strip()]
