"""The account of a file: every figure of its cells is in a result, in a list, or is listed here.

What is left is found from the cells alone, after what became a result and what is listed with a
reason is struck off. So a table that nobody recognised, or half of one, can't vanish.
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date

from wellbook.intake.draft import DraftSample
from wellbook.intake.files.sheets import Cells, Place, Sheet
from wellbook.intake.tables.cells import asks_presence, at, is_figure, is_parameter, why_not
from wellbook.intake.tables.columns import is_reading
from wellbook.intake.tables.tables import NotTaken, Table, told
from wellbook.intake.words.asides import LIMIT, aside
from wellbook.intake.words.dates import clock, days_within, is_whole_day, taken_apart
from wellbook.intake.words.doubts import means_germs
from wellbook.intake.words.headings import role_of, roles_of
from wellbook.intake.words.letterheads import without_page
from wellbook.intake.words.preamble import facts_below, facts_in
from wellbook.intake.words.roles import Role
from wellbook.support.translation import _
from wellbook.water.values.catalogue import Catalogue

_FIGURE = re.compile(
    r"(?<![^\W_])(?:(?<![\d.])\.)?\d+(?:[.,]\d+)*"
)  # not within a word, as in CaCO3
_TIME = re.compile(r"(?<![\d.,])\d{1,2}:\d\d(?::\d\d)?(?![\d:.,])")  # beside a day
_WORD = re.compile(
    r"\b(absent\w*|absence|present|neg(?:ative)?|pos(?:itive)?|not (?:detected|found)"
    r"|none detected|ausen\w+|presen[tc]\w*|pr[ée]sen[ct]\w*|n[ée]gati[fv]\w*"
    r"|(?:non|pas) d[ée]tect\w*"
    r"|no (?:detectad\w+|se (?:han )?detect\w+)|nicht (?:nachweisbar|nachgewiesen|gefunden)"
    r"|positi[fv]\w*|negativ\w*)\b",
    re.IGNORECASE,
)
# Words for none, in a short line that names what can be measured.
_NONE = re.compile(
    r"\b(none|found|keine|aucune?|ningun[oa]|clean|yes|ja|nein|oui|s[ií]|no(?!\.)|non|hay)\b",
    re.IGNORECASE,
)
# Without these letters no name of bacteria is looked for, which takes long.
_GERMS = re.compile(r"coli|ba[ck]t|germ|g[ée]rm|keim|microb|micr[óo]b|entero|bugs", re.IGNORECASE)
_PAIR = 2  # cells of a name and a word
_SHORT = 8  # words of such a line
_SUBJECTS = {Role.NAME, Role.CODE, Role.CAS, Role.RESULT}
_LIMITS = (Role.REPORTING_LIMIT, Role.DETECTION_LIMIT)
_SHOWN = 60  # letters of a line that is left aside
_WORDS = 60  # of a line among which a name is looked for
_NAME = 3  # words of a name
_LONGEST = 600

Row = tuple[str, int, int]  # sheet, page, line
_Left = tuple[int, str, list[str]]  # column, cell, its figures that are in no account


def unaccounted(
    sheets: Sequence[Sheet],
    tables: Iterable[Table],
    made: tuple[Sequence[DraftSample], Iterable[NotTaken], Iterable[tuple[Place, str]]],
    catalogue: Catalogue,
    today: date,
) -> list[NotTaken]:
    """Every figure and every word for one that is in no result and in no list, with its place.

    Args:
        sheets: All cells of the file.
        tables: The tables that were found in them.
        made: The results, what was listed as not taken, and what is kept of words beside them.
        catalogue: To know a parameter's name.
        today: No date after it is a fact.
    """
    samples, left, kept = made
    # Beside a result that can't be kept stands what nobody will see.
    unkept = {one.place for one in left if not one.is_aside}
    account = _Account(catalogue, today, unkept)
    for table in tables:
        account.strike_table(table)
    settled = account.settled(sheets)
    for sample in samples:
        for result, mark in zip(sample.sample.results, sample.marks, strict=True):
            place = mark.place
            if place.row not in settled.get(place.sheet, ()):
                account.strike(place, result.reading.text, result.name, result.reading.unit)
    for one in left:
        account.strike(one.place, one.what)
    for place, text in kept:
        account.strike(place, text)
    return [*account.asides.values(), *(o for sheet in sheets for o in account.left_in(sheet))]


@dataclass(slots=True)
class _Account:
    """What is struck off, by row.

    Attributes:
        catalogue: To know a parameter's name.
        today: No date after it is a fact.
        unkept: Where a figure stands of which no result was made.
        asides: The first figure of each column that holds limits.
    """

    catalogue: Catalogue
    today: date
    unkept: set[Place]
    asides: dict[str, NotTaken] = field(default_factory=dict)
    _struck: dict[Row, list[str]] = field(default_factory=dict)
    _whole: set[Row] = field(default_factory=set)  # rows each cell of which has a meaning
    _heads: set[str] = field(default_factory=set)  # words over tables, beside no figure of theirs
    _flags: dict[int, bytearray] = field(default_factory=dict)  # the same for sheets as they are

    def strike(self, place: Place, *texts: str) -> None:
        """Strike off what stands somewhere."""
        if _row(place) not in self._whole:
            self._struck.setdefault(_row(place), []).extend(texts)

    def strike_table(self, table: Table) -> None:
        """Strike off what the columns of a table mean, and the words over them."""
        self._heads |= {cell.strip() for cell in table.heading if not is_reading(cell)}
        if table.cells:
            for index, row in zip(table.indexes, table.rows, strict=True):
                result = row[table.columns[Role.RESULT]]
                words = (cell for cell in row if cell and not _is_result(cell))
                limits = (row[table.columns[role]] for role in _LIMITS if role in table.columns)
                self.strike(
                    table.source.place(index, 0), result, *words, *filter(_is_result, limits)
                )
                self._heads |= {cell for cell in row if cell and not is_reading(cell)}
            self._strike_asides(table)
            return
        known = set(table.columns.values())
        width = max(map(len, table.rows), default=0)
        known |= {i for i in range(width) if i not in known and why_not(at(table.heading, i))[1]}
        others = [i for i in range(width) if i not in known]
        flags = self._flags.setdefault(id(table.source), bytearray(len(table.source.rows)))
        places = self._shared(table.source)
        for index, row in zip(table.indexes, table.rows, strict=True):
            rest = others and any(row[i] for i in others if i < len(row))
            if not rest and places is None and not self.unkept:
                flags[index] = 1
                continue
            place = table.source.place(index, table.columns[Role.RESULT])
            if place in self.unkept:
                self.strike(place, at(row, table.columns[Role.RESULT]))
            elif rest or (places and places[place.page, place.row] > 1):
                self.strike(place, *(at(row, i) for i in known))
            else:
                self._whole.add(_row(place))

    def _strike_asides(self, table: Table) -> None:
        """Strike off what stands in columns of limits, and list each of these columns once."""
        listed = {(one.place.row, one.what) for one in table.not_taken}
        for column in range(len(table.heading)):
            heading = at(table.heading, column)
            if aside(heading) != LIMIT or column in table.cells:
                continue
            why = why_not(heading)[0]
            cells = {i: text for i in table.indexes if (text := at(table.source.rows[i], column))}
            for index, text in cells.items():
                place = table.source.place(index, column)
                if any(map(str.isdigit, text)) and (place.row, text) not in listed:
                    self.strike(place, text)
                    self.asides.setdefault(
                        place.sheet + why, NotTaken(text, why, place, is_aside=True)
                    )

    def settled(self, sheets: Sequence[Sheet]) -> dict[str, set[int]]:
        """Numbers of the rows of which nothing is left, by the name of their sheet."""
        names = Counter(sheet.name for sheet in sheets)
        return {
            sheet.name: {n for n, flag in enumerate(self._flags[id(sheet)], 1) if flag}
            for sheet in sheets
            if id(sheet) in self._flags and not sheet.lines and names[sheet.name] == 1
        }

    @staticmethod
    def _shared(sheet: Sheet) -> Counter[tuple[int, int]] | None:
        """How many rows were made of each line, as of `2014: nitrate 3, coliform absent`."""
        return Counter((line.page, line.number) for line in sheet.lines) if sheet.lines else None

    def left_in(self, sheet: Sheet) -> Iterator[NotTaken]:
        """What of a sheet is in no account."""
        flags = self._flags.get(id(sheet)) or bytearray(len(sheet.rows))
        for index, row in enumerate(sheet.rows):
            if flags[index]:
                continue
            yield from self._told_of_none(sheet, index, row)
            if not any(_is_telling(cell) for cell in row):
                continue
            if _row(sheet.place(index, 0)) not in self._whole:
                yield from self._left_in_row(sheet, index, row)

    def _told_of_none(self, sheet: Sheet, index: int, row: Cells) -> Iterator[NotTaken]:
        """A word such as `none` in a line such as `E. coli none`, of which nothing was made."""
        cells = [cell.strip() for cell in row if cell.strip()]
        text = " ".join(cells)[:_LONGEST] if len(cells) <= _PAIR else ""
        found = _NONE.search(text)
        if found is None:
            return
        is_short = len(text) <= _SHOWN and len(text.split()) <= _SHORT
        if not ((is_short and self._names_something(row)) or self._names_germs(text)):
            return
        place = sheet.place(index, 0)
        struck = " ".join(self._struck.get(_row(place), [])).casefold()
        if found[0].casefold() not in struck and _row(place) not in self._whole:
            yield NotTaken(found[0], _("nothing tells what it is"), place)

    def _left_in_row(self, sheet: Sheet, index: int, row: Cells) -> Iterator[NotTaken]:
        texts = self._struck.get(_row(sheet.place(index, 0)), [])
        known = Counter(texts)
        rest: list[tuple[int, str]] = []
        tokens: Counter[str] = Counter()
        for i, cell in enumerate(row):
            text = cell.strip()
            if known[text] > 0:
                known[text] -= 1
            elif _is_telling(text) and text not in self._heads:
                rest.append((i, text))
        for text in known.elements():
            tokens.update(_tokens(text, self.today))
        left = [(i, cell, figures) for i, cell in rest if (figures := self._missing(cell, tokens))]
        if left:
            yield from self._listed(sheet, index, self._without_facts(sheet, index, row, left))

    def _missing(self, cell: str, tokens: Counter[str]) -> list[str]:
        """Figures and words of a cell that are not struck off; those that are, are used up."""
        missing = []
        for token in _tokens(cell, self.today):
            if tokens[token] > 0:
                tokens[token] -= 1
            else:
                missing.append(token)
        return self._without_page(cell, missing) if missing else []

    def _without_page(self, cell: str, missing: list[str]) -> list[str]:
        """What is missing of a cell, without the number of a page."""
        told = set(_tokens(without_page(cell[:_LONGEST]), self.today))
        return [token for token in missing if token in told]

    def _names_something(self, row: Cells) -> bool:
        """Whether a row names what can be measured, in a cell or within its words."""
        if any(is_parameter(cell, self.catalogue) for cell in row):
            return True
        texts = _runs(" ".join(row))
        return any(self.catalogue.find(text) or means_germs(text) for text in texts)

    def _names_germs(self, text: str) -> bool:
        return bool(_GERMS.search(text)) and any(
            asks_presence(run, self.catalogue) for run in _runs(text)
        )

    def _without_facts(
        self, sheet: Sheet, index: int, row: Cells, left: list[_Left]
    ) -> list[_Left]:
        """Cells of a row without those that are words of a heading, or tell facts of a sample."""
        words = told(roles_of(row))
        if len(words) > 1 and words & _SUBJECTS:
            return [one for one in left if _is_result(one[1])]
        above = sheet.rows[index - 1] if index else []
        facts = facts_in(row, self.today) | facts_below(above, row, self.today)
        told_here = " ".join(facts.values())
        return [
            (column, cell, figures)
            for column, cell, all_of_it in left
            if (figures := [one for one in all_of_it if _is_result(cell) or one not in told_here])
        ]

    def _listed(self, sheet: Sheet, index: int, left: list[_Left]) -> Iterator[NotTaken]:
        row = sheet.rows[index]
        names = bool(left) and self._names_something(row)
        beside: list[tuple[int, str]] = []
        for column, cell, figures in left:
            if not names and not _is_result(cell):
                beside.append((column, cell))
                continue
            why = _("nothing tells what it is")
            for figure in [cell] if is_reading(cell) else figures:
                yield NotTaken(figure, why, sheet.place(index, column))
        if beside:
            what = " ".join(cell for _column, cell in beside)
            what = what if len(what) <= _SHOWN else f"{what[:_SHOWN]}…"
            why = _("words beside the results")
            yield NotTaken(what, why, sheet.place(index, beside[0][0]), is_aside=True)


def _runs(text: str) -> Iterator[str]:
    """Runs of a few words of a text, of which one may be a name."""
    words = re.findall(r"[^\W\d_][\w.-]*", text[:_LONGEST])[:_WORDS]
    runs = (words[i : i + n] for i in range(len(words)) for n in range(1, _NAME + 1))
    return (" ".join(run) for run in runs if len("".join(run)) > 1)


def _row(place: Place) -> Row:
    return place.sheet, place.page, place.row


def _is_telling(text: str) -> bool:
    """Whether a cell holds a figure, or a word for one."""
    return any(map(str.isdigit, text)) or _is_word(text) or bool(_WORD.search(text))


def _is_word(text: str) -> bool:
    """Whether a cell is a word for a figure, such as `ND`; one letter is a flag."""
    is_said = len(text) > 1 and any(map(str.isalnum, text))
    return is_said and is_reading(text) and not role_of(text)


def _is_result(text: str) -> bool:
    """Whether a cell alone looks like a result, and not like a number of something."""
    return (is_figure(text) or _is_word(text)) and not text.strip().isdigit()


def _tokens(text: str, today: date) -> list[str]:
    """The figures and the words for one within a text, without its days and times."""
    text = text.strip()[:_LONGEST]
    if not any(map(str.isdigit, text)):
        if _is_word(text):
            return [text.casefold()]
        return [found.casefold() for found in _WORD.findall(text)]
    printed = taken_apart(text, today)
    if (printed and is_whole_day(printed.rest)) or (":" in text and clock(text)):
        return []
    spans = days_within(text, today)
    for start, end in reversed(spans):
        text = text[:start] + " " + text[end:]
    text = _TIME.sub(" ", text) if spans else text
    return _FIGURE.findall(text) + [found.casefold() for found in _WORD.findall(text)]
