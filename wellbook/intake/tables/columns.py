"""Which column holds what: by the words over it, and by what stands in it."""

import re
from collections.abc import Callable, Sequence

from wellbook.intake.files.sheets import Cells
from wellbook.intake.words.dates import clock, taken_apart
from wellbook.intake.words.lab_words import (
    SIGNS_APART,
    is_nothing,
    is_result_word,
    meant_by,
    sign_in_words,
    with_unit,
)
from wellbook.intake.words.names import read_name
from wellbook.intake.words.roles import Role
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.local_time import LocalTime

Columns = dict[Role, int]

_LOOK = 200  # rows from which a column is judged
_READING = re.compile(
    r"^[<>≤≥~=]?\s*[-+]?(\d[\d.,]*|\.\d+)(\s*[*xX×]?\s*(E|10\^?)[-+]?\d+)?"
    r"(\s*[A-Za-zµμ°%*†][^\s\d]*(/\S+)?( as \w+)?)?$"
    r"|^(nd|n\.d\.|n/d|bdl|brl|bql|bmql|u|tntc|trace|absent|present|absence|presence|a|p|pos(itive)?"
    r"|neg(ative)?|not detected|non[- ]?detect(ed)?|none detected|<?\s*(mdl|rl|pql|lod|loq)"
    r"|(un)?satisfactory|(un)?safe|confluent.*|too numerous.*)$",
    re.IGNORECASE,
)
_OPERATOR = re.compile(r"\s*operator\s*$", re.IGNORECASE)
_INITIALS = re.compile(r"^(?!EQ$)[A-Z]{2,3}$")
_LONGEST = 120  # characters; more is prose
_CAS = re.compile(r"^\d{2,7}-\d\d-\d$")
_MOSTLY = 0.7  # share of a column's cells
_BESIDE_FIGURES = {*SIGNS_APART, "=", "J", "U", "ND", "B", "H", "E", "Q"}  # a lab's usual letters
_NUMBER_LIKE = re.compile(r"^[A-Za-z]{0,4}[-_./ ]?\d[\w./-]*$")


def is_reading(text: str) -> bool:
    """Whether a cell looks like a lab's result."""
    text = text.strip()
    if len(text) > _LONGEST:
        return False
    if _READING.match(text) or is_result_word(text):
        return True
    word, unit = with_unit(text)  # `Na mg/L` is sodium, and nothing that was not analysed
    is_word = bool(_READING.match(word)) or (is_result_word(word) and not is_nothing(word))
    return bool(unit) and is_word


def assign(
    roles: Sequence[Role | None], rows: Sequence[Cells], catalogue: Catalogue
) -> Columns | None:
    """One column for each role.

    Where the words name several columns for a role, or none for one that is needed, the content
    decides. None if no column of names or none of results is found.

    Args:
        roles: What the words over each column say.
        rows: Rows below them.
        catalogue: To know a parameter's name when it stands in a column.
    """
    sample = [row for row in rows if sum(map(bool, row)) > 1][:_LOOK]
    offered: dict[Role, list[int]] = {}
    for index, role in enumerate(roles):
        if role and role is not Role.NOTHING:
            offered.setdefault(role, []).append(index)
    tests = _tests(catalogue)
    columns = {
        role: _best(indexes, sample, tests.get(role, bool)) for role, indexes in offered.items()
    }
    width = max(map(len, sample), default=0)
    lost = {i for i in offered.get(Role.RESULT, ()) if i != columns.get(Role.RESULT)}
    blank = [i for i in range(width) if i >= len(roles) or roles[i] is None or i in lost]
    if Role.RESULT not in columns and not _has_figures(blank, columns, sample):
        _take_place_for_result(columns, sample)
    for role, least in _FROM_CONTENT.items():
        if role in columns or (role is Role.NAME and Role.CODE in columns):
            continue
        fits = {i: _share(i, sample, tests[role]) for i in blank if i not in columns.values()}
        best = max(fits, key=lambda i: fits[i], default=None)
        if best is not None and fits[best] >= least:
            columns[role] = best
    if not {Role.NAME, Role.CODE, Role.CAS} & columns.keys():
        _take_sample_for_name(columns, sample, tests[Role.NAME])
    _take_signs(columns, blank, sample)
    return _settled(columns, sample)


def _take_signs(columns: Columns, indexes: list[int], rows: list[Cells]) -> None:
    """A column of `<` and `>` beside figures, whatever its heading: without it `<5` reads `5`."""
    if {Role.SIGN, Role.QUALIFIER} & columns.keys():
        return
    for index in set(indexes) - set(columns.values()):
        cells = [row[index].strip() if index < len(row) else "" for row in rows]
        said = set(cells)
        # A heading that comes again, or a foot, may stand among them.
        fits = _share(index, rows, lambda text: text in _BESIDE_FIGURES)
        if not said & SIGNS_APART or fits < _MOSTLY:
            continue
        # `14 | < | 15` says that the limit is kept: it has a sign in each row, or only a `>`.
        is_sign = index + 1 == columns.get(Role.RESULT) or ("" in said and "<" in said)
        if is_sign or not _holds_limits(index + 1, columns, rows):
            columns[Role.SIGN] = index
            return


