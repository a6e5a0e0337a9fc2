"""From rows to samples: by sampling day and time, point and number."""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from operator import itemgetter
from typing import Any

from wellbook.book.rows import NewDocument, NewResult, NewSample
from wellbook.intake.draft import DraftSample, Mark
from wellbook.intake.files.sheets import Cells, Sheet
from wellbook.intake.samples.days import Days
from wellbook.intake.samples.flags_beside import changed, may_change, unread
from wellbook.intake.samples.legends import Legends, amended_columns
from wellbook.intake.samples.oddities import open_kind
from wellbook.intake.samples.other_waters import open_sample, open_sheet, other_sample, other_sheet
from wellbook.intake.samples.repeats import repeated
from wellbook.intake.samples.results import ROLES as RESULT_ROLES
from wellbook.intake.samples.results import Made, Maker, is_figure, with_figure
from wellbook.intake.tables.tables import NotTaken, Table
from wellbook.intake.words.asides import is_place
from wellbook.intake.words.log import Log, Trouble
from wellbook.intake.words.names import read_draw
from wellbook.intake.words.roles import Role
from wellbook.support.translation import N_, _
from wellbook.water.values.findings import Severity
from wellbook.water.values.readings import Kind
from wellbook.water.values.signs import normal_name

ROLES = (
    *(Role.DATE, Role.SOME_DATE, Role.TIME, Role.ZONE, Role.POINT, Role.WELL, Role.NUMBER),
    *(Role.REPORT_NUMBER, Role.CLIENT_NUMBER, Role.LAB, Role.RECEIVED, Role.RECEIVED_TIME),
    *(Role.REPORTED, Role.SAMPLER, Role.PURPOSE, Role.TEMPERATURE),
)
"""The columns that tell about a sample."""

# Common words on order forms, no source.
_PURPOSES = tuple(
    (purpose, re.compile(words, re.IGNORECASE))
    for purpose, words in (
        ("loan", r"loan|mortgage|refinanc|lender|\bfha\b|\bva\b|\busda\b"),
        ("sale", r"sale|real estate|transfer|closing|buyer|purchase"),
        ("new well", r"new well|new construction|well completion"),
        ("treatment check", r"treat|softener|filter"),
        ("complaint", r"complaint|taste|odou?r"),
        ("after an event", r"flood|repair|disinfect|chlorinat|resample|re-?test|event"),
        ("routine", r"routine|annual|yearly|regular|monitoring"),
    )
)

_PLACE_NUMBER = re.compile(r"[^\W\d_]+(?: [^\W\d_]+)*[-_ #.]{0,2}\d{0,2}")
_Key = tuple[str, ...]

_MEASURED = {Kind.NUMBER, Kind.BELOW, Kind.ABOVE}


@dataclass(slots=True)
class _Bucket:
    """A sample while its rows come in; its facts are those of `NewSample`."""

    point_name: str
    facts: Mapping[str, Any]
    doubts: tuple[str, ...] = ()
    results: list[NewResult] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)


_Found = tuple[_Bucket | Trouble, str, list[Trouble]]


class _Rows:
    """Makes results from the rows of one table; rows that say the same share one result.

    Attributes:
        key: Gives the cells by which rows say the same.
        made: What was made already, by them.
    """

    def __init__(self, table: Table, maker: Maker) -> None:
        self._table = table
        self._maker = maker
        self._roles, self.key = _getter(table, RESULT_ROLES)
        self._result = table.columns[Role.RESULT]
        beside = tuple(role for role in RESULT_ROLES if role is not Role.RESULT)
        self._beside = _getter(table, beside)[1]
        self.made: dict[_Key, Made] = {}
        self._like: dict[tuple[_Key, bool], Made] = {}
        signs = {Role.SIGN, Role.REMARK, Role.DETECTED} & table.columns.keys()
        self._is_slow = bool(signs) or maker.decimal_comma is not False

    def make(self, row: Cells, key: _Key) -> Made:
        """What a row tells that was not made yet."""
        made = self.made[key] = self._make(row, key)
        return made

    def _make(self, row: Cells, key: _Key) -> Made:
        text = row[self._result]
        if self._is_slow or not is_figure(text):
            return self._full(key)
        like = (self._beside(row), text[0] == "<")
        first = self._like.get(like)
        if first is not None:
            return with_figure(first, text)
        made = self._like[like] = self._full(key)
        return made

    def _full(self, key: _Key) -> Made:
        cells = {**self._table.facts, **_told(self._roles, key)}
        made = self._maker.make(cells, self._table.unit)
        if not self._table.is_unit_usual or cells.get(Role.UNIT):
            return made
        own = self._maker.make(cells, "")
        reading = own.result.reading if own.result else None
        is_open = reading is not None and reading.kind in _MEASURED and not reading.unit
        return _with_usual_unit(made, self._table.unit) if is_open else own


