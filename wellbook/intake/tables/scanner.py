"""Down a sheet, row by row: results into tables, words beside them into facts."""

import re
from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import date
from operator import itemgetter

from wellbook.intake.files.sheets import Cells, Sheet, alone
from wellbook.intake.tables.cells import (
    asks_presence,
    at,
    day_over,
    is_day_alone,
    is_over,
    is_parameter,
)
from wellbook.intake.tables.columns import Columns, assign, is_reading, without_initials
from wellbook.intake.tables.loose_cells import in_no_column, left_aside, loose, too_wide
from wellbook.intake.tables.tables import Table, told
from wellbook.intake.tables.units_above import UnitsAbove
from wellbook.intake.words.asides import aside, compares_checks, heads_checks, is_check, section
from wellbook.intake.words.headings import role_of, roles_of, unit_in
from wellbook.intake.words.lab_words import is_result_word, says_some
from wellbook.intake.words.letterheads import is_letterhead
from wellbook.intake.words.names import read_name
from wellbook.intake.words.preamble import (
    OF_A_KIND,
    OF_ONE_SAMPLE,
    Facts,
    facts_below,
    facts_in,
    is_of_facts,
    of_title,
    says_a_fact,
    stands_alone,
)
from wellbook.intake.words.roles import Role
from wellbook.support.errors import Fault
from wellbook.support.translation import _
from wellbook.water.units.basis import SPELLED_OUT
from wellbook.water.units.conversion import understand
from wellbook.water.values.catalogue import Catalogue

_FORMAT_CODE = re.compile(r"^\d{1,3}[sdn]$")  # second heading row of a USGS RDB file
_BASIS = re.compile(rf"\(\s*{SPELLED_OUT}\s*\)$")
_USUAL = 3
_TITLES = 12  # rows above a further heading among which its sample's title stands
_LOOK = 300  # rows below a heading from which its columns are judged
_TOLD_BY_ALL = {Role.NAME, Role.RESULT, Role.UNIT}  # a sample's number may look like a telephone's
_BESIDE = {
    *(Role.CONDITION, Role.QUALIFIER, Role.DETECTED, Role.SIGN, Role.REMARK, Role.UNIT),
    *(Role.METHOD, Role.REPORTING_LIMIT, Role.DETECTION_LIMIT, Role.DATE, Role.NUMBER),
}
_OF_NO_OTHER = {*OF_ONE_SAMPLE, Role.DRAW}  # what a sample tells of no other one