def _holds_limits(index: int, columns: Columns, rows: list[Cells]) -> bool:
    """Whether a column holds figures to which results may be compared."""
    own = (Role.RESULT, Role.REPORTING_LIMIT, Role.DETECTION_LIMIT)
    if index in {columns.get(role) for role in own}:
        return False
    return _share(index, rows, is_reading) >= _FROM_CONTENT[Role.RESULT]


def _has_figures(indexes: list[int], columns: Columns, rows: list[Cells]) -> bool:
    least = _FROM_CONTENT[Role.RESULT]
    free = set(indexes) - set(columns.values())
    return any(_share(i, rows, is_reading) >= least for i in free)


def _take_place_for_result(columns: Columns, rows: list[Cells]) -> None:
    """A column headed by `Sample`, a place or `Reported` holds the results where no other does."""
    for role in (Role.CLIENT_NUMBER, Role.POINT, Role.WELL, Role.REPORTED, Role.UNIT):
        index = columns.get(role)
        if index is not None and _share(index, rows, is_reading) >= _FROM_CONTENT[Role.RESULT]:
            columns[Role.RESULT] = columns.pop(role)
            return


def without_initials(columns: Columns, heading: Cells, rows: list[Cells]) -> None:
    """Take away the column of signs that is one of who ran the test: `Operator` means either."""
    index = columns.get(Role.SIGN, len(heading))
    if index < len(heading) and _OPERATOR.match(heading[index]):
        below = [row for row in rows if index < len(row) and row[index] != heading[index]]
        if _share(index, below, _are_initials) == 1:
            del columns[Role.SIGN]


def _are_initials(text: str) -> bool:
    return bool(_INITIALS.match(text)) and not (sign_in_words(text) or meant_by(text))


def _take_sample_for_name(
    columns: Columns, rows: list[Cells], is_name: Callable[[str], bool]
) -> None:
    """A column headed by `Sample` holds the names of parameters where no other does."""
    index = columns.get(Role.CLIENT_NUMBER)
    if index is not None and _share(index, rows, is_name) >= _FROM_CONTENT[Role.NAME]:
        columns[Role.NAME] = columns.pop(Role.CLIENT_NUMBER)


# Least share of fitting cells for a column without a telling heading; our own choice.
_FROM_CONTENT = {
    Role.CAS: 0.6,
    Role.NAME: 0.4,
    Role.UNIT: 0.6,
    Role.DATE: 0.8,
    Role.TIME: 0.8,
    Role.RESULT: 0.6,
}


def _tests(catalogue: Catalogue) -> dict[Role, Callable[[str], bool]]:
    today = LocalTime.parse("9999-12-31").day  # any date is one here
    return {
        Role.NAME: lambda text: len(text) > 1 and read_name(text, catalogue).parameter is not None,
        Role.RESULT: is_reading,
        Role.UNIT: lambda text: not text.isdigit() and understand(text) is not None,
        Role.DATE: lambda text: taken_apart(text, today) is not None,
        Role.SOME_DATE: lambda text: taken_apart(text, today) is not None,
        Role.TIME: lambda text: ":" in text and clock(text) is not None,
        Role.CAS: lambda text: bool(_CAS.match(text)),
    }


def _best(indexes: list[int], rows: list[Cells], fits: Callable[[str], bool]) -> int:
    if len(indexes) == 1:
        return indexes[0]
    return max(indexes, key=lambda i: (_share(i, rows, fits), _share(i, rows, bool), -i))


def _share(index: int, rows: list[Cells], fits: Callable[[str], bool]) -> float:
    cells = [row[index].strip() for row in rows if index < len(row)]
    filled = [cell for cell in cells if cell]
    return sum(map(fits, filled)) / len(filled) if filled else 0.0


def _settled(columns: Columns, rows: list[Cells]) -> Columns | None:
    if not ({Role.NAME, Role.CODE, Role.CAS} & columns.keys() and Role.RESULT in columns):
        return None
    client = columns.pop(Role.CLIENT_NUMBER, None)
    if client is not None:
        is_number = _share(client, rows, lambda text: bool(_NUMBER_LIKE.match(text))) > 0.5  # noqa: PLR2004
        columns.setdefault(Role.NUMBER if is_number else Role.POINT, client)
    if Role.WELL in columns:
        columns.setdefault(Role.POINT, columns.pop(Role.WELL))
    if Role.REPORT_NUMBER in columns:
        columns.setdefault(Role.NUMBER, columns.pop(Role.REPORT_NUMBER))
    return columns
