"""Text that people write, such as a mail: columns parted by blanks, and `name: figure` lines."""

import re

from wellbook.intake.files.sheets import Cells, Line, Sheet

_GAP = re.compile(r"\s{2,}|\t+|\s\|\s")
_PAIR = re.compile(r"^(?P<name>[^:]{1,60}?)\s*(?::|\.{3,}|…)\s*(?P<rest>\S.*)$")
# `Iron = 0.3 mg/L`, `Lead 2 ug/L`: without a colon a unit must follow the figure.
_FIGURE = re.compile(
    r"^[-*•\s]*(?P<name>[^\W\d][^:<>=]{1,50}?)\s+(?:[-–=]\s+)?"
    r"(?P<rest>[<>≤]?\s*\d[\d.,]*\s*(?:[^\s\d/]{1,4}/[^\s/]+(?: as \w+)?|[NF][TN]U|pp[mbt]|gpg"
    r"|S\.?U\.?)|(?<=pH )\d[\d.,]*|(?<=pH = )\d[\d.,]*)\.?$"
)
_WORD = re.compile(
    r"^[-*•\s]*(?P<name>(?:[^\W\d][\w.]*\s+){1,3})(?:[-–=]\s+|was\s+|were\s+)?"
    r"(?P<rest>absent|present|not detected|none detected|negative|positive|ND|<\s?\d[\d.,]*)\.?$",
    re.IGNORECASE,
)
# What a line adds on the limit of what it tells.
_LIMIT = re.compile(
    r"[\s,;.…-]*\b(?:limit|mcl|max(?:imum)?|standard|guideline)\b[\s:=]*[<≤]?\s*\d[^()]*$"
    r"|\s*[(\[][^()\[\]]*\b(?:limits?|max\w*|mcl|standard|guideline|allow\w*|recommended|grenzwert|"
    r"límite|limite)\b[^()\[\]]*[)\]]\s*\.?$",
    re.IGNORECASE,
)
_VISIT = re.compile(
    r"^[-*•\s]*(?P<day>(?:[^\W\d_]{3,10}\.? )?(?:19|20)\d\d|\d{4}-\d\d(?:-\d\d)?"
    r"|\d{1,2}[/.]\d{1,2}[/.]\d{2,4}|[^\W\d_]{3,10} \d{1,2},? \d{4}"
    r"|\d{1,2} [^\W\d_]{3,10} \d{4})(?:\s*[:–—-])?\s+(?P<rest>\S.*)$"
)
_LONGEST = 2_000  # characters of a line that can be one of a table


def sheet_of(text: str) -> Sheet:
    """Cells of each line: parted by runs of blanks, or before and after the first colon.

    A line such as `2014: nitrate 3 mg/L, coliform negative` becomes a row for its day and one for
    each of its parts.
    """
    rows: list[Cells] = []
    lines: list[Line] = []
    for number, line in enumerate(text.splitlines(), 1):
        several = _several(line.strip()[:_LONGEST]) or [cells_of(line)]
        rows += several
        lines += [Line(number)] * len(several)
    return Sheet("", rows, lines=tuple(lines), text=text)


def _several(line: str) -> list[Cells]:
    """The day of a line and the pairs behind it; none if it is another line."""
    found = _VISIT.match(line)
    pairs = [pair_of(part) for part in re.split(r"[,;]\s+", found["rest"])] if found else []
    if not found or len(pairs) < 2 or any(len(pair) < 2 for pair in pairs):  # noqa: PLR2004
        return []
    return [[found["day"]], *pairs]


def cells_of(line: str) -> Cells:
    """The cells of one line."""
    line = line.strip().lstrip(">").strip()[:_LONGEST]
    if not line:
        return []
    cells = [cell.strip() for cell in _GAP.split(line) if cell.strip()]
    if len(cells) > 1:
        return [cells[0], *(cell.lstrip(": ") or cell for cell in cells[1:])]
    return pair_of(line)


def pair_of(text: str) -> Cells:
    """What stands before and after the colon of a text; the text alone if it has none."""
    text = _LIMIT.sub("", text.strip())
    found = _PAIR.match(text) or _FIGURE.match(text) or _WORD.match(text)
    if not found or "//" in found["rest"][:2]:
        return [text]
    return [found["name"].strip(" -*•"), found["rest"].strip()]
