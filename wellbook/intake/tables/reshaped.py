"""Sheets whose rows are put into another shape before tables are looked for in them."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from itertools import takewhile

from wellbook.intake.files.sheets import Cells, Line, Sheet, alone
from wellbook.intake.tables.cells import at, is_parameter
from wellbook.intake.words.asides import is_place
from wellbook.intake.words.dates import days_within, month_or_year, tells_day
from wellbook.intake.words.headings import role_of, role_of_column
from wellbook.intake.words.roles import Role
from wellbook.water.values.catalogue import Catalogue
from wellbook.water.values.signs import folded

_YEAR = frozenset({"year", "yr", "ano", "jahr", "annee"})
_MONTH = frozenset({"month", "mo", "mes", "monat", "mois"})
_DAY = frozenset({"day", "dia", "tag", "jour"})
_LABELLED = re.compile(r"^([^:]{2,30}):\s*(\S.*)?$")
_CARD = 8  # lines that may tell of one result
_TOP = 60  # rows among which a heading is looked for


def with_whole_days(sheet: Sheet) -> Sheet:
    """The sheet with columns of years, months and days put into one."""
    for index, row in enumerate(sheet.rows[:_TOP]):
        words = [folded(cell).strip(" .:") for cell in row]
        found = [next((i for i, w in enumerate(words) if w in some), -1)
                 for some in (_YEAR, _MONTH, _DAY)]  # fmt: skip
        year, month, day = found
        if year < 0 or month < 0:
            continue
        rows = [list(one) for one in sheet.rows]
        for one in rows[index + 1 :]:
            whole = _whole(at(one, year), at(one, month), at(one, day) if day >= 0 else "")
            if whole:
                one[year] = whole
                for i in found[1:]:
                    if 0 <= i < len(one):
                        one[i] = ""
        return replace(sheet, rows=rows)
    return sheet


def _whole(year: str, month: str, day: str) -> str:
    """A day, or a month, from its parts; empty if they are none."""
    year, month, day = (part.removesuffix(".0") for part in (year, month, day))
    known = month_or_year(f"{month} {year}") or month_or_year(f"{year}-{month}")
    if known is None or known.month is None:
        return ""
    text = f"{known.year}-{known.month:02}"
    return f"{text}-{int(day):02}" if day[:3].isdecimal() and int(day[:3]) <= 31 else text  # noqa: PLR2004


def with_days_of_results(sheet: Sheet) -> Sheet:
    """The sheet with the year or day alone in headings such as `Result 2024`, `Result 2025`."""
    for index, row in enumerate(sheet.rows[:_TOP]):
        days = {i: day for i, cell in enumerate(row) if (day := _day_of_result(cell.strip()))}
        if len(set(days.values())) == len(days) > 1:
            heading = [days.get(i, cell) for i, cell in enumerate(row)]
            return replace(sheet, rows=[*sheet.rows[:index], heading, *sheet.rows[index + 1 :]])
    return sheet


def with_days_spread(sheet: Sheet) -> Sheet:
    """The sheet with each day over all the columns of its samples, whose places stand below it."""
    for index, row in enumerate(sheet.rows[:_TOP]):
        days = [i for i, cell in enumerate(row) if cell.strip() and tells_day(cell, date.max)]
        below = sheet.rows[index + 1] if index + 1 < len(sheet.rows) else []
        told = [i for i in range(days[0], len(below)) if at(below, i)] if len(days) > 1 else []
        if len(told) <= len(days) or not set(days) <= set(told):
            continue
        if all(is_place(at(below, i)) and at(row, i) in {"", *(row[d].strip() for d in days)}
               for i in told):  # fmt: skip
            filled = [*row, *[""] * (told[-1] + 1 - len(row))]
            for i in told:
                filled[i] = filled[i] if filled[i].strip() else filled[i - 1]
            return replace(sheet, rows=[*sheet.rows[:index], filled, *sheet.rows[index + 1 :]])
    return sheet


def _day_of_result(heading: str) -> str:
    """The day, month or year that stands beside a word for a result, and nothing else with it."""
    words = heading.replace("(", " ").replace(")", " ").split()
    for n in range(1, len(words)):
        for word, day in ((words[:n], words[n:]), (words[n:], words[:n])):
            text = " ".join(day).strip(",:-–")
            if role_of(" ".join(word).strip(",:-–")) is Role.RESULT and tells_day(text, date.max):
                return text
    return ""


def with_labels_above(sheet: Sheet) -> Sheet:
    """The sheet with rows such as `Test: Iron`, `Result: 0.3` turned into a table."""
    told = sheet.rows_with(lambda cell: ":" in cell)
    found = {index: labels for index in told if (labels := _labels(sheet.rows[index]))}
    if not found:
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []
    last: tuple[str, ...] = ()
    for index, row in enumerate(sheet.rows):
        line = sheet.line(index)
        labels = found.get(index, ())
        if labels and labels != last:
            rows.append(list(labels))
            lines.append(line)
        last = labels
        cells = [cell.partition(":")[2].strip() for cell in row if cell.strip()] if labels else row
        boxes = tuple(box for box, cell in zip(line.boxes, row, strict=False) if cell.strip())
        rows.append(cells)
        lines.append(replace(line, boxes=boxes) if labels and line.boxes else line)
    return replace(sheet, rows=rows, lines=tuple(lines))


def with_whole_places(sheet: Sheet) -> Sheet:
    """The sheet of a page with the first line of places of two lines put into their row.

    Such as `Outdoor` and `Kitchen` above a row of `Sampling point`, `tap` and `tap`.
    """
    if not sheet.is_paper:
        return sheet
    rows = list(sheet.rows)
    for index in range(1, len(rows)):
        above, row = rows[index - 1], rows[index]
        told = [i for i in range(len(above)) if at(above, i)]
        if not told or at(above, 0) or role_of(at(row, 0)) is not Role.POINT:
            continue
        is_one = sheet.line(index).page == sheet.line(index - 1).page
        own = [i for i in range(1, len(row)) if at(row, i)]
        if is_one and len(own) > 1 and set(told) <= set(own) and not _has_digit(above):
            rows[index] = [f"{at(above, i)} {cell}".strip() for i, cell in enumerate(row)]
            rows[index - 1] = []
    return replace(sheet, rows=rows)


def _has_digit(row: Cells) -> bool:
    return any(map(str.isdigit, "".join(row)))


def with_cards(sheet: Sheet, catalogue: Catalogue) -> Sheet:
    """The sheet with names above lines such as `Result: 0.3 mg/L` turned into a table."""
    if not any(role_of(first) is Role.RESULT for first in {row[0] for row in sheet.rows if row}):
        return sheet
    cards: dict[int, tuple[str, list[int]]] = {}
    for index, row in enumerate(sheet.rows):
        below = _said_below(sheet.rows, index)
        told = [role_of(sheet.rows[i][0]) for i in below]
        if told.count(Role.RESULT) == 1 and is_parameter(alone(row), catalogue):
            cards[index] = (alone(row), below)
    if len(cards) < 2:  # noqa: PLR2004
        return sheet
    rows: list[Cells] = []
    lines: list[Line] = []
    last: tuple[str, ...] = ()
    used: set[int] = set()
    for index, row in enumerate(sheet.rows):
        line = sheet.line(index)
        if index in used:
            continue
        if index not in cards:
            rows.append(row)
            lines.append(line)
            continue
        name, below = cards[index]
        used.update(below)
        heads = tuple(sheet.rows[i][0].strip(" :") for i in below)
        at_result = next(i for i in below if role_of(sheet.rows[i][0]) is Role.RESULT)
        line = sheet.line(at_result)
        if heads != last:
            rows.append(["Parameter", *heads])
            lines.append(line)
            last = heads
        rows.append([name, *(at(sheet.rows[i], 1) for i in below)])
        lines.append(line)
    return replace(sheet, rows=rows, lines=tuple(lines))


def _said_below(rows: list[Cells], index: int) -> list[int]:
    """The lines of a word and its value right below a line, without empty ones."""
    found: list[int] = []
    for i in range(index + 1, min(index + 1 + _CARD, len(rows))):
        filled = [cell for cell in rows[i] if cell.strip()]
        if not filled:
            continue
        if len(filled) != 2 or not at(rows[i], 0) or not role_of_column(at(rows[i], 0)):  # noqa: PLR2004
            break
        found.append(i)
    return found


def _labels(row: Cells) -> tuple[str, ...]:
    """The words before the colons of a row each cell of which has one; none in other rows."""
    matched = [_LABELLED.match(cell.strip()) for cell in row if cell.strip()]
    labels = tuple(one[1] for one in matched if one)
    roles = {role_of(label) for label in labels}
    is_one = len(labels) == len(matched) and {Role.NAME, Role.RESULT} <= roles
    return labels if is_one else ()


def with_names_down(sheet: Sheet, catalogue: Catalogue) -> Sheet:
    """The sheet with names across, above lines of results and units, turned to a row for each."""
    for index, row in enumerate(sheet.rows[:_TOP]):
        below = sheet.rows[index + 1 : index + 1 + _CARD]
        if not any(role_of(at(one, 0)) is Role.RESULT for one in below):
            continue
        names = [i for i in range(1, len(row)) if is_parameter(row[i], catalogue)]
        beside = range(index + 1, len(sheet.rows))
        told = list(takewhile(lambda k: at(sheet.rows[k], 0), beside))
        roles = [role_of_column(at(sheet.rows[k], 0)) for k in told]
        is_head = role_of(at(row, 0)) is Role.NAME or not at(row, 0)
        if len(names) < 2 or not is_head or None in roles or roles.count(Role.RESULT) != 1:  # noqa: PLR2004
            continue
        result = told.pop(roles.index(Role.RESULT))
        told = [result, *told]
        columns = [i for i in range(1, len(row)) if at(row, i)]
        rows = [["Parameter", *(at(sheet.rows[k], 0) for k in told)]]
        rows += [[at(row, i), *(at(sheet.rows[k], i) for k in told)] for i in columns]
        lines = [sheet.line(index)]
        lines += [replace(sheet.line(result), shift=i - 1) for i in columns]
        end = max(told) + 1
        before, behind = range(index), range(end, len(sheet.rows))
        return replace(
            sheet,
            rows=[*sheet.rows[:index], *rows, *sheet.rows[end:]],
            lines=(*map(sheet.line, before), *lines, *map(sheet.line, behind)),
        )
    return sheet


def with_heads_filled(sheet: Sheet) -> Sheet:
    """The sheet with a heading whose columns of results are told apart in the lines above it.

    Those lines, such as `Lab ID` or `Date`, stand below the heading afterwards.
    """
    for index, whole in enumerate(sheet.rows[:_TOP]):
        roles = [role_of(cell) for cell in whole]
        if Role.NAME not in roles:
            continue
        # `Result` over each sample tells nothing.
        is_said = roles.count(Role.RESULT) < 2  # noqa: PLR2004  a pair
        row = [cell if is_said or role is not Role.RESULT else ""
               for cell, role in zip(whole, roles, strict=True)]  # fmt: skip
        results = [i for i, role in enumerate(roles) if role is Role.RESULT] if not is_said else []
        spread = dict(_spread_above(sheet.rows, index, results))
        first = min(spread, default=index)
        while first and _tells_samples(sheet.rows[first - 1], row):
            first -= 1
        above = {k: spread.get(k, sheet.rows[k]) for k in range(first, index)}
        columns = _told_above(list(above.values()), row)
        if not columns:
            return sheet
        heading = [at(row, i) or columns.get(i, "") for i in range(max(len(row), *columns) + 1)]
        order = [index, *range(first, index), *range(index + 1, len(sheet.rows))]
        order = [*range(first), *order]
        rows = [heading if i == index else above.get(i, sheet.rows[i]) for i in order]
        lines = [sheet.line(i) for i in order]
        return replace(sheet, rows=rows, lines=tuple(lines))
    return sheet


def _spread_above(rows: list[Cells], index: int, results: list[int]) -> Iterator[tuple[int, Cells]]:
    """Lines right above a heading with a cell over each group of columns that has one result.

    Such a cell, often merged, is put over the result itself; the first cell says what it tells.
    """
    if len(results) < 2:  # noqa: PLR2004
        return
    for k in range(index - 1, -1, -1):
        told = [i for i in range(len(rows[k])) if at(rows[k], i)]
        if len(told) != len(results) or told[0] == 0:
            return
        ends = [*told[1:], max(len(rows[index]), told[-1] + 1)]
        inside = [[i for i in results if a <= i < b] for a, b in zip(told, ends, strict=True)]
        if any(len(group) != 1 for group in inside):
            return
        texts = [at(rows[k], i) for i in told]
        spans = [days_within(text, date.max) for text in texts]
        line = [""] * len(rows[index])
        line[0] = "Location"
        if all(spans):
            line[0] = "Date collected"
            texts = [text[a:b] for text, [(a, b), *_more] in zip(texts, spans, strict=True)]
        for (column,), text in zip(inside, texts, strict=True):
            line[column] = text
        yield k, line


def _tells_samples(row: Cells, heading: Cells) -> bool:
    """Whether a line says something of several samples, in columns without a heading."""
    told = [i for i in range(1, len(row)) if at(row, i)]
    is_word = role_of(at(row, 0)) not in {None, Role.NAME, Role.CODE, Role.CAS, Role.RESULT}
    return is_word and len(told) > 1 and not any(at(heading, i) for i in told)


def _told_above(rows: list[Cells], heading: Cells) -> dict[int, str]:
    """What tells the columns of samples apart, by their numbers; nothing if nothing does.

    Places and days come before bare numbers, which may be figures as well.
    """
    numbers: dict[int, str] = {}
    for row in rows:
        cells = {i: at(row, i) for i in range(1, len(row)) if at(row, i) and not at(heading, i)}
        if len(set(cells.values())) == len(cells) > 1:
            if not all(map(str.isdigit, cells.values())):
                return cells
            numbers = numbers or cells
    return numbers