@dataclass(slots=True)
class TableScanner:
    """One pass over a sheet.

    Attributes:
        sheet: The sheet.
        name: Name of the file, for messages.
        catalogue: To know a parameter's name.
        today: No date after it is a fact.
    """

    sheet: Sheet
    name: str
    catalogue: Catalogue
    today: date
    _done: list[Table] = field(default_factory=list)
    _table: Table = field(default_factory=lambda: Table(Sheet("", []), {}, {}))
    _later: Facts = field(default_factory=dict)  # since the last row of results
    _units: UnitsAbove = field(init=False)
    _width: int = 0
    _need: int = 0
    _subject: int = 0
    _result: int = 0
    _also: list[int] = field(default_factory=list)  # more columns of results
    _others: frozenset[int] = frozenset()  # columns of roles that only a row of results has
    _known: set[tuple[str, ...]] = field(default_factory=set)  # words of rows of results
    _words_of: dict[int, Callable[[Cells], tuple[str, ...]]] = field(default_factory=dict)
    _subjects: dict[str, bool] = field(default_factory=dict)
    _named: dict[str, bool] = field(default_factory=dict)  # whether a subject is a parameter
    _days_alone: int = -1  # lines that hold a day alone; -1 until they are counted
    _is_day_told_twice: bool = False  # by a diary's day and a line before it
    _is_below_checks: bool = False
    _section: str = ""  # the last title between tables that is over checks of the lab's
    _aside: str = ""  # words over figures that are no results, such as `Limit`

    def __post_init__(self) -> None:
        self._units = UnitsAbove(self.catalogue)

    def begin(self, heading: Cells, columns: Columns, facts: Facts) -> None:
        """Start a table under a heading."""
        if self._table.rows:
            self._done.append(self._table)
        without_initials(columns, heading, self.sheet.rows)
        is_guessed = self._settle_day(heading, columns, facts)
        unit = unit_in(heading[columns[Role.RESULT]]) if columns[Role.RESULT] < len(heading) else ""
        unit = unit if understand(unit) else self._units.unit
        self._table = Table(self.sheet, columns, facts, unit, heading)
        self._table.is_day_guessed = is_guessed
        widths = Counter(len(row) for row in self.sheet.rows if len(row) > 1)
        usual, times = widths.most_common(1)[0]
        # A last column without a heading stands in most rows, a stray separator in one or two.
        self._width = max(len(heading), usual if times >= _USUAL or not heading else 0)
        self._need = max(columns.values()) + 1
        self._subject = next(columns[r] for r in (Role.NAME, Role.CODE, Role.CAS) if r in columns)
        self._result = columns[Role.RESULT]
        self._others = frozenset(i for role, i in columns.items() if role not in _TOLD_BY_ALL)
        self._known, self._words_of = set(), {}
        results = (i for i, role in enumerate(roles_of(heading)) if role is Role.RESULT)
        self._also = [i for i in results if i != self._result]

    @staticmethod
    def _settle_day(heading: Cells, columns: Columns, facts: Facts) -> bool:
        """Whether only what stands in a column under other words tells days; a told day is kept."""
        words = at(heading, columns.get(Role.DATE, len(heading)))
        if not words or role_of(words) in {Role.DATE, Role.SOME_DATE}:
            return False
        if Role.DATE in facts:
            del columns[Role.DATE]
            return False
        columns[Role.SOME_DATE] = columns.pop(Role.DATE)
        return True

    def say_guess(self, heading: str) -> None:
        """Keep that only the figures tell that the column under a heading holds the results."""
        self._table.guessed = heading

    def unit_of_all(self, rows: Iterable[Cells]) -> None:
        """Take in what lines above the table say of the unit of all its results."""
        if not self._table.unit:
            self._units.take_above(rows)
            self._table.unit = self._units.unit

    def step(self, index: int) -> None:
        """Take in one row."""
        row = self.sheet.rows[index]
        if len(row) < self._need:
            row = [*row, *[""] * (self._need - len(row))]
        if not row[self._result].strip() and self._also:
            # A second column of results, for words, say, holds what this row has.
            other = next((row[i] for i in self._also if i < len(row) and is_reading(row[i])), "")
            row = [*row[: self._result], other, *row[self._result + 1 :]]
        words = self._words(row)
        if words in self._known or self._tells_a_result(row, words):
            if len(row) > self._width and self._table.heading and not self.sheet.is_paper:
                self._check_width(row, index)
            self._take(row, index)
        elif any(map(str.strip, row)):
            self._other(row, index)

    def _tells_a_result(self, row: Cells, words: tuple[str, ...]) -> bool:
        """Whether a row is one of results; rows of the same `words` that hold a figure are, too."""
        is_one = self._is_subject(row[self._subject]) and self._is_result(row)
        if not is_one or self._is_foot(row, words):
            return False
        if is_reading(row[self._result]):
            self._known.add(words)
        return True

    def _words(self, row: Cells) -> tuple[str, ...]:
        """The subject of a row, and its cells under no role but those that any row has."""
        if len(row) not in self._words_of:
            columns = (i for i in range(len(row)) if i not in self._others)
            self._words_of[len(row)] = itemgetter(self._subject, *columns)
        return self._words_of[len(row)](row)

    def finish(self) -> tuple[list[Table], Facts]:
        """The tables, and what was said outside of them; words below them fill what is missing."""
        self._check_end()
        tables = [table for table in (*self._done, self._table) if table.rows]
        for table in tables:
            table.not_taken += in_no_column(table)
            table.is_unit_usual = self._units.is_asked(table.unit)
        # A title below the last results, such as `Method blank`, is over none of them.
        below: Facts = {role: t for role, t in self._later.items() if role not in OF_A_KIND}
        facts = dict(below)
        kinds = [self._later[role] for role in OF_A_KIND if self._later.get(role)]
        kinds = [] if self._is_below_checks else kinds  # the heading of checks is of no sample
        for table in tables:
            if table.facts.keys().isdisjoint(OF_A_KIND) and self._section not in kinds:
                table.kind_below = next(iter(kinds), "")
            table.facts = {**below, **table.facts}
            facts = {**facts, **table.facts}
        return tables, facts

    def _is_subject(self, text: str) -> bool:
        """Whether a cell names what was measured, and is no heading and no word before a fact."""
        known = self._subjects.get(text)
        if known is None:
            words = any(map(str.isalnum, text)) and not _FORMAT_CODE.match(text.strip())
            is_word = is_reading(text) and len(text.strip()) > 1 and not text.strip().isdigit()
            is_word = is_word or is_result_word(text)
            # A legend such as `n.d. = not detected` names no parameter.
            if words and (is_word or role_of(text) or says_a_fact(text)):
                words = read_name(text, self.catalogue).parameter is not None
            known = self._subjects[text] = words
        return known

    def _is_result(self, row: Cells) -> bool:
        """Whether a row with words in its first column tells a result, and is not prose."""
        text = row[self._result].strip()
        if not text:
            return False
        if is_reading(text):
            return True
        if role_of(text) is Role.RESULT and len(told(roles_of(row))) > 1:
            return False  # a further heading, such as `Minerals`, `Result`, `Unit`
        if is_of_facts(row):
            return False
        if sum(map(bool, row)) > 2:  # noqa: PLR2004
            return True
        subject = row[self._subject]
        is_answer = says_some(text) is not None and asks_presence(subject, self.catalogue)
        return is_answer or is_parameter(subject, self.catalogue)

    def _is_foot(self, row: Cells, words: tuple[str, ...]) -> bool:
        """Whether a row belongs to a letterhead or a footer: a page, a telephone, an address."""
        subject = row[self._subject]
        if subject not in self._named:
            self._named[subject] = is_parameter(subject, self.catalogue)
        is_none = self._named[subject] or any(c and understand(c.strip()) for c in words[1:])
        return not is_none and is_letterhead(words[1:])

    def _take(self, row: Cells, index: int) -> None:
        if self._aside:
            table = next((t for t in (self._table, *self._done[::-1]) if t.rows), self._table)
            table.not_taken += left_aside(self.sheet, index, self._result, self._aside)
            return
        if self._later:
            self._take_facts()
        self._table.rows.append(row)
        self._table.indexes.append(index)

    def _take_facts(self) -> None:
        """Say of the rows that come what stands since the last of results."""
        is_other = bool(self._later.keys() & OF_ONE_SAMPLE)
        kinds = set(OF_A_KIND) & self._later.keys()
        if self._table.rows and (is_other or kinds or Role.DRAW in self._later):
            dropped = {*_OF_NO_OTHER, *OF_A_KIND} if is_other else {*OF_A_KIND} if kinds else set()
            kept = {r: v for r, v in self._table.facts.items() if r not in dropped}
            self._done.append(self._table)
            old = self._table
            self._table = Table(
                old.source, old.columns, {**kept, **self._later}, old.unit, old.heading
            )
        else:
            kind = {role: self._later[role] for role in OF_A_KIND if role in self._later}
            self._table.facts = {**self._later, **self._table.facts, **kind}
        self._table.is_day_guessed |= self._is_day_told_twice
        self._later, self._is_day_told_twice = {}, False

    def _add_basis(self, row: Cells, index: int) -> bool:
        """Whether a line alone is the second one of a name, such as `(als NO3)` below `Nitrat`."""
        text = row[self._subject].strip()
        table = self._table
        if text[:1] != "(" or table.indexes[-1:] != [index - 1] or alone(row) != text:
            return False
        if not _BASIS.match(text):
            return False
        name = f"{table.rows[-1][self._subject].strip()} {text}"
        cells = table.rows[-1]
        table.rows[-1] = [*cells[: self._subject], name, *cells[self._subject + 1 :]]
        return True

    def _other(self, row: Cells, index: int) -> None:
        if self._add_basis(row, index):
            return
        roles = roles_of(row)
        is_heading = len(told(roles)) > 1 and told(roles) & {Role.NAME, Role.CODE, Role.RESULT}
        if is_heading and not is_of_facts(row):
            self._heading(row, roles, index)
            return
        if self._is_row(row):
            self._take(row, index)
            return
        if heads_checks(row) and not any(map(is_reading, row)):
            self._later[Role.KIND] = next(filter(is_check, row))
            self._is_below_checks = True
            return
        self._unit_of_title(row)
        title = section(row)
        above = self.sheet.rows[index - 1] if index else []
        facts = facts_below(above, row, self.today) | facts_in(row, self.today)
        facts = facts or self._day_alone(row) or self._of_title(row, index)
        self._section = self._section if title is None else title
        self._later |= facts if title is None else {Role.KIND: title}
        if not facts and title is None:
            self._table.not_taken += loose(self.sheet, index, row, self._result)

    def _unit_of_title(self, row: Cells) -> None:
        """Take in the unit that a title says of the results below it, up to the next title."""
        unit, old, units = self._units.of_title(row), self._table, self._units
        if unit is None or unit == units.titled or Role.UNIT in old.columns:
            return
        if old.unit not in {units.titled, units.stated}:
            return  # the heading says it
        units.titled = unit
        if old.rows:
            self._done.append(old)
            self._table = Table(old.source, old.columns, old.facts, "", old.heading)
            self._table.is_day_guessed = old.is_day_guessed
        self._table.unit = units.unit

    def _day_alone(self, row: Cells) -> Facts:
        """The day that stands alone over what was measured on it, as in a diary."""
        if not is_day_alone(row, self.today):
            return {}
        if self._days_alone < 0:
            self._days_alone = sum(is_day_alone(one, self.today) for one in self.sheet.rows)
        if self._days_alone > 1:  # a day told before it, on which nothing was measured, is past
            self._is_day_told_twice |= self._later.pop(Role.DATE, None) is not None
            return {Role.SOME_DATE: day_over(row)}
        return {}

    def _of_title(self, row: Cells, index: int) -> Facts:
        """The day over a table, and the place beside it; other words only right above a heading."""
        facts = of_title(alone(row), self.today)
        below = (one for one in self.sheet.rows[index + 1 : index + 3] if any(map(str.strip, one)))
        is_above = len(told(roles_of(next(below, [])))) > 1
        return facts if is_above or Role.POINT in facts else {}

    def _heading(self, row: Cells, roles: list[Role | None], index: int) -> None:
        self._said_in_title(index)
        columns = assign(roles, self.sheet.rows[index + 1 : index + 1 + _LOOK], self.catalogue)
        if (Role.RESULT not in roles and heads_checks(row)) or compares_checks(row):
            self._later[Role.KIND] = next(filter(is_check, row))
            self._is_below_checks = True
            return
        words = at(row, columns[Role.RESULT] if columns else self._result)
        self._aside = words if aside(words) and role_of(words) is not Role.RESULT else ""
        is_same = columns == self._table.columns and is_over(
            self.sheet.rows, index, self._result, at(self._table.heading, self._result)
        )
        if columns is None or is_same:
            if columns and self._is_below_checks:
                self._later[Role.KIND] = ""  # results again
                self._is_below_checks = False
            return  # the same heading again, at the top of a page
        facts, self._later = self._later, {}
        dropped = {*_OF_NO_OTHER, *OF_A_KIND} if facts.keys() & OF_ONE_SAMPLE else set()
        old = {r: v for r, v in self._table.facts.items() if r not in dropped}
        if self._section and self._table.facts.get(Role.KIND) == self._section:
            old[Role.KIND] = self._section  # it is over several samples
        self.begin(row, columns, {**old, **facts})

    def _said_in_title(self, index: int) -> None:
        """Take in the place or the draw that stands alone over a further heading."""
        table = self._table
        start = max(table.indexes[-1] + 1, index - _TITLES) if table.indexes else index
        titles = stands_alone(self.sheet.rows[start:index], self.today)
        if self._later.keys() & {Role.POINT, Role.CLIENT_NUMBER}:
            titles.pop(Role.POINT, None)
        for role in titles.keys() & {Role.POINT, Role.DRAW}:
            if titles[role] != table.facts.get(role):
                self._later.setdefault(role, titles[role])

    def _is_row(self, row: Cells) -> bool:
        """Whether a row without a name or without a result is still one of the table."""
        subject, columns = row[self._subject].strip(), self._table.columns
        if self._is_foot(row, self._words(row)):
            return False
        if not subject:
            return is_reading(row[self._result])
        beside = {role for role in _BESIDE & columns.keys() if row[columns[role]].strip()}
        if beside == {Role.UNIT} and not is_parameter(subject, self.catalogue):
            beside = {Role.UNIT} if understand(row[columns[Role.UNIT]].strip()) else set()
        if not beside or not self._is_subject(row[self._subject]):
            return False
        return not row[self._result].strip() and not self._is_pair(row)

    def _is_pair(self, row: Cells) -> bool:
        """Whether a row is a word with another behind it, such as who signed; nothing measured."""
        cells = [cell.strip() for cell in row if cell.strip()]
        unit = row[self._table.columns.get(Role.UNIT, self._subject)]
        is_known = is_parameter(row[self._subject], self.catalogue) or understand(unit.strip())
        return len(cells) == 2 and not is_known  # noqa: PLR2004

    def _check_width(self, row: Cells, index: int) -> None:
        if any(map(str.strip, row[self._width :])):
            raise too_wide(self.name, self.sheet.number(index), len(row), self._width)

    def _check_end(self) -> None:
        """Refuse a file whose last row stops before its end."""
        rows, table = self.sheet.rows, self._table
        if not (self.sheet.has_open_end and table.indexes and table.indexes[-1] == len(rows) - 1):
            return
        others = [len(rows[index]) for index in table.indexes[:-1]]
        if others and len(rows[-1]) < min(others):
            raise Fault(
                _(
                    "{name} is damaged: it stops in the middle of row {n}. Ask for the file again."
                ).format(name=self.name, n=len(rows))
            )