def _with_usual_unit(made: Made, unit: str) -> Made:
    """With the question whether a unit, told of all results `unless noted`, is that of one."""
    result = made.result
    if result is None or result.reading.unit != unit:
        return made
    text = _(
        "{name} is printed without a unit of its own, and a line says {unit} for all results that "
        "say nothing else: look on the report whether it is its unit."
    ).format(name=result.name, unit=unit)
    return replace(made, troubles=(*made.troubles, Trouble("usual_unit", text)))


@dataclass(slots=True)
class Grouping:
    """Puts the results of all tables of a file into their samples.

    Attributes:
        days: Reads the dates of the file.
        maker: Makes the results.
        log: Where odd things are noted.
        not_taken: Rows of which no result was made.
    """

    days: Days
    maker: Maker
    log: Log
    not_taken: list[NotTaken] = field(default_factory=list)
    _buckets: dict[_Key, _Bucket] = field(default_factory=dict)

    def take(self, table: Table) -> None:
        """Take in all rows of a table. Rows that say the same share one result."""
        sample_roles, of_sample = _getter(table, ROLES)
        rows = _Rows(table, self.maker)
        near: dict[_Key, _Found] = {}
        last: _Found | None = None
        guesses = (("guessed_column", table.guessed), ("some_date", table.is_day_guessed))
        doubts = tuple(key for key, is_guessed in guesses if is_guessed)
        asked = open_kind(table.facts, table.columns, table.kind_below) if table.rows else None
        asked = asked or (open_sheet(table.source.name) if table.rows else None)
        if asked:
            self._tell(table, 0, (asked,))
            doubts = (*doubts, asked.key)
        amended = amended_columns(table.heading)
        others = unread(table)
        for at, (row, place) in enumerate(zip(table.rows, table.places(), strict=True)):
            where = of_sample(row)
            found = near.get(where)
            if found is None:
                told = _told(sample_roles, where)
                if last and not told:
                    found = last  # a row that leaves all of this blank goes with the one above
                else:
                    found = near[where] = self._bucket(told, table)
            last = found
            bucket, own_lab, odd = found
            key = rows.key(row)
            what = rows.made.get(key) or rows.make(row, key)
            if amended or others:
                said = [i for i in amended if row[i:] and any(map(str.isdigit, row[i]))]
                said += [i for i in others if row[i:] and may_change(row[i])]
                words = [f"{table.heading[i]}: {row[i]}" for i in said]
                what = _asked(what, words) if words else what
            aside = bucket if isinstance(bucket, Trouble) else None
            if aside or what.result is None or what.troubles:
                self._tell(table, at, (aside,) if aside else what.troubles)
            if what.result is None or isinstance(bucket, Trouble):
                self._leave_out(table, at, aside or next(iter(what.troubles), None))
                continue
            if odd:
                self._tell(table, at, odd)
                odd.clear()
            bucket.results.append(replace(what.result, lab=own_lab) if own_lab else what.result)
            open_ones = (*doubts, *bucket.doubts, *(what.doubts if what.troubles else ()))
            bucket.marks.append(Mark(place, open_ones))

    def _tell(self, table: Table, at: int, troubles: Iterable[Trouble]) -> None:
        for trouble in troubles:
            self.log.add(trouble, *table.source.where(table.indexes[at]))

    def _leave_out(self, table: Table, at: int, why: Trouble | None) -> None:
        text = table.rows[at][table.columns[Role.RESULT]].strip()
        if text and why:
            is_aside = why.severity == Severity.NOTE
            self.not_taken.append(NotTaken(text, _(why.text), table.place(at), is_aside))

    def samples(
        self, document: NewDocument, sheets: Iterable[Sheet] = ()
    ) -> tuple[DraftSample, ...]:
        """The samples in the order in which they came, each with the whole file as document."""
        legends = Legends.of(sheets, self.maker.catalogue)
        for bucket in self._buckets.values():
            self._ask_about_repeats(bucket)
            for place, words in legends.against(bucket.results):
                self._ask(bucket, place, changed(words, bucket.results[place].name))
        return tuple(
            DraftSample(
                bucket.point_name,
                NewSample(**bucket.facts, results=tuple(bucket.results), documents=(document,)),
                marks=tuple(bucket.marks),
            )
            for bucket in self._buckets.values()
            if bucket.results
        )

    def _ask_about_repeats(self, bucket: _Bucket) -> None:
        for places, trouble in repeated(bucket.results):
            for place in places:
                self._ask(bucket, place, trouble)

    def _ask(self, bucket: _Bucket, place: int, trouble: Trouble) -> None:
        mark = bucket.marks[place]
        bucket.marks[place] = Mark(mark.place, (*mark.doubts, trouble.key))
        self.log.add(trouble, mark.place.page or mark.place.sheet, mark.place.row)

    def _bucket(self, told: Mapping[Role, str], table: Table) -> _Found:
        """The sample of a row, or why it is none, and the row's lab where it is not the sample's.

        What is odd about the sample is told with its first result.
        """
        check = other_sheet(table.source.name) or other_sample({**table.facts, **told})
        if check:
            return check, "", []
        collected, troubles = self.days.collected(told, table.facts)
        cells = {**table.facts, **told}
        received, more = self.days.read(
            cells.get(Role.RECEIVED, ""),
            cells.get(Role.RECEIVED_TIME, ""),
            "",
            N_("day of receipt"),
        )
        reported, even_more = self.days.read(
            cells.get(Role.REPORTED, ""), what=N_("day of the report")
        )
        odd = [*troubles, *more, *even_more]
        point = _first(cells, Role.POINT, Role.CLIENT_NUMBER, Role.WELL) or _place_in_number(cells)
        lab_number = _first(cells, Role.NUMBER, Role.REPORT_NUMBER)
        named = (cells.get(role, "") for role in (Role.POINT, Role.CLIENT_NUMBER, Role.WELL))
        draw = next(filter(None, map(read_draw, named)), "")
        key = (collected.iso(), normal_name(point), lab_number, draw)
        found = self._buckets.get(key)
        if found is None:
            facts = {
                "point": 0,
                "collected": collected,
                "lab": cells.get(Role.LAB, ""),
                "lab_number": lab_number,
                "received": received,
                "reported": reported.day.isoformat() if reported else "",
                "sampler": cells.get(Role.SAMPLER, ""),
                "purpose": _purpose(cells.get(Role.PURPOSE, "")),
                "temperature": cells.get(Role.TEMPERATURE, ""),
                "draw": draw,
            }
            asked = open_sample(cells)
            odd += [asked] if asked else []
            found = self._buckets[key] = _Bucket(point, facts, (asked.key,) if asked else ())
        lab = cells.get(Role.LAB, "")
        return found, "" if lab == found.facts["lab"] else lab, odd


def _asked(made: Made, said: Iterable[str]) -> Made:
    """With the questions whether words beside a result change it."""
    if made.result is None:
        return made
    asked = (changed(words, made.result.name) for words in said)
    return replace(made, troubles=(*made.troubles, *asked))


def _purpose(text: str) -> str:
    """One of the purposes that the record knows; empty for others."""
    if not text:
        return ""
    return next((purpose for purpose, words in _PURPOSES if words.search(text)), "")


def _place_in_number(cells: Mapping[Role, str]) -> str:
    """A number of the sample that names a place, such as `WELL-1`, and counts no samples."""
    number = cells.get(Role.NUMBER, "")
    return number if _PLACE_NUMBER.fullmatch(number) and is_place(number) else ""


def _first(cells: Mapping[Role, str], *roles: Role) -> str:
    return next((cells[role] for role in roles if cells.get(role)), "")


def _getter(
    table: Table, roles: tuple[Role, ...]
) -> tuple[tuple[Role, ...], Callable[[Cells], _Key]]:
    """The roles that the table has columns for, and what fetches their cells from a row."""
    present = tuple(role for role in roles if role in table.columns)
    indexes = [table.columns[role] for role in present]
    if len(indexes) > 1:
        return present, itemgetter(*indexes)
    return present, lambda row: tuple(row[index] for index in indexes)


def _told(roles: tuple[Role, ...], cells: _Key) -> dict[Role, str]:
    return {role: cell.strip() for role, cell in zip(roles, cells, strict=True) if cell.strip()}
